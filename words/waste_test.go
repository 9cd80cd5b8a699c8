package words_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/hazard/meet"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
	"wetside/trade/waste"
)

// Everything that is said of waste cans and drains, as a reader sees it.
func TestWasteIsSaid(t *testing.T) {
	v := voice(t, quantity.Metric)
	var b strings.Builder
	say := func(about string, said string) { fmt.Fprintf(&b, "%s\n    %s\n", about, said) }
	litre := quantity.Litre
	can := ahead.Can{WasteCan: book.WasteCan{Can: darkroom.Can{Name: "grey can", Takes: process.Fixer}}}
	can.Can.Holds.Value = 25 * litre
	for _, in := range []quantity.Volume{0, 10 * litre, 17 * litre, 20 * litre, 26 * litre} {
		can.Now = []book.WastePart{{Of: process.Fixer, Volume: in, Share: 1}}
		can.Level = waste.Can{Litres: 25}.Level(in.ML() / 1000)
		say(string(can.Level.Fill), marked(v.CanLevel(&can)))
	}
	can.Level = waste.Level{Fill: waste.NoSize}
	say("no size", marked(v.CanLevel(&can)))
	say("no can", v.CanName(&book.WasteCan{}))
	say("full on", marked(v.CanFullOn(time.Date(2027, time.March, 4, 12, 0, 0, 0, time.UTC))))
	for _, s := range []ahead.Silver{{Grams: waste.Span{P10: 9.14, P50: 12.3, P90: 15.72}, Known: 10, Unknown: 6}, {Unknown: 2}} {
		for _, p := range v.Silver(&s) {
			say("silver", marked(p))
		}
	}
	say("worth", marked(v.SilverWorth(waste.Worth(waste.Span{P10: 9, P50: 12, P90: 16}, 95), 95)))
	pair := meet.Pair{A: "fixer", B: "stop bath", Effect: meet.SulfurDioxide, Origin: reckoning.Standard, Source: "Anchell3"}
	for _, why := range []waste.Why{waste.ItsOwn, waste.NotItsOwn, waste.MustNotMeet, waste.NoKind} {
		m := waste.May{Why: why}
		if why == waste.MustNotMeet {
			m.Pairs = []meet.Pair{pair}
		}
		m.Goes = why == waste.ItsOwn
		say(string(why), marked(v.CanTakes(&can.WasteCan, &m, waste.Can{Litres: 25}.Level(24), litre)))
		say("wrong, "+string(why), marked(v.CanWrong(&ahead.Wrong{Part: book.WastePart{Of: process.StopBath, Volume: 2 * litre, Share: 1}, May: m})))
	}
	answer := waste.Answer{Office: "Water office", Words: "thinned tenfold", On: time.Date(2026, time.May, 4, 12, 0, 0, 0, time.UTC)}
	for _, w := range []waste.Way{waste.Collect, waste.KeepAndAsk, waste.AskFirst, waste.AsAnswered} {
		say(string(w), marked(v.Drain(&waste.Advice{Of: process.StopBath, Way: w})))
	}
	for _, r := range wasteReasons() {
		a := waste.Advice{Of: process.Fixer, Answer: &answer, Why: []waste.Because{{Reason: r, Origin: reckoning.FromMemory}}}
		say(string(r), marked(v.DrainWhy(&a)[0]))
	}
	a := waste.Advice{Of: process.Fixer, Answer: &waste.Answer{On: answer.On}, Why: []waste.Because{{Reason: waste.ItSaidNo}}}
	say("no more than no", marked(v.DrainWhy(&a)[0]))
	for _, h := range []waste.Here{{}, {Place: waste.Home, Drain: waste.Septic}, {Place: waste.School, Drain: waste.Sewer}, {Place: waste.Community, Drain: waste.NoDrain}} {
		say("here", marked(v.PlaceAndDrain(&h)))
	}
	in := book.WastePart{Of: process.Fixer, Volume: 6 * litre, Share: 1, Why: "it was there"}
	say("put", marked(v.WasteMove(&book.WasteMove{In: &in})))
	for _, lead := range []ahead.FindingKind{ahead.Spent, ahead.PastDate, ahead.FailedTest, ahead.AtSafeEnd, ahead.UnknownAge, ahead.OneShot, ahead.UseForLabel} {
		in.Why = string(lead)
		say("put for "+string(lead), marked(v.WasteMove(&book.WasteMove{In: &in})))
	}
	say("taken", marked(v.WasteMove(&book.WasteMove{Taken: &book.TakenAway{By: "the depot", Document: "N 17"}, With: []book.WastePart{in}})))
	golden(t, "waste", b.String())
}

func wasteReasons() []waste.Reason {
	return []waste.Reason{
		waste.SilverRich, waste.TonerHarms, waste.OverLeached, waste.NotByThinning, waste.ListedFixer, waste.ListedDeveloper, waste.NeverSeptic,
		waste.NothingDrains, waste.PlaceUnsaid, waste.DrainNotSaid, waste.HouseSewer, waste.NoHousehold, waste.Consent, waste.LimitsDiffer,
		waste.ItSaidYes, waste.ItSaidNo, waste.ItSaidIf, waste.SaidOfFixer, waste.AnswerOld, waste.AnswerElsewhere,
	}
}

// A reason that the trade has and the table above lacks would be said by nobody's eye.
func TestTableHoldsEveryReason(t *testing.T) {
	english := messages(t, "active.en.toml")
	n := 0
	for key := range english {
		if strings.HasPrefix(key, "waste.why.") {
			n++
		}
	}
	if n != len(wasteReasons()) {
		t.Errorf("%d reasons are said, %d are in the table", n, len(wasteReasons()))
	}
}
