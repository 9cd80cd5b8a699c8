package store_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wetside/book"
	"wetside/book/proof"
	"wetside/store"
)

// written returns a closed store's place, with so many entries, a person, a note, an invitation and a guest.
func kept(t *testing.T, path string, entries int) store.Config {
	t.Helper()
	c := store.Config{Path: path, Now: clock(evening)}
	s := open(t, c)
	if err := s.Create(t.Context(), "room"); err != nil {
		t.Fatal(err)
	}
	fillUp(t, s, "e", entries)
	if err := s.PutPerson(t.Context(), "room", book.Person{ID: "p1", Name: "Ines Quillfeather"}); err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	return c
}

func fillUp(t *testing.T, s *store.Store, prefix string, n int) {
	t.Helper()
	var all []book.Entry
	for i := range n {
		all = append(all, drawn(fmt.Sprint(prefix, i)))
	}
	appendTo(t, s, all...)
}

func headOf(t *testing.T, c store.Config) book.Head {
	t.Helper()
	s := open(t, c)
	h, err := s.Head(t.Context(), "room")
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	return h
}

// noLitter holds a folder to have these files and nothing that a job left half done.
func noLitter(t *testing.T, folder string) {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, ".wetside*"))
	if err != nil || len(names) > 0 {
		t.Errorf("left behind: %v, %v", names, err)
	}
}

// TestBackupWhileWriting backs up while somebody writes, by the store itself and beside it, and finds one moment of the book
// in each, from which it can be restored.
func TestBackupWhileWriting(t *testing.T) {
	folder := t.TempDir()
	c := kept(t, filepath.Join(folder, "here", "x.db"), 20)
	s := open(t, c)
	stop := make(chan struct{})
	done := make(chan error)
	go func() {
		for n := 0; ; n++ {
			select {
			case <-stop:
				done <- nil
				return
			default:
			}
			if _, err := s.Append(t.Context(), "room", []book.Entry{drawn(fmt.Sprint("w", n))}, nil); err != nil {
				done <- err
				return
			}
		}
	}()
	for i := range 6 {
		out := filepath.Join(folder, fmt.Sprintf("backup%d.db", i))
		by := s
		if i%2 == 1 {
			by = beside(t, c)
		}
		k, err := by.Backup(t.Context(), out)
		if err != nil || !k.Whole() || len(k.Books) != 1 || k.Books[0].Entries < 20 || k.Path != out {
			t.Fatalf("backup %d: %+v, %v", i, k, err)
		}
		if mode := modeOf(t, out); mode != 0o600 {
			t.Errorf("the backup may be read by others: %v", mode)
		}
		to := store.Config{Path: filepath.Join(folder, fmt.Sprint("there", i), "x.db"), Now: c.Now}
		r, err := store.Restore(t.Context(), to, out, store.RestoreOptions{})
		if err != nil || r.Aside != "" {
			t.Fatalf("restore %d: %+v, %v", i, r, err)
		}
		if h := headOf(t, to); h != k.Books[0].Head {
			t.Errorf("restored head is %+v, backed up was %+v", h, k.Books[0].Head)
		}
	}
	close(stop)
	if err := <-done; err != nil {
		t.Error(err)
	}
	noLitter(t, folder)
}

func beside(t *testing.T, c store.Config) *store.Store {
	t.Helper()
	s, err := store.OpenBeside(t.Context(), c)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	return s
}

// backUp makes a backup of books that nobody has open.
func backUp(t *testing.T, c store.Config, out string) store.Kept {
	t.Helper()
	s := open(t, c)
	k, err := s.Backup(t.Context(), out)
	if err = errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	return k
}

func modeOf(t *testing.T, path string) os.FileMode {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return info.Mode().Perm()
}

func TestBackupOverwritesNothing(t *testing.T) {
	folder := t.TempDir()
	c := kept(t, filepath.Join(folder, "x.db"), 3)
	out := filepath.Join(folder, "out.db")
	write(t, out, []byte("precious"))
	s := beside(t, c)
	_, err := s.Backup(t.Context(), out)
	wantKind(t, err, book.Conflict, "backup_there")
	if string(bytesOf(t, out)) != "precious" {
		t.Error("it was overwritten")
	}
	if err := os.Symlink("nowhere", filepath.Join(folder, "link")); err != nil {
		t.Fatal(err)
	}
	_, err = s.Backup(t.Context(), filepath.Join(folder, "link"))
	wantKind(t, err, book.Conflict, "backup_there")
	_, err = s.Backup(t.Context(), filepath.Join(folder, "no", "such", "folder.db"))
	wantKind(t, err, book.NoAccess, "store_no_access")
	noLitter(t, folder)
}

