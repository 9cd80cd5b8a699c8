package wash

import (
	"math"

	"wetside/trade/material"
	"wetside/trade/reckoning"
	"wetside/trade/temper"
)

// solver works the figures of a request out: what is held, the time constants at its temperature, the limit.
func (r Request) solver() *solver {
	s := &solver{Request: r}
	s.limit = LimitFor(r.Load.Material, r.Limit.Standard)
	if r.Limit.Own > 0 {
		s.limit = figure("limit", r.Limit.Own, reckoning.GPerM2, reckoning.Measured)
	}
	s.reckonStart()
	slow := s.reckonTau("time_constant", TimeConstant(r.Load.Material, r.Load.Aid), r.factor())
	s.model = s.modelWith(slow)
	short, long := r.open()
	s.short, s.long = s.modelWith(slow*short), s.modelWith(slow*long)
	s.reckonTimes()
	s.find()
	return s
}

// factor is how many times the default the room's own time constant is.
func (r Request) factor() float64 {
	if r.Own != nil {
		return r.Own.Factor
	}
	return 1
}

// factor is the room's own factor, as a figure that can be opened where a test is behind it.
func (c *Calibration) factor() reckoning.Figure {
	f := figure("own_factor", c.Factor, reckoning.One, reckoning.Measured)
	if len(c.Reckonings) > 0 {
		f.By = &c.Reckonings[0]
	}
	return f
}

// open is by how much the time constant may yet be shorter and longer, as a factor.
func (r Request) open() (short, long float64) {
	if r.Own != nil {
		return r.Own.short() / r.Own.Factor, r.Own.long() / r.Own.Factor
	}
	return 1 / Band().Value, Band().Value
}

// reckonStart finds what is in the material before the wash.
func (s *solver) reckonStart() {
	start := FreshFixer()
	if s.Load.Start > 0 {
		start = figure("start", s.Load.Start, reckoning.GPerL, reckoning.Computed)
	}
	held := Held(s.Load.Material)
	s.model.start = start.Value
	s.start = s.by("start_in_material", figure("start_in_material", start.Value*held.Value/1000, reckoning.GPerM2,
		reckoning.Computed), start, held)
}

// reckonTau finds a time constant at the temperature of the water, with the room's own factor.
func (s *solver) reckonTau(name string, at20 reckoning.Figure, own float64) float64 {
	factor, put := temper.WashFactor(s.Load.Water)
	puts := []reckoning.Figure{at20, put}
	if own != 1 {
		puts = append(puts, s.Own.factor())
	}
	f := s.by("time_constant", figure(name, at20.Value*factor*own, reckoning.S, reckoning.Computed), puts...)
	f.Of = at20.Of
	s.taus = append(s.taus, f)
	return f.Value
}

// modelWith returns the load with a time constant for what leaves slowest.
func (s *solver) modelWith(slow float64) model {
	m := model{area: float64(s.Load.Area), start: s.model.start}
	held := Held(s.Load.Material).Value / 1000
	if s.Load.Material != material.FB {
		m.places = []place{{held, slow}}
		return m
	}
	surface := SurfaceShare().Value
	if len(s.taus) < places-1 {
		s.reckonTau("surface_time_constant", SurfaceTimeConstant(), 1)
	}
	m.places = []place{{held * surface, s.taus[1].Value}, {held * (1 - surface), slow}}
	return m
}

// slower is by what contact times are lengthened: by the cold, and never shortened.
func (s *solver) slower() float64 {
	factor, _ := temper.WashFactor(s.Load.Water)
	return max(factor, 1)
}

// reckonTimes finds the contact times at the temperature of the water.
func (s *solver) reckonTimes() {
	slower := s.slower()
	s.least = s.shortest()
	if c := s.Setting.Contact.Seconds(); c > 0 {
		s.tight = c < s.least
		s.least = max(c, s.least)
	}
	s.most = math.Ceil(LongestContact(s.Load.Material).Value * slower)
	s.beat = math.Ceil(DumpEvery(s.Load.Material).Value * slower)
	if b := s.Setting.Beat.Seconds(); b > 0 {
		s.beat = max(b, s.shortest())
	}
}

