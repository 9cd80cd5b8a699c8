package ahead_test

import (
	"fmt"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
)

// A room is a book that is written day by day.
type room struct {
	t      *testing.T
	head   book.Head
	author book.Author
	all    []book.Entry
}

var firstDay = time.Date(2026, time.October, 1, 18, 0, 0, 0, time.UTC)

// newRoom sets up a room with usual products: rapid fixer 1+4, an acid stop bath 1+19, paper developer 1+9.
func newRoom(t *testing.T, as string) *room {
	t.Helper()
	n := 0
	r := &room{t: t, head: book.Head{Darkroom: "room"}, author: book.Author{Device: "test", NewID: func() string { n++; return fmt.Sprintf("e%04d", n) }}}
	set := func(part book.Part, id, as string) { r.at(0, 0, &book.Set{Part: part, ID: id, As: []byte(as)}) }
	set(book.RoomPart, "", as)
	set(book.TrayPart, "white", `{"name":"white","for":"developer","inside":"38 x 30 cm"}`)
	set(book.TrayPart, "red", `{"name":"red","for":"stop bath","inside":"38 x 30 cm"}`)
	set(book.TrayPart, "grey", `{"name":"grey","for":"fixer","inside":"38 x 30 cm"}`)
	set(book.TrayPart, "black", `{"name":"black","for":"fixer","inside":"38 x 30 cm"}`)
	set(book.ProductPart, "dev", `{"name":"paper developer","role":"developer","form":"liquid","dilutions":{"RC paper":"1+9","FB paper":"1+9"},"keeps":{"tray":"24 h"}}`)
	set(book.ProductPart, "stop", `{"name":"print stop","role":"stop bath","form":"liquid","acid":true,"dilutions":{"RC paper":"1+19","FB paper":"1+19"},"keeps":{"tray":"3 days"}}`)
	set(book.ProductPart, "fix", `{"name":"rapid fixer","role":"fixer","form":"liquid","dilutions":{"RC paper":"1+4","FB paper":"1+4"},`+
		`"capacity":{"RC paper":"80 8x10 in per L","FB paper":"40 8x10 in per L"},"keeps":{"tray":"7 days","part bottle":"1 month","full bottle":"2 months"}}`)
	return r
}

// at writes what happened on a day, so many minutes after six in the evening.
func (r *room) at(day, minute int, b book.Body) {
	r.t.Helper()
	r.author.Now = firstDay.AddDate(0, 0, day).Add(time.Duration(minute) * time.Minute)
	e, err := r.author.Write(b)
	if err != nil {
		r.t.Fatal(err)
	}
	e.RecordedAt = e.HappenedAt
	e, r.head = r.head.Place(e)
	r.all = append(r.all, e)
}

// mix makes a bath of a product.
func (r *room) mix(day, minute int, id, product, dilution, volume, tray string, place darkroom.Bath, pair string) {
	r.at(day, minute, &book.Mixed{Bath: id, Product: product, Dilution: dilution, Volume: volume, Tray: tray, Place: place, Pair: pair})
}

// work lets sheets of 8×10 through baths.
func (r *room) work(day, minute, sheets int, m material.Material, baths ...string) {
	r.at(day, minute, &book.Worked{Baths: baths, Prints: book.Prints{Material: m.String(), Size: "8x10 in", Sheets: sheets}})
}

// look asks what is coming on a day, and finds a bath by the book's id.
func (r *room) look(day, minute int, m material.Material, id string) ahead.Outlook {
	r.t.Helper()
	s, err := book.Fold("room", r.all)
	if err != nil {
		r.t.Fatal(err)
	}
	if u := s.Unread(); len(u) > 0 {
		r.t.Fatalf("unread: %+v", u)
	}
	now := firstDay.AddDate(0, 0, day).Add(time.Duration(minute) * time.Minute)
	report, err := ahead.Look(ahead.FromBook(s, m, now))
	if err != nil {
		r.t.Fatal(err)
	}
	for _, o := range report.Baths {
		if o.Bath.ID == id {
			return o
		}
	}
	r.t.Fatalf("no bath %s among %d", id, len(report.Baths))
	return ahead.Outlook{}
}

