package proof_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetside/book"
	"wetside/book/proof"
)

var evening = time.Date(2026, time.November, 30, 18, 0, 0, 0, time.UTC)

// chain returns a book of so many entries and its head.
func chain(n int) ([]book.Entry, book.Head) {
	head := book.Head{Darkroom: "room"}
	all := make([]book.Entry, n)
	for i := range all {
		all[i] = book.Entry{
			ID: fmt.Sprintf("e%d", i+1), Kind: book.Drawn, Version: 1, HappenedAt: evening, RecordedAt: evening.Add(time.Duration(i) * time.Minute),
			Body: fmt.Sprintf(`{"lot":"l","amount":"%d mL"}`, i+1),
		}
		all[i], head = head.Place(all[i])
	}
	return all, head
}

func prove(all []book.Entry, head book.Head) proof.Report {
	p := proof.New(head)
	for _, e := range all {
		p.Next(e)
	}
	return p.End()
}

// numbered numbers entries anew, as one does who hides that some are gone or new.
func numbered(all []book.Entry) []book.Entry {
	for i := range all {
		all[i].Position = int64(i) + 1
	}
	return all
}

// stranger is an entry that was never written, right after all[i-1].
func stranger(all []book.Entry, i int) book.Entry {
	e := book.Entry{ID: "x", Kind: book.Drawn, Version: 1, HappenedAt: evening, Body: `{}`}
	if i > 0 {
		e.PrevHash = book.HashOf(all[i-1])
	}
	return e
}

func TestWhole(t *testing.T) {
	for n := range 6 {
		all, head := chain(n)
		if r := prove(all, head); !r.Whole() || r.Entries != int64(n) || r.Head != head {
			t.Errorf("%d entries: %+v", n, r)
		}
	}
}

// TestEachWayOfTampering does to a book of nine what somebody might do to it, at every position, and wants it named with its
// position, and nothing else.
func TestEachWayOfTampering(t *testing.T) {
	type want struct {
		fault    proof.Fault
		from, to int64
		id       string
		was      int64
	}
	for name, c := range map[string]struct {
		tamper      func(all []book.Entry, head *book.Head, i int) []book.Entry
		first, last int // indices at which it can be done
		want        func(i int) []want
	}{
		"changed": {func(all []book.Entry, _ *book.Head, i int) []book.Entry {
			all[i].Body = `{"lot":"l","amount":"5 L"}`
			return all
		}, 0, 8, func(i int) []want {
			return []want{{proof.Changed, int64(i) + 1, int64(i) + 1, fmt.Sprint("e", i+1), 0}}
		}},
		"removed, a hole": {func(all []book.Entry, _ *book.Head, i int) []book.Entry {
			return slices.Delete(all, i, i+1)
		}, 0, 8, func(i int) []want { return []want{{proof.Missing, int64(i) + 1, int64(i) + 1, "", 0}} }},
		"two removed, a hole": {func(all []book.Entry, _ *book.Head, i int) []book.Entry {
			return slices.Delete(all, i, i+2)
		}, 0, 7, func(i int) []want { return []want{{proof.Missing, int64(i) + 1, int64(i) + 2, "", 0}} }},
		"removed, numbered anew": {func(all []book.Entry, head *book.Head, i int) []book.Entry {
			head.Position--
			return numbered(slices.Delete(all, i, i+1))
		}, 0, 7, func(i int) []want { return []want{{proof.Missing, int64(i) + 1, int64(i) + 1, "", 0}} }},
		"three removed, numbered anew": {func(all []book.Entry, head *book.Head, i int) []book.Entry {
			head.Position -= 3
			return numbered(slices.Delete(all, i, i+3))
		}, 0, 5, func(i int) []want { return []want{{proof.Missing, int64(i) + 1, int64(i) + 3, "", 0}} }},
		"inserted, numbered anew": {func(all []book.Entry, head *book.Head, i int) []book.Entry {
			head.Position++
			return numbered(slices.Insert(all, i, stranger(all, i)))
		}, 0, 8, func(i int) []want { return []want{{proof.Inserted, int64(i) + 1, int64(i) + 1, "x", 0}} }},
		"added at the end": {func(all []book.Entry, _ *book.Head, _ int) []book.Entry {
			return numbered(append(all, stranger(all, 9)))
		}, 8, 8, func(int) []want { return []want{{proof.AfterEnd, 10, 10, "", 0}} }},
		"reordered": {func(all []book.Entry, _ *book.Head, i int) []book.Entry {
			all[i], all[i+1] = all[i+1], all[i]
			return numbered(all)
		}, 0, 6, func(i int) []want {
			p := int64(i) + 1
			return []want{{proof.Moved, p, p, fmt.Sprint("e", p+1), p + 1}, {proof.Moved, p + 1, p + 1, fmt.Sprint("e", p), p}}
		}},
		"moved to the front": {func(all []book.Entry, _ *book.Head, i int) []book.Entry {
			e := all[i]
			return numbered(slices.Insert(slices.Delete(all, i, i+1), 0, e))
		}, 2, 8, func(i int) []want { return []want{{proof.Moved, 1, 1, fmt.Sprint("e", i+1), int64(i) + 1}} }},
		"moved on by four": {func(all []book.Entry, _ *book.Head, i int) []book.Entry {
			e := all[i]
			return numbered(slices.Insert(slices.Delete(all, i, i+1), i+4, e))
		}, 0, 4, func(i int) []want {
			return []want{{proof.Moved, int64(i) + 5, int64(i) + 5, fmt.Sprint("e", i+1), int64(i) + 1}}
		}},
		"its link alone": {func(all []book.Entry, _ *book.Head, i int) []book.Entry {
			all[i].PrevHash[3] ^= 0xff
			return all
		}, 0, 8, func(i int) []want {
			return []want{{proof.Changed, int64(i) + 1, int64(i) + 1, fmt.Sprint("e", i+1), 0}}
		}},
	} {
		t.Run(name, func(t *testing.T) {
			for i := c.first; i <= c.last; i++ {
				all, head := chain(9)
				tampered := c.tamper(slices.Clone(all), &head, i)
				r := prove(tampered, head)
				if r.Whole() {
					t.Fatalf("at %d: nothing was found", i)
				}
				var got []want
				for _, b := range r.Breaks {
					got = append(got, want{b.Fault, b.From, b.To, b.ID, b.Was})
				}
				if !slices.Equal(got, c.want(i)) {
					t.Errorf("at index %d: got %+v, want %+v", i, got, c.want(i))
				}
			}
		})
	}
}

