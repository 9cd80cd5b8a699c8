package ahead_test

import (
	"testing"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/words"
)

// Until a bath is a day old nobody knows the room's pace: the count ends it, unless it is over before tonight is. From then
// on its day ends it where the safe count would last beyond that at the pace so far. A fixer of a litre, 35 safe, seven days
// in its tray.
func TestPaceOfTheFirstDay(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		sheets float64
		hours  float64
		by     ahead.By
	}{
		{"one sheet in twenty hours: no pace yet", 1, 20, ahead.BySilver},
		{"one sheet in 23 h 59: no pace yet", 1, 24 - 1.0/60, ahead.BySilver},
		{"one sheet a day: 34 would last five weeks", 1, 24, ahead.ByTrayTime},
		{"eight in thirty hours: 27 would last four days", 8, 30, ahead.BySilver},
		{"nothing yet in three days: no pace", 0, 72, ahead.BySilver},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			b := newBench(t, 1000)
			way := b.usual("1+4", 1, process.OneBath)
			b.scene.Baths[way[2]].Product = product(t, "{name: rapid fixer, role: fixer, form: liquid, keeps: {tray: 7 days}}")
			b.ask(material.RC, process.Exhibition, process.OneBath, way...)
			if c.sheets > 0 {
				b.work(material.RC, c.sheets, way...)
			}
			b.scene.Now = b.scene.Now.Add(time.Duration(c.hours * float64(time.Hour)))
			o := b.of(way[2])
			if o.End.By != c.by {
				t.Errorf("by %s, %+v until %v; want %s", o.End.By, o.Left, o.End.Date, c.by)
			}
			if c.hours < 24 { // a session that goes on beyond its last day
				b.scene.Ends = o.End.Date.Add(time.Minute)
				if o = b.of(way[2]); o.End.By != ahead.ByTrayTime {
					t.Errorf("over before tonight is: by %s", o.End.By)
				}
			}
		})
	}
}

// The nights on which Berlin's clocks change: 24 hours in the tray are 24 hours, an hour off by the clock; seven days are days,
// to the end of the last one (Directive 2000/84/EC: the last Sundays of March and October, at 01:00 UTC).
func TestNightOfTheClocks(t *testing.T) {
	t.Parallel()
	berlin, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	v := inZone(t, berlin)
	for _, c := range []struct {
		name     string
		made     time.Time
		hour     int // at which the developer ends on the next day, the fixer's last
		dev, fix string
	}{
		{"autumn", time.Date(2026, time.October, 24, 20, 0, 0, 0, berlin), 19, "Sunday 25 October, 19:00", "Sunday 25 October"},
		{"spring", time.Date(2026, time.March, 28, 20, 0, 0, 0, berlin), 21, "Sunday 29 March, 21:00", "Sunday 29 March"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			b := newBench(t, few)
			b.scene.Now = c.made
			way := b.usual("1+4", 1, process.OneBath)
			b.scene.Baths[way[0]].Product = product(t, "{name: paper developer, role: developer, form: liquid, keeps: {tray: 24 h}}")
			b.scene.Baths[way[2]].Product = product(t, "{name: rapid fixer, role: fixer, form: liquid, keeps: {tray: 7 days}}")
			b.scene.Baths[way[2]].Made = c.made.AddDate(0, 0, -6)
			b.scene.Baths[way[2]].Since = c.made.AddDate(0, 0, -6)
			b.ask(material.RC, process.Exhibition, process.OneBath, way...)
			holds(t, v.Until(b.of(way[0])), c.dev)
			fixer := b.of(way[2])
			holds(t, v.Until(fixer), c.fix)
			if y, m, d := c.made.AddDate(0, 0, 1).Date(); !fixer.End.Date.Equal(time.Date(y, m, d, 23, 59, 59, 0, berlin)) {
				t.Errorf("the fixer until %v", fixer.End.Date)
			}
			at := func(minute int) ahead.Outlook {
				b.scene.Now = time.Date(c.made.Year(), c.made.Month(), c.made.Day()+1, c.hour, minute, 0, 0, berlin)
				return b.of(way[0])
			}
			if o := at(-1); o.Lead.Kind != ahead.UseUntil {
				t.Errorf("a minute before: %s", o.Lead.Kind)
			}
			if o := at(1); o.Lead.Kind != ahead.PastDate {
				t.Errorf("a minute after: %s", o.Lead.Kind)
			}
		})
	}
}

func inZone(t *testing.T, zone *time.Location) *words.Voice {
	t.Helper()
	f, err := darkroom.Read([]byte("darkroom: {name: Room, ounce: us}\n"))
	if err != nil {
		t.Fatal(err)
	}
	v, err := words.New(f.Darkroom.Language, f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(zone))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// A label that names a count for RC alone says nothing of FB: a fixer is still counted by its silver, a developer by its time,
// and one of which nobody said what it stands in is said to be unknown (common practice: no figure is made up).
func TestMaterialWithoutARule(t *testing.T) {
	t.Parallel()
	b := newBench(t, 1000)
	way := b.usual("1+4", 1, process.OneBath)
	b.scene.Baths[way[0]].Product = product(t, "{name: paper developer, role: developer, form: liquid, capacity: {RC paper: 60 8x10 in per L}, keeps: {tray: 24 h}}")
	b.scene.Baths[way[2]].Product = product(t, labelled)
	b.ask(material.FB, process.Exhibition, process.OneBath, way...)
	if o := b.of(way[2]); o.Label != nil || o.Lead.Kind != ahead.UseFor || o.End.By != ahead.BySilver || o.Left.P10 != 6 {
		t.Errorf("fixer: label %v, %s by %s, %+v", o.Label, o.Lead.Kind, o.End.By, o.Left)
	}
	o := b.of(way[0])
	if o.Label != nil || o.Left != nil || o.Lead.Kind != ahead.UseUntil {
		t.Errorf("developer: label %v, left %+v, %s", o.Label, o.Left, o.Lead.Kind)
	}
	holds(t, voice(t).Outlook(o).Text(), "Use it until Friday 2 October")
	b.scene.Baths[way[0]].Container = ""
	o = b.of(way[0])
	if o.Left != nil || o.Lead.Kind != ahead.NoRule || o.End.By != ahead.ByUnknown {
		t.Errorf("developer, nobody knows where: left %+v, %s by %s until %v", o.Left, o.Lead.Kind, o.End.By, o.End.Date)
	}
	holds(t, voice(t).Outlook(o).Text(), "not known", "names no count for FB paper")
}
