package chem

import (
	"math"

	"wetside/trade/reckoning"
)

// A Note is a limit of the model that a mixture comes up against, a key of the message catalogue.
type Note string

// The notes.
const (
	NoteIonicStrength Note = "ionic_strength"       // above MostReliable: the pH is indicative
	NotePolyborates   Note = "polyborates"          // boron above 0.025 mol/kg: near pH 5 to 9 real pH is up to some 0.1 away
	NoteCarbonDioxide Note = "carbon_dioxide"       // more dissolved than stays in an open tray; as it leaves, pH rises
	NoteSulfur        Note = "sulfur"               // thiosulfate below pH 4 falls apart into sulfur and sulfite
	NoteFromMemory    Note = "constant_from_memory" // a pK that matters here has no page behind it
)

// Notes returns every note, so that a catalogue of messages can be held complete.
func Notes() []Note {
	return []Note{NoteIonicStrength, NotePolyborates, NoteCarbonDioxide, NoteSulfur, NoteFromMemory}
}

const (
	// Polyborates count from about here on (common practice of textbooks; at 0.1 mol/kg boric acid a Pitzer model with
	// them is 0.12 lower, PHREEQC).
	polyboratesFrom = 0.025
	// Water under one atmosphere of carbon dioxide holds this much of it at 25 °C, mol/kg: from memory.
	carbonDioxideMost = 0.034
	// An acid fixer without sulfite sulfurises below about this pH: from memory.
	sulfurBelow = 4.0
)

// notes returns the limits that the mixture comes up against, as it was last solved.
func (m *Mixture) notes(ph float64) []Note {
	var all []Note
	if m.ionic > MostReliable {
		all = append(all, NoteIonicStrength)
	}
	memory := false
	for i := range m.families {
		f := &m.families[i]
		if f.total == 0 {
			continue
		}
		switch f.of {
		case borate:
			if f.total > polyboratesFrom {
				all = append(all, NotePolyborates)
			}
		case carbonate:
			if f.first(math.Exp(m.x)) > carbonDioxideMost {
				all = append(all, NoteCarbonDioxide)
			}
		case thiosulfate:
			if ph < sulfurBelow {
				all = append(all, NoteSulfur)
			}
		default:
		}
		for _, c := range acids[f.of].constants {
			memory = memory || c.Origin == reckoning.FromMemory && math.Abs(c.At(m.at)-ph) < mattersWithin
		}
	}
	if memory {
		all = append(all, NoteFromMemory)
	}
	return all
}

// mattersWithin is how near to the pH a pK has to be to matter to it: further away less than a hundredth changes form.
const mattersWithin = 2.0

// first returns how much is in the most protonated form, mol/kg.
func (f *member) first(a float64) float64 {
	w, sum := 1.0, 1.0
	for s := range f.steps {
		w *= f.ratio[s] / a
		sum += w
	}
	return f.total / sum
}
