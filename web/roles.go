package web

import (
	"context"
	"net/http"
	"slices"

	"wetside/access"
	"wetside/book"
	"wetside/darkroom"
)

// errNotYours is for what somebody's role may not do.
var errNotYours = &book.Error{Kind: book.Refused, Key: "not_yours"}

// A guarded book lets everybody write what they may, in their own name.
type guarded struct{ Book }

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
	switch access.Write(who.Role, e.Kind) {
	case access.Always:
		return nil
	case access.OwnOnly:
		if e.Kind != book.Correction {
			return errNotYours
		}
		was, err := g.taken(ctx, before, e.TakesBack)
		if err == nil && !takesBack(who, was) {
			err = errNotYours
		}
		return err
	case access.Never:
	}
	return errNotYours
}

// takesBack reports whether somebody may take an entry back: what they wrote themselves, of a kind that is theirs to write.
func takesBack(who access.Who, was book.Entry) bool {
	return isOwn(who, was.By, was.Device) && access.Write(who.Role, was.Kind) != access.Never && was.Kind != book.Correction
}

// isOwn reports whether who asks wrote an entry: a person by their id, a device of the room by its own.
func isOwn(who access.Who, by, device string) bool {
	if who.Person != "" {
		return by == who.Person
	}
	return by == "" && who.Key != "" && device == who.Key
}

// taken finds what is taken back: without the network a tap and its undo come in one sending.
func (g guarded) taken(ctx context.Context, before []book.Entry, id string) (book.Entry, error) {
	if i := slices.IndexFunc(before, func(b book.Entry) bool { return b.ID == id }); i >= 0 {
		return before[i], nil
	}
	return g.Find(ctx, id)
}

// Keep writes what differs between the file and the book: for those who keep the darkroom.
func (g guarded) Keep(ctx context.Context, f darkroom.File, k Keeping) error {
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
