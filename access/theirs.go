package access

import (
	"context"
	"slices"

	"wetside/book"
)

// A Book is what has to be looked at to say whose something is.
type Book interface {
	// State returns what is there now.
	State(ctx context.Context) (*book.State, error)
	// Find returns the entry of an id, an error of kind NotFound where there is none.
	Find(ctx context.Context, id string) (book.Entry, error)
}

// MayWrite reports whether somebody may write an entry. e stands in their name already; before is what is written with it and comes
// first. It is the one place that says what OwnOnly means: of a correction, that they wrote what it takes back; of a bottle, a bath or a
// product, that it is theirs, and of a new one, that it says so. An error is that of the book, or of a body that can't be read.
func MayWrite(ctx context.Context, b Book, who Who, before []book.Entry, e book.Entry) (bool, error) {
	switch Write(who.Role, e.Kind) {
	case Always:
		return true, nil
	case Never:
		return false, nil
	case OwnOnly:
	}
	if e.Kind == book.Correction {
		return mayTakeBack(ctx, b, who, before, e.TakesBack)
	}
	if who.Person == "" {
		return false, nil
	}
	body, err := book.Upcasters().Read(e)
	switch {
	case err != nil && book.KindOf(err) == book.Newer: // nobody here can tell what it says
		return false, nil
	case err != nil:
		return false, err
	}
	state, err := b.State(ctx)
	if err != nil {
		return false, err
	}
	t := theirs{person: who.Person, state: state}
	for _, was := range before {
		if body, err := book.Upcasters().Read(was); err == nil {
			t.before = append(t.before, body)
		}
	}
	return t.are(body), nil
}

// mayTakeBack reports whether somebody wrote an entry, or is to write it before, and may write such. What was taken back is not theirs to
// bring back: since then it may have become another's.
func mayTakeBack(ctx context.Context, b Book, who Who, before []book.Entry, id string) (bool, error) {
	was, err := b.Find(ctx, id) // first: what is sent under an id that the book has is refused, and says nothing of whose that is
	if err != nil {
		i := slices.IndexFunc(before, func(w book.Entry) bool { return w.ID == id })
		if book.KindOf(err) != book.NotFound || i < 0 {
			return false, err
		}
		was = before[i]
	}
	return who.Wrote(was.By, was.Device) && Write(who.Role, was.Kind) != Never && was.Kind != book.Correction, nil
}

// Wrote reports whether somebody wrote what stands in the name of a person and of a device: a person by their id, a device of the room
// by its own.
func (w Who) Wrote(by, device string) bool {
	if w.Person != "" {
		return by == w.Person
	}
	return by == "" && w.Key != "" && device == w.Key
}

// theirs looks at what is somebody's.
type theirs struct {
	person string
	state  *book.State
	before []book.Body
}

// are reports whether all that a body is about is theirs.
func (t theirs) are(body book.Body) bool {
	switch b := body.(type) {
	case *book.Set:
		return b.Part == book.ProductPart && t.comes(b.Whose, b.ID, t.product)
	case *book.Removed:
		return b.Part == book.ProductPart && t.owns(b.ID, t.product)
	case *book.LotReceived:
		return t.comes(b.Whose, b.Lot, t.lot)
	case *book.LotOpened:
		return t.owns(b.Lot, t.lot)
	case *book.LotCounted:
		return t.owns(b.Lot, t.lot)
	case *book.LotDrawn:
		return t.owns(b.Lot, t.lot)
	case *book.LotDiscarded:
		return t.owns(b.Lot, t.lot)
	case *book.Stock:
		return t.comes(b.Whose, b.Lot, t.lot) && t.draws(b.From)
	default:
		return t.baths(body)
	}
}

// baths is are of what is done with baths.
func (t theirs) baths(body book.Body) bool {
	switch b := body.(type) {
	case *book.Mixed:
		return t.comes(b.Whose, b.Bath, t.bath) && t.draws(b.From) && (b.Pair == "" || t.owns(b.Pair, t.bath))
	case *book.ToppedUp:
		return t.owns(b.Bath, t.bath) && t.draws(b.From)
	case *book.PouredBack:
		return t.owns(b.Bath, t.bath)
	case *book.PouredOut:
		return t.owns(b.Bath, t.bath)
	case *book.Moved:
		return t.owns(b.First, t.bath) && t.owns(b.Second, t.bath)
	case *book.Disposed:
		return t.owns(b.Bath, t.bath)
	}
	return false
}

// An owner says whose the thing of an id is, and whether the id was ever a thing's.
type owner func(id string) (whose string, known bool)

// owns reports whether a thing is theirs.
func (t theirs) owns(id string, of owner) bool {
	whose, known := of(id)
	return known && whose == t.person
}

// comes reports whether a thing that is said to be somebody's becomes theirs: it is new, or was theirs before.
func (t theirs) comes(whose, id string, of owner) bool {
	was, known := of(id)
	return whose == t.person && (!known || was == t.person)
}

// draws reports whether all lots that are drawn from are theirs. A bottle that the book does not know is nobody's.
func (t theirs) draws(from []book.Draw) bool {
	return !slices.ContainsFunc(from, func(d book.Draw) bool { return d.Lot != "" && !t.owns(d.Lot, t.lot) })
}

func (t theirs) lot(id string) (whose string, known bool) {
	for _, body := range slices.Backward(t.before) {
		switch b := body.(type) {
		case *book.LotReceived:
			if b.Lot == id {
				return b.Whose, true
			}
		case *book.Stock:
			if b.Lot == id {
				return b.Whose, true
			}
		}
	}
	return t.state.LotOwner(id)
}

func (t theirs) bath(id string) (whose string, known bool) {
	for _, body := range slices.Backward(t.before) {
		if b, ok := body.(*book.Mixed); ok && b.Bath == id {
			return b.Whose, true
		}
	}
	return t.state.BathOwner(id)
}

func (t theirs) product(id string) (whose string, known bool) {
	for _, body := range slices.Backward(t.before) {
		if b, ok := body.(*book.Set); ok && b.Part == book.ProductPart && b.ID == id {
			return b.Whose, true
		}
	}
	return t.state.ProductOwner(id)
}
