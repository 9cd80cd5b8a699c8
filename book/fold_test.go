package book_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
)

// shelf are decisions that a shelf is made of: two products, one of them a powder.
func shelf() []book.Entry {
	a := &book.Author{Now: evening.AddDate(0, -2, 0), NewID: counting("s")}
	var all []book.Entry
	for _, b := range []book.Body{
		&book.Set{Part: book.RoomPart, As: []byte(`{"name":"Ropewalk Darkroom","ounce":"us"}`)},
		&book.Set{
			Part: book.ProductPart, ID: "fix",
			As: []byte(`{"name":"rapid fixer","role":"fixer","form":"liquid","density":"1.25 g/mL"}`),
		},
		&book.Set{
			Part: book.ProductPart, ID: "dev",
			As: []byte(`{"name":"film developer","role":"developer","form":"powder","makes":"1 L"}`),
		},
	} {
		e, err := a.Write(b)
		if err != nil {
			panic(err)
		}
		all = append(all, e)
	}
	return all
}

var lots = []string{"lot1", "lot2", "lot3", "stock1"}

// facts draws what a device saw happen, at moments that often coincide.
func facts(t *rapid.T, device string) []book.Entry {
	var all []book.Entry
	for i := range rapid.IntRange(0, 12).Draw(t, device) {
		a := &book.Author{Device: device, NewID: func() string {
			return fmt.Sprintf("%s-%d-%d", rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "id"), i, len(device))
		}}
		a.Now = evening.Add(time.Duration(rapid.IntRange(0, 5).Draw(t, "minute")) * time.Minute)
		e, err := a.Write(fact(t, fmt.Sprint(device, i)))
		if err != nil {
			t.Fatal(err)
		}
		e.ID += device
		all = append(all, e)
	}
	return all
}

func fact(t *rapid.T, name string) book.Body {
	lot := rapid.SampledFrom(lots).Draw(t, "lot")
	draw := book.Draw{
		Lot:    lot,
		Amount: rapid.SampledFrom([]string{"30 mL", "1 fl oz", "50 mL", "1/2 L", "25 g", "1 packet", "all"}).Draw(t, "amount"),
		Times:  rapid.IntRange(0, 2).Draw(t, "times"),
	}
	switch rapid.IntRange(0, 13).Draw(t, "fact") {
	case 0, 1:
		if lot == "stock1" {
			return &book.Stock{
				Lot: lot, Product: "dev", Ounce: book.USOunce, From: []book.Draw{draw},
				As: []byte(`{"product":"film developer","state":"stock","holds":"1 L","made":"2026-12-01"}`),
			}
		}
		product := rapid.SampledFrom([]string{"fix", "fix", "dev"}).Draw(t, "product") // a powder's are of no form of it
		return &book.LotReceived{Lot: lot, Product: product, Ounce: book.USOunce, As: []byte(rapid.SampledFrom([]string{
			`{"product":"rapid fixer","holds":"1 L"}`, `{"product":"rapid fixer","holds":"32 fl oz","left":"20 fl oz"}`,
			`{"product":"rapid fixer","holds":"500 mL","left":"unknown"}`, `{"product":"rapid fixer"}`, `{"product":"rapid fixer","holds":"1 L","received":"2026-12-02"}`,
		}).Draw(t, "as"))}
	case 2:
		return &book.LotOpened{Lot: lot, Opened: rapid.SampledFrom([]string{"2026-12-01", "2026-12-03"}).Draw(t, "day")}
	case 3:
		return &book.LotCounted{
			Lot: lot, Ounce: book.USOunce,
			Left: rapid.SampledFrom([]string{"310 mL", "10 fl oz", "unknown", "0 mL", "2 L"}).Draw(t, "left"),
		}
	case 4, 5:
		return &book.LotDrawn{Draw: draw, Ounce: book.USOunce}
	case 6, 7, 8:
		return anyMix(t, name, draw)
	default:
		return bathFact(t, draw)
	}
}

// interleaved merges lists in a random order that keeps each list's own.
func interleaved(t *rapid.T, lists ...[]book.Entry) []book.Entry {
	var all []book.Entry
	lists = slices.Clone(lists)
	for {
		lists = slices.DeleteFunc(lists, func(l []book.Entry) bool { return len(l) == 0 })
		if len(lists) == 0 {
			return all
		}
		i := rapid.IntRange(0, len(lists)-1).Draw(t, "next")
		all = append(all, lists[i][0])
		lists[i] = lists[i][1:]
	}
}

