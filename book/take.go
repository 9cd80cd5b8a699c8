package book

// Take moves the state on by an entry that is to be written next, like Admit but in place: what it costs does not grow
// with the book. That goes for what happens at the sink, facts about baths, batches, prints and evenings that draw nothing from a
// lot, and for corrections of such facts. Of everything else it reports false and does nothing; Admit is for that. On an error,
// which is Admit's, the state is as before.
func (s *State) Take(e Entry, find Finder) (taken bool, err error) {
	switch {
	case e.Kind == Correction:
		if alone, err := s.takesBackAlone(e.TakesBack, find); !alone || err != nil {
			return false, err
		}
	case !e.Kind.standsAlone():
		return false, nil
	}
	err = s.admit(e, find)
	return err == nil, err
}

// standsAlone reports whether nothing else in the darkroom can be at fault by an entry of the kind or without it: the
// file does not tell of it, and no lot hangs on it.
func (k Kind) standsAlone() bool {
	switch k {
	case Received, Opened, Counted, Drawn, StockMade, BathMixed, BathToppedUp:
		return false
	default:
		return k.Known() && !k.Decides()
	}
}

// takesBackAlone reports whether a correction takes back what stands alone. A correction of a correction does not: with
// what it brings back there may be more than can be.
func (s *State) takesBackAlone(id string, find Finder) (bool, error) {
	target, err := find(id)
	if err != nil {
		if KindOf(err) == NotFound {
			err = nil // Admit refuses it
		}
		return false, err
	}
	return target.Kind.standsAlone(), nil
}
