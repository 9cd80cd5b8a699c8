package ahead_test

import (
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

const labelled = `{name: rapid fixer, role: fixer, form: liquid, capacity: {RC paper: 80 8x10 in per L}}`

// The ordinary cases, in numbers and in words: what a careful printer would say of a bath that was made just now (common
// practice; the counts worked by hand with the defaults of package bath).
func TestCases(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name         string
		fixer        string
		litres       float64
		m            material.Material
		standard     process.Standard
		fixing       process.Fixing
		place        int // in the order of use
		safe, likely int
		slack        int
		says         []string // in the sentence
		beside       []string // beside it
	}{
		{
			"a litre of 1+4, RC: the label of 80 is named beside it", "1+4", 1, material.RC, process.Exhibition, process.OneBath, 2,
			35, 47, 0,
			[]string{"35 more 8×10 RC", "exhibition", "47", "Silver"},
			[]string{"80", "35"},
		},
		{
			"FB in one bath", "1+4", 1, material.FB, process.Exhibition, process.OneBath, 2,
			6, 8, 0,
			[]string{"6 more 8×10 FB", "exhibition", "8"},
			nil,
		},
		{
			"two of a litre, FB", "1+4", 1, material.FB, process.Exhibition, process.TwoBaths, 2,
			24, 32, 0,
			[]string{"24 more 8×10 FB", "32"},
			[]string{"fixer 2 moves forward"},
		},
		{
			"1+9: about half as many", "1+9", 1, material.RC, process.Exhibition, process.OneBath, 2,
			18, 24, 1,
			[]string{"more 8×10 RC"},
			nil,
		},
		{
			"stop bath of 2 L, FB: not by its colour in red light, but by pH paper", "1+4", 2, material.FB, process.Exhibition, process.OneBath, 1,
			55, 75, 1,
			[]string{"more 8×10 FB", "pH paper"},
			[]string{"red light"},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			b := newBench(t, 0)
			all := b.usual(c.fixer, c.litres, c.fixing)
			b.scene.Baths[all[1]].Product = product(t, `{name: print stop, role: stop bath, form: liquid, acid: yes, indicator: {from: yellow, to: purple}}`)
			b.scene.Baths[all[2]].Product = product(t, labelled)
			b.ask(c.m, c.standard, c.fixing, all...)
			o := b.of(all[c.place])
			if o.Left == nil {
				t.Fatalf("nothing counted: %+v", o.Lead)
			}
			if max(abs(o.Left.P10-c.safe), abs(o.Left.P50-c.likely)) > c.slack {
				t.Errorf("%d safe, %d likely; want %d, %d", o.Left.P10, o.Left.P50, c.safe, c.likely)
			}
			holds(t, voice(t).Outlook(o).Text(), c.says...)
			holds(t, beside(t, o), c.beside...)
		})
	}
}

func beside(t *testing.T, o ahead.Outlook) string {
	t.Helper()
	var all []string
	for _, p := range voice(t).Beside(o) {
		all = append(all, p.Text())
	}
	return strings.Join(all, " ")
}

// holds asks for words in a sentence; a space in it may be one that does not break.
func holds(t *testing.T, text string, wanted ...string) {
	t.Helper()
	plain := breaking(text)
	for _, w := range wanted {
		if !strings.Contains(plain, w) {
			t.Errorf("%q does not say %q", plain, w)
		}
	}
}

// breaking returns a text with ordinary spaces.
func breaking(text string) string {
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(text)
}

// At its safe end a bath is tested for what ends it: the first fixer with a strip where its silver does, with a drop on a print
// where the second bath does, of which a strip in the first tells nothing; a stop bath with pH paper (common practice).
func TestTestAtTheSafeEnd(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		standard process.Standard
		second   float64 // L of the second fixer; the first has one
		place    int
		by       ahead.By
		says     string
	}{
		{"its own silver", process.Exhibition, 1, 2, ahead.BySilver, "with the silver strip. It has done what is safe at exhibition standard"},
		{"a small second bath", process.WorkPrint, 0.4, 2, ahead.BySecondBath, "with the silver drop on a print. It has done what is safe at work print standard"},
		{"a stop bath", process.Exhibition, 1, 1, ahead.ByPH, "with the pH paper. It has done what is safe; it probably lasts"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			b := newBench(t, 2000)
			all := b.usual("1+4", 1, process.TwoBaths)
			b.scene.Baths[all[3]].Litres = c.second
			b.ask(material.FB, c.standard, process.TwoBaths, all...)
			b.work(material.FB, float64(b.of(all[c.place]).Left.P10), all...)
			o := b.of(all[c.place])
			if o.Lead.Kind != ahead.AtSafeEnd || o.End.By != c.by || o.Left.P10 != 0 || o.OutOfUse() {
				t.Errorf("%s by %s, %+v", o.Lead.Kind, o.End.By, o.Left)
			}
			holds(t, voice(t).Outlook(o).Text(), "Test it before the next sheet, "+c.says)
			r := b.look()
			for _, d := range r.Due {
				if r.Baths[d.Bath].Index == all[c.place] && d.Kind != ahead.DueTest {
					t.Errorf("due: %s", d.Kind)
				}
			}
			if r.Lead.Kind != ahead.DoNext {
				t.Errorf("%s leads", r.Lead.Kind)
			}
			holds(t, voice(t).Together(r).Text(), "Test it before the next sheet.")
		})
	}
}