// says holds an outlook against what a careful printer would say.
func (r *room) says(o ahead.Outlook, kind ahead.FindingKind, by ahead.By, safe, likely int) {
	r.t.Helper()
	if o.Lead.Kind != kind || o.End.By != by {
		r.t.Errorf("%s: %s, ended by %s; want %s, %s", o.Bath.Name, o.Lead.Kind, o.End.By, kind, by)
	}
	if o.Left == nil {
		if safe >= 0 {
			r.t.Errorf("%s: nothing is counted, want %d", o.Bath.Name, safe)
		}
		return
	}
	if abs(o.Left.P10-safe) > 1 || abs(o.Left.P50-likely) > 1 {
		r.t.Errorf("%s: %d safe, %d likely; want %d, %d", o.Bath.Name, o.Left.P10, o.Left.P50, safe, likely)
	}
}

func abs(n int) int { return max(n, -n) }

const homeRoom = `{"name":"Cupboard","place":"home","ounce":"us","standards":{"RC paper":{"standard":"exhibition","fixing":"one bath"},` +
	`"FB paper":{"standard":"exhibition","fixing":"one bath"}}}`

// The home worker: a litre of fixer, 18 sheets of RC an evening, a fortnight apart, a part-full bottle between. The count
// says 35 for safe and about 47 likely; printed rules say 50 a litre. On the third evening, four weeks and more after the
// mix, the bottle's month is over: the date ends it, not the count (common practice; keeping after RF-pl).
func TestHomeWorker(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	evening := func(day int) {
		r.mix(day, 0, fmt.Sprint("dev", day), "dev", "1+9", "1 L", "white", "", "")
		r.mix(day, 1, fmt.Sprint("stop", day), "stop", "1+19", "1 L", "red", "", "")
	}
	evening(0)
	r.mix(0, 2, "fix1", "fix", "1+4", "1 L", "grey", "", "")
	r.says(r.look(0, 5, material.RC, "fix1"), ahead.UseFor, ahead.BySilver, 35, 47)
	r.work(0, 60, 18, material.RC, "dev0", "stop0", "fix1")
	r.says(r.look(0, 120, material.RC, "fix1"), ahead.UseFor, ahead.BySilver, 17, 29)
	for _, gone := range []string{"dev0", "stop0"} {
		r.at(0, 180, &book.Disposed{Bath: gone})
	}
	r.at(0, 181, &book.PouredBack{Bath: "fix1", Into: darkroom.PartBottle})

	evening(14)
	r.at(14, 2, &book.PouredOut{Bath: "fix1", Tray: "grey"})
	o := r.look(14, 5, material.RC, "fix1")
	if o.Lead.Kind != ahead.UseFor || abs(o.Left.P10-17) > 1 {
		t.Errorf("second evening: %s, %+v; want 17 safe", o.Lead.Kind, o.Left)
	}
	r.work(14, 60, 18, material.RC, "dev14", "stop14", "fix1")
	o = r.look(14, 120, material.RC, "fix1")
	r.says(o, ahead.AtSafeEnd, ahead.BySilver, 0, 11)
	holds(t, voice(t).Outlook(o).Text(), "Test it before the next sheet, with the silver strip", "exhibition", "probably lasts 11 more")
	// The strip lies across the limit of 1.8: it does not settle it, and the safe end stands.
	r.at(14, 125, &book.Tested{Bath: "fix1", Test: book.SilverStrip, Result: "1.5 g/L", Steps: []float64{0.5, 1, 1.5, 2, 3}})
	r.says(r.look(14, 126, material.RC, "fix1"), ahead.Spent, ahead.BySilver, 0, 0)
}

// The same home worker with half as much work: the date comes first.
func TestTheDateEndsIt(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	r.mix(0, 0, "dev0", "dev", "1+9", "1 L", "white", "", "")
	r.mix(0, 1, "stop0", "stop", "1+19", "1 L", "red", "", "")
	r.mix(0, 2, "fix1", "fix", "1+4", "1 L", "grey", "", "")
	r.work(0, 60, 9, material.RC, "dev0", "stop0", "fix1")
	r.at(0, 181, &book.PouredBack{Bath: "fix1", Into: darkroom.PartBottle})
	o := r.look(29, 0, material.RC, "fix1")
	if o.End.By != ahead.ByKeeping || o.Left == nil || o.Left.P10 == 0 {
		t.Errorf("a month nearly over: %s, %+v, want its time to end it with sheets left", o.End.By, o.Left)
	}
	r.says(r.look(33, 0, material.RC, "fix1"), ahead.PastDate, ahead.ByKeeping, 0, 0)
}

