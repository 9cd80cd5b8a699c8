package label_test

import (
	"errors"
	"flag"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/draw/label"
	"wetside/draw/scene"
	"wetside/plan"
	"wetside/trade/material"
	"wetside/words"
)

var update = flag.Bool("update", false, "write the golden files anew")

var day = time.Date(2027, 2, 18, 15, 0, 0, 0, time.UTC)

// room is the example's darkroom with what is coming for its baths, in a language.
func room(t *testing.T, lang string) (darkroom.File, ahead.Report, *words.Voice) {
	t.Helper()
	f, err := darkroom.Read(example.YAML(day))
	if err != nil {
		t.Fatal(err)
	}
	s, err := plan.Ahead(t.Context(), plan.Request{File: f, Now: day}, material.None)
	if err != nil {
		t.Fatal(err)
	}
	r, err := ahead.Look(s)
	if err != nil {
		t.Fatal(err)
	}
	v, err := words.New(lang, f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	return f, r, v
}

const address = "http://192.168.178.20:8460/baths/0198c7a2-5b1e-7c3d-9f00-1234567890ab"

// labels are those of the example's baths and of a can of its fixer, by title.
func labels(t *testing.T) map[string]label.Label {
	t.Helper()
	return labelsIn(t, "en")
}

func labelsIn(t *testing.T, lang string) map[string]label.Label {
	t.Helper()
	f, r, v := room(t, lang)
	all := map[string]label.Label{}
	for i := range r.Baths {
		l, err := label.OfBath(v, &r.Baths[i], f, label.Told{By: "Maren Ols", Address: address})
		if err != nil {
			t.Fatal(err)
		}
		all[l.Title] = l
	}
	c := darkroom.Can{Name: "blue can", Takes: 3}
	l, err := label.OfCan(v, c, f, label.Told{Address: address})
	if err != nil {
		t.Fatal(err)
	}
	all[l.Title] = l
	return all
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", name, diff)
	}
}

// What a label says in words, to be copied by hand.
func TestText(t *testing.T) {
	all := labels(t)
	for _, title := range []string{"Developer", "Film developer", "Fixer 1", "Used fixer"} {
		l, ok := all[title]
		if !ok {
			t.Fatalf("no label %q", title)
		}
		golden(t, strings.ReplaceAll(strings.ToLower(title), " ", "-")+".txt", l.Text())
	}
}

// Every bath of the example has a size that is at hand; the usual eight to a sheet takes all of them.
func TestUsualSizeTakesAll(t *testing.T) {
	for title, l := range labels(t) {
		for _, name := range []string{"99.1x67.7", "4x3 1/3 in"} {
			s, ok := label.Named(name)
			if !ok {
				t.Fatalf("no size %q", name)
			}
			got, err := l.Fit(s.Label, scene.Light)
			if err != nil || got.NoCode || got.NoTally || got.Without > 0 {
				t.Errorf("%s on %s: %v, %+v", title, name, err, got)
			}
		}
	}
}

// severe is a label with all that one can have: the worst of what a darkroom holds.
func severe(l label.Label) label.Label {
	l.Signal = "Danger"
	l.Signs = []label.Sign{{"GHS05", "corrosion"}, {"GHS06", "skull"}, {"GHS08", "health hazard"}, {"GHS09", "environment"}}
	l.Hazard = []string{
		"H301 Toxic if swallowed.", "H314 Causes severe skin burns and eye damage.", "H317 May cause an allergic skin reaction.",
		"H373 May cause damage to organs through prolonged or repeated exposure.", "H410 Very toxic to aquatic life with long lasting effects.",
	}
	l.Advice = []string{
		"P280 Wear protective gloves/protective clothing/eye protection/face protection.",
		"P305+P351+P338 IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.",
		"P310 Immediately call a POISON CENTER or doctor/physician.", "P273 Avoid release to the environment.",
	}
	return l
}

