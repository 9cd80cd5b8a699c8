package ahead_test

import (
	"math"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// Odd rooms, each with the answer of a careful printer (common practice).
func TestOddScenes(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name  string
		odd   func(b *bench, way []int)
		place int
		kind  ahead.FindingKind
		by    ahead.By
	}{
		{"now before it was made", func(b *bench, _ []int) { b.scene.Now = b.scene.Now.Add(-time.Hour) }, 2, ahead.UseFor, ahead.BySilver},
		{"a stop bath without acid is counted by no rule", func(b *bench, way []int) {
			b.scene.Baths[way[1]].Product = product(b.t, "{name: rinse, role: stop bath, form: liquid, acid: no}")
		}, 1, ahead.UseUntil, ahead.ByTrayTime},
		{"a fixer that film went through is not for paper", func(b *bench, way []int) {
			b.scene.Baths[way[2]].Film = true
		}, 2, ahead.ForFilmAlone, ahead.ByAdvice},
		{"of unknown age", func(b *bench, way []int) { b.scene.Baths[way[2]].Known = book.MadeUnknown }, 2, ahead.TestFirst, ahead.ByUnknown},
		{"of unknown age, and a strip that shows it spent", func(b *bench, way []int) {
			b.scene.Baths[way[2]].Known = book.MadeUnknown
			test(b, way[2], book.TestResult{Test: book.SilverStrip, From: 3, To: math.Inf(1)})
		}, 2, ahead.FailedTest, ahead.ByTest},
		{"a drop that failed, then one that passed: the last of its kind counts", func(b *bench, way []int) {
			test(b, way[2], book.TestResult{Test: book.SilverDrop, Verdict: book.Failed})
			test(b, way[2], book.TestResult{Test: book.SilverDrop, Verdict: book.Passed})
		}, 2, ahead.UseFor, ahead.BySilver},
		{"a strip that says spent, then a drop that passed: a drop does not prove a fixer fresh", func(b *bench, way []int) {
			test(b, way[2], book.TestResult{Test: book.SilverStrip, From: 3, To: math.Inf(1)})
			test(b, way[2], book.TestResult{Test: book.SilverDrop, Verdict: book.Passed})
		}, 2, ahead.FailedTest, ahead.ByTest},
		{"a developer that leaves paper grey in room light", func(b *bench, way []int) {
			test(b, way[0], book.TestResult{Test: book.LightTest, Verdict: book.Failed})
		}, 0, ahead.FailedTest, ahead.ByTest},
		{"a load for a spent bath is taken in", func(b *bench, way []int) { b.work(material.RC, 200, way...) }, 2, ahead.Spent, ahead.BySilver},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			b := newBench(t, 300)
			way := b.usual("1+4", 1, process.OneBath)
			b.ask(material.RC, process.Exhibition, process.OneBath, way...)
			c.odd(b, way)
			o := b.of(way[c.place])
			if o.Lead.Kind != c.kind || o.End.By != c.by {
				t.Errorf("%s by %s, %+v; want %s by %s", o.Lead.Kind, o.End.By, o.Left, c.kind, c.by)
			}
		})
	}
}

func test(b *bench, index int, r book.TestResult) {
	b.scene.Events = append(b.scene.Events, ahead.Event{At: b.scene.Now, Test: &ahead.Test{Bath: index, Result: r, Steps: strip}})
}

// A fixer without liquid makes no sense: an error, no panic.
func TestNoLiquid(t *testing.T) {
	t.Parallel()
	b := newBench(t, few)
	way := b.usual("1+4", 0, process.OneBath)
	b.ask(material.RC, process.Exhibition, process.OneBath, way...)
	if r, err := ahead.Look(b.scene); err == nil {
		t.Errorf("%+v of baths without liquid", r.Lead)
	}
}

// An empty room has nothing to tell of.
func TestEmptyRoom(t *testing.T) {
	t.Parallel()
	if r := newBench(t, few).look(); r.Lead.Kind != ahead.NothingHere || len(r.Baths) != 0 {
		t.Errorf("%+v", r.Lead)
	}
}

