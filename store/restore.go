package store

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"wetside/book"
	"wetside/book/proof"
)

// RestoreOptions are what a restore is told beside where from.
type RestoreOptions struct {
	// Other says that the backup may be of another darkroom than the books that are there.
	Other bool
}

// A Restored says what a restore did.
type Restored struct {
	Kept                 // the books that are now there; Path is their file, Schema that of the backup
	Aside string         // where what was there before is kept; empty: there was nothing
	Was   []proof.Report // what was there before, where it could be read
}

// Restore puts a backup of this or an older schema in the place of the books at c. The backup is only read. First it is
// copied, brought to today's schema and looked through; only then what is there is kept aside under a name of its own and
// the copy takes its place, in one step. Whatever goes wrong before leaves everything as it was.
//
// Errors: NotFound where there is no backup, Foreign where it is none, Newer, a *BrokenError for a damaged one, InUse while
// another process has the books, Conflict with the key restore_other for a backup of another darkroom, and those of the disk.
func Restore(ctx context.Context, c Config, from string, o RestoreOptions) (Restored, error) {
	d := sqliteDialect(c.Path)
	r, err := restore(ctx, c, from, o)
	if err != nil {
		return Restored{}, d.fail(err)
	}
	return r, nil
}

func restore(ctx context.Context, c Config, from string, o RestoreOptions) (r Restored, err error) {
	path, err := place(c.Path)
	if err != nil {
		return r, err
	}
	if same(from, path) {
		return r, &book.Error{Kind: book.BadInput, Key: "restore_itself", Cause: errors.New(from)}
	}
	r.Kept, err = examine(ctx, c, from)
	if err != nil {
		return r, err
	}
	held, err := lock(path + ".lock")
	if err != nil {
		return r, err
	}
	defer func() { err = errors.Join(err, held.Close()) }()
	r.Was = beforeOf(ctx, c, path)
	if other(r.Books, r.Was) && !o.Other {
		return r, &book.Error{Kind: book.Conflict, Key: "restore_other", Cause: errors.New(from)}
	}
	tmp, err := lifted(ctx, c, from, path)
	if err != nil {
		return r, err
	}
	defer func() { err = errors.Join(err, sweep(tmp)) }()
	if r.Aside, err = setAside(ctx, c, path); err != nil {
		return r, err
	}
	if err := os.Rename(tmp, path); err != nil {
		return r, err
	}
	r.Path = path
	return r, syncFolder(filepath.Dir(path))
}

func same(a, b string) bool {
	first, err := os.Stat(a)
	if err != nil {
		return false
	}
	second, err := os.Stat(b)
	return err == nil && os.SameFile(first, second)
}

// A BrokenError says that a backup is not as it was written, and where.
type BrokenError struct{ Found Kept }

// Error says it for the log.
func (e *BrokenError) Error() string {
	var all []string
	for i := range e.Found.Books {
		for _, b := range e.Found.Books[i].Breaks {
			all = append(all, fmt.Sprintf("%s at %d", b.Fault, b.From))
		}
	}
	return e.Found.Path + ": " + strings.Join(append(all, e.Found.Faults...), "; ")
}

// ErrorKind makes it Damaged.
func (e *BrokenError) ErrorKind() book.ErrorKind { return book.Damaged }

// ErrorKey returns the key of its sentence.
func (e *BrokenError) ErrorKey() string { return "backup_broken" }

// examine looks through a backup where it lies.
func examine(ctx context.Context, c Config, from string) (Kept, error) {
	kept, err := lookThrough(ctx, Config{Path: from, Now: c.Now, Upcasts: c.Upcasts})
	if err != nil {
		if k := book.KindOf(err); k == book.NotFound || k == book.Foreign {
			return kept, fmt.Errorf("%w", &book.Error{Kind: k, Key: map[book.ErrorKind]string{
				book.NotFound: "backup_not_found", book.Foreign: "backup_foreign",
			}[k], Cause: err})
		}
		return kept, err
	}
	if !kept.Whole() {
		return kept, &BrokenError{kept}
	}
	return kept, nil
}

