package ahead_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
)

// tray is a litre of paper developer, 24 h in the tray and 40 sheets by its label, through which so many FB sheets went
// right after it was made; then so many hours passed.
func tray(t *testing.T, sheets float64, hours int, topUp float64) (ahead.Outlook, *bench) {
	t.Helper()
	b := newBench(t, 1000)
	way := b.usual("1+4", 1, process.OneBath)
	b.scene.Baths[way[0]].Product = product(t, "{name: paper developer, role: developer, form: liquid, capacity: {FB paper: 40 8x10 in per L}, keeps: {tray: 24 h}}")
	b.ask(material.FB, process.Exhibition, process.OneBath, way...)
	if sheets > 0 {
		b.work(material.FB, sheets, way...)
	}
	if topUp > 0 {
		b.scene.Events = append(b.scene.Events, ahead.Event{At: b.scene.Now, TopUp: &ahead.TopUp{Bath: way[0], Litres: topUp}})
	}
	b.scene.Now = b.scene.Now.Add(time.Duration(hours) * time.Hour)
	return b.of(way[0]), b
}

// A sheet of 8×10 FB takes 8 mL along (155 mL/m² after ten seconds), so a twentieth of a litre is gone after six, and ten
// take 80 mL (worked by hand with the defaults of package bath).
func TestDeveloperLevel(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		sheets float64
		topUp  float64
		kind   ahead.FindingKind
		says   string
	}{
		{"fresh", 0, 0, ahead.LevelSinks, "Each sheet takes about 8 mL of it along: top it up to the mark after 6 more."},
		{"four done", 4, 0, ahead.LevelSinks, "after 2 more."},
		{"ten done", 10, 0, ahead.LevelDown, "It is down about 80 mL: top it up to the mark, with fresh developer."},
		{"ten done and topped up", 10, 0.08, ahead.LevelSinks, "after 6 more."},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			o, _ := tray(t, c.sheets, 0, c.topUp)
			if !has(o, c.kind) || has(o, ahead.LevelDown) && has(o, ahead.LevelSinks) {
				t.Errorf("%+v, want %s", o.More, c.kind)
			}
			holds(t, beside(t, o), c.says)
			at := func(f reckoning.Reckoning) bool { return f.Rule == "level_of_developer" }
			if !reckoned(o, at) {
				t.Errorf("the level is not opened: %+v", o.Reckoning)
			}
		})
	}
}

func reckoned(o ahead.Outlook, is func(reckoning.Reckoning) bool) bool {
	return slices.ContainsFunc(o.Reckoning, is)
}

// Only what stands in a tray and is the prints' first bath sinks: not a bottle, not a fixer, and not beyond what tonight
// wants or the label still does.
func TestLevelIsLeftOut(t *testing.T) {
	t.Parallel()
	silent := func(name string, change func(b *bench)) {
		_, b := tray(t, 0, 0, 0)
		change(b)
		if o := b.of(0); has(o, ahead.LevelSinks) || has(o, ahead.LevelDown) {
			t.Errorf("%s: %+v", name, o.More)
		}
	}
	silent("in its bottle", func(b *bench) { b.scene.Baths[0].Container = darkroom.FullBottle })
	silent("behind another bath", func(b *bench) { b.scene.Chains[0].Baths = []int{1, 0, 2} })
	silent("four tonight", func(b *bench) {
		b.scene.Tonight = []ahead.Pass{{Material: material.FB, Area: ahead.Area8x10, Sheets: 4, Baths: []int{0, 1, 2}}}
	})
	silent("of unknown age", func(b *bench) { b.scene.Baths[0].Known = "unknown" })
	if o, _ := tray(t, 0, 0, 0); !has(o, ahead.LevelSinks) {
		t.Errorf("else it is said: %+v", o.More)
	}
}

