package book_test

import (
	"fmt"
	"os"
	"reflect"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
)

// everything lets cmp look into the unexported fields of exact quantities.
var everything = cmp.Exporter(func(reflect.Type) bool { return true })

var evening = time.Date(2026, time.December, 3, 18, 30, 0, 0, time.UTC)

// failing is what the helpers need of a test: rapid's has no more.
type failing interface {
	Helper()
	Fatal(args ...any)
	Fatalf(format string, args ...any)
}

// counting returns a source of ids that differ by a number.
func counting(prefix string) func() string {
	n := 0
	return func() string { n++; return fmt.Sprintf("%s%04d", prefix, n) }
}

// scattered returns a source of ids in no order, as random ones are.
func scattered() func() string {
	n := 0
	return func() string { n++; return fmt.Sprintf("i%04d", n*7919%10007) }
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

// fold places and folds entries, none of which may be unread.
func fold(t failing, entries []book.Entry) *book.State {
	t.Helper()
	s, err := book.Fold("room", place(entries))
	if err != nil {
		t.Fatal(err)
	}
	if u := s.Unread(); len(u) > 0 {
		t.Fatalf("unread: %v", u)
	}
	return s
}

// a finder over entries.
func among(entries []book.Entry) book.Finder {
	return func(id string) (book.Entry, error) {
		for _, e := range entries {
			if e.ID == id {
				return e, nil
			}
		}
		return book.Entry{}, &book.Error{Kind: book.NotFound, Key: "entry_not_found"}
	}
}

// A journal is entries that are written one after the other, each admitted to the state before it.
type journal struct {
	t       failing
	author  *book.Author
	state   *book.State
	entries []book.Entry
}

func newJournal(t failing) *journal {
	return &journal{
		t: t, author: &book.Author{By: "p1", Device: "d1", Now: evening, NewID: counting("e")},
		state: book.New("room", book.Upcasters()),
	}
}

// try admits an entry and takes it in.
func (j *journal) try(e book.Entry) error {
	after, err := j.state.Admit([]book.Entry{e}, among(j.entries))
	if err != nil {
		return err
	}
	j.state = after
	j.entries = append(j.entries, e)
	return nil
}

// write writes a body and returns the entry's id.
func (j *journal) write(b book.Body) string {
	j.t.Helper()
	e, err := j.author.Write(b)
	if err != nil {
		j.t.Fatal(err)
	}
	if err := j.try(e); err != nil {
		j.t.Fatal(err)
	}
	return e.ID
}

// takeBack takes an entry back and returns the correction's id.
func (j *journal) takeBack(id string) (string, error) {
	j.t.Helper()
	e, err := j.author.TakeBack(id, "a slip")
	if err != nil {
		j.t.Fatal(err)
	}
	return e.ID, j.try(e)
}

func (j *journal) file() darkroom.File {
	f, _ := j.state.File(nil)
	return f
}

// A look is all that a state shows.
type look struct {
	File     darkroom.File
	IDs      book.IDs
	Lots     []book.Lot
	Baths    []book.Bath
	Events   []book.Event
	Batches  []book.Batch
	Waste    []book.WasteCan
	Answers  []book.Answer
	Findings []book.Finding
	Faults   []book.Event
	Readings []book.Reading
	Unread   int
}

func lookAt(s *book.State, p book.People) look {
	f, ids := s.File(p)
	return look{f, ids, s.Lots(), s.Baths(), s.Events(), s.Batches(), s.Waste(), s.Answers(), s.Findings(), s.Faults(), s.Readings(), len(s.Unread())}
}

func contract(tb failing) darkroom.File {
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

// imported returns a journal that holds a file, and its people.
func imported(t failing, f darkroom.File) (*journal, book.People) {
	t.Helper()
	j, people := newJournal(t), book.People{}
	j.author.NewID = scattered()
	im, err := book.Import(j.state, people, f, j.author, book.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range im.People {
		people[p.ID] = p
	}
	if j.state, err = j.state.Admit(im.Entries, among(im.Entries)); err != nil {
		t.Fatal(err)
	}
	j.entries = im.Entries
	return j, people
}

func stopBath(name string) []byte {
	return fmt.Appendf(nil, `{"name":%q,"role":"stop bath","form":"liquid"}`, name)
}

func minutes(n int) time.Duration { return time.Duration(n) * time.Minute }
