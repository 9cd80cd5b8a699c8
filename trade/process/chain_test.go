package process_test

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

func stepsOf(chain []process.Stage) []string {
	var s []string
	for _, g := range chain {
		s = append(s, g.Step.String())
	}
	return s
}

// TestChains holds the chains of common practice: paper developer, stop or rinse, fixer; RC then a wash; FB a holding
// bath until a batch is together, the second fixer if it was left, toner, washing aid, wash; film with a clearing
// check, a rinse, a washing aid, a wash and the wetting agent.
func TestChains(t *testing.T) {
	two := process.TwoBaths
	for _, c := range []struct {
		name string
		m    material.Material
		w    process.Wants
		want []string
	}{
		{"RC", material.RC, process.Wants{}, []string{"develop", "stop", "fix", "wash", "dry"}},
		{
			"RC needs no washing aid", material.RC,
			process.Wants{WashingAid: true, PreWash: true},
			[]string{"develop", "stop", "fix", "wash", "dry"},
		},
		{
			"RC, two baths, toned, held", material.RC,
			process.Wants{Fixing: two, Toning: true, Hold: true, StopRinse: true},
			[]string{"develop", "stop_rinse", "fix", "second_fix", "hold", "rinse", "tone", "wash", "dry"},
		},
		{"FB", material.FB, process.Wants{}, []string{"develop", "stop", "fix", "hold", "wash", "dry"}},
		{
			"FB, two baths, washing aid", material.FB,
			process.Wants{Fixing: two, WashingAid: true},
			[]string{"develop", "stop", "fix", "second_fix", "hold", "washing_aid", "wash", "dry"},
		},
		{
			"FB, the second fixer left, toned", material.FB,
			process.Wants{Fixing: two, WashingAid: true, Toning: true, SecondFixLater: true},
			[]string{"develop", "stop", "fix", "hold", "second_fix", "tone", "washing_aid", "wash", "dry"},
		},
		{
			"film", material.Film,
			process.Wants{},
			[]string{"develop", "stop", "fix", "check_clearing", "rinse", "wash", "wetting_agent", "dry"},
		},
		{
			"film with all", material.Film,
			process.Wants{PreWash: true, StopRinse: true, WashingAid: true, Toning: true},
			[]string{
				"pre_wash", "develop", "stop_rinse", "fix", "check_clearing", "rinse", "washing_aid", "wash", "wetting_agent",
				"dry",
			},
		},
		{"nothing", material.None, process.Wants{}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.want, stepsOf(process.Chain(c.m, c.w))); d != "" {
				t.Errorf("chain (-want +got):\n%s", d)
			}
		})
	}
}

// wants is every way of wanting.
func wants() []process.Wants {
	var all []process.Wants
	for bits := range 1 << 7 {
		on := func(i int) bool { return bits>>i&1 == 1 }
		w := process.Wants{
			WashingAid: on(0), StopRinse: on(1), Toning: on(2), PreWash: on(3), Hold: on(4), SecondFixLater: on(5),
			Fixing: process.OneBath,
		}
		if on(6) {
			w.Fixing = process.TwoBaths
		}
		all = append(all, w)
	}
	return all
}

// TestChainRules goes through all chains there are: the first three baths stand in their order, no step stands twice,
// the default time lies within its range, every time has its figure with an origin, and what is
// wetted drains 10 s.
func TestChainRules(t *testing.T) {
	for _, m := range material.All() {
		for _, w := range wants() {
			chain := process.Chain(m, w)
			seen := map[process.Step]bool{}
			last := -1
			for _, g := range chain {
				if seen[g.Step] {
					t.Errorf("%v %+v: %v twice", m, w, g.Step)
				}
				seen[g.Step] = true
				if at := slices.Index(order, g.Step); at >= 0 {
					if at < last {
						t.Errorf("%v %+v: %v too late", m, w, g.Step)
					}
					last = at
				}
				checkStage(t, m, g)
			}
			if seen[process.SecondFix] != (w.Fixing == process.TwoBaths) || !seen[process.Wash] || !seen[process.Dry] {
				t.Errorf("%v %+v: %v", m, w, stepsOf(chain))
			}
		}
	}
}

