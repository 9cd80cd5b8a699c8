package store_test

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"wetside/book"
	"wetside/store"
)

func keyOf(id string) store.Key {
	return store.Key{ID: id, Sort: "device", Role: "sink", Name: "by the sink", MadeBy: "p1", Made: evening, Seen: evening}
}

// Keys and keyholders on both engines: what is kept comes back, of a token nothing but its hash is in the files, those of another
// darkroom are apart.
func TestKeys(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			if err := s.Create(t.Context(), "other"); err != nil {
				t.Fatal(err)
			}
			k := keyOf("k1")
			k.Ends, k.Idle = evening.Add(time.Hour), 20*time.Minute
			keeper := store.Keyholder{Person: "p1", Signs: "ilka", Passphrase: "$argon2id$x", Made: evening}
			err := s.Write(t.Context(), func(tx *store.Tx) error {
				for _, err := range []error{
					tx.PutPerson(t.Context(), "room", book.Person{ID: "p1", Name: "Ilka Perpetua"}), tx.PutKeyholder(t.Context(), "room", keeper),
					tx.PutKey(t.Context(), "room", "the-token-itself", k), tx.PutKey(t.Context(), "room", "another-token", keyOf("k2")),
				} {
					if err != nil {
						return err
					}
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
			looked(t, s, func(tx *store.Tx) {
				if got, err := tx.Key(t.Context(), "room", "the-token-itself"); err != nil || got != k {
					t.Errorf("%+v, %v", got, err)
				}
				if _, err := tx.Key(t.Context(), "other", "the-token-itself"); book.KindOf(err) != book.NotFound {
					t.Errorf("another darkroom: %v", err)
				}
				if got, err := tx.KeyholderCalled(t.Context(), "room", "ilka"); err != nil || got != keeper {
					t.Errorf("%+v, %v", got, err)
				}
				for room, want := range map[string]bool{"room": true, "other": false} {
					if kept, err := tx.Kept(t.Context(), room); err != nil || kept != want {
						t.Errorf("%s is kept: %v, %v", room, kept, err)
					}
				}
			})
			if e.holds(t, c, "the-token-itself") || !e.holds(t, c, "Ilka Perpetua") {
				t.Error("the files have the token, or not the name")
			}
			if out := string(writtenOut(t, s, "room")); strings.Contains(out, "argon2id") || strings.Contains(out, "sink") {
				t.Errorf("the export has what lets people in: %s", out)
			}
		})
	}
}

// Erasing a person takes away what let them in, from the files, too; the keys of the room's devices stay.
func TestErasedPersonIsOut(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			own := keyOf("k1")
			own.Person = "p1"
			must(t, s.Write(t.Context(), func(tx *store.Tx) error {
				for _, err := range []error{
					tx.PutPerson(t.Context(), "room", book.Person{ID: "p1", Name: "Ilka"}),
					tx.PutKeyholder(t.Context(), "room", store.Keyholder{Person: "p1", Signs: "zzilkazz", Passphrase: "$argon2id$x", Made: evening}),
					tx.PutKey(t.Context(), "room", "own", own), tx.PutKey(t.Context(), "room", "the room's", keyOf("k2")),
					tx.PutGuest(t.Context(), "room", "joined", store.Guest{Session: "s1", Person: "p1"}),
				} {
					if err != nil {
						return err
					}
				}
				return nil
			}))
			must(t, s.ErasePerson(t.Context(), "room", "p1"))
			looked(t, s, func(tx *store.Tx) {
				all, err := tx.Keys(t.Context(), "room")
				if err != nil || len(all) != 1 || all[0].ID != "k2" {
					t.Errorf("%+v, %v", all, err)
				}
				if kept, err := tx.Kept(t.Context(), "room"); err != nil || kept {
					t.Errorf("kept %v, %v", kept, err)
				}
				if _, err := tx.Guest(t.Context(), "room", "joined"); book.KindOf(err) != book.NotFound {
					t.Errorf("who joined: %v", err)
				}
			})
			if e.holds(t, c, "zzilkazz") {
				t.Error("the files still have the name at the door")
			}
		})
	}
}

