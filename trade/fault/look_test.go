package fault_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/trade/fault"
	"wetside/trade/reckoning"
)

// anyQuestion draws a sign with facts, some twice, of several baths, and answers.
func anyQuestion(t *rapid.T, kinds []string) fault.Question {
	q := fault.Question{Sign: rapid.SampledFrom(fault.Signs()).Draw(t, "sign")}
	fact := rapid.Custom(func(t *rapid.T) fault.Fact {
		return fault.Fact{
			Kind: fault.FactKind(rapid.SampledFrom(kinds).Draw(t, "kind")), Bath: rapid.SampledFrom([]string{"", "a", "b"}).Draw(t, "bath"),
			About: rapid.SampledFrom([]fault.Where{fault.Anywhere, fault.OnPrint, fault.OnFilm}).Draw(t, "about"),
		}
	})
	q.Facts = rapid.SliceOfN(fact, 0, 6).Draw(t, "facts")
	q.Bath = rapid.SampledFrom([]string{"", "", "a"}).Draw(t, "asked bath")
	for _, l := range q.Sign.Links() {
		switch rapid.IntRange(0, 5).Draw(t, "answer") {
		case 0:
			q.No = append(q.No, l.Cause)
		case 1:
			q.Yes = append(q.Yes, l.Cause)
		}
	}
	return q
}

func look(t *rapid.T, q fault.Question) fault.Guide {
	g, err := fault.Look(q)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func place(g fault.Guide, c fault.Cause) int {
	return slices.IndexFunc(g.Causes, func(s fault.Standing) bool { return s.Cause == c })
}

// Whatever is known, each cause stands in the answer once, in the order of the rule, and its reckoning adds up.
func TestOrderIsTheRule(t *testing.T) {
	kinds := factKinds(t)
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuestion(t, kinds)
		g := look(t, q)
		if len(g.Causes) != len(q.Sign.Links()) {
			t.Fatalf("%d causes, want %d", len(g.Causes), len(q.Sign.Links()))
		}
		for i, s := range g.Causes {
			sum := 0.0
			for _, f := range s.Reckoning.Puts[1:] {
				sum += f.Value
			}
			if sum != float64(s.Points) || s.Reckoning.Result.Value != sum || len(s.Reckoning.Puts) != 2+len(s.Speaks) {
				t.Fatalf("%s: %d points, reckoned as %v", s.Cause, s.Points, s.Reckoning)
			}
			if s.Reckoning.Puts[0].Value != float64(1+slices.IndexFunc(q.Sign.Links(), func(l fault.Link) bool { return l == s.Link })) {
				t.Fatalf("%s: its place is %v", s.Cause, s.Reckoning.Puts[0])
			}
			if light := q.Sign.LightFirst() && s.Kind == fault.Light && !s.Out; light != (i < g.LightFirst) {
				t.Fatalf("%s stands at %d, and the first %d are light", s.Cause, i, g.LightFirst)
			}
			if i == 0 || i == g.LightFirst {
				continue
			}
			before := g.Causes[i-1]
			if before.Out && !s.Out || s.In && !before.In {
				t.Fatalf("%s (out %t, in %t) stands behind %s (out %t, in %t)", s.Cause, s.Out, s.In, before.Cause, before.Out, before.In)
			}
			if before.Out == s.Out && before.In == s.In && before.Points < s.Points {
				t.Fatalf("%s (%d) stands behind %s (%d)", s.Cause, s.Points, g.Causes[i-1].Cause, g.Causes[i-1].Points)
			}
		}
	})
}

// What speaks for a cause never takes points from it, and lets none pass it that it does not speak for as much.
func TestEvidenceNeverLowers(t *testing.T) {
	kinds, raised := factKinds(t), 0
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuestion(t, kinds)
		more := fault.Fact{Kind: fault.FactKind(rapid.SampledFrom(kinds).Draw(t, "more"))}
		before := look(t, q)
		q.Facts = append(q.Facts, more)
		after := look(t, q)
		for _, s := range before.Causes {
			by := more.Kind.Bears(s.Cause)
			now := after.Causes[place(after, s.Cause)]
			if by >= 0 && now.Points < s.Points || by <= 0 && now.Points > s.Points {
				t.Fatalf("%s bears on %s by %d: from %d to %d points", more.Kind, s.Cause, by, s.Points, now.Points)
			}
			if now.Points > s.Points {
				raised++
			}
			for _, o := range before.Causes {
				if more.Kind.Bears(o.Cause) <= by && place(before, s.Cause) < place(before, o.Cause) && place(after, s.Cause) > place(after, o.Cause) {
					t.Fatalf("%s speaks for %s by %d, and %s went past it", more.Kind, s.Cause, by, o.Cause)
				}
			}
		}
	})
	if raised == 0 {
		t.Error("nothing was ever raised")
	}
}