// beforeOf looks at what is there; nil where there is nothing, or nothing that can be read.
func beforeOf(ctx context.Context, c Config, path string) []proof.Report {
	b, err := OpenBeside(ctx, Config{Path: path, Now: c.Now, Upcasts: c.Upcasts, still: true})
	if err != nil {
		return nil
	}
	defer func() { _ = b.Close() }()
	books, _, err := b.ProveAll(ctx)
	if err != nil {
		return nil
	}
	return books
}

// other reports whether both have entries, and no book of theirs begins alike.
func other(from, there []proof.Report) bool {
	both := false
	for i := range from {
		for j := range there {
			if from[i].Entries == 0 || there[j].Entries == 0 {
				continue
			}
			if from[i].First == there[j].First || from[i].FirstID == there[j].FirstID {
				return false
			}
			both = true
		}
	}
	return both
}

// lifted makes a copy of a backup beside the books, in today's schema, whole and on disk, and returns its name.
func lifted(ctx context.Context, c Config, from, path string) (tmp string, err error) {
	b, err := OpenBeside(ctx, Config{Path: from, Now: c.Now, Upcasts: c.Upcasts, still: true})
	if err != nil {
		return "", err
	}
	tmp, err = b.copyBeside(ctx, path+".restored")
	if err = errors.Join(err, b.Close()); err != nil {
		return "", err
	}
	copied := c
	copied.Path, copied.copied = tmp, true
	s, err := Open(ctx, copied)
	if err == nil {
		var books []proof.Report
		var faults []string
		books, faults, err = s.ProveAll(ctx)
		if err == nil {
			err = s.dropSnapshots(ctx) // they are made anew from the entries, whatever the backup's said
		}
		found := Kept{Path: tmp, Books: books, Faults: faults}
		if err == nil && !found.Whole() {
			err = &BrokenError{found}
		}
		err = errors.Join(err, s.Close())
	}
	if err == nil {
		err = syncFile(tmp)
	}
	if err != nil {
		return "", errors.Join(err, sweep(tmp))
	}
	return tmp, nil
}

// sweep removes a copy that is no longer needed and what stands beside it.
func sweep(tmp string) error {
	for _, end := range []string{"", "-wal", "-shm", ".lock"} {
		if err := os.Remove(tmp + end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	return nil
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer func() { _ = f.Close() }()
	return f.Sync()
}

// setAside gives the books that are there a second name, which is returned; empty where there are none. The first name stays
// until another file takes it, so there is no moment without books. What is still in the write-ahead log goes along.
func setAside(ctx context.Context, c Config, path string) (aside string, err error) {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return "", nil
	}
	emptyLog(ctx, path)
	folder, base := filepath.Split(path)
	aside = free(filepath.Join(folder, strings.TrimSuffix(base, ".db")+"-before-restore-"+stamp(c.Now())))
	for _, end := range []string{"-wal", ""} {
		err := secondName(path+end, aside+end)
		if err != nil && (end == "" || !errors.Is(err, fs.ErrNotExist)) {
			return "", err
		}
	}
	if err := syncFolder(folder); err != nil {
		return "", err
	}
	for _, end := range []string{"-wal", "-shm"} { // they must not be taken for the new file's
		if err := os.Remove(path + end); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return "", err
		}
	}
	return aside, syncFolder(folder)
}

// secondName links a file, or copies it where there are no links.
func secondName(path, name string) error {
	err := os.Link(path, name)
	if err == nil || errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrExist) {
		return err
	}
	from, err := os.Open(path)
	if err != nil {
		return err
	}
	defer func() { _ = from.Close() }()
	to, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = to.ReadFrom(from)
	return errors.Join(err, to.Sync(), to.Close())
}
