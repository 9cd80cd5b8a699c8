package store_test

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	_ "modernc.org/sqlite"

	"wetside/book"
	"wetside/store"
)

func counter(prefix string) func() string {
	n := 0
	return func() string { n++; return fmt.Sprintf("%s%04d", prefix, n) }
}

func TestOnlyItsOwnerMayRead(t *testing.T) {
	c := engines()[0].fresh(t)
	s := open(t, c)
	if err := s.Create(t.Context(), "room"); err != nil {
		t.Fatal(err)
	}
	appendTo(t, s, drawn("a"))
	folder := filepath.Dir(c.Path)
	want := map[string]fs.FileMode{
		folder: 0o700 | fs.ModeDir, c.Path: 0o600, c.Path + "-wal": 0o600, c.Path + "-shm": 0o600, c.Path + ".lock": 0o600,
	}
	for path, mode := range want {
		info, err := os.Stat(path)
		if err != nil || info.Mode() != mode {
			t.Errorf("%s: got %v, %v, want %v", filepath.Base(path), info.Mode(), err, mode)
		}
	}
}

func TestOddNamesOfFiles(t *testing.T) {
	for _, name := range []string{"a b.db", "100%.db", "what?.db", "no#1.db", "ä;&=.db", "a'b\".db"} {
		path := filepath.Join(t.TempDir(), name)
		s := open(t, store.Config{Path: path, Now: clock(evening)})
		if err := s.Create(t.Context(), "room"); err != nil {
			t.Fatalf("%q: %v", name, err)
		}
		if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%q: %v, %v", name, info, err)
		}
	}
}

func TestNewerIsRefused(t *testing.T) {
	c := engines()[0].fresh(t)
	s := open(t, c)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	rawly(t, c.Path, `INSERT INTO goose_db_version (version_id, is_applied) VALUES (90000, 1)`)
	before := bytesOf(t, c.Path)
	_, err := store.Open(t.Context(), c)
	wantKind(t, err, book.Newer, "store_newer")
	if !bytes.Equal(before, bytesOf(t, c.Path)) {
		t.Error("the newer database was changed")
	}
	_, err = store.Open(t.Context(), c)
	wantKind(t, err, book.Newer, "store_newer") // and not InUse: a failed Open lets go
}

func TestForeignIsRefused(t *testing.T) {
	junk := bytes.Repeat([]byte("wet prints "), 500)
	for name, put := range map[string]func(path string){
		"another program's": func(path string) { rawly(t, path, `CREATE TABLE recipes (name TEXT)`) },
		"marked as another": func(path string) { rawly(t, path, `PRAGMA application_id=7`) },
		"no database":       func(path string) { write(t, path, junk) },
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "x.db")
			put(path)
			before := bytesOf(t, path)
			_, err := store.Open(t.Context(), store.Config{Path: path, Now: clock(evening)})
			wantKind(t, err, book.Foreign, "store_foreign")
			if !bytes.Equal(before, bytesOf(t, path)) {
				t.Error("it was changed")
			}
		})
	}
}

func TestNoPlaceToWrite(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "file"), nil)
	for name, path := range map[string]string{
		"below a file": filepath.Join(folder, "file", "x.db"), "a folder": folder,
	} {
		t.Run(name, func(t *testing.T) {
			_, err := store.Open(t.Context(), store.Config{Path: path, Now: clock(evening)})
			wantKind(t, err, book.NoAccess, "store_no_access")
			if err != nil && !strings.Contains(err.Error(), path) {
				t.Errorf("the log is not told the path: %v", err)
			}
		})
	}
}

func TestTamperingIsFound(t *testing.T) {
	for name, c := range map[string]struct {
		statement string
		why       book.ChainFault
	}{
		"a body":     {`UPDATE entries SET body = '{"lot":"lot1","amount":"31 mL"}' WHERE position = 2`, book.HashDiffers},
		"who it was": {`UPDATE entries SET person = 'p2' WHERE position = 1`, book.HashDiffers},
		"when":       {`UPDATE entries SET recorded_at = recorded_at + 1 WHERE position = 2`, book.HashDiffers},
		"the last":   {`UPDATE entries SET device = 'd2' WHERE position = 3`, book.HeadDiffers},
		"the end":    {`DELETE FROM entries WHERE position = 3`, book.HeadDiffers},
		"a hole":     {`DELETE FROM entries WHERE position = 2`, book.GapInChain},
	} {
		t.Run(name, func(t *testing.T) {
			s, config := begun(t, engines()[0])
			appendTo(t, s, drawn("a"), drawn("b"), drawn("c"))
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			rawly(t, config.Path, c.statement)
			err := open(t, config).Verify(t.Context(), "room")
			wantKind(t, err, book.Damaged, "chain_"+string(c.why))
		})
	}
}

