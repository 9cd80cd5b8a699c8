package ahead

import (
	"slices"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/darkroom/hazards"
	"wetside/trade/bath"
	"wetside/trade/hazard/substance"
	"wetside/trade/process"
	"wetside/trade/reckoning"
	"wetside/trade/waste"
)

// A Can is a waste can with what is likely in it.
type Can struct {
	book.WasteCan
	Litres float64
	Level  waste.Level // NoSize of what nobody named a can of
	Silver Silver      // in it now
	// Fetched is the silver that went with each fetching since the moment that was asked from, by the fetching's entry.
	Fetched map[string]Silver
	FullOn  time.Time // about; zero where no pace can be told
	Pace    reckoning.Reckoning
	Wrong   []Wrong // what is in it and does not belong there
}

// Silver is how much there is of it, g. What nobody knows is told apart.
type Silver struct {
	Grams     waste.Span
	Known     float64 // litres of which it is reckoned
	Unknown   float64 // litres of which nobody knows
	Reckoning reckoning.Reckoning
}

// A Wrong is a part of a can that does not belong there.
type Wrong struct {
	Part book.WastePart
	May  waste.May
}

// wasteDraws is how many possible rooms are drawn for the silver in cans: it is told to a figure or two.
const wasteDraws = 1000

// Waste returns the waste cans of a book, at a moment in the room's own zone, with the silver of what is in them and of what was
// fetched from a moment on. The error is that of Look.
func Waste(s *book.State, from, now time.Time) ([]Can, error) {
	w := keeper{state: s, from: from, now: now}
	for _, c := range s.Waste() {
		w.cans = append(w.cans, w.can(c))
	}
	return w.cans, w.silver()
}

// Cans is Waste without the silver, which takes time to reckon.
func Cans(s *book.State, now time.Time) []Can {
	w := keeper{state: s, now: now}
	for _, c := range s.Waste() {
		w.cans = append(w.cans, w.can(c))
	}
	return w.cans
}

// A keeper looks into the waste cans.
type keeper struct {
	state     *book.State
	from, now time.Time
	cans      []Can
	at        map[string]int // index of each bath in the scene
	rooms     *bath.Rooms
}

// can tells what needs no rooms.
func (w *keeper) can(c book.WasteCan) Can {
	out := Can{WasteCan: c, Litres: c.Level().ML() / 1000, Fetched: map[string]Silver{}}
	can := tradeCan(&c)
	out.Level = LevelOf(&c)
	var puts []waste.Put
	for i := range c.Moves {
		if p := c.Moves[i].In; p != nil {
			puts = append(puts, waste.Put{At: p.At, Litres: p.Volume.ML() / 1000})
		}
	}
	slices.SortStableFunc(puts, func(a, b waste.Put) int { return a.At.Compare(b.At) })
	if day, r, ok := can.FullOn(out.Litres, puts, w.now); ok {
		out.FullOn, out.Pace = day, r
	}
	var in []waste.Bath
	for i := range c.Now {
		b := w.pours(&c.Now[i])
		if may := can.MayGo(b, in); c.ID != "" && !may.Goes {
			out.Wrong = append(out.Wrong, Wrong{c.Now[i], may})
		}
		in = append(in, b)
	}
	return out
}

func tradeCan(c *book.WasteCan) waste.Can {
	return waste.Can{Takes: c.Can.Takes, Litres: c.Can.Holds.Value.ML() / 1000, FullAt: c.Can.FullAt.Value}
}

// pours is a part as the trade looks at it.
func (w *keeper) pours(p *book.WastePart) waste.Bath {
	if product, ok := w.state.ProductOf(p.Bath); ok && p.Bath != "" {
		return poured(w.state, product)
	}
	return waste.Bath{Role: p.Of}
}

// poured is a bath of a product as it is poured away.
func poured(s *book.State, product string) waste.Bath {
	p, _ := s.Product(product)
	out := waste.Bath{Name: p.Name, Role: p.Role, Groups: hazards.Declared(&p)}
	if p.Acid.Value {
		out.Groups |= substance.Acid
	}
	if p.Alkali.Value {
		out.Groups |= substance.StrongAlkali
	}
	return out
}

// InCans returns the ids of the baths whose silver Waste reckons: they must be awake (book.State.NeedsBaths).
func InCans(s *book.State, from time.Time) []string {
	w := keeper{state: s, from: from}
	for _, c := range s.Waste() {
		w.cans = append(w.cans, Can{WasteCan: c})
	}
	return w.fixers()
}

// fixers are the baths in the cans and of the fetchings that silver comes from, each once.
func (w *keeper) fixers() (only []string) {
	asked := map[string]bool{}
	ask := func(parts []book.WastePart) {
		for i := range parts {
			if id := parts[i].Bath; id != "" && parts[i].Of == process.Fixer && !asked[id] {
				asked[id] = true
				only = append(only, id)
			}
		}
	}
	for i := range w.cans {
		ask(w.cans[i].Now)
		w.fetchings(&w.cans[i], func(m *book.WasteMove) { ask(m.With) })
	}
	return only
}

