package words

import (
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// StartMark returns the mark that the water of a start (step i of a choice) comes to, on the scale that its vessel is
// filled up on: the one nearest to three quarters of a jugful's water that leaves half of the last quarter free. False
// where the vessel has no such mark.
func StartMark(c measure.Choice, vessels []measure.Vessel, i int) (scale int, mark quantity.Ratio, ok bool) {
	s := c.Steps[i]
	fill, ok := fillOf(c, i)
	if !ok || s.Vessel < 0 || s.Vessel >= len(vessels) || fill.Scale >= len(vessels[s.Vessel].Scales) {
		return 0, mark, false
	}
	at, found := vessels[s.Vessel].Scales[fill.Scale], false
	want := s.Volume.ML()
	highest, unit := want*7/6, at.Unit.Volume().ML() // want is 3/4 of the water, highest 7/8
	near := func(r quantity.Ratio) float64 { return max(r.Float()*unit-want, want-r.Float()*unit) }
	for n := at.From; n.Cmp(at.To) <= 0 && n.Float()*unit <= highest; {
		if n.Sign() > 0 && (!found || near(n) < near(mark)) {
			mark, found = n, true
		}
		next, err := n.Add(at.Step)
		if err != nil || at.Step.Sign() <= 0 {
			break
		}
		n = next
	}
	return fill.Scale, mark, found
}

// fillOf returns the filling up of the vessel in which step i starts.
func fillOf(c measure.Choice, i int) (measure.Step, bool) {
	for _, s := range c.Steps[i+1:] {
		if s.Group == c.Steps[i].Group && s.Do == measure.Fill && s.Vessel == c.Steps[i].Vessel {
			return s, true
		}
	}
	return measure.Step{}, false
}