// The order of the facts, and a fact told twice, change nothing.
func TestOrderOfFacts(t *testing.T) {
	kinds := factKinds(t)
	rapid.Check(t, func(t *rapid.T) {
		q := anyQuestion(t, kinds)
		want := look(t, q)
		q.Facts = rapid.Permutation(append(q.Facts, q.Facts...)).Draw(t, "order")
		if diff := cmp.Diff(want, look(t, q)); diff != "" {
			t.Fatal(diff)
		}
	})
}

// A check that said no sends a cause behind all that were not ruled out; one that said yes before all of its group.
func TestChecksDecide(t *testing.T) {
	known := []fault.Fact{
		{Kind: fault.FixerSpentNow},
		{Kind: fault.DeveloperPast},
		{Kind: fault.DeveloperOverCount},
		{Kind: fault.DeveloperStripPale},
		{Kind: fault.DeveloperAgeUnknown},
	}
	for _, s := range fault.Signs() {
		for _, l := range s.Links() {
			g, err := fault.Look(fault.Question{Sign: s, No: []fault.Cause{l.Cause}, Facts: known})
			if err != nil {
				t.Fatal(err)
			}
			if last := g.Causes[len(g.Causes)-1]; last.Cause != l.Cause || !last.Out {
				t.Errorf("%s: %s was ruled out, and the last is %s", s, l.Cause, last.Cause)
			}
			if g, err = fault.Look(fault.Question{Sign: s, Yes: []fault.Cause{l.Cause}}); err != nil {
				t.Fatal(err)
			}
			at := 0
			if l.Cause.Kind() != fault.Light {
				at = g.LightFirst
			}
			if first := g.Causes[at]; first.Cause != l.Cause || !first.In {
				t.Errorf("%s: %s was confirmed, and %s stands first", s, l.Cause, first.Cause)
			}
		}
	}
}

// A film bath says nothing of a print, nor one bath of another that is asked about.
func TestOnlyItsOwnBaths(t *testing.T) {
	for _, tt := range []struct {
		q     fault.Question
		heard bool
	}{
		{fault.Question{Sign: fault.DarkensInLight, Facts: []fault.Fact{{Kind: fault.FixerSpentNow, About: fault.OnFilm}}}, false},
		{fault.Question{Sign: fault.DarkensInLight, Facts: []fault.Fact{{Kind: fault.FixerSpentNow, About: fault.OnPrint}}}, true},
		{fault.Question{Sign: fault.FilmMilky, Facts: []fault.Fact{{Kind: fault.FixerSpentNow, About: fault.OnPrint}}}, false},
		{fault.Question{Sign: fault.FilmMilky, Facts: []fault.Fact{{Kind: fault.FixerSpentNow}}}, true},
		{fault.Question{Sign: fault.DropCloud, Facts: []fault.Fact{{Kind: fault.FixerSpentNow, About: fault.OnFilm}}}, true},
		{fault.Question{Sign: fault.DropCloud, Bath: "one", Facts: []fault.Fact{{Kind: fault.FixerSpentNow, Bath: "two"}}}, false},
		{fault.Question{Sign: fault.DropCloud, Bath: "one", Facts: []fault.Fact{{Kind: fault.FixerSpentNow, Bath: "one"}}}, true},
	} {
		g, err := fault.Look(tt.q)
		if err != nil {
			t.Fatal(err)
		}
		if heard := len(g.Causes[place(g, fault.FixerSpent)].Speaks) > 0; heard != tt.heard {
			t.Errorf("%+v: heard %t, want %t", tt.q, heard, tt.heard)
		}
	}
}

func TestUnknownSign(t *testing.T) {
	g, err := fault.Look(fault.Question{Sign: "no such"})
	if !errors.Is(err, fault.ErrUnknownSign) || len(g.Causes) > 0 {
		t.Errorf("got %v, %v", g, err)
	}
	if s := fault.Sign("no such"); s.Known() || s.Where() != fault.Anywhere || s.LightFirst() || s.Links() != nil {
		t.Error("an unknown sign has something")
	}
}

// The weights outweigh what they are said to outweigh.
func TestWeights(t *testing.T) {
	places := 0
	for _, s := range fault.Signs() {
		places = max(places, len(s.Links()))
	}
	if fault.Tells < 10 || fault.Answered < 2*fault.Tells || math.Abs(float64(fault.Suggests)) >= float64(fault.Tells) || places > 8 {
		t.Errorf("weights %d %d %d %d, %d causes at most", fault.Hints, fault.Suggests, fault.Tells, fault.Answered, places)
	}
	if o, _ := (fault.Link{Source: "memory"}).Origin(); o != reckoning.FromMemory {
		t.Errorf("memory is %d", o)
	}
}

func factKinds(t *testing.T) []string {
	t.Helper()
	return slices.DeleteFunc(constants(t, "FactKind"), func(k string) bool {
		return k == string(fault.CheckYes) || k == string(fault.CheckNo)
	})
}
