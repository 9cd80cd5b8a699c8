package web_test

import (
	"encoding/xml"
	"html"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"wetside/internal/outside"
)

// kept puts a paper into a file, where other programs read it.
func kept(tb testing.TB, pdf string) string {
	tb.Helper()
	file := filepath.Join(tb.TempDir(), "paper.pdf")
	if err := os.WriteFile(file, []byte(pdf), 0o600); err != nil {
		tb.Fatal(err)
	}
	return file
}

// ran is what another program says.
func ran(tb testing.TB, program, from string, args ...string) string {
	tb.Helper()
	out, err := exec.CommandContext(tb.Context(), outside.Program(tb, program, from), args...).Output() //nolint:gosec // a fixed program
	if err != nil {
		tb.Fatalf("%s: %v", program, err)
	}
	return string(out)
}

// paperPages are what can be read on each page of a PDF, on one line.
func paperPages(tb testing.TB, pdf string) (all []string) {
	tb.Helper()
	for page := range strings.SplitSeq(ran(tb, "pdftotext", "poppler-utils", "-layout", kept(tb, pdf), "-"), "\f") {
		all = append(all, strings.Join(strings.Fields(page), " "))
	}
	return all
}

// paperText is what can be read on a PDF, on one line.
func paperText(tb testing.TB, pdf string) string {
	tb.Helper()
	return strings.Join(paperPages(tb, pdf), " ")
}

// codes are the addresses that a camera reads off a paper's first page at 300 dpi.
func codes(tb testing.TB, pdf string) []string {
	tb.Helper()
	picture := filepath.Join(tb.TempDir(), "paper")
	ran(tb, "pdftoppm", "poppler-utils", "-r", "300", "-png", "-singlefile", kept(tb, pdf), picture)
	return strings.Fields(ran(tb, "zbarimg", "zbar-tools", "--quiet", "--raw", picture+".png"))
}

// A wordAt is a word with where it stands on paper, in points from the upper left corner.
type wordAt struct {
	Left   float64 `xml:"xMin,attr"`
	Top    float64 `xml:"yMin,attr"`
	Right  float64 `xml:"xMax,attr"`
	Bottom float64 `xml:"yMax,attr"`
	Text   string  `xml:",chardata"`
}

// over reports whether the letters of two words stand on one another. Poppler's box of a word is the face's, 1.117 of its size high;
// capitals and figures take its middle, from 0.16 down to 0.19 above its foot (Liberation Sans: ascent 0.905, descent 0.212, capitals
// 0.729 of the size).
func (w wordAt) over(x wordAt) bool {
	top := func(w wordAt) float64 { return w.Top + 0.16*(w.Bottom-w.Top) }
	foot := func(w wordAt) float64 { return w.Bottom - 0.19*(w.Bottom-w.Top) }
	return min(w.Right, x.Right)-max(w.Left, x.Left) > 0.6 && min(foot(w), foot(x))-max(top(w), top(x)) > 0.3
}

type paper struct {
	Pages []struct {
		Width  float64  `xml:"width,attr"`
		Height float64  `xml:"height,attr"`
		Words  []wordAt `xml:"word"`
	} `xml:"body>doc>page"`
}

// settled holds the words of a paper within its edges and off one another, and returns its pages.
func settled(tb testing.TB, name, pdf string, edge float64) int {
	tb.Helper()
	var p paper
	if err := xml.Unmarshal([]byte(ran(tb, "pdftotext", "poppler-utils", "-bbox", kept(tb, pdf), "-")), &p); err != nil {
		tb.Fatalf("%s: %v", name, err)
	}
	for i, page := range p.Pages {
		if len(page.Words) == 0 {
			tb.Errorf("%s: page %d is empty", name, i+1)
		}
		for j, w := range page.Words {
			if w.Left < edge-1 || w.Right > page.Width-edge+1 || w.Top < 0 || w.Bottom > page.Height-edge/2 {
				tb.Errorf("%s, page %d: %q at %.0f to %.0f, down to %.0f of %.0f", name, i+1, w.Text, w.Left, w.Right, w.Bottom, page.Height)
			}
			for _, x := range page.Words[:j] {
				if w.over(x) {
					tb.Errorf("%s, page %d: %q stands on %q at %.0f, %.0f", name, i+1, w.Text, x.Text, w.Left, w.Top)
				}
			}
		}
	}
	return len(p.Pages)
}

const mm = 72 / 25.4 // points

// missingWords is what stands where a message is missing, or a key in its place.
var missingWords = regexp.MustCompile(`[a-z]+_[a-z_]+|\[[a-z_]+\.[A-Za-z_.0-9]+\]|<no\s*value>|\{\{`)

// readBack prints everything that a room prints, on both papers and in every language, and reads it back: no word is missing, none
// leaves its paper or stands on another, and no paper grows by more than a page for a language.
func (h *house) readBack(t *testing.T) {
	t.Helper()
	english := map[string]int{}
	dir := t.ArtifactDir()
	for _, on := range []string{"A4", "Letter"} {
		form := h.formOf("/room")
		form.Set("print_on", on)
		if a := h.post("/room", form); a.StatusCode != http.StatusSeeOther {
			t.Fatalf("printing on %s: %d, %s", on, a.StatusCode, problemsOf(a.Text))
		}
		for _, lang := range []string{"en", "de", "fr", "es"} {
			all := map[string]string{"mix": "/mix.pdf?language=" + lang, "cards": "/cards.pdf?language=" + lang, "waste": "/waste.pdf?language=" + lang}
			page := h.get("/labels?language=" + lang).Text
			if all["labels"] = html.UnescapeString(regexp.MustCompile(`/labels\.pdf\?[^"]+`).FindString(page)); all["labels"] == "" {
				t.Fatalf("%s %s: no labels", on, lang)
			}
			for name, path := range all {
				a := h.get(path)
				at := strings.Join([]string{name, lang, on}, " ")
				if a.StatusCode != http.StatusOK || !strings.HasPrefix(a.Text, "%PDF-") {
					t.Fatalf("%s: %d", at, a.StatusCode)
				}
				if err := os.WriteFile(filepath.Join(dir, strings.ReplaceAll(at, " ", "-")+".pdf"), []byte(a.Text), 0o600); err != nil {
					t.Fatal(err)
				}
				edge := 12 * mm
				if name == "labels" {
					edge = 4 * mm
				}
				n := settled(t, at, a.Text, edge)
				if lang == "en" {
					english[name+on] = n
				}
				if n > english[name+on]+1 {
					t.Errorf("%s: %d pages, in English %d", at, n, english[name+on])
				}
				if missing := missingWords.FindString(paperText(t, a.Text)); missing != "" {
					t.Errorf("%s says %q", at, missing)
				}
			}
		}
	}
}
