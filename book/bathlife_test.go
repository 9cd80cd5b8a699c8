package book_test

import (
	"math"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/quantity"
)

// sink returns a journal with a shelf and a room whose strips are quarters.
func sink(t *testing.T) *journal {
	t.Helper()
	j := newJournal(t)
	for _, e := range shelf() {
		if err := j.try(e); err != nil {
			t.Fatal(err)
		}
	}
	j.write(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"Ropewalk Darkroom","ounce":"us","strip":"1/4"}`)})
	return j
}

// at writes a body so many minutes after the evening's begin.
func (j *journal) at(minute int, b book.Body) string {
	j.author.Now = evening.Add(minutes(minute))
	return j.write(b)
}

func fixer(id string, place darkroom.Bath, pair string) *book.Mixed {
	return &book.Mixed{
		Bath: id, Product: "fix", Dilution: "1+4", Volume: "2 L", Tray: "grey", Place: place, Pair: pair,
	}
}

func through(n int, material string, baths ...string) *book.Worked {
	return &book.Worked{Baths: baths, Prints: book.Prints{Material: material, Size: "8x10 in", Sheets: n}}
}

func mustBath(t *testing.T, j *journal, id string) book.Bath {
	t.Helper()
	b, ok := j.state.Bath(id)
	if !ok {
		t.Fatalf("no bath %s", id)
	}
	return b
}

// TestLifeOfABath follows a fixer through an evening. 8×10 inches are 80 × 0.0254² = 0.0516128 m².
func TestLifeOfABath(t *testing.T) {
	const sheet = 80 * 0.0254 * 0.0254
	j := sink(t)
	mixed := j.at(0, fixer("fix1", darkroom.BathOne, ""))
	six := through(6, "RC paper", "dev", "stop", "fix1")
	six.Strips, six.Drain = 8, "20 s" // two sheets' worth, by the room's quarter
	load := j.at(10, six)
	guess := through(30, "RC paper", "dev", "rinse", "fix1")
	guess.Estimated, guess.How = true, "12 people, 3 h"
	j.at(20, guess)
	j.at(30, through(2, "FB paper", "dev", "stop", "fix1", "fix2"))
	j.at(31, &book.Worked{Baths: []string{"fix1"}, Prints: book.Prints{Material: "film", Size: "120", Rolls: 2}})
	test := j.at(40, &book.Tested{Bath: "fix1", Test: book.SilverStrip, Result: "1 g/L", Steps: []float64{0.5, 1, 2}})
	j.at(45, &book.ToppedUp{Bath: "fix1", With: book.WithFresh, Volume: "100 mL", Times: 2})
	back := j.at(50, &book.PouredBack{Bath: "fix1", Into: darkroom.PartBottle, Bottle: "brown one", Volume: "1.9 L"})
	out := j.at(24*60, &book.PouredOut{Bath: "fix1", Tray: "white"})

	b := mustBath(t, j, "fix1")
	if b.ID != "fix1" || b.Entry != mixed || !b.MixedAt.Equal(evening) || b.Volume.ML() != 2000 || b.Place != darkroom.BathOne || b.Gone != nil {
		t.Errorf("the bath is %+v", b)
	}
	if len(b.Events) != 8 || b.Events[0].Entry != load || b.Events[4].Entry != test || b.Events[7].Entry != out || b.Events[0].By != "p1" {
		t.Fatalf("%d events: %+v", len(b.Events), b.Events)
	}
	first, isLoad := b.Events[0].Did.(book.Load)
	if !isLoad || first.Drain != 20*time.Second || math.Abs(float64(first.Area)-8*sheet) > 1e-12 || first.Strip.Float() != 0.25 {
		t.Errorf("the first load is %+v", b.Events[0])
	}
	made := b.Events[4].Did.(book.TestMade)
	if class, err := made.Result.Class(made.Steps); err != nil || class != 2 || made.Said != "1 g/L" {
		t.Errorf("the test is %+v, class %d, %v", made, class, err)
	}
	if up := b.Events[5].Did.(book.TopUp); up.Volume != 200*quantity.Millilitre {
		t.Errorf("topped up %+v", up)
	}
	want := []struct {
		counted, guessed float64
		sheets           int
	}{{8 * sheet, 30 * sheet, 6}, {2 * sheet, 0, 2}, {2 * 0.0615 * 0.82, 0, 0}} // a 120 film of 61.5 mm × 0.82 m
	for i, w := range want {
		got := b.Totals[i]
		if math.Abs(float64(got.Counted.Area)-w.counted) > 1e-12 || math.Abs(float64(got.Estimated.Area)-w.guessed) > 1e-12 ||
			got.Counted.Sheets != w.sheets || got.Counted.Unsized != 0 {
			t.Errorf("%v: %+v, want %+v", got.Material, got, w)
		}
	}
	if d := cmp.Diff([]string{"stop", "rinse"}, b.Comes); d != "" || len(b.Goes) != 1 || b.Goes[0] != "fix2" {
		t.Errorf("comes after %q, goes to %q", b.Comes, b.Goes)
	}
	wantStood := []book.Container{
		{State: darkroom.InTray, Tray: "grey", Since: evening},
		{State: darkroom.PartBottle, Bottle: "brown one", Since: evening.Add(50 * time.Minute)},
		{State: darkroom.InTray, Tray: "white", Since: evening.Add(24 * time.Hour)},
	}
	if d := cmp.Diff(wantStood, b.Stood); d != "" || b.In() != wantStood[2] {
		t.Errorf("stood (-want +got):\n%s", d)
	}
	if len(b.Findings) != 0 {
		t.Errorf("findings %+v", b.Findings)
	}

	gone := j.at(24*60+5, &book.Disposed{Bath: "fix1", Leaving: book.Leaving{Why: "silver", To: "collected", Volume: "1.9 L"}})
	b = mustBath(t, j, "fix1")
	if b.Gone == nil || b.Gone.Entry != gone || b.Gone.Moved || b.Gone.To != "collected" || b.Gone.Volume.ML() != 1900 {
		t.Errorf("gone: %+v", b.Gone)
	}
	mustTakeBack(t, j, gone)
	mustTakeBack(t, j, out)
	mustTakeBack(t, j, back)
	if b = mustBath(t, j, "fix1"); b.Gone != nil || b.In() != wantStood[0] {
		t.Errorf("all taken back: gone %v, in %+v", b.Gone, b.In())
	}
}

// TestTwoBathFixing changes a pair three times, as reference books tell it, and makes both new.
func TestTwoBathFixing(t *testing.T) {
	j := sink(t)
	j.at(0, fixer("a", darkroom.BathFirst, ""))
	j.at(0, fixer("b", darkroom.BathSecond, "a"))
	j.at(1, through(60, "FB paper", "dev", "stop", "a", "b"))
	var moves []string
	for i, m := range [][3]string{{"a", "b", "c"}, {"b", "c", "d"}, {"c", "d", "e"}} {
		moves = append(moves, j.at(10*(i+1), &book.Moved{First: m[0], Second: m[1], Leaving: book.Leaving{To: "collected"}}))
		fresh := fixer(m[2], darkroom.BathSecond, m[1])
		if i == 1 {
			fresh.Pair = "" // nobody said; the loads do
		}
		j.at(10*(i+1)+1, fresh)
		j.at(10*(i+1)+2, through(50, "FB paper", "dev", "stop", m[1], m[2]))
	}
	p := mustBath(t, j, "d").Pair
	if p == nil || p.First != "d" || p.Second != "e" || p.Changes != 3 || !p.Since.Equal(evening) || p.Made != book.MadeThen ||
		cmp.Diff([]string{"a", "b", "c", "d", "e"}, p.Baths) != "" || p.Totals[0].Counted.Sheets != 210 || p.Totals[0].Counted.Loads != 4 {
		t.Fatalf("the pair is %+v", p)
	}
	if b := mustBath(t, j, "b"); b.Place != darkroom.BathFirst || b.Gone == nil || !b.Gone.Moved || b.Gone.Entry != moves[1] ||
		b.Gone.To != "collected" || b.Totals[0].Counted.Sheets != 110 {
		t.Errorf("b is %+v", b)
	}
	if d, e := mustBath(t, j, "d"), mustBath(t, j, "e"); d.Place != darkroom.BathFirst || d.Gone != nil || e.Place != darkroom.BathSecond || e.Gone != nil {
		t.Errorf("d is in place %q, gone %v; e in %q, gone %v", d.Place, d.Gone, e.Place, e.Gone)
	}
	wantRefused(t, j, moves[0], book.ChangedSince, "", moves[1])
	mustTakeBack(t, j, moves[2])
	if p := mustBath(t, j, "d").Pair; p.Changes != 2 || p.First != "c" || p.Second != "e" {
		t.Errorf("a change taken back: %+v", p)
	}
	j.at(60, fixer("x", darkroom.BathFirst, ""))
	j.at(60, fixer("y", darkroom.BathSecond, "x"))
	j.at(61, through(5, "FB paper", "dev", "stop", "x", "y"))
	if p := mustBath(t, j, "y").Pair; p.Changes != 0 || p.First != "x" || p.Totals[0].Counted.Sheets != 5 {
		t.Errorf("both new: %+v", p)
	}
	if alone := mustBath(t, j, "x").Pair; cmp.Diff(mustBath(t, j, "y").Pair, alone, everything) != "" {
		t.Errorf("two baths of one pair see another pair: %+v", alone)
	}
}

// TestBegunBeforeTheBook takes over a bath that nobody knows the age of.
func TestBegunBeforeTheBook(t *testing.T) {
	j := sink(t)
	m := fixer("old", darkroom.BathOne, "")
	m.Made, m.Tray, m.Into = book.MadeUnknown, "", darkroom.FloatingLid
	j.at(60, m)
	j.at(0, through(3, "RC paper", "old")) // an hour before: the bath was there, so it is not odd
	b := mustBath(t, j, "old")
	if !b.BeforeUnknown() || b.In().State != darkroom.FloatingLid || len(b.Findings) > 0 {
		t.Errorf("the bath is %+v", b)
	}
	m.Bath, m.Before = "guessed", []book.Prints{{Material: "RC paper", Size: "8x10 in", Sheets: 30, How: "the box"}}
	j.at(60, m)
	j.at(61, through(3, "RC paper", "guessed"))
	b = mustBath(t, j, "guessed")
	if b.BeforeUnknown() || b.Totals[0].Estimated.Sheets != 30 || b.Totals[0].Counted.Sheets != 3 || b.Before[0].Area <= 0 {
		t.Errorf("the guessed one is %+v", b)
	}
}

// TestOddThings records what should not have happened and says so.
func TestOddThings(t *testing.T) {
	j := sink(t)
	mixed := j.at(10, fixer("fix1", "", ""))
	early := j.at(5, through(1, "RC paper", "fix1"))
	unknown := j.at(11, through(1, "RC paper", "nowhere", "fix1"))
	much := j.at(12, &book.PouredBack{Bath: "fix1", Into: darkroom.FullBottle, Volume: "2.3 L"})
	j.at(13, &book.PouredBack{Bath: "fix1", Into: darkroom.FullBottle, Volume: "2.1 L"})
	gone := j.at(20, &book.Disposed{Bath: "fix1"})
	late := j.at(21, through(1, "RC paper", "fix1"))
	washed := j.at(30, &book.Washed{Batch: "n1", Step: book.WashDone})
	want := []book.Finding{
		{Kind: book.BeforeMixed, Subject: "fix1", Entry: early, Because: mixed, At: evening.Add(5 * time.Minute)},
		{Kind: book.UnknownBath, Subject: "nowhere", Entry: unknown, At: evening.Add(11 * time.Minute)},
		{Kind: book.MoreThanWas, Subject: "fix1", Entry: much, Because: mixed, At: evening.Add(12 * time.Minute)},
		{Kind: book.AfterGone, Subject: "fix1", Entry: late, Because: gone, At: evening.Add(21 * time.Minute)},
		{Kind: book.UnknownBatch, Subject: "n1", Entry: washed, At: evening.Add(30 * time.Minute)},
	}
	if d := cmp.Diff(want, j.state.Findings()); d != "" {
		t.Errorf("findings (-want +got):\n%s", d)
	}
	again := j.at(15, fixer("fix1", "", ""))
	b := mustBath(t, j, "fix1")
	if b.Entry != again || len(b.Events) != 6 || b.Findings[0].Kind != book.MixedTwice {
		t.Errorf("mixed twice: %+v", b)
	}
	if _, known := j.state.Bath("nowhere"); known || len(j.state.Baths()) != 1 || len(j.state.Events()) != 7 {
		t.Errorf("an unknown bath is known, or its load is lost: %d baths, %d events", len(j.state.Baths()), len(j.state.Events()))
	}
}

// TestWhatCannotBeTakenBack holds a mix under its loads, and a bath that has gone twice.
func TestWhatCannotBeTakenBack(t *testing.T) {
	j := sink(t)
	mixed := j.at(0, fixer("fix1", "", ""))
	load := j.at(1, through(1, "RC paper", "fix1"))
	wantRefused(t, j, mixed, book.BathUsedSince, "fix1", load)
	unload := mustTakeBack(t, j, load)
	unmix := mustTakeBack(t, j, mixed)
	wantRefused(t, j, unload, book.BathUsedSince, "fix1", load) // the load would go through what was never mixed
	mustTakeBack(t, j, unmix)
	mustTakeBack(t, j, unload)

	gone := j.at(2, &book.Disposed{Bath: "fix1"})
	for _, b := range []book.Body{
		&book.Disposed{Bath: "fix1"}, &book.Disposed{Bath: "never"}, &book.Moved{First: "never", Second: "fix1"},
	} {
		e, err := j.author.Write(b)
		if err != nil {
			t.Fatal(err)
		}
		refused := book.BathNotThere
		if err := j.try(e); reasonOf(asRefused(err)) != refused {
			t.Errorf("%s: got %v, want %s", e.Body, err, refused)
		}
	}
	ungone := mustTakeBack(t, j, gone)
	j.at(3, fixer("fix2", "", ""))
	moved := j.at(4, &book.Moved{First: "fix1", Second: "fix2"})
	wantRefused(t, j, ungone, book.BathNotThere, "fix1", moved) // it would go twice
	mustTakeBack(t, j, moved)
	mustTakeBack(t, j, ungone)

	strange := mustTakeBack(t, j, j.at(5, through(1, "RC paper", "strange")))
	mustTakeBack(t, j, strange) // a load through what the book never knew is no worse than when it was first said
}

// TestEachKindCanBeTakenBack writes every fact about baths there is and takes it back.
func TestEachKindCanBeTakenBack(t *testing.T) {
	for said, body := range bathBodies() {
		j := sink(t)
		for _, id := range []string{"f1", "f2", "d", "s"} {
			if m, mixes := body.(*book.Mixed); !mixes || m.Bath != id {
				j.at(0, fixer(id, "", ""))
			}
		}
		j.at(0, &book.LotReceived{Lot: "lot1", Product: "fix", As: []byte(`{"product":"rapid fixer","holds":"1 L"}`)})
		before := lookAt(j.state, nil)
		id := j.at(1, body)
		if cmp.Equal(before, lookAt(j.state, nil), everything) {
			t.Errorf("%s changes nothing", said)
		}
		undo := mustTakeBack(t, j, id)
		if d := cmp.Diff(before, lookAt(j.state, nil), everything); d != "" {
			t.Errorf("%s taken back (-before +after):\n%s", said, d)
		}
		mustTakeBack(t, j, undo)
	}
}

// TestBatches waits for a batch, washes it, puts another print in, and tests it.
func TestBatches(t *testing.T) {
	j := sink(t)
	some := func(n int) book.Prints { return book.Prints{Material: "FB paper", Size: "11x14 in", Sheets: n} }
	j.at(0, &book.Mixed{Bath: "hold", Use: book.Holding, Volume: "3 L", Tray: "blue"})
	j.at(1, &book.Held{Batch: "n1", Bath: "hold", Prints: some(3)})
	j.at(9, &book.Held{Batch: "n1", Bath: "hold", Tray: "blue", Prints: some(1)})
	j.at(20, &book.Washed{Batch: "n1", Step: book.WashStarted, Way: "running", Water: "12 °C"})
	put := some(1)
	j.at(30, &book.Washed{Batch: "n1", Step: book.WashMore, Put: &put})
	j.at(70, &book.Washed{Batch: "n1", Step: book.WashDone, Changes: 6})
	j.at(80, &book.Tested{Batch: "n1", Test: book.HypoDrop, Result: "under 0.01 g/m2"})
	all := j.state.Batches()
	if len(all) != 1 {
		t.Fatalf("%d batches, want 1", len(all))
	}
	b := all[0]
	after := func(m int) time.Time { return evening.Add(minutes(m)) }
	wash := book.Wash{Started: after(20), Clock: after(30), Ended: after(70), Done: true, Changes: 6}
	if len(b.Prints) != 3 || len(b.Events) != 6 || b.Bath != "hold" || b.Tray != "blue" || !b.Since.Equal(after(1)) || *b.Wash != wash || len(b.Findings) > 0 {
		t.Errorf("the batch is %+v, wash %+v", b, b.Wash)
	}
	if hold := mustBath(t, j, "hold"); len(hold.Events) != 2 || hold.Dilution.Chemicals != nil {
		t.Errorf("the holding bath is %+v", hold)
	}
	late := j.at(90, &book.Held{Batch: "n1", Prints: some(1)})
	j.at(95, &book.Washed{Batch: "n1", Step: book.WashStarted})
	j.at(99, &book.Washed{Batch: "n1", Step: book.WashStopped})
	b = j.state.Batches()[0]
	if wash = (book.Wash{Started: after(95), Clock: after(95), Ended: after(99)}); *b.Wash != wash || len(b.Findings) != 1 ||
		b.Findings[0].Kind != book.AfterWash || b.Findings[0].Entry != late {
		t.Errorf("washed again: %+v, %+v", b.Wash, b.Findings)
	}
}

// TestStripsWithoutTheirPart counts strips where nobody says what a strip is, and then says it.
func TestStripsWithoutTheirPart(t *testing.T) {
	j := sink(t)
	room := j.entries[len(j.entries)-1].ID
	mustTakeBack(t, j, room)
	j.at(0, fixer("fix1", "", ""))
	w := through(1, "RC paper", "fix1")
	w.Strips = 4
	j.at(1, w)
	if got := mustBath(t, j, "fix1").Totals[0].Counted; got.Unsized != 4 || got.Strips != 4 || math.Abs(float64(got.Area)-0.0516128) > 1e-12 {
		t.Errorf("the sum is %+v", got)
	}
	j.write(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"Ropewalk Darkroom","strip":"1/2"}`)})
	if got := mustBath(t, j, "fix1").Totals[0].Counted; got.Unsized != 0 || math.Abs(float64(got.Area)-3*0.0516128) > 1e-12 {
		t.Errorf("with halves the sum is %+v", got)
	}
}

// TestRemovedProducts asks for what a bath was made of after its product is gone.
func TestRemovedProducts(t *testing.T) {
	j := sink(t)
	if p, there := j.state.Product("fix"); !there || p.Name != "rapid fixer" {
		t.Errorf("the product is %q, there %v", p.Name, there)
	}
	j.write(&book.Removed{Part: book.ProductPart, ID: "fix"})
	if p, there := j.state.Product("fix"); there || p.Name != "rapid fixer" {
		t.Errorf("the removed product is %q, there %v", p.Name, there)
	}
	if p, there := j.state.Product("tea"); there || p.Name != "" {
		t.Errorf("no product is %q, there %v", p.Name, there)
	}
}
