package ahead

import (
	"slices"

	"wetside/trade/bath"
	"wetside/trade/reckoning"
)

// An unfit is how many strips in a row did not fit what was counted, the last of them high or low.
type unfit struct {
	strips int
	high   bool
}

// leastFit is the share of rooms under which a strip's reading is taken not to fit, on either side, so that with the slips
// of whoever notes it down 2 in 100 are called so wrongly at the most.
const leastFit = 0.005

// fitDraws is how many rooms say what a strip should have read. They learn on from strip to strip and are drawn anew where
// fewer than fitApart of those that were drawn last still differ.
const (
	fitDraws = 500
	fitApart = 0.5
)

// foregone is what went before a strip, with rooms that lived it up to the strip before.
type foregone struct {
	bath.Past
	rooms *bath.Rooms
	lived int     // steps that the rooms lived
	drawn float64 // how many of them differed when they were drawn
}

// now returns the rooms after all that went before.
func (f *foregone) now(seed uint64) (rooms *bath.Rooms, err error) {
	if f.rooms != nil {
		if rooms, err = f.rooms.Learn(f.Steps[f.lived:]...); err != nil {
			return nil, err
		}
	}
	if rooms == nil || rooms.Effective < fitApart*f.drawn {
		if rooms, err = f.Draw(fitDraws, seed); err != nil {
			return nil, err
		}
		f.drawn = rooms.Effective
	}
	f.rooms, f.lived = rooms, len(f.Steps)
	return rooms, nil
}

// fit holds every silver strip against the rooms as they were before it was read. A strip that does not fit teaches nothing
// of what the next one should read, so that the same reading again is not taken for a matter of course.
func (l *looker) fit() error {
	l.unfit = map[int]unfit{}
	if l.scene.aside || !slices.ContainsFunc(l.past.Steps, isStrip) {
		return nil
	}
	before := foregone{Past: l.past}
	before.Steps = nil
	for _, s := range l.past.Steps {
		if seen, read, is := stripOf(s); is {
			fits, err := l.fits(&before, seen.Bath, read)
			if err != nil {
				return err
			}
			if !fits {
				continue
			}
		}
		before.Steps = append(before.Steps, s)
	}
	return nil
}

func isStrip(s bath.Step) bool {
	_, _, is := stripOf(s)
	return is
}

// stripOf returns a step that is a strip that was read.
func stripOf(s bath.Step) (seen bath.Seen, read bath.StripRead, is bool) {
	if seen, is = s.(bath.Seen); is {
		read, is = seen.Test.(bath.StripRead)
	}
	return seen, read, is
}

// fits reports whether a strip reads what it may after what went before, and keeps count where it does not.
func (l *looker) fits(before *foregone, index int, read bath.StripRead) (bool, error) {
	rooms, err := before.now(l.scene.Seed)
	if err != nil {
		return false, err
	}
	chance, high := rooms.Tail(index, read)
	if chance >= leastFit {
		delete(l.unfit, index)
		return true, nil
	}
	last := l.unfit[index]
	if last.high != high {
		last.strips = 0
	}
	l.unfit[index] = unfit{last.strips + 1, high}
	return false, nil
}

// strips says that the last strip does not fit, and that the next is due now.
func (l *looker) strips(o *Outlook) {
	u, odd := l.unfit[o.Index]
	if !odd {
		return
	}
	kind := StripLow
	if u.high {
		kind = StripHigh
	}
	o.more(Finding{Kind: kind, Subject: o.Bath.name(), Figures: []reckoning.Figure{count("strips", float64(u.strips))}})
	if u.strips == 1 {
		o.TestAfter = 0
	}
}
