package upkeep

import (
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"wetside/book"
	"wetside/cli"
	"wetside/store"
)

// System is what the machine says of itself; what is nil is asked of it.
type System struct {
	// Free returns the bytes that a user may still write in a folder, and the size of the disk; an error where it does not say.
	Free func(folder string) (free, size uint64, err error)
	// Network returns the name of the network file system that a folder is on, empty for none.
	Network func(folder string) string
}

// Bounds of the examination; common sense, no standard.
const (
	leastFree     = 32 << 20            // bytes; less is as good as nothing
	lowFree       = 256 << 20           // bytes
	largeLog      = 32 << 20            // bytes; SQLite empties its log at about 4 MB
	clockMayStray = 2 * time.Minute     // behind the last entry
	backupEvery   = 8 * 24 * time.Hour  // a weekly backup that was a day late
	certSoon      = 14 * 24 * time.Hour // before it runs out
)

// exam is one examination under way.
type exam struct {
	Keeper
	at    cli.Where
	about cli.Examination
	path  string // of the file
	size  int64  // of the file
	found cli.Verified
	err   error // why the books could not be opened
}

// Examine looks at everything that may go wrong at a place. It changes nothing. What hinders one check leaves the others.
func (k Keeper) Examine(ctx context.Context, at cli.Where, about cli.Examination) ([]cli.Check, error) {
	x := &exam{Keeper: k, at: at, about: about, path: filepath.Join(at.Dir, file)}
	x.found, x.err = k.Verify(ctx, at)
	if book.KindOf(x.err) == book.Cancelled {
		return nil, x.err
	}
	if info, err := os.Stat(x.path); err == nil {
		x.size = info.Size()
	}
	all := []cli.Check{x.books()}
	if at.Database == "" {
		all = append(all, x.rights(), x.space(), x.network(), x.log(), x.server(), x.litter(), x.backup())
	}
	if x.err == nil {
		all = append(all, x.schema(ctx), x.chain(), x.fold(), x.clock())
	}
	if about.Cert != "" {
		all = append(all, x.certificate())
	}
	return all, nil
}

type figures = map[string]cli.Figure

func check(name string, state cli.State, kind string, f figures) cli.Check {
	return cli.Check{Name: name, State: state, Kind: kind, Figures: f}
}

func text(s string) cli.Figure { return cli.Figure{Text: s} }

// books tells whether there are books that can be opened.
func (x *exam) books() cli.Check {
	if x.err == nil {
		return check("books", cli.Good, "books_good", figures{"Path": text(x.found.Place)})
	}
	f := figures{"Path": text(x.path), "Cause": text(book.CauseOf(x.err))}
	switch kind := book.KindOf(x.err); {
	case kind == book.NotFound && x.at.Database != "":
		return check("books", cli.Warning, "books_none", figures{"Path": f["Cause"]})
	case kind == book.NotFound:
		return check("books", cli.Warning, "books_none", f)
	case x.at.Database != "": // the cause says what to do
		return check("books", cli.Bad, "books_shut", f)
	case kind == book.Newer:
		return check("books", cli.Bad, "books_newer", f)
	case kind == book.Foreign:
		return check("books", cli.Bad, "books_foreign", f)
	case kind == book.Damaged, kind == book.Failing, kind == book.Internal:
		return check("books", cli.Bad, "books_closed", f)
	default:
		return check("books", cli.Bad, "books_shut", f)
	}
}

// rights tells whether the books can be written by whoever asks, and read by nobody else.
func (x *exam) rights() cli.Check {
	f := figures{"Path": text(x.at.Dir)}
	info, err := os.Stat(x.at.Dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return check("rights", cli.Good, "rights_none", f)
	case err != nil || !info.IsDir():
		return check("rights", cli.Bad, "rights_closed", f)
	}
	tmp, err := os.CreateTemp(x.at.Dir, ".wetside-doctor-*")
	if err != nil {
		return check("rights", cli.Bad, "rights_closed", f)
	}
	_, _ = tmp.Close(), os.Remove(tmp.Name())
	if file, err := os.OpenFile(x.path+".lock", os.O_RDWR, 0); err == nil {
		_ = file.Close()
	} else if !errors.Is(err, fs.ErrNotExist) {
		f["Path"] = text(x.path + ".lock")
		return check("rights", cli.Bad, "rights_closed", f)
	}
	if info.Mode().Perm()&0o077 != 0 {
		if file, err := os.Stat(x.path); err == nil && file.Mode().Perm()&0o077 != 0 {
			f["Path"] = text(x.path)
			return check("rights", cli.Warning, "rights_open", f)
		}
	}
	return check("rights", cli.Good, "rights_good", f)
}

