package wash_test

import (
	"testing"
	"time"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/wash"
)

// tray is ten sheets of 8×10 in 4 L, with 2 L/min.
func tray(m material.Material, s process.Standard) wash.Request {
	return wash.Request{
		Load:    wash.Load{Material: m, Area: 0.51612, Water: 20},
		Setting: wash.Setting{Vessel: 4 * quantity.Litre, Flow: 2 * quantity.Litre, Stages: 3},
		Limit:   wash.Limit{Standard: s},
	}
}

// roll is one 135-36 in its tank of 300 mL.
func roll() wash.Request {
	r := tray(material.Film, process.Archival)
	r.Load.Area, r.Setting.Vessel = 0.056, 300*quantity.Millilitre
	return r
}

// TestPrintedTimes: what the ways take lies within what is printed. They disagree, so the bounds are wide: FB without an aid 30 to
// 90 min (Clerc §607: PTP-607; an hour: WP-fixer), 12 changes of 5 min (Amateur Work vol. 5: AmW5); after an aid 10 to 20 min
// (apug-75985), RC about 4 min and as few as 2 (OPS-paper, WP-fixer).
func TestPrintedTimes(t *testing.T) {
	aided := tray(material.FB, process.Exhibition)
	aided.Load.Aid = true
	for _, c := range []struct {
		name        string
		r           wash.Request
		least, most time.Duration
	}{
		{"FB", tray(material.FB, process.Exhibition), 30 * time.Minute, 90 * time.Minute},
		{"FB archival", tray(material.FB, process.Archival), 30 * time.Minute, 90 * time.Minute},
		{"FB after an aid", aided, 10 * time.Minute, 20 * time.Minute},
		{"RC", tray(material.RC, process.Exhibition), 2 * time.Minute, 5 * time.Minute},
	} {
		if got := way(t, solve(t, c.r), wash.Running); got.Time < c.least || got.Time > c.most {
			t.Errorf("%s: %v running, printed %v to %v", c.name, got.Time, c.least, c.most)
		}
	}
	if got := way(t, solve(t, tray(material.FB, process.Exhibition)), wash.StillChanges); got.Contact != 5*time.Minute || got.Changes < 10 || got.Changes > 12 {
		t.Errorf("%d changes of %v, printed 12 of 5 min", got.Changes, got.Contact)
	}
}

// TestFilmPromisesTooMuch: 0.080 mg/in² = 0.124 g/m² were found in a film after 30 min of tap water (apug-1249791, second hand).
// The half-life printed for film promises far less: that is known, and said with the answer as long as the room has not
// tested. Calibrated by that very point, the wash takes longer than 30 min.
func TestFilmPromisesTooMuch(t *testing.T) {
	r := roll()
	a := solve(t, r)
	if found(a.Findings, wash.Untested) == nil {
		t.Error("nothing says that film's time constant is optimistic")
	}
	at := curve(t, r, wash.Result{Way: wash.Running}, 30*time.Minute, 2)
	if at[1].High >= 0.124 {
		t.Errorf("%g left by the default: it now meets what was found, and the text about it is wrong", at[1].High)
	}
	own, err := wash.Calibrate(wash.Test{Load: r.Load, Setting: r.Setting, Way: wash.Running, Time: 30 * time.Minute, Found: wash.Measured(0.124)})
	if err != nil {
		t.Fatal(err)
	}
	r.Own = &own
	absorbed := r.Load
	absorbed.Start = 60.0 * 36 / 107 // only what film absorbs, at 60 g/L: 4.1 halvings, a mean half-life of 7.3 min
	mean, err := wash.Calibrate(wash.Test{Load: absorbed, Setting: r.Setting, Way: wash.Running, Time: 30 * time.Minute, Found: wash.Measured(0.124)})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean half-life, min", mean.Factor, 7.3, 0.01)
	got := solve(t, r)
	if w := way(t, got, wash.Running); w.Time < 30*time.Minute || w.Safe < w.Time {
		t.Errorf("%v, safe %v: the point says that 30 min leave 0.124", w.Time, w.Safe)
	}
	if found(got.Findings, wash.Untested) != nil {
		t.Error("a room that has tested is called untested")
	}
}

