package upkeep

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"time"

	"wetside/book"
	"wetside/book/journal"
	"wetside/book/proof"
	"wetside/cli"
	"wetside/store"
)

var _ cli.Upkeep = Keeper{}

// A Keeper keeps books.
type Keeper struct {
	Now func() time.Time
	// Told is called while books of an older version are brought to today's form.
	Told func(store.Change)
	// System is what the machine says of itself; the zero value asks it.
	System System
}

// file is the books' file in a directory.
const file = "wetside.db"

func (k Keeper) config(at cli.Where) store.Config {
	return store.Config{Path: filepath.Join(at.Dir, file), Database: string(at.Database), Now: k.Now, Told: k.Told}
}

// reading opens the books to read them, beside whoever has them open.
func (k Keeper) reading(ctx context.Context, at cli.Where) (*store.Store, error) {
	return store.OpenBeside(ctx, k.config(at))
}

// Verify looks through all books at a place: each chain, each fold from nothing, and the engine's file.
func (k Keeper) Verify(ctx context.Context, at cli.Where) (v cli.Verified, err error) {
	s, err := k.reading(ctx, at)
	if err != nil {
		return v, err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	v.Place, v.File = s.Place(), at.Database == ""
	if v.Schema, _, err = s.Schema(ctx); err != nil {
		return v, err
	}
	if v.Faults, err = s.Sound(ctx); err != nil {
		return v, err
	}
	heads, err := s.Darkrooms(ctx)
	if book.KindOf(err) == book.Damaged {
		v.Faults = append(v.Faults, err.Error())
		return v, nil
	}
	if err != nil {
		return v, err
	}
	for _, h := range heads {
		p, err := proved(ctx, s, h.Darkroom)
		if err != nil {
			return v, err
		}
		v.Books = append(v.Books, p)
	}
	return v, nil
}

// proved follows a chain, folds the same entries from nothing, and holds the snapshot against that. Behind a hole the fold can't go
// on.
func proved(ctx context.Context, s *store.Store, darkroom string) (p cli.Proved, err error) {
	if p.Report, err = s.Prove(ctx, darkroom, nil); err != nil {
		return p, err
	}
	told, err := s.Retell(ctx, darkroom)
	p.Unread, p.Snapshot = told.Unread, cli.SnapshotFound(told.Snapshot)
	return p, err
}

// Backup copies the books.
func (k Keeper) Backup(ctx context.Context, at cli.Where, out string) (saved cli.Saved, err error) {
	if at.Database != "" {
		return saved, noFile("backup_no_file")
	}
	s, err := k.reading(ctx, at)
	if err != nil {
		return saved, err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	now := k.Now()
	if info, err := os.Stat(out); err == nil && info.IsDir() {
		out = filepath.Join(out, "wetside-"+now.UTC().Format("20060102T150405Z")+".db")
	}
	kept, err := s.Backup(ctx, out)
	if err != nil {
		return saved, err
	}
	saved = savedOf(kept)
	noteBackup(at.Dir, lastBackup{Path: absolute(out), At: now.UTC(), Entries: entriesOf(kept.Books)})
	return saved, nil
}

func absolute(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}

func savedOf(k store.Kept) cli.Saved {
	saved := cli.Saved{Path: k.Path, Bytes: k.Bytes}
	saved.Place, saved.File, saved.Schema, saved.Faults = k.Path, true, k.Schema, k.Faults
	for _, r := range k.Books {
		saved.Books = append(saved.Books, cli.Proved{Report: r})
	}
	return saved
}

func entriesOf(books []proof.Report) (n int64) {
	for i := range books {
		n += books[i].Entries
	}
	return n
}

// lastBackup is what is remembered of the last backup, in a file beside the books.
type lastBackup struct {
	Path    string    `json:"path"`
	At      time.Time `json:"at"`
	Entries int64     `json:"entries"`
}

const noted = file + ".last-backup"

// noteBackup remembers a backup for the doctor. Whoever may read the books and not write beside them makes backups all the same.
func noteBackup(dir string, b lastBackup) {
	text, err := json.Marshal(b)
	if err != nil {
		return
	}
	tmp, err := os.CreateTemp(dir, ".wetside-noted-*")
	if err != nil {
		return
	}
	defer func() { _ = os.Remove(tmp.Name()) }()
	_, err = tmp.Write(append(text, '\n'))
	if errors.Join(err, tmp.Close()) == nil {
		handOver(dir, tmp.Name())
		_ = os.Rename(tmp.Name(), filepath.Join(dir, noted))
	}
}

// noFile refuses what is done with files only.
func noFile(key string) error {
	return &book.Error{Kind: book.Refused, Key: key, Cause: errors.New("PostgreSQL")}
}

// Restore puts a backup in the books' place.
func (k Keeper) Restore(ctx context.Context, at cli.Where, from string, other bool) (cli.Restored, error) {
	if at.Database != "" {
		return cli.Restored{}, noFile("restore_no_file")
	}
	r, err := store.Restore(ctx, k.config(at), from, store.RestoreOptions{Other: other})
	if broken, ok := errors.AsType[*store.BrokenError](err); ok {
		return cli.Restored{Saved: savedOf(broken.Found)}, err
	}
	if err != nil {
		return cli.Restored{}, err
	}
	made := filepath.Join(at.Dir, file)
	handOver(at.Dir, made, made+".lock", r.Aside)
	return cli.Restored{Saved: savedOf(r.Kept), Aside: r.Aside, Was: entriesOf(r.Was)}, nil
}

// WriteOut writes the whole book of a darkroom as text.
func (k Keeper) WriteOut(ctx context.Context, at cli.Where, w io.Writer, names bool) (head journal.Head, err error) {
	s, err := k.reading(ctx, at)
	if err != nil {
		return head, err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	var out *journal.Writer
	var people []book.Person
	err = s.WriteOut(ctx, at.Darkroom, func(end book.Head, all book.People) (err error) {
		if names {
			people = named(all)
		}
		head = journal.Head{Form: journal.Form, Darkroom: end.Darkroom, Entries: end.Position, Hash: end.Hash, People: len(people)}
		out, err = journal.NewWriter(w, end, len(people))
		return err
	}, func(e book.Entry) error { return out.Entry(e) })
	if err != nil {
		return head, err
	}
	for _, p := range people {
		if err := out.Person(p); err != nil {
			return head, err
		}
	}
	return head, out.Close()
}

// TakeOver writes what an export has and the book does not.
func (k Keeper) TakeOver(ctx context.Context, at cli.Where, r io.Reader, asFar bool) (t cli.TakenOver, err error) {
	in, err := journal.NewReader(r)
	if err != nil {
		return t, err
	}
	t.Darkroom = in.Head().Darkroom
	s, err := store.Open(ctx, k.config(at))
	if err != nil {
		return t, err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	next, people := in.Next, func() ([]book.Person, error) { return peopleOf(in) }
	if asFar {
		c := &careful{in: in, stopped: &t.Stopped}
		next, people = c.next, c.people
	}
	counted := func() (book.Entry, error) {
		e, err := next()
		if err == nil {
			t.Read++
		}
		return e, err
	}
	t.Written, err = s.TakeOver(ctx, t.Darkroom, counted, people)
	return t, err
}

// careful reads an export as far as it is whole. An entry is handed on only when the next one, or the end of what is there,
// does not say that it was changed.
type careful struct {
	in      *journal.Reader
	held    *book.Entry
	stopped *error
}

func (c *careful) next() (book.Entry, error) {
	for *c.stopped == nil {
		e, err := c.in.Next()
		broken, ok := errors.AsType[*journal.Error](err)
		switch {
		case ok:
			*c.stopped = broken
			if broken.Why == journal.NoFollow {
				c.held = nil
			}
		case errors.Is(err, io.EOF):
			return c.last()
		case err != nil:
			return book.Entry{}, err
		case c.held == nil:
			c.held = &e
		default:
			before := *c.held
			c.held = &e
			return before, nil
		}
	}
	return c.last()
}

// people returns the names, where all of the entries are whole.
func (c *careful) people() ([]book.Person, error) {
	if *c.stopped == nil {
		return peopleOf(c.in)
	}
	return nil, nil
}

func (c *careful) last() (book.Entry, error) {
	if c.held == nil {
		return book.Entry{}, io.EOF
	}
	e := *c.held
	c.held = nil
	return e, nil
}

func peopleOf(in *journal.Reader) (all []book.Person, err error) {
	for {
		p, err := in.NextPerson()
		if errors.Is(err, io.EOF) {
			return all, nil
		}
		if err != nil {
			return nil, err
		}
		all = append(all, p)
	}
}
