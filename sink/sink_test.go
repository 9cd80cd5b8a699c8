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