// space tells how much can still be written.
func (x *exam) space() cli.Check {
	ask := x.System.Free
	if ask == nil {
		ask = diskFree
	}
	free, size, err := ask(existing(x.at.Dir))
	f := figures{"Free": {Bytes: int64(free)}, "Size": {Bytes: int64(size)}}
	switch {
	case err != nil:
		return check("space", cli.Good, "space_unknown", nil)
	case free < leastFree+uint64(x.size):
		return check("space", cli.Bad, "space_none", f)
	case free < lowFree+4*uint64(x.size):
		return check("space", cli.Warning, "space_low", f)
	}
	return check("space", cli.Good, "space_good", f)
}

// existing returns the folder, or the nearest above it that is there.
func existing(folder string) string {
	for {
		if _, err := os.Stat(folder); err == nil || folder == filepath.Dir(folder) {
			return folder
		}
		folder = filepath.Dir(folder)
	}
}

// network tells whether the file lies where locks can't be trusted.
func (x *exam) network() cli.Check {
	ask := x.System.Network
	if ask == nil {
		ask = store.Network
	}
	if name := ask(existing(x.at.Dir)); name != "" {
		return check("network", cli.Bad, "network_bad", figures{"What": text(name)})
	}
	return check("network", cli.Good, "network_good", nil)
}

// log tells how long the write-ahead log is.
func (x *exam) log() cli.Check {
	info, err := os.Stat(x.path + "-wal")
	if err != nil || info.Size() == 0 {
		return check("log", cli.Good, "log_empty", nil)
	}
	f := figures{"Size": {Bytes: info.Size()}}
	if info.Size() > largeLog {
		return check("log", cli.Warning, "log_large", f)
	}
	return check("log", cli.Good, "log_good", f)
}

// server tells who has the books open.
func (x *exam) server() cli.Check {
	holder, err := store.Holder(x.path)
	switch {
	case err != nil:
		return check("server", cli.Bad, "server_unknown", figures{"Cause": text(book.CauseOf(err))})
	case holder != "":
		return check("server", cli.Good, "server_one", figures{"Who": text(holder)})
	}
	return check("server", cli.Good, "server_none", nil)
}

// litter tells of files that a job which was cut short left behind.
func (x *exam) litter() cli.Check {
	names, err := filepath.Glob(filepath.Join(x.at.Dir, ".wetside-*"))
	if err != nil || len(names) == 0 {
		return check("litter", cli.Good, "litter_none", nil)
	}
	return check("litter", cli.Warning, "litter_some", figures{"N": {Count: int64(len(names))}, "First": text(names[0])})
}

// backup tells how old the last backup is.
func (x *exam) backup() cli.Check {
	raw, err := os.ReadFile(filepath.Join(x.at.Dir, noted))
	var last lastBackup
	if err == nil {
		err = json.Unmarshal(raw, &last)
	}
	var has int64
	for i := range x.found.Books {
		has += x.found.Books[i].Entries
	}
	switch {
	case err != nil && has == 0:
		return check("backup", cli.Good, "backup_not_yet", nil)
	case err != nil:
		return check("backup", cli.Warning, "backup_none", figures{"N": {Count: has}})
	}
	age := x.Now().Sub(last.At)
	f := figures{"Path": text(last.Path), "At": {At: last.At}, "Age": {For: max(age, time.Minute)}, "N": {Count: has - last.Entries}}
	switch {
	case age > backupEvery && has > last.Entries:
		return check("backup", cli.Warning, "backup_old", f)
	case gone(last.Path):
		return check("backup", cli.Warning, "backup_gone", f)
	}
	return check("backup", cli.Good, "backup_good", f)
}

func gone(path string) bool {
	_, err := os.Stat(path)
	return errors.Is(err, fs.ErrNotExist)
}