// Fibre prints in one bath of a litre: six for safe; spent during the first evening (10 a litre is printed).
func TestHomeWorkerOnFibre(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	r.mix(0, 0, "dev0", "dev", "1+9", "1 L", "white", "", "")
	r.mix(0, 1, "stop0", "stop", "1+19", "1 L", "red", "", "")
	r.mix(0, 2, "fix1", "fix", "1+4", "1 L", "grey", "", "")
	r.says(r.look(0, 5, material.FB, "fix1"), ahead.UseFor, ahead.BySilver, 6, 8)
	r.work(0, 60, 10, material.FB, "dev0", "stop0", "fix1")
	r.says(r.look(0, 90, material.FB, "fix1"), ahead.Spent, ahead.BySilver, 0, 0)
}

const clubRoom = `{"name":"Arches","place":"community","ounce":"us","standards":{"FB paper":{"standard":"exhibition","fixing":"two baths"},` +
	`"RC paper":{"standard":"exhibition","fixing":"two baths"}}}`

// The keyholder: two fixers of 2 L, slots of 40 fibre sheets. The first is safe for 48; after one slot 8 are left. Moved
// forward, the second brings the silver it holds, so that the next change comes sooner; after three changes both are new
// (Anchell, p. 107).
func TestKeyholder(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	r.mix(0, 0, "dev", "dev", "1+9", "2 L", "white", "", "")
	r.mix(0, 1, "stop", "stop", "1+19", "2 L", "red", "", "")
	r.mix(0, 2, "f1", "fix", "1+4", "2 L", "grey", darkroom.BathFirst, "")
	r.mix(0, 3, "f2", "fix", "1+4", "2 L", "black", darkroom.BathSecond, "f1")
	r.says(r.look(0, 5, material.FB, "f1"), ahead.UseFor, ahead.BySilver, 48, 64)
	r.work(0, 60, 40, material.FB, "dev", "stop", "f1", "f2")
	r.says(r.look(0, 90, material.FB, "f1"), ahead.UseFor, ahead.BySilver, 8, 24)

	r.work(1, 0, 8, material.FB, "dev", "stop", "f1", "f2")
	r.at(1, 30, &book.Moved{First: "f1", Second: "f2", Leaving: book.Leaving{To: "collected"}})
	r.mix(1, 31, "f3", "fix", "1+4", "2 L", "grey", darkroom.BathSecond, "f2")
	o := r.look(1, 40, material.FB, "f2")
	if o.Bath.Name != "fixer 1" || o.Left == nil || o.Left.P10 >= 48 || o.Left.P10 < 35 {
		t.Errorf("moved forward: %s, %+v; want fewer than a fresh 48", o.Bath.Name, o.Left)
	}
	if o.Silver.P50 < 0.08 {
		t.Errorf("moved forward with %.2f g/L: it brings what it took as the second", o.Silver.P50)
	}
	before := o.Left.P10
	for i, next := range []string{"f4", "f5"} {
		first, second := []string{"f2", "f3"}[i], []string{"f3", "f4"}[i]
		r.work(2+i, 0, before, material.FB, "dev", "stop", first, second)
		r.at(2+i, 30, &book.Moved{First: first, Second: second, Leaving: book.Leaving{To: "collected"}})
		r.mix(2+i, 31, next, "fix", "1+4", "2 L", "grey", darkroom.BathSecond, second)
	}
	o = r.look(3, 60, material.FB, "f4")
	if o.Bath.Changes != 3 || !has(o, ahead.BothNew) {
		t.Errorf("after %d changes: %+v; want both made new", o.Bath.Changes, o.More)
	}
}

func has(o ahead.Outlook, k ahead.FindingKind) bool {
	for _, f := range o.More {
		if f.Kind == k {
			return true
		}
	}
	return false
}

