package words

import (
	"wetside/trade/dilution"
	"wetside/trade/measure"
)

// LineKind says what a line is.
type LineKind uint8

// The kinds of lines.
const (
	Reading LineKind = iota // something is measured: Number and Unit are set
	Action                  // something is done without measuring
	Again                   // what stands before, back to the last line of another jugful, is done again
	Note                    // an explanation; nothing is done
)

// A Line is one step of a mix as a sentence.
type Line struct {
	Kind LineKind
	// Number and Unit of the mark, to be set large: "200", "mL". Of an Action only the start with water has them.
	Number, Unit string
	// Say is the sentence: "**Paper developer** to the **200** mark of the **litre jug**."
	Say Phrase
	// Next is what comes after, in short, or empty: "then water to **1000**; first of two jugfuls".
	Next Phrase
	// Step is the index into Choice.Steps, -1 where the line belongs to none.
	Step int
}

// Text returns the sentence without its weights.
func (l Line) Text() string { return l.Say.Text() }

// A Batch is what the telling of a choice needs to know beside it.
type Batch struct {
	Vessels  []measure.Vessel  // what the choice's indexes mean
	Dilution dilution.Dilution // FromStock rules what an unnamed chemical is called
	Chemical string            // the product's own name; empty: "concentrate", or "stock"
	Into     string            // the tray's or tank's own name; empty: "the tray", or "the tank"
	Tank     bool              // Into is a tank: the mix waits in a bottle until the film is in it
	// WaterFirst says that water goes in before the chemical, as Problem.WaterFirst.
	WaterFirst bool
}

// Mix tells a choice as it stands on paper: each reading and action once; like jugfuls are told once, with how often
// they are done.
func (v *Voice) Mix(c measure.Choice, b Batch) []Line { return v.tell(c, b, false) }

// Walk tells a choice step by step, as one does it: every reading and action as often as it is done.
func (v *Voice) Walk(c measure.Choice, b Batch) []Line { return v.tell(c, b, true) }

func (v *Voice) tell(c measure.Choice, b Batch, unrolled bool) []Line {
	t := newTeller(v, c, b)
	var lines []Line
	if c.Manner == measure.Intermediate {
		lines = append(lines, t.note("mix.thin_first"))
	}
	for _, r := range t.rounds {
		if !unrolled {
			lines = append(lines, t.once(r)...)
			continue
		}
		for i := range r.n {
			lines = append(lines, t.round(r, i, true)...)
		}
	}
	lines = append(lines, t.last()...)
	if c.Manner == measure.Intermediate {
		lines = append(lines, t.note("mix.thin_rest"))
	}
	return lines
}

// once tells a round and, where it is done more than once, how often.
func (t *teller) once(r round) []Line {
	lines := t.round(r, 0, false)
	switch {
	case r.n > 1 && r.jugful:
		lines = append(lines, t.line(Again, -1, "mix.again_jugfuls", args{
			"Times": t.v.Times(r.n), "Jugfuls": t.v.CountWord("jugfuls", r.n),
		}))
	case r.n > 1:
		lines = append(lines, t.line(Again, -1, "mix.again", args{"Times": t.v.Times(r.n)}))
	}
	return lines
}

func (t *teller) note(key string) Line {
	return t.line(Note, -1, key, args{"Chemical": t.what(measure.Chemical)})
}

func (t *teller) line(kind LineKind, step int, key string, a args) Line {
	return Line{Kind: kind, Step: step, Say: phrase(sentence(t.v.say(key, a)))}
}
