package book_test

import (
	"errors"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
)

// bathBodies returns one body of each kind about baths and batches, with the JSON that books hold for good.
func bathBodies() map[string]book.Body {
	six := book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 6, Strips: 4, Strip: "1/4"}
	return map[string]book.Body{
		`{"bath":"f1","product":"fix","dilution":"1+4","volume":"1 L","times":2,"tray":"grey","place":"first of two","pair":"f2","for":"paper"}`: &book.Mixed{
			Bath: "f1", Product: "fix", Dilution: "1+4", Volume: "1 L", Times: 2, Tray: "grey", Place: darkroom.BathFirst, Pair: "f2",
			For: book.ServesPaper,
		},
		`{"bath":"f0","product":"fix","dilution":"1+4","volume":"32 fl oz","into":"part bottle","made":"unknown",` +
			`"before":[{"material":"RC paper","size":"8x10 in","sheets":30,"estimated":true,"how":"the box is a third down"}],"ounce":"us"}`: &book.Mixed{
			Bath: "f0", Product: "fix", Dilution: "1+4", Volume: "32 fl oz", Into: darkroom.PartBottle, Made: book.MadeUnknown, Ounce: book.USOunce,
			Before: []book.Prints{{Material: "RC paper", Size: "8x10 in", Sheets: 30, Estimated: true, How: "the box is a third down"}},
		},
		`{"bath":"w","volume":"3 L","tray":"blue","use":"holding"}`: &book.Mixed{Bath: "w", Use: book.Holding, Volume: "3 L", Tray: "blue"},
		`{"baths":["d","s","f1"],"material":"RC paper","size":"8x10 in","sheets":6,"strips":4,"strip":"1/4","drain":"20 s"}`: &book.Worked{
			Baths: []string{"d", "s", "f1"}, Prints: six, Drain: "20 s",
		},
		`{"baths":["d"],"material":"film","size":"135-36","rolls":2}`: &book.Worked{
			Baths: []string{"d"}, Prints: book.Prints{Material: "film", Size: "135-36", Rolls: 2},
		},
		`{"bath":"f1","test":"silver strip","result":"under 0.5 g/L","steps":[0.5,1,2],"material":"RC paper"}`: &book.Tested{
			Bath: "f1", Test: book.SilverStrip, Result: "under 0.5 g/L", Steps: []float64{0.5, 1, 2}, Material: "RC paper",
		},
		`{"batch":"n1","test":"residual thiosulfate","result":"under 0.01 g/m2"}`: &book.Tested{
			Batch: "n1", Test: book.HypoDrop, Result: "under 0.01 g/m2",
		},
		`{"bath":"f1","with":"replenisher","volume":"20 mL","times":2,"product":"rep","load":"e7","from":[{"lot":"lot1","amount":"40 mL"}]}`: &book.ToppedUp{
			Bath: "f1", With: book.WithReplenisher, Volume: "20 mL", Times: 2, Product: "rep", Load: "e7",
			From: []book.Draw{{Lot: "lot1", Amount: "40 mL"}},
		},
		`{"first":"f1","second":"f2","why":"silver","to":"waste can","volume":"1.8 L"}`: &book.Moved{
			First: "f1", Second: "f2", Leaving: book.Leaving{Why: "silver", To: "waste can", Volume: "1.8 L"},
		},
		`{"bath":"f1","into":"floating lid","bottle":"brown one","volume":"1.9 L"}`: &book.PouredBack{
			Bath: "f1", Into: darkroom.FloatingLid, Bottle: "brown one", Volume: "1.9 L",
		},
		`{"bath":"f1","tray":"grey","volume":"1.9 L"}`: &book.PouredOut{Bath: "f1", Tray: "grey", Volume: "1.9 L"},
		`{"bath":"f1","to":"collected","can":"can1"}`:  &book.Disposed{Bath: "f1", Leaving: book.Leaving{To: "collected", Can: "can1"}},
		`{"can":"can1","what":"fixer","volume":"6 L","why":"it was there"}`: &book.WasteIn{
			Can: "can1", What: "fixer", Volume: "6 L", Why: "it was there",
		},
		`{"can":"can1","put_by":true}`: &book.WasteIn{Can: "can1", PutBy: true},
		`{"can":"can1","by":"the depot","document":"N 17","volume":"20 L"}`: &book.TakenAway{
			Can: "can1", By: "the depot", Document: "N 17", Volume: "20 L",
		},
		`{"place":"home","drain":"septic","what":"stop bath","asked":"may it?","answer":"no","words":"no","office":"the water office"}`: &book.Answered{
			Place: "home", Drain: "septic", What: "stop bath", Asked: "may it?", Answer: book.AuthorityNo, Words: "no", Office: "the water office",
		},
		`{"bath":"d","why":"brown","to":"drain"}`: &book.Disposed{Bath: "d", Leaving: book.Leaving{Why: "brown", To: "drain"}},
		`{"batch":"n1","bath":"w","loads":["e7"],"material":"FB paper","size":"8x10 in","sheets":3}`: &book.Held{
			Batch: "n1", Bath: "w", Loads: []string{"e7"}, Prints: book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: 3},
		},
		`{"batch":"n1","step":"more in","put":{"material":"FB paper","size":"8x10 in","sheets":1},"way":"running","water":"12 °C","changes":2}`: &book.Washed{
			Batch: "n1", Step: book.WashMore, Put: &book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: 1}, Way: "running",
			Water: "12 °C", Changes: 2,
		},
		`{"sign":"flat_blacks","cause":"developer_spent","done":"remedied","bath":"dev"}`: &book.FaultFound{
			Sign: "flat_blacks", Cause: "developer_spent", Done: book.FaultRemedied, Bath: "dev",
		},
		`{"probe":"p1","bath":"d","reads":"20.4 °C"}`:         &book.ProbeRead{Probe: "p1", Bath: "d", Reads: "20.4 °C"},
		`{"probe":"p1","place":"cold water","reads":"48 °F"}`: &book.ProbeRead{Probe: "p1", Place: book.InColdWater, Reads: "48 °F"},
		`{"sign":"of_a_later_program"}`:                       &book.FaultFound{Sign: "of_a_later_program"},
	}
}

