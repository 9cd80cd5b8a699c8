package draw

import (
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// Walk returns the picture of each reading of a choice, by the index of its step: the vessel with what is in it by
// then, and the mark to pour to. Steps without a reading have none, but for the start with water, whose level
// no mark rules. say gives the words of each picture.
func Walk(c measure.Choice, vessels []measure.Vessel, say func(step int) ReadingWords) map[int]Reading {
	return walk(c, vessels, map[int][]Layer{}, say)
}

// walk is Walk with what stands in the vessels before.
func walk(c measure.Choice, vessels []measure.Vessel, in map[int][]Layer, say func(step int) ReadingWords) map[int]Reading {
	w := walker{c: c, vessels: vessels, in: in}
	out := map[int]Reading{}
	for i, s := range c.Steps {
		r, ok := w.step(s)
		if ok {
			r.Say = say(i)
			out[i] = r
		}
	}
	return out
}

// A walker holds what is in each vessel while the steps go by.
type walker struct {
	c       measure.Choice
	vessels []measure.Vessel
	in      map[int][]Layer
}

func (w *walker) step(s measure.Step) (Reading, bool) {
	if s.Vessel < 0 || s.Vessel >= len(w.vessels) {
		return Reading{}, false
	}
	r := Reading{
		Vessel: w.vessels[s.Vessel], Scale: s.Scale, Mark: s.Mark, Half: s.Half, Before: w.in[s.Vessel], Pour: ContentOf(s.What),
	}
	switch s.Do {
	case measure.Pour:
		w.pour(s)
	case measure.Weigh:
		r.Before = nil
		w.into(w.fill(s), MadeUp, s.Volume)
	case measure.Fill:
		w.in[s.Vessel] = []Layer{{MadeUp, s.Volume}}
	case measure.Start:
		r.About = w.about(s)
		r.Scale = w.scaleOf(s)
		if r.About <= 0 || len(r.Before) > 0 {
			return Reading{}, false
		}
		w.in[s.Vessel] = []Layer{{Water, r.About}}
	case measure.Tip:
		delete(w.in, s.Vessel)
		return Reading{}, false
	case measure.Rinse, measure.Stir:
		return Reading{}, false
	}
	return r, true
}

// pour moves what was read in a small vessel to where it goes: into the vessel that is filled up afterwards, or
// into the tray; read in that vessel itself, it stays.
func (w *walker) pour(s measure.Step) {
	f := w.fill(s)
	if f == s.Vessel {
		w.in[s.Vessel] = append(w.in[s.Vessel], Layer{ContentOf(s.What), s.Volume})
		return
	}
	delete(w.in, s.Vessel)
	if f < 0 {
		return
	}
	n := max(s.Times/max(s.Rounds, 1), 1)
	w.into(f, ContentOf(s.What), s.Volume.Times(n))
}

// into adds a volume to what is in a vessel; into water it makes a mix.
func (w *walker) into(vessel int, what Content, v quantity.Volume) {
	if vessel < 0 {
		return
	}
	below := quantity.Volume(0)
	layers := w.in[vessel]
	if len(layers) > 0 {
		below = layers[len(layers)-1].To
	}
	if below > 0 {
		w.in[vessel] = []Layer{{MadeUp, below + v}}
		return
	}
	w.in[vessel] = []Layer{{what, v}}
}

// fill returns the vessel that is filled up to a mark in the step's group, -1 where none is.
func (w *walker) fill(s measure.Step) int {
	for _, o := range w.c.Steps {
		if o.Group == s.Group && o.Do == measure.Fill {
			return o.Vessel
		}
	}
	return -1
}

// about returns the level that three quarters of the water reach.
func (w *walker) about(s measure.Step) quantity.Volume {
	var top, chemical quantity.Volume
	for _, o := range w.c.Steps {
		if o.Group != s.Group {
			continue
		}
		switch {
		case o.Do == measure.Fill && o.Vessel == s.Vessel:
			top = o.Volume
		case o.What != measure.Water && (o.Do == measure.Pour || o.Do == measure.Weigh):
			chemical += o.Volume.Times(max(o.Times/max(o.Rounds, 1), 1))
		}
	}
	return (top - chemical) / 4 * 3
}

// scaleOf returns the scale that the step's vessel is filled up on.
func (w *walker) scaleOf(s measure.Step) int {
	for _, o := range w.c.Steps {
		if o.Group == s.Group && o.Do == measure.Fill && o.Vessel == s.Vessel {
			return o.Scale
		}
	}
	return 0
}
