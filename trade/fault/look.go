package fault

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"wetside/trade/reckoning"
)

// ErrUnknownSign is wrapped by the error for a sign that the tables do not have.
var ErrUnknownSign = errors.New("unknown sign")

// A Question is what is seen, with what is known.
type Question struct {
	Sign  Sign
	Bath  string // the id of the bath that it is about, or empty: facts about other baths say nothing then
	Facts []Fact
	// No are causes whose check said no, Yes those whose check said yes.
	No, Yes []Cause
}

// A Guide is the answer: where to look, in order.
type Guide struct {
	Sign Sign
	// LightFirst is how many of Causes stand first, to be ruled out before a bath is touched.
	LightFirst int
	Causes     []Standing
}

// A Standing is a cause with why it stands where it stands.
type Standing struct {
	Link
	Kind   Kind
	Points int
	Speaks []Spoken // what speaks for or against it: the heaviest first, those for it before those against
	// Out says that its check said no, In that it said yes.
	Out, In   bool
	Reckoning reckoning.Reckoning
}

// A Spoken is a fact that bears on a cause.
type Spoken struct {
	Fact
	By Weight
}

// Look ranks the causes of a sign; the rule stands in the package's comment. The error wraps ErrUnknownSign.
func Look(q Question) (Guide, error) {
	if !q.Sign.Known() {
		return Guide{}, fmt.Errorf("%w: %q", ErrUnknownSign, q.Sign)
	}
	g := Guide{Sign: q.Sign}
	facts := q.relevant()
	for place, l := range q.Sign.Links() {
		g.Causes = append(g.Causes, q.standing(l, place, facts))
	}
	slices.SortStableFunc(g.Causes, func(a, b Standing) int {
		return cmp.Or(cmp.Compare(q.group(&a), q.group(&b)), cmp.Compare(b.Points, a.Points))
	})
	for i := range g.Causes {
		if g.Causes[i].Kind == Light && q.group(&g.Causes[i]) <= lightOpen {
			g.LightFirst++
		}
	}
	return g, nil
}

// The groups in which causes stand: lights that are to be ruled out first, the others, what was ruled out; what was confirmed
// leads its group.
const (
	lightConfirmed = iota
	lightOpen
	confirmed
	open
	ruledOut
)

func (q *Question) group(s *Standing) int {
	light := q.Sign.LightFirst() && s.Kind == Light
	switch {
	case s.Out:
		return ruledOut
	case light && s.In:
		return lightConfirmed
	case light:
		return lightOpen
	case s.In:
		return confirmed
	}
	return open
}

// relevant are the facts that say something of the question, each kind once, in a fixed order.
func (q *Question) relevant() []Fact {
	at := q.Sign.Where()
	facts := slices.DeleteFunc(slices.Clone(q.Facts), func(f Fact) bool {
		return f.About != Anywhere && at != InBath && f.About != at || q.Bath != "" && f.Bath != "" && f.Bath != q.Bath
	})
	slices.SortStableFunc(facts, func(a, b Fact) int {
		return cmp.Or(
			cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.Bath, b.Bath), cmp.Compare(a.Name, b.Name), cmp.Compare(a.About, b.About),
			slices.CompareFunc(a.Figures, b.Figures, func(x, y reckoning.Figure) int { return cmp.Compare(x.Value, y.Value) }),
		)
	})
	return slices.CompactFunc(facts, func(a, b Fact) bool { return a.Kind == b.Kind })
}

// standing reckons the points of one cause.
func (q *Question) standing(l Link, place int, facts []Fact) Standing {
	s := Standing{Link: l, Kind: l.Cause.Kind(), Points: max(firstPlace-perPlace*place, 0)}
	origin, source := l.Origin()
	puts := []reckoning.Figure{
		{Name: "fault_place", Value: float64(place + 1), Origin: origin, Source: source},
		{Name: "fault_place_points", Value: float64(s.Points), Origin: reckoning.Computed},
	}
	for _, f := range facts {
		if by := f.Kind.Bears(l.Cause); by != 0 {
			s.Speaks = append(s.Speaks, Spoken{f, by})
		}
	}
	switch { // a check that said both was made twice: the no is the careful one
	case slices.Contains(q.No, l.Cause):
		s.Out = true
		s.Speaks = append(s.Speaks, Spoken{Fact{Kind: CheckNo}, -Answered})
	case slices.Contains(q.Yes, l.Cause):
		s.In = true
		s.Speaks = append(s.Speaks, Spoken{Fact{Kind: CheckYes}, Answered})
	}
	slices.SortStableFunc(s.Speaks, func(a, b Spoken) int { return cmp.Compare(b.By, a.By) })
	for _, x := range s.Speaks {
		s.Points += int(x.By)
		puts = append(puts, reckoning.Figure{
			Name: "fault_" + string(x.Kind), Of: x.Name, Value: float64(x.By), Origin: reckoning.FromMemory,
		})
	}
	s.Reckoning = reckoning.Reckoning{
		Rule: "fault_points", Puts: puts, Result: reckoning.Figure{Name: "fault_points", Value: float64(s.Points)},
	}
	return s
}
