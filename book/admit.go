package book

import (
	"errors"
	"slices"

	"wetside/darkroom"
)

// A Finder returns the entry of an id out of the same darkroom's book; an error of kind NotFound where there is none.
type Finder func(id string) (Entry, error)

// Admit returns the state after entries that are to be written next, all or none, at the positions that follow; the
// state itself is not changed. The error says why they can't be: an envelope, body or quantity that is wrong or absurd
// (BadInput), or what a decision among them would break (a *RefusedError). Facts are not refused for what else
// happened. An unknown kind or a version from the future is admitted: it is kept for a program that knows it.
func (s *State) Admit(entries []Entry, find Finder) (*State, error) {
	after := s.Clone()
	var decides string
	for _, e := range entries {
		if err := after.admit(e, find); err != nil {
			return nil, err
		}
		if e.Kind.Decides() && decides == "" {
			decides = e.ID
			if e.Kind == Correction {
				decides = e.TakesBack
			}
		}
	}
	if decides == "" {
		return after, nil
	}
	if err := s.withFacts(entries).newFault(after, decides); err != nil {
		return nil, err
	}
	return after, nil
}

// withFacts returns the state after the facts among entries: what they bring about is not laid to the decisions.
func (s *State) withFacts(entries []Entry) *State {
	with := s
	for _, e := range entries {
		if e.Kind.Decides() {
			continue
		}
		if with == s {
			with = s.Clone()
		}
		e.Darkroom, e.Position = with.darkroom, with.position+1
		_ = with.Apply(e) // it is the next: it was admitted before
	}
	return with
}

// admit checks one entry and takes it in. On an error nothing was taken in, but for what lotHolds refuses.
func (s *State) admit(e Entry, find Finder) error {
	body, err := s.check(&e, find)
	switch {
	case err != nil:
		return err
	case body == nil:
		return s.Apply(e) // which keeps it unread
	}
	if err := s.tell(e, body); err != nil {
		return err
	}
	s.position = e.Position
	return s.lotHolds(e, body)
}

// check looks at an entry that is to be written next, without taking it in, and gives it its place. The body is nil where
// a newer program is needed to read it.
func (s *State) check(e *Entry, find Finder) (Body, error) {
	if err := e.Check(); err != nil {
		return nil, err
	}
	e.Darkroom, e.Position = s.darkroom, s.position+1
	body, err := s.old.Read(*e)
	switch {
	case err != nil && KindOf(err) == Newer:
		return nil, nil //nolint:nilnil // it is kept for a program that knows it
	case err != nil:
		return nil, err
	}
	if e.Version == s.old.Version(e.Kind) {
		if err := strict(e.Kind, e.Body); err != nil {
			return nil, badBody(*e, err)
		}
	}
	if err := complete(body); err != nil {
		return nil, badBody(*e, err)
	}
	if err := s.there(*e, body); err != nil {
		return nil, err
	}
	if e.Kind == Correction {
		return body, s.mayTakeBack(e.TakesBack, find)
	}
	return body, nil
}

// CanTakeBack reports why the entry of an id can't be taken back now: a *RefusedError; nil where it can.
func (s *State) CanTakeBack(id string, find Finder) error {
	if err := s.mayTakeBack(id, find); err != nil {
		return err
	}
	after := s.Clone()
	after.derived = newDerived()
	after.corrections.add(Entry{ID: "?", TakesBack: id, Position: s.position + 1})
	return s.newFault(after, id)
}

// mayTakeBack looks at the entry itself and at what stands over it.
func (s *State) mayTakeBack(id string, find Finder) error {
	target, err := find(id)
	switch {
	case err != nil && KindOf(err) == NotFound:
		return &RefusedError{Reason: NoSuchEntry, Entry: id}
	case err != nil:
		return err
	}
	if _, err := s.old.Read(target); err != nil {
		return &RefusedError{Reason: NewerEntry, Entry: id}
	}
	if by := s.corrections.undoer(id); by != "" {
		return &RefusedError{Reason: AlreadyUndone, Entry: id, Because: by}
	}
	root, err := find(s.corrections.root(id))
	if err != nil {
		return err
	}
	if later := s.hides(root); later != "" {
		return &RefusedError{Reason: ChangedSince, Entry: id, Because: later}
	}
	return nil
}

// hides returns the id of a standing entry that came after a thing's and stands in its place, empty for none.
func (s *State) hides(e Entry) string {
	body, err := s.old.Read(e)
	if err != nil {
		return ""
	}
	switch b := body.(type) {
	case *Set:
		return s.later(b.Part, b.ID, e.ID)
	case *Removed:
		return s.later(b.Part, b.ID, e.ID)
	case *Moved:
		return s.movedAfter(b.Second, e.ID)
	}
	return ""
}

