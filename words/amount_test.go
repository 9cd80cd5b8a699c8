package words_test

import (
	"bytes"
	"math"
	"os"
	"regexp"
	"strings"
	"sync"
	"testing"
	"testing/fstest"
	"time"

	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/words"

	"pgregory.net/rapid"
)

// spaced shows a text with plain spaces, so that the tables can be read.
func spaced(text string) string {
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(text)
}

func TestAmountsInEachSystem(t *testing.T) {
	at := time.Date(2026, 12, 3, 17, 30, 0, 0, time.UTC)
	berlin := time.FixedZone("room", 3600)
	ml := quantity.Millilitre
	say := func(v *words.Voice) map[string]string {
		return map[string]string{
			"small volume":  v.Volume(15 * ml / 2),
			"volume":        v.Volume(quantity.Litre),
			"gallon":        v.Volume(quantity.USGallon),
			"range":         v.VolumeRange(900*ml, quantity.Litre),
			"temperature":   v.Temperature(20.2),
			"read":          v.TemperatureRead(20.4),
			"mass":          v.Mass(33),
			"length":        v.Length(15),
			"area":          v.Area(0.0516128),
			"share":         v.Share(0.0725),
			"plus or minus": v.PlusMinus(0.145),
			"small share":   v.Share(0.004),
			"time":          v.Time(90 * time.Second),
			"long time":     v.Time(9*time.Minute + 45*time.Second),
			"sheets":        v.Count("sheets", 36),
			"one sheet":     v.Count("sheets", 1),
			"jugfuls":       v.CountWord("jugfuls", 2),
			"money":         v.Money(123456, "EUR"),
			"own money":     v.Money(-350, ""),
			"other money":   v.Money(1000, "CHF"),
			"day":           v.Day(time.Date(2026, 10, 14, 0, 0, 0, 0, time.UTC)),
			"day and year":  v.DayYear(time.Date(2026, 10, 14, 0, 0, 0, 0, time.UTC)),
			"date":          v.Date(at),
			"date and year": v.DateYear(at),
			"moment":        v.DateTime(at),
			"late":          v.Clock(time.Date(2026, 12, 3, 23, 30, 0, 0, time.UTC)),
			"period":        v.Period(quantity.Period{Months: 24}),
			"weeks":         v.Period(quantity.Period{Days: 28}),
			"hours":         v.Period(quantity.Period{Hours: 24}),
			"size":          v.Size(material.Inches(9.5, 12)),
			"roll":          v.Size(material.Size{Roll: material.Roll135x36}),
		}
	}
	same := map[string]string{
		"share": "7 %", "plus or minus": "±14 %", "small share": "0.4 %", "time": "1 min 30 s", "long time": "9 min 45 s",
		"sheets": "36 sheets", "one sheet": "1 sheet", "jugfuls": "two jugfuls", "money": "€1,234.56",
		"own money": "£−3.50", "other money": "10.00 CHF", "period": "2 years", "weeks": "4 weeks", "hours": "24 hours",
		"size": "9.5×12 in", "roll": "135-36",
	}
	for _, tc := range []struct {
		system quantity.System
		want   map[string]string
	}{
		{quantity.Metric, map[string]string{
			"small volume": "7.5 mL", "volume": "1 L", "gallon": "3.79 L", "range": "900 mL to 1 L", "temperature": "20 °C", "read": "20.4 °C",
			"mass": "33 g", "length": "15 mm", "area": "516 cm²", "day": "14 October", "day and year": "14 October 2026",
			"date": "Thursday 3 December", "date and year": "Thursday 3 December 2026",
			"moment": "Thursday 3 December, 18:30", "late": "00:30",
		}},
		{quantity.US, map[string]string{
			"small volume": "0.25 fl oz", "volume": "33.8 fl oz", "gallon": "1 gal", "range": "30.4 fl oz to 33.8 fl oz",
			"temperature": "68 °F", "read": "68.7 °F", "mass": "1.16 oz av", "length": "9/16 in", "area": "80 in²", "day": "October 14",
			"day and year": "October 14, 2026", "date": "Thursday, December 3", "date and year": "Thursday, December 3, 2026",
			"moment": "Thursday, December 3, 6:30 pm", "late": "12:30 am",
		}},
		{quantity.Imperial, map[string]string{
			"small volume": "0.26 fl oz", "volume": "35.2 fl oz", "gallon": "133 fl oz", "range": "31.7 fl oz to 35.2 fl oz",
			"temperature": "68 °F", "read": "68.7 °F", "mass": "1.16 oz av", "length": "9/16 in", "area": "80 in²", "day": "14 October",
			"day and year": "14 October 2026", "date": "Thursday 3 December", "date and year": "Thursday 3 December 2026",
			"moment": "Thursday 3 December, 18:30", "late": "00:30",
		}},
	} {
		got := say(voice(t, tc.system, words.Zone(berlin), words.Currency("GBP")))
		for what, text := range got {
			want, ok := tc.want[what]
			if !ok {
				want = same[what]
			}
			if spaced(text) != want {
				t.Errorf("system %d: %s: got %q, want %q", tc.system, what, spaced(text), want)
			}
			tidy(t, text)
		}
	}
}