// TestBackupForgets erases a person and finds no trace in a backup that is made after.
func TestBackupForgets(t *testing.T) {
	folder := t.TempDir()
	c := kept(t, filepath.Join(folder, "here", "x.db"), 3)
	s := open(t, c)
	before, after := filepath.Join(folder, "before.db"), filepath.Join(folder, "after.db")
	if _, err := s.Backup(t.Context(), before); err != nil {
		t.Fatal(err)
	}
	if err := s.ErasePerson(t.Context(), "room", "p1"); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Backup(t.Context(), after); err != nil {
		t.Fatal(err)
	}
	if !filesHold(t, before, "Quillfeather") || filesHold(t, after, "Quillfeather") {
		t.Error("the name is not in the backup before, or is in the one after it was erased")
	}
}

// TestRestoreKeepsWhatWasThere restores an older backup over a newer book, and over one that is broken.
func TestRestoreKeepsWhatWasThere(t *testing.T) {
	for name, harm := range map[string]func(path string){
		"whole":              func(string) {},
		"a broken chain":     func(path string) { rawly(t, path, `UPDATE entries SET body = '{}' WHERE position = 2`) },
		"no database at all": func(path string) { write(t, path, []byte(strings.Repeat("junk", 2000))) },
		"with an old log":    func(path string) { write(t, path+"-wal", []byte("no log")) },
	} {
		t.Run(name, func(t *testing.T) {
			folder := t.TempDir()
			c := kept(t, filepath.Join(folder, "here", "x.db"), 5)
			out := filepath.Join(folder, "out.db")
			k := backUp(t, c, out)
			s := open(t, c)
			fillUp(t, s, "later", 7)
			if err := s.Close(); err != nil {
				t.Fatal(err)
			}
			harm(c.Path)
			was := bytesOf(t, c.Path)
			r, err := store.Restore(t.Context(), c, out, store.RestoreOptions{})
			if err != nil {
				t.Fatal(err)
			}
			if h := headOf(t, c); h != k.Books[0].Head {
				t.Errorf("head is %+v, want %+v", h, k.Books[0].Head)
			}
			if !bytes.Equal(bytesOf(t, r.Aside), was) || filepath.Dir(r.Aside) != filepath.Dir(c.Path) {
				t.Errorf("what was there is not kept whole as %q", r.Aside)
			}
			if name == "whole" {
				if h := headOf(t, store.Config{Path: r.Aside, Now: c.Now}); h.Position != 12 {
					t.Errorf("what was kept has its head at %d, want 12", h.Position)
				}
			}
			if again, err := store.Restore(t.Context(), c, out, store.RestoreOptions{}); err != nil || again.Aside == r.Aside {
				t.Errorf("a second restore: %+v, %v", again, err)
			}
			noLitter(t, filepath.Dir(c.Path))
		})
	}
}

