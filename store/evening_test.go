package store_test

import (
	"errors"
	"strings"
	"testing"

	"wetside/book"
	"wetside/store"
)

// A note is kept and read as it was written, in any script, and erased for good: it is in no file any more. An export has
// none.
func TestNotes(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			const words = "The fixer smells. Разбавьте свежий раствор."
			for id, said := range map[string]string{"n1": words, "n2": "All well"} {
				if err := s.PutNote(t.Context(), "room", id, said); err != nil {
					t.Fatal(err)
				}
			}
			s = reopen(t, s, c)
			all, err := s.Notes(t.Context(), "room")
			if err != nil || len(all) != 2 || all["n1"] != words {
				t.Fatalf("notes %q, %v", all, err)
			}
			if !e.holds(t, c, words) {
				t.Error("the note stands in no file, so that erasing it shows nothing")
			}
			if err := s.EraseNote(t.Context(), "room", "n1"); err != nil {
				t.Fatal(err)
			}
			if all, err = s.Notes(t.Context(), "room"); err != nil || len(all) != 1 || all["n2"] == "" {
				t.Errorf("after erasing: %q, %v", all, err)
			}
			if e.holds(t, c, words) {
				t.Error("the erased note still stands in a file")
			}
			for name, bad := range map[string][2]string{
				"no id": {"", "x"}, "no text": {"n3", "a\x00b"}, "too long": {"n3", strings.Repeat("я", 2001)},
			} {
				if err := s.PutNote(t.Context(), "room", bad[0], bad[1]); book.KindOf(err) != book.BadInput {
					t.Errorf("%s: %v, want bad input", name, err)
				}
			}
			if err := s.PutNote(t.Context(), "nowhere", "n1", "x"); book.KindOf(err) != book.NotFound {
				t.Errorf("a note in a darkroom that is not there: %v", err)
			}
		})
	}
}

// An evening keeps its first code. A device's token is found again, and stands in no file: its hash does.
func TestGuests(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			const token = "a-long-and-random-token-of-a-device"
			err := s.Write(t.Context(), func(tx *store.Tx) error {
				return errors.Join(
					tx.PutInvitation(t.Context(), "room", "s1", "CODE1"), tx.PutInvitation(t.Context(), "room", "s1", "CODE2"),
					tx.PutGuest(t.Context(), "room", token, store.Guest{Session: "s1", Person: "p1"}))
			})
			if err != nil {
				t.Fatal(err)
			}
			s = reopen(t, s, c)
			err = s.Read(t.Context(), func(tx *store.Tx) error {
				code, err := tx.Invitation(t.Context(), "room", "s1")
				if err != nil || code != "CODE1" {
					t.Errorf("code %q, %v; want the first", code, err)
				}
				if session, err := tx.Invited(t.Context(), "room", "CODE1"); err != nil || session != "s1" {
					t.Errorf("the code leads to %q, %v", session, err)
				}
				g, err := tx.Guest(t.Context(), "room", token)
				if want := (store.Guest{Session: "s1", Person: "p1"}); err != nil || g != want {
					t.Errorf("guest %+v, %v; want %+v", g, err, want)
				}
				for what, err := range map[string]error{
					"a code of no evening":  second(tx.Invited(t.Context(), "room", "CODE2")),
					"an evening not shared": second(tx.Invitation(t.Context(), "room", "s2")),
					"another token":         second(tx.Guest(t.Context(), "room", token+"x")),
					"another darkroom":      second(tx.Guest(t.Context(), "cellar", token)),
				} {
					if book.KindOf(err) != book.NotFound {
						t.Errorf("%s: %v, want not found", what, err)
					}
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
			if e.holds(t, c, token) {
				t.Error("the token itself stands in a file")
			}
		})
	}
}

func second[T any](_ T, err error) error { return err }
