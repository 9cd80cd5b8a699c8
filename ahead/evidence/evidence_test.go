package evidence_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/ahead/evidence"
	"wetside/book"
	"wetside/trade/fault"
	"wetside/trade/material"
)

var six = time.Date(2026, time.December, 3, 18, 0, 0, 0, time.UTC)

// A room is a book that is written, minutes after six.
type room struct {
	t      *testing.T
	author book.Author
	head   book.Head
	all    []book.Entry
}

func (r *room) at(minute int, by string, b book.Body) {
	r.t.Helper()
	r.author.Now, r.author.By = six.Add(time.Duration(minute)*time.Minute), by
	e, err := r.author.Write(b)
	if err != nil {
		r.t.Fatal(err)
	}
	e.RecordedAt = e.HappenedAt
	e, r.head = r.head.Place(e)
	r.all = append(r.all, e)
}

func newRoom(t *testing.T) *room {
	t.Helper()
	n := 0
	r := &room{t: t, head: book.Head{Darkroom: "room"}, author: book.Author{Device: "d", NewID: func() string { n++; return fmt.Sprintf("e%04d", n) }}}
	for _, x := range []struct{ part, id, as string }{
		{"room", "", `{"name":"Probe","standards":{"RC paper":{"standard":"exhibition","fixing":"one bath"},"FB paper":{"standard":"exhibition","fixing":"one bath"}}}`},
		{"tray", "white", `{"name":"white","for":"developer","inside":"38 x 30 cm"}`},
		{"tray", "red", `{"name":"red","for":"stop bath","inside":"38 x 30 cm"}`},
		{"tray", "grey", `{"name":"grey","for":"fixer","inside":"38 x 30 cm"}`},
		{"tank", "small", `{"name":"small","covers":{"135":["300 mL","500 mL"]}}`},
		{"product", "dev", `{"name":"paper developer","role":"developer","form":"liquid","dilutions":{"RC paper":"1+9","FB paper":"1+9"},"keeps":{"tray":"24 h"},"capacity":{"RC paper":"30 8x10 in per L"}}`},
		{"product", "filmdev", `{"name":"film developer","role":"developer","form":"liquid","dilutions":{"film":"1+50"},"temperature":"24 °C","least_per_roll":"6 mL"}`},
		{"product", "stop", `{"name":"print stop","role":"stop bath","form":"liquid","acid":true,"dilutions":{"RC paper":"1+19"}}`},
		{"product", "fix", `{"name":"rapid fixer","role":"fixer","form":"liquid","dilutions":{"RC paper":"1+4","FB paper":"1+4"},"keeps":{"tray":"7 days"}}`},
		{"product", "aid", `{"name":"aid","role":"washing aid","form":"liquid","dilutions":{"FB paper":"1+9"},"keeps":{"tray":"24 h"}}`},
	} {
		r.at(-9000, "", &book.Set{Part: book.Part(x.part), ID: x.id, As: []byte(x.as)})
	}
	return r
}

func mix(id, product, dilution, tray string) *book.Mixed {
	return &book.Mixed{Bath: id, Product: product, Dilution: dilution, Volume: "1 L", Tray: tray}
}

// usual mixes three baths at six.
func (r *room) usual() {
	r.at(0, "old", mix("dev", "dev", "1+9", "white"))
	r.at(1, "old", mix("stop", "stop", "1+19", "red"))
	r.at(2, "old", mix("fix", "fix", "1+4", "grey"))
}

func (r *room) facts(minute int) []fault.Fact {
	r.t.Helper()
	s, err := book.Fold("room", r.all)
	if err != nil || len(s.Unread()) > 0 {
		r.t.Fatal(err, s.Unread())
	}
	scene := ahead.FromBook(s, material.None, six.Add(time.Duration(minute)*time.Minute))
	scene.Draws = 200
	report, err := ahead.Look(scene)
	if err != nil {
		r.t.Fatal(err)
	}
	return evidence.Of(s, &report)
}

func load(n int, m string, baths ...string) *book.Worked {
	p := book.Prints{Material: m, Size: "8x10 in", Sheets: n}
	if m == "film" {
		p.Sheets, p.Rolls, p.Size = 0, n, "135-36"
	}
	return &book.Worked{Baths: baths, Prints: p}
}

func test(bath string, t book.Test, result string) *book.Tested {
	return &book.Tested{Bath: bath, Test: t, Result: result}
}

