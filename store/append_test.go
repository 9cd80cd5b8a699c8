package store_test

import (
	"context"
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/store"
)

func TestAppendOnce(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			first := appendTo(t, s, drawn("a"), drawn("b"))
			again, err := s.Append(t.Context(), "room", []book.Entry{drawn("b"), drawn("c"), drawn("a"), drawn("c")}, nil)
			if err != nil {
				t.Fatal(err)
			}
			var got []int64
			for _, e := range append(first, again...) {
				got = append(got, e.Position)
			}
			if d := cmp.Diff([]int64{1, 2, 2, 3, 1, 3}, got); d != "" {
				t.Errorf("positions (-want +got):\n%s", d)
			}
			s = reopen(t, s, c)
			all, err := s.Since(t.Context(), "room", 0, 0)
			if err != nil || len(all) != 3 {
				t.Fatalf("got %d entries, %v, want 3", len(all), err)
			}
			if d := cmp.Diff(all[:2], first); d != "" {
				t.Errorf("what Append returned is not what stands there (-stored +returned):\n%s", d)
			}
			if err := s.Verify(t.Context(), "room"); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestConflict(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			appendTo(t, s, drawn("a"))
			for _, change := range []func(*book.Entry){
				func(e *book.Entry) { e.Body = `{"lot":"lot1","amount":"31 mL"}` },
				func(e *book.Entry) { e.Body += " " },
				func(e *book.Entry) { e.By = "p2" },
				func(e *book.Entry) { e.HappenedAt = evening.Add(1000) },
			} {
				other := drawn("a")
				change(&other)
				_, err := s.Append(t.Context(), "room", []book.Entry{drawn("b"), other}, nil)
				conflict, ok := errors.AsType[*book.ConflictError](err)
				if !ok || conflict.Stored.Position != 1 {
					t.Errorf("%+v: got %v, want a conflict with position 1", other, err)
				}
			}
			if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != 1 {
				t.Errorf("head is %+v, %v, want position 1: a refused batch writes nothing", h, err)
			}
		})
	}
}

func TestDecisions(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			if _, err := s.Append(t.Context(), "room", []book.Entry{named("n", "Ropewalk")}, nil); err == nil {
				t.Error("a decision without its position was written")
			} else {
				wantKind(t, err, book.BadInput, "entry_no_expect")
			}
			zero, five := int64(0), int64(5)
			_, err := s.Append(t.Context(), "room", []book.Entry{named("n", "Ropewalk")}, &five)
			wantKind(t, err, book.BadInput, "entry_bad_expect")
			if _, err := s.Append(t.Context(), "room", []book.Entry{named("n", "Ropewalk")}, &zero); err != nil {
				t.Fatal(err)
			}
			appendTo(t, s, drawn("a"))
			_, err = s.Append(t.Context(), "room", []book.Entry{named("m", "Sail Loft")}, &zero)
			stale, ok := errors.AsType[*book.StaleError](err)
			if !ok || stale.Expected != 0 || stale.Head != 2 || len(stale.Between) != 2 || stale.Between[1].ID != "a" {
				t.Fatalf("got %v, want a stale decision with the two entries between", err)
			}
			if _, err := s.Append(t.Context(), "room", []book.Entry{named("n", "Ropewalk")}, &zero); err != nil {
				t.Errorf("sent again: %v, want the stored entry", err)
			}
			if _, err := s.Append(t.Context(), "room", []book.Entry{drawn("late")}, &zero); err != nil {
				t.Errorf("a fact on an old position: %v, want it written", err)
			}
			state, err := s.State(t.Context(), "room")
			if err != nil {
				t.Fatal(err)
			}
			if f, _ := state.File(nil); f.Darkroom.Name != "Ropewalk" || state.Position() != 3 {
				t.Errorf("room is %q at %d, want Ropewalk at 3", f.Darkroom.Name, state.Position())
			}
		})
	}
}

func TestStaleCarriesTheLatest(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			var many []book.Entry
			for i := range book.MaxBetween + 50 {
				many = append(many, drawn(fmt.Sprint("x", i)))
			}
			appendTo(t, s, many...)
			zero := int64(0)
			_, err := s.Append(t.Context(), "room", []book.Entry{named("n", "Ropewalk")}, &zero)
			stale, ok := errors.AsType[*book.StaleError](err)
			if !ok || len(stale.Between) != book.MaxBetween || stale.Between[book.MaxBetween-1].Position != stale.Head {
				t.Errorf("got %v, want the last %d entries", err, book.MaxBetween)
			}
		})
	}
}