// TestAnyOrderOfFacts holds two orders in which the facts of three devices reach the book against each other.
func TestAnyOrderOfFacts(t *testing.T) {
	lotsSeen, bathsSeen := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		devices := [][]book.Entry{facts(t, "x"), facts(t, "yy"), facts(t, "zzz"), bathDecisions(t)}
		one := lookAt(fold(t, append(shelf(), interleaved(t, devices...)...)), nil)
		two := lookAt(fold(t, append(shelf(), interleaved(t, devices...)...)), nil)
		if d := cmp.Diff(one, two, everything); d != "" {
			t.Fatalf("two orders, two states:\n%s", d)
		}
		reread(t, one.File)
		lotsSeen += len(one.Lots)
		bathsSeen += len(one.Baths) * len(one.Events)
	})
	if lotsSeen == 0 || bathsSeen == 0 {
		t.Error("no lot or no bath at work was ever seen: the test compares nothing")
	}
}

// TestTakenBackIsNeverThere holds a book in which entries were taken back, some of the corrections taken back in turn,
// against one in which they never stood.
func TestTakenBackIsNeverThere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := append(shelf(), interleaved(t, facts(t, "x"), facts(t, "yy"), bathDecisions(t))...)
		a := &book.Author{Now: evening, NewID: counting("c")}
		var stands, corrections []book.Entry
		for i, e := range all {
			depth := rapid.IntRange(0, 3).Draw(t, "corrections") // of it, of the correction, of that one
			if i < 3 {
				depth = 0
			}
			if depth%2 == 0 {
				stands = append(stands, e)
			}
			target := e.ID
			for range depth {
				c, err := a.TakeBack(target, "")
				if err != nil {
					t.Fatal(err)
				}
				corrections = append(corrections, c)
				target = c.ID
			}
		}
		got := lookAt(fold(t, append(all, corrections...)), nil)
		if d := cmp.Diff(lookAt(fold(t, stands), nil), got, everything); d != "" {
			t.Fatalf("(-never there +taken back):\n%s", d)
		}
	})
}

// TestStepByStep holds the state that was moved on entry by entry, with copies taken on the way, against folds from
// nothing.
func TestStepByStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := place(append(shelf(), interleaved(t, facts(t, "x"), facts(t, "yy"), bathDecisions(t))...))
		s := book.New("room", book.Upcasters())
		var copies []*book.State
		for _, e := range all {
			c := s.Clone()
			if rapid.Bool().Draw(t, "go on with the copy") {
				c, s = s, c
			}
			copies = append(copies, c)
			if err := s.Apply(e); err != nil {
				t.Fatal(err)
			}
		}
		for i, c := range append(copies, s) {
			want, err := book.Fold("room", all[:i])
			if err != nil {
				t.Fatal(err)
			}
			if c.Position() != int64(i) {
				t.Fatalf("copy %d is at %d", i, c.Position())
			}
			if d := cmp.Diff(lookAt(want, nil), lookAt(c, nil), everything); d != "" {
				t.Fatalf("at %d (-fold +copy):\n%s", i, d)
			}
		}
	})
}