// moved is a print's way: so many seconds in each of its places, each planned for a minute; the next begins where it ends.
func (r *room) moved(minute int, id string, secs ...int) {
	at := time.Duration(0)
	places := []book.At{{Step: "develop", Bath: "dev"}, {Step: "stop", Bath: "stop"}, {Step: "fix", Bath: "fix"}, {Step: "hold"}}
	for i := range min(len(secs)+1, len(places)) {
		places[i].For = "60 s"
		var b book.Body = &book.PrintMoved{Print: id, At: places[i]}
		if i == 0 {
			b = &book.PrintStarted{Print: id, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1}, At: places[i]}
		}
		r.author.Now = six.Add(time.Duration(minute)*time.Minute + at)
		e, err := r.author.Write(b)
		if err != nil {
			r.t.Fatal(err)
		}
		e.RecordedAt = e.HappenedAt
		e, r.head = r.head.Place(e)
		r.all = append(r.all, e)
		if i < len(secs) {
			at += time.Duration(secs[i]) * time.Second
		}
	}
}

// Each line of a book that bears on something, and the fact that is made of it.
func TestWhatABookSays(t *testing.T) {
	t.Parallel()
	for name, tt := range map[string]struct {
		do   func(r *room)
		at   int // minutes after six
		want fault.FactKind
		not  []fault.FactKind
	}{
		"cold":           {func(r *room) { r.at(5, "", test("dev", book.Thermometer, "15 °C")) }, 10, fault.DeveloperReadCold, []fault.FactKind{fault.DeveloperReadRight}},
		"warm":           {func(r *room) { r.at(5, "", test("dev", book.Thermometer, "26 °C")) }, 10, fault.DeveloperReadWarm, nil},
		"right":          {func(r *room) { r.at(5, "", test("dev", book.Thermometer, "20.5 °C")) }, 10, fault.DeveloperReadRight, []fault.FactKind{fault.DeveloperReadCold}},
		"read lately":    {func(r *room) { r.at(5, "", test("dev", book.Thermometer, "15 °C")) }, 900, "", []fault.FactKind{fault.DeveloperReadCold}},
		"fresh":          {func(*room) {}, 30, fault.DeveloperFresh, []fault.FactKind{fault.DeveloperPast, fault.NewHand}},
		"past":           {func(*room) {}, 60 * 30, fault.DeveloperPast, []fault.FactKind{fault.DeveloperFresh}},
		"pale strip":     {func(r *room) { r.at(5, "", test("dev", book.LightTest, "failed")) }, 10, fault.DeveloperStripPale, nil},
		"dark strip":     {func(r *room) { r.at(5, "", test("dev", book.LightTest, "passed")) }, 10, fault.DeveloperStripDark, nil},
		"over its count": {func(r *room) { r.at(60, "", load(40, "RC paper", "dev", "stop", "fix")) }, 90, fault.DeveloperOverCount, nil},
		"a developer that nobody knows": {func(r *room) {
			m := mix("who", "dev", "1+9", "white")
			m.Made = book.MadeUnknown
			r.at(5, "", m)
		}, 10, fault.DeveloperAgeUnknown, nil},
		"thin":               {func(r *room) { r.at(5, "old", mix("thin", "dev", "1+14", "white")) }, 10, fault.DeveloperThin, nil},
		"strong":             {func(r *room) { r.at(5, "old", mix("strong", "dev", "1+4", "white")) }, 10, fault.DeveloperStrongMix, nil},
		"a strong stop bath": {func(r *room) { r.at(5, "old", mix("strong", "stop", "1+9", "red")) }, 10, fault.StopStrongMix, nil},
		"a thin fixer":       {func(r *room) { r.at(5, "old", mix("thin", "fix", "1+9", "grey")) }, 10, fault.FixerThin, nil},
		"mixed as it should": {func(*room) {}, 10, "", []fault.FactKind{fault.DeveloperThin, fault.DeveloperStrongMix, fault.StopStrongMix, fault.FixerThin}},
		"a new hand":         {func(r *room) { r.at(1000, "new", mix("dev2", "dev", "1+9", "white")) }, 1060, fault.NewHand, nil},
		"the same hand":      {func(r *room) { r.at(1000, "old", mix("dev2", "dev", "1+9", "white")) }, 1060, "", []fault.FactKind{fault.NewHand}},
		"a stop bath turned": {func(r *room) { r.at(5, "", test("stop", book.IndicatorTest, "turned")) }, 10, fault.StopSpentNow, []fault.FactKind{fault.NoStopStands}},
		"a stop bath that nobody knows": {func(r *room) {
			m := mix("who", "stop", "1+19", "red")
			m.Made = book.MadeUnknown
			r.at(5, "", m)
		}, 10, fault.StopAgeUnknown, nil},
		"a stop bath near its end": {func(r *room) {
			r.at(5, "", load(26, "FB paper", "dev", "stop"))
		}, 10, fault.StopNearly, []fault.FactKind{fault.StopSpentNow}},
		"a low tray":           {func(r *room) { r.at(60, "", load(14, "FB paper", "dev", "stop", "fix")) }, 90, fault.LevelLow, nil},
		"no stop bath":         {func(r *room) { r.at(5, "", &book.Disposed{Bath: "stop"}) }, 10, fault.NoStopStands, nil},
		"a fixer that failed":  {func(r *room) { r.at(5, "", test("fix", book.DropTest, "failed")) }, 10, fault.FixerFailed, []fault.FactKind{fault.FixerFresh, fault.FixerPassed}},
		"a fixer that passed":  {func(r *room) { r.at(5, "", test("fix", book.DropTest, "passed")) }, 10, fault.FixerPassed, []fault.FactKind{fault.FixerFailed}},
		"a spent fixer":        {func(r *room) { r.at(60, "", load(120, "RC paper", "dev", "stop", "fix")) }, 90, fault.FixerSpentNow, nil},
		"a fixer near its end": {func(r *room) { r.at(60, "", load(34, "RC paper", "dev", "stop", "fix")) }, 90, fault.FixerNearly, []fault.FactKind{fault.FixerSpentNow}},
		"an old fixer":         {func(*room) {}, 60 * 24 * 8, fault.FixerPast, nil},
		"a fixer that nobody knows": {func(r *room) {
			m := mix("who", "fix", "1+4", "grey")
			m.Made = book.MadeUnknown
			r.at(5, "", m)
		}, 10, fault.FixerAgeUnknown, nil},
		"a warm fixer":   {func(r *room) { r.at(5, "", test("fix", book.Thermometer, "29 °C")) }, 10, fault.FixerReadWarm, nil},
		"film and paper": {func(r *room) { r.at(5, "", load(2, "film", "fix")); r.at(6, "", load(2, "RC paper", "fix")) }, 10, fault.FixerForBoth, nil},
		"nobody counted": {func(r *room) {
			l := load(12, "RC paper", "dev", "stop", "fix")
			l.Estimated, l.How = true, "4 people"
			r.at(5, "", l)
		}, 10, fault.Unlogged, nil},
		"baths apart": {func(r *room) {
			r.at(5, "", test("dev", book.Thermometer, "24 °C"))
			r.at(6, "", test("fix", book.Thermometer, "18 °C"))
		}, 10, fault.BathsApart, nil},
		"baths together": {func(r *room) {
			r.at(5, "", test("dev", book.Thermometer, "21 °C"))
			r.at(6, "", test("fix", book.Thermometer, "19 °C"))
		}, 10, "", []fault.FactKind{fault.BathsApart}},
		"pulled early":           {func(r *room) { r.moved(5, "p", 20, 60, 60) }, 30, fault.LeftEarly, []fault.FactKind{fault.LeftFixEarly}},
		"out of the fixer early": {func(r *room) { r.moved(5, "p", 60, 60, 15) }, 30, fault.LeftFixEarly, []fault.FactKind{fault.LeftEarly}},
		"long in the fixer":      {func(r *room) { r.moved(5, "p", 60, 60, 1500) }, 60, fault.LayLongInFix, []fault.FactKind{fault.LeftFixEarly}},
		"a print by the clock":   {func(r *room) { r.moved(5, "p", 60, 60, 60) }, 30, "", []fault.FactKind{fault.LeftEarly, fault.LeftFixEarly, fault.LayLongInFix, fault.LoadsStacked}},
		"stacked": {func(r *room) {
			for i := range 8 {
				r.moved(5, fmt.Sprint("p", i), 60, 60, 300)
			}
		}, 30, fault.LoadsStacked, nil},
		"fibre and no aid": {func(r *room) { r.at(5, "", load(2, "FB paper", "dev", "stop", "fix")) }, 10, fault.NoAidStands, nil},
		"fibre and an aid": {func(r *room) {
			r.at(4, "", mix("aid", "aid", "1+9", ""))
			r.at(5, "", load(2, "FB paper", "dev", "stop", "fix"))
		}, 10, "", []fault.FactKind{fault.NoAidStands, fault.AidSpent}},
		"an old aid":       {func(r *room) { r.at(4, "", mix("aid", "aid", "1+9", "black")) }, 60 * 40, fault.AidSpent, nil},
		"a wash cut short": {func(r *room) { r.washed(); r.at(20, "", &book.Washed{Batch: "b", Step: book.WashStopped}) }, 30, fault.WashCutShort, nil},
		"a wash done":      {func(r *room) { r.washed(); r.at(20, "", &book.Washed{Batch: "b", Step: book.WashDone}) }, 30, "", []fault.FactKind{fault.WashCutShort, fault.LongInWash}},
		"long in the wash": {func(r *room) { r.washed(); r.at(90, "", &book.Washed{Batch: "b", Step: book.WashDone}) }, 100, fault.LongInWash, nil},
		"warm water": {func(r *room) {
			r.at(9, "", &book.Held{Batch: "b", Prints: one()})
			r.at(10, "", &book.Washed{Batch: "b", Step: book.WashStarted, Water: "31 °C"})
		}, 20, fault.WaterReadWarm, nil},
		"a wash test failed": {func(r *room) {
			r.washed()
			r.at(30, "", &book.Tested{Batch: "b", Test: book.HypoDrop, Result: "failed"})
		}, 40, fault.WashFailed, []fault.FactKind{fault.WashPassed}},
		"and then passed": {func(r *room) {
			r.washed()
			r.at(30, "", &book.Tested{Batch: "b", Test: book.HypoDrop, Result: "failed"})
			r.at(35, "", &book.Tested{Batch: "b", Test: book.HypoDrop, Result: "passed"})
		}, 40, fault.WashPassed, []fault.FactKind{fault.WashFailed}},
		"a silver test failed": {func(r *room) {
			r.washed()
			r.at(30, "", &book.Tested{Batch: "b", Test: book.SilverDrop, Result: "failed"})
		}, 40, fault.SilverFailed, nil},
		"little for two rolls": {func(r *room) {
			r.at(5, "old", &book.Mixed{Bath: "f", Product: "filmdev", Dilution: "1+50", Volume: "500 mL", Tank: "small"})
			r.at(8, "", load(2, "film", "f"))
		}, 20, fault.LittlePerRoll, nil},
		"enough for one": {func(r *room) {
			r.at(5, "old", &book.Mixed{Bath: "f", Product: "filmdev", Dilution: "1+50", Volume: "500 mL", Tank: "small"})
			r.at(8, "", load(1, "film", "f"))
		}, 20, "", []fault.FactKind{fault.LittlePerRoll}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := newRoom(t)
			r.usual()
			tt.do(r)
			got := r.facts(tt.at)
			has := func(k fault.FactKind) bool {
				return slices.ContainsFunc(got, func(f fault.Fact) bool { return f.Kind == k })
			}
			if tt.want != "" && !has(tt.want) {
				t.Errorf("the book does not say %s: %+v", tt.want, got)
			}
			for _, k := range tt.not {
				if has(k) {
					t.Errorf("the book says %s: %+v", k, got)
				}
			}
		})
	}
}

func one() book.Prints { return book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1} }

// washed puts a print in the wash at ten past.
func (r *room) washed() {
	r.at(9, "", &book.Held{Batch: "b", Prints: one()})
	r.at(10, "", &book.Washed{Batch: "b", Step: book.WashStarted})
}

// Facts carry the bath, what work it is about, and what was read.
func TestFactsAreTold(t *testing.T) {
	t.Parallel()
	r := newRoom(t)
	r.usual()
	r.at(5, "", test("dev", book.Thermometer, "15 °C"))
	got := r.facts(10)
	i := slices.IndexFunc(got, func(f fault.Fact) bool { return f.Kind == fault.DeveloperReadCold })
	if i < 0 {
		t.Fatal("not told")
	}
	f := got[i]
	if f.Bath != "dev" || f.Name == "" || f.About != fault.OnPrint || len(f.Figures) != 2 || f.Figures[0].Value != 15 || f.Figures[1].Value != 20 {
		t.Errorf("told as %+v", f)
	}
}

// An empty book says nothing.
func TestAnEmptyBook(t *testing.T) {
	t.Parallel()
	if got := newRoom(t).facts(0); len(got) > 0 {
		t.Errorf("it says %+v", got)
	}
}
