package wash

import (
	"math"
	"time"

	"wetside/trade/quantity"
)

// longest is how long a wash is followed, and mostChanges through how many fillings.
const (
	longest     = 24 * time.Hour
	mostChanges = 500
)

// A model is a load in the state in which it comes to the wash, with what it gives and takes.
type model struct {
	places []place
	area   float64 // m²
	start  float64 // g/L in every place
}

// left returns what the places hold, g/m².
func (m *model) left(c state) float64 {
	sum := 0.0
	for k, p := range m.places {
		sum += p.held * c[k]
	}
	return sum
}

func (m *model) fresh() state {
	var c state
	for k := range m.places {
		c[k] = m.start
	}
	return c
}

// A plan is a way of washing with its times. All but a cascade in steady use are fillings of a vessel one after another, through
// which water flows or not: running water is a single one, a cascade with one load as many as it has vessels.
type plan struct {
	way     Way
	volume  float64 // L
	flow    float64 // L/s
	contact float64 // s of each filling; +Inf where there is one
	fills   int     // the most; 0: as many as are wanted
	steady  int     // vessels of a cascade in steady use; 0: another way
}

// A walker follows a plan through rising times.
type walker struct {
	model *model
	plan  plan
	modes modes
	full  matrix // over one contact
	water []float64
	done  int // fillings finished
	c     state
}

func (m *model) walk(p plan) *walker {
	w := &walker{model: m, plan: p, c: m.fresh()}
	if p.steady > 0 {
		w.water = m.steady(p)
		return w
	}
	w.modes = modesOf(m.places, m.area, p.volume, p.flow)
	if !math.IsInf(p.contact, 1) {
		w.full = w.modes.over(p.contact)
	}
	return w
}

// at returns what is left at t seconds, g/m²; t must not be less than before.
func (w *walker) at(t float64) float64 {
	for (w.plan.fills == 0 || w.done+1 < w.plan.fills) && t-float64(w.done)*w.plan.contact >= w.plan.contact {
		w.change()
	}
	rest := t
	if w.done > 0 {
		rest -= float64(w.done) * w.plan.contact
	}
	if w.plan.steady > 0 {
		return w.model.left(w.model.towards(w.c, w.water[w.done], rest))
	}
	over := w.modes.over(rest)
	return w.model.left(w.c.after(&over))
}

// change ends a filling: the water goes, what is held stays.
func (w *walker) change() {
	if w.plan.steady > 0 {
		w.c = w.model.towards(w.c, w.water[w.done], w.plan.contact)
	} else {
		w.c = w.c.after(&w.full)
		w.c[len(w.model.places)] = 0
	}
	w.done++
}

// fillings returns after how many fillings no more than limit is left, and how much; ok is false where mostChanges or
// the longest time are not enough.
func (w *walker) fillings(limit float64) (n int, left float64, ok bool) {
	for n = 1; n <= mostChanges && float64(n)*w.plan.contact <= longest.Seconds(); n++ {
		w.change()
		if left = w.model.left(w.c); left <= limit {
			return n, left, true
		}
	}
	return 0, left, false
}

// litres returns the water of n fillings and t seconds.
func (p plan) litres(n int, t float64) float64 { return float64(n)*p.volume + p.flow*t }

func litresOf(v quantity.Volume) float64 { return v.ML() / 1000 }

// crossing returns the least whole number of seconds from least to most at which f, which falls, is no more than limit; ok is
// false where it is more at most.
func crossing(least, most int, limit float64, f func(s float64) float64) (s int, ok bool) {
	if f(float64(most)) > limit {
		return 0, false
	}
	for least < most {
		mid := least + (most-least)/2
		if f(float64(mid)) <= limit {
			most = mid
		} else {
			least = mid + 1
		}
	}
	return most, true
}