// The label's hours end a developer whatever the air is reckoned to do: that stands beside it, from memory. Full, the air
// ends it when the label does; with a quarter of it carried away and not topped up, it takes as much of less, and sooner.
func TestAirStandsBesideTheLabel(t *testing.T) {
	t.Parallel()
	full, _ := tray(t, 0, 6, 0)
	short, b := tray(t, 32, 6, 0)
	if full.End.By != ahead.ByTrayTime || !full.End.Date.Equal(firstDay.Add(24*time.Hour)) || has(full, ahead.AirSooner) {
		t.Errorf("full: by %s at %v, %+v", full.End.By, full.End.Date, full.More)
	}
	if !short.End.Date.Equal(full.End.Date) || !has(short, ahead.AirSooner) {
		t.Errorf("short: at %v, want the label's %v; %+v", short.End.Date, full.End.Date, short.More)
	}
	// In litres of fresh developer: v = 1 − 32·0.008 stays; the air takes 0.5 L in 24 h, so 1/48 an hour, until v/2 is left.
	v := 1 - 32*0.0080
	want := firstDay.Add(time.Duration(v / 2 * 48 * float64(time.Hour)))
	for _, f := range short.More {
		if f.Kind == ahead.AirSooner && !f.Date.Equal(want.Truncate(30*time.Minute)) {
			t.Errorf("air ends it at %v, want the half hour before %v", f.Date, want)
		}
	}
	holds(t, beside(t, short), "air ends it about 11:30 on Friday 2 October", "from memory")
	rule := func(r reckoning.Reckoning) bool {
		return r.Rule == "hours_in_open_tray" && r.Puts[len(r.Puts)-1].Origin == reckoning.FromMemory
	}
	if !reckoned(full, rule) || !reckoned(short, rule) {
		t.Error("the air is not opened, or not marked as from memory")
	}
	if filled, _ := tray(t, 32, 6, 0.25); has(filled, ahead.AirSooner) {
		t.Errorf("topped up: %+v", filled.More)
	}
	b.scene.Now = firstDay.Add(25 * time.Hour)
	if o := b.of(0); o.Lead.Kind != ahead.PastDate || has(o, ahead.AirSooner) || has(o, ahead.LevelDown) {
		t.Errorf("past its hours: %s, %+v", o.Lead.Kind, o.More)
	}
}

// What binds a developer is said: its label's hours, its count where tonight wants more than that.
func TestWhatBindsADeveloper(t *testing.T) {
	t.Parallel()
	o, b := tray(t, 10, 0, 0)
	if o.End.By != ahead.ByTrayTime || o.Left.P10 != 30 {
		t.Errorf("by %s, %+v", o.End.By, o.Left)
	}
	holds(t, voice(t).Outlook(o).Text(), "Use it for 30 more 8×10 FB, as its label says.", "Its time ends it, on Friday 2 October, 18:00.")
	b.scene.Tonight = []ahead.Pass{{Material: material.FB, Area: ahead.Area8x10, Sheets: 36, Baths: []int{0, 1, 2}}}
	if o = b.of(0); o.End.By != ahead.ByLabel {
		t.Errorf("36 wanted of 30: by %s", o.End.By)
	}
	holds(t, voice(t).Outlook(o).Text(), "The label's count ends it, or Friday 2 October, 18:00.")
	holds(t, beside(t, o), "Tonight wants 36: make it new after 30.", "It is down about 80 mL")
}

// A developer that stood open on two evenings, in its bottle between, has those hours behind it in the air's reckoning, too:
// as many hours are left as by its label.
func TestAirAfterABottle(t *testing.T) {
	t.Parallel()
	_, b := tray(t, 0, 0, 0)
	x := &b.scene.Baths[0]
	x.InTray, x.Since = 4*time.Hour, firstDay.Add(20*time.Hour)
	b.scene.Now = firstDay.Add(23 * time.Hour)
	o := b.of(0)
	left := -1.0
	for _, r := range o.Reckoning {
		if r.Rule == "hours_in_open_tray" {
			left = r.Result.Value / 3600
		}
	}
	if byLabel := o.End.Date.Sub(b.scene.Now).Hours(); math.Abs(left-17) > 1e-9 || math.Abs(byLabel-17) > 1e-9 {
		t.Errorf("%.2f h by the air, %.2f by the label, want 17 of 24 after four and three", left, byLabel)
	}
}
