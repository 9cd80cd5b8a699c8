package wash

import (
	"math"
	"time"

	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Solve returns for every way that the setting allows the time, changes and water to the limit, and what is left then. The
// error is a *ProblemError. A way that does not get there is OutOfReach, with what it leaves.
func Solve(r Request) (Answer, error) {
	if err := r.check(); err != nil {
		return Answer{}, err
	}
	s := r.solver()
	a := Answer{Limit: s.limit, Start: s.start, Cheapest: -1, Fastest: -1, Findings: s.findings, Reckonings: s.reckonings}
	for _, w := range r.Setting.ways() {
		res := s.solve(w)
		if w == LongChanges && a.Ways[0].Status == Reached && res.Changes >= a.Ways[0].Changes {
			continue // nothing is saved
		}
		a.Ways = append(a.Ways, res)
	}
	for i, w := range a.Ways {
		if w.Status != Reached {
			continue
		}
		if c := a.Cheapest; c < 0 || w.Water < a.Ways[c].Water || w.Water == a.Ways[c].Water && w.Time < a.Ways[c].Time {
			a.Cheapest = i
		}
		if f := a.Fastest; f < 0 || w.Time < a.Ways[f].Time || w.Time == a.Ways[f].Time && w.Water < a.Ways[f].Water {
			a.Fastest = i
		}
	}
	return a, nil
}

// ways returns the ways that the setting allows, in their order.
func (s Setting) ways() []Way {
	ws := []Way{StillChanges, LongChanges}
	if s.Flow > 0 {
		ws = append(ws, Running)
	}
	if s.Flow > 0 && s.Stages > 1 {
		ws = append(ws, Cascade)
	}
	if s.Flow > 0 || s.Beat > 0 {
		ws = append(ws, StandingTray)
	}
	return ws
}

// A solver is a request with its figures worked out.
type solver struct {
	Request
	model, short, long model // as the time constants say, and as short and as long as they may be
	least, most, beat  float64
	tight              bool // Contact was shorter than the least
	start, limit       reckoning.Figure
	taus               []reckoning.Figure
	findings           []Finding
	reckonings         []reckoning.Reckoning
}

// solve works one way out.
func (s *solver) solve(w Way) Result {
	p := s.plan(w)
	res := s.reach(&s.model, p)
	if safe := s.reach(&s.long, p); safe.Status == Reached {
		res.Safe = safe.Time
	}
	if res.Status != Reached {
		res.Findings = append(res.Findings, Finding{
			Kind: FlowTooSmall, Got: figure("left", res.Left, reckoning.GPerM2, reckoning.Computed), Limit: s.limit,
		})
	}
	if s.tight && w == StillChanges {
		res.Findings = append(res.Findings, Finding{
			Kind: ContactTooShort, Got: seconds("contact", s.Setting.Contact, reckoning.Asked), Limit: s.contactFigure(),
		})
	}
	if f, long := Overlong(s.Load.Material, res.Time); long {
		res.Findings = append(res.Findings, f)
	}
	res.Reckonings = s.reckonWay(p, res)
	return res
}

// plan returns a way's plan; where its contact is to be found it is the longest that may be.
func (s *solver) plan(w Way) plan {
	p := plan{way: w, volume: litresOf(s.Setting.Vessel), flow: litresOf(s.Setting.Flow) / 60, contact: math.Inf(1)}
	switch w {
	case StillChanges:
		p.flow, p.contact = 0, s.least
	case LongChanges:
		p.flow, p.contact = 0, max(s.most, s.least)
	case Running:
		p.fills = 1
	case Cascade:
		p.fills = s.Setting.Stages
		if s.Setting.Loads > 1 {
			p.steady = s.Setting.Stages
		}
	case StandingTray:
		p.contact = s.beat
	case NoWay:
	}
	return p
}

// reach follows a plan to the limit.
func (s *solver) reach(m *model, p plan) Result {
	switch p.way {
	case Running:
		return s.reachRunning(m, p)
	case Cascade:
		return s.reachCascade(m, p)
	case StillChanges, LongChanges, StandingTray, NoWay:
	}
	n, left, ok := m.walk(p).fillings(s.limit.Value)
	if !ok {
		return Result{Way: p.way, Status: OutOfReach, Contact: duration(p.contact), Left: left}
	}
	if p.way == StandingTray { // out of the last filling as soon as may be
		before := float64(n-1) * p.contact
		after := func(rest float64) float64 { return m.walk(p).at(before + rest) }
		if t, ok := crossing(1, ceil(p.contact), s.limit.Value, after); ok {
			return s.result(p, n, before+float64(t), after(float64(t)))
		}
	}
	if p.way == LongChanges { // no longer than these fillings need
		after := func(contact float64) float64 {
			q := p
			q.contact = contact
			w := m.walk(q)
			for range n {
				w.change()
			}
			return m.left(w.c)
		}
		if t, ok := crossing(ceil(s.least), ceil(p.contact), s.limit.Value, after); ok {
			p.contact, left = float64(t), after(float64(t))
		}
	}
	return s.result(p, n, float64(n)*p.contact, left)
}

// reachRunning finds how long fresh water must run.
func (s *solver) reachRunning(m *model, p plan) Result {
	w := m.walk(p)
	t, ok := crossing(ceil(s.shortest()), int(longest.Seconds()), s.limit.Value, w.at)
	if !ok {
		return Result{Way: p.way, Status: OutOfReach, Left: w.at(longest.Seconds())}
	}
	return s.result(p, 1, float64(t), w.at(float64(t)))
}

// reachCascade finds how long the load must stay in each vessel.
func (s *solver) reachCascade(m *model, p plan) Result {
	n := s.Setting.Stages
	after := func(contact float64) float64 {
		q := p
		q.contact = contact
		return m.walk(q).at(contact * float64(n))
	}
	most := int(longest.Seconds()) / n
	t, ok := crossing(min(ceil(s.shortest()), most), most, s.limit.Value, after)
	if !ok {
		return Result{Way: p.way, Status: OutOfReach, Contact: duration(float64(most)), Left: after(float64(most))}
	}
	p.contact = float64(t)
	return s.result(p, n, float64(n*t), after(p.contact))
}

// shortest is the least time that a load is in a change, in a running wash or in each vessel of a cascade, in whole s.
func (s *solver) shortest() float64 {
	return math.Ceil(LeastContact(s.Load.Material).Value * s.slower())
}

func (s *solver) result(p plan, fills int, t, left float64) Result {
	res := Result{Way: p.way, Time: duration(math.Ceil(t)), Changes: fills, Left: left}
	if !math.IsInf(p.contact, 1) {
		res.Contact = duration(p.contact)
	}
	litres := p.litres(fills, t)
	if p.steady > 0 { // every load shares the fillings and what flows while the last ones are on their way
		loads := float64(s.Setting.Loads)
		litres = (float64(fills)*p.volume + p.flow*p.contact*(loads+float64(fills)-1)) / loads
	}
	water, err := quantity.VolumeOfML(1000 * litres)
	if err != nil { // a river, not a darkroom
		return Result{Way: p.way, Status: OutOfReach, Left: left}
	}
	res.Water = water
	return res
}

// Curve returns n points of what is left from the start to the time upTo, for a way that Solve found with the same request: for
// a plot. n counts as 2 at least. The error is a *ProblemError.
func Curve(r Request, w Result, upTo time.Duration, n int) ([]Point, error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	if upTo <= 0 || upTo > longest {
		return nil, &ProblemError{whyOf(float64(upTo)), "time", upTo.Seconds()}
	}
	if w.Way == NoWay {
		return nil, &ProblemError{WhyMissing, "way", 0}
	}
	s := r.solver()
	p := s.plan(w.Way)
	if w.Contact > 0 {
		p.contact = w.Contact.Seconds()
	}
	const most = 10_000
	n = min(max(n, 2), most)
	points := make([]Point, n)
	mid, low, high := s.model.walk(p), s.short.walk(p), s.long.walk(p)
	for i := range points {
		t := upTo.Seconds() * float64(i) / float64(n-1)
		points[i] = Point{At: duration(t), Left: mid.at(t), Low: low.at(t), High: high.at(t)}
	}
	return points, nil
}

// Overlong tells whether a material is too long in the wash: RC paper beyond LongestRC, whose edges lift.
func Overlong(m material.Material, in time.Duration) (Finding, bool) {
	most := LongestRC()
	if m != material.RC || in.Seconds() <= most.Value {
		return Finding{}, false
	}
	return Finding{Kind: RCTooLong, Got: seconds("in_the_wash", in, reckoning.Computed), Limit: most}, true
}

func ceil(s float64) int { return int(math.Ceil(s)) }

func duration(s float64) time.Duration {
	return time.Duration(math.Round(s*1e3)) * time.Millisecond
}
