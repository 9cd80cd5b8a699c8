package web

import (
	"time"

	"wetside/ahead"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// testFields asks for a residual test of the room's own.
func (p *washPage) testFields(v *visit, get func(name, usual string) string, leftOut bool) {
	p.Found = field{Name: "found", Label: v.say.Label("wash_found"), Value: get("found", ""), Hint: v.say.Label("hint_wash_found")}
	p.After = field{Name: "after", Label: v.say.Label("wash_after"), Value: get("after", ""), Example: v.say.Label("hint_wash_after")}
	p.In = field{Name: "washed_in", Label: v.say.Label("wash_tested_way"), Value: get("washed_in", "")}
	p.In.Options = []option{{"", v.say.Label("not_said")}}
	for _, w := range []wash.Way{wash.Running, wash.StillChanges, wash.StandingTray} {
		p.In.Options = append(p.In.Options, option{w.String(), v.say.WashWay(w)})
	}
	p.Tested, p.LeftOut = p.Found.Value+p.After.Value != "", leftOut
}

// own finds the room's own washing: by the test that was typed, else by the last one in the book, with its moment; nil where there
// is none. ok is false where what was typed can't be read, with what is wrong at it.
func (p *washPage) own(v *visit, r wash.Request) (own *wash.Calibration, at time.Time, ok bool) {
	last, there := ahead.LastWashTest(v.state, r.Load.Material)
	if there {
		p.LeaveOut = v.say.WashLeaveOut(last.At)
	}
	if p.Tested {
		own, ok = p.typed(v, r)
		return own, at, ok
	}
	if !there || p.LeftOut {
		return nil, at, true
	}
	c, err := wash.Calibrate(last.In(r))
	if err != nil { // it was of a wash that is not to be had here
		return nil, at, true
	}
	return &c, last.At, true
}

// typed reads the test that was typed, as one of a wash like the one that is asked about.
func (p *washPage) typed(v *visit, r wash.Request) (*wash.Calibration, bool) {
	x := wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.UsualWay(r.Setting, 0)}
	ok := true
	for _, f := range []struct {
		field  *field
		needed bool
		read   func(text string) error
	}{
		{&p.Found, true, func(text string) (err error) { x.Found, err = wash.ReadFound(text); return err }},
		{&p.After, true, func(text string) (err error) { x.Time, err = quantity.ReadDuration(text); return err }},
		{&p.In, false, func(text string) (err error) { x.Way, err = wash.ReadWay(text); return err }},
	} {
		if f.field.Value == "" && !f.needed {
			continue
		}
		if f.field.Value == "" {
			f.field.Problem, ok = v.say.Tell("wash.missing", "Flag", f.field.Label).Text(), false
		} else if err := f.read(f.field.Value); err != nil {
			f.field.Problem, ok = v.say.ReadError(err).Text(), false
		}
	}
	if !ok {
		return nil, false
	}
	own, err := wash.Calibrate(x)
	if err != nil {
		p.refuse(v, err)
		return nil, false
	}
	return &own, true
}