func TestBadEntriesAreNotWritten(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			for name, c := range map[string]struct {
				change func(*book.Entry)
				key    string
			}{
				"no id":            {func(e *book.Entry) { e.ID = "" }, "entry_bad_id"},
				"an id with space": {func(e *book.Entry) { e.ID = "a b" }, "entry_bad_id"},
				"no kind":          {func(e *book.Entry) { e.Kind = "" }, "entry_bad_kind"},
				"no version":       {func(e *book.Entry) { e.Version = 0 }, "entry_bad_version"},
				"no moment":        {func(e *book.Entry) { e.HappenedAt = evening.AddDate(-5000, 0, 0) }, "entry_bad_happened_at"},
				"no JSON":          {func(e *book.Entry) { e.Body = `{"lot":` }, "entry_bad_body"},
				"no object":        {func(e *book.Entry) { e.Body = `"lot1"` }, "entry_bad_body"},
				"no UTF-8":         {func(e *book.Entry) { e.Body = "{\"lot\":\"\xff\",\"amount\":\"30 mL\"}" }, "entry_bad_body"},
				"a misspelt field": {func(e *book.Entry) { e.Body = `{"lot":"lot1","amuont":"30 mL"}` }, "entry_bad_body"},
				"no unit":          {func(e *book.Entry) { e.Body = `{"lot":"lot1","amount":"30"}` }, "entry_bad_body"},
				"a bare ounce":     {func(e *book.Entry) { e.Body = `{"lot":"lot1","amount":"1 oz"}` }, "entry_bad_body"},
				"no lot":           {func(e *book.Entry) { e.Body = `{"amount":"30 mL"}` }, "entry_bad_body"},
				"takes back":       {func(e *book.Entry) { e.TakesBack = "b" }, "entry_bad_takes_back"},
			} {
				t.Run(name, func(t *testing.T) {
					bad := drawn("bad")
					c.change(&bad)
					_, err := s.Append(t.Context(), "room", []book.Entry{drawn("good"), bad}, nil)
					wantKind(t, err, book.BadInput, c.key)
				})
			}
			if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != 0 {
				t.Errorf("head is %+v, %v, want an empty book", h, err)
			}
		})
	}
}

func TestBytesAreKept(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			bodies := []string{
				"{ \"lot\" : \"lot1\",\n\t\"amount\":\"30 mL\" }  ",
				`{"amount":"30 mL","lot":"lot1"}`,
				`{"lot":"lot1","amount":"30 mL","why":"<Ä & \u00e4 \u0000 🜄>"}`,
				`{"lot":"lot1","amount":"30 mL","times":1e0}`,
			}
			for i, body := range bodies {
				entry := drawn(string(rune('a' + i)))
				entry.Body = body
				if i == 3 {
					entry.Kind, entry.Version = "bath.steamed", 7 // of some newer program
				}
				appendTo(t, s, entry)
			}
			s = reopen(t, s, c)
			for i, body := range bodies {
				if got, err := s.Find(t.Context(), "room", string(rune('a'+i))); err != nil || got.Body != body {
					t.Errorf("got %q, %v, want %q", got.Body, err, body)
				}
			}
			state, err := s.State(t.Context(), "room")
			if err != nil {
				t.Fatal(err)
			}
			if u := state.Unread(); len(u) != 1 || u[0].Kind != "bath.steamed" || book.KindOf(u[0].Cause) != book.Newer {
				t.Errorf("unread are %+v, want the newer entry alone", u)
			}
		})
	}
}

func TestDarkroomsApart(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			if err := s.Create(t.Context(), "annex"); err != nil {
				t.Fatal(err)
			}
			other := drawn("a")
			other.By = "p9"
			if _, err := s.Append(t.Context(), "annex", []book.Entry{other}, nil); err != nil {
				t.Fatal(err)
			}
			appendTo(t, s, drawn("a"), drawn("b"))
			all, err := s.Darkrooms(t.Context())
			if err != nil || len(all) != 2 || all[0].Darkroom != "annex" || all[0].Position != 1 || all[1].Position != 2 {
				t.Errorf("darkrooms are %+v, %v", all, err)
			}
			if err := s.Create(t.Context(), "annex"); err != nil {
				t.Error(err)
			}
			for _, room := range []string{"room", "annex"} {
				if err := s.Verify(t.Context(), room); err != nil {
					t.Errorf("%s: %v", room, err)
				}
			}
			for _, err := range []error{
				s.Verify(t.Context(), "cellar"),
				func() error { _, err := s.State(t.Context(), "cellar"); return err }(),
				func() error { _, err := s.Append(t.Context(), "cellar", []book.Entry{drawn("x")}, nil); return err }(),
			} {
				wantKind(t, err, book.NotFound, "darkroom_not_found")
			}
			wantKind(t, s.Create(t.Context(), "no name"), book.BadInput, "darkroom_bad_id")
			_, err = s.Find(t.Context(), "room", "nobody")
			wantKind(t, err, book.NotFound, "entry_not_found")
		})
	}
}

func TestWriteIsAllOrNothing(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			mine := errors.New("changed my mind")
			err := s.Write(t.Context(), func(tx *store.Tx) error {
				if _, err := tx.Append(t.Context(), "room", []book.Entry{drawn("a")}, nil); err != nil {
					return err
				}
				return mine
			})
			if !errors.Is(err, mine) {
				t.Errorf("got %v, want the function's own error in it", err)
			}
			func() {
				defer func() { _ = recover() }()
				_ = s.Write(t.Context(), func(tx *store.Tx) error {
					_, _ = tx.Append(t.Context(), "room", []book.Entry{drawn("b")}, nil)
					panic("somebody's mistake")
				})
			}()
			if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != 0 {
				t.Errorf("head is %+v, %v, want nothing written", h, err)
			}
			if state, err := s.State(t.Context(), "room"); err != nil || state.Position() != 0 {
				t.Errorf("state is at %d, %v, want 0", state.Position(), err)
			}
			appendTo(t, s, drawn("c"))
		})
	}
}