// TestBodiesOfBaths writes every body, reads it back, and lets it into a book that knows none of the baths. What is decided
// about baths that are not there is refused, no fact is.
func TestBodiesOfBaths(t *testing.T) {
	kinds := map[book.Kind]bool{}
	for want, body := range bathBodies() {
		j := newJournal(t)
		for _, e := range shelf() {
			if err := j.try(e); err != nil {
				t.Fatal(err)
			}
		}
		e, err := j.author.Write(body)
		if err != nil {
			t.Fatal(err)
		}
		kinds[e.Kind] = true
		if e.Body != want {
			t.Errorf("%s is written\n%s, want\n%s", e.Kind, e.Body, want)
		}
		read, err := book.Upcasters().Read(e)
		if d := cmp.Diff(body, read); err != nil || d != "" {
			t.Errorf("%s: %v (-written +read):\n%s", e.Body, err, d)
		}
		refused, isRefused := errors.AsType[*book.RefusedError](j.try(e))
		if isRefused != e.Kind.Decides() || isRefused && refused.Reason != book.BathNotThere {
			t.Errorf("%s: refused %v, want that of decisions only", e.Body, refused)
		}
		if len(j.state.Unread()) > 0 {
			t.Errorf("%s: unread: %v", e.Body, j.state.Unread())
		}
	}
	if len(kinds) != 15 {
		t.Errorf("%d kinds, want 15", len(kinds))
	}
}