// movedAfter returns the id of a standing move of the same bath that came after the given one, empty for none.
func (s *State) movedAfter(bath, entry string) string {
	list := s.deeds[bath]
	own := slices.IndexFunc(list, func(d *deed) bool { return d.entry == entry })
	for _, d := range list {
		if _, moves := d.did.(Move); moves && own >= 0 && d.position > list[own].position && s.corrections.stands(d.entry) {
			return d.entry
		}
	}
	return ""
}

// later returns the id of a standing entry about a part that came after the given one, empty for none.
func (s *State) later(p Part, id, entry string) string {
	c := &s.corrections
	switch p {
	case RoomPart:
		return s.room.after(entry, c)
	case BenchPart:
		return s.bench.after(entry, c)
	case SessionPart:
		return s.session.after(entry, c)
	case VesselPart:
		return s.vessels.after(id, entry, c)
	case TrayPart:
		return s.trays.after(id, entry, c)
	case TankPart:
		return s.tanks.after(id, entry, c)
	case CanPart:
		return s.cans.after(id, entry, c)
	case ProductPart:
		return s.products.after(id, entry, c)
	case PersonPart:
		return s.people.after(id, entry, c)
	}
	return ""
}

// there refuses to remove or discard what is not there.
func (s *State) there(e Entry, body Body) error {
	switch b := body.(type) {
	case *LotDiscarded:
		if l, ok := s.lotNow(b.Lot); !ok || l.Gone == ThrownOut {
			return &RefusedError{Reason: LotNotThere, Entry: e.ID, Subject: b.Lot}
		}
	case *Removed:
		if !s.has(b.Part, b.ID) {
			return &RefusedError{Reason: ThingNotThere, Entry: e.ID, Subject: b.ID}
		}
	case *Moved:
		return s.stand(e, b.First, b.Second)
	case *Disposed:
		return s.stand(e, b.Bath)
	}
	return nil
}

// stand refuses what is decided about baths that the book does not know or that are gone.
func (s *State) stand(e Entry, baths ...string) error {
	for _, id := range baths {
		m, _ := s.mix(id)
		away := s.leaving(id)
		switch {
		case away != nil:
			return &RefusedError{Reason: BathNotThere, Entry: e.ID, Subject: id, Because: away.entry}
		case m == nil:
			return &RefusedError{Reason: BathNotThere, Entry: e.ID, Subject: id}
		}
	}
	return nil
}

// has reports whether a thing is there.
func (s *State) has(p Part, id string) bool {
	c := &s.corrections
	switch p {
	case VesselPart:
		return s.vessels.now(id, c) != nil
	case TrayPart:
		return s.trays.now(id, c) != nil
	case TankPart:
		return s.tanks.now(id, c) != nil
	case CanPart:
		return s.cans.now(id, c) != nil
	case ProductPart:
		return s.products.now(id, c) != nil
	case PersonPart:
		return s.people.now(id, c) != nil
	case RoomPart, BenchPart, SessionPart:
	}
	return false
}

var errLotForm = errors.New("packets are of a powder, volumes of a liquid or of a made-up stock")

// lotHolds refuses words about a lot that are absurd: more left than it holds, opened before it came, packets of a
// liquid. They are wrong by themselves, so that is no refusal of a fact.
func (s *State) lotHolds(e Entry, body Body) error {
	id := ""
	switch b := body.(type) {
	case *LotReceived:
		id = b.Lot
	case *LotOpened:
		id = b.Lot
	case *LotCounted:
		id = b.Lot
	case *Stock:
		id = b.Lot
	}
	l, known := s.lotAsSaid(id)
	if !known {
		return nil
	}
	if p := s.products.now(l.ProductID, &s.corrections); p != nil && !fits(l.Lot, p.value) {
		return badBody(e, errLotForm)
	}
	l.Lot.Product = "-" // must be there, and is no matter here
	if _, err := darkroom.ReadJSON[darkroom.Lot](darkroom.JSON(l.Lot), l.ounce.Quantity()); err != nil {
		return badBody(e, err)
	}
	return nil
}

// fits reports whether a lot is of its product's form.
func fits(l darkroom.Lot, p darkroom.Product) bool {
	if p.Form == darkroom.Powder {
		return l.Stock || !l.Holds.Given()
	}
	return l.Packets == 0
}
