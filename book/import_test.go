package book_test

import (
	"fmt"
	"os"
	"reflect"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
)

// everything lets cmp look into the unexported fields of exact quantities.
var everything = cmp.Exporter(func(reflect.Type) bool { return true })

var evening = time.Date(2026, time.December, 3, 18, 30, 0, 0, time.UTC)

// counting returns a source of ids that differ by a number.
func counting(prefix string) func() string {
	n := 0
	return func() string { n++; return fmt.Sprintf("%s%04d", prefix, n) }
}

// append_ places entries after a state's head and applies them.
func fold(t *testing.T, entries []book.Entry) *book.State {
	t.Helper()
	s, err := book.Fold("room", place(entries))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// place gives entries their positions and hashes, as a store would.
func place(entries []book.Entry) []book.Entry {
	head := book.Head{Darkroom: "room"}
	placed := make([]book.Entry, 0, len(entries))
	for _, e := range entries {
		e.RecordedAt = evening
		e, head = head.Place(e)
		placed = append(placed, e)
	}
	return placed
}

func contract(t testing.TB) darkroom.File {
	t.Helper()
	src, err := os.ReadFile("../darkroom/testdata/contract.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f, err := darkroom.Read(src)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestImportExport(t *testing.T) {
	f := contract(t)
	people := book.People{}
	a := &book.Author{Now: evening, NewID: counting("i")}
	empty := book.New("room", book.Upcasters())
	im, err := book.Import(empty, people, f, a, book.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range im.People {
		people[p.ID] = p
	}
	if _, err := empty.Admit(im.Entries, nil); err != nil {
		t.Fatal(err)
	}
	s := fold(t, im.Entries)
	if u := s.Unread(); len(u) > 0 {
		t.Fatalf("unread: %v", u)
	}
	got, _ := s.File(people)
	if d := cmp.Diff(darkroom.Public(f), got, everything); d != "" {
		t.Errorf("exported file differs (-imported +exported):\n%s", d)
	}
	for _, replace := range []bool{false, true} {
		again, err := book.Import(s, people, f, a, book.ImportOptions{Replace: replace})
		if err != nil || len(again.Entries)+len(again.People) > 0 {
			t.Errorf("imported again (replace %v): got %v, %v, want nothing written", replace, again, err)
		}
	}
}