// A label too small for its text is refused, and the sizes that take it are told. As it shrinks, statements of advice go first,
// then the tally, then the code; no hazard statement ever goes.
func TestTooSmallIsRefused(t *testing.T) {
	l := severe(labels(t)["Developer"])
	_, err := l.Fit(label.Size{Wide: 62, High: 29}, scene.Light)
	if !errors.Is(err, label.ErrSmall) {
		t.Errorf("62 × 29 mm: %v, want too small", err)
	}
	fits := l.Fits(label.Stocks())
	if len(fits) == 0 || slices.ContainsFunc(fits, func(s label.Stock) bool { return s.Name == "62x29" }) {
		t.Errorf("it fits on %v", fits)
	}
	was := label.Fitted{}
	for high := 120.0; ; high -= 1 {
		got, err := l.Fit(label.Size{Wide: 99, High: high}, scene.Light)
		if err != nil {
			if !was.NoCode || !was.NoTally || was.Without != len(l.Advice) {
				t.Errorf("it is refused at %g mm, before all else was left out: %+v", high, was)
			}
			return
		}
		if got.NoTally && got.Without < len(l.Advice) || got.NoCode && !got.NoTally {
			t.Errorf("%g mm: %+v: left out in the wrong order", high, got)
		}
		all := said(got.Scene)
		for _, h := range l.Hazard {
			for word := range strings.FieldsSeq(h) {
				if !strings.Contains(all, word) {
					t.Fatalf("%g mm: %q of %q is not on it: %s", high, word, h, all)
				}
			}
		}
		was = got
	}
}

func said(s scene.Scene) string {
	var b strings.Builder
	for _, it := range s.Items {
		if text, ok := it.(scene.Text); ok {
			b.WriteString(text.Text + " ")
		}
	}
	return b.String()
}

// Whatever is written on it and however large it is: what fits lies within its edges, no words run into each other or into a
// picture, and every letter of the name is there.
func TestNothingLeavesTheLabel(t *testing.T) {
	base := labels(t)
	word := rapid.StringMatching(`[A-Za-zÄÖÜéß0-9'+,.-]{1,40}`)
	fitted := 0
	rapid.Check(t, func(t *rapid.T) {
		l := base[rapid.SampledFrom([]string{"Developer", "Fixer 1", "Used fixer", "Film developer"}).Draw(t, "bath")]
		if rapid.Bool().Draw(t, "severe") {
			l = severe(l)
			l.Signs = l.Signs[:rapid.IntRange(0, 4).Draw(t, "signs")]
		}
		l.Title = strings.Join(rapid.SliceOfN(word, 1, 12).Draw(t, "title"), " ")
		l.About = strings.Join(rapid.SliceOfN(word, 0, 12).Draw(t, "about"), " ")
		l.For = strings.Join(rapid.SliceOfN(word, 0, 4).Draw(t, "for"), " ")
		if rapid.Bool().Draw(t, "no code") {
			l.Address = ""
		}
		size := label.Size{Wide: rapid.Float64Range(25, 210).Draw(t, "wide"), High: rapid.Float64Range(20, 200).Draw(t, "high")}
		if rapid.Bool().Draw(t, "a size of ours") {
			size = rapid.SampledFrom(label.Stocks()).Draw(t, "stock").Label
		}
		got, err := l.Fit(size, scene.Light)
		if err != nil {
			if !errors.Is(err, label.ErrSmall) {
				t.Fatal(err)
			}
			return
		}
		fitted++
		inside(t, got.Scene)
		if all := strings.ReplaceAll(said(got.Scene), " ", ""); !strings.Contains(all, strings.ReplaceAll(l.Title, " ", "")) {
			t.Fatalf("%q is not whole on it: %s", l.Title, all)
		}
	})
	if fitted < 10 {
		t.Fatalf("only %d labels fitted", fitted)
	}
}

// inside holds everything within the scene, words apart from each other and clear of what is not words, lines apart.
func inside(t rapid.TB, s scene.Scene) {
	t.Helper()
	var texts []scene.Box
	for _, it := range s.Items {
		if !it.Box().Within(s.Bounds()) {
			t.Fatalf("%T reaches %v, outside %v", it, it.Box(), s.Bounds())
		}
		if text, ok := it.(scene.Text); ok {
			texts = append(texts, text.Box())
		}
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			if a.Overlaps(b) {
				t.Fatalf("words run into each other: %v and %v", a, b)
			}
		}
		for _, it := range s.Items {
			p, ok := it.(scene.Path)
			if ok && p.Fill == "own-red" && a.Overlaps(p.Box()) {
				t.Fatalf("words run into a pictogram: %v and %v", a, p.Box())
			}
			if r, ok := it.(scene.Rect); ok && a.Overlaps(r.Box()) {
				t.Fatalf("words run into the code: %v and %v", a, r.Box())
			}
		}
	}
}

