package words_test

import (
	"cmp"
	"fmt"
	"go/constant"
	"slices"
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/fault"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/words"
)

// Every sign, cause, fact and kind has its words; a sign that may be light says how that is told.
func TestFaultsAreSaid(t *testing.T) {
	english := messages(t, "active.en.toml")
	for typeName, keys := range map[string][]string{
		"Sign": {"fault.sign.%s.name", "fault.sign.%s.look", "fault.sign.%s.words"}, "FactKind": {"fault.fact.%s", "figure.fault_%s"},
		"Cause": {"fault.cause.%s.name", "fault.cause.%s.why", "fault.cause.%s.check", "fault.cause.%s.remedy"}, "Kind": {"fault.kind.%s"},
	} {
		said := 0
		for name, value := range constants(t, "../trade/fault", typeName) {
			for _, key := range keys {
				key = fmt.Sprintf(key, constant.StringVal(value))
				if said++; english[key] == nil {
					t.Errorf("fault.%s: no message %s", name, key)
				}
			}
		}
		for key := range english {
			if prefix, _, _ := strings.Cut(keys[0], "%s"); strings.HasPrefix(key, prefix) && said > 0 {
				said--
			}
		}
		if said < 0 {
			t.Errorf("%s: %d messages for what is not there", typeName, -said)
		}
	}
	v := voice(t, quantity.Metric)
	for _, s := range fault.Signs() {
		if got := len(v.SignFirst(s)) > 0; got != s.LightFirst() {
			t.Errorf("%s: says how light is told: %t, want %t", s, got, s.LightFirst())
		}
	}
	for _, w := range fault.Places() {
		if english["fault.place."+string(w)] == nil || english["fault.place_words."+string(w)] == nil {
			t.Errorf("no words of the place %s", w)
		}
	}
}

// Every cause and every fact as they are read, in each system of units.
func TestFaultsAsTheyAreRead(t *testing.T) {
	for name, system := range map[string]quantity.System{"metric": quantity.Metric, "US": quantity.US} {
		v := voice(t, system)
		var b strings.Builder
		for _, s := range fault.Signs() {
			fmt.Fprintf(&b, "%s (%s): %s %s %s\n", s, v.FaultPlace(s.Where()), v.SignName(s), v.SignLook(s), marked(v.SignFirst(s)))
			for _, l := range s.Links() {
				fmt.Fprintf(&b, "    %s (%s, %s)\n", v.CauseName(l.Cause), v.FaultKind(l.Cause.Kind()), v.CauseFrom(l))
			}
		}
		for _, c := range slices.Sorted(causes(t)) {
			told := v.Cause(c)
			fmt.Fprintf(&b, "%s: %s\n    %s\n    %s\n    %s\n", c, v.CauseName(c), marked(told.Why), marked(told.Check), marked(told.Remedy))
		}
		for _, k := range slices.Sorted(factKinds(t)) {
			fmt.Fprintf(&b, "%s: %s\n", k, v.Fact(fact(k)))
		}
		golden(t, "faults "+name, b.String())
		tidy(t, b.String())
	}
}

func causes(t *testing.T) func(yield func(fault.Cause) bool) {
	t.Helper()
	return func(yield func(fault.Cause) bool) {
		for _, value := range constants(t, "../trade/fault", "Cause") {
			if !yield(fault.Cause(constant.StringVal(value))) {
				return
			}
		}
	}
}

func factKinds(t *testing.T) func(yield func(fault.FactKind) bool) {
	t.Helper()
	return func(yield func(fault.FactKind) bool) {
		for _, value := range constants(t, "../trade/fault", "FactKind") {
			if !yield(fault.FactKind(constant.StringVal(value))) {
				return
			}
		}
	}
}

// fact is a fact with every figure that one may have.
func fact(k fault.FactKind) fault.Fact {
	f := fault.Fact{Kind: k, Name: "fixer 1"}
	for name, c := range map[string]float64{"read": 14.5, "wanted": 20, "coldest": 14, "warmest": 24} {
		f.Figures = append(f.Figures, reckoning.Figure{Name: name, Value: c, Unit: reckoning.C})
	}
	for name, n := range map[string]float64{"done": 42, "count": 40, "guessed": 12, "sheets": 8, "changes": 3} {
		f.Figures = append(f.Figures, reckoning.Figure{Name: name, Value: n})
	}
	for name, d := range map[string]float64{"in_it": 25, "planned": 60} {
		f.Figures = append(f.Figures, reckoning.Figure{Name: name, Value: d, Unit: reckoning.S})
	}
	for name, ml := range map[string]float64{"chemical_per_roll": 3, "least_per_roll": 5} {
		f.Figures = append(f.Figures, reckoning.Figure{Name: name, Value: ml, Unit: reckoning.ML})
	}
	for name, part := range map[string]float64{"mixed": 0.05, "label": 0.1} {
		f.Figures = append(f.Figures, reckoning.Figure{Name: name, Value: part, Unit: reckoning.Share})
	}
	return f
}

