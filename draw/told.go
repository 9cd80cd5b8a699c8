package draw

import (
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/words"
)

// Told returns the picture of each reading of a choice, by the index of its step, with its words in the reader's
// language: Walk with a voice.
func Told(v *words.Voice, c measure.Choice, b words.Batch) map[int]Reading {
	says := map[int]string{}
	for _, l := range v.Mix(c, b) {
		if l.Step >= 0 {
			says[l.Step] = l.Text()
		}
	}
	return Walk(c, b.Vessels, func(step int) ReadingWords {
		s := c.Steps[step]
		return readingWords(v, b.Vessels[s.Vessel], says[step], s.Do == measure.Start)
	})
}

func readingWords(v *words.Voice, vessel measure.Vessel, label string, about bool) ReadingWords {
	w := ReadingWords{Label: label, Stop: v.Label("stop_here"), Number: func(n quantity.Ratio) string { return v.Number(n) }}
	if about {
		w.Stop = v.Label("about_three_quarters")
	}
	if w.Label == "" {
		w.Label = vessel.Name
	}
	for i := range vessel.Scales {
		_, unit := v.Mark(vessel, i, vessel.Scales[i].From)
		w.Units = append(w.Units, unit)
	}
	return w
}
