//go:build linux

package store_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/internal/outside"
	"wetside/store"
)

// saysAll returns what a book says by the ids of its entries, wherever they stand.
func saysAll(t *testing.T, s *store.Store) map[string]string {
	t.Helper()
	all, err := s.Since(t.Context(), "room", 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	by := map[string]string{}
	for _, e := range all {
		by[e.ID] = fmt.Sprint(e.Kind, " ", e.HappenedAt.Unix(), " ", e.TakesBack, " ", e.Body)
	}
	return by
}

// TestFlows runs the flows where nothing fails: all of it is read, and run again nothing is added.
func TestFlows(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s := open(t, e.fresh(t))
			refused := func(stored []book.Entry, err error) {
				if err != nil {
					t.Error(err)
				}
			}
			if err := runFlows(t.Context(), s, refused); err != nil {
				t.Fatal(err)
			}
			state, err := s.State(t.Context(), "room")
			if err != nil || len(state.Unread()) > 0 {
				t.Fatalf("%v, unread %+v", err, state.Unread())
			}
			if n := len(saysAll(t, s)); int64(n) != state.Position() || n < 60 {
				t.Errorf("%d entries at position %d", n, state.Position())
			}
			if err := runFlows(t.Context(), s, refused); err != nil {
				t.Fatal(err)
			}
			if h, err := s.Head(t.Context(), "room"); err != nil || h.Position != state.Position() {
				t.Errorf("run again, the head is %+v, %v", h, err)
			}
		})
	}
}

// A fault is what befalls the system calls of a process.
type fault struct {
	name, inject, onward string // onward: what follows the number where all after it fail, too
	told                 string // the sentence that it comes to
	goesOn               bool   // afterwards things are acknowledged again
	step                 int    // of n in the short form
}

// faults are the failures of writing and syncing, once and from then on.
func faults() []fault {
	const writes, syncs = "inject=pwrite64:error=", "inject=fsync,fdatasync:error="
	return []fault{
		{name: "a write", inject: writes + "EIO", told: "store_failing", step: 41},
		{name: "writes", inject: writes + "EIO", onward: "+", told: "store_failing", step: 41},
		{name: "a write onto a full disk", inject: writes + "ENOSPC", told: "store_full", goesOn: true, step: 41},
		{name: "writes onto a full disk", inject: writes + "ENOSPC", onward: "+", told: "store_full", step: 41},
		{name: "a sync", inject: syncs + "EIO", told: "store_failing", step: 7},
		{name: "syncs", inject: syncs + "EIO", onward: "+", told: "store_failing", step: 7},
	}
}

// TestFlowsFail runs the flows while the n-th write or sync fails, once and from then on, for every n that there is: whatever was
// acknowledged is there, once; after a disk that failed nothing more is acknowledged; what stands beside an entry is there with
// it or not at all; run again without faults, the book says what it says without them. The short form leaves some n out.
func TestFlowsFail(t *testing.T) {
	strace := outside.Program(t, "strace", "strace")
	whole := open(t, engines()[0].fresh(t))
	if err := runFlows(t.Context(), whole, func([]book.Entry, error) {}); err != nil {
		t.Fatal(err)
	}
	want := saysAll(t, whole)
	for _, f := range faults() {
		if os.Getenv(torture) != "" {
			f.step = 1
		}
		t.Run(f.name, func(t *testing.T) {
			t.Parallel()
			tried, hit := 0, 0
			for n := 1; ; n += f.step {
				injected, told := flowsUnder(t, strace, f, n, want)
				if t.Failed() {
					t.Fatalf("at number %d", n)
				}
				if !injected {
					break
				}
				tried++
				if told {
					hit++
				}
			}
			if tried < 2 || hit == 0 {
				t.Errorf("%d were made to fail, %d were told", tried, hit)
			}
			t.Logf("%d made to fail, %d told, none lost", tried, hit)
		})
	}
}

// flowsUnder runs the flows under one fault.
func flowsUnder(t *testing.T, strace string, f fault, n int, want map[string]string) (injected, told bool) {
	t.Helper()
	c := engines()[0].fresh(t)
	log := filepath.Join(t.TempDir(), "strace")
	acked, failed, order := run(t, "flows", c.Path, 0, strace, "-f", "-qqq", "-o", log,
		"-e", f.inject+":when="+strconv.Itoa(n)+f.onward)
	injected = strings.Contains(string(bytesOf(t, log)), "INJECTED")
	first := strings.IndexAny(order, "fr")
	switch {
	case first < 0:
	case !f.goesOn && strings.Contains(order[first:], "a"):
		t.Errorf("acknowledged after %v: %s", failed, order)
	case f.goesOn && failed["store_full"] > 1:
		t.Errorf("it does not go on after %v: %s", failed, order)
	}
	s := open(t, c)
	if err := s.Create(t.Context(), "room"); err != nil {
		t.Fatal(err)
	}
	holds(t, s.Since, acked)
	together(t, s)
	again := runFlows(t.Context(), s, func(_ []book.Entry, err error) {
		if err != nil {
			t.Errorf("run again: %v", err)
		}
	})
	if err := errors.Join(again, s.Verify(t.Context(), "room")); err != nil {
		t.Error(err)
	}
	if d := cmp.Diff(want, saysAll(t, s)); d != "" {
		t.Errorf("run again, the book says something else (-want +got):\n%s", d)
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	return injected, failed[f.told] > 0
}

// together holds what stands beside the book to what stands in it: an evening's code, a guest, a note.
func together(t *testing.T, s *store.Store) {
	t.Helper()
	in := map[book.Kind]bool{}
	all, err := s.Since(t.Context(), "room", 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range all {
		in[e.Kind] = true
	}
	err = s.Read(t.Context(), func(tx *store.Tx) error {
		_, code := tx.Invitation(t.Context(), "room", "s1")
		_, guest := tx.Guest(t.Context(), "room", "token-of-noor")
		notes, err := tx.Notes(t.Context(), "room")
		for kind, beside := range map[book.Kind]bool{
			book.SessionOpened: code == nil, book.SessionJoined: guest == nil, book.NoteLeft: len(notes) == 1,
		} {
			if in[kind] != beside {
				t.Errorf("%s stands in the book: %v, what belongs to it: %v", kind, in[kind], beside)
			}
		}
		return err
	})
	if err != nil {
		t.Error(err)
	}
}
