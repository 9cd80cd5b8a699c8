package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"wetside/book"
	"wetside/book/proof"
)

// A Kept is a backup that was made and looked through.
type Kept struct {
	Path   string
	Bytes  int64
	Schema int64
	Books  []proof.Report // one of each darkroom, as found in the backup
	Faults []string       // what the engine finds wrong in its file
}

// Whole reports whether nothing is wrong in the backup.
func (k *Kept) Whole() bool {
	for i := range k.Books {
		if !k.Books[i].Whole() {
			return false
		}
	}
	return len(k.Faults) == 0
}

// Backup writes a copy of all books as of one moment, beside whoever reads and writes, to a file that is not there yet: with
// names, notes and what lets people join, without what was erased. It stands under its name only when it is whole and on
// disk. Then it is looked through; a broken book gives a backup that is as broken, which Whole tells. Errors: Conflict where
// the file is there, Refused for an engine without a file, and those of the disk.
func (s *Store) Backup(ctx context.Context, out string) (Kept, error) {
	if s.dialect.copy == nil {
		return Kept{}, &book.Error{Kind: book.Refused, Key: "backup_no_file", Cause: errors.New(s.dialect.name)}
	}
	tmp, err := s.copyBeside(ctx, out)
	if err != nil {
		return Kept{}, s.dialect.fail(err)
	}
	defer func() { _ = os.Remove(tmp) }()
	kept, err := lookThrough(ctx, Config{Path: tmp, Now: s.now, Upcasts: s.upcasts})
	if err != nil {
		return Kept{}, s.dialect.fail(fmt.Errorf("reading the backup: %w", err))
	}
	if err := placeNew(tmp, out); err != nil {
		return Kept{}, s.dialect.fail(err)
	}
	kept.Path = out
	return kept, nil
}

// copyBeside writes a copy of the books into a file of a name of its own beside out, and syncs it.
func (s *Store) copyBeside(ctx context.Context, out string) (tmp string, err error) {
	if _, err := os.Lstat(out); err == nil {
		return "", there(out)
	}
	f, err := os.CreateTemp(filepath.Dir(out), ".wetside-backup-*")
	if err != nil {
		return "", err
	}
	defer func() {
		if err = errors.Join(err, f.Close()); err != nil {
			_ = os.Remove(f.Name())
		}
	}()
	if err := s.dialect.copy(ctx, f.Name()); err != nil {
		return "", err
	}
	return f.Name(), f.Sync()
}

func there(path string) error {
	return &book.Error{Kind: book.Conflict, Key: "backup_there", Cause: &fs.PathError{Op: "backup", Path: path, Err: fs.ErrExist}}
}

// placeNew gives a file its name, where nothing has that name, and syncs the folder.
func placeNew(tmp, out string) error {
	err := os.Link(tmp, out) // fails where the name is taken
	switch {
	case errors.Is(err, fs.ErrExist):
		return there(out)
	case err != nil: // a file system without links, such as a memory stick's
		if _, err := os.Lstat(out); err == nil {
			return there(out)
		}
		if err := os.Rename(tmp, out); err != nil {
			return err
		}
	}
	return syncFolder(filepath.Dir(out))
}

func syncFolder(path string) error {
	folder, err := os.Open(path)
	if err != nil {
		return err
	}
	defer func() { _ = folder.Close() }()
	if err := folder.Sync(); err != nil && !errors.Is(err, syscall.EINVAL) { // some file systems can't sync a folder
		return err
	}
	return nil
}

// lookThrough proves every book in a copy.
func lookThrough(ctx context.Context, copied Config) (Kept, error) {
	copied.still = true
	b, err := OpenBeside(ctx, copied)
	if err != nil {
		return Kept{}, err
	}
	defer func() { _ = b.Close() }()
	info, err := os.Stat(copied.Path)
	if err != nil {
		return Kept{}, err
	}
	kept := Kept{Path: copied.Path, Bytes: info.Size()}
	if kept.Schema, _, err = b.Schema(ctx); err != nil {
		return Kept{}, err
	}
	kept.Books, kept.Faults, err = b.ProveAll(ctx)
	return kept, err
}

// ProveAll proves the books of all darkrooms and asks the engine about its file.
func (s *Store) ProveAll(ctx context.Context) (books []proof.Report, faults []string, err error) {
	if faults, err = s.Sound(ctx); err != nil {
		return nil, nil, err
	}
	heads, err := s.Darkrooms(ctx)
	if err != nil {
		if book.KindOf(err) == book.Damaged {
			return nil, append(faults, err.Error()), nil
		}
		return nil, nil, err
	}
	for _, h := range heads {
		r, err := s.Prove(ctx, h.Darkroom, nil)
		if err != nil {
			return nil, nil, err
		}
		books = append(books, r)
	}
	return books, faults, nil
}

// keepBefore makes the backup that is named after the change that it is made before.
func (s *Store) keepBefore(ctx context.Context, _, knows int64) (string, error) {
	path, err := place(s.dialect.place)
	if err != nil {
		return "", err
	}
	folder := filepath.Join(filepath.Dir(path), "backups")
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", err
	}
	out := free(filepath.Join(folder, fmt.Sprintf("before-schema-%d-%s", knows, stamp(s.now()))))
	tmp, err := s.copyBeside(ctx, out)
	if err != nil {
		return "", err
	}
	defer func() { _ = os.Remove(tmp) }()
	return out, placeNew(tmp, out)
}

// stamp is a moment in a file's name.
func stamp(t time.Time) string { return t.UTC().Format("20060102T150405Z") }

// free returns a name that nothing has: the stem with .db, or with a number before it.
func free(stem string) string {
	name := stem + ".db"
	for n := 2; ; n++ {
		if _, err := os.Lstat(name); err != nil {
			return name
		}
		name = fmt.Sprintf("%s-%d.db", stem, n)
	}
}
