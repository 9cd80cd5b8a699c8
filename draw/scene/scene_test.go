package scene_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/draw/scene"

	"codeberg.org/go-pdf/fpdf"
	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"pgregory.net/rapid"
)

// document is an empty A4 page with a fixed clock and a UTF-8 face.
func document(t *testing.T) *fpdf.Fpdf {
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
	return doc
}

func sample() scene.Scene {
	s := scene.Scene{Width: 100, Height: 50, Label: `a "sample" <of> & all`}
	square := []scene.Point{{X: 10, Y: 10}, {X: 10, Y: 40}, {X: 40, Y: 40}, {X: 40, Y: 10}}
	filled := scene.Polygon(square...)
	filled.Fill, filled.Stroke, filled.Width = scene.Liquid, scene.Mark, 1
	curve := scene.Path{Stroke: scene.Mark, Width: 2, Dash: 3}
	curve.Move(50, 10).Curve(60, 0, 70, 20, 80, 10)
	s.Add(
		filled, scene.Hatched(square, 6), curve,
		scene.Line{A: scene.Point{X: 0, Y: 45}, B: scene.Point{X: 100, Y: 45}, Stroke: scene.Accent, Width: 5},
		scene.Rect{At: scene.Point{X: 60, Y: 20}, W: 20, H: 10, Fill: scene.Own("red"), Stroke: scene.Hair, Width: 1},
		scene.Circle{At: scene.Point{X: 90, Y: 20}, R: 4, Fill: scene.Ink, Stroke: scene.Soft, Width: 1},
		scene.Text{At: scene.Point{X: 50, Y: 40}, Text: "<b>20 °C & more\x00</b>", Size: 8, Bold: true, Anchor: scene.Middle, Fill: scene.Ink},
		scene.Text{At: scene.Point{X: 99, Y: 40}, Text: "end", Size: 8, Anchor: scene.End, Fill: scene.Soft},
	)
	return s
}

var colour = regexp.MustCompile(`(?i)#[0-9a-f]{3,8}\b|rgba?\(|hsla?\(|oklch\(`)

func TestInlineSVGHoldsNoColour(t *testing.T) {
	got := sample().SVG()
	if found := colour.FindString(got); found != "" {
		t.Errorf("inline SVG holds the colour %q, want roles only", found)
	}
	for _, banned := range []string{"style", "<script", " id=", "url("} {
		if strings.Contains(got, banned) {
			t.Errorf("inline SVG holds %q, want neither style, script nor id", banned)
		}
	}
	if !colour.MatchString(sample().Standalone(scene.PaletteFor(scene.Light))) {
		t.Error("the standalone form holds no colour: the check above can't fail")
	}
}

func TestSVGIsWellFormed(t *testing.T) {
	for name, text := range map[string]string{
		"inline": sample().SVG(), "standalone": sample().Standalone(scene.PaletteFor(scene.Dark)),
	} {
		d := xml.NewDecoder(strings.NewReader(text))
		label, words := "", ""
		for {
			tok, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v\n%s", name, err, text)
			}
			switch tok := tok.(type) {
			case xml.StartElement:
				for _, a := range tok.Attr {
					if a.Name.Local == "aria-label" {
						label = a.Value
					}
				}
			case xml.CharData:
				words += string(tok)
			}
		}
		if want := sample().Label; label != want {
			t.Errorf("%s: aria-label = %q, want %q", name, label, want)
		}
		if want := "<b>20 °C & more</b>end"; strings.TrimSpace(words) != want {
			t.Errorf("%s: words = %q, want %q", name, words, want)
		}
	}
}

func TestPDFTwiceTheSameBytes(t *testing.T) {
	render := func() []byte {
		doc := document(t)
		sample().PDF(doc, scene.Place{X: 20, Y: 30, Width: 60}, "face")
		var b bytes.Buffer
		if err := doc.Output(&b); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	a, b := render(), render()
	if !bytes.Equal(a, b) {
		t.Error("two renders of one scene differ")
	}
	if got, want := bytes.Count(a, []byte(" Tj")), 2; got != want {
		t.Errorf("PDF shows %d texts, want %d", got, want)
	}
}

// The estimate must not be below the advance widths of Liberation Sans, which is metrically a common page face.
func TestTextWidthIsAtLeastLiberations(t *testing.T) {
	doc := document(t)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`[ -~]{1,20}`).Draw(t, "text")
		bold := rapid.Bool().Draw(t, "bold")
		style := ""
		if bold {
			style = "B"
		}
		doc.SetFont("face", style, 0)
		doc.SetFontUnitSize(10)
		got, want := scene.TextWidth(text, 10, bold), doc.GetStringWidth(text)
		if got < want*0.999 {
			t.Errorf("TextWidth(%q, bold %v) = %.2f, Liberation Sans takes %.2f", text, bold, got, want)
		}
	})
}

func TestHatchedFillsThePolygonAlone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0, 200)
		// A trapezoid, as liquid in a cone.
		w, grow := rapid.Float64Range(60, 200).Draw(t, "w"), rapid.Float64Range(0, 20).Draw(t, "grow")
		h, left, top := rapid.Float64Range(60, 200).Draw(t, "h"), x.Draw(t, "left"), x.Draw(t, "top")
		poly := []scene.Point{{X: left, Y: top + h}, {X: left - grow, Y: top}, {X: left + w + grow, Y: top}, {X: left + w, Y: top + h}}
		const gap = 6
		p := scene.Hatched(poly, gap)
		length := 0.0
		for i := 0; i+1 < len(p.Segs); i += 2 {
			a, b := p.Segs[i].To, p.Segs[i+1].To
			length += math.Hypot(a.X-b.X, a.Y-b.Y)
			for _, at := range []scene.Point{a, b} {
				edge := grow * (top + h - at.Y) / h
				if at.X < left-edge-1e-6 || at.X > left+w+edge+1e-6 || at.Y < top-1e-6 || at.Y > top+h+1e-6 {
					t.Fatalf("hatch reaches %v, outside %v", at, poly)
				}
			}
		}
		// Lines d apart over an area A have a length of A/d between them (Cavalieri), up to the edges.
		area, d := (w+grow)*h, gap/math.Sqrt2
		if got := length * d / area; math.Abs(got-1) > 0.12 {
			t.Errorf("hatch covers %.3f of the area, want about 1", got)
		}
	})
}
