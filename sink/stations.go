package sink

import (
	"slices"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/plan"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// A Scene is what Look looks at.
type Scene struct {
	State *book.State
	Plan  plan.Plan   // of tonight
	Baths ahead.Scene // what stands there, by the book
	Now   time.Time
}

// Look tells how the work stands.
func Look(s Scene) Sink {
	k := looker{scene: &s, found: map[string]int{}}
	k.sink.Next = -1
	if e, ok := s.State.Running(); ok {
		k.sink.Evening = e
	}
	for _, film := range []bool{false, true} {
		for i := range s.Plan.Loads {
			if (s.Plan.Loads[i].Material == material.Film) == film {
				k.way(i)
			}
		}
	}
	k.inOrder()
	k.prints()
	k.batches()
	k.sink.Next = next(k.sink.Tags)
	return k.sink
}

type looker struct {
	scene *Scene
	sink  Sink
	found map[string]int // stations by key
}

// way adds a load's way, and the stations that it is the first to have.
func (k *looker) way(load int) {
	l := &k.scene.Plan.Loads[load]
	film := l.Material == material.Film
	w := Way{Key: wayKey(l), Material: l.Material, Size: l.Size}
	if slices.ContainsFunc(k.sink.Ways, func(o Way) bool { return o.Key == w.Key }) {
		return // a second line of the same: the first one's times serve
	}
	for i := range l.Times {
		t := &l.Times[i]
		if !AtSink(t.Step) {
			continue
		}
		at := k.station(t, film)
		w.Stops = append(w.Stops, k.stop(t, at))
		if t.Bath >= 0 {
			w.Rolls = max(w.Rolls, k.scene.Plan.Baths[t.Bath].Rolls)
		}
	}
	if len(w.Stops) > 0 {
		k.sink.Ways = append(k.sink.Ways, w)
	}
}

// AtSink reports whether a step is work at the sink that a print lies in or a film is looked at for.
func AtSink(s process.Step) bool {
	return s.Liquid() && s != process.NoStep || s == process.CheckClearing
}

// wayKey names a way by what goes along it, so that it stays the same when lines are added or moved.
func wayKey(l *plan.Load) string {
	return strings.ReplaceAll(l.Material.String()+" "+l.Size.String(), " ", "-")
}

// station returns the index of a step's station, which is made where it is new.
func (k *looker) station(t *plan.Timed, film bool) int {
	key := t.Step.String()
	if film {
		key = "film-" + key
	}
	if at, ok := k.found[key]; ok {
		return at
	}
	s := Station{Key: key, Step: t.Step, Film: film}
	if t.Bath >= 0 {
		b := &k.scene.Plan.Baths[t.Bath]
		s.Role, s.Product, s.Planned, s.Tray, s.Colour = b.Role, b.Product, b.ID, b.Tray, b.Colour
		if b.Tank != "" {
			s.Tray = b.Tank
		}
		k.standing(&s, b)
	}
	k.found[key] = len(k.sink.Stations)
	k.sink.Stations = append(k.sink.Stations, s)
	return k.found[key]
}

// standing finds the bath that stands at a station: of its role and place, for film or for paper, in a tray or a tank; the
// room's before what is somebody's own, the one in the planned tray before others, the latest made before older ones.
func (k *looker) standing(s *Station, b *plan.Bath) {
	best := -1
	for i := range k.scene.Baths.Baths {
		o := &k.scene.Baths.Baths[i]
		if o.Gone || o.ID == "" || o.Role != b.Role || o.Film != s.Film && (!o.Film || !o.Paper) || (o.Tray == "" && o.Tank == "") {
			continue
		}
		if b.Role == process.Fixer && (b.Step == process.SecondFix) != (o.Place == bath.Second) {
			continue
		}
		if best < 0 || k.nearer(o, &k.scene.Baths.Baths[best], b) {
			best = i
		}
	}
	if best < 0 {
		return
	}
	o := &k.scene.Baths.Baths[best]
	s.Bath = o.ID
	if o.Tray != "" {
		s.Tray, s.Colour = o.Tray, o.Colour
	}
	s.Reading = k.reading(o.ID)
}

func (k *looker) nearer(a, b *ahead.Bath, planned *plan.Bath) bool {
	if (a.Whose == "") != (b.Whose == "") {
		return a.Whose == ""
	}
	if in := a.Tray == planned.Tray; in != (b.Tray == planned.Tray) {
		return in
	}
	return a.Made.After(b.Made)
}

// reading returns the last temperature that was read in a bath tonight, by somebody or by a probe: within TooOld.
func (k *looker) reading(id string) *Reading {
	return LastRead(k.scene.State, id, k.scene.Now)
}

// LastRead returns the last temperature that was read in a bath, by somebody or by a probe, nil for none within TooOld.
func LastRead(s *book.State, id string, now time.Time) *Reading {
	read := byHand(s, id, now)
	if p, ok := s.Reading(id); ok && now.Sub(p.At) < TooOld && (read == nil || read.At.Before(p.At)) {
		return &Reading{At: p.At, Celsius: p.Reads.Value, Entry: p.Entry, Probe: p.Probe}
	}
	return read
}

// byHand returns the last temperature that somebody read in a bath, nil for none within TooOld.
func byHand(s *book.State, id string, now time.Time) *Reading {
	b, ok := s.Bath(id)
	if !ok {
		return nil
	}
	for _, e := range slices.Backward(b.Events) {
		t, isTest := e.Did.(book.TestMade)
		if isTest && t.Result.Test == book.Thermometer && now.Sub(e.At) < TooOld {
			return &Reading{At: e.At, Celsius: celsius((t.Result.From + t.Result.To) / 2), Entry: e.Entry}
		}
	}
	return nil
}

// inOrder puts the stations into the order of the work, paper first, and numbers their places.
func (k *looker) inOrder() {
	order := make([]int, len(k.sink.Stations))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		s, t := &k.sink.Stations[a], &k.sink.Stations[b]
		if s.Film != t.Film {
			if t.Film {
				return -1
			}
			return 1
		}
		switch {
		case s.Step.Before(t.Step):
			return -1
		case t.Step.Before(s.Step):
			return 1
		}
		return 0
	})
	at := make([]int, len(order))
	sorted := make([]Station, len(order))
	for to, from := range order {
		at[from], sorted[to] = to, k.sink.Stations[from]
		sorted[to].Place = to
	}
	k.sink.Stations = sorted
	for w := range k.sink.Ways {
		for i := range k.sink.Ways[w].Stops {
			s := &k.sink.Ways[w].Stops[i]
			s.Station = at[s.Station]
		}
	}
	for key, i := range k.found {
		k.found[key] = at[i]
	}
}