var order = []process.Step{
	process.PreWash, process.Develop, process.Stop, process.StopRinse, process.Fix, process.SecondFix, process.Tone,
	process.WashAid, process.Wash, process.Wet, process.Dry,
}

func checkStage(t *testing.T, m material.Material, g process.Stage) {
	t.Helper()
	if g.Role != g.Step.Role() {
		t.Errorf("%v %v: role %v", m, g.Step, g.Role)
	}
	if g.Time > 0 && (g.Time < g.Least || g.Time > g.Most) {
		t.Errorf("%v %v: %v is not within %v to %v", m, g.Step, g.Time, g.Least, g.Most)
	}
	if drains := g.Drain == 10*time.Second; drains != g.Step.Liquid() || !drains && g.Drain != 0 {
		t.Errorf("%v %v drains %v", m, g.Step, g.Drain)
	}
	got := map[string]time.Duration{}
	for _, f := range g.Figures {
		got[f.Name] = time.Duration(f.Value * float64(time.Second))
		if f.Unit != reckoning.S || f.Origin == reckoning.Computed || (f.Origin == reckoning.Standard) != (f.Source != "") {
			t.Errorf("%v %v: figure %+v", m, g.Step, f)
		}
	}
	for name, want := range map[string]time.Duration{
		"time": g.Time, "time_least": g.Least, "time_most": g.Most, "drain": g.Drain,
	} {
		if got[name] != want {
			t.Errorf("%v %v: figure %s is %v, want %v", m, g.Step, name, got[name], want)
		}
	}
}

// TestPrintedTimes holds the defaults that have a source against what is printed there.
func TestPrintedTimes(t *testing.T) {
	aid, two := process.Wants{WashingAid: true}, process.Wants{Fixing: process.TwoBaths}
	for _, c := range []struct {
		m          material.Material
		w          process.Wants
		step       process.Step
		name       string
		want       time.Duration
		source, by string
	}{
		{material.FB, process.Wants{}, process.Develop, "time_least", 90 * time.Second, "Army-SS0509-45", "1½ to 2 min"},
		{material.FB, process.Wants{}, process.Develop, "time", 2 * time.Minute, "Army-SS0509-45", "1½ to 2 min"},
		{material.FB, process.Wants{}, process.Stop, "time_least", 5 * time.Second, "Navy-14209-291", "5 s"},
		{material.FB, process.Wants{}, process.Stop, "time_most", time.Minute, "Army-SS0509-45", "1 min"},
		{material.RC, process.Wants{}, process.Stop, "time_least", 10 * time.Second, "DR-TD", "10 to 30 s"},
		{material.RC, process.Wants{}, process.Stop, "time_most", 30 * time.Second, "DR-TD", "10 to 30 s"},
		{material.RC, process.Wants{}, process.Develop, "time_most", 2 * time.Minute, "DR-TD", "30 s to 2 min"},
		{material.FB, process.Wants{}, process.Fix, "time", time.Minute, "Anchell3", "60 s at film strength"},
		{material.FB, two, process.Fix, "time", 45 * time.Second, "Buffaloe", "two of 30 to 45 s"},
		{material.FB, two, process.SecondFix, "time_least", 30 * time.Second, "Buffaloe", "two of 30 to 45 s"},
		{material.FB, aid, process.WashAid, "time_least", 2 * time.Minute, "apug-75985", "2 to 3 min"},
		{material.FB, aid, process.Wash, "time_least", 10 * time.Minute, "apug-75985", "then 10 to 20 min"},
		{material.FB, aid, process.Wash, "time", 20 * time.Minute, "apug-75985", "then 10 to 20 min"},
		{material.FB, process.Wants{}, process.Wash, "time_most", 90 * time.Minute, "PTP-607", "90 min, very thick paper"},
		{material.RC, process.Wants{}, process.Wash, "time", 4 * time.Minute, "OPS-paper", "about 4 min"},
		{material.Film, process.Wants{}, process.Fix, "time", 5 * time.Minute, "Army-98-21", "5 min is adequate"},
		{material.Film, process.Wants{}, process.Wash, "time", 30 * time.Minute, "Army-98-30", "30 min"},
		{material.Film, process.Wants{}, process.Wash, "time_least", 20 * time.Minute, "Navy-14209-250", "at least 20 min"},
		{material.Film, aid, process.Rinse, "time", 30 * time.Second, "Army-98-24", "30 s rinse"},
		{material.Film, aid, process.WashAid, "time", 2 * time.Minute, "Army-98-24", "2 min"},
		{material.Film, aid, process.Wash, "time", 5 * time.Minute, "Army-98-24", "then 5 min"},
	} {
		f, ok := figure(process.Chain(c.m, c.w), c.step, c.name)
		if !ok || f.Value != c.want.Seconds() || f.Source != c.source {
			t.Errorf("%v, %v %s: %+v, want %v of %s (%s)", c.m, c.step, c.name, f, c.want, c.source, c.by)
		}
	}
	least, most := process.DrainRange()
	if d := process.Drain(); d.Value != 10 || d.Origin != reckoning.FromMemory || least.Value != 5 || most.Value != 15 {
		t.Errorf("drain %+v, %+v to %+v; want 10 s from memory, printed 5 s and 15 s", d, least, most)
	}
}

