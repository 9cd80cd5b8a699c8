package words

import (
	"math"
	"strings"
	"time"

	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Figure prints a figure's value in the reader's units; a count goes with its noun where it has one.
func (v *Voice) Figure(f reckoning.Figure) string {
	switch f.Unit {
	case reckoning.Share:
		return v.Share(f.Value)
	case reckoning.ML:
		return v.Volume(millilitres(f.Value))
	case reckoning.G:
		return v.Mass(quantity.Mass(f.Value))
	case reckoning.GPerML:
		return v.Density(quantity.Density(f.Value))
	case reckoning.MM:
		return v.Length(quantity.Length(f.Value))
	case reckoning.M2:
		return v.Area(quantity.Area(f.Value))
	case reckoning.C:
		return v.Temperature(quantity.Celsius(f.Value))
	case reckoning.S:
		return v.Time(time.Duration(math.Round(f.Value)) * time.Second)
	case reckoning.Money:
		return v.Money(int64(math.Round(f.Value)), "")
	case reckoning.KJPerKg:
		return v.unit(v.decimal(f.Value, 1), "kj_per_kg")
	case reckoning.KgPerM3:
		return v.unit(v.decimal(f.Value, 1), "kg_per_m3")
	case reckoning.L, reckoning.GPerL, reckoning.GPerM2, reckoning.MLPerM2, reckoning.GPerMol, reckoning.MolPerKg, reckoning.KJPerMol, reckoning.JPerMolK:
		return v.unit(v.significant(f.Value, figures), string(f.Unit))
	case reckoning.PH:
		return v.decimal(f.Value, 1)
	case reckoning.D:
		return v.Count("days", int(math.Round(f.Value)))
	case reckoning.One:
	}
	return v.counted(f)
}

// figures is how many significant figures a pure number has.
const figures = 3

// counted prints a pure number, with its noun where the figure's name has one: rolls, rolls_at_most.
func (v *Voice) counted(f reckoning.Figure) string {
	n := math.Round(f.Value)
	if noun := v.noun(f.Name); n == f.Value && noun != "" {
		return v.Count(noun, int(n))
	}
	return v.significant(f.Value, figures)
}

// noun returns what a figure of this name counts, a key of the counts; empty where it has none.
func (v *Voice) noun(name string) string {
	switch name {
	case "usual", "in_developer", "shuffled":
		return "sheets"
	}
	if noun := strings.TrimSuffix(name, "_at_most"); v.has("count." + noun) {
		return noun
	}
	return ""
}

// places makes a message's places of figures: {{.need}} the figure as printed, {{.need_from}} where it is from, for a
// count {{.rolls_word}} with its number in words, {{.rolls_n}} without its noun and {{.rolls_times}}. A figure of nothing leaves its places empty.
func (v *Voice) places(figures []reckoning.Figure) args {
	a := args{}
	for _, f := range figures {
		if f.Value == 0 {
			continue
		}
		a[f.Name], a[f.Name+"_from"] = v.Figure(f), v.Origin(f)
		if n := math.Round(f.Value); f.Unit == reckoning.One && n == f.Value && n > 0 {
			a[f.Name+"_n"], a[f.Name+"_times"] = v.Word(int(n)), v.Times(int(n))
			if noun := v.noun(f.Name); noun != "" {
				a[f.Name+"_word"] = v.CountWord(noun, int(n))
			}
		}
	}
	return a
}

// subject adds a person's own word to the places, as it is and as what it may name: a material, a size.
func (v *Voice) subject(a args, place, word string) {
	a[place] = own(word)
	if m, err := material.Read(word); err == nil {
		a[place] = v.Material(m)
	}
	if s, err := material.ReadSize(word); err == nil {
		a[place] = v.Size(s)
	}
}
