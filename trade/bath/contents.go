package bath

// Amount is what is kept account of in a bath.
type Amount uint8

// The amounts.
const (
	Liquid      Amount = iota // L, all of it
	Developer                 // L of developer, as it left the developer tray
	Acid                      // L of stop bath, as it was made up
	Thiosulfate               // g, as S2O3
	Silver                    // g
	Bromide                   // g
	amounts
)

// Contents is how much of each amount a bath holds, or a sheet carries.
type Contents [amounts]float64

// PerLitre returns the amount per litre of the bath; 0 of an empty one.
func (c Contents) PerLitre(a Amount) float64 {
	if c[Liquid] <= 0 {
		return 0
	}
	return c[a] / c[Liquid]
}

// add puts other's amounts to c's.
func (c *Contents) add(other Contents) {
	for a := range c {
		c[a] += other[a]
	}
}

// Kind is what a bath does to a sheet.
type Kind uint8

// The kinds. The zero value is plain water.
const (
	Water Kind = iota
	Developing
	Stopping
	Fixing
)

// A Bath is a working solution as it was made up.
type Bath struct {
	Kind Kind
	Made Contents
	// Titration tells a stop bath's pH from the developer carried into it; nil where that is not known.
	Titration *Titration
}

// NewDeveloper returns a developer of so many litres.
func NewDeveloper(litres float64) Bath {
	return Bath{Kind: Developing, Made: Contents{Liquid: litres, Developer: litres}}
}

// NewStop returns a stop bath of so many litres; t may be nil.
func NewStop(litres float64, t *Titration) Bath {
	return Bath{Kind: Stopping, Made: Contents{Liquid: litres, Acid: litres}, Titration: t}
}

// NewWater returns a rinse of so many litres.
func NewWater(litres float64) Bath { return Bath{Kind: Water, Made: Contents{Liquid: litres}} }

// NewFixer returns a fixer of so many litres with so much thiosulfate, g/L.
func NewFixer(litres, thiosulfate float64) Bath {
	return Bath{Kind: Fixing, Made: Contents{Liquid: litres, Thiosulfate: litres * thiosulfate}}
}
