package draw

import (
	"wetside/plan"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/words"
)

// Told returns the picture of each reading of a choice, by the index of its step, with its words in the reader's
// language: Walk with a voice.
func Told(v *words.Voice, c measure.Choice, b words.Batch) map[int]Reading {
	return told(v, c, b, map[int][]Layer{})
}

// Bath returns the pictures of a bath's best choice as Told does; where its water was tempered in the jug that it is made
// up in, that water stands in it. Nil where nothing was found.
func Bath(v *words.Voice, b plan.Bath) map[int]Reading {
	if len(b.Mix.Choices) == 0 {
		return nil
	}
	in := map[int][]Layer{}
	if b.TemperInPlace && b.Temper != nil && len(b.Temper.Marks) > 0 {
		for i, x := range b.Vessels {
			if x.Name == b.TemperVessel {
				in[i] = []Layer{{Water, b.Temper.Marks[len(b.Temper.Marks)-1].To}}
			}
		}
	}
	return told(v, b.Mix.Choices[0], v.Batch(b), in)
}

func told(v *words.Voice, c measure.Choice, b words.Batch, in map[int][]Layer) map[int]Reading {
	says := map[int]string{}
	for _, l := range v.Mix(c, b) {
		if l.Step >= 0 {
			says[l.Step] = l.Text()
		}
	}
	all := walk(c, b.Vessels, in, func(step int) ReadingWords {
		s := c.Steps[step]
		w := WordsOn(v, b.Vessels[s.Vessel], s.Scale, says[step])
		if s.Do == measure.Start {
			w.Stop = v.Label("about_three_quarters")
		}
		return w
	})
	for i, r := range all {
		if c.Steps[i].Do != measure.Start {
			continue
		}
		if scale, mark, ok := words.StartMark(c, b.Vessels, i); ok {
			r.Scale, r.Mark, r.About = scale, mark, 0
			r.Say = WordsOn(v, r.Vessel, scale, says[i])
			r.Say.Stop = v.Label("about_here")
			all[i] = r
		}
	}
	return all
}

// WordsOn returns the words of a reading's picture: the units of the vessel's scales, numbers as they are printed on the
// scale in use, and what stands beside the mark. label is the picture in words; empty: the vessel's name.
func WordsOn(v *words.Voice, vessel measure.Vessel, scale int, label string) ReadingWords {
	w := ReadingWords{Label: label, Stop: v.Label("stop_here")}
	if w.Label == "" {
		w.Label = vessel.Name
	}
	for i := range vessel.Scales {
		_, unit := v.Mark(vessel, i, vessel.Scales[i].From)
		w.Units = append(w.Units, unit)
	}
	if scale >= 0 && scale < len(vessel.Scales) {
		w.Number = func(n quantity.Ratio) string {
			number, _ := v.Mark(vessel, scale, n)
			return number
		}
	}
	return w
}
