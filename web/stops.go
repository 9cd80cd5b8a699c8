package web

import (
	"slices"
	"strconv"
	"strings"

	"wetside/plan"
	"wetside/trade/measure"
	"wetside/words"
)

// A stop is one screen on the way through the mix sheet, with one thing to do: read the cautions at the head, wash the
// vessels, temper the water, or do one line of the mix.
type stop struct {
	kind  stopKind
	bath  int // index into Plan.Baths, -1 for the head
	id    string
	n     int          // from 1 within the bath
	notes []words.Line // what explains the line
	line  words.Line
	last  bool // of its bath: what was done is written into the book
	// cautions are those of the bath that are wanted here.
	cautions []plan.Caution
}

type stopKind uint8

const (
	stopHead stopKind = iota
	stopWash
	stopWater
	stopLine
)

func (s stop) at() string { return "/mix/" + s.id + "/" + strconv.Itoa(s.n) }

// stops lists the screens of a plan, in the order of mixing.
func (v *visit) stops(p plan.Plan) []stop {
	var out []stop
	if len(p.Cautions) > 0 {
		out = append(out, stop{kind: stopHead, bath: -1, id: "before", n: 1})
	}
	for _, i := range p.Order {
		out = append(out, v.bathStops(p.Baths[i], i)...)
	}
	return out
}

// bathStops lists the screens of bath i.
func (v *visit) bathStops(b plan.Bath, i int) []stop {
	if len(b.Mix.Choices) == 0 {
		return nil
	}
	var out []stop
	add := func(s stop) {
		s.bath, s.id, s.n = i, b.ID, len(out)+1
		out = append(out, s)
	}
	if len(b.Rinse) > 0 {
		add(stop{kind: stopWash})
	}
	if b.Temper != nil {
		add(stop{kind: stopWater})
	}
	var notes []words.Line
	for _, l := range v.say.BathWalk(b) {
		if l.Kind == words.Note {
			notes = append(notes, l)
			continue
		}
		add(stop{kind: stopLine, line: l, notes: notes})
		notes = nil
	}
	if len(out) > 0 {
		out[len(out)-1].last = true
		out[len(out)-1].notes = append(out[len(out)-1].notes, notes...)
		for _, c := range b.Cautions {
			at := &out[stopFor(c.Kind.At(), out, b.Mix.Choices[0].Steps)]
			at.cautions = append(at.cautions, c)
		}
	}
	return out
}

// stopFor returns at which of a bath's screens a caution stands; the first where there is none for its moment.
func stopFor(m plan.Moment, all []stop, steps []measure.Step) int {
	at := 0
	switch m {
	case plan.AtFirst:
	case plan.AtWater:
		at = slices.IndexFunc(all, func(s stop) bool { return s.kind == stopWater })
	case plan.AtBottle:
		at = slices.IndexFunc(all, func(s stop) bool {
			return s.kind == stopLine && s.line.Step >= 0 && steps[s.line.Step].What <= measure.PartB
		})
	case plan.AtEnd:
		at = len(all) - 1
	}
	return max(at, 0)
}

// done says of a stop what its key says: what was done there.
func (v *visit) done(b plan.Bath, s stop) string {
	switch s.kind {
	case stopHead:
		return v.say.Label("ready")
	case stopWash:
		return v.say.Label("done_washed")
	case stopWater:
		return v.say.Label("done_water")
	case stopLine:
	}
	if s.line.Step < 0 {
		return v.tipped(b)
	}
	switch b.Mix.Choices[0].Steps[s.line.Step].Do {
	case measure.Tip:
		return v.tipped(b)
	case measure.Weigh:
		return v.say.Label("done_weighed")
	case measure.Start:
		return v.say.Label("done_water_in")
	case measure.Rinse:
		return v.say.Label("done_rinsed")
	case measure.Stir:
		return v.say.Label("done_stirred")
	case measure.Pour, measure.Fill:
	}
	return v.say.Label("poured")
}

// tipped says that it was poured into the tray, or that it is in its bottle.
func (v *visit) tipped(b plan.Bath) string {
	switch {
	case b.Tank != "":
		return v.say.Label("into_tank_done")
	case b.Tray == "":
		return v.say.Label("poured")
	}
	return v.say.Tell("poured_into", "Tray", unbroken(b.Tray)).Text()
}

// unbroken keeps a short name on one line: "Tray 1".
func unbroken(name string) string {
	const short = 18
	if len(name) > short {
		return name
	}
	return strings.ReplaceAll(name, " ", "\u00a0")
}

// A numberedLine is a line of the sheet with the numbers of the steps at which one does it.
type numberedLine struct {
	words.Line
	N string
}

// numberedLines are the lines of a bath as they stand on the sheet, numbered as one goes through them step by step.
func (v *visit) numberedLines(b plan.Bath) []numberedLine {
	all := v.bathStops(b, 0)
	var out []numberedLine
	for _, s := range all {
		switch s.kind {
		case stopWash:
			out = append(out, numberedLine{words.Line{Kind: words.Action, Say: v.say.Rinse(b), Step: -1}, strconv.Itoa(s.n)})
		case stopWater:
			for i, l := range v.say.Temper(*b.Temper, words.WaterOf(b)) {
				one := numberedLine{Line: l}
				if i == 0 {
					one.N = strconv.Itoa(s.n)
				}
				out = append(out, one)
			}
		case stopHead, stopLine:
		}
	}
	for _, l := range v.say.BathMix(b) {
		one := numberedLine{Line: l}
		if l.Kind == words.Reading || l.Kind == words.Action {
			one.N = numbersOf(all, l.Step)
		}
		out = append(out, one)
	}
	return out
}

// numbersOf returns the numbers of the stops at which a step of the choice is done: "2", "1, 6", "2 to 4", "1, 6 …".
func numbersOf(all []stop, step int) string {
	var ns []int
	for _, s := range all {
		if s.kind == stopLine && s.line.Step == step {
			ns = append(ns, s.n)
		}
	}
	switch k := len(ns); {
	case k == 0:
		return ""
	case k == 1:
		return strconv.Itoa(ns[0])
	case ns[k-1]-ns[0] == k-1:
		return strconv.Itoa(ns[0]) + "–" + strconv.Itoa(ns[k-1])
	case k == 2:
		return strconv.Itoa(ns[0]) + ", " + strconv.Itoa(ns[1])
	}
	return strconv.Itoa(ns[0]) + ", " + strconv.Itoa(ns[1]) + "\u00a0…"
}
