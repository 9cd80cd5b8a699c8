package web

import (
	"context"
	"net/http"
	"time"

	"wetside/access"
	"wetside/book"
	"wetside/darkroom"
)

// errNotYours is for what somebody's role may not do.
var errNotYours = &book.Error{Kind: book.Refused, Key: "not_yours"}

// errNotTheirs is for what of a shelf is not a member's own.
var errNotTheirs = &book.Error{Kind: book.Refused, Key: "not_theirs"}

// A guarded book lets everybody write what they may, in their own name.
type guarded struct {
	Book
	now   func() time.Time
	newID func() string
}

// inName puts an entry in the name of whoever asks, where it is known. A device of the room writes in nobody's name, and under
// its own id, whatever it says.
func inName(who access.Who, e book.Entry) book.Entry {
	switch {
	case who.Person != "":
		e.By = who.Person
	case who.Role != access.Keyholder:
		e.By, e.Device = "", who.Key
	}
	return e
}

// Append writes entries, all or none.
func (g guarded) Append(ctx context.Context, entries []book.Entry, expect *int64) error {
	who := access.From(ctx)
	own := make([]book.Entry, 0, len(entries))
	for _, e := range entries {
		e = inName(who, e)
		if err := g.mayWrite(ctx, who, own, e); err != nil {
			return err
		}
		own = append(own, e)
	}
	return g.Book.Append(ctx, own, expect)
}

// Each writes entries, each by itself.
func (g guarded) Each(ctx context.Context, entries []book.Entry) ([]Outcome, error) {
	who := access.From(ctx)
	all := make([]Outcome, len(entries))
	var may []book.Entry
	var at []int
	for i, e := range entries {
		e = inName(who, e)
		if all[i] = (Outcome{Entry: e, Err: g.mayWrite(ctx, who, may, e)}); all[i].Err == nil {
			may, at = append(may, e), append(at, i)
		}
	}
	written, err := g.Book.Each(ctx, may)
	if err != nil {
		return nil, err
	}
	for i, o := range written {
		all[at[i]] = o
	}
	return all, nil
}

// mayWrite refuses an entry that is not theirs to write; before is what is written with it and comes first.
func (g guarded) mayWrite(ctx context.Context, who access.Who, before []book.Entry, e book.Entry) error {
	may, err := access.MayWrite(ctx, g.Book, who, before, e)
	switch {
	case err == nil && !may && who.Role == access.Member && access.Write(who.Role, e.Kind) == access.OwnOnly && e.Kind != book.Correction:
		return errNotTheirs
	case err == nil && !may:
		return errNotYours
	}
	return err
}

// Keep writes what differs between the file and the book: for those who keep the darkroom, and for a member what is theirs.
func (g guarded) Keep(ctx context.Context, f darkroom.File, k Keeping) error {
	if access.From(ctx).Role == access.Member {
		return g.keepOwn(ctx, f, k)
	}
	return g.ifKeeps(ctx, func() error { return g.Book.Keep(ctx, f, k) })
}

// LeaveNote keeps a note and writes its entry: for whoever may leave one.
func (g guarded) LeaveNote(ctx context.Context, id, words string, e book.Entry) error {
	who := access.From(ctx)
	if access.Write(who.Role, e.Kind) != access.Always {
		return errNotYours
	}
	return g.Book.LeaveNote(ctx, id, words, inName(who, e))
}

// Share lets others join: for those who keep the darkroom.
func (g guarded) Share(ctx context.Context, session, code string, e book.Entry) error {
	return g.ifKeeps(ctx, func() error { return g.Book.Share(ctx, session, code, inName(access.From(ctx), e)) })
}

// EraseNote forgets a note: for those who keep the darkroom.
func (g guarded) EraseNote(ctx context.Context, id string) error {
	return g.ifKeeps(ctx, func() error { return g.Book.EraseNote(ctx, id) })
}

// NotePerson keeps notes of somebody: for themselves, and for those who keep the darkroom.
func (g guarded) NotePerson(ctx context.Context, id string, notes []string) error {
	if !mayNote(access.From(ctx), id) {
		return errNotYours
	}
	return g.Book.NotePerson(ctx, id, notes)
}

// ErasePerson forgets a name: for those who keep the darkroom.
func (g guarded) ErasePerson(ctx context.Context, id string) error {
	return g.ifKeeps(ctx, func() error { return g.Book.ErasePerson(ctx, id) })
}

func (g guarded) ifKeeps(ctx context.Context, do func() error) error {
	if !access.From(ctx).Keeps() {
		return errNotYours
	}
	return do()
}

// keeps reports whether whoever asks may do everything.
func (v *visit) keeps() bool { return v.who.Keeps() }

// may reports whether whoever asks may write entries of a kind.
func (v *visit) may(k book.Kind) bool { return access.Write(v.who.Role, k) == access.Always }

// asWho learns who asks.
func (v *visit) asWho(r *http.Request) { v.who = access.From(r.Context()) }