// TestNothingStaysHidden tampers at random, in up to three places, and wants something found, whatever it was.
func TestNothingStaysHidden(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all, head := chain(rapid.IntRange(2, 30).Draw(t, "entries"))
		was := slices.Clone(all)
		for range rapid.IntRange(1, 3).Draw(t, "places") {
			i := rapid.IntRange(0, len(all)-1).Draw(t, "at")
			switch rapid.SampledFrom([]string{"change", "remove", "insert", "swap"}).Draw(t, "how") {
			case "change":
				all[i].Body += " "
			case "remove":
				if len(all) > 1 {
					all = slices.Delete(all, i, i+1)
				}
			case "insert":
				all = slices.Insert(all, i, stranger(all, i))
			case "swap":
				j := rapid.IntRange(0, len(all)-1).Draw(t, "with")
				all[i], all[j] = all[j], all[i]
			}
		}
		if all = numbered(all); slices.Equal(all, was) {
			return
		}
		if r := prove(all, head); r.Whole() || r.Count < len(r.Breaks) {
			t.Fatalf("nothing was found: %+v", r)
		}
	})
}

func TestBroken(t *testing.T) {
	all, head := chain(5)
	p := proof.New(head)
	for _, e := range all[:3] {
		p.Next(e)
	}
	r := p.Broken(fmt.Errorf("bad page"))
	if len(r.Breaks) != 1 || r.Breaks[0].Fault != proof.Unread || r.Breaks[0].From != 4 || r.Breaks[0].To != 5 {
		t.Errorf("got %+v, want unreadable from 4 to 5", r.Breaks)
	}
}

// BenchmarkProve follows a thousand entries.
func BenchmarkProve(b *testing.B) {
	all, head := chain(1_000)
	b.ReportAllocs()
	for b.Loop() {
		prove(all, head)
	}
}
