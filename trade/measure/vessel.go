package measure

import "wetside/trade/quantity"

// Kind is a kind of vessel; it rules the permissible error where the room has none of its own.
type Kind uint8

// The kinds.
const (
	Jug Kind = iota
	Beaker
	Cylinder
	Syringe
	Pipette
	Balance
)

// Class is the accuracy class of a cylinder, after ASTM E1272.
type Class uint8

// The classes. A cylinder without one counts as class B.
const (
	NoClass Class = iota
	ClassA
	ClassB
)

// A Scale is one printed scale of a vessel. From, To, Step and Numbered are in Unit; for a balance in grams.
type Scale struct {
	Unit           quantity.VolumeUnit
	From, To, Step quantity.Ratio
	Numbered       quantity.Ratio // every mark that is a multiple of it carries a number; 0: none does
}

// Permissible is an error limit: the larger of Abs (mL; g for a balance) and Rel (of the reading).
type Permissible struct{ Abs, Rel float64 }

// Setting is how near to a mark people fill, as parts of a division.
type Setting struct{ OnMark, Between float64 }

// A Vessel is anything to measure in.
type Vessel struct {
	Name      string
	Kind      Kind
	Class     Class
	Scales    []Scale
	HalfMarks bool
	// Own is the room's own permissible error in place of the kind's; nil: the kind's.
	Own *Permissible
	// Setting is the room's own setting error; the zero value: a quarter and a half of a division.
	Setting Setting
	// InnerWidth in mm; 0: unknown.
	InnerWidth quantity.Length
	// NotForChemical and NotForWater keep a vessel out of one use (kept for another product).
	NotForChemical, NotForWater bool
}