// A pictogram's square has at least the standard's side, and the wished one where there is room.
func TestPictogramsHaveTheirSize(t *testing.T) {
	l := severe(labels(t)["Developer"])
	for _, s := range label.Stocks() {
		got, err := l.Fit(s.Label, scene.Light)
		if err != nil {
			continue
		}
		n := 0
		for _, it := range got.Scene.Items {
			p, ok := it.(scene.Path)
			if !ok || p.Fill != "own-red" {
				continue
			}
			n++
			want := 16.0
			if got.Small {
				want = 10
			}
			if side := (p.Box().Max.X - p.Box().Min.X) / label.Unit / math.Sqrt2; math.Abs(side-want) > 0.01 {
				t.Errorf("%s: a side of %.2f mm, want %.0f", s.Name, side, want)
			}
		}
		if n != 4 {
			t.Errorf("%s: %d pictograms, want 4", s.Name, n)
		}
	}
}

// The sizes lie on their paper; a name is read as it is written, and a size of one's own is a single label.
func TestStocks(t *testing.T) {
	paper := map[string]label.Size{"A4": {210, 297}, "Letter": {215.9, 279.4}}
	for _, s := range label.Stocks() {
		if got, ok := label.Named(s.Name); !ok || got != s {
			t.Errorf("Named(%q) = %+v, %v", s.Name, got, ok)
		}
		if s.Paper == "" {
			continue
		}
		right := s.Left + float64(s.Columns-1)*s.Across + s.Label.Wide
		bottom := s.Top + float64(s.Rows-1)*s.Down + s.Label.High
		if on := paper[s.Paper]; right > on.Wide+0.01 || bottom > on.High+0.01 || s.Columns > 1 && s.Across < s.Label.Wide || s.Down < s.Label.High {
			t.Errorf("%s: %.2f × %.2f mm of %v, pitch %.2f × %.2f", s.Name, right, bottom, on, s.Across, s.Down)
		}
	}
	for _, c := range []struct {
		name string
		want label.Size
		ok   bool
	}{
		{"80x50", label.Size{80, 50}, true},
		{"80 × 50 mm", label.Size{80, 50}, true},
		{"3x2 in", label.Size{76.2, 50.8}, true},
		{"99.1 x 67.7 mm", label.Size{99.1, 67.7}, true},
		{"8x5 cm", label.Size{80, 50}, true},
		{"", label.Size{}, false},
		{"big", label.Size{}, false},
		{"5x5", label.Size{}, false},
		{"500x500", label.Size{}, false},
	} {
		if got, ok := label.Named(c.name); ok != c.ok || ok && math.Abs(got.Label.Wide-c.want.Wide)+math.Abs(got.Label.High-c.want.High) > 1e-9 {
			t.Errorf("Named(%q) = %+v, %v, want %v", c.name, got, ok, c.want)
		}
	}
}

// Letters that the face lacks are told, each once; those from right to left too. The face is read.
func TestFace(t *testing.T) {
	for text, want := range map[string]string{
		"Fixer ½ Ärger Łódź · 1+4": "", "Проявитель": "", "Στερεωτής": "", "定着液 定": "定着液", "מפתח": "מפתח", "🧪 fixer": "🧪",
	} {
		if got := string(label.Label{Title: text}.Lacks()); got != want {
			t.Errorf("%q lacks %q, want %q", text, got, want)
		}
	}
}

// In the red form a label names no colour of its own: pictograms are outlines; only the code is an area, or no phone would read it.
func TestRedLabel(t *testing.T) {
	got, err := severe(labels(t)["Developer"]).Fit(label.Size{Wide: 105, High: 148}, scene.Red)
	if err != nil {
		t.Fatal(err)
	}
	filled := 0
	for _, it := range got.Scene.Items {
		p, ok := it.(scene.Path)
		if !ok {
			continue
		}
		if strings.HasPrefix(string(p.Fill), "own-") || strings.HasPrefix(string(p.Stroke), "own-") {
			t.Errorf("a path in %q and %q", p.Fill, p.Stroke)
		}
		if p.Fill != scene.None && p.Fill != scene.Paper {
			filled++
		}
	}
	if filled != 0 { // the code's light ground is a Rect, its dark modules are the page's own black
		t.Errorf("%d filled areas in the red form", filled)
	}
}