// TestBadFieldsOfBaths sends bodies with one wrong field each.
func TestBadFieldsOfBaths(t *testing.T) {
	ok := func(change func(*book.Prints)) book.Prints {
		p := book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 6}
		change(&p)
		return p
	}
	same := func(*book.Prints) {}
	work := func(change func(*book.Prints)) book.Body {
		return &book.Worked{Baths: []string{"b"}, Prints: ok(change)}
	}
	mix := func(change func(*book.Mixed)) book.Body {
		m := &book.Mixed{Bath: "b", Product: "fix", Dilution: "1+4", Volume: "1 L"}
		change(m)
		return m
	}
	for name, c := range map[string]struct {
		body  book.Body
		field string
		why   book.FieldWhy
	}{
		"a count below zero":        {work(func(p *book.Prints) { p.Sheets = -1 }), "sheets", book.FieldBelowZero},
		"strips below zero":         {work(func(p *book.Prints) { p.Strips = -1 }), "strips", book.FieldBelowZero},
		"nothing":                   {work(func(p *book.Prints) { p.Sheets = 0 }), "sheets", book.FieldNothing},
		"a million":                 {work(func(p *book.Prints) { p.Sheets = 1_000_000 }), "sheets", book.FieldTooMuch},
		"a material that is none":   {work(func(p *book.Prints) { p.Material = "vellum" }), "material", book.FieldNoWord},
		"no size":                   {work(func(p *book.Prints) { p.Size = "" }), "size", book.FieldUnreadable},
		"sheets of a roll":          {work(func(p *book.Prints) { p.Size = "120" }), "size", book.FieldClashes},
		"a strip larger than all":   {work(func(p *book.Prints) { p.Strip = "5/4" }), "strip", book.FieldUnreadable},
		"through nothing":           {&book.Worked{Prints: ok(same)}, "baths", book.FieldMissing},
		"through no id":             {&book.Worked{Baths: []string{"b", "a b"}, Prints: ok(same)}, "baths[1]", book.FieldNoID},
		"through too many":          {&book.Worked{Baths: make([]string, 51), Prints: ok(same)}, "baths", book.FieldTooMuch},
		"drained for nothing":       {&book.Worked{Baths: []string{"b"}, Drain: "0 s", Prints: ok(same)}, "drain", book.FieldNothing},
		"drained a day":             {&book.Worked{Baths: []string{"b"}, Drain: "24 h", Prints: ok(same)}, "drain", book.FieldTooMuch},
		"drained a litre":           {&book.Worked{Baths: []string{"b"}, Drain: "1 L", Prints: ok(same)}, "drain", book.FieldUnreadable},
		"tested nothing":            {&book.Tested{Test: book.DropTest, Result: "passed"}, "bath", book.FieldMissing},
		"no test":                   {&book.Tested{Bath: "b", Test: "smell", Result: "bad"}, "test", book.FieldNoWord},
		"no result":                 {&book.Tested{Bath: "b", Test: book.DropTest}, "result", book.FieldMissing},
		"none of the strip's steps": {&book.Tested{Bath: "b", Test: book.SilverStrip, Result: "0.7 g/L", Steps: []float64{0.5, 1}}, "result", book.FieldNotOfSteps},
		"steps that fall":           {&book.Tested{Bath: "b", Test: book.SilverStrip, Result: "1 g/L", Steps: []float64{1, 0.5}}, "steps[1]", book.FieldUnreadable},
		"tested with vellum":        {&book.Tested{Bath: "b", Test: book.DropTest, Result: "passed", Material: "vellum"}, "material", book.FieldNoWord},
		"topped up with tea":        {&book.ToppedUp{Bath: "b", With: "tea", Volume: "1 L"}, "with", book.FieldNoWord},
		"topped up by nothing":      {&book.ToppedUp{Bath: "b", With: book.WithWater, Volume: "0 mL"}, "volume", book.FieldNothing},
		"topped up, no volume":      {&book.ToppedUp{Bath: "b", With: book.WithWater}, "volume", book.FieldMissing},
		"topped up below zero":      {&book.ToppedUp{Bath: "b", With: book.WithWater, Volume: "-1 L"}, "volume", book.FieldUnreadable},
		"topped up less than once":  {&book.ToppedUp{Bath: "b", With: book.WithWater, Volume: "1 L", Times: -1}, "times", book.FieldTooMuch},
		"in no such ounce":          {&book.ToppedUp{Bath: "b", With: book.WithWater, Volume: "1 L", Ounce: "troy"}, "ounce", book.FieldNoWord},
		"a bath after itself":       {&book.Moved{First: "b", Second: "b"}, "second", book.FieldClashes},
		"into a hat":                {&book.PouredBack{Bath: "b", Into: "hat"}, "into", book.FieldNoWord},
		"into nothing":              {&book.PouredBack{Bath: "b"}, "into", book.FieldMissing},
		"into tray and tank":        {&book.PouredOut{Bath: "b", Tray: "t", Tank: "k"}, "tank", book.FieldClashes},
		"no bath to pour":           {&book.PouredOut{Tray: "t"}, "bath", book.FieldMissing},
		"into no can":               {&book.WasteIn{What: "fixer", Volume: "1 L"}, "can", book.FieldMissing},
		"of nothing we know":        {&book.WasteIn{Can: "c", What: "soup", Volume: "1 L"}, "what", book.FieldNoWord},
		"of nothing said":           {&book.WasteIn{Can: "c", Volume: "1 L"}, "what", book.FieldMissing},
		"so much of nothing":        {&book.WasteIn{Can: "c", What: "fixer"}, "volume", book.FieldMissing},
		"all put by, and some":      {&book.WasteIn{Can: "c", PutBy: true, Volume: "1 L"}, "volume", book.FieldClashes},
		"a can with a space":        {&book.TakenAway{Can: "a b"}, "can", book.FieldNoID},
		"more than was there":       {&book.TakenAway{Can: "c", Volume: "0 L"}, "volume", book.FieldNothing},
		"a drain of its own": {
			&book.Answered{Place: "home", Drain: "river", What: "fixer", Answer: book.AuthorityYes}, "drain", book.FieldNoWord,
		},
		"no answer":                   {&book.Answered{Place: "home", Drain: "sewer", What: "fixer"}, "answer", book.FieldMissing},
		"rest below zero":             {&book.Disposed{Bath: "b", Leaving: book.Leaving{Volume: "-1 L"}}, "volume", book.FieldUnreadable},
		"no batch":                    {&book.Held{Prints: ok(same)}, "batch", book.FieldMissing},
		"held a load that is no id":   {&book.Held{Batch: "n", Loads: []string{""}, Prints: ok(same)}, "loads[0]", book.FieldMissing},
		"no step of a wash":           {&book.Washed{Batch: "n", Step: "rinsed"}, "step", book.FieldNoWord},
		"changes below zero":          {&book.Washed{Batch: "n", Step: book.WashDone, Changes: -1}, "changes", book.FieldBelowZero},
		"boiling over":                {&book.Washed{Batch: "n", Step: book.WashDone, Water: "120 °C"}, "water", book.FieldUnreadable},
		"put nothing in":              {&book.Washed{Batch: "n", Step: book.WashMore, Put: &book.Prints{}}, "put.sheets", book.FieldNothing},
		"no sign":                     {&book.FaultFound{Cause: "stray_light"}, "sign", book.FieldMissing},
		"a cause that is no key":      {&book.FaultFound{Sign: "grey_veil", Cause: "the lamp"}, "cause", book.FieldNoID},
		"done otherwise":              {&book.FaultFound{Sign: "grey_veil", Cause: "stray_light", Done: "prayed"}, "done", book.FieldNoWord},
		"a remedy for no cause":       {&book.FaultFound{Sign: "grey_veil", Done: book.FaultLater}, "done", book.FieldClashes},
		"seen in a bath that is none": {&book.FaultFound{Sign: "grey_veil", Bath: "the grey one"}, "bath", book.FieldNoID},
		"mixed by nobody's guess":     {mix(func(m *book.Mixed) { m.Made = "long ago" }), "made", book.FieldNoWord},
		"before, below zero": {mix(func(m *book.Mixed) {
			m.Before = []book.Prints{ok(same), ok(func(p *book.Prints) { p.Sheets = -3 })}
		}), "before[1].sheets", book.FieldBelowZero},
		"a third place":          {mix(func(m *book.Mixed) { m.Place = "third of two" }), "place", book.FieldNoWord},
		"its own pair":           {mix(func(m *book.Mixed) { m.Pair = "b" }), "pair", book.FieldClashes},
		"for glass":              {mix(func(m *book.Mixed) { m.For = "glass" }), "for", book.FieldNoWord},
		"in a tray and a bottle": {mix(func(m *book.Mixed) { m.Tray, m.Into = "t", darkroom.FullBottle }), "into", book.FieldClashes},
		"water with a product":   {mix(func(m *book.Mixed) { m.Use = book.Rinse }), "product", book.FieldClashes},
		"no product":             {mix(func(m *book.Mixed) { m.Product = "" }), "product", book.FieldMissing},
		"no dilution":            {mix(func(m *book.Mixed) { m.Dilution = "" }), "dilution", book.FieldMissing},
		"a volume of nothing":    {mix(func(m *book.Mixed) { m.Volume = "0 L" }), "volume", book.FieldNothing},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJournal(t)
			e, err := j.author.Write(c.body)
			if err != nil {
				t.Fatal(err)
			}
			err = j.try(e)
			bad, ok := errors.AsType[*book.FieldError](err)
			if !ok || bad.Field != c.field || bad.Why != c.why || book.KindOf(err) != book.BadInput || book.KeyOf(bad) != "field_"+string(c.why) {
				t.Errorf("got %v, want %s %s", err, c.field, c.why)
			}
			if s, err := book.Fold("room", place([]book.Entry{e})); err != nil || len(s.Unread()) != 1 || len(s.Baths())+len(s.Events())+len(s.Batches()) != 0 {
				t.Errorf("folded all the same: %v", err)
			}
		})
	}
}

// TestFirstMixesAreRead reads mixes as they were written before baths had a life.
func TestFirstMixesAreRead(t *testing.T) {
	e := book.Entry{
		ID: "old", Kind: book.BathMixed, Version: 1, HappenedAt: evening,
		Body: `{"bath":"b1","product":"fix","dilution":"1+4","volume":"1 L","times":2,"tray":"red","from":[{"amount":"400 mL"}],"ounce":"us"}`,
	}
	s := fold(t, append(shelf(), e))
	b, ok := s.Bath("b1")
	if !ok || b.Volume.ML() != 2000 || b.Dilution.String() != "1+4" || b.In().State != darkroom.InTray || b.In().Tray != "red" ||
		b.Made != book.MadeThen || b.BeforeUnknown() || b.Gone != nil || b.Pair != nil || len(b.Findings) > 0 {
		t.Errorf("read as %+v", b)
	}
	if v := book.Upcasters().Version(book.BathMixed); v != 1 {
		t.Errorf("a mix is written in version %d: an upcast is missing here", v)
	}
}
