package access

import "wetside/book"

// A Role is what somebody, or a device, is to a darkroom.
type Role uint8

// The roles, from who may least.
const (
	// Stranger came with nothing: may join an evening by its code, or sign in.
	Stranger Role = iota
	// Wall is a screen for all to see: it reads, and writes nothing.
	Wall
	// Joined came into an evening by its code and a first name: counts, times, tests, takes back what is their own.
	Joined
	// Sink is a device of the room that stands at the sink: as Joined, in nobody's name, and ticks the lists.
	Sink
	// Member keeps chemistry of their own: as Joined on any evening, and their own shelf.
	Member
	// Keyholder does everything.
	Keyholder
)

// Roles are all of them, from who may least.
func Roles() []Role { return []Role{Stranger, Wall, Joined, Sink, Member, Keyholder} }

// String is the role's name in the API, in tokens and in the docs.
func (r Role) String() string {
	switch r {
	case Wall:
		return "wall"
	case Joined:
		return "joined"
	case Sink:
		return "sink"
	case Member:
		return "member"
	case Keyholder:
		return "keyholder"
	case Stranger:
	}
	return "stranger"
}

// May says whether somebody may write entries of a kind.
type May uint8

// The answers.
const (
	Never   May = iota
	OwnOnly     // of entries that they wrote, of things that are theirs
	Always
)

// Write says whether a role may write entries of a kind. It is the one table of it; docs/roles.md shows it.
func Write(r Role, k book.Kind) May {
	switch r {
	case Keyholder:
		return Always
	case Stranger, Wall:
		return Never
	case Sink:
		if k == book.ListTicked || k == book.NoteLeft {
			return Always
		}
	case Joined, Member:
	}
	switch k {
	case book.BathWorked, book.BathTested, book.PrintBegan, book.PrintPut, book.PrintOut, book.BatchHeld, book.BatchWashed,
		book.FaultNoted, book.TemperatureRead:
		return Always
	case book.Correction:
		return OwnOnly
	case book.ProductSet, book.ProductRemoved, book.Received, book.Opened, book.Counted, book.Drawn, book.Discarded, book.StockMade,
		book.BathMixed, book.BathToppedUp, book.BathPouredBack, book.BathPouredOut, book.BathMoved, book.BathDiscarded:
		if r == Member {
			return OwnOnly
		}
	case book.RoomSet, book.BenchSet, book.VesselSet, book.VesselRemoved, book.TraySet, book.TrayRemoved, book.TankSet,
		book.TankRemoved, book.CanSet, book.CanRemoved, book.PersonSet, book.PersonRemoved, book.SessionSet, book.WastePut, book.WasteTaken,
		book.DrainAnswered, book.SessionOpened, book.SessionJoined, book.SessionClosed, book.ListTicked, book.NoteLeft:
	}
	return Never
}

// Reads says whether a role sees what the darkroom has: shelf, baths, evenings, the book. A wall sees its own page.
func Reads(r Role) bool { return r >= Joined }

// Who is who asks: a role, and where it is known whose it is.
type Who struct {
	Role    Role
	Person  string // an id of the erasable record of people; empty: nobody in particular
	Session string // the evening that somebody joined
	Key     string // the id of the key or token that showed it; empty: none was needed, or a guest's
}

// Keeps reports whether somebody may do everything.
func (w Who) Keeps() bool { return w.Role == Keyholder }