// TestLeft holds what is left in a bottle against plain arithmetic in millilitres, done apart.
func TestLeft(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := newJournal(t)
		j.write(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"Ropewalk Darkroom","ounce":"imperial"}`)})
		j.write(&book.Set{Part: book.ProductPart, ID: "fix", As: stopBath("fix")})
		j.write(&book.LotReceived{Lot: "lot1", Product: "fix", As: []byte(`{"product":"fix","holds":"5 L"}`)})
		left, known, over := 5000.0, true, false
		for range rapid.IntRange(0, 20).Draw(t, "events") {
			ml := []float64{30, 2 * 28.4130625, 1000, 12.5}
			words := []string{"30 mL", "2 fl oz", "1 L", "12 1/2 mL"}
			i := rapid.IntRange(0, 3).Draw(t, "amount")
			if rapid.IntRange(0, 4).Draw(t, "counted") == 0 {
				j.write(&book.LotCounted{Lot: "lot1", Left: words[i], Ounce: book.ImperialOunce})
				left, known, over = ml[i], true, false
				continue
			}
			j.write(&book.LotDrawn{Draw: book.Draw{Lot: "lot1", Amount: words[i], Times: 2}, Ounce: book.ImperialOunce})
			left -= 2 * ml[i]
			known, over = left > -1e-6, left < -1e-6
		}
		l, _ := j.state.Lot("lot1")
		got := l.Lot.Left.Value.ML()
		if !l.Lot.Left.Given() {
			got = 5000
		}
		switch {
		case known && l.Gone == book.There && math.Abs(got-left) > 0.0051, // the words are to the hundredth
			known && l.Gone == book.UsedUp && math.Abs(left) > 1e-6,
			!known != l.Lot.LeftUnknown, over != l.Overdrawn:
			t.Fatalf("left %q (unknown %v, over %v, gone %v), want %g mL (known %v)",
				l.Lot.Left.Text, l.Lot.LeftUnknown, l.Overdrawn, l.Gone, left, known)
		}
	})
}

// TestWordsOfWhatIsLeft draws once and reads what is left in the words of the file.
func TestWordsOfWhatIsLeft(t *testing.T) {
	for _, c := range []struct {
		holds, drawn string
		times        int
		want         string
	}{
		{"1 L", "30 mL", 1, "0.97 L"},
		{"1 L", "12.3 mL", 1, "987.7 mL"},
		{"500 mL", "1 mL", 3, "497 mL"},
		{"1 quart", "1 fl oz", 1, "31/32 US quart"},
		{"32 fl oz", "1/2 fl oz", 1, "31 1/2 US fl oz"},
		{"1 gal", "30 mL", 1, "3755.41 mL"},    // 3785.411784 - 30
		{"5 L", "1 US fl oz", 1, "4970.43 mL"}, // 5000 - 29.5735295625
		{"500 mL", "45 g", 1, "464 mL"},        // 45 g ÷ 1.25 g/mL = 36 mL
		{"1 imperial pint", "1 imperial fl oz", 1, "19/20 imperial pint"},
	} {
		j := newJournal(t)
		for _, e := range shelf() {
			if err := j.try(e); err != nil {
				t.Fatal(err)
			}
		}
		j.write(&book.LotReceived{
			Lot: "l", Product: "fix", Ounce: book.USOunce,
			As: fmt.Appendf(nil, `{"product":"rapid fixer","holds":%q}`, c.holds),
		})
		j.write(&book.LotDrawn{Draw: book.Draw{Lot: "l", Amount: c.drawn, Times: c.times}, Ounce: book.USOunce})
		if got := j.file().Shelf.Lots[0].Left.Text; got != c.want {
			t.Errorf("%s less %d times %s: left %q, want %q", c.holds, c.times, c.drawn, got, c.want)
		}
	}
}

// TestCountsAndDraws puts a day's entries about one bottle in several orders of moments.
func TestCountsAndDraws(t *testing.T) {
	count := func(left string) book.Body { return &book.LotCounted{Lot: "l", Left: left} }
	draw := func(amount string) book.Body { return &book.LotDrawn{Draw: book.Draw{Lot: "l", Amount: amount}} }
	came := func(as string) book.Body { return &book.LotReceived{Lot: "l", Product: "fix", As: []byte(as)} }
	const full, part = `{"product":"rapid fixer","holds":"1 L"}`, `{"product":"rapid fixer","holds":"1 L","left":"600 mL"}`
	for name, c := range map[string]struct {
		day  []book.Body
		want string
		gone book.Gone
	}{
		"full":                           {[]book.Body{came(full)}, "", book.There},
		"drawn":                          {[]book.Body{came(full), draw("100 mL"), draw("50 mL")}, "0.85 L", book.There},
		"drawn before it was entered":    {[]book.Body{draw("100 mL"), came(full)}, "0.9 L", book.There},
		"a draw that the count has seen": {[]book.Body{came(full), draw("100 mL"), count("700 mL")}, "700 mL", book.There},
		"a draw after the count":         {[]book.Body{came(full), count("700 mL"), draw("100 mL")}, "600 mL", book.There},
		"the last count holds":           {[]book.Body{came(full), count("700 mL"), count("650 mL")}, "650 mL", book.There},
		"entered with what is left":      {[]book.Body{draw("50 mL"), came(part), draw("100 mL")}, "500 mL", book.There},
		"counted before it was entered":  {[]book.Body{count("700 mL"), came(part)}, "600 mL", book.There},
		"counted, entered as full":       {[]book.Body{count("700 mL"), came(full), draw("100 mL")}, "600 mL", book.There},
		"nothing left by looking":        {[]book.Body{came(full), count("0 mL")}, "0 mL", book.There},
		"all drawn":                      {[]book.Body{came(full), draw("all")}, "", book.UsedUp},
		"drawn to nothing":               {[]book.Body{came(full), draw("400 mL"), draw("600 mL")}, "", book.UsedUp},
		"more drawn than there was":      {[]book.Body{came(part), draw("601 mL")}, "unknown", book.There},
		"then looked at":                 {[]book.Body{came(part), draw("601 mL"), count("20 mL")}, "20 mL", book.There},
		"unknown stays unknown":          {[]book.Body{came(full), count("unknown"), draw("10 mL")}, "unknown", book.There},
		"used up, thrown out":            {[]book.Body{came(full), draw("all"), &book.LotDiscarded{Lot: "l"}}, "", book.ThrownOut},
		"thrown out, then drawn":         {[]book.Body{came(full), &book.LotDiscarded{Lot: "l"}, draw("10 mL")}, "0.99 L", book.ThrownOut},
	} {
		t.Run(name, func(t *testing.T) {
			a := &book.Author{Now: evening, NewID: counting("e")}
			all := shelf()
			for _, b := range c.day {
				a.Now = a.Now.Add(time.Minute)
				all = append(all, written(a, b))
			}
			l, _ := fold(t, all).Lot("l")
			got := l.Lot.Left.Text
			if l.Lot.LeftUnknown {
				got = "unknown"
			}
			if l.Gone == book.UsedUp {
				got = ""
			}
			if got != c.want || l.Gone != c.gone {
				t.Errorf("left %q, gone %v, want %q, %v", got, l.Gone, c.want, c.gone)
			}
		})
	}
}

func TestOpenings(t *testing.T) {
	a := &book.Author{Now: evening, NewID: counting("e")}
	all := shelf()
	for _, b := range []book.Body{
		&book.LotReceived{Lot: "closed", Product: "fix", As: []byte(`{"product":"rapid fixer","holds":"1 L"}`)},
		&book.LotReceived{Lot: "open", Product: "fix", As: []byte(`{"product":"rapid fixer","opened":"2026-11-02"}`)},
		&book.LotReceived{Lot: "packets", Product: "dev", As: []byte(`{"product":"film developer","holds":"2 packets"}`)},
	} {
		all = append(all, written(a, b))
	}
	s := fold(t, all)
	from := []book.Draw{{Lot: "closed"}, {Lot: "open"}, {Lot: "packets"}, {Lot: "strange"}, {}, {Lot: "closed"}}
	want := []book.Body{&book.LotOpened{Lot: "closed", Opened: "2026-12-03"}}
	if d := cmp.Diff(want, s.Openings(from, "2026-12-03")); d != "" {
		t.Errorf("openings (-want +got):\n%s", d)
	}
}

// TestCopiesPart tells a state and its copy different things, turn by turn, and holds each against a fold of its own.
func TestCopiesPart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		more := func(name string) []book.Entry {
			a := &book.Author{Now: evening.AddDate(0, 0, 1), NewID: counting(name)}
			all := facts(t, name)
			for range rapid.IntRange(1, 4).Draw(t, "decisions") {
				b := &book.Set{Part: book.ProductPart, ID: "fix", As: stopBath(name + rapid.SampledFrom([]string{"a", "b"}).Draw(t, "name"))}
				all = append(all, written(a, b))
				back, err := a.TakeBack(rapid.SampledFrom(all).Draw(t, "taken back").ID, "")
				if err != nil {
					t.Fatal(err)
				}
				all = append(all, back)
			}
			return all
		}
		begun := slices.Concat(shelf(), more("x"))
		one, two := place(slices.Concat(begun, more("yy"))), place(slices.Concat(begun, more("zzz")))
		s, err := book.Fold("room", one[:len(begun)])
		if err != nil {
			t.Fatal(err)
		}
		c := s.Clone()
		for i := len(begun); i < max(len(one), len(two)); i++ {
			if i < len(one) {
				err = errors.Join(err, s.Apply(one[i]))
			}
			if i < len(two) {
				err = errors.Join(err, c.Apply(two[i]))
			}
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, pair := range []struct {
			got  *book.State
			want []book.Entry
		}{{s, one}, {c, two}} {
			want, err := book.Fold("room", pair.want)
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(lookAt(want, nil), lookAt(pair.got, nil), everything); d != "" {
				t.Fatalf("(-fold +told apart):\n%s", d)
			}
		}
	})
}
