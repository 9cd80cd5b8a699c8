package store_test

import (
	"fmt"
	"os"
	"reflect"
	"runtime"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
	"wetside/store"
)

func contract(tb testing.TB) darkroom.File {
	tb.Helper()
	src, err := os.ReadFile("../darkroom/testdata/contract.yaml")
	if err != nil {
		tb.Fatal(err)
	}
	f, err := darkroom.Read(src)
	if err != nil {
		tb.Fatal(err)
	}
	return f
}

func TestImportAndExport(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			f := contract(t)
			a := &book.Author{By: "p1", Now: evening, NewID: counter("i")}
			im, err := s.Import(t.Context(), "room", f, a, book.ImportOptions{})
			if err != nil || len(im.Entries) == 0 || len(im.People) != 1 {
				t.Fatalf("imported %d entries, %d people, %v", len(im.Entries), len(im.People), err)
			}
			if last := im.Entries[len(im.Entries)-1]; last.Position != int64(len(im.Entries)) {
				t.Errorf("the last entry stands at %d, want %d", last.Position, len(im.Entries))
			}
			for range 2 {
				again, err := s.Import(t.Context(), "room", f, a, book.ImportOptions{Replace: true})
				if err != nil || len(again.Entries)+len(again.People) != 0 {
					t.Errorf("imported again: %+v, %v, want nothing written", again, err)
				}
				got, err := s.Export(t.Context(), "room")
				if err != nil {
					t.Fatal(err)
				}
				everything := cmp.Exporter(func(reflect.Type) bool { return true })
				if d := cmp.Diff(darkroom.Public(f), got, everything); d != "" {
					t.Errorf("exported (-imported +exported):\n%s", d)
				}
				if _, err := darkroom.Read(darkroom.Write(got)); err != nil {
					t.Errorf("the exported file can't be read: %v", err)
				}
				s = reopen(t, s, c)
			}
			if people, err := s.People(t.Context(), "room"); err != nil || len(people[im.People[0].ID].Notes) != 1 {
				t.Errorf("people are %+v, %v, want the note kept", people, err)
			}
			if err := s.Verify(t.Context(), "room"); err != nil {
				t.Error(err)
			}
		})
	}
}

// TestImportIsAllOrNothing imports a file whose person can't be kept.
func TestImportIsAllOrNothing(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			f := contract(t)
			f.People[0].Name = "In\x00es"
			_, err := s.Import(t.Context(), "room", f, &book.Author{Now: evening, NewID: counter("i")}, book.ImportOptions{})
			wantKind(t, err, book.BadInput, "person_bad")
			if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != 0 {
				t.Errorf("head is %+v, %v, want nothing written", h, err)
			}
		})
	}
}

// TestEveryMigration brings a database of each schema that was ever released to today's, with data in it.
func TestEveryMigration(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			appendTo(t, s, drawn("a"), named("n", "Ropewalk"))
			for range 2 { // today's to today's
				s = reopen(t, s, c)
			}
			if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != 2 {
				t.Errorf("head is %+v, %v, want 2", h, err)
			}
		})
	}
}

func TestClosed(t *testing.T) {
	s, _ := begun(t, engines()[0])
	for range 2 {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}
	_, err := s.Append(t.Context(), "room", []book.Entry{drawn("a")}, nil)
	wantKind(t, err, book.Internal, "store_closed")
	if _, err := s.State(t.Context(), "room"); err == nil {
		t.Error("a closed store can be read")
	}
}

// BenchmarkAppend writes one fact at a time, each on disk before the next.
func BenchmarkAppend(b *testing.B) {
	for _, e := range engines() {
		b.Run(e.name, func(b *testing.B) {
			s, _ := begun(b, e)
			b.ReportAllocs()
			n := 0
			for b.Loop() {
				n++
				if _, err := s.Append(b.Context(), "room", []book.Entry{drawn(fmt.Sprint("b", n))}, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkAppendTogether lets 200 writers append one load at a time, each of which waits until it is on disk.
func BenchmarkAppendTogether(b *testing.B) {
	s, _ := begun(b, engines()[0])
	var n atomic.Int64
	b.SetParallelism(200 / runtime.GOMAXPROCS(0))
	b.RunParallel(func(p *testing.PB) {
		for p.Next() {
			if _, err := s.Append(b.Context(), "room", []book.Entry{worked(fmt.Sprint("b", n.Add(1)))}, nil); err != nil {
				b.Error(err)
			}
		}
	})
}

// BenchmarkAppendToLong writes one load at a time to books of several lengths; it costs the same in each.
func BenchmarkAppendToLong(b *testing.B) {
	for _, n := range []int{1_000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			s, _ := begun(b, engines()[0])
			for from := 0; from < n; from += 1_000 {
				var all []book.Entry
				for i := from; i < from+1_000; i++ {
					e := worked(fmt.Sprint("e", i))
					e.Body = fmt.Sprintf(`{"baths":["one%d","two%d"],"material":"RC paper","size":"8x10 in","sheets":1}`, i/50, i/50)
					all = append(all, e)
				}
				appendTo(b, s, all...)
			}
			k := 0
			for b.Loop() {
				k++
				if _, err := s.Append(b.Context(), "room", []book.Entry{worked(fmt.Sprint("b", k))}, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkOpen opens a book of 20,000 entries and folds it.
func BenchmarkOpen(b *testing.B) {
	for _, e := range engines() {
		b.Run(e.name, func(b *testing.B) {
			s, c := begun(b, e)
			var all []book.Entry
			for n := range 20_000 {
				e := drawn(fmt.Sprint("b", n))
				e.HappenedAt = e.HappenedAt.Add(time.Duration(n) * time.Minute)
				e.Body = fmt.Sprintf(`{"lot":"lot%d","amount":"30 mL"}`, n%100)
				all = append(all, e)
			}
			appendTo(b, s, all...)
			if err := s.Close(); err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				s, err := store.Open(b.Context(), c)
				if err != nil {
					b.Fatal(err)
				}
				if state, err := s.State(b.Context(), "room"); err != nil || state.Position() != 20_000 {
					b.Fatal(state.Position(), err)
				}
				if err := s.Close(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
