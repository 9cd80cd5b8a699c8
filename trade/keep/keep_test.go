package keep_test

import (
	"errors"
	"math"
	"testing"
	"time"
	_ "time/tzdata" // the clocks of London, wherever this runs

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/trade/keep"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

func on(y int, m time.Month, d int) time.Time { return time.Date(y, m, d, 0, 0, 0, 0, time.UTC) }

func dayOnly(y int, m time.Month, d int) keep.Moment {
	return keep.Moment{Time: on(y, m, d), DayOnly: true}
}

func worked(r process.Role) keep.Product { return keep.Product{Role: r, Form: keep.Working} }

func until(t *testing.T, k keep.Kept) keep.Answer {
	t.Helper()
	a, err := keep.Until(k)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestDateEndsIt: a litre of fixer made for the first evening, in a part-full bottle since: about a month (RF-pl). On the
// third evening, over four weeks on, it has days left, then none, whatever was counted.
func TestDateEndsIt(t *testing.T) {
	k := keep.Kept{Product: worked(process.Fixer), State: keep.PartBottle, Since: dayOnly(2026, 11, 3)}
	for _, c := range []struct {
		now    time.Time
		status keep.Status
		do     keep.Do
		days   int
	}{
		{on(2026, 11, 3), keep.Good, keep.Use, 30},
		{on(2026, 12, 2).Add(19 * time.Hour), keep.Good, keep.Use, 1},
		{on(2026, 12, 3).Add(23*time.Hour + 59*time.Minute), keep.Good, keep.Use, 0},
		{on(2026, 12, 4), keep.Over, keep.Discard, -1},
		{on(2027, 1, 3), keep.Over, keep.Discard, -31},
	} {
		k.Now = c.now
		a := until(t, k)
		if a.Status != c.status || a.Do != c.do || a.Days != c.days || !a.Binds.Day.Equal(on(2026, 12, 3)) {
			t.Errorf("%v: %+v", c.now, a)
		}
		if a.Binds.Rule != keep.ByDefault || a.Binds.Keeps.Source != "RF-pl" {
			t.Errorf("goes by %+v", a.Binds)
		}
	}
}

// TestUnknownAge: a developer that nobody knows since when is poured out; only a fixer is worth a test.
func TestUnknownAge(t *testing.T) {
	now := on(2026, 12, 3)
	for _, c := range []struct {
		name string
		k    keep.Kept
		why  keep.Why
		do   keep.Do
		test bool
	}{
		{"developer in a tray", keep.Kept{Product: worked(process.Developer), State: keep.Tray}, keep.AgeUnknown, keep.Discard, false},
		{"developer in a bottle", keep.Kept{Product: worked(process.Developer), State: keep.FullBottle}, keep.AgeUnknown, keep.Discard, false},
		{"developer opened", keep.Kept{Product: keep.Product{Role: process.Developer, Form: keep.Concentrate}, State: keep.Opened}, keep.AgeUnknown, keep.Discard, false},
		{"developer unopened", keep.Kept{Product: keep.Product{Role: process.Developer, Form: keep.Concentrate}, State: keep.Unopened}, keep.AgeUnknown, keep.AskLabel, false},
		{"stop bath", keep.Kept{Product: worked(process.StopBath), State: keep.Tray}, keep.AgeUnknown, keep.Discard, false},
		{"fixer in a tray", keep.Kept{Product: worked(process.Fixer), State: keep.Tray}, keep.AgeUnknown, keep.TestFirst, true},
		{"fixer as bought", keep.Kept{Product: keep.Product{Role: process.Fixer, Form: keep.Concentrate}, State: keep.Opened}, keep.AgeUnknown, keep.TestFirst, true},
		{"toner at work", keep.Kept{Product: worked(process.Toner), State: keep.PartBottle, Since: dayOnly(2026, 11, 1)}, keep.NoFigure, keep.AskLabel, false},
		{"toner in a tray", keep.Kept{Product: worked(process.Toner), State: keep.Tray, Since: dayOnly(2026, 11, 1)}, keep.NoFigure, keep.AskLabel, false},
		{"wherever it is", keep.Kept{Product: worked(process.WashingAid), Since: dayOnly(2026, 12, 1)}, keep.StateUnsaid, keep.AskLabel, false},
		{"tray known, making not", keep.Kept{
			Product: worked(process.Fixer), State: keep.Tray, Between: keep.PartBottle, TraySince: dayOnly(2026, 12, 3),
		}, keep.AgeUnknown, keep.TestFirst, true},
	} {
		c.k.Now = now
		a := until(t, c.k)
		if a.Status != keep.Unknown || a.Why != c.why || a.Do != c.do || (len(a.Tests) > 0) != c.test || !a.Binds.Day.IsZero() {
			t.Errorf("%s: %+v", c.name, a)
		}
	}
}

// TestLabelFirst: the label's own figure goes before the default, longer or shorter, for its state alone.
func TestLabelFirst(t *testing.T) {
	k := keep.Kept{Product: worked(process.Developer), State: keep.PartBottle, Since: dayOnly(2026, 11, 3), Now: on(2026, 11, 6)}
	k.Product.Label = map[keep.State]quantity.Period{keep.PartBottle: {Days: 7}, keep.Tray: {Hours: 12}}
	a := until(t, k)
	if a.Binds.Rule != keep.ByLabel || a.Binds.Keeps.Origin != reckoning.Label || !a.Binds.Day.Equal(on(2026, 11, 10)) || a.Status != keep.Good {
		t.Errorf("label: %+v", a)
	}
	if a.TrayLeft != 12*time.Hour {
		t.Errorf("left in the tray: %v", a.TrayLeft)
	}
	k.State = keep.FullBottle
	if a := until(t, k); a.Binds.Rule != keep.ByDefault || a.Status != keep.Over {
		t.Errorf("a state that the label does not name: %+v", a)
	}
}

// TestDefaults are those printed, with their sources; all others say that they are from memory.
func TestDefaults(t *testing.T) {
	for _, c := range []struct {
		role   process.Role
		form   keep.Form
		state  keep.State
		want   quantity.Period
		source string
	}{
		{process.Fixer, keep.Concentrate, keep.Unopened, quantity.Period{Months: 24}, "RF-pl"},
		{process.Fixer, keep.Concentrate, keep.Opened, quantity.Period{Months: 6}, "RF-pl"},
		{process.Fixer, keep.Working, keep.FullBottle, quantity.Period{Months: 2}, "Anchell3"},
		{process.Fixer, keep.Working, keep.PartBottle, quantity.Period{Months: 1}, "RF-pl"},
		{process.Fixer, keep.Working, keep.FloatingLid, quantity.Period{Months: 2}, "RF-pl"},
		{process.Fixer, keep.Working, keep.Tray, quantity.Period{Days: 7}, "RF-pl"},
		{process.Developer, keep.Working, keep.Tray, quantity.Period{Hours: 24}, "Film-is"},
		{process.Developer, keep.Working, keep.PartBottle, quantity.Period{Hours: 24}, "Film-is"},
		{process.Developer, keep.Stock, keep.FullBottle, quantity.Period{Months: 6}, ""},
		{process.Developer, keep.Stock, keep.PartBottle, quantity.Period{Months: 2}, ""},
		{process.Developer, keep.Stock, keep.Tank, quantity.Period{Months: 1}, ""},
		{process.Developer, keep.Stock, keep.Tray, quantity.Period{Hours: 24}, ""},
		{process.StopBath, keep.Working, keep.Tray, quantity.Period{Days: 3}, ""},
		{process.WashingAid, keep.Working, keep.Tray, quantity.Period{Hours: 24}, ""},
		{process.WashingAid, keep.Stock, keep.FullBottle, quantity.Period{Months: 3}, ""},
	} {
		p, f, ok := keep.Default(c.role, c.form, c.state)
		origin := reckoning.FromMemory
		if c.source != "" {
			origin = reckoning.Standard
		}
		if !ok || p != c.want || f.Origin != origin || f.Source != c.source || f.Unit != reckoning.D {
			t.Errorf("%v, %v, %v: %v %+v", c.role, c.form, c.state, p, f)
		}
	}
	k := keep.Kept{Product: worked(process.Fixer), State: keep.FullBottle, Since: dayOnly(2026, 11, 3), Now: on(2026, 11, 6)}
	if a := until(t, k); len(a.Disagrees) != 1 || a.Disagrees[0].Value != 365.25/2 || a.Disagrees[0].Source != "RF-pl" {
		t.Errorf("the sheet's 6 months are not named: %+v", a.Disagrees)
	}
}

// TestMonthsEnd: what keeps a month is not good in March; leap years; a month that has no such day.
func TestMonthsEnd(t *testing.T) {
	for _, c := range []struct{ since, want time.Time }{
		{on(2027, 1, 31), on(2027, 2, 28)},
		{on(2028, 1, 31), on(2028, 2, 29)},
		{on(2027, 2, 28), on(2027, 3, 28)},
		{on(2026, 12, 31), on(2027, 1, 31)},
		{on(2026, 10, 31), on(2026, 11, 30)},
	} {
		k := keep.Kept{Product: worked(process.Fixer), State: keep.PartBottle, Since: keep.Moment{Time: c.since, DayOnly: true}, Now: c.since}
		if a := until(t, k); !a.Binds.Day.Equal(c.want) {
			t.Errorf("a month from %v: %v, want %v", c.since, a.Binds.Day, c.want)
		}
	}
}

// TestClocks: 24 h are 24 h where the clocks change, and a day is a day; the day is that of the room.
func TestClocks(t *testing.T) {
	london, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatal(err)
	}
	spring := time.Date(2027, 3, 27, 18, 30, 0, 0, london) // the night after it has one hour less
	k := keep.Kept{Product: worked(process.Developer), State: keep.Tray, Since: keep.Moment{Time: spring}}
	for _, c := range []struct {
		after  time.Duration
		status keep.Status
	}{{0, keep.Good}, {24 * time.Hour, keep.Good}, {24*time.Hour + time.Second, keep.Over}} {
		k.Now = spring.Add(c.after)
		a := until(t, k)
		if a.Status != c.status || !a.Binds.Until.Equal(spring.Add(24*time.Hour)) || a.TrayLeft != max(24*time.Hour-c.after, 0) {
			t.Errorf("after %v: %+v", c.after, a)
		}
		if got := a.Binds.Until.In(london).Format("2 Jan 15:04"); got != "28 Mar 19:30" {
			t.Errorf("24 h are until %s", got)
		}
	}
	fix := keep.Kept{Product: worked(process.Fixer), State: keep.Tray, Since: keep.Moment{Time: spring}}
	fix.Now = time.Date(2027, 4, 3, 23, 30, 0, 0, london) // by UTC, still the same day; 7 days less 1 h and some
	if a := until(t, fix); a.Status != keep.Good || a.Days != 0 {
		t.Errorf("a week: %+v", a)
	}
	fix.Now = time.Date(2027, 4, 4, 0, 10, 0, 0, london) // 3 April by UTC
	if a := until(t, fix); a.Status != keep.Over || a.Days != -1 {
		t.Errorf("ten past midnight: %+v", a)
	}
}

// TestZones: a bare date is that date wherever the room is; an instant falls on the room's day, in whatever zone it is told.
func TestZones(t *testing.T) {
	west, east := time.FixedZone("west", -11*3600), time.FixedZone("east", 13*3600)
	late := time.Date(2026, 11, 3, 23, 0, 0, 0, time.UTC) // 4 November in the east, noon of the 3rd in the west
	for _, c := range []struct {
		name  string
		role  process.Role
		since keep.Moment
		zone  *time.Location
		want  time.Time
	}{
		{"a date in the west", process.Fixer, dayOnly(2026, 11, 3), west, on(2026, 12, 3)},
		{"a date in the east", process.Fixer, dayOnly(2026, 11, 3), east, on(2026, 12, 3)},
		{"an instant in the west", process.Fixer, keep.Moment{Time: late}, west, on(2026, 12, 3)},
		{"an instant in the east", process.Fixer, keep.Moment{Time: late}, east, on(2026, 12, 4)},
		{"hours in the west", process.Developer, keep.Moment{Time: late}, west, on(2026, 11, 4)},
		{"hours in the east", process.Developer, keep.Moment{Time: late}, east, on(2026, 11, 5)},
		{"hours of a date", process.Developer, dayOnly(2026, 11, 3), west, on(2026, 11, 4)},
	} {
		k := keep.Kept{Product: worked(c.role), State: keep.PartBottle, Since: c.since, Now: late.Add(time.Hour).In(c.zone)}
		if a := until(t, k); !a.Binds.Day.Equal(c.want) || a.Status != keep.Good {
			t.Errorf("%s: good until %v, want %v: %+v", c.name, a.Binds.Day, c.want, a)
		}
	}
}

// TestTrayAddsUp: a bath that is bottled between sessions ends by the bottle's date or by its hours in the tray.
func TestTrayAddsUp(t *testing.T) {
	start := time.Date(2026, 12, 3, 18, 0, 0, 0, time.UTC)
	k := keep.Kept{
		Product: worked(process.Fixer), State: keep.Tray, Between: keep.PartBottle,
		Since: keep.Moment{Time: on(2026, 11, 20)}, TraySince: keep.Moment{Time: start}, Now: start.Add(time.Hour),
	}
	for _, c := range []struct {
		name   string
		stood  time.Duration
		rule   keep.Rule
		day    time.Time
		left   time.Duration
		status keep.Status
	}{
		{"first evening", 0, keep.ByTray, on(2026, 12, 10), 7*24*time.Hour - time.Hour, keep.Good},
		{"six days stood", 6 * 24 * time.Hour, keep.ByTray, on(2026, 12, 4), 23 * time.Hour, keep.Good},
		{"stood too long", 7 * 24 * time.Hour, keep.ByTray, on(2026, 12, 3), 0, keep.Over},
	} {
		k.InTray = c.stood
		a := until(t, k)
		if a.Binds.Rule != c.rule || !a.Binds.Day.Equal(c.day) || a.TrayLeft != c.left || a.Status != c.status {
			t.Errorf("%s: %+v", c.name, a)
		}
		if a.Other == nil || a.Other.Rule != keep.ByDefault || !a.Other.Day.Equal(on(2026, 12, 20)) {
			t.Errorf("%s: the bottle's date is not named: %+v", c.name, a.Other)
		}
	}
	k.InTray, k.Since = 0, keep.Moment{Time: on(2026, 11, 5)}
	if a := until(t, k); a.Binds.Rule != keep.ByDefault || !a.Binds.Day.Equal(on(2026, 12, 5)) || a.Other.Rule != keep.ByTray {
		t.Errorf("the bottle's date comes first: %+v", a)
	}
	k.State, k.Between, k.InTray, k.TraySince = keep.PartBottle, keep.NoState, 3*24*time.Hour, keep.Moment{}
	if a := until(t, k); a.Binds.Rule != keep.ByDefault || a.TrayLeft != 4*24*time.Hour || a.Status != keep.Good {
		t.Errorf("in its bottle: %+v", a)
	}
	k.InTray = 8 * 24 * time.Hour
	if a := until(t, k); a.Binds.Rule != keep.ByTray || a.Status != keep.Over || a.TrayLeft != 0 || a.Other.Rule != keep.ByDefault {
		t.Errorf("in its bottle, but stood open too long: %+v", a)
	}
}

// TestContainers: a bottle is a part bottle from its level, nearly empty halves, warmth shortens and coolness does not lengthen.
func TestContainers(t *testing.T) {
	warm := func(c quantity.Celsius) *quantity.Celsius { return &c }
	for _, c := range []struct {
		name string
		form keep.Form
		s    keep.State
		lvl  float64
		at   *quantity.Celsius
		want time.Time
	}{
		{"full", keep.Working, keep.FullBottle, 0, nil, on(2027, 1, 3)},
		{"full by level", keep.Working, keep.FullBottle, 0.9, nil, on(2027, 1, 3)},
		{"called full", keep.Working, keep.FullBottle, 0.89, nil, on(2026, 12, 3)},
		{"part", keep.Working, keep.PartBottle, 0.25, nil, on(2026, 12, 3)},
		{"dregs", keep.Working, keep.PartBottle, 0.24, nil, on(2026, 11, 18)},
		{"cool", keep.Working, keep.PartBottle, 0.5, warm(8), on(2026, 12, 3)},
		{"24 °C", keep.Working, keep.PartBottle, 0.5, warm(24), on(2026, 12, 3)},
		{"34 °C", keep.Working, keep.PartBottle, 0.5, warm(34), on(2026, 11, 18)},
		{"lid", keep.Working, keep.FloatingLid, 0.5, nil, on(2027, 1, 3)},
		{"concentrate", keep.Concentrate, keep.PartBottle, 0.5, nil, on(2027, 5, 3)},
		{"working, said opened", keep.Working, keep.Opened, 0, nil, on(2026, 12, 3)},
	} {
		a := until(t, keep.Kept{
			Product: keep.Product{Role: process.Fixer, Form: c.form}, State: c.s, Level: c.lvl, Warmest: c.at,
			Since: dayOnly(2026, 11, 3), Now: on(2026, 11, 3),
		})
		if !a.Binds.Day.Equal(c.want) {
			t.Errorf("%s: %v, want %v", c.name, a.Binds.Day, c.want)
		}
		shortened := c.name == "dregs" || c.name == "34 °C"
		if (a.Binds.Keeps.By != nil) != shortened || shortened && (a.Binds.Keeps.Origin != reckoning.Computed || a.Binds.Keeps.By.Rule == "") {
			t.Errorf("%s: %+v", c.name, a.Binds.Keeps)
		}
	}
}

// TestFuture: a bath that was made tomorrow is told.
func TestFuture(t *testing.T) {
	k := keep.Kept{Product: worked(process.Fixer), State: keep.PartBottle, Since: dayOnly(2026, 12, 4), Now: on(2026, 12, 3)}
	if a := until(t, k); !a.FromFuture || a.Status != keep.Good {
		t.Errorf("%+v", a)
	}
	k.Now = on(2026, 12, 4)
	if a := until(t, k); a.FromFuture {
		t.Errorf("made today: %+v", a)
	}
}

func TestProblems(t *testing.T) {
	hot, nan := quantity.Celsius(90), quantity.Celsius(math.NaN())
	for field, changes := range map[string][]func(*keep.Kept){
		"role":    {func(k *keep.Kept) { k.Product.Role = process.NoRole }},
		"form":    {func(k *keep.Kept) { k.Product.Form = keep.NoForm }},
		"level":   {func(k *keep.Kept) { k.Level = 1.1 }, func(k *keep.Kept) { k.Level = math.NaN() }},
		"warmest": {func(k *keep.Kept) { k.Warmest = &hot }, func(k *keep.Kept) { k.Warmest = &nan }},
		"in_tray": {func(k *keep.Kept) { k.InTray = -1 }},
		"now":     {func(k *keep.Kept) { k.Now = time.Time{} }},
		"between": {func(k *keep.Kept) { k.Between = keep.Tray }},
		"label":   {func(k *keep.Kept) { k.Product.Label = map[keep.State]quantity.Period{keep.Tray: {}} }},
	} {
		for _, change := range changes {
			k := keep.Kept{Product: worked(process.Fixer), State: keep.Tray, Since: dayOnly(2026, 11, 3), Now: on(2026, 11, 6)}
			change(&k)
			var got *keep.ProblemError
			a, err := keep.Until(k)
			if !errors.As(err, &got) || !errors.Is(err, keep.ErrProblem) || got.Field != field || err.Error() == "" {
				t.Errorf("%s: %v", field, err)
			}
			if d := cmp.Diff(keep.Answer{}, a); d != "" {
				t.Errorf("%s: an answer with an error: %s", field, d)
			}
		}
	}
}

// TestWords: every state and form has its word, the states those of a darkroom file.
func TestWords(t *testing.T) {
	var got []string
	for _, s := range keep.States() {
		got = append(got, s.String())
	}
	for _, f := range keep.Forms() {
		got = append(got, f.String())
	}
	want := []string{
		"unopened", "opened", "full bottle", "part bottle", "floating lid", "tray", "tank",
		"powder", "concentrate", "stock", "working",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if keep.NoState.String()+keep.NoForm.String() != "" {
		t.Error("nothing has a word")
	}
}

// TestNeverLonger: more air, more warmth, more hours in the tray, an earlier making: none is good for longer. The day goes by
// the room's zone alone, and once over it stays so.
func TestNeverLonger(t *testing.T) {
	zones := []*time.Location{time.UTC, time.FixedZone("west", -11*3600), time.FixedZone("east", 14*3600)}
	rapid.Check(t, func(t *rapid.T) {
		warm := quantity.Celsius(rapid.IntRange(5, 40).Draw(t, "warmest"))
		zone := rapid.SampledFrom(zones).Draw(t, "zone")
		k := keep.Kept{
			Product: keep.Product{Role: rapid.SampledFrom(process.Roles()).Draw(t, "role"), Form: rapid.SampledFrom(keep.Forms()).Draw(t, "form")},
			State:   rapid.SampledFrom(keep.States()).Draw(t, "state"),
			Level:   rapid.Float64Range(0.01, 1).Draw(t, "level"), Warmest: &warm,
			Since:  keep.Moment{Time: on(2026, 1, 1).AddDate(0, 0, rapid.IntRange(0, 800).Draw(t, "since")), DayOnly: rapid.Bool().Draw(t, "day only")},
			InTray: time.Duration(rapid.IntRange(0, 200).Draw(t, "hours in the tray")) * time.Hour,
			Now:    on(2026, 1, 1).AddDate(0, 0, rapid.IntRange(0, 2000).Draw(t, "now")).In(zone),
		}
		a, err := keep.Until(k)
		if err != nil {
			t.Fatal(err)
		}
		if a.Status == keep.Unknown {
			return
		}
		if hour, m, s := a.Binds.Day.Clock(); hour+m+s != 0 || a.Binds.Day.Location() != time.UTC {
			t.Errorf("the day is %v", a.Binds.Day)
		}
		for what, change := range map[string]func(*keep.Kept){
			"more air":      func(k *keep.Kept) { k.Level /= 2 },
			"warmer":        func(k *keep.Kept) { w := warm + 7; k.Warmest = &w },
			"longer stood":  func(k *keep.Kept) { k.InTray += 5 * time.Hour },
			"made before":   func(k *keep.Kept) { k.Since.Time = k.Since.Time.AddDate(0, 0, -3) },
			"a month later": func(k *keep.Kept) { k.Now = k.Now.AddDate(0, 1, 0) },
		} {
			worse := k
			change(&worse)
			b, err := keep.Until(worse)
			if err != nil {
				t.Fatal(err)
			}
			if b.Status == keep.Unknown || a.Status == keep.Over && b.Status == keep.Good || b.Days > a.Days || b.TrayLeft > a.TrayLeft {
				t.Errorf("%s is good for longer: %+v against %+v", what, b, a)
			}
		}
	})
}
