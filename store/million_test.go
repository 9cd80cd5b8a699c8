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

// bigChild does one thing with a big book, and says how long it took and how much memory the process ever had.
func bigChild(ctx context.Context, s *store.Store, what string, n int) int {
	began := time.Now()
	do := map[string]func(context.Context, *store.Store, int) error{"import": bigImport, "export": bigExport, "prove": bigProof, "fold": bigFold, "begin": bigFold}
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
	if err != nil {
		return err
	}
	for _, u := range state.Unread() {
		return fmt.Errorf("unread: %w", u.Cause)
	}
	if baths := state.Baths(); state.Position() != int64(n) || len(baths) == 0 || len(baths) > 300 {
		return fmt.Errorf("at %d with %d baths", state.Position(), len(baths))
	}
	return nil
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

// TestLongBook takes over, writes out, proves and folds a long book, and begins again with the snapshot that the fold left, each in a
// process of its own that never has more than 64 MiB: what these take does not grow with the book. The long form has a million
// entries.
func TestLongBook(t *testing.T) {
	if testing.Short() {
		t.Skip("the race detector, which the short tests run under, takes memory of its own")
	}
	const most = 64 << 10 // KiB
	entries := 30_000
	if os.Getenv(torture) != "" {
		entries = 1_000_000
	}
	t.Setenv("GOMEMLIMIT", "40MiB")
	c := engines()[0].fresh(t)
	for _, what := range []string{"import", "export", "prove", "fold", "begin"} {
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
		if kib > most {
			t.Errorf("%s took %d MiB", what, kib>>10)
		}
	}
}
