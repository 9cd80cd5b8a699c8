package waste

import (
	"time"

	"wetside/trade/hazard/meet"
	"wetside/trade/hazard/substance"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// FullAt is the share of a can at which it counts as full where the room says nothing: a can is never filled to the brim. From
// memory.
const FullAt = 0.8

// A Can is what is asked about.
type Can struct {
	Takes  process.Role // one kind of used bath
	Litres float64      // to the brim
	FullAt float64      // 0 where the room does not say
}

// fullAt is the share at which the can counts as full, and where that is from.
func (c Can) fullAt() reckoning.Figure {
	if c.FullAt > 0 {
		return reckoning.Figure{Name: "full_at", Value: c.FullAt, Unit: reckoning.Share, Origin: reckoning.Measured}
	}
	return reckoning.Figure{Name: "full_at", Value: FullAt, Unit: reckoning.Share, Origin: reckoning.FromMemory}
}

// A Bath is what somebody wants to pour in.
type Bath struct {
	Name string // the user's own
	Role process.Role
	// Groups is what its label says it holds, beside what its kind may hold.
	Groups substance.Group
	Burns  bool // H314
}

// May says whether a bath goes into a can.
type May struct {
	Goes bool
	Why  Why
	// Pairs are what would meet and must not, the most dangerous first. Their names are the roles' words, or the bath's own.
	Pairs []meet.Pair
}

// Why is why a bath goes into a can or not, a key of the message catalogue.
type Why string

// The reasons.
const (
	ItsOwn      Why = "its_own"       // the can is for it
	NotItsOwn   Why = "not_its_own"   // the can is for another kind of bath: what is mixed nobody can take back or judge
	MustNotMeet Why = "must_not_meet" // and besides, or among baths of its own kind, something would meet that must not
	NoKind      Why = "no_kind"       // nobody knows what the bath is
)

// MayGo says whether a bath goes into a can that holds some already. Fixers of one room go together whatever their acid, as
// each comes with acid carried in (common practice); of toners each is looked at beside what is there.
func (c Can) MayGo(b Bath, in []Bath) May {
	if b.Role == process.NoRole {
		return May{Why: NoKind}
	}
	if b.Role != c.Takes {
		m := May{Why: NotItsOwn, Pairs: meeting(b, append([]Bath{{Name: c.Takes.String(), Role: c.Takes}}, in...))}
		if len(m.Pairs) > 0 {
			m.Why = MustNotMeet
		}
		return m
	}
	others := in[:0:0]
	for _, x := range in {
		if x.Role != b.Role || b.Role != process.Fixer {
			others = append(others, x)
		}
	}
	if pairs := meeting(b, others); len(pairs) > 0 {
		return May{Why: MustNotMeet, Pairs: pairs}
	}
	return May{Goes: true, Why: ItsOwn}
}

// meeting returns the pairs of a bath with others, not those of the others among themselves.
func meeting(b Bath, others []Bath) []meet.Pair {
	name := b.Name
	if name == "" {
		name = b.Role.String()
	}
	things := []meet.Thing{{Name: name, Groups: b.Groups | holds(b.Role), Burns: b.Burns}}
	for _, x := range others {
		if x.Name == "" {
			x.Name = x.Role.String()
		}
		things = append(things, meet.Thing{Name: x.Name, Groups: x.Groups | holds(x.Role), Burns: x.Burns})
	}
	var out []meet.Pair
	for _, p := range meet.NeverTogether(things, false) {
		if (p.A == name) != (p.B == name) && p.A != meet.Water && p.B != meet.Stopper {
			out = append(out, p)
		}
	}
	return out
}

// holds is what a used bath of a kind may hold; common practice, on the careful side: a developer may be a strong alkali, a
// toner a sulfide, a fixer an ammonium salt.
func holds(r process.Role) substance.Group {
	switch r {
	case process.Fixer:
		return substance.Thiosulfate | substance.Sulfite | substance.AmmoniumSalt
	case process.StopBath:
		return substance.Acid
	case process.Developer:
		return substance.StrongAlkali
	case process.WashingAid:
		return substance.Sulfite
	case process.Toner:
		return substance.Sulfide
	case process.NoRole, process.WettingAgent, process.Hardener:
	}
	return 0
}

// Fill says how full a can is, a key of the message catalogue.
type Fill string

// How full.
const (
	Empty    Fill = "empty"
	HasRoom  Fill = "has_room"
	NearFull Fill = "near_full" // less than a fifth of what it takes is left
	Full     Fill = "full"      // at its full mark: to be fetched, and nothing more goes in
	Brimful  Fill = "brimful"   // more is told of than it holds: something is wrong
	NoSize   Fill = "no_size"   // nobody said what it holds
)

// nearFull is the part of the full mark from which on a can is nearly full; a guess.
const nearFull = 0.8

// Level is how full a can is.
type Level struct {
	Fill   Fill
	Share  float64 // of the brim
	Room   float64 // litres to the full mark
	Mark   float64 // litres at the full mark
	FullAt reckoning.Figure
}

// Level says how full a can is with so many litres in it.
func (c Can) Level(litres float64) Level {
	if c.Litres <= 0 {
		return Level{Fill: NoSize, FullAt: c.fullAt()}
	}
	full := c.fullAt()
	l := Level{Share: litres / c.Litres, Mark: full.Value * c.Litres, FullAt: full}
	l.Room = max(0, l.Mark-litres)
	switch {
	case litres <= 0:
		l.Fill = Empty
	case litres > c.Litres:
		l.Fill = Brimful
	case l.Room <= 1e-9*c.Litres:
		l.Fill = Full
	case litres >= nearFull*l.Mark:
		l.Fill = NearFull
	default:
		l.Fill = HasRoom
	}
	return l
}

// A Put is something put into a can.
type Put struct {
	At     time.Time
	Litres float64
}

// A pace is told from so many puts on, over so many days at least, and looks back so many days; guesses.
const (
	leastPuts = 3
	leastDays = 14
	mostDays  = 180
)

// FullOn says on which day a can is likely to be full: as much as went in of late, day by day, goes on. ok is false where too
// little went in to tell a pace, where it is full already, or where that lies more than two years off. The first put opens the
// count, and what went in with it does not count: nobody knows in how many days it came together.
func (c Can) FullOn(litres float64, puts []Put, now time.Time) (day time.Time, r reckoning.Reckoning, ok bool) {
	l := c.Level(litres)
	if l.Fill == Full || l.Fill == Brimful || l.Fill == NoSize {
		return day, r, false
	}
	sum, n := 0.0, 0
	var first time.Time
	for _, p := range puts {
		if p.At.After(now) || now.Sub(p.At) > mostDays*24*time.Hour {
			continue
		}
		if n++; n == 1 {
			first = p.At
			continue
		}
		sum += p.Litres
	}
	days := now.Sub(first).Hours() / 24
	if n < leastPuts || days < leastDays || sum <= 0 {
		return day, r, false
	}
	pace := sum / days
	left := l.Room / pace
	if left > 2*365 {
		return day, r, false
	}
	return now.Add(time.Duration(left * 24 * float64(time.Hour))), reckoning.Reckoning{
		Rule: "can_full_on",
		Puts: []reckoning.Figure{
			{Name: "room_to_full", Value: l.Room, Unit: reckoning.L},
			{Name: "put_in_since", Value: sum, Unit: reckoning.L},
			{Name: "days_of_pace", Value: days, Unit: reckoning.D},
		},
		Result: reckoning.Figure{Name: "days_to_full", Value: left, Unit: reckoning.D, Origin: reckoning.Computed},
	}, true
}