func TestUndo(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			a := &book.Author{Now: evening, NewID: counter("u")}
			write := func(b book.Body) book.Entry {
				t.Helper()
				entry, err := a.Write(b)
				if err != nil {
					t.Fatal(err)
				}
				return appendTo(t, s, entry)[0]
			}
			product := write(&book.Set{Part: book.ProductPart, ID: "stop", As: []byte(`{"name":"print stop","role":"stop bath","form":"liquid"}`)})
			lot := write(&book.LotReceived{Lot: "lot1", Product: "stop", As: []byte(`{"product":"print stop","holds":"1 L"}`)})
			draw := write(&book.LotDrawn{Draw: book.Draw{Lot: "lot1", Amount: "30 mL"}})
			for id, want := range map[string]book.Reason{
				lot.ID: book.LotDrawnSince, product.ID: book.ProductHasLots, "nothing": book.NoSuchEntry, draw.ID: "",
			} {
				refused, _ := errors.AsType[*book.RefusedError](s.CanTakeBack(t.Context(), "room", id))
				if got := reasonOf(refused); got != want {
					t.Errorf("taking back %s: got %q, want %q", id, got, want)
				}
				correction, err := a.TakeBack(id, "a slip")
				if err != nil {
					t.Fatal(err)
				}
				head, _ := s.Head(t.Context(), "room")
				if want != "" {
					_, err = s.Append(t.Context(), "room", []book.Entry{correction}, &head.Position)
					wantKind(t, err, book.Refused, "refused_"+string(want))
				}
			}
		})
	}
}

func reasonOf(e *book.RefusedError) book.Reason {
	if e == nil {
		return ""
	}
	return e.Reason
}

// TestHalfDoneIsNotCommitted hides the failure of a statement from the store, and ends a context within a transaction.
func TestHalfDoneIsNotCommitted(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			gone, leave := context.WithCancel(t.Context())
			leave()
			err := s.Write(t.Context(), func(tx *store.Tx) error {
				if _, err := tx.Append(t.Context(), "room", []book.Entry{drawn("a")}, nil); err != nil {
					return err
				}
				_ = tx.Create(gone, "annex")
				return nil
			})
			wantKind(t, err, book.Cancelled, "store_cancelled")
			wantKind(t, s.Write(gone, func(*store.Tx) error { return nil }), book.Cancelled, "store_cancelled")
			going, leave := context.WithCancel(t.Context())
			err = s.Write(going, func(tx *store.Tx) error {
				_, err := tx.Append(t.Context(), "room", []book.Entry{drawn("b")}, nil)
				leave()
				return err
			})
			wantKind(t, err, book.Cancelled, "store_cancelled")
			if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != 0 {
				t.Errorf("head is %+v, %v, want nothing written", h, err)
			}
		})
	}
}

// TestAsTheSenderMadeIt sends a moment finer than a microsecond in a zone of its own, twice.
func TestAsTheSenderMadeIt(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			fine := drawn("a")
			fine.HappenedAt = time.Date(2026, time.December, 3, 19, 30, 0, 1999, time.FixedZone("", 3600))
			for range 2 {
				stored := appendTo(t, s, fine)
				if at := stored[0].HappenedAt; stored[0].Position != 1 || !at.Equal(evening.Add(time.Microsecond)) || at.Location() != time.UTC {
					t.Errorf("stored at %d as %v, want at 1, to the microsecond, in UTC", stored[0].Position, at)
				}
			}
		})
	}
}

// TestTakenBackInOneBatch sends a slip and its correction together, as an outbox does.
func TestTakenBackInOneBatch(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			back := book.Entry{ID: "b", Kind: book.Correction, Version: 1, HappenedAt: evening, TakesBack: "a", Body: "{}"}
			if got := appendTo(t, s, drawn("a"), back); len(got) != 2 || got[1].Position != 2 {
				t.Errorf("stored %+v, want both", got)
			}
			wantKind(t, s.CanTakeBack(t.Context(), "room", "a"), book.Refused, "refused_already_undone")
		})
	}
}

// TestStatesAreKept takes a state and appends: who holds the first sees nothing of it.
func TestStatesAreKept(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			var states []*book.State
			for i := range 5 {
				state, err := s.State(t.Context(), "room")
				if err != nil {
					t.Fatal(err)
				}
				states = append(states, state)
				appendTo(t, s, named(fmt.Sprint("n", i), fmt.Sprint("Room ", i)))
			}
			for i, state := range states {
				f, _ := state.File(nil)
				if want := fmt.Sprint("Room ", i-1); state.Position() != int64(i) || i > 0 && f.Darkroom.Name != want {
					t.Errorf("state %d is at %d with %q", i, state.Position(), f.Darkroom.Name)
				}
			}
		})
	}
}
