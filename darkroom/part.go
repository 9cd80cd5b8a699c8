package darkroom

import (
	"wetside/darkroom/outline"
	"wetside/trade/quantity"
)

// A Part is a piece of the file that is kept by itself, as the book does: the same fields, read and written by the
// same tables as in the file. A person's part is what he or she does, never a name or notes.
type Part interface {
	Room | Bench | Vessel | Tray | Tank | Product | Lot | Person | Session
}

// WritePart returns a part's mapping as JSON on one line, every value in the user's words; {} where nothing was given.
func WritePart[T Part](t T) []byte {
	n := partKind[T]().write(t)
	if n == nil {
		return []byte("{}")
	}
	return n.JSON()
}

// ReadPart reads what WritePart wrote. o is what an ounce means in its words. The error is Problems, with paths below
// the part, or that of text which is no JSON mapping.
func ReadPart[T Part](src []byte, o quantity.Ounce) (T, error) {
	var none T
	n, err := outline.FromJSON(src)
	if err != nil {
		return none, err
	}
	r := &reader{ounce: o}
	t := partKind[T]().read(r, n)
	if len(r.problems) > 0 {
		return none, r.problems.sorted()
	}
	return t, nil
}

// partKind returns the kind by which a part is read and written.
func partKind[T Part]() kind[T] {
	var k any
	switch any(*new(T)).(type) {
	case Room:
		k = roomKind()
	case Bench:
		k = benchKind()
	case Vessel:
		k = vesselKind()
	case Tray:
		k = trayKind()
	case Tank:
		k = tankKind()
	case Product:
		k = productKind()
	case Lot:
		k = lotKind()
	case Person:
		k = personPart()
	case Session:
		k = sessionKind()
	}
	of, _ := k.(kind[T])
	return of
}

// personPart is a person without what could tell who it is.
func personPart() kind[Person] {
	return thing([]field[Person]{
		at("does", "What the person does here.", func(p *Person) *[]string { return &p.Does }, line(list(text()))),
	})
}
