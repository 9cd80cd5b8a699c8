package store_test

import (
	"bytes"
	"cmp"
	"errors"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"wetside/book"
	"wetside/book/journal"
	"wetside/internal/outside"
	"wetside/store"
)

// darkroomOf is the one darkroom of the backups that are kept.
const darkroomOf = "darkroom"

// releases returns the kept backups of every schema that was ever released, each with its export beside it.
func releases(t *testing.T) []string {
	t.Helper()
	all, err := filepath.Glob("testdata/backups/*.db")
	if err != nil || len(all) < 2 {
		t.Fatalf("kept backups: %v, %v, want at least 2", all, err)
	}
	return all
}

// writtenOut returns the export of a darkroom.
func writtenOut(t *testing.T, s *store.Store, darkroom string) []byte {
	t.Helper()
	var out bytes.Buffer
	var w *journal.Writer
	err := s.WriteOut(t.Context(), darkroom, func(end book.Head, _ book.People) (err error) {
		w, err = journal.NewWriter(&out, end, 0)
		return err
	}, func(e book.Entry) error { return w.Entry(e) })
	if err = errors.Join(err, w.Close()); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestEveryReleaseIsRestored restores the kept backup of every schema, and finds in it what the export beside it says.
func TestEveryReleaseIsRestored(t *testing.T) {
	for _, from := range releases(t) {
		t.Run(filepath.Base(from), func(t *testing.T) {
			c := store.Config{Path: filepath.Join(t.TempDir(), "x.db"), Now: clock(evening)}
			r, err := store.Restore(t.Context(), c, from, store.RestoreOptions{})
			if err != nil || !strings.Contains(from, strconv.FormatInt(r.Schema, 10)) {
				t.Fatalf("restored %+v, %v", r, err)
			}
			s := open(t, c)
			if has, knows, err := s.Schema(t.Context()); err != nil || has != knows {
				t.Errorf("schema %d of %d, %v", has, knows, err)
			}
			got := writtenOut(t, s, darkroomOf)
			golden := strings.TrimSuffix(from, ".db") + ".jsonl"
			if os.Getenv("UPDATE") != "" {
				write(t, golden, got)
			}
			if !bytes.Equal(got, bytesOf(t, golden)) {
				t.Errorf("what was restored is not what %s says", golden)
			}
			if state, err := s.State(t.Context(), darkroomOf); err != nil || len(state.Unread()) > 0 {
				t.Errorf("it is not read in full: %v", err)
			}
			fillUpIn(t, s, darkroomOf) // and it goes on
		})
	}
}

func fillUpIn(t *testing.T, s *store.Store, darkroom string) {
	t.Helper()
	if _, err := s.Append(t.Context(), darkroom, []book.Entry{worked("new")}, nil); err != nil {
		t.Error(err)
	}
}

// older puts the oldest kept backup in place, as if the program had been exchanged since.
func older(t *testing.T) store.Config {
	t.Helper()
	c := store.Config{Path: filepath.Join(t.TempDir(), "x.db"), Now: clock(evening)}
	write(t, c.Path, bytesOf(t, releases(t)[0]))
	return c
}

// TestChangeIsBackedUpBefore opens an older book: a backup is made that is named after the change, the change is told, and by
// the backup one can go back.
func TestChangeIsBackedUpBefore(t *testing.T) {
	c := older(t)
	var told []store.Change
	c.Told = func(change store.Change) { told = append(told, change) }
	s := open(t, c)
	has, _, err := s.Schema(t.Context())
	if err != nil || len(told) == 0 || told[0].From != 1 || told[len(told)-1].To != has || told[0].Done != 1 {
		t.Fatalf("told %+v, %v, schema %d", told, err, has)
	}
	named, err := filepath.Glob(filepath.Join(filepath.Dir(c.Path), "backups", "before-schema-"+strconv.FormatInt(has, 10)+"-*.db"))
	if err != nil || len(named) != 1 || named[0] != told[0].Kept {
		t.Fatalf("backups are %v, %v, told %q", named, err, told[0].Kept)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	back := beside(t, store.Config{Path: named[0], Now: c.Now})
	if schema, _, err := back.Schema(t.Context()); err != nil || schema != 1 {
		t.Errorf("the backup has schema %d, %v, want 1", schema, err)
	}
	if got := writtenOut(t, back, darkroomOf); !bytes.Equal(got, bytesOf(t, "testdata/backups/schema-1.jsonl")) {
		t.Error("the backup does not hold what was there")
	}
}

// TestNoBackupNoChange leaves an older book as it is where the backup can't be made.
func TestNoBackupNoChange(t *testing.T) {
	c := older(t)
	write(t, filepath.Join(filepath.Dir(c.Path), "backups"), []byte("a file in its place"))
	_, err := store.Open(t.Context(), c)
	wantKind(t, err, book.NoAccess, "store_no_access")
	if schema, _, err := beside(t, c).Schema(t.Context()); err != nil || schema != 1 {
		t.Errorf("schema is %d, %v, want 1", schema, err)
	}
}

// changed holds a book to be whole and complete after whatever befell its change.
func changed(t *testing.T, c store.Config) {
	t.Helper()
	c.Told = nil
	s := open(t, c)
	books, faults, err := s.ProveAll(t.Context())
	if err != nil || len(faults) > 0 || len(books) != 2 || !books[0].Whole() { // the child's own room is the second
		t.Fatalf("found %+v, %v, %v", books, faults, err)
	}
	if got := writtenOut(t, s, darkroomOf); !bytes.Equal(got, bytesOf(t, "testdata/backups/schema-1.jsonl")) {
		t.Error("entries are not what they were")
	}
	if err := s.PutNote(t.Context(), darkroomOf, "n", "the new tables are there"); err != nil {
		t.Error(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestKilledChange kills the process after each statement of a change of the schema, and finds everything there when it is
// opened again.
func TestKilledChange(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			killed := 0
			for killedAt(t, e, killed+1) {
				killed++
			}
			if killed < 3 {
				t.Errorf("killed after %d statements, want one for each", killed)
			}
			t.Logf("killed after each of %d statements", killed)
		})
	}
}

// killedAt kills a change of the schema after so many statements; it returns false where there are not so many.
func killedAt(t *testing.T, e engine, statements int) bool {
	t.Helper()
	c := e.older(t)
	t.Setenv(dieEnv, strconv.Itoa(statements))
	p := start(t, "open", cmp.Or(c.Path, c.Database), "0", 0)
	line := p.next()
	for next := line; next != ""; next = p.next() {
		line = next
	}
	_ = p.Wait()
	t.Setenv(dieEnv, "")
	if line != "" {
		return false // it got through
	}
	s := open(t, c)
	if err := errors.Join(s.Create(t.Context(), "room"), s.Close()); err != nil {
		t.Fatal(err)
	}
	changed(t, c)
	return true
}

// TestChangeWritesFail kills the process at each write of a change, by way of strace, and fails each sync. The short form does a
// few.
func TestChangeWritesFail(t *testing.T) {
	strace := outside.Program(t, "strace", "strace")
	step := 19
	if os.Getenv(torture) != "" {
		step = 1
	}
	hit := 0
	for what, inject := range map[string]string{
		"write": "inject=pwrite64:signal=KILL:when=", "sync": "inject=fsync,fdatasync:error=EIO:when=",
	} {
		for n := 2; n < 60; n += step {
			c := older(t)
			p := start(t, "open", c.Path, "0", 0, strace, "-f", "-qqq", "-o", "/dev/null", "-e", inject+strconv.Itoa(n))
			if line := p.next(); line != "open" {
				hit++
			}
			for p.next() != "" {
			}
			_ = p.Wait()
			s := open(t, c)
			if err := errors.Join(s.Create(t.Context(), "room"), s.Close()); err != nil {
				t.Fatalf("%s %d: %v", what, n, err)
			}
			changed(t, c)
		}
	}
	if hit == 0 {
		t.Error("nothing was made to fail before the book was open")
	}
	t.Logf("%d changes cut short, nothing lost", hit)
}