// Two who would sign in by one name: the second is refused, and nothing else is lost. Ended sign-ins are taken away, and a key that its
// device leaves; a member's and a script's stay.
func TestNamesAndLeaving(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, _ := begun(t, e)
			first := store.Keyholder{Person: "p1", Signs: "ilka", Passphrase: "x", Made: evening}
			must(t, s.Write(t.Context(), func(tx *store.Tx) error { return tx.PutKeyholder(t.Context(), "room", first) }))
			err := s.Write(t.Context(), func(tx *store.Tx) error {
				return tx.PutKeyholder(t.Context(), "room", store.Keyholder{Person: "p2", Signs: "ilka", Passphrase: "y", Made: evening})
			})
			if book.KindOf(err) != book.Conflict {
				t.Errorf("a second of that name: %v", err)
			}
			ended, room, member, script := keyOf("ended"), keyOf("room"), keyOf("member"), keyOf("script")
			ended.Sort, ended.Person, ended.Ends = "signin", "p1", evening.Add(-time.Hour)
			member.Person = "p3"
			script.Sort, script.Person = "script", "p1"
			must(t, s.Write(t.Context(), func(tx *store.Tx) error {
				for _, k := range []store.Key{ended, room, member, script} {
					if err := tx.PutKey(t.Context(), "room", k.ID, k); err != nil {
						return err
					}
				}
				if err := tx.WithdrawEnded(t.Context(), "room"); err != nil {
					return err
				}
				for _, k := range []store.Key{room, member, script} {
					if err := tx.LeaveKey(t.Context(), "room", k.ID); err != nil {
						return err
					}
				}
				return nil
			}))
			looked(t, s, func(tx *store.Tx) {
				var ids []string
				all, err := tx.Keys(t.Context(), "room")
				for _, k := range all {
					ids = append(ids, k.ID)
				}
				if err != nil || strings.Join(ids, " ") != "member script" {
					t.Errorf("%v, %v", ids, err)
				}
			})
		})
	}
}

func looked(t *testing.T, s *store.Store, f func(*store.Tx)) {
	t.Helper()
	must(t, s.Read(t.Context(), func(tx *store.Tx) error { f(tx); return nil }))
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// A second step on both engines: what is kept comes back, is changed, is nobody else's, stands in no export, and goes with its person.
func TestSecondSteps(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			want := store.Second{Person: "p1", Secret: "ZZSECRETZZ", Step: 3, Words: []string{store.HashedWord("ZZWORDZZ"), "b"}, Made: evening}
			other := store.Second{Person: "p2", Secret: "ANOTHER", Made: evening}
			put := func(all ...*store.Second) {
				t.Helper()
				must(t, s.Write(t.Context(), func(tx *store.Tx) error {
					for _, one := range all {
						if err := tx.PutSecond(t.Context(), "room", one); err != nil {
							return err
						}
					}
					return nil
				}))
			}
			put(&want, &other)
			want.Step, want.Words = 4, want.Words[:1]
			put(&want)
			looked(t, s, func(tx *store.Tx) {
				if got, err := tx.Second(t.Context(), "room", "p1"); err != nil || !reflect.DeepEqual(got, want) {
					t.Errorf("%+v, %v; want %+v", got, err, want)
				}
				for room, want := range map[string]bool{"room": true, "elsewhere": false} {
					if some, err := tx.AnySecond(t.Context(), room); err != nil || some != want {
						t.Errorf("any at %s: %v, %v", room, some, err)
					}
				}
				if _, err := tx.Second(t.Context(), "elsewhere", "p1"); book.KindOf(err) != book.NotFound {
					t.Errorf("at another darkroom: %v", err)
				}
			})
			if out := string(writtenOut(t, s, "room")); strings.Contains(out, "ZZ") || e.holds(t, c, "ZZWORDZZ") || !e.holds(t, c, "ZZSECRETZZ") {
				t.Error("the export has it, or the files have a word, or not the secret")
			}
			must(t, s.ErasePerson(t.Context(), "room", "p1"))
			looked(t, s, func(tx *store.Tx) {
				if _, err := tx.Second(t.Context(), "room", "p1"); book.KindOf(err) != book.NotFound {
					t.Errorf("of who was erased: %v", err)
				}
				if _, err := tx.Second(t.Context(), "room", "p2"); err != nil {
					t.Errorf("of another: %v", err)
				}
			})
			if e.holds(t, c, "ZZSECRETZZ") {
				t.Error("the files have the secret of who was erased")
			}
		})
	}
}
