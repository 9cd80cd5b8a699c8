package measure_test

import (
	"fmt"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// misordered follows the steps as a person would and says what they break of the rules that the package comment sets
// for them; empty where nothing.
func (q *question) misordered(c measure.Choice, a *action) string {
	for _, rule := range []func(measure.Choice, *action) string{
		q.roundsWrong, q.waterWrong, q.rinsesWrong, q.tipsWrong, q.stirWrong,
	} {
		if what := rule(c, a); what != "" {
			return fmt.Sprintf("%s: steps %+v", what, c.Steps)
		}
	}
	return ""
}

// roundsWrong checks that the steps of a group can be done in turn.
func (q *question) roundsWrong(c measure.Choice, _ *action) string {
	for i, s := range c.Steps {
		switch {
		case s.Rounds < 1 || s.Times < 1 || s.Times%s.Rounds != 0:
			return fmt.Sprintf("step %d is done %d times in %d rounds", i, s.Times, s.Rounds)
		case i == 0 && s.Group != 0:
			return "the first group is not 0"
		case i > 0 && s.Group != c.Steps[i-1].Group && s.Group != c.Steps[i-1].Group+1:
			return fmt.Sprintf("step %d leaves the order of groups", i)
		case i > 0 && s.Group == c.Steps[i-1].Group && s.Rounds != c.Steps[i-1].Rounds:
			return fmt.Sprintf("step %d has other rounds than its group", i)
		}
	}
	return ""
}

func isDose(s measure.Step) bool {
	return (s.Do == measure.Pour || s.Do == measure.Weigh) && s.What != measure.Water
}

// waterWrong checks what goes in first.
func (q *question) waterWrong(c measure.Choice, a *action) string {
	started, poured := -1, 0 // the group that has been started, and how much water lies in the tray
	for _, s := range c.Steps {
		switch {
		case s.Do == measure.Start && !q.WaterFirst:
			return "a start with water that nothing asks for"
		case s.Do == measure.Start:
			started = s.Group
			if off := s.Volume - q.startOf(a, s.Vessel); off < -3 || off > 3 {
				return fmt.Sprintf("start with %.10g mL, want %.10g mL", s.Volume.ML(), q.startOf(a, s.Vessel).ML())
			}
		case s.Do == measure.Pour && s.What == measure.Water:
			poured += s.Times
		case isDose(s) && q.WaterFirst && a.apart && poured != a.fills.times():
			return "chemical before the water"
		case isDose(s) && q.WaterFirst && !a.apart && started != s.Group:
			return "chemical before three quarters of the water"
		}
	}
	return ""
}

// startOf is, to a few units, three quarters of the water that goes into the vessel with a dose.
func (q *question) startOf(a *action, vessel int) quantity.Volume {
	water := a.fills[0].m.volume - a.doses[0].volume() - a.doses[1].volume()
	if a.q != nil && vessel == a.q.vessel {
		water = a.q.volume - a.r.volume
	}
	return (water*3 + 2) / 4
}

// rinsesWrong checks that what stuck to a measure goes into the mix.
func (q *question) rinsesWrong(c measure.Choice, a *action) string {
	if a.fills[0].m == nil {
		return ""
	}
	unrinsed := map[int]bool{}
	inJ1 := a.r != nil && a.r.vessel == a.q.vessel
	for _, s := range c.Steps {
		switch {
		case isDose(s) && (a.apart || !a.inJug) && (!inJ1 || s.What != measure.Chemical):
			unrinsed[s.Vessel] = true
		case s.Do == measure.Rinse, s.What == measure.Water && s.Do == measure.Pour:
			delete(unrinsed, s.Vessel)
		case s.Do == measure.Fill && len(unrinsed) > 0:
			return fmt.Sprintf("filled up before the rinse: %v", unrinsed)
		}
	}
	if len(unrinsed) > 0 {
		return fmt.Sprintf("not rinsed: %v", unrinsed)
	}
	return ""
}

// tipsWrong checks that all that is measured for the tray is tipped into it.
func (q *question) tipsWrong(c measure.Choice, a *action) string {
	tips, want := map[int]int{}, map[int]int{}
	for _, s := range c.Steps {
		if s.Do == measure.Tip {
			tips[s.Vessel] += s.Times
		}
		if a.apart && (s.Do == measure.Pour || s.Do == measure.Weigh) {
			want[s.Vessel] += s.Times
		}
	}
	if n := a.fills.times(); !a.apart && n > 1 {
		want[a.fills[0].m.vessel] = n
	}
	if fmt.Sprint(tips) != fmt.Sprint(want) {
		return fmt.Sprintf("tipped %v, want %v", tips, want)
	}
	return ""
}

// stirWrong checks that what comes together in the tray is stirred at the end.
func (q *question) stirWrong(c measure.Choice, a *action) string {
	last := c.Steps[len(c.Steps)-1]
	together := c.Manner == measure.FirstJug || a.fills[0].m != nil && (a.apart || !a.every && a.fills.times() > 1)
	if together && last.Do != measure.Stir {
		return "not stirred at the end"
	}
	return ""
}