// TestAidBeatsLongWash: 2 min in 2 % sulfite and 1 min of water leave less in film than over an hour of water alone was said to
// (apug-1249791); FB's curve without an aid flattens by 60 min and lies above that with one all the way (Dark-wash).
func TestAidBeatsLongWash(t *testing.T) {
	plain := tray(material.FB, process.Exhibition)
	aided := plain
	aided.Load.Aid = true
	w := wash.Result{Way: wash.Running}
	a, b := curve(t, plain, w, 90*time.Minute, 10), curve(t, aided, w, 90*time.Minute, 10)
	for i := 1; i < len(a); i++ {
		if !(b[i].Left < a[i].Left) {
			t.Errorf("after %v %g with an aid, %g without", a[i].At, b[i].Left, a[i].Left)
		}
	}
}

// TestFasterRenewalGainsNothing: FB renewed every 5 min is within a seventh of running water (Clerc §607: faster renewal gains
// nothing), and changes of a minute are not offered.
func TestFasterRenewalGainsNothing(t *testing.T) {
	r := tray(material.FB, process.Exhibition)
	r.Setting.Contact = time.Minute
	a := solve(t, r)
	still, running := way(t, a, wash.StillChanges), way(t, a, wash.Running)
	if still.Contact != 5*time.Minute || still.Time.Minutes() > running.Time.Minutes()*8/7 {
		t.Errorf("changes of %v take %v, running water %v", still.Contact, still.Time, running.Time)
	}
	f := found(still.Findings, wash.ContactTooShort)
	if f == nil || f.Got.Value != 60 || f.Limit.Value != 300 || f.Limit.By.Puts[0].Source != "PTP-607" {
		t.Errorf("asked for a minute: %+v", still.Findings)
	}
	if f := found(running.Findings, wash.ContactTooShort); f != nil {
		t.Errorf("running water has no contact time: %+v", f)
	}
}

// TestTemperature: half as warm by 10 K takes twice as long (TM11-2323), 10 K warmer no less than 1/1.2 (Sea-wash).
func TestTemperature(t *testing.T) {
	r := tray(material.FB, process.Exhibition)
	r.Setting.Flow = 200 * quantity.Litre
	times := map[quantity.Celsius]float64{}
	for _, c := range []quantity.Celsius{10, 20, 30} {
		r.Load.Water = c
		times[c] = way(t, solve(t, r), wash.Running).Time.Seconds()
	}
	near(t, "10 °C", times[10]/times[20], 2, 3e-3)
	near(t, "30 °C", times[30]/times[20], 1/1.2, 3e-3)
	r.Load.Water = 10
	if got := way(t, solve(t, r), wash.StillChanges).Contact; got != 10*time.Minute {
		t.Errorf("a change in water of 10 °C lasts %v, want 10 min", got)
	}
}

// TestRCTooLong: an hour in the wash, and a wash that would take so long.
func TestRCTooLong(t *testing.T) {
	if f, long := wash.Overlong(material.RC, time.Hour); !long || f.Kind != wash.RCTooLong || f.Got.Value != 3600 || f.Limit.Value != 600 {
		t.Errorf("RC for an hour: %+v %v", f, long)
	}
	for _, c := range []struct {
		m  material.Material
		in time.Duration
	}{{material.RC, 10 * time.Minute}, {material.RC, 0}, {material.FB, time.Hour}, {material.Film, time.Hour}} {
		if f, long := wash.Overlong(c.m, c.in); long {
			t.Errorf("%v for %v: %+v", c.m, c.in, f)
		}
	}
	r := tray(material.RC, process.Exhibition)
	r.Load.Water, r.Setting.Flow = 2, quantity.Litre/10
	a := solve(t, r)
	if found(way(t, a, wash.Running).Findings, wash.RCTooLong) == nil || found(way(t, a, wash.LongChanges).Findings, wash.RCTooLong) != nil && a.Ways[1].Time < 10*time.Minute {
		t.Errorf("a wash of %v: %+v", way(t, a, wash.Running).Time, a.Ways)
	}
	r.Load.Aid = true
	if found(solve(t, r).Findings, wash.AidNoUse) == nil {
		t.Error("RC with a washing aid: nothing is said")
	}
}

func found(fs []wash.Finding, k wash.FindingKind) *wash.Finding {
	for i := range fs {
		if fs[i].Kind == k {
			return &fs[i]
		}
	}
	return nil
}
