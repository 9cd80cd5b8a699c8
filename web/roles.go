package web

import (
	"context"
	"net/http"
	"slices"

	"wetside/book"
	"wetside/darkroom"
)

// May says whether somebody may write entries of a kind.
type May uint8

// The answers.
const (
	Never May = iota
	OwnOnly
	Always
)

// GuestMay says which entries somebody who joined an evening may write: they count, time and test, and take back what they
// wrote themselves; all else is for those who keep the darkroom. It is the one table of it; docs/roles.md shows it.
func GuestMay(k book.Kind) May {
	switch k {
	case book.BathWorked, book.BathTested, book.PrintBegan, book.PrintPut, book.PrintOut, book.BatchHeld, book.BatchWashed,
		book.FaultNoted, book.TemperatureRead:
		return Always
	case book.Correction:
		return OwnOnly
	case book.RoomSet, book.BenchSet, book.VesselSet, book.VesselRemoved, book.TraySet, book.TrayRemoved, book.TankSet,
		book.TankRemoved, book.CanSet, book.CanRemoved, book.ProductSet, book.ProductRemoved, book.PersonSet, book.PersonRemoved, book.SessionSet,
		book.Received, book.Opened, book.Counted, book.Drawn, book.Discarded, book.StockMade, book.BathMixed,
		book.BathToppedUp, book.BathPouredBack, book.BathPouredOut, book.BathMoved, book.BathDiscarded, book.WastePut, book.WasteTaken,
		book.DrainAnswered, book.SessionOpened,
		book.SessionJoined, book.SessionClosed, book.ListTicked, book.NoteLeft:
		return Never
	default:
		return Never
	}
}

// guestPosts are the forms that a device which joined may send: those that write what GuestMay allows, each entry of which is
// asked about once more where it is written, and those that write nothing into the book. A form that is not here is refused
// before it is read.
func guestPosts(pattern string) bool {
	switch pattern {
	case "POST /baths/{id}/worked", "POST /baths/{id}/tested", "POST /undo/{id}", "POST /sink/move", "POST /taps",
		"POST /join/{code}", "POST /wrong/{sign}", "POST /red", "POST /red/screen":
		return true
	}
	return false
}

// keepersPages are the pages that only lead to what a device which joined may not do. No link leads there from what it sees.
func keepersPages(pattern string) bool {
	switch pattern {
	case "GET /baths/stands", "GET /evening/close", "GET /people":
		return true
	}
	return false
}

// errNotYours is for what somebody who joined may not do.
var errNotYours = &book.Error{Kind: book.Refused, Key: "not_yours"}

// guestKey is where a request's context keeps who joined with the device.
type guestKey struct{}

func guestIn(ctx context.Context) Guest {
	g, _ := ctx.Value(guestKey{}).(Guest)
	return g
}

// knowing finds out who joined with the device that asks, for every page and stream.
func (s *server) knowing(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		c, err := r.Cookie(joinedCookie)
		if err != nil || c.Value == "" {
			next.ServeHTTP(w, r)
			return
		}
		g, err := s.Book.Guest(r.Context(), c.Value)
		if err != nil && book.KindOf(err) != book.NotFound {
			s.handle(func(*http.Request, *visit) error { return err }).ServeHTTP(w, r)
			return
		}
		next.ServeHTTP(w, r.WithContext(context.WithValue(r.Context(), guestKey{}, g)))
	})
}

// asGuest refuses forms and pages that are not for whoever joined.
func (v *visit) asGuest(r *http.Request) error {
	v.guest = guestIn(r.Context())
	if v.keeps() || r.Method != http.MethodPost && !keepersPages(r.Pattern) || guestPosts(r.Pattern) {
		return nil
	}
	return errNotYours
}

// keeps reports whether a device is one of the room's own: nobody joined with it.
func (v *visit) keeps() bool { return v.guest.Person == "" }

// A guarded book lets those who joined write what they may, in their own name.
type guarded struct{ Book }

// Append writes entries, all or none.
func (g guarded) Append(ctx context.Context, entries []book.Entry, expect *int64) error {
	who := guestIn(ctx)
	if who.Person == "" {
		return g.Book.Append(ctx, entries, expect)
	}
	own := make([]book.Entry, 0, len(entries))
	for _, e := range entries {
		if err := g.mayWrite(ctx, who, own, e); err != nil {
			return err
		}
		e.By = who.Person
		own = append(own, e)
	}
	return g.Book.Append(ctx, own, expect)
}

// Each writes entries, each by itself.
func (g guarded) Each(ctx context.Context, entries []book.Entry) ([]Outcome, error) {
	who := guestIn(ctx)
	if who.Person == "" {
		return g.Book.Each(ctx, entries)
	}
	all := make([]Outcome, len(entries))
	var may []book.Entry
	var at []int
	for i, e := range entries {
		e.By = who.Person
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
func (g guarded) mayWrite(ctx context.Context, who Guest, before []book.Entry, e book.Entry) error {
	switch GuestMay(e.Kind) {
	case Always:
		return nil
	case OwnOnly:
		was, err := g.taken(ctx, before, e.TakesBack)
		if err == nil && (was.By != who.Person || GuestMay(was.Kind) != Always) {
			err = errNotYours
		}
		return err
	case Never:
	}
	return errNotYours
}

// taken finds what is taken back: without the network a tap and its undo come in one sending.
func (g guarded) taken(ctx context.Context, before []book.Entry, id string) (book.Entry, error) {
	if i := slices.IndexFunc(before, func(b book.Entry) bool { return b.ID == id }); i >= 0 {
		return before[i], nil
	}
	return g.Find(ctx, id)
}

// Keep writes what differs between the file and the book: never for those who joined.
func (g guarded) Keep(ctx context.Context, f darkroom.File, k Keeping) error {
	return g.unlessGuest(ctx, func() error { return g.Book.Keep(ctx, f, k) })
}

// LeaveNote keeps a note and writes its entry: never for those who joined.
func (g guarded) LeaveNote(ctx context.Context, id, words string, e book.Entry) error {
	return g.unlessGuest(ctx, func() error { return g.Book.LeaveNote(ctx, id, words, e) })
}

// Share lets others join: never for those who joined.
func (g guarded) Share(ctx context.Context, session, code string, e book.Entry) error {
	return g.unlessGuest(ctx, func() error { return g.Book.Share(ctx, session, code, e) })
}

// EraseNote forgets a note: never for those who joined.
func (g guarded) EraseNote(ctx context.Context, id string) error {
	return g.unlessGuest(ctx, func() error { return g.Book.EraseNote(ctx, id) })
}

// ErasePerson forgets a name: never for those who joined.
func (g guarded) ErasePerson(ctx context.Context, id string) error {
	return g.unlessGuest(ctx, func() error { return g.Book.ErasePerson(ctx, id) })
}

func (g guarded) unlessGuest(ctx context.Context, do func() error) error {
	if guestIn(ctx).Person != "" {
		return errNotYours
	}
	return do()
}
