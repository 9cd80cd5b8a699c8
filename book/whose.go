package book

import (
	"errors"

	"wetside/darkroom"
)

// errOwnerNamed is for a mapping in an entry that names an owner: a name there could never be erased.
var errOwnerNamed = errors.New("whose it is stands beside the mapping, as a person's id")

var errOwnerOfWhat = errors.New("only a product is somebody's")

// ownerIn returns whose a part is by its own mapping.
func ownerIn(part any) string {
	switch x := part.(type) {
	case *darkroom.Lot:
		return x.Whose
	case *darkroom.Product:
		return x.Whose
	}
	return ""
}

// tellProduct takes in what a product is from now on. In the state its owner is an id.
func (s *State) tellProduct(e Entry, b *Set) error {
	p, err := decode[darkroom.Product](b.As, b.Ounce)
	if err != nil {
		return badBody(e, err)
	}
	p.Whose = b.Whose
	s.products.say(b.ID, setting[darkroom.Product]{entry: e.ID, value: p, ounce: b.Ounce})
	return nil
}

// ownerName is what the file says of whose something is.
func (p People) ownerName(id string) string {
	if id == "" {
		return ""
	}
	return p.Name(id)
}

// LotOwner returns whose a lot is, a person's id or empty for the room's, wherever it is now; known is false where no entry ever
// put it on the shelf. A lot whose coming was taken back is the room's, and so is here one that is long used up.
func (s *State) LotOwner(id string) (whose string, known bool) {
	came, _ := s.receipt(id)
	if came != nil {
		return came.said.whose, true
	}
	return "", len(s.lots[id]) > 0 || s.rests(aLot, id)
}

// BathOwner is LotOwner of a bath.
func (s *State) BathOwner(id string) (whose string, known bool) {
	if m, _ := s.mix(id); m != nil {
		return m.bath.Mixed.Whose, true
	}
	return "", len(s.baths[id])+len(s.deeds[id]) > 0 || s.rests(aBath, id)
}

// rests reports whether a thing is long finished.
func (s *State) rests(kind subjectKind, id string) bool {
	found, _ := s.resting.find(subject{kind, id})
	return found != nil
}

// ProductOwner is LotOwner of a product.
func (s *State) ProductOwner(id string) (whose string, known bool) {
	h := s.products.find(id)
	if h == nil {
		return "", false
	}
	if now := h.now(&s.corrections); now != nil {
		return now.value.Whose, true
	}
	return "", true
}
