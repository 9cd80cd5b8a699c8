package ahead

import (
	"slices"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// FromBook makes the scene of what stands in a darkroom by its book, at a moment in the room's own zone. asked is the
// material that is asked about first; material.None leaves that to what is to be made, or was made last.
func FromBook(s *book.State, asked material.Material, now time.Time) Scene {
	f, ids := s.File(nil)
	t := taker{state: s, file: &f, ids: &ids, at: map[string]int{}, scene: Scene{Room: f.Darkroom, Now: now}}
	t.baths()
	t.events()
	t.tonight()
	t.chains(asked)
	return t.scene
}

type taker struct {
	state *book.State
	file  *darkroom.File
	ids   *book.IDs
	all   []book.Bath
	known map[string]*book.Bath // all of them by the book's id
	only  []string              // the baths that are asked about, gone or not; nil: those that stand there
	at    map[string]int        // of Scene.Baths, by the book's id
	dev   int                   // stand-ins, -1 until they are wanted
	wet   int
	scene Scene
}

// standIn is how many litres a bath has that stands in for baths that are gone: so many that it never changes.
const standIn = 1e6

// baths takes the baths that stand there, and the gone fixers whose liquid went on into them. Other gone baths are stood
// in for: a developer that carries developer, water that only wets.
func (t *taker) baths() {
	t.dev, t.wet = -1, -1
	t.all, t.known = t.state.Baths(), map[string]*book.Bath{}
	for i := range t.all {
		t.known[t.all[i].ID] = &t.all[i]
	}
	keep := map[string]bool{}
	for _, id := range t.only {
		t.upstream(keep, id)
	}
	for i := range t.all {
		if t.only == nil && t.all[i].Gone == nil {
			t.upstream(keep, t.all[i].ID)
		}
	}
	for i := range t.all {
		b := &t.all[i]
		if (b.Gone != nil || t.only != nil) && (!keep[b.ID] || t.role(b) != process.Fixer) {
			continue
		}
		t.at[b.ID] = len(t.scene.Baths)
		t.scene.Baths = append(t.scene.Baths, t.bath(b))
	}
	Name(t.scene.Baths)
}

// upstream marks a bath and the fixers whose liquid was carried into it.
func (t *taker) upstream(keep map[string]bool, id string) {
	if keep[id] {
		return
	}
	keep[id] = true
	if b := t.known[id]; b != nil {
		for _, before := range b.Comes {
			t.upstream(keep, before)
		}
	}
}

func (t *taker) role(b *book.Bath) process.Role {
	p, _ := t.state.Product(b.Mixed.Product)
	return p.Role
}

func (t *taker) bath(b *book.Bath) Bath {
	in := b.In()
	out := Bath{
		ID: b.ID, Dilution: b.Dilution, Words: b.Mixed.Dilution, Litres: b.Volume.ML() / 1000,
		Made: b.MixedAt.In(t.scene.Now.Location()), MadeBy: b.By, Whose: b.Mixed.Whose, Known: b.Made,
		Container: in.State, Since: in.Since.In(t.scene.Now.Location()), Gone: b.Gone != nil,
	}
	if p, ok := t.state.Product(b.Mixed.Product); ok || p.Name != "" {
		out.Product, out.Role = &p, p.Role
	}
	switch b.Place {
	case darkroom.BathFirst:
		out.Place = bath.First
	case darkroom.BathSecond:
		out.Place = bath.Second
	case darkroom.BathOne:
	}
	for i, id := range t.ids.Trays {
		if id == in.Tray && i < len(t.file.Bench.Trays) {
			out.Tray, out.Colour = t.file.Bench.Trays[i].Name, t.file.Bench.Trays[i].Colour
		}
	}
	for i, id := range t.ids.Tanks {
		if id == in.Tank && i < len(t.file.Bench.Tanks) {
			out.Tank = t.file.Bench.Tanks[i].Name
		}
	}
	t.serves(&out, b)
	out.InTray = stoodOpen(b)
	if b.Pair != nil {
		out.Changes = b.Pair.Changes
		for _, total := range b.Pair.Totals {
			out.PairSheets += float64(total.Counted.Area+total.Estimated.Area) / Area8x10
		}
	}
	return out
}

// serves tells whether a bath is for film or for paper: as was said, or film alone by its label, or in a tank.
func (t *taker) serves(out *Bath, b *book.Bath) {
	for _, total := range b.Totals {
		if total.Material == material.Film {
			out.Film = true
		}
	}
	switch b.Mixed.For {
	case book.ServesFilm:
		out.Film = true
	case book.ServesPaper:
		out.Paper = true
	case book.ServesAny:
		only := out.Product != nil && len(out.Product.For) == 1 && out.Product.For[0] == material.Film
		out.Film = out.Film || only || b.Mixed.Tank != ""
	}
}

// stoodOpen adds up how long a bath stood in the open before where it is now.
func stoodOpen(b *book.Bath) time.Duration {
	var sum time.Duration
	for i := range len(b.Stood) - 1 {
		if b.Stood[i].State == darkroom.InTray {
			sum += b.Stood[i+1].Since.Sub(b.Stood[i].Since)
		}
	}
	return max(sum, 0)
}

// path turns the ids of a load into indexes, with stand-ins for what is gone.
func (t *taker) path(through []string) []int {
	var path []int
	for _, id := range through {
		i, here := t.at[id]
		if !here {
			i = t.standFor(id)
		}
		if !slices.Contains(path, i) {
			path = append(path, i)
		}
	}
	return path
}

func (t *taker) standFor(id string) int {
	product, _ := t.state.ProductOf(id) // of one that rests, too
	if p, _ := t.state.Product(product); p.Role == process.Developer {
		if t.dev < 0 {
			t.dev = t.addStandIn(process.Developer)
		}
		return t.dev
	}
	if t.wet < 0 {
		t.wet = t.addStandIn(process.NoRole)
	}
	return t.wet
}

func (t *taker) addStandIn(r process.Role) int {
	t.scene.Baths = append(t.scene.Baths, Bath{Role: r, Litres: standIn, Gone: true})
	return len(t.scene.Baths) - 1
}

// events takes what happened to the baths of the scene.
func (t *taker) events() {
	for i := range t.all {
		b := &t.all[i]
		if at, here := t.at[b.ID]; here {
			for _, p := range b.Before {
				t.event(Event{At: b.MixedAt, Entry: b.Entry, Pass: t.pass(p, 0, []int{t.standFor(""), at})})
			}
		}
	}
	for _, e := range t.state.Events() {
		if !slices.ContainsFunc(e.Did.Baths(), func(id string) bool { _, here := t.at[id]; return here }) {
			continue
		}
		switch did := e.Did.(type) {
		case book.Load:
			t.event(Event{At: e.At, Entry: e.Entry, Pass: t.pass(did.Pass, did.Drain, t.path(did.Through))})
		case book.TopUp:
			t.event(Event{At: e.At, Entry: e.Entry, TopUp: &TopUp{
				Bath: t.at[did.Bath], Litres: did.Volume.ML() / 1000, Water: did.With == book.WithWater,
			}})
		case book.TestMade:
			steps := did.Steps
			if len(steps) == 0 {
				steps = t.file.Darkroom.SilverStrip
			}
			t.event(Event{At: e.At, Entry: e.Entry, Test: &Test{Bath: t.at[did.Bath], Result: did.Result, Steps: steps}})
		}
	}
}

func (t *taker) event(e Event) {
	if e.Pass != nil && (e.Pass.Area <= 0 || e.Pass.Sheets <= 0) {
		return
	}
	t.scene.Events = append(t.scene.Events, e)
}

func (t *taker) pass(p book.Pass, drain time.Duration, path []int) *Pass {
	one, _ := p.Size.Area()
	sheets := 0.0
	if one > 0 {
		sheets = float64(p.Area / one)
	}
	return &Pass{
		Material: p.Material, Area: float64(one), Sheets: sheets, Drained: drain, Baths: path, Estimated: p.Estimated,
	}
}