// What was found is told with its cause and what was done; signs and causes of a later program by their keys.
func TestFound(t *testing.T) {
	v := voice(t, quantity.Metric)
	at := time.Date(2026, 12, 3, 20, 40, 0, 0, time.UTC)
	for _, tt := range []struct {
		f    book.FaultSeen
		want string
	}{
		{
			book.FaultSeen{Sign: fault.BrownPatches, Cause: fault.NotUnder, Done: book.FaultRemedied},
			"Brown patches: *The print was not fully under*; the remedy was done.",
		},
		{book.FaultSeen{Sign: fault.GreyVeil}, "A grey veil all over: looked at, no cause found."},
		{book.FaultSeen{Sign: "odd_smell", Cause: "drains"}, "odd smell: *drains*."},
	} {
		if got := marked(v.Found(tt.f)); strings.ReplaceAll(got, "**", "*") != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
	}
	got := v.FoundOdd(book.FaultSeen{Sign: fault.BrownPatches, Cause: fault.NotUnder}, "fixer 1", at, "Maren").Text()
	if want := "Fixer 1: Brown patches: The print was not fully under. Thursday 3\u00a0December, 20:40, Maren."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// A fact's bath is called as people call it in the reader's language.
func TestFactsCalled(t *testing.T) {
	v := voice(t, quantity.Metric)
	r := &ahead.Report{Baths: []ahead.Outlook{{Bath: ahead.Bath{ID: "b1", Role: 1}}, {Bath: ahead.Bath{ID: "b2", Role: 3, Place: 1}}}}
	got := v.FactsCalled([]fault.Fact{{Bath: "b1"}, {Bath: "b2"}, {Bath: "gone", Name: "gone"}, {}}, r)
	for i, want := range []string{"the developer", "fixer 1", "gone", ""} {
		if got[i].Name != want {
			t.Errorf("called %q, want %q", got[i].Name, want)
		}
	}
}

// Plain words find what is meant.
func TestFindSigns(t *testing.T) {
	v := voice(t, quantity.Metric)
	for text, want := range map[string]fault.Sign{
		"brown patches on the print":                 fault.BrownPatches,
		"Brown paches on my prints":                  fault.BrownPatches,
		"print is flat and grey":                     fault.FlatBlacks,
		"weak blacks":                                fault.FlatBlacks,
		"the image rushes up and goes too dark":      fault.RushesUp,
		"paper stays white, nothing develops":        fault.NothingComes,
		"grey fog over the white borders":            fault.GreyVeil,
		"my highlights look dull":                    fault.DullHighlights,
		"mottled sky":                                fault.UnevenGrey,
		"yellow stain all over":                      fault.YellowStain,
		"purple fingerprints":                        fault.FingerMarks,
		"little white specks like grains":            fault.WhiteSpecks,
		"dust and hairs":                             fault.WhiteHairs,
		"round white spots":                          fault.RoundSpots,
		"blisters":                                   fault.Pinholes,
		"tong marks":                                 fault.TongMarks,
		"chalky bloom on dry print":                  fault.ChalkFilm,
		"print faded after years":                    fault.Fades,
		"stains while toning":                        fault.TonerStain,
		"the edges of rc paper curl":                 fault.EdgesLift,
		"emulsion peels off":                         fault.EmulsionPeels,
		"my film is completely blank":                fault.FilmBlank,
		"negatives are thin":                         fault.FilmThin,
		"film looks milky":                           fault.FilmMilky,
		"streaks from the sprocket holes":            fault.FilmStreaks,
		"drying marks on negatives":                  fault.FilmDryMarks,
		"reticulation":                               fault.FilmCracked,
		"crescents on the film":                      fault.FilmCrescents,
		"fixer is cloudy and smells of sulphur":      fault.FixerCloudy,
		"the stop bath turned purple":                fault.StopTurned,
		"sharp fumes":                                fault.SharpFumes,
		"developer is brown":                         fault.DeveloperBrown,
		"crystals in the bottle":                     fault.BottleCrystals,
		"pink water comes out of the tank":           fault.ColouredPour,
		"slime in the washer":                        fault.SlimyWash,
		"developper is brwon like cofee in the tray": fault.DeveloperBrown,
	} {
		got := v.FindSigns(text)
		if len(got) == 0 || got[0].Sign != want {
			t.Errorf("%q: %v, want %s", text, got, want)
		}
	}
	for _, text := range []string{"", "the", "xyzzy", "?!", "my this that with"} {
		if got := v.FindSigns(text); len(got) > 0 {
			t.Errorf("%q means %v, want nothing", text, got)
		}
	}
}

// Each sign is offered for its own name and for what it looks like, with the words by which it was found; at most six are offered,
// the likeliest first.
func TestSignsFindThemselves(t *testing.T) {
	v := voice(t, quantity.Metric)
	for _, s := range fault.Signs() {
		for _, text := range []string{v.SignName(s), strings.ToUpper(v.SignName(s)), v.SignName(s) + " " + v.SignLook(s)} {
			found := v.FindSigns(text)
			at := slices.IndexFunc(found, func(f words.SignFound) bool { return f.Sign == s })
			if at < 0 || at > 2 || len(found) > 6 || len(found[at].Met) == 0 {
				t.Errorf("%s: %q offers %v", s, text, found)
			}
			if !slices.IsSortedFunc(found, func(a, b words.SignFound) int { return cmp.Compare(b.Score, a.Score) }) {
				t.Errorf("%q: out of order: %v", text, found)
			}
		}
	}
}
