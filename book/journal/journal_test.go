package journal_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"wetside/book"
	"wetside/book/journal"
)

var evening = time.Date(2026, time.November, 30, 18, 0, 0, 123_456_000, time.UTC)

// chain returns a book of so many entries and its head.
func chain(n int) ([]book.Entry, book.Head) {
	head := book.Head{Darkroom: "room"}
	all := make([]book.Entry, n)
	for i := range all {
		all[i] = book.Entry{
			ID: fmt.Sprintf("e%d", i+1), Kind: book.Drawn, Version: 1, HappenedAt: evening, RecordedAt: evening.Add(time.Duration(i) * time.Minute),
			By: "p1", Device: "d1", Body: "{\"lot\":\"l<&>\u2028\", \"amount\":\"½ fl oz\",\n\"why\":\"\\\"spilt\\\"\"}",
		}
		all[i], head = head.Place(all[i])
	}
	return all, head
}

func write(tb testing.TB, all []book.Entry, head book.Head, people ...book.Person) string {
	tb.Helper()
	var out bytes.Buffer
	w, err := journal.NewWriter(&out, head, len(people))
	if err != nil {
		tb.Fatal(err)
	}
	for _, e := range all {
		if err := w.Entry(e); err != nil {
			tb.Fatal(err)
		}
	}
	for _, p := range people {
		if err := w.Person(p); err != nil {
			tb.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		tb.Fatal(err)
	}
	return out.String()
}

// read returns what an export holds as far as it goes.
func read(r io.Reader) (all []book.Entry, people []book.Person, head journal.Head, err error) {
	j, err := journal.NewReader(r)
	if err != nil {
		return nil, nil, head, err
	}
	for err == nil {
		var e book.Entry
		if e, err = j.Next(); err == nil {
			all = append(all, e)
		}
	}
	if !errors.Is(err, io.EOF) {
		return all, people, j.Head(), err
	}
	for err = nil; err == nil; {
		var p book.Person
		if p, err = j.NextPerson(); err == nil {
			people = append(people, p)
		}
	}
	if errors.Is(err, io.EOF) {
		err = nil
	}
	return all, people, j.Head(), err
}

func TestRoundTrip(t *testing.T) {
	for n := range 4 {
		all, head := chain(n)
		text := write(t, all, head, book.Person{ID: "p1", Name: "Ines Ölmez", Notes: []string{"sensitised"}})
		if strings.Contains(text, "sensitised") {
			t.Error("a note about a person is in the export")
		}
		got, people, h, err := read(strings.NewReader(text))
		if err != nil || len(got) != n || len(people) != 1 || h.Hash != head.Hash {
			t.Fatalf("%d entries: got %d, %v, %v", n, len(got), people, err)
		}
		if again := write(t, got, head, people...); again != text {
			t.Errorf("written again it differs:\n%s\n%s", text, again)
		}
	}
}

// TestWhatIsWrong does to an export what may befall it, and wants the line and the reason.
func TestWhatIsWrong(t *testing.T) {
	all, head := chain(3)
	good := write(t, all, head, book.Person{ID: "p1", Name: "Ines"})
	lines := strings.SplitAfter(good, "\n")
	for name, c := range map[string]struct {
		text string
		line int
		why  journal.Why
	}{
		"empty":            {"", 1, journal.NoExport},
		"a darkroom file":  {"darkroom: {name: X}\n", 1, journal.NoExport},
		"other JSON":       {`{"a":1}` + "\n", 1, journal.NoExport},
		"a database":       {"SQLite format 3\x00\xff\xfe", 1, journal.BadLine},
		"a newer form":     {strings.Replace(good, `"wetside_book":1`, `"wetside_book":2`, 1), 1, journal.NewerForm},
		"an odd head":      {strings.Replace(good, `"entries":3`, `"entries":-3`, 1), 1, journal.BadLine},
		"half":             {good[:len(lines[0])+len(lines[1])+40], 3, journal.BadLine},
		"cut at a line":    {lines[0] + lines[1], 3, journal.EndsEarly},
		"no names":         {strings.Join(lines[:4], ""), 5, journal.EndsEarly},
		"a changed body":   {strings.Replace(good, "½ fl oz", "¼ fl oz", 1), 3, journal.NoFollow},
		"a changed last":   {lines[0] + lines[1] + lines[2] + strings.Replace(lines[3], "½", "¼", 1) + lines[4], 4, journal.OtherEnd},
		"one taken out":    {lines[0] + lines[1] + lines[3] + lines[4], 3, journal.NoFollow},
		"out of order":     {lines[0] + lines[2] + lines[1] + lines[3] + lines[4], 2, journal.NoFollow},
		"a line of prose":  {lines[0] + "and so on\n", 2, journal.BadLine},
		"an unknown field": {lines[0] + strings.Replace(lines[1], `"by"`, `"who"`, 1), 2, journal.BadLine},
		"a bad entry":      {lines[0] + strings.Replace(lines[1], `"version":1`, `"version":0`, 1), 2, journal.BadEntry},
		"two in a line":    {lines[0] + strings.TrimSuffix(lines[1], "\n") + lines[2], 2, journal.BadLine},
		"something after":  {good + "more\n", 6, journal.TooMuch},
		"an endless line":  {lines[0] + strings.Repeat("x", 3<<20), 2, journal.LongLine},
		"not UTF-8":        {lines[0] + "\xff\n", 2, journal.BadLine},
	} {
		t.Run(name, func(t *testing.T) {
			_, _, _, err := read(strings.NewReader(c.text))
			e, ok := errors.AsType[*journal.Error](err)
			if !ok || e.Line != c.line || e.Why != c.why {
				t.Errorf("got %v, want line %d: %s", err, c.line, c.why)
			}
		})
	}
	if _, _, _, err := read(strings.NewReader(good + "\n\n")); err != nil {
		t.Errorf("blank lines at the end: %v", err)
	}
	if _, _, _, err := read(strings.NewReader(strings.ReplaceAll(good, "\n", "\r\n"))); err != nil {
		t.Errorf("line ends of another system: %v", err)
	}
}

func TestCloseCounts(t *testing.T) {
	_, head := chain(2)
	w, err := journal.NewWriter(io.Discard, head, 0)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err == nil {
		t.Error("an export without its entries was closed")
	}
}

// FuzzReader feeds anything: no panic, and what is read can be written and read again to the same bytes.
func FuzzReader(f *testing.F) {
	all, head := chain(3)
	seeds := []string{write(f, all, head), write(f, all, head, book.Person{ID: "p", Name: "N"}), "{}", `{"wetside_book":1}`}
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	if len(seeds) == 0 {
		f.Fatal("no seeds")
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		got, people, h, err := read(bytes.NewReader(text))
		if err != nil {
			return
		}
		once := write(t, got, book.Head{Darkroom: h.Darkroom, Position: h.Entries, Hash: h.Hash}, people...)
		again, _, _, err := read(strings.NewReader(once))
		if err != nil || len(again) != len(got) {
			t.Fatalf("what was read can't be read again: %v\n%s", err, once)
		}
	})
}
