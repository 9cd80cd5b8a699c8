package book

import (
	"bytes"
	"encoding/json"
	"errors"

	"wetside/darkroom"
)

// decode reads a part's mapping.
func decode[T darkroom.Part](as []byte, o Ounce) (T, error) {
	if o != NoOunce && o != USOunce && o != ImperialOunce {
		var none T
		return none, errors.New("an ounce is us or imperial")
	}
	var t T
	if p, ok := any(&t).(*darkroom.Person); ok {
		return t, decodePerson(as, p)
	}
	t, err := darkroom.ReadJSON[T](as, o.Quantity())
	if err == nil && ownerIn(&t) != "" {
		err = errOwnerNamed
	}
	return t, err
}

// decodePerson reads what somebody does. A name or a note in an entry could never be erased, so it is an error.
func decodePerson(as []byte, p *darkroom.Person) error {
	d := json.NewDecoder(bytes.NewReader(as))
	d.DisallowUnknownFields()
	var is struct {
		Does []string `json:"does"`
	}
	err := d.Decode(&is)
	p.Does = is.Does
	return err
}

func decodeLot(as []byte, o Ounce) (darkroom.Lot, error) { return decode[darkroom.Lot](as, o) }

// tellSet takes in what a part is from now on.
func (s *State) tellSet(e Entry, b *Set) error {
	switch b.Part {
	case RoomPart:
		return tellOne(&s.room, e, b)
	case BenchPart:
		return tellOne(&s.bench, e, b)
	case SessionPart:
		return tellOne(&s.session, e, b)
	case VesselPart:
		return tellThing(&s.vessels, e, b)
	case TrayPart:
		return tellThing(&s.trays, e, b)
	case TankPart:
		return tellThing(&s.tanks, e, b)
	case CanPart:
		return tellThing(&s.cans, e, b)
	case ProductPart:
		return s.tellProduct(e, b)
	case PersonPart:
		return tellThing(&s.people, e, b)
	}
	return badBody(e, errors.New("no such part"))
}

func tellOne[T darkroom.Part](h *history[T], e Entry, b *Set) error {
	v, err := decode[T](b.As, b.Ounce)
	if err != nil {
		return badBody(e, err)
	}
	h.said = append(h.said, setting[T]{entry: e.ID, value: v, ounce: b.Ounce})
	return nil
}

func tellThing[T darkroom.Part](t *things[T], e Entry, b *Set) error {
	v, err := decode[T](b.As, b.Ounce)
	if err != nil {
		return badBody(e, err)
	}
	t.say(b.ID, setting[T]{entry: e.ID, value: v, ounce: b.Ounce})
	return nil
}

// tellRemoved takes in that a thing is gone.
func (s *State) tellRemoved(e Entry, b *Removed) error {
	switch b.Part {
	case VesselPart:
		s.vessels.say(b.ID, setting[darkroom.Vessel]{entry: e.ID, removed: true})
	case TrayPart:
		s.trays.say(b.ID, setting[darkroom.Tray]{entry: e.ID, removed: true})
	case TankPart:
		s.tanks.say(b.ID, setting[darkroom.Tank]{entry: e.ID, removed: true})
	case CanPart:
		s.cans.say(b.ID, setting[darkroom.Can]{entry: e.ID, removed: true})
	case ProductPart:
		s.products.say(b.ID, setting[darkroom.Product]{entry: e.ID, removed: true})
	case PersonPart:
		s.people.say(b.ID, setting[darkroom.Person]{entry: e.ID, removed: true})
	case RoomPart, BenchPart, SessionPart:
		return badBody(e, errors.New("it can only be set"))
	}
	return nil
}

// NewSet returns the body that adds or changes a part, in the words that it was read from. id is empty for the room,
// the bench and the session. o is what an ounce means in those words. Of a person only what he or she does is taken; whose a
// product is stands in Set.Whose, by id.
func NewSet[T darkroom.Part](part Part, id string, value T, o Ounce) *Set {
	switch p := any(&value).(type) {
	case *darkroom.Person:
		*p = darkroom.Person{Does: p.Does}
	case *darkroom.Product:
		p.Whose = ""
	}
	return &Set{Part: part, ID: id, As: darkroom.JSON(value), Ounce: o}
}

// NewReceived returns the body that puts a lot of a product on the shelf. Whose it is stands in LotReceived.Whose, by id.
func NewReceived(id, product string, lot darkroom.Lot, o Ounce) *LotReceived {
	lot.Whose = ""
	return &LotReceived{Lot: id, Product: product, As: darkroom.JSON(lot), Ounce: o}
}
