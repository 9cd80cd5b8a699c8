package ahead_test

import (
	"math"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/hazard/meet"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/waste"
)

func (r *room) state() *book.State {
	r.t.Helper()
	s, err := book.Fold("room", r.all)
	if err != nil || len(s.Unread()) > 0 {
		r.t.Fatal(err, s.Unread())
	}
	return s
}

func (r *room) cans(day int) []ahead.Can {
	r.t.Helper()
	all, err := ahead.Waste(r.state(), time.Time{}, firstDay.AddDate(0, 0, day))
	if err != nil {
		r.t.Fatal(err)
	}
	return all
}

func (r *room) can(day int) {
	r.at(day, -90, &book.Set{Part: book.CanPart, ID: "can", As: []byte(`{"name":"grey can","holds":"25 L","takes":"fixer"}`)})
}

// A bath brings into the can what it held when it went, whatever happens to the others afterwards: held against its own outlook
// before it went. Two baths together lie no wider apart than the sum of both, and what nobody knows is told apart.
func TestSilverInACan(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	r.can(0)
	r.mix(0, 0, "dev", "dev", "1+9", "2 L", "white", "", "")
	r.mix(0, 1, "stop", "stop", "1+19", "2 L", "red", "", "")
	r.mix(0, 2, "f1", "fix", "1+4", "2 L", "grey", "", "")
	r.work(0, 60, 60, material.RC, "dev", "stop", "f1")
	before := r.look(0, 90, material.RC, "f1").Silver
	r.at(0, 100, &book.Disposed{Bath: "f1", Leaving: book.Leaving{To: book.ToCollected, Can: "can"}})
	r.mix(0, 110, "f2", "fix", "1+4", "2 L", "grey", "", "")
	r.work(0, 120, 30, material.RC, "dev", "stop", "f2")
	r.at(0, 121, &book.Disposed{Bath: "dev", Leaving: book.Leaving{To: "drain"}})
	c := r.cans(1)[0]
	near := func(what string, got, want, within float64) {
		t.Helper()
		if math.Abs(got-want) > within*want {
			t.Errorf("%s: %.3f, want %.3f", what, got, want)
		}
	}
	near("P10", c.Silver.Grams.P10, 2*before.P10, 0.02)
	near("P50", c.Silver.Grams.P50, 2*before.P50, 0.02)
	near("P90", c.Silver.Grams.P90, 2*before.P90, 0.02)
	near("by hand: 60 sheets of 0.0516 m² at 1.0 g/m², 7 in 10 parts undeveloped, less what goes on to the wash", c.Silver.Grams.P50, 60*0.0516*0.7, 0.1)
	if c.Silver.Known != 2 || c.Silver.Unknown != 0 || c.Litres != 2 || c.Level.Fill != waste.HasRoom || c.Silver.Reckoning.Rule == "" {
		t.Errorf("the can is %+v", c)
	}

	r.mix(1, 0, "old", "fix", "1+4", "3 L", "black", "", "")
	r.at(1, 1, &book.Disposed{Bath: "f2", Leaving: book.Leaving{To: book.ToCollected, Can: "can", Volume: "1 L"}})
	one := r.cans(1)[0].Silver
	near("half of the second went in", one.Grams.P50, c.Silver.Grams.P50*(1+0.25), 0.05)
	r.at(1, 2, &book.WasteIn{Can: "can", What: "fixer", Volume: "5 L"})
	if got := r.cans(1)[0].Silver; got.Unknown != 5 || got.Grams != one.Grams {
		t.Errorf("with what nobody knows: %+v", got)
	}
	r.at(1, 3, &book.TakenAway{Can: "can", Document: "N 17"})
	got := r.cans(2)[0]
	if got.Litres != 0 || got.Silver.Grams.P50 != 0 || len(got.Fetched) != 1 {
		t.Errorf("after it was fetched: %+v", got)
	}
	for _, s := range got.Fetched {
		if s.Grams != one.Grams || s.Unknown != 5 {
			t.Errorf("what went with it: %+v, want %+v", s, one)
		}
	}
}