// The teacher: lessons of 36 RC sheets, 2 L of fixer in one bath. 70 are safe, so the second lesson ends it, where the
// printed 53 a litre would see it through nearly three (Navy 14209, p. 249): the exhibition standard is stricter, and the
// label's 160 is named beside it. As work prints it does three.
func TestTeacher(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		standard     process.Standard
		safe, likely int
	}{{process.Exhibition, 70, 95}, {process.WorkPrint, 114, 154}} {
		r := newRoom(t, fmt.Sprintf(`{"name":"Room 12","place":"school","ounce":"us","standards":{"RC paper":{"standard":%q,"fixing":"one bath"}}}`, c.standard))
		r.mix(0, 0, "dev", "dev", "1+9", "2 L", "white", "", "")
		r.mix(0, 1, "stop", "stop", "1+19", "2 L", "red", "", "")
		r.mix(0, 2, "fix1", "fix", "1+4", "2 L", "grey", "", "")
		o := r.look(0, 5, material.RC, "fix1")
		r.says(o, ahead.UseFor, ahead.BySilver, c.safe, c.likely)
		if o.Label == nil || *o.Label != 160 {
			t.Errorf("the label's count %v, want 160 beside it", o.Label)
		}
		r.work(1, 0, 36, material.RC, "dev", "stop", "fix1")
		r.says(r.look(1, 60, material.RC, "fix1"), ahead.UseFor, ahead.BySilver, c.safe-36, c.likely-36)
	}
}

// A developer that nobody knows since when it stands is poured out; only a fixer is worth a test, and a strip that can tell
// its limit settles it.
func TestUnknownAge(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	r.at(0, 0, &book.Mixed{Bath: "d", Product: "dev", Dilution: "1+9", Volume: "1 L", Tray: "white", Made: book.MadeUnknown})
	r.at(0, 1, &book.Mixed{Bath: "f", Product: "fix", Dilution: "1+4", Volume: "1 L", Tray: "grey", Made: book.MadeUnknown})
	r.says(r.look(0, 5, material.RC, "d"), ahead.PourOut, ahead.ByUnknown, -1, 0)
	r.says(r.look(0, 5, material.RC, "f"), ahead.TestFirst, ahead.ByUnknown, -1, 0)
	r.at(0, 9, &book.Tested{Bath: "f", Test: book.SilverStrip, Result: "0.5 g/L", Steps: []float64{0.5, 1, 1.5, 2, 3}})
	o := r.look(0, 10, material.RC, "f")
	if o.Lead.Kind != ahead.UseFor || o.Left == nil || o.Left.P10 <= 0 || o.Left.P10 >= 35 {
		t.Errorf("after a strip at 0.5: %s, %+v; want some, fewer than a fresh 35", o.Lead.Kind, o.Left)
	}
	r.at(0, 11, &book.Tested{Bath: "f", Test: book.SilverStrip, Result: "2 g/L", Steps: []float64{0.5, 1, 1.5, 2, 3}})
	r.says(r.look(0, 12, material.RC, "f"), ahead.FailedTest, ahead.ByTest, 0, 0)
}

// Odd rooms have an answer: a load for a bath that is gone or spent, one from before its bath, a bath that was never
// mixed, a material that no label knows, guesses.
func TestOddRooms(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	r.mix(0, 2, "fix1", "fix", "1+4", "1 L", "grey", "", "")
	r.work(-1, 0, 2, material.RC, "fix1")
	r.at(0, 10, &book.Worked{Baths: []string{"never", "fix1"}, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 5, Estimated: true}})
	o := r.look(0, 20, material.RC, "fix1")
	if !has(o, ahead.BeforeItWasMade) || !has(o, ahead.Guessed) || o.Done < 6.9 || o.Done > 7.1 {
		t.Errorf("done %.1f, %+v; want seven, five of them guessed, two from before it was made", o.Done, o.More)
	}
	r.work(0, 30, 60, material.RC, "fix1")
	if o = r.look(0, 40, material.RC, "fix1"); o.Lead.Kind != ahead.Spent || o.Left.P90 != 0 {
		t.Errorf("sixty more: %s, %+v", o.Lead.Kind, o.Left)
	}
	r.at(0, 50, &book.Disposed{Bath: "fix1", Leaving: book.Leaving{To: "collected"}})
	r.work(0, 60, 1, material.RC, "fix1") // recorded; nothing stands there to be told of
	r.mix(0, 70, "fix2", "fix", "1+4", "1 L", "grey", "", "")
	if o = r.look(0, 80, material.RC, "fix2"); o.Lead.Kind != ahead.UseFor || abs(o.Left.P10-35) > 1 {
		t.Errorf("a fresh one: %s, %+v", o.Lead.Kind, o.Left)
	}
}
