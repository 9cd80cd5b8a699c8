package draw_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/draw"
	"wetside/draw/scene"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the golden files anew")

// A picture is what every model of this package can do.
type picture interface {
	Scene(scene.Form) (scene.Scene, error)
	Text(draw.TextOptions) (string, error)
}

// golden compares got with a file of testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
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

// colour finds a colour value: a drawing on a page must name roles alone.
var colour = regexp.MustCompile(`(?i)#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(|oklch\(`)

// checkPicture holds one picture against its goldens and against what is true of every picture.
func checkPicture(t *testing.T, name string, p picture) {
	t.Helper()
	scenes := map[scene.Form]scene.Scene{}
	for _, f := range []scene.Form{scene.Light, scene.Dark, scene.Red} {
		s, err := p.Scene(f)
		if err != nil {
			t.Fatal(err)
		}
		scenes[f] = s
		checkScene(t, s)
		if found := colour.FindString(s.SVG()); found != "" {
			t.Errorf("form %d: inline SVG holds the colour %q", f, found)
		}
	}
	golden(t, name+".svg", lines(scenes[scene.Light].SVG()))
	golden(t, name+".red.svg", lines(scenes[scene.Red].SVG()))
	if diff := cmp.Diff(scenes[scene.Light].SVG(), scenes[scene.Dark].SVG()); diff != "" {
		t.Errorf("light and dark differ in more than their palette:\n%s", diff)
	}
	checkRed(t, scenes[scene.Red])
	checkPDF(t, scenes[scene.Light])
	checkText(t, name, p)
}

// lines breaks an SVG into a line an element, so that a difference can be read.
func lines(svg string) string { return strings.ReplaceAll(svg, "><", ">\n<") + "\n" }

// checkScene: everything inside the view, no text over another, a label.
func checkScene(t interface {
	Helper()
	Errorf(string, ...any)
}, s scene.Scene,
) {
	t.Helper()
	if s.Label == "" {
		t.Errorf("picture has no label")
	}
	var texts []scene.Text
	for _, it := range s.Items {
		if !it.Box().Within(s.Bounds()) {
			t.Errorf("%T %+v reaches %v, outside %v", it, it, it.Box(), s.Bounds())
		}
		if text, ok := it.(scene.Text); ok {
			texts = append(texts, text)
		}
	}
	for _, fault := range struck(s) {
		t.Errorf("%s", fault)
	}
	for i, a := range texts {
		for _, b := range texts[:i] {
			if a.Box().Overlaps(b.Box()) {
				t.Errorf("text %q (%v) runs into %q (%v)", a.Text, a.Box(), b.Text, b.Box())
			}
		}
	}
}

// struck finds the texts with an upright or level line through them, hairlines apart. A line that was wiped away
// under the text before it was written does not count.
func struck(s scene.Scene) []string {
	var faults []string
	for i, it := range s.Items {
		l, ok := it.(scene.Line)
		if !ok || l.A.X != l.B.X && l.A.Y != l.B.Y || l.Stroke == scene.Hair {
			continue
		}
		for j, it := range s.Items {
			if text, ok := it.(scene.Text); ok && l.Box().Overlaps(text.Box()) && !wiped(s, i, j) {
				faults = append(faults, fmt.Sprintf("text %q (%v) is struck by a line (%v)", text.Text, text.Box(), l.Box()))
			}
		}
	}
	return faults
}

// wiped reports whether between item i and text j something without an edge was painted that covers the text.
func wiped(s scene.Scene, i, j int) bool {
	for k := i + 1; k < j; k++ {
		if r, ok := s.Items[k].(scene.Rect); ok && r.Stroke == scene.None && s.Items[j].Box().Within(r.Box()) {
			return true
		}
	}
	return false
}

// checkRed: outlines instead of filled areas, no tray's own colour.
func checkRed(t *testing.T, s scene.Scene) {
	t.Helper()
	for _, it := range s.Items {
		var fill, stroke scene.Role
		switch it := it.(type) {
		case scene.Rect:
			fill, stroke = it.Fill, it.Stroke
		case scene.Path:
			fill, stroke = it.Fill, it.Stroke
		case scene.Circle:
			fill, stroke = it.Fill, it.Stroke
			if it.R <= 3 {
				fill = scene.None // a dot of a pattern
			}
		case scene.Line:
			stroke = it.Stroke
		case scene.Text:
			stroke = it.Fill
		}
		if fill != scene.None && fill != scene.Paper {
			t.Errorf("red form fills %T with %q", it, fill)
		}
		if strings.HasPrefix(string(stroke), "own-") {
			t.Errorf("red form draws %T in %q", it, stroke)
		}
	}
}

// checkPDF: two renders with one clock are equal, and every text is shown.
func checkPDF(t *testing.T, s scene.Scene) {
	t.Helper()
	a, b := render(t, s), render(t, s)
	if !bytes.Equal(a, b) {
		t.Error("two PDF renders of one scene differ")
	}
	want := 0
	for _, it := range s.Items {
		if _, ok := it.(scene.Text); ok {
			want++
		}
	}
	if got := bytes.Count(a, []byte(" Tj")); got != want {
		t.Errorf("PDF shows %d texts, want %d", got, want)
	}
}

// render puts a scene on a page, 80 mm wide, with a fixed clock.
func render(t *testing.T, s scene.Scene) []byte {
	t.Helper()
	doc := fpdf.New("P", "mm", "A4", "")
	doc.SetCompression(false)
	doc.SetCatalogSort(true)
	at := time.Date(2030, 1, 2, 3, 4, 5, 0, time.UTC)
	doc.SetCreationDate(at)
	doc.SetModificationDate(at)
	doc.AddUTF8FontFromBytes("face", "", liberationsansregular.TTF)
	doc.AddUTF8FontFromBytes("face", "B", liberationsansbold.TTF)
	doc.AddPage()
	s.PDF(doc, scene.Place{X: 20, Y: 20, Width: 80}, "face")
	var b bytes.Buffer
	if err := doc.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// checkText: the terminal's picture, at most 60 columns; the form in ASCII holds nothing else.
func checkText(t *testing.T, name string, p picture) {
	t.Helper()
	text, err := p.Text(draw.TextOptions{})
	if err != nil {
		t.Fatal(err)
	}
	plain, err := p.Text(draw.TextOptions{ASCII: true})
	if err != nil {
		t.Fatal(err)
	}
	golden(t, name+".txt", text+"\n"+plain)
	for line := range strings.Lines(text) {
		if n := len([]rune(line)); n > 61 {
			t.Errorf("line of %d columns: %q", n-1, line)
		}
	}
	for _, r := range plain {
		if r > '~' {
			t.Errorf("ASCII form holds %q", r)
		}
	}
}
