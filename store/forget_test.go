package store_test

import (
	"testing"
	"time"

	"wetside/book"
	"wetside/store"
)

// What is erased while somebody reads is gone from the files when they have read: a table that is written anew keeps what a
// reader may still see (PostgreSQL's manual, VACUUM).
func TestErasedWhileSomebodyReads(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			must(t, s.Write(t.Context(), func(tx *store.Tx) error {
				return tx.PutPerson(t.Context(), "room", book.Person{ID: "p1", Name: "zzwandazz"})
			}))
			reads, read := make(chan struct{}), make(chan error)
			go func() {
				read <- s.Read(t.Context(), func(tx *store.Tx) error {
					_, err := tx.Head(t.Context(), "room") // of another table: nobody waits for a lock
					close(reads)
					time.Sleep(500 * time.Millisecond)
					return err
				})
			}()
			<-reads
			must(t, s.ErasePerson(t.Context(), "room", "p1"))
			must(t, <-read)
			if e.name != "sqlite" && e.holds(t, c, "zzwandazz") { // SQLite empties its log when nobody reads, at the latest when it is closed
				t.Error("the files still have the name")
			}
		})
	}
}
