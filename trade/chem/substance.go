package chem

import (
	"slices"
	"strconv"
	"strings"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// A Substance is something that goes into a bath, of which it is known what it becomes in water. Make one with
// Lookup; the zero value is none.
type Substance struct {
	entry int // 1 + the place in entries; 0 is none
	water float64
}

// A share is how many of an acid's family one formula unit brings.
type share struct {
	of family
	n  float64
}

// An ion is one that gives off and takes up no protons.
type ion struct {
	name   string
	charge int
	n      float64
}

// An entry is a row of the table of substances.
type entry struct {
	name     string    // folded, as all names here
	formula  string    // without water of crystallisation
	hydrates []float64 // waters of crystallisation it is sold with
	also     []alias
	acids    []share
	ions     []ion
}

// An alias is another name or formula, folded (lower case, no hyphens), and the water of crystallisation that it stands for.
type alias struct {
	name  string
	water float64
}

// Name returns the name in lower case, with that of the hydrate: "sodium carbonate monohydrate". Lookup finds it.
func (s Substance) Name() string {
	if s.entry == 0 {
		return ""
	}
	name := s.row().name
	if s.water > 0 {
		said := s.water
		if s.perUnit(2*said) == said {
			said *= 2
		}
		name += " " + hydrateWord(said)
	}
	return name
}

// Formula returns the formula, water of crystallisation included.
func (s Substance) Formula() Formula {
	if s.entry == 0 {
		return Formula{}
	}
	text := s.row().formula
	if s.water > 0 {
		text += "·" + strconv.FormatFloat(s.water, 'f', -1, 64) + "H2O"
	}
	f, _ := ParseFormula(text) // the table's formulas are read in the tests
	return f
}

// MolarMass returns the molar mass, g/mol, water of crystallisation included.
func (s Substance) MolarMass() float64 { return s.Formula().MolarMass() }

// Dry returns the same substance without water of crystallisation.
func (s Substance) Dry() Substance { return Substance{entry: s.entry} }

// A PK is one step of an acid that a substance is, or is the salt of.
type PK struct {
	Acid     string // a stable key: "acetic", "carbonic", …
	Step     int    // 1 for the first proton
	At       float64
	Constant Constant
}

// PKs returns the acid steps that a substance takes part in, with their pK at temperature t, whichever t is; none
// for a strong acid or base or its salt.
func (s Substance) PKs(t quantity.Celsius) []PK {
	if s.entry == 0 {
		return nil
	}
	var all []PK
	for _, a := range s.row().acids {
		for i, c := range acids[a.of].constants {
			all = append(all, PK{Acid: acids[a.of].key, Step: i + 1, At: c.At(t), Constant: c})
		}
	}
	return all
}

// Memory says whether a pK of this substance is from memory.
func (s Substance) Memory() bool {
	return slices.ContainsFunc(s.PKs(standardAt-273.15), func(p PK) bool {
		return p.Constant.Origin == reckoning.FromMemory
	})
}

// Names returns the names, in lower case and without hyphens, that Lookup takes for this substance and its hydrates,
// the main one first; its formula and other spellings come on top.
func (s Substance) Names() []string {
	if s.entry == 0 {
		return nil
	}
	e := s.row()
	names := []string{e.name}
	for _, a := range e.also {
		names = append(names, a.name)
	}
	return names
}

// Hydrates returns the substance itself without water, where it is had so, and with each of its waters of
// crystallisation.
func (s Substance) Hydrates() []Substance {
	if s.entry == 0 {
		return nil
	}
	all := []Substance{s.Dry()}
	for _, w := range s.row().hydrates {
		all = append(all, Substance{entry: s.entry, water: w})
	}
	return all
}

func (s Substance) row() *entry { return &entries[s.entry-1] }

// Substances returns all of the table, without water of crystallisation, in its order.
func Substances() []Substance {
	all := make([]Substance, len(entries))
	for i := range entries {
		all[i] = Substance{entry: i + 1}
	}
	return all
}

// hydrateWords are the words for waters of crystallisation. Never written to.
var hydrateWords = [...]alias{
	{"hemihydrate", 0.5},
	{"monohydrate", 1},
	{"sesquihydrate", 1.5},
	{"dihydrate", 2},
	{"trihydrate", 3},
	{"tetrahydrate", 4},
	{"pentahydrate", 5},
	{"hexahydrate", 6},
	{"heptahydrate", 7},
	{"octahydrate", 8},
	{"decahydrate", 10},
	{"dodecahydrate", 12},
	{"anhydrous", 0},
	{"anhyd", 0},
	{"desiccated", 0},
	{"dry", 0},
}

func hydrateWord(n float64) string {
	for _, w := range hydrateWords {
		if w.water == n {
			return w.name
		}
	}
	return ""
}

// splitHydrate takes the word for water of crystallisation off a name in lower case.
func splitHydrate(name string) (rest string, water float64, said bool) {
	for _, w := range hydrateWords {
		if r, ok := strings.CutSuffix(name, " "+w.name); ok {
			return strings.TrimSuffix(r, ","), w.water, true
		}
		if r, ok := strings.CutPrefix(name, w.name+" "); ok {
			return r, w.water, true
		}
	}
	return name, 0, false
}