func figure(chain []process.Stage, s process.Step, name string) (reckoning.Figure, bool) {
	for _, g := range chain {
		for _, f := range g.Figures {
			if g.Step == s && f.Name == name {
				return f, true
			}
		}
	}
	return reckoning.Figure{}, false
}

// TestUntimed: a film's developer is timed by its chart, and a holding bath has a longest time only: an hour
// for FB, minutes for RC (from memory).
func TestUntimed(t *testing.T) {
	for _, g := range process.Chain(material.Film, process.Wants{}) {
		if g.Step == process.Develop && (g.Time != 0 || g.Least != 0 || g.Most != 0) {
			t.Errorf("a film's developer: %+v, want no default", g)
		}
	}
	fb := process.Chain(material.FB, process.Wants{})
	rc := process.Chain(material.RC, process.Wants{Hold: true})
	for _, c := range []struct {
		chain []process.Stage
		most  time.Duration
	}{{fb, time.Hour}, {rc, 10 * time.Minute}} {
		for _, g := range c.chain {
			if g.Step == process.Hold && (g.Time != 0 || g.Most != c.most) {
				t.Errorf("held %v to %v, want at most %v", g.Time, g.Most, c.most)
			}
		}
	}
}

func ExampleChain() {
	for _, g := range process.Chain(material.FB, process.Wants{Fixing: process.TwoBaths, WashingAid: true}) {
		fmt.Println(g.Step, g.Role, g.Time)
	}
	// Output:
	// develop developer 2m0s
	// stop stop bath 30s
	// fix fixer 45s
	// second_fix fixer 45s
	// hold  0s
	// washing_aid washing aid 3m0s
	// wash  20m0s
	// dry  0s
}

// TestBefore: every chain, with all that can be wanted, goes from step to step forwards.
func TestBefore(t *testing.T) {
	for _, m := range material.All() {
		for _, w := range []process.Wants{{}, {Fixing: process.TwoBaths, WashingAid: true, Toning: true, PreWash: true, Hold: true}} {
			chain := process.Chain(m, w)
			for i := range len(chain) - 1 {
				if !chain[i].Step.Before(chain[i+1].Step) || chain[i+1].Step.Before(chain[i].Step) {
					t.Errorf("%v: %v does not come before %v", m, chain[i].Step, chain[i+1].Step)
				}
			}
		}
	}
}