// FB in one bath names what would help: two baths, and a lower standard (common practice).
func TestHelpsForFibre(t *testing.T) {
	t.Parallel()
	b := newBench(t, 1000)
	all := b.usual("1+4", 1, process.OneBath)
	b.ask(material.FB, process.Exhibition, process.OneBath, all...)
	b.scene.Helps = true
	o := b.of(all[2])
	helps := map[ahead.HelpKind]ahead.Help{}
	for _, h := range o.Helps {
		helps[h.Kind] = h
	}
	for _, k := range []ahead.HelpKind{ahead.HelpTwoBaths, ahead.HelpWorkPrint, ahead.HelpRC, ahead.HelpMore} {
		if h, said := helps[k]; !said || !h.More || h.Left.P10 <= o.Left.P10 {
			t.Errorf("%s: %+v, %t; want more than %d", k, h, said, o.Left.P10)
		}
	}
}

// Archival FB in one bath answers with two baths, never with "0 more" (common practice).
func TestArchivalFibre(t *testing.T) {
	t.Parallel()
	b := newBench(t, 500)
	all := b.usual("1+4", 1, process.OneBath)
	b.ask(material.FB, process.Archival, process.OneBath, all...)
	o := b.of(all[2])
	if o.Left != nil || o.End.By != ahead.ByAdvice || o.Lead.Kind != ahead.UseTwoBaths {
		t.Fatalf("%+v, %s, %s; want the advice to use two baths", o.Left, o.End.By, o.Lead.Kind)
	}
	text := voice(t).Outlook(o).Text()
	holds(t, strings.ToLower(text), "two", "baths")
	if strings.Contains(text, "0") {
		t.Errorf("%q counts what is not to be counted", text)
	}
}

// The third evening at home, over four weeks after the mix, the fixer in a part-full bottle: the date ends it, not the
// count, and the sentence says so. Fewer sheets than usual, so that the count alone would go on (common practice).
func TestThirdEveningSaysTheDate(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		each int // sheets on each of two evenings
		day  int
		kind ahead.FindingKind
		by   ahead.By
	}{
		{9, 28, ahead.UseFor, ahead.ByKeeping},
		{9, 35, ahead.PastDate, ahead.ByKeeping},
		{18, 35, ahead.PastDate, ahead.ByKeeping}, // both the count and the date: the date is the surer
	} {
		r := newRoom(t, homeRoom)
		r.mix(0, 2, "fix1", "fix", "1+4", "1 L", "grey", "", "")
		for _, day := range []int{0, 14} {
			if day > 0 {
				r.at(day, 3, &book.PouredOut{Bath: "fix1", Tray: "grey"})
			}
			r.work(day, 60, c.each, material.RC, "fix1")
			r.at(day, 180, &book.PouredBack{Bath: "fix1", Into: darkroom.PartBottle})
		}
		o := r.look(c.day, 0, material.RC, "fix1")
		if o.Lead.Kind != c.kind || o.End.By != c.by {
			t.Errorf("%d sheets an evening, day %d: %s by %s; want %s by %s", c.each, c.day, o.Lead.Kind, o.End.By, c.kind, c.by)
		}
		text := voice(t).Outlook(o).Text()
		if c.kind == ahead.PastDate {
			holds(t, strings.ToLower(text), "do not use")
		} else {
			holds(t, text, "Its time ends it", "1 November")
		}
	}
}

// Nobody knows since when a developer stands in the tray: it is poured out; a fixer is tested first (common practice).
func TestUnknownAgeInWords(t *testing.T) {
	t.Parallel()
	b := newBench(t, 500)
	all := b.usual("1+4", 1, process.OneBath)
	for i := range b.scene.Baths {
		b.scene.Baths[i].Known = book.MadeUnknown
	}
	b.ask(material.RC, process.Exhibition, process.OneBath, all...)
	for place, want := range []string{"pour it out", "", "test"} {
		o := b.of(all[place])
		if want != "" {
			holds(t, strings.ToLower(voice(t).Outlook(o).Text()), want)
		}
		if o.Left != nil {
			t.Errorf("%s of unknown age: %+v counted", o.Bath.Role, o.Left)
		}
	}
}

// The fixer that stood behind brings its silver when it moves forward, so that the next change comes sooner (common
// practice with two baths).
func TestMovedForwardDoesFewer(t *testing.T) {
	t.Parallel()
	b := newBench(t, 2000)
	all := b.usual("1+4", 1, process.TwoBaths)
	b.ask(material.FB, process.Exhibition, process.TwoBaths, all...)
	fresh := b.of(all[2]).Left.P10
	b.work(material.FB, float64(fresh), all...)
	b.scene.Baths[all[2]].Gone = true
	b.scene.Baths[all[3]].Place = bath.First
	b.scene.Now = b.scene.Now.Add(time.Hour)
	next := b.bath(process.Fixer, bath.Second, "1+4", 1)
	b.scene.Chains[0].Baths = []int{all[0], all[1], all[3], next}
	if moved := b.of(all[3]).Left.P10; moved >= fresh || moved < fresh/2 {
		t.Errorf("%d after the change; want fewer than a fresh %d, and more than half", moved, fresh)
	}
}
