package sink_test

import (
	"fmt"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/plan"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/trade/process"
)

// evening is the moment at which the example's baths stand ready.
var evening = time.Date(2026, time.December, 3, 18, 30, 0, 0, time.UTC) //nolint:gochecknoglobals // a constant that Go has no word for

// A room is the example darkroom with its baths poured and a book that goes on.
type room struct {
	t       *testing.T
	state   *book.State
	plan    plan.Plan
	author  *book.Author
	entries []book.Entry
}

func newRoom(t *testing.T) *room {
	t.Helper()
	f, err := example.File(evening)
	if err != nil {
		t.Fatal(err)
	}
	return roomOf(t, f)
}

func roomOf(t *testing.T, f darkroom.File) *room {
	t.Helper()
	n := 0
	r := &room{t: t, state: book.New("room", book.Upcasters()), author: &book.Author{
		Device: "d1", Now: evening, NewID: func() string { n++; return fmt.Sprintf("e%04d", n) },
	}}
	im, err := book.Import(r.state, nil, f, r.author, book.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range im.Entries {
		r.try(e)
	}
	if r.plan, err = plan.Make(t.Context(), plan.Request{File: f, Now: evening}); err != nil {
		t.Fatal(err)
	}
	r.say(0, &book.EveningOpened{Session: "s1"})
	return r
}

func (r *room) try(e book.Entry) {
	r.t.Helper()
	after, err := r.state.Admit([]book.Entry{e}, func(id string) (book.Entry, error) {
		for _, e := range r.entries {
			if e.ID == id {
				return e, nil
			}
		}
		return book.Entry{}, &book.Error{Kind: book.NotFound, Key: "entry_not_found"}
	})
	if err != nil {
		r.t.Fatal(err)
	}
	r.state, r.entries = after, append(r.entries, e)
}

// say writes a body so many seconds into the evening.
func (r *room) say(seconds int, b book.Body) string {
	r.t.Helper()
	r.author.Now = evening.Add(time.Duration(seconds) * time.Second)
	e, err := r.author.Write(b)
	if err != nil {
		r.t.Fatal(err)
	}
	r.try(e)
	return e.ID
}

func (r *room) look(seconds int) sink.Sink {
	now := evening.Add(time.Duration(seconds) * time.Second)
	return sink.Look(sink.Scene{State: r.state, Plan: r.plan, Baths: ahead.FromBook(r.state, material.None, now), Now: now})
}

// pour says that a planned bath stands in its tray.
func (r *room) pour(id string, place darkroom.Bath) {
	r.t.Helper()
	f, ids := r.state.File(nil)
	for _, b := range r.plan.Baths {
		if b.ID != id {
			continue
		}
		m := &book.Mixed{Bath: "b-" + id, Dilution: b.Words, Volume: b.Volume.String(), Place: place}
		for i, p := range f.Shelf.Products {
			if p.Name == b.Product {
				m.Product = ids.Products[i]
			}
		}
		for i, t := range f.Bench.Trays {
			if t.Name == b.Tray {
				m.Tray = ids.Trays[i]
			}
		}
		r.say(1, m)
		return
	}
	r.t.Fatalf("no bath %s in the plan", id)
}

func keys(s sink.Sink) (all []string) {
	for _, st := range s.Stations {
		all = append(all, st.Key)
	}
	return all
}

// start puts a print of the first paper way into its first station.
func (r *room) start(seconds int, id, of string, w sink.Way, s sink.Sink) string {
	stop := w.Stops[0]
	st := s.Stations[stop.Station]
	return r.say(seconds, &book.PrintStarted{
		Print: id, Of: of, Session: "s1",
		Prints: book.Prints{Material: w.Material.String(), Size: w.Size.String(), Sheets: 1},
		At:     book.At{Step: st.Step.String(), Bath: st.Bath, For: fmt.Sprintf("%d s", int(stop.Time.Seconds())), Drain: "10 s"},
	})
}

// TestStations: the example's trays stand in the order of the work, and each knows the bath in it once it was poured.
func TestStations(t *testing.T) {
	r := newRoom(t)
	s := r.look(2)
	t.Log(keys(s))
	for i, st := range s.Stations {
		if st.Place != i || i > 0 && !st.Film && s.Stations[i-1].Film || i > 0 && st.Film == s.Stations[max(i-1, 0)].Film && !s.Stations[i-1].Step.Before(st.Step) {
			t.Errorf("station %d is %+v after %v", i, st, s.Stations[max(i-1, 0)].Step)
		}
		if st.Bath != "" {
			t.Errorf("%s has bath %s, and nothing was poured", st.Key, st.Bath)
		}
	}
	for _, w := range s.Ways {
		if len(w.Stops) < 3 || s.Stations[w.Stops[0].Station].Film != (w.Material == material.Film) {
			t.Errorf("way %s: %+v", w.Key, w)
		}
		for i, stop := range w.Stops {
			if stop.Time < 0 || stop.Drain > stop.Time || i > 0 && stop.Station <= w.Stops[i-1].Station {
				t.Errorf("way %s stop %d: %+v", w.Key, i, stop)
			}
		}
	}
	r.pour("developer", "")
	if s = r.look(3); s.Stations[0].Step != process.Develop || s.Stations[0].Bath != "b-developer" {
		t.Errorf("the developer is poured, and its station is %+v", s.Stations[0])
	}
}

// paper returns the way of a paper.
func paper(t *testing.T, s sink.Sink, m material.Material) sink.Way {
	t.Helper()
	for _, w := range s.Ways {
		if w.Material == m {
			return w
		}
	}
	t.Fatalf("no way for %v", m)
	return sink.Way{}
}

// move takes a print to the n-th stop of its way.
func (r *room) move(seconds int, id string, w sink.Way, n int, s sink.Sink) string {
	stop := w.Stops[n]
	st := s.Stations[stop.Station]
	at := book.At{Step: st.Step.String(), Bath: st.Bath}
	if stop.Time > 0 {
		at.For, at.Drain = fmt.Sprintf("%d s", int(stop.Time.Seconds())), fmt.Sprintf("%d s", int(stop.Drain.Seconds()))
	}
	return r.say(seconds, &book.PrintMoved{Print: id, At: at})
}

// TestThreePrints: three prints of two people; the one that is due first is moved next, wherever it lies, and numbers go in
// the order of starting.
func TestThreePrints(t *testing.T) {
	r := newRoom(t)
	for _, id := range []string{"developer", "stop"} {
		r.pour(id, "")
	}
	s := r.look(5)
	w := paper(t, s, material.RC)
	develop := w.Stops[0].Time
	if develop <= 0 || w.Stops[1].Time <= 0 {
		t.Fatalf("the example's RC way is %+v", w)
	}
	r.start(10, "p", "mo", w, s)
	r.start(20, "q", "lu", w, s)
	r.move(10+int(develop.Seconds()), "p", w, 1, s)
	r.start(12+int(develop.Seconds()), "r", "mo", w, s)
	s = r.look(15 + int(develop.Seconds()))
	if len(s.Tags) != 3 {
		t.Fatalf("tags %+v", s.Tags)
	}
	for i, want := range []struct {
		id, of  string
		station int
		due     int // seconds into the evening
	}{
		{"p", "mo", w.Stops[1].Station, 10 + int(develop.Seconds()) + int(w.Stops[1].Time.Seconds())},
		{"q", "lu", w.Stops[0].Station, 20 + int(develop.Seconds())},
		{"r", "mo", w.Stops[0].Station, 12 + 2*int(develop.Seconds())},
	} {
		got := s.Tags[i]
		if got.Print.ID != want.id || got.Print.Of != want.of || got.Number != i+1 || got.Station != want.station ||
			!got.Due.Equal(evening.Add(time.Duration(want.due)*time.Second)) || got.Lift.After(got.Due) {
			t.Errorf("tag %d is %+v, want %+v", i, got, want)
		}
	}
	first := s.Tags[s.Next]
	for _, tag := range s.Tags {
		if tag.Due.Before(first.Due) {
			t.Errorf("%s is due before %s, which is said to be next", tag.Print.ID, first.Print.ID)
		}
	}
	if s.Tags[1].Next != w.Stops[1].Station {
		t.Errorf("from the developer it goes to %d", s.Tags[1].Next)
	}
}

// TestColdFixer: a fixer read at 10 °C takes twice as long as at 20 °C (US Army TM 11-2323: twice for every 10 K), and the
// reckoning says so. A reading half a day old says nothing any more.
func TestColdFixer(t *testing.T) {
	r := newRoom(t)
	r.pour("fixer", darkroom.BathFirst)
	s := r.look(5)
	w := paper(t, s, material.FB)
	at := 0
	for i, stop := range w.Stops {
		if s.Stations[stop.Station].Step == process.Fix {
			at = i
		}
	}
	bath := s.Stations[w.Stops[at].Station].Bath
	if bath == "" {
		t.Fatalf("no fixer stands at %+v", s.Stations[w.Stops[at].Station])
	}
	r.say(60, &book.Tested{Bath: bath, Test: book.Thermometer, Result: "10 °C"})
	cold := paper(t, r.look(70), material.FB).Stops[at]
	if cold.Time != 2*w.Stops[at].Time || len(cold.Figures) < 4 {
		t.Errorf("at 10 °C %v, at 20 °C %v; figures %+v", cold.Time, w.Stops[at].Time, cold.Figures)
	}
	if late := paper(t, r.look(60+13*3600), material.FB).Stops[at]; late.Time != w.Stops[at].Time {
		t.Errorf("half a day later the reading still counts: %v", late.Time)
	}
}

// TestWarmDeveloper: metol with hydroquinone takes 1/2.07 of the time 10 K warmer (Glover 1924 in Clerc, Photography: Theory
// and Practice, §573); a developer at 60 °C has no rule, and its time stays.
func TestWarmDeveloper(t *testing.T) {
	r := newRoom(t)
	r.pour("developer", "")
	s := r.look(5)
	usual := paper(t, s, material.FB).Stops[0].Time
	bath := s.Stations[0].Bath
	r.say(60, &book.Tested{Bath: bath, Test: book.Thermometer, Result: "24 °C"})
	got := paper(t, r.look(70), material.FB).Stops[0].Time
	want := usual.Seconds() * 0.7476 // 2.07^(-4/10)
	if got.Seconds() < want-2.5 || got.Seconds() > want+2.5 {
		t.Errorf("at 24 °C %v, want some %.0f s", got, want)
	}
	r.say(80, &book.Tested{Bath: bath, Test: book.Thermometer, Result: "60 °C"})
	if got := paper(t, r.look(90), material.FB).Stops[0].Time; got != usual {
		t.Errorf("at 60 °C %v, want %v", got, usual)
	}
}

// TestProbe: what a probe showed last counts as what somebody read, and the later of the two holds.
func TestProbe(t *testing.T) {
	r := newRoom(t)
	r.pour("developer", "")
	s := r.look(5)
	usual, bath := paper(t, s, material.FB).Stops[0].Time, s.Stations[0].Bath
	r.say(60, &book.ProbeRead{Probe: "board", Bath: bath, Reads: "24 °C"})
	s = r.look(70)
	if got := paper(t, s, material.FB).Stops[0].Time; got >= usual || s.Stations[0].Reading.Probe != "board" {
		t.Errorf("at 24 °C by a probe %v, at 20 °C %v; %+v", got, usual, s.Stations[0].Reading)
	}
	r.say(80, &book.Tested{Bath: bath, Test: book.Thermometer, Result: "20 °C"})
	s = r.look(90)
	if got := paper(t, s, material.FB).Stops[0].Time; got != usual || s.Stations[0].Reading.Probe != "" {
		t.Errorf("then read by hand at 20 °C: %v, want %v", got, usual)
	}
	r.say(100, &book.ProbeRead{Probe: "board", Bath: bath, Reads: "24.5 °C"})
	if s = r.look(101 + 13*3600); s.Stations[0].Reading != nil {
		t.Errorf("half a day later it reads %+v", s.Stations[0].Reading)
	}
}

// TestBathTakenAway: a bath that is discarded with a print in it leaves the print where it lies, with its time.
func TestBathTakenAway(t *testing.T) {
	r := newRoom(t)
	r.pour("developer", "")
	s := r.look(5)
	r.start(10, "p", "", paper(t, s, material.RC), s)
	at := r.state.Position()
	r.say(20, &book.Disposed{Bath: s.Stations[0].Bath})
	s = r.look(25)
	if at == r.state.Position() || len(s.Tags) != 1 || s.Tags[0].Station != 0 || !s.Tags[0].Timed() || s.Stations[0].Bath != "" {
		t.Errorf("after the bath went: %+v at %+v", s.Tags, s.Stations[0])
	}
}

// TestStray: what was left in the sink when the evening was closed, or for half a day, is told apart.
func TestStray(t *testing.T) {
	r := newRoom(t)
	s := r.look(5)
	w := paper(t, s, material.RC)
	r.start(10, "p", "", w, s)
	if s = r.look(11 + 12*3600); len(s.Tags) != 0 || len(s.Stray) != 1 {
		t.Errorf("half a day later: %d tags, %d stray", len(s.Tags), len(s.Stray))
	}
	r.say(100, &book.EveningClosed{Session: "s1"})
	r.say(150, &book.EveningOpened{Session: "s2"})
	if s = r.look(160); len(s.Tags) != 0 || len(s.Stray) != 1 || s.Evening.ID != "s2" {
		t.Errorf("after the close: %d tags, %d stray in %s", len(s.Tags), len(s.Stray), s.Evening.ID)
	}
	// A tap for the evening that was closed comes late: it is taken, and the print is there.
	r.say(170, &book.PrintMoved{Print: "p", At: book.At{Step: "stop", For: "30 s"}})
	if s = r.look(175); len(s.Tags) != 1 || s.Tags[0].Print.Session != "s1" {
		t.Errorf("after a late tap: %+v", s.Tags)
	}
}

// TestOneClock: the wash counts from the last print that went in (CASES of a careful printer: all start again).
func TestOneClock(t *testing.T) {
	r := newRoom(t)
	s := r.look(5)
	w := paper(t, s, material.RC)
	for i, id := range []string{"p", "q"} {
		r.start(10+i, id, "", w, s)
		r.say(100+60*i, &book.PrintMoved{Print: id, At: book.At{Step: "wash", Batch: "b1"}})
	}
	s = r.look(170)
	var wash time.Duration
	for _, stop := range w.Stops {
		if s.Stations[stop.Station].Step == process.Wash {
			wash = stop.Time
		}
	}
	if len(s.Batches) != 1 || len(s.Tags) != 0 || !s.Batches[0].Due.Equal(evening.Add(160*time.Second+wash)) || wash == 0 {
		t.Fatalf("batches %+v, wash %v", s.Batches, wash)
	}
	r.say(180, &book.Washed{Batch: "b1", Step: book.WashDone})
	if s = r.look(190); len(s.Batches) != 0 {
		t.Errorf("after it is done: %+v", s.Batches)
	}
}

// TestFilmByEar: the example's film developer is moved as its label says, and poured out before its time is over.
func TestFilmByEar(t *testing.T) {
	r := newRoom(t)
	w := paper(t, r.look(5), material.Film)
	stop := w.Stops[0]
	if stop.Time <= 0 || len(stop.Moves) < 2 || w.Rolls < 1 {
		t.Fatalf("film: %+v", w)
	}
	last := stop.Moves[len(stop.Moves)-1]
	if stop.Moves[0].At != 0 || last.At+last.For > stop.Time-stop.Drain {
		t.Errorf("moved %+v within %v less %v", stop.Moves, stop.Time, stop.Drain)
	}
}

// TestBatchInTheAid: a batch goes from holding into the washing aid and then into the wash; in the aid it counts from the print
// that came in last, and what is put in holding meanwhile begins a batch of its own.
func TestBatchInTheAid(t *testing.T) {
	r := newRoom(t)
	s := r.look(5)
	w := paper(t, s, material.FB)
	station := func(at int) string {
		if at < 0 {
			return "out"
		}
		return s.Stations[at].Key
	}
	for i, id := range []string{"p", "q"} {
		r.start(10+i, id, "", w, s)
		r.say(100+i, &book.PrintMoved{Print: id, At: book.At{Step: "hold", Batch: "b1"}})
	}
	steps := []struct {
		do       func()
		at, next string
		due      int // seconds into the evening, 0: none
	}{
		{func() {}, "hold", "washing_aid", 0},
		{func() {
			for i, id := range []string{"p", "q"} {
				r.say(200+30*i, &book.PrintMoved{Print: id, At: book.At{Step: "washing_aid", Batch: "b1", For: "10 min"}})
			}
		}, "washing_aid", "wash", 230 + 600},
		{func() { r.say(900, &book.Washed{Batch: "b1", Step: book.WashStarted}) }, "wash", "out", 900 + 1200},
	}
	for i, step := range steps {
		step.do()
		s = r.look(950)
		if len(s.Batches) != 1 || len(s.Tags) != 0 {
			t.Fatalf("step %d: %d batches, %d tags", i, len(s.Batches), len(s.Tags))
		}
		b := s.Batches[0]
		due := 0
		if !b.Due.IsZero() {
			due = int(b.Due.Sub(evening).Seconds())
		}
		if station(b.Station) != step.at || station(b.Next) != step.next || due != step.due {
			t.Errorf("step %d: at %s, next %s, due %d; want %+v", i, station(b.Station), station(b.Next), due, step)
		}
	}
}
