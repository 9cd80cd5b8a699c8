package store_test

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/store"
)

// TestNobodyCrosses stands two darkrooms in one database and tries everything from one to the other by its ids and codes.
func TestNobodyCrosses(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			if err := s.Create(t.Context(), "annex"); err != nil {
				t.Fatal(err)
			}
			mine := appendTo(t, s, drawn("mine"), named("name", "Ropewalk"))
			err := s.Write(t.Context(), func(tx *store.Tx) error {
				return errors.Join(
					tx.PutInvitation(t.Context(), "room", "s1", "CODE"),
					tx.PutGuest(t.Context(), "room", "token", store.Guest{Session: "s1", Person: "p1"}),
					tx.PutPerson(t.Context(), "room", book.Person{ID: "p1", Name: "Ines"}),
					tx.PutNote(t.Context(), "room", "n1", "the fixer is low"))
			})
			if err != nil {
				t.Fatal(err)
			}
			before := read(t, s, "room")
			crossings(t, s)
			if d := cmp.Diff(before, read(t, s, "room")); d != "" {
				t.Errorf("the other darkroom moved this one (-before +after):\n%s", d)
			}
			if people, err := s.People(t.Context(), "room"); err != nil || people.Name("p1") != "Ines" {
				t.Errorf("people are %+v, %v", people, err)
			}
			if notes, err := s.Notes(t.Context(), "room"); err != nil || notes["n1"] != "the fixer is low" {
				t.Errorf("notes are %q, %v", notes, err)
			}
			if again := appendTo(t, s, drawn("mine")); again[0].Position != mine[0].Position {
				t.Errorf("sent again it stands at %d", again[0].Position)
			}
		})
	}
}

// crossings tries from the annex to reach what is in the room.
func crossings(t *testing.T, s *store.Store) {
	t.Helper()
	ctx := t.Context()
	_, err := s.Find(ctx, "annex", "mine")
	wantKind(t, err, book.NotFound, "entry_not_found")
	wantKind(t, s.CanTakeBack(ctx, "annex", "mine"), book.Refused, "refused_no_such_entry")
	back := book.Entry{ID: "back", Kind: book.Correction, Version: 1, HappenedAt: evening, TakesBack: "mine", Body: "{}"}
	head, err := s.Head(ctx, "annex")
	if err != nil || head.Position != 0 {
		t.Errorf("the annex stands at %d, %v", head.Position, err)
	}
	_, err = s.Append(ctx, "annex", []book.Entry{back}, &head.Position)
	wantKind(t, err, book.Refused, "refused_no_such_entry")
	forged := worked("forged")
	forged.Darkroom, forged.Position = "room", 1
	stored, err := s.Append(ctx, "annex", []book.Entry{forged}, nil)
	if err != nil || stored[0].Darkroom != "annex" || stored[0].Position != 1 {
		t.Errorf("an entry that names the other darkroom stands as %+v, %v", stored, err)
	}
	same := worked("mine") // the same id, another book
	if stored, err := s.Append(ctx, "annex", []book.Entry{same}, nil); err != nil || stored[0].Position != 2 {
		t.Errorf("an id of the other darkroom: %+v, %v", stored, err)
	}
	err = s.Read(ctx, func(tx *store.Tx) error {
		for what, err := range map[string]error{
			"its code":       second(tx.Invited(ctx, "annex", "CODE")),
			"its evening":    second(tx.Invitation(ctx, "annex", "s1")),
			"a device of it": second(tx.Guest(ctx, "annex", "token")),
		} {
			if book.KindOf(err) != book.NotFound {
				t.Errorf("%s is found from the annex: %v", what, err)
			}
		}
		return nil
	})
	if err := errors.Join(err, s.ErasePerson(ctx, "annex", "p1"), s.EraseNote(ctx, "annex", "n1")); err != nil {
		t.Error(err)
	}
	people, err := s.People(ctx, "annex")
	notes, err2 := s.Notes(ctx, "annex")
	if err := errors.Join(err, err2); err != nil || len(people)+len(notes) > 0 {
		t.Errorf("the annex has %v and %q, %v", people, notes, err)
	}
	for _, odd := range []string{"room'--", "%", "ROOM", "room ", ""} {
		if _, err := s.Head(ctx, odd); book.KindOf(err) != book.NotFound {
			t.Errorf("darkroom %q: %v", odd, err)
		}
	}
}

// TestMoving takes a book from each engine to each other, and back: what is written out is the same bytes.
func TestMoving(t *testing.T) {
	for _, from := range engines() {
		for _, to := range engines() {
			t.Run(from.name+" to "+to.name, func(t *testing.T) {
				one, two := open(t, from.fresh(t)), open(t, to.fresh(t))
				rounds := 0
				rapid.Check(t, func(r *rapid.T) {
					rounds++
					if rounds > 12 { // each engine from each other in a few
						return
					}
					room := fmt.Sprint("room", rounds)
					if err := one.Create(t.Context(), room); err != nil {
						r.Fatal(err)
					}
					for _, x := range sendings(r) {
						x.send(t.Context(), one, room)
					}
					odd := drawn("odd")
					odd.Body = "{ \"lot\":\"lot1\",\n \"amount\":\"30 mL\", \"why\":\"<Ä & \\u0000 🜄>\" }\t"
					if _, err := one.Append(t.Context(), room, []book.Entry{odd}, nil); err != nil {
						r.Fatal(err)
					}
					if err := one.PutPerson(t.Context(), room, book.Person{ID: "p1", Name: "Ínes Ö"}); err != nil {
						r.Fatal(err)
					}
					text := asText(r, one, room)
					takenOver(r, one, two, room)
					if d := cmp.Diff(text, asText(r, two, room)); d != "" {
						r.Fatalf("(-from +to):\n%s", d)
					}
					if err := two.Verify(t.Context(), room); err != nil {
						r.Fatal(err)
					}
				})
			})
		}
	}
}

// asText returns a book with its names as text, byte by byte, and the darkroom file.
func asText(r *rapid.T, s *store.Store, room string) string {
	var b strings.Builder
	err := s.WriteOut(r.Context(), room, func(end book.Head, people book.People) error {
		_, err := fmt.Fprintf(&b, "%+v %+v\n", end, people)
		return err
	}, func(e book.Entry) error {
		_, err := fmt.Fprintf(&b, "%+v\n", e)
		return err
	})
	f, err2 := s.Export(r.Context(), room)
	if err := errors.Join(err, err2); err != nil {
		r.Fatal(err)
	}
	return b.String() + fmt.Sprintf("%+v", f.Darkroom)
}

// takenOver takes a book from one store to the other.
func takenOver(r *rapid.T, from, to *store.Store, room string) {
	var all []book.Entry
	var names []book.Person
	err := from.WriteOut(r.Context(), room, func(_ book.Head, people book.People) error {
		for _, p := range people {
			names = append(names, p)
		}
		return nil
	}, func(e book.Entry) error {
		all = append(all, e)
		return nil
	})
	if err != nil {
		r.Fatal(err)
	}
	n, err := to.TakeOver(r.Context(), room, func() (book.Entry, error) {
		if len(all) == 0 {
			return book.Entry{}, io.EOF
		}
		e := all[0]
		all = all[1:]
		return e, nil
	}, func() ([]book.Person, error) { return names, nil })
	if err != nil || n == 0 {
		r.Fatalf("taken over %d, %v", n, err)
	}
}
