package sheet_test

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/internal/outside"
	"wetside/plan"
	"wetside/sheet"
	"wetside/words"
)

var day = time.Date(2027, 2, 18, 15, 0, 0, 0, time.UTC)

// exampleRoom is the example's darkroom, printing on a paper; each pair of edits is what is written otherwise.
func exampleRoom(t *testing.T, paper string, edits ...string) darkroom.File {
	t.Helper()
	f, err := darkroom.Read([]byte(strings.NewReplacer(edits...).Replace(string(example.YAML(day)))))
	if err != nil {
		t.Fatal(err)
	}
	f.Darkroom.PrintOn = paper
	return f
}

// render draws the mix sheet of a darkroom and returns its plan with it.
func render(t *testing.T, f darkroom.File) ([]byte, plan.Plan, *words.Voice) {
	t.Helper()
	p, err := plan.Make(t.Context(), plan.Request{File: f, Now: day})
	if err != nil {
		t.Fatal(err)
	}
	v, err := words.New("en", f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := sheet.Mix(&b, v, p, f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes(), p, v
}

func TestSameInputSameBytes(t *testing.T) {
	one, _, _ := render(t, exampleRoom(t, "A4"))
	two, _, _ := render(t, exampleRoom(t, "A4"))
	if !bytes.Equal(one, two) {
		t.Error("two renders differ")
	}
}

// poppler reads a sheet back by one of its programs.
func poppler(t *testing.T, pdf []byte, program string, args ...string) string {
	t.Helper()
	path := outside.Program(t, program, "poppler-utils")
	name := filepath.Join(t.TempDir(), "mix.pdf")
	if err := os.WriteFile(name, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	args = append(args, name)
	if program == "pdftotext" {
		args = append(args, "-")
	}
	out, err := exec.CommandContext(t.Context(), path, args...).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func flat(text string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(text, "\u00a0", " ")), " ")
}

// The sheet is read back by poppler: its size, its pages, and the sentences of the readings. The example's ten baths hang
// over the sink as two sheets of paper printed on both sides.
func TestReadBack(t *testing.T) {
	for paper, size := range map[string]string{"A4": "595.28 x 841.89", "Letter": "612 x 792"} {
		pdf, _, _ := render(t, exampleRoom(t, paper))
		info := poppler(t, pdf, "pdfinfo")
		if !strings.Contains(info, size) {
			t.Errorf("%s: %s; want %s", paper, info, size)
		}
		if !strings.Contains(flat(info), "Pages: 4 ") {
			t.Errorf("%s: %s; want four pages", paper, info)
		}
		text := flat(poppler(t, pdf, "pdftotext", "-layout"))
		for _, want := range []string{"Lock House Darkroom", "Gloves and goggles on", "Developer → white tray", "stop here", "acid into water"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not on the sheet", paper, want)
			}
		}
	}
}

// What is special to a bath stands at that bath, under its name and before the next one's.
func TestCautionsStandAtTheirStep(t *testing.T) {
	for _, paper := range []string{"A4", "Letter"} {
		pdf, p, v := render(t, exampleRoom(t, paper))
		text := flat(poppler(t, pdf, "pdftotext"))
		said := 0
		for k, i := range p.Order {
			b := p.Baths[i]
			if b.Product == "" {
				continue
			}
			_, after, ok := strings.Cut(text, heading(v, b))
			if !ok {
				t.Fatalf("%s: no %q in %s", paper, heading(v, b), text)
			}
			if k+1 < len(p.Order) {
				after, _, _ = strings.Cut(after, heading(v, p.Baths[p.Order[k+1]]))
			}
			for _, c := range b.Cautions {
				said++
				if want := flat(v.Caution(c).Text()); !strings.Contains(after, want) {
					t.Errorf("%s, %s: %q is not at its step: %s", paper, b.ID, want, after)
				}
			}
		}
		if said < 5 {
			t.Errorf("%s: %d cautions at the steps, want at least 5", paper, said)
		}
	}
}

func heading(v *words.Voice, b plan.Bath) string { return v.BathTitle(b) + " → " + b.Tray + b.Tank }

// A placed word is where poppler sees a word, in points from the page's top left.
type placed struct {
	Left   float64 `xml:"xMin,attr"`
	Right  float64 `xml:"xMax,attr"`
	Top    float64 `xml:"yMin,attr"`
	Bottom float64 `xml:"yMax,attr"`
	Text   string  `xml:",chardata"`
}

type pages struct {
	Pages []struct {
		Width  float64  `xml:"width,attr"`
		Height float64  `xml:"height,attr"`
		Words  []placed `xml:"word"`
	} `xml:"body>doc>page"`
}

func placedWords(t *testing.T, pdf []byte) pages {
	t.Helper()
	var out pages
	if err := xml.Unmarshal([]byte(poppler(t, pdf, "pdftotext", "-bbox")), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// Nothing runs over the page's edge or into its foot, however long the names are, in any system of units.
func TestStaysOnThePage(t *testing.T) {
	long := "Donaudampfschifffahrtsgesellschaftskapitaensmuetzenwaschtrayfortheveryfirststopbathoftheevening"
	cases := map[string][]string{
		"as it is": nil,
		"US":       {"units: metric", "units: us"},
		"imperial": {"units: metric", "units: imperial", "ounce: us", "ounce: imperial"},
		"long names": {
			"red tray", long, "white tray", "white tray with the chipped left corner that stands under the window",
			"name: Lock House Darkroom", "name: The Community Darkroom of the Old Tannery by the Lower Lock and Evening Class",
			"two-litre jug", "great enamelled measuring jug out of the cellar of the old house",
		},
	}
	for name, edits := range cases {
		t.Run(name, func(t *testing.T) {
			for _, paper := range []string{"A4", "Letter"} {
				pdf, _, _ := render(t, exampleRoom(t, paper, edits...))
				for i, page := range placedWords(t, pdf).Pages {
					for _, w := range page.Words {
						if w.Left < 12*72/25.4-1 || w.Right > page.Width-12*72/25.4+1 || w.Bottom > page.Height-5*72/25.4 {
							t.Errorf("%s, page %d: %q at %.0f to %.0f, down to %.0f", paper, i+1, w.Text, w.Left, w.Right, w.Bottom)
						}
					}
				}
			}
		})
	}
}

// The marks are read from 1.5 m. Digits 5 mm high are three thousandths of that (common practice for signs, from memory);
// in this face they are 0.73 of the size, and poppler's box of a word is at least the size high.
func TestMarksAreLarge(t *testing.T) {
	pdf, p, v := render(t, exampleRoom(t, "A4"))
	least := 5.0 / 0.73 * 72 / 25.4
	var large []string
	for _, page := range placedWords(t, pdf).Pages {
		for _, w := range page.Words {
			if w.Bottom-w.Top >= least {
				large = append(large, w.Text)
			}
		}
	}
	for _, b := range p.Baths {
		for _, l := range v.BathMix(b) {
			if l.Number != "" && !slices.ContainsFunc(large, func(s string) bool { return strings.HasPrefix(s, l.Number) }) {
				t.Errorf("%s: %s is not large", b.ID, l.Number)
			}
		}
	}
}

// No word is set over another.
func TestWordsDoNotOverlap(t *testing.T) {
	pdf, _, _ := render(t, exampleRoom(t, "A4",
		"two-reel tank", "stainless tank for two reels with the dented lid of the year before last",
		"name: Lock House Darkroom", "name: The Community Darkroom of the Old Tannery by the Lower Lock"))
	for i, page := range placedWords(t, pdf).Pages {
		all := page.Words
		slices.SortFunc(all, func(a, b placed) int { return cmp.Compare(a.Top, b.Top) })
		for k, a := range all {
			for _, b := range all[k+1:] {
				// A word's box is higher than its letters: what overlaps by less than a third of it only stands close.
				down := min(a.Bottom, b.Bottom) - max(a.Top, b.Top)
				across := min(a.Right, b.Right) - max(a.Left, b.Left)
				if across > 1 && down > min(a.Bottom-a.Top, b.Bottom-b.Top)*0.45 {
					t.Errorf("page %d: %q over %q", i+1, a.Text, b.Text)
				}
			}
		}
	}
}