// silver draws rooms for all fixers that are asked about, and tells each can's.
func (w *keeper) silver() error {
	only := w.fixers()
	if len(only) > 0 {
		f, ids := w.state.File(nil)
		t := taker{state: w.state, file: &f, ids: &ids, at: map[string]int{}, only: only, scene: Scene{Room: f.Darkroom, Now: w.now, acids: newAcids()}}
		t.baths()
		t.events()
		past, err := t.scene.past()
		if err != nil {
			return err
		}
		if w.rooms, err = past.Draw(wasteDraws, 0); err != nil {
			return err
		}
		w.at = w.knownOf(&t)
	}
	for i := range w.cans {
		c := &w.cans[i]
		c.Silver = w.of(c.Now)
		w.fetchings(c, func(m *book.WasteMove) { c.Fetched[m.Entry] = w.of(m.With) })
	}
	return nil
}

// fetchings calls do for each fetching since the moment that was asked from.
func (w *keeper) fetchings(c *Can, do func(m *book.WasteMove)) {
	for i := range c.Moves {
		if m := &c.Moves[i]; m.Taken != nil && !m.At.Before(w.from) {
			do(m)
		}
	}
}

// knownOf is where in the scene the baths stand of which something is known: one that was begun before the book and that no
// strip was ever read of is not.
func (w *keeper) knownOf(t *taker) map[string]int {
	known := map[string]int{}
	for id, i := range t.at {
		b := t.known[id]
		strip := slices.ContainsFunc(b.Events, func(e book.Event) bool {
			test, is := e.Did.(book.TestMade)
			return is && test.Bath == id && test.Result.Test == book.SilverStrip
		})
		if !b.BeforeUnknown() || strip {
			known[id] = i
		}
	}
	return known
}

// of tells the silver of parts poured together.
func (w *keeper) of(parts []book.WastePart) Silver {
	var out Silver
	var portions []bath.Portion
	r := reckoning.Reckoning{Rule: "silver_in_can"}
	for i := range parts {
		p := &parts[i]
		litres := p.Volume.ML() / 1000 * p.Share
		at, ok := w.at[p.Bath]
		if !ok || p.Bath == "" || p.Of != process.Fixer {
			out.Unknown += litres
			continue
		}
		out.Known += litres
		portions = append(portions, bath.Portion{Bath: at, Litres: litres})
		r.Puts = append(r.Puts, reckoning.Figure{
			Name: "silver_per_litre", Of: w.name(p.Bath), Value: w.rooms.Now(at, bath.Silver).P50, Unit: reckoning.GPerL, Origin: reckoning.Computed,
		}, reckoning.Figure{Name: "poured_in", Of: w.name(p.Bath), Value: litres, Unit: reckoning.L})
	}
	if len(portions) == 0 {
		return out
	}
	span := w.rooms.In(portions, bath.Silver)
	out.Grams = waste.Span{P10: span.P10, P50: span.P50, P90: span.P90}
	r.Result = reckoning.Figure{Name: "silver_in_can", Value: span.P50, Unit: reckoning.G, Origin: reckoning.Computed}
	out.Reckoning = r
	return out
}

func (w *keeper) name(id string) string {
	product, _ := w.state.ProductOf(id)
	p, _ := w.state.Product(product)
	return p.Name
}

// LevelOf says how full a waste can is.
func LevelOf(c *book.WasteCan) waste.Level { return tradeCan(c).Level(c.Level().ML() / 1000) }

// CanFor returns the waste can of the room for a bath: the first that takes it and has room, else the first that takes it; the
// zero value where there is none.
func CanFor(s *book.State, of process.Role) book.WasteCan {
	var best book.WasteCan
	for _, c := range s.Waste() {
		if !c.There || c.Can.Takes != of {
			continue
		}
		if l := LevelOf(&c); l.Room > 0 || l.Fill == waste.NoSize {
			return c
		}
		if best.ID == "" {
			best = c
		}
	}
	return best
}

// MayGo says whether a bath of the book goes into a can.
func MayGo(s *book.State, can *book.WasteCan, b *book.Bath) waste.May {
	w := keeper{state: s}
	var in []waste.Bath
	for i := range can.Now {
		in = append(in, w.pours(&can.Now[i]))
	}
	return tradeCan(can).MayGo(poured(s, b.Mixed.Product), in)
}

// Here is the room with its drain, as the trade looks at it.
func Here(s *book.State, now time.Time) waste.Here {
	f, _ := s.File(nil)
	h := waste.Here{
		Place: waste.Place(f.Darkroom.Place), Drain: waste.Drain(f.Darkroom.Drain), Law: waste.Law(f.Darkroom.Law), Now: now,
	}
	for _, a := range s.Answers() {
		h.Answers = append(h.Answers, waste.Answer{
			Entry: a.Entry, Of: a.Of, Place: waste.Place(a.Words.Place), Drain: waste.Drain(a.Words.Drain), Said: waste.SaidOf(a.Words.Answer),
			On: a.At, Office: a.Words.Office, Words: a.Words.Words,
		})
	}
	return h
}

// Drains says what is done with each kind of bath that the room has, in the order of the kinds.
func Drains(s *book.State, now time.Time) []waste.Advice {
	h := Here(s, now)
	f, _ := s.File(nil)
	var all []waste.Advice
	for _, r := range process.Roles() {
		if slices.ContainsFunc(f.Shelf.Products, func(p darkroom.Product) bool { return p.Role == r }) {
			all = append(all, h.Advise(r))
		}
	}
	return all
}
