package sheet_test

import (
	"bytes"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/draw/label"
	"wetside/plan"
	"wetside/sheet"
	"wetside/trade/material"
	"wetside/words"

	"golang.org/x/text/language"
)

// unsaid is what stands where a message or what belongs in it is missing.
var unsaid = regexp.MustCompile(`\[[a-z_]+\.[A-Za-z_.0-9]+\]|<no\s*value>|\{\{|\x{E000}`)

// An evening is the example's with its plan, what is coming for its baths, and a year of another darkroom's waste cans.
type evening struct {
	file  darkroom.File
	plan  plan.Plan
	ahead ahead.Report
	waste ahead.WasteYear
}

func exampleEvening(t *testing.T) evening {
	t.Helper()
	e := evening{file: exampleRoom(t, "A4")}
	e.waste, _ = wasteYear(t)
	request := plan.Request{File: e.file, Now: day}
	p, err := plan.Make(t.Context(), request)
	if err != nil {
		t.Fatal(err)
	}
	s, err := plan.Ahead(t.Context(), request, material.None)
	if err != nil {
		t.Fatal(err)
	}
	s.Draws = 200
	if e.ahead, err = ahead.Look(s); err != nil {
		t.Fatal(err)
	}
	e.plan = p
	return e
}

// sheets draws all that goes on paper, by name.
func (e evening) sheets(t *testing.T, v *words.Voice) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	draw := func(name string, err error, b *bytes.Buffer) {
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		out[name] = b.Bytes()
	}
	var mix, cards, wall, tapes, waste, labels bytes.Buffer
	draw("mix", sheet.Mix(&mix, v, e.plan, e.file), &mix)
	draw("cards", sheet.Cards(&cards, v, e.plan, e.ahead, e.file), &cards)
	draw("wall", sheet.Baths(&wall, v, e.ahead, e.file), &wall)
	draw("tapes", sheet.Tapes(&tapes, v, e.ahead, e.file, func(id string) string { return id }), &tapes)
	draw("waste", sheet.Waste(&waste, v, e.waste, e.file), &waste)
	var all []label.Label
	for i := range e.ahead.Baths {
		l, err := label.OfBath(v, &e.ahead.Baths[i], e.file, label.Told{By: "Maren Ols", Address: labelAddress})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, l)
	}
	usual, _ := label.Named("99.1x67.7")
	draw("labels", sheet.Labels(&labels, all, usual, 1, day), &labels)
	return out
}

// In every language each sheet says all it has to say on the paper, on at most one page more than in English.
func TestEveryLanguageOnPaper(t *testing.T) {
	c, err := words.Open()
	if err != nil {
		t.Fatal(err)
	}
	e := exampleEvening(t)
	english := map[string]int{}
	for _, lang := range c.Languages() { // English first
		v, err := c.Voice(lang.String(), e.file.Darkroom.Units, e.file.Darkroom.Ounce, words.Zone(time.UTC))
		if err != nil {
			t.Fatal(err)
		}
		for name, pdf := range e.sheets(t, v) {
			at := lang.String() + " " + name
			pages := onPaper(t, at, pdf)
			if lang == language.English {
				english[name] = pages
			}
			if pages == 0 || pages > english[name]+1 || (name == "wall" || name == "waste") && pages != 1 {
				t.Errorf("%s: %d pages, in English %d", at, pages, english[name])
			}
		}
	}
	if len(english) < 6 {
		t.Fatalf("sheets: %v", english)
	}
}

// over reports whether the letters of two words stand on one another: of poppler's box of a word, which is the face's, capitals and
// figures take the middle (Liberation Sans: ascent 0.905, descent 0.212, capitals 0.729 of the size).
func (p placed) over(x placed) bool {
	top := func(p placed) float64 { return p.Top + 0.16*(p.Bottom-p.Top) }
	foot := func(p placed) float64 { return p.Bottom - 0.19*(p.Bottom-p.Top) }
	return min(p.Right, x.Right)-max(p.Left, x.Left) > 0.6 && min(foot(p), foot(x))-max(top(p), top(x)) > 0.3
}

// onPaper holds a sheet's words within the paper, whole and off one another, and returns its pages.
func onPaper(t *testing.T, name string, pdf []byte) int {
	t.Helper()
	pages := placedWords(t, pdf).Pages
	for i, page := range pages {
		if len(page.Words) == 0 {
			t.Errorf("%s: page %d is empty", name, i+1)
		}
		var text strings.Builder
		for j, w := range page.Words {
			text.WriteString(w.Text + " ")
			for _, x := range page.Words[:j] {
				if w.over(x) {
					t.Errorf("%s, page %d: %q stands on %q at %.0f, %.0f", name, i+1, w.Text, x.Text, w.Left, w.Top)
				}
			}
			if w.Left < 0 || w.Top < 0 || w.Right > page.Width || w.Bottom > page.Height {
				t.Errorf("%s, page %d: %q at %.0f to %.0f, %.0f to %.0f", name, i+1, w.Text, w.Left, w.Right, w.Top, w.Bottom)
			}
		}
		if missing := unsaid.FindString(text.String()); missing != "" {
			t.Errorf("%s, page %d says %q", name, i+1, missing)
		}
	}
	return len(pages)
}
