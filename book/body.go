package book

import (
	"encoding/json"

	"wetside/trade/quantity"
)

// A Body is what an entry says beside its envelope. Field names are the darkroom file's; quantities are the words
// that the user wrote or the mark's own, never a figure worked out.
type Body interface {
	// Kind returns the kind of entry that the body belongs to.
	Kind() Kind
}

// Ounce says what oz, fl oz, pint, quart and gallon meant in a body when it was written: "us", "imperial", or empty
// where no room had said. So old words keep their meaning when the room's setting changes.
type Ounce string

// The ounces.
const (
	NoOunce       Ounce = ""
	USOunce       Ounce = "us"
	ImperialOunce Ounce = "imperial"
)

// OunceOf returns the word for o.
func OunceOf(o quantity.Ounce) Ounce {
	switch o {
	case quantity.OunceUS:
		return USOunce
	case quantity.OunceImperial:
		return ImperialOunce
	default:
		return NoOunce
	}
}

// Quantity returns what the word means; unknown words mean no ounce.
func (o Ounce) Quantity() quantity.Ounce {
	switch o {
	case USOunce:
		return quantity.OunceUS
	case ImperialOunce:
		return quantity.OunceImperial
	default:
		return quantity.NoOunce
	}
}

// Set adds a thing or changes it as a whole. As is the part's mapping as in the darkroom file, in JSON; a person's
// is without name and notes, a product's without its owner's name: names never stand in an entry.
type Set struct {
	Part  Part            `json:"-"`
	ID    string          `json:"id,omitempty"` // empty for room, bench and session, of which there is one
	As    json.RawMessage `json:"as"`
	Whose string          `json:"whose,omitempty"` // of a product: a person's id; empty: the room's
	Ounce Ounce           `json:"ounce,omitempty"`
}

// Kind returns the part's set kind.
func (b *Set) Kind() Kind { return Kind(b.Part) + ".set" }

// Removed takes a thing away.
type Removed struct {
	Part Part   `json:"-"`
	ID   string `json:"id"`
}

// Kind returns the part's removed kind.
func (b *Removed) Kind() Kind { return Kind(b.Part) + ".removed" }

// LotReceived puts a bought bottle or packet on the shelf, or a made-up stock that was there before the book. As is
// the lot's mapping without its product and its owner, which are named by id. Said again of a lot that is there, it takes the place of
// what was said: so a bottle changes hands.
type LotReceived struct {
	Lot     string          `json:"lot"`
	Product string          `json:"product"`
	As      json.RawMessage `json:"as"`
	Whose   string          `json:"whose,omitempty"` // a person's id; empty: the room's
	Ounce   Ounce           `json:"ounce,omitempty"`
}

// Kind returns Received.
func (*LotReceived) Kind() Kind { return Received }

// LotOpened says on which day a lot was opened, for its keeping time.
type LotOpened struct {
	Lot    string `json:"lot"`
	Opened string `json:"opened"` // the day, 2026-10-14
}

// Kind returns Opened.
func (*LotOpened) Kind() Kind { return Opened }

// LotCounted says what is left in a lot by looking.
type LotCounted struct {
	Lot   string `json:"lot"`
	Left  string `json:"left"` // a volume, "2 packets", or "unknown"
	Ounce Ounce  `json:"ounce,omitempty"`
}

// Kind returns Counted.
func (*LotCounted) Kind() Kind { return Counted }

// A Draw is what was taken out of one lot: an amount so many times, as it was read at the mark.
type Draw struct {
	Lot    string `json:"lot,omitempty"`   // empty: from a bottle that the book does not know
	Part   string `json:"part,omitempty"`  // "A" or "B" of a developer in two parts
	Amount string `json:"amount"`          // "30 mL", "1 fl oz", "45 g", "1 packet", or "all" that was left
	Times  int    `json:"times,omitempty"` // 0 means once
}

// LotDrawn says that something was taken out of a lot for no bath that the book knows.
type LotDrawn struct {
	Draw
	Ounce Ounce  `json:"ounce,omitempty"`
	Why   string `json:"why,omitempty"`
}

// Kind returns Drawn.
func (*LotDrawn) Kind() Kind { return Drawn }

// LotDiscarded says that a lot left the shelf: empty, past its date, spilt.
type LotDiscarded struct {
	Lot string `json:"lot"`
	Why string `json:"why,omitempty"`
}

// Kind returns Discarded.
func (*LotDiscarded) Kind() Kind { return Discarded }

// Stock says that a stock was made up: a new lot, and what it was made from.
type Stock struct {
	Lot     string          `json:"lot"`
	Product string          `json:"product"`
	As      json.RawMessage `json:"as"`              // the new lot's mapping without its product and its owner
	Whose   string          `json:"whose,omitempty"` // a person's id; empty: the room's
	From    []Draw          `json:"from,omitempty"`
	Ounce   Ounce           `json:"ounce,omitempty"`
}

// Kind returns StockMade.
func (*Stock) Kind() Kind { return StockMade }

// Corrected takes back the entry that its envelope names in takes_back.
type Corrected struct {
	Why string `json:"why,omitempty"`
}

// Kind returns Correction.
func (*Corrected) Kind() Kind { return Correction }
