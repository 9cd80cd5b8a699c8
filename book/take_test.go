package book_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
)

// TestTakeIsAdmit writes what devices and a desk say, and corrections of it, once by Admit and once in place: the same is
// refused for the same reason, and the two states show the same.
func TestTakeIsAdmit(t *testing.T) {
	inPlace, refused, undone := 0, 0, 0
	enough := func() bool { return inPlace >= 100 && refused >= 20 && undone >= 10 }
	check := func(t *rapid.T) {
		one, two := newJournal(t), newJournal(t)
		told := interleaved(t, shelf(), facts(t, "x"), facts(t, "yy"), bathDecisions(t))
		for i, e := range told {
			if rapid.IntRange(0, 9).Draw(t, "bad") == 0 {
				e.Body = rapid.SampledFrom([]string{`{}`, `{"baths":["fix1"],"sheets":-1}`, `{"colour":"red"}`, `[`}).Draw(t, "body")
			}
			all := []book.Entry{e}
			if len(one.entries) > 0 && rapid.IntRange(0, 2).Draw(t, "undo") == 0 {
				target := rapid.SampledFrom(one.entries).Draw(t, "target").ID
				all = append(all, book.Entry{
					ID: fmt.Sprint("undo", i), Kind: book.Correction, Version: 1, HappenedAt: evening, Device: "z", TakesBack: target, Body: "{}",
				})
			}
			for _, e := range all {
				want := one.try(e)
				before := lookAt(two.state, nil)
				taken, err := two.take(e)
				switch {
				case fmt.Sprint(err) != fmt.Sprint(want):
					t.Fatalf("%s %s %s: in place %v, by Admit %v", e.Kind, e.Body, e.TakesBack, err, want)
				case err != nil:
					refused++
					if d := cmp.Diff(before, lookAt(two.state, nil), everything); d != "" || two.state.Position() != int64(len(two.entries)) {
						t.Fatalf("%s %s was refused and had an effect:\n%s", e.Kind, e.Body, d)
					}
				case taken && e.Kind == book.Correction:
					undone++
				case taken:
					inPlace++
				}
			}
		}
		if d := cmp.Diff(lookAt(one.state, nil), lookAt(two.state, nil), everything); d != "" {
			t.Fatalf("(-admitted +in place):\n%s", d)
		}
	}
	for tries := 0; tries < 20 && (tries == 0 || !enough()) && !t.Failed(); tries++ { // the short form tries few at a time
		rapid.Check(t, check)
	}
	if !enough() {
		t.Errorf("%d taken in place, %d refused, %d taken back: the test wants more of each", inPlace, refused, undone)
	}
}

// take takes an entry in place, where that can't be by Admit.
func (j *journal) take(e book.Entry) (taken bool, err error) {
	if taken, err = j.state.Take(e, among(j.entries)); !taken && err == nil {
		return false, j.try(e)
	}
	if err == nil {
		j.entries = append(j.entries, e)
	}
	return taken, err
}

// BenchmarkAdmitOne admits one load to books of several lengths, by a copy of the state and in place.
func BenchmarkAdmitOne(b *testing.B) {
	for _, n := range []int{1_000, 10_000, 100_000} {
		s, err := book.Fold("room", worked(n))
		if err != nil {
			b.Fatal(err)
		}
		a := &book.Author{Device: "d1", Now: evening, NewID: counting("new")}
		load := &book.Worked{Baths: []string{"one", "two"}, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1}}
		b.Run(fmt.Sprint("copy/", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := s.Admit([]book.Entry{written(a, load)}, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprint("inplace/", n), func(b *testing.B) {
			for b.Loop() {
				if taken, err := s.Take(written(a, load), nil); !taken || err != nil {
					b.Fatal(taken, err)
				}
			}
		})
	}
}