// The day of a lot is a date, not a moment: it stays the same day in every zone.
func TestDayIsNotTurnedIntoAZone(t *testing.T) {
	v := voice(t, quantity.Metric, words.Zone(time.FixedZone("west", -8*3600)))
	if got, want := spaced(v.Day(time.Date(2026, 10, 14, 0, 0, 0, 0, time.UTC))), "14 October"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestSystemIsNamedWhereBothAreInTheRoom(t *testing.T) {
	v := voice(t, quantity.US, words.BothOunces())
	if got, want := spaced(v.Volume(quantity.USOunce)), "1 US fl oz"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What is printed is the same amount: read back by package quantity it is within the 5 % that printing may round by.
func TestPrintedVolumeReadsBack(t *testing.T) {
	voices := map[quantity.Ounce]*words.Voice{
		quantity.OunceUS:       voice(t, quantity.US),
		quantity.OunceImperial: voice(t, quantity.Imperial),
		quantity.NoOunce:       voice(t, quantity.Metric),
	}
	rapid.Check(t, func(r *rapid.T) {
		vol := quantity.Volume(rapid.Int64Range(int64(quantity.Millilitre)/5, int64(100*quantity.Litre)).Draw(r, "volume"))
		for o, v := range voices {
			text := v.Volume(vol)
			got, err := quantity.ReadVolume(text, o)
			if err != nil {
				r.Fatalf("%d: %q: %v", vol, text, err)
			}
			if off := math.Abs(float64(got-vol)) / float64(vol); off > 0.05 {
				r.Errorf("%v mL is printed as %q, %.1f %% off", vol.ML(), text, 100*off)
			}
		}
	})
}

func TestNamesOfTheTrade(t *testing.T) {
	v := voice(t, quantity.Metric)
	for _, tc := range []struct{ got, want string }{
		{v.Material(material.RC), "RC paper"},
		{v.MaterialLong(material.FB), "fibre-base paper"},
		{v.Role(process.StopBath), "stop bath"},
		{v.StepName(process.SecondFix), "fix again"},
		{v.BathName(process.Fix, material.Film), "film fixer"},
		{v.Standard(process.Archival), "archival"},
		{v.Fixing(process.TwoBaths), "two baths"},
		{v.Ordinal(2), "second"},
		{v.Ordinal(13), "no. 13"},
		{v.Times(1), "once"},
		{v.Times(3), "three times"},
		{v.Times(20), "20 times"},
		{v.Word(12), "twelve"},
		{v.Word(13), "13"},
	} {
		if tc.got != tc.want {
			t.Errorf("got %q, want %q", tc.got, tc.want)
		}
	}
	for _, s := range process.Steps() {
		tidy(t, v.StepName(s)+" "+v.BathName(s, material.RC)+" "+v.BathName(s, material.Film))
	}
	for _, r := range process.Roles() {
		tidy(t, v.Role(r))
	}
	for _, m := range material.All() {
		tidy(t, v.Material(m)+" "+v.MaterialLong(m))
	}
}

func TestDilutionNoteShowsBothReadings(t *testing.T) {
	v := voice(t, quantity.Metric)
	for _, tc := range []struct{ label, want string }{
		{"1+9", ""},
		{"1:9", "1:9 is read as 1+9: one part and nine parts of water. Read as one in nine it would be 11 % stronger."},
		{"1 to 31", "1 to 31 is read as 1+31: one part and 31 parts of water. Read as one in 31 it would be 3 % stronger."},
		{"25 mL/L", "25 mL/L is made up to the whole: first the chemical, then water up to the mark."},
		{"16 mL to 1 litre of water", "16 mL to 1 litre of water is added to the water, so a little more than the water comes of it."},
	} {
		d, err := dilution.Read(tc.label, dilution.Options{})
		if err != nil {
			t.Fatalf("%q: %v", tc.label, err)
		}
		if got := spaced(v.DilutionNote(tc.label, d).Text()); got != tc.want {
			t.Errorf("%q: got %q, want %q", tc.label, got, tc.want)
		}
	}
}

// A person's own words stay what they are, on one line, and cannot set anything heavy or turn the text around.
func TestOwnWordsAreHarmless(t *testing.T) {
	v := voice(t, quantity.Metric)
	c, d := solve(t, "1+9", "1 L", false, 0, jug(t))
	b := words.Batch{Vessels: nil, Dilution: d, Chemical: "**x**\u202e\n{{.Y}}  \uE000z", Into: "white"}
	b.Vessels = append(b.Vessels, jug(t))
	got := v.Mix(c, b)[0]
	if want := "**x** {{.Y}} z to the 100 mark of the litre jug."; got.Text() != want {
		t.Errorf("got %q, want %q", got.Text(), want)
	}
	if want := (words.Segment{Text: "**x** {{.Y}} z", Weight: words.Heavy}); got.Say[0] != want {
		t.Errorf("got %+v, want %+v", got.Say[0], want)
	}
}

func TestLanguages(t *testing.T) {
	for _, tc := range []struct{ lang, speaks string }{{"", "en"}, {"en", "en"}, {"en-GB", "en"}, {"tlh", "en"}} {
		v, err := words.New(tc.lang, quantity.Metric, quantity.NoOunce)
		if err != nil {
			t.Fatalf("%q: %v", tc.lang, err)
		}
		if got := v.Language().String(); got != tc.speaks {
			t.Errorf("%q speaks %s, want %s", tc.lang, got, tc.speaks)
		}
	}
	if _, err := words.New("not a language!", quantity.Metric, quantity.NoOunce); err == nil {
		t.Error("a tag that is none was taken")
	}
}

// Another language is one more file, and nothing else: here every message of the English one in angle quotes, under
// the tag of a language that writes 1,5.
func TestAnotherLanguageIsOneMoreFile(t *testing.T) {
	english, err := os.ReadFile("active.en.toml")
	if err != nil {
		t.Fatal(err)
	}
	quoted := regexp.MustCompile(`(?m)^(\w+ = ")(.*)"$`).ReplaceAll(english, []byte("${1}«${2}»\""))
	quoted = bytes.Replace(quoted, []byte(`point = "«.»"`), []byte(`point = ","`), 1)
	quoted = bytes.Replace(quoted, []byte(`group = "«,»"`), []byte(`group = "."`), 1)
	c, err := words.OpenFrom(fstest.MapFS{
		"active.en.toml": {Data: english}, "active.de.toml": {Data: quoted}, "sources.toml": {},
	})
	if err != nil {
		t.Fatal(err)
	}
	v, err := c.Voice("de-AT", quantity.Metric, quantity.NoOunce)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := v.Label("today"), "«Today»"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := spaced(v.Volume(quantity.Litre*3/2)), "1,5 L"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := spaced(v.Count("sheets", 1)), "«1 sheet»"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

// What is wrong with a language's file is said when it is to be spoken; the others go on speaking.
func TestABrokenLanguage(t *testing.T) {
	english, err := os.ReadFile("active.en.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, err := words.OpenFrom(fstest.MapFS{
		"active.en.toml": {Data: english}, "active.de.toml": {Data: []byte("stop = ")}, "sources.toml": {},
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.Voice("de", quantity.Metric, quantity.NoOunce); err == nil || !strings.Contains(err.Error(), "active.de.toml") {
		t.Errorf("German: %v, want the file's name", err)
	}
	if _, err := c.Voice("fr", quantity.Metric, quantity.NoOunce); err != nil {
		t.Errorf("French, of which there is no file: %v, want English", err)
	}
	if _, err := words.OpenFrom(fstest.MapFS{"active.de.toml": {Data: english}, "sources.toml": {}}); err == nil {
		t.Error("without English it opens")
	}
}

// A voice is used by every request at once; the race detector looks on.
func TestVoiceIsSafeForConcurrentUse(t *testing.T) {
	v := voice(t, quantity.Metric)
	c, d := solve(t, "1+9", "2 L", false, 0, jug(t))
	b := words.Batch{Vessels: append(words.Batch{}.Vessels, jug(t)), Dilution: d, Chemical: "paper developer", Into: "white"}
	want := v.Mix(c, b)[0].Text()
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 20 {
				if got := v.Mix(c, b)[0].Text(); got != want {
					t.Errorf("got %q, want %q", got, want)
				}
				v.Label("today")
			}
		})
	}
	all.Wait()
}
