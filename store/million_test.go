package store_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"wetside/book"
	"wetside/book/journal"
	"wetside/store"
)

// load returns an entry of a long book: two baths that are mixed anew every 200 entries, and loads of several sizes through them.
func load(i int) book.Entry {
	e := book.Entry{
		ID: fmt.Sprintf("0192f0c4-7d5e-7cc3-98c4-%012d", i), Version: 1, By: "p1", Device: "d1",
		HappenedAt: evening.Add(time.Duration(i) * time.Minute),
	}
	week := i / 200
	if k := i % 200; k < 2 {
		e.Kind = book.BathMixed
		e.Body = fmt.Sprintf(`{"bath":"bath-%d-%d","volume":"2 L","use":"rinse"}`, week, k)
		return e
	}
	e.Kind = book.BathWorked
	e.Body = fmt.Sprintf(`{"baths":["bath-%d-0","bath-%d-1"],"material":"RC paper","size":%q,"sheets":%d}`, week, week,
		[]string{"8x10 in", "5x7 in", "11x14 in", "24x30 cm"}[i%4], 1+i%12)
	return e
}

// bigChild does one thing with a big book, and says how long it took and how much memory the process ever had.
func bigChild(ctx context.Context, s *store.Store, what string, n int) int {
	began := time.Now()
	do := map[string]func(context.Context, *store.Store, int) error{"import": bigImport, "export": bigExport, "prove": bigProof, "fold": bigFold}
	if err := do[what](ctx, s, n); err != nil {
		fmt.Println("failed", err)
		return 1
	}
	fmt.Println(what, time.Since(began).Milliseconds(), peak())
	return 0
}

// bigImport takes a book over, entry by entry.
func bigImport(ctx context.Context, s *store.Store, n int) error {
	i, head := 0, book.Head{Darkroom: "room"}
	_, err := s.TakeOver(ctx, "room", func() (book.Entry, error) {
		if i == n {
			return book.Entry{}, io.EOF
		}
		e := load(i)
		e.RecordedAt = e.HappenedAt
		i++
		e, head = head.Place(e)
		return e, nil
	}, func() ([]book.Person, error) { return nil, nil })
	return err
}

// bigExport writes a book out.
func bigExport(ctx context.Context, s *store.Store, n int) error {
	var w *journal.Writer
	written := 0
	err := s.WriteOut(ctx, "room", func(end book.Head, _ book.People) (err error) {
		w, err = journal.NewWriter(io.Discard, end, 0)
		return err
	}, func(e book.Entry) error { written++; return w.Entry(e) })
	if err == nil && written != n {
		err = fmt.Errorf("%d written out", written)
	}
	return err
}

// bigProof follows the chain.
func bigProof(ctx context.Context, s *store.Store, n int) error {
	r, err := s.Prove(ctx, "room", nil)
	if err == nil && (!r.Whole() || r.Entries != int64(n)) {
		err = fmt.Errorf("proved %+v", r)
	}
	return err
}

// bigFold folds the book from nothing.
func bigFold(ctx context.Context, s *store.Store, n int) error {
	state, err := s.State(ctx, "room")
	if err == nil && (state.Position() != int64(n) || len(state.Unread()) > 0) {
		err = fmt.Errorf("at %d, %d unread", state.Position(), len(state.Unread()))
	}
	return err
}

// peak returns the most memory that the process ever had, in KiB.
func peak() (kib int) {
	f, err := os.Open("/proc/self/status")
	if err != nil {
		return 0
	}
	defer func() { _ = f.Close() }()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if _, err := fmt.Sscanf(lines.Text(), "VmHWM: %d kB", &kib); err == nil && strings.HasPrefix(lines.Text(), "VmHWM") {
			return kib
		}
	}
	return 0
}

// TestLongBook takes over, writes out and proves a long book, each in a process of its own that never has more than 64 MiB: what
// these take does not grow with the book. The long form has a million entries. What folding takes does grow with it, by what
// each load says of its baths; it is told, and not bounded here.
func TestLongBook(t *testing.T) {
	const most = 64 << 10 // KiB
	entries := 30_000
	if os.Getenv(torture) != "" {
		entries = 1_000_000
	}
	t.Setenv("GOMEMLIMIT", "48MiB")
	c := engines()[0].fresh(t)
	for _, what := range []string{"import", "export", "prove", "fold"} {
		if what == "fold" {
			t.Setenv("GOMEMLIMIT", "off")
		}
		p := start(t, what, c.Path, strconv.Itoa(entries), 0)
		line := p.next()
		for next := line; next != ""; next = p.next() {
			line = next
		}
		var took, kib int
		if _, err := fmt.Sscanf(line, what+" %d %d", &took, &kib); err != nil {
			t.Fatalf("%s: the child says %q", what, line)
		}
		t.Logf("%s of %d entries: %d ms, %d MiB at most", what, entries, took, kib>>10)
		if what != "fold" && kib > most {
			t.Errorf("%s took %d MiB", what, kib>>10)
		}
	}
}