// What does not belong in a can is said; a bath that was there before the book, and of which no strip was read, is unknown.
func TestWrongAndUnknownInACan(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	r.can(0)
	r.at(0, 0, &book.Mixed{Bath: "old", Product: "fix", Dilution: "1+4", Volume: "2 L", Tray: "grey", Made: book.MadeUnknown})
	r.mix(0, 1, "stop", "stop", "1+19", "2 L", "red", "", "")
	r.at(0, 2, &book.Disposed{Bath: "old", Leaving: book.Leaving{To: book.ToCollected, Can: "can"}})
	if c := r.cans(1)[0]; c.Silver.Unknown != 2 || c.Silver.Known != 0 || len(c.Wrong) != 0 {
		t.Errorf("unknown fixer: %+v", c.Silver)
	}
	stop, _ := r.state().Bath("stop")
	can := ahead.CanFor(r.state(), process.Fixer)
	if may := ahead.MayGo(r.state(), &can, &stop); may.Goes || len(may.Pairs) == 0 {
		t.Errorf("a stop bath into used fixer: %+v", may)
	}
	if none := ahead.CanFor(r.state(), process.StopBath); none.ID != "" {
		t.Errorf("a can for stop bath: %+v", none)
	}
	r.at(0, 3, &book.Disposed{Bath: "stop", Leaving: book.Leaving{To: book.ToCollected, Can: "can"}})
	c := r.cans(1)[0]
	if len(c.Wrong) != 1 || c.Wrong[0].Part.Bath != "stop" || c.Wrong[0].May.Why != waste.MustNotMeet || c.Silver.Unknown != 4 {
		t.Errorf("a stop bath among fixer: %+v", c.Wrong)
	}
}

// The room's place and drain, and what its authority said, come out of the book.
func TestDrains(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	r.at(0, -50, &book.Set{Part: book.RoomPart, As: []byte(`{"name":"x","place":"home","drain":"septic"}`)})
	r.at(0, 0, &book.Answered{Place: "home", Drain: "septic", What: "stop bath", Answer: book.AuthorityNo, Office: "water office"})
	ways := map[process.Role]waste.Way{}
	for _, a := range ahead.Drains(r.state(), firstDay.AddDate(0, 0, 1)) {
		ways[a.Of] = a.Way
	}
	if ways[process.Fixer] != waste.Collect || ways[process.Developer] != waste.KeepAndAsk || ways[process.StopBath] != waste.Collect {
		t.Errorf("ways: %v", ways)
	}
}

// A year adds up: what was in it, and was put in, is what was taken and what is there; the year before ends where this begins.
func TestYearOfWaste(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	r.can(0)
	for i, day := range []int{0, 60, 100, 130} { // from 1 October 2026: the third is in 2027
		id := string(rune('a' + i))
		r.mix(day, 0, id, "fix", "1+4", "2 L", "grey", "", "")
		r.work(day, 60, 40, material.RC, id)
		r.at(day, 90, &book.Disposed{Bath: id, Leaving: book.Leaving{To: book.ToCollected, Can: "can"}})
	}
	r.at(131, 0, &book.TakenAway{Can: "can", Volume: "3 L", Document: "N 17"})
	now := firstDay.AddDate(0, 0, 140)
	last, err := ahead.YearOfWaste(r.state(), 2026, now)
	if err != nil {
		t.Fatal(err)
	}
	this, err := ahead.YearOfWaste(r.state(), 2027, now)
	if err != nil {
		t.Fatal(err)
	}
	a, b := last.Cans[0], this.Cans[0]
	if a.Began != 0 || a.Put.ML() != 4000 || a.Taken != 0 || a.End != b.Began || len(a.Rows) != 2 {
		t.Errorf("the first year: %+v", a)
	}
	if b.Put.ML() != 4000 || b.Taken.ML() != 3000 || b.End.ML() != 5000 || len(b.Rows) != 3 || b.Rows[2].Of() != process.Fixer {
		t.Errorf("the second year: began %v, put %v, taken %v, end %v", b.Began, b.Put, b.Taken, b.End)
	}
	if got := b.Rows[2].Silver; got.Known != 3 || got.Grams.P50 < 1.5 || got.Grams != this.Fetched.Grams {
		t.Errorf("3 L of 8 that hold 160 sheets' silver: %+v", got)
	}
	if got := ahead.YearsOfWaste(r.state(), now); len(got) != 2 || got[0] != 2027 {
		t.Errorf("years: %v", got)
	}
}

// What a label declares counts in a can, whatever the role: a cleaner with chlorine, called a toner, among used fixer (Chlorine
// Institute: chloramines with ammonium salts).
func TestDeclaredInACan(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	r.can(0)
	r.at(0, -80, &book.Set{Part: book.ProductPart, ID: "cleaner", As: []byte(
		`{"name":"cleaner","role":"toner","form":"liquid","dilutions":{"RC paper":"1+9"},"contains":[{"substance":"sodium hypochlorite","share":"5 %"}]}`)})
	r.mix(0, 0, "c", "cleaner", "1+9", "1 L", "white", "", "")
	b, _ := r.state().Bath("c")
	can := ahead.CanFor(r.state(), process.Fixer)
	may := ahead.MayGo(r.state(), &can, &b)
	if may.Goes || len(may.Pairs) == 0 || may.Pairs[0].Effect != meet.Chloramines {
		t.Errorf("chlorine into used fixer: %+v", may)
	}
}