// TestRestoreRefuses gives it what it can't take, and finds the books as they were.
func TestRestoreRefuses(t *testing.T) {
	folder := t.TempDir()
	c := kept(t, filepath.Join(folder, "here", "x.db"), 5)
	other := kept(t, filepath.Join(folder, "other", "x.db"), 0)
	s := open(t, other)
	fillUp(t, s, "other", 4)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	good := filepath.Join(folder, "good.db")
	backUp(t, c, good)
	changed := func(name, statement string) string {
		path := filepath.Join(folder, name)
		write(t, path, bytesOf(t, good))
		rawly(t, path, statement)
		return path
	}
	torn := filepath.Join(folder, "torn.db")
	write(t, torn, bytesOf(t, good)[:len(bytesOf(t, good))/2+512])
	junk := filepath.Join(folder, "junk.db")
	write(t, junk, []byte(strings.Repeat("wet prints ", 500)))
	empty := filepath.Join(folder, "empty.db")
	write(t, empty, nil)
	for name, r := range map[string]struct {
		from string
		kind book.ErrorKind
		key  string
	}{
		"not there":         {filepath.Join(folder, "none.db"), book.NotFound, "backup_not_found"},
		"no backup":         {junk, book.Foreign, "backup_foreign"},
		"empty":             {empty, book.Foreign, "backup_foreign"},
		"a folder":          {folder, book.Foreign, "backup_foreign"},
		"another program's": {changed("theirs.db", `PRAGMA application_id=7`), book.Foreign, "backup_foreign"},
		"a newer version":   {changed("newer.db", `INSERT INTO goose_db_version (version_id, is_applied) VALUES (90000, 1)`), book.Newer, "store_newer"},
		"a changed entry":   {changed("chain.db", `UPDATE entries SET body = '{}' WHERE position = 2`), book.Damaged, "backup_broken"},
		"half a file":       {torn, book.Damaged, "store_damaged"},
		"another darkroom":  {other.Path, book.Conflict, "restore_other"},
		"itself":            {c.Path, book.BadInput, "restore_itself"},
	} {
		t.Run(name, func(t *testing.T) {
			was := bytesOf(t, c.Path)
			_, err := store.Restore(t.Context(), c, r.from, store.RestoreOptions{})
			wantKind(t, err, r.kind, r.key)
			if broken, ok := errors.AsType[*store.BrokenError](err); ok && name == "a changed entry" {
				if b := broken.Found.Books[0].Breaks; len(b) != 1 || b[0].Fault != proof.Changed || b[0].From != 2 {
					t.Errorf("found %+v, want the entry at 2 changed", b)
				}
			}
			if !bytes.Equal(was, bytesOf(t, c.Path)) {
				t.Error("the books were changed")
			}
			if all, err := filepath.Glob(filepath.Join(folder, "here", "*")); err != nil || len(all) > 2 {
				t.Errorf("left behind: %v, %v", all, err)
			}
		})
	}
	held := open(t, c)
	_, err := store.Restore(t.Context(), c, good, store.RestoreOptions{})
	wantKind(t, err, book.InUse, "store_in_use")
	if err := held.Close(); err != nil {
		t.Fatal(err)
	}
	if r, err := store.Restore(t.Context(), c, other.Path, store.RestoreOptions{Other: true}); err != nil || r.Aside == "" {
		t.Errorf("another darkroom, asked for: %+v, %v", r, err)
	}
}

// TestTornPage spoils a sector in every page of a backup in turn. Each is refused with what is there untouched, or, where nothing
// of the books stood in the sector, brings back exactly what was backed up.
func TestTornPage(t *testing.T) {
	folder := t.TempDir()
	c := kept(t, filepath.Join(folder, "here", "x.db"), 60)
	good := filepath.Join(folder, "good.db")
	k := backUp(t, c, good)
	whole, refused := bytesOf(t, good), 0
	const page, sector = 4096, 512
	for at := page - sector; at < len(whole); at += page {
		torn := bytes.Clone(whole)
		clear(torn[at : at+sector])
		from := filepath.Join(folder, fmt.Sprint("torn", at, ".db"))
		write(t, from, torn)
		to := store.Config{Path: filepath.Join(folder, fmt.Sprint("to", at), "x.db"), Now: c.Now}
		_, err := store.Restore(t.Context(), to, from, store.RestoreOptions{})
		if err != nil {
			if _, there := os.Stat(to.Path); book.KindOf(err) != book.Damaged && book.KindOf(err) != book.Foreign || there == nil {
				t.Errorf("a torn page at %d: %v", at, err)
			}
			refused++
			continue
		}
		if h := headOf(t, to); h != k.Books[0].Head || !bytes.Equal(torn, whole) {
			t.Errorf("a torn page at %d: restored to %+v, want it refused", at, h)
		}
	}
	if refused < 5 {
		t.Errorf("only %d torn pages were refused", refused)
	}
	t.Logf("%d pages, %d refused", len(whole)/page, refused)
}

// TestBesideReadsAndNeverWrites opens a book beside its owner.
func TestBesideReadsAndNeverWrites(t *testing.T) {
	c := kept(t, filepath.Join(t.TempDir(), "x.db"), 5)
	s := open(t, c)
	b := beside(t, c)
	fillUp(t, s, "later", 2)
	if h, err := b.Head(t.Context(), "room"); err != nil || h.Position != 7 {
		t.Errorf("beside, the head is %+v, %v, want 7", h, err)
	}
	if state, err := b.State(t.Context(), "room"); err != nil || state.Position() != 7 {
		t.Errorf("beside, the state: %v", err)
	}
	_, err := b.Append(t.Context(), "room", []book.Entry{drawn("x")}, nil)
	wantKind(t, err, book.NoAccess, "store_read_only")
	_, err = store.OpenBeside(t.Context(), store.Config{Path: c.Path + ".none", Now: c.Now})
	wantKind(t, err, book.NotFound, "store_no_file")
	if _, err := os.Stat(c.Path + ".none"); err == nil {
		t.Error("it made a file")
	}
}