func TestErasedIsGone(t *testing.T) {
	for _, e := range engines() {
		t.Run(e.name, func(t *testing.T) {
			s, c := begun(t, e)
			who := drawn("a")
			who.By = "person-7"
			appendTo(t, s, who)
			secret := book.Person{ID: "person-7", Name: "Ines Quillfeather", Notes: []string{"sensitised to metol-marker"}}
			for range 3 {
				if err := s.PutPerson(t.Context(), "room", secret); err != nil {
					t.Fatal(err)
				}
			}
			people, err := s.People(t.Context(), "room")
			if err != nil || people.Name("person-7") != secret.Name || len(people["person-7"].Notes) != 1 {
				t.Fatalf("people are %+v, %v", people, err)
			}
			if !e.holds(t, c, "Quillfeather") || !e.holds(t, c, "metol-marker") {
				t.Fatal("the test does not look where the name is")
			}
			if err := s.NotePerson(t.Context(), "room", "person-7", []string{"pregnant-marker"}); err != nil {
				t.Fatal(err)
			}
			if people, err = s.People(t.Context(), "room"); err != nil || people.Name("person-7") != secret.Name || people["person-7"].Notes[0] != "pregnant-marker" {
				t.Errorf("after other notes people are %+v, %v", people, err)
			}
			if e.holds(t, c, "metol-marker") {
				t.Error("notes that were changed still stand in the files")
			}
			if err := s.NotePerson(t.Context(), "room", "nobody", nil); book.KindOf(err) != book.NotFound {
				t.Errorf("notes of nobody: %v", err)
			}
			if err := s.ErasePerson(t.Context(), "room", "person-7"); err != nil {
				t.Fatal(err)
			}
			if people, err = s.People(t.Context(), "room"); err != nil || people.Name("person-7") != book.Somebody {
				t.Errorf("name is %q, %v, want somebody", people.Name("person-7"), err)
			}
			if err := s.Verify(t.Context(), "room"); err != nil {
				t.Error(err)
			}
			for _, word := range []string{"Quillfeather", "metol-marker", "pregnant-marker"} {
				if e.holds(t, c, word) {
					t.Errorf("%q still stands in the files", word)
				}
			}
		})
	}
}

// filesHold reports whether a word stands in the database or the files beside it. Another process looks: one that has
// the database open would drop SQLite's locks by closing a file of it.
func filesHold(tb testing.TB, path, word string) bool {
	tb.Helper()
	names, err := filepath.Glob(path + "*")
	if err != nil || len(names) == 0 {
		tb.Fatalf("no files at %s", path)
	}
	err = exec.CommandContext(tb.Context(), "grep", append([]string{"-a", "-q", "-e", word}, names...)...).Run()
	if exit, ok := errors.AsType[*exec.ExitError](err); err != nil && (!ok || exit.ExitCode() != 1) {
		tb.Fatal(err)
	}
	return err == nil
}

// rawly runs a statement on a database that no store has open.
func rawly(tb testing.TB, path, statement string) {
	tb.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		tb.Fatal(err)
	}
	defer func() { _ = db.Close() }()
	if _, err := db.ExecContext(tb.Context(), statement); err != nil {
		tb.Fatal(err)
	}
}

func bytesOf(tb testing.TB, path string) []byte {
	tb.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

func write(t *testing.T, path string, b []byte) {
	t.Helper()
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestEveryConnectionIsSet reads the settings of several connections of one pool: one set by a statement would reach one.
func TestEveryConnectionIsSet(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.db")
	for _, writes := range []bool{true, false} {
		want := map[string]string{
			"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "10000", "secure_delete": "1",
			"mmap_size": "0", "trusted_schema": "0", "query_only": "1",
		}
		if writes {
			want["query_only"] = "0"
		}
		db, err := sql.Open("sqlite", store.SQLiteDSN(path, writes))
		if err != nil {
			t.Fatal(err)
		}
		for range 3 {
			conn, err := db.Conn(t.Context())
			if err != nil {
				t.Fatal(err)
			}
			defer func() { _ = conn.Close() }() // kept, so that the next one is another
			for setting, value := range want {
				var got string
				if err := conn.QueryRowContext(t.Context(), "PRAGMA "+setting).Scan(&got); err != nil || got != value {
					t.Errorf("writes %v: %s is %q, %v, want %q", writes, setting, got, err, value)
				}
			}
		}
		defer func() { _ = db.Close() }()
	}
}