// find says what is to be told of the load itself.
func (s *solver) find() {
	if s.Load.Material == material.RC && s.Load.Aid {
		s.findings = append(s.findings, Finding{Kind: AidNoUse})
	}
	if s.Own == nil {
		s.findings = append(s.findings, Finding{Kind: Untested, Got: s.taus[0], Limit: Band()})
		return
	}
	s.findings = append(s.findings, s.Own.Findings...)
	s.reckonings = append(s.reckonings, s.Own.Reckonings...)
	if blind := s.Own.Blind; blind > s.limit.Value {
		s.findings = append(s.findings, Finding{
			Kind: TestTooCoarse, Got: figure("found_most", blind, reckoning.GPerM2, reckoning.FromMemory), Limit: s.limit,
		})
	}
}

func (s *solver) contactFigure() reckoning.Figure {
	f := figure("least_contact", s.shortest(), reckoning.S, reckoning.Computed)
	_, put := temper.WashFactor(s.Load.Water)
	f.By = &reckoning.Reckoning{
		Rule: "least_contact", Puts: []reckoning.Figure{LeastContact(s.Load.Material), put},
		Result: figure("least_contact", s.shortest(), reckoning.S, reckoning.Computed),
	}
	return f
}

// reckonWay says how a way's time and water came about.
func (s *solver) reckonWay(p plan, res Result) []reckoning.Reckoning {
	vessel := figure("vessel", 1000*p.volume, reckoning.ML, reckoning.Measured)
	puts := []reckoning.Figure{
		s.start, s.limit, vessel,
		figure("area", float64(s.Load.Area), reckoning.M2, reckoning.Asked),
	}
	if p.flow > 0 {
		puts = append(puts, figure("flow_per_minute", 60*p.flow, reckoning.L, reckoning.Measured))
	}
	puts = append(puts, s.taus...)
	if res.Contact > 0 {
		puts = append(puts, s.contactPut(p.way, res))
	}
	changes := figure("changes", float64(res.Changes), reckoning.One, reckoning.Computed)
	time := reckoning.Reckoning{
		Rule: "wash_" + p.way.String(), Puts: puts, Result: seconds("time", res.Time, reckoning.Computed),
	}
	left := time
	left.Result = figure("left", res.Left, reckoning.GPerM2, reckoning.Computed)
	if res.Status != Reached {
		return []reckoning.Reckoning{left}
	}
	water := reckoning.Reckoning{
		Rule: "wash_water", Puts: []reckoning.Figure{vessel, changes},
		Result: figure("water", res.Water.ML()/1000, reckoning.L, reckoning.Computed),
	}
	if p.flow > 0 {
		water.Puts = append(water.Puts, figure("flow_per_minute", 60*p.flow, reckoning.L, reckoning.Measured),
			seconds("time", res.Time, reckoning.Computed))
	}
	if p.steady > 0 {
		water.Rule = "wash_water_of_loads"
		water.Puts = append(water.Puts, figure("loads", float64(s.Setting.Loads), reckoning.One, reckoning.Asked))
	}
	return []reckoning.Reckoning{time, left, water}
}

// contactPut is the contact time that a way was worked out with.
func (s *solver) contactPut(w Way, res Result) reckoning.Figure {
	f := seconds("contact", res.Contact, reckoning.Computed)
	switch {
	case w == StillChanges && s.Setting.Contact > 0 && !s.tight:
		f.Origin = reckoning.Asked
	case w == StillChanges:
		f = s.contactFigure()
	case w == StandingTray && s.Setting.Beat == 0:
		f.By = &reckoning.Reckoning{
			Rule: "least_contact", Puts: []reckoning.Figure{DumpEvery(s.Load.Material)}, Result: f,
		}
	case w == StandingTray:
		f.Origin = reckoning.Asked
	}
	return f
}

// by keeps a reckoning and returns its result as a figure that can be opened.
func (s *solver) by(rule string, result reckoning.Figure, puts ...reckoning.Figure) reckoning.Figure {
	r := reckoning.Reckoning{Rule: rule, Puts: puts, Result: result}
	s.reckonings = append(s.reckonings, r)
	return r.Figure()
}

func figure(name string, value float64, u reckoning.Unit, o reckoning.Origin) reckoning.Figure {
	return reckoning.Figure{Name: name, Value: value, Unit: u, Origin: o}
}