// A bath that is asked about by no chain still shows that a test said no, and that nobody knows its age.
func TestBesideTheChains(t *testing.T) {
	t.Parallel()
	b := newBench(t, few)
	way := b.usual("1+4", 1, process.OneBath)
	b.scene.Baths[way[0]].Known = book.MadeUnknown
	test(b, way[2], book.TestResult{Test: book.SilverDrop, Verdict: book.Failed})
	if o := b.of(way[0]); o.Lead.Kind != ahead.PourOut {
		t.Errorf("developer of unknown age: %s", o.Lead.Kind)
	}
	if o := b.of(way[2]); o.Lead.Kind != ahead.FailedTest || o.End.By != ahead.ByTest {
		t.Errorf("fixer that failed a test: %s by %s", o.Lead.Kind, o.End.By)
	}
}

// Two fixers stand there, one spent: both are told of, by different names, and the spent one is not called good because
// its day has not come.
func TestTwoOfOneRole(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	r.mix(0, 2, "old", "fix", "1+4", "1 L", "grey", "", "")
	r.work(0, 60, 60, material.RC, "old")
	r.at(0, 90, &book.PouredBack{Bath: "old", Into: darkroom.PartBottle})
	r.mix(0, 95, "new", "fix", "1+4", "1 L", "grey", "", "")
	r.at(0, 99, &book.PouredBack{Bath: "new", Into: darkroom.PartBottle})
	old, fresh := r.look(0, 100, material.RC, "old"), r.look(0, 100, material.RC, "new")
	if old.Lead.Kind != ahead.Spent || fresh.Lead.Kind != ahead.UseFor {
		t.Errorf("the old one %s, the new one %s", old.Lead.Kind, fresh.Lead.Kind)
	}
	if old.Bath.Name == fresh.Bath.Name {
		t.Errorf("both are called %q", old.Bath.Name)
	}
}

// The first fixer comes before the second, whichever was mixed first.
func TestFirstBeforeSecond(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	r.mix(0, 1, "second", "fix", "1+4", "2 L", "black", darkroom.BathSecond, "")
	r.mix(0, 2, "first", "fix", "1+4", "2 L", "grey", darkroom.BathFirst, "second")
	s, err := book.Fold("room", r.all)
	if err != nil {
		t.Fatal(err)
	}
	report, err := ahead.Look(ahead.FromBook(s, material.FB, firstDay.Add(time.Hour)))
	if err != nil {
		t.Fatal(err)
	}
	if len(report.Baths) != 2 || report.Baths[0].Bath.ID != "first" || report.Baths[1].Bath.Place != bath.Second {
		t.Errorf("%d baths, %s leads them", len(report.Baths), report.Baths[0].Bath.ID)
	}
}

// A strip that shows more silver than was thought lowers the count, one that shows less raises it, and either makes the
// room's own coating better known.
func TestStripMoves(t *testing.T) {
	t.Parallel()
	after := func(r *book.TestResult) (ahead.Outlook, []ahead.Learned) {
		b := newBench(t, 4000)
		way := b.usual("1+4", 1, process.OneBath)
		b.ask(material.RC, process.WorkPrint, process.OneBath, way...)
		b.work(material.RC, 35, way...)
		if r != nil {
			test(b, way[2], *r)
		}
		return b.of(way[2]), b.look().Learned
	}
	none, taught := after(nil)
	if len(taught) != 0 {
		t.Errorf("learned %d without a test", len(taught))
	}
	less, low := after(&book.TestResult{Test: book.SilverStrip, From: 0.5, To: 1})
	more, high := after(&book.TestResult{Test: book.SilverStrip, From: 1.5, To: 2})
	if less.Silver.P50 >= none.Silver.P50 || more.Silver.P50 <= none.Silver.P50 {
		t.Errorf("silver %.2f by a low strip, %.2f untested, %.2f by a high one", less.Silver.P50, none.Silver.P50, more.Silver.P50)
	}
	if less.Left.P50 <= none.Left.P50 || more.Left.P50 >= none.Left.P50 {
		t.Errorf("left %d, %d, %d", less.Left.P50, none.Left.P50, more.Left.P50)
	}
	for _, x := range [][]ahead.Learned{low, high} {
		if len(x) != 1 || x[0].SilverNow.P90/x[0].SilverNow.P10 >= x[0].SilverBefore.P90/x[0].SilverBefore.P10 {
			t.Errorf("learned %+v; want a narrower span of silver", x)
		}
	}
}
