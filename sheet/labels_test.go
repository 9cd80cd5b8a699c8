package sheet_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/draw/label"
	"wetside/internal/outside"
	"wetside/plan"
	"wetside/sheet"
	"wetside/trade/material"
	"wetside/words"
)

const labelAddress = "http://192.168.178.20:8460/baths/0198c7a2-5b1e-7c3d-9f00-00000000000"

// exampleLabels are the labels of the example's baths, each with an address of its own.
func exampleLabels(t *testing.T) []label.Label {
	t.Helper()
	f := exampleRoom(t, "A4")
	s, err := plan.Ahead(t.Context(), plan.Request{File: f, Now: day}, material.None)
	if err != nil {
		t.Fatal(err)
	}
	r, err := ahead.Look(s)
	if err != nil {
		t.Fatal(err)
	}
	v, err := words.New("en", f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	var all []label.Label
	for i := range r.Baths {
		l, err := label.OfBath(v, &r.Baths[i], f, label.Told{By: "Maren Ols", Address: fmt.Sprint(labelAddress, i%10)})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, l)
	}
	return all
}

func labelled(t *testing.T, all []label.Label, name string, start int) []byte {
	t.Helper()
	on, ok := label.Named(name)
	if !ok {
		t.Fatalf("no size %q", name)
	}
	var b bytes.Buffer
	if err := sheet.Labels(&b, all, on, start, day); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// The codes are read back off the page by another program, as a printer of 300 dpi would set it, on every size that has room
// for one.
func TestLabelCodesAreRead(t *testing.T) {
	zbarimg := outside.Program(t, "zbarimg", "zbar-tools")
	all := exampleLabels(t)[:4]
	for _, name := range []string{"99.1x67.7", "102x59"} {
		pdf := labelled(t, all, name, 1)
		dir := t.TempDir()
		path := filepath.Join(dir, "labels.pdf")
		if err := os.WriteFile(path, pdf, 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.CommandContext(t.Context(), outside.Program(t, "pdftoppm", "poppler-utils"), "-r", "300", "-png", path, filepath.Join(dir, "page")).CombinedOutput(); err != nil {
			t.Fatalf("%v: %s", err, out)
		}
		pages, err := filepath.Glob(filepath.Join(dir, "page*.png"))
		if err != nil || len(pages) == 0 {
			t.Fatalf("no pages: %v", err)
		}
		out, err := exec.CommandContext(t.Context(), zbarimg, append([]string{"--quiet", "--raw"}, pages...)...).Output()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		got := strings.Fields(string(out))
		slices.Sort(got)
		var want []string
		for _, l := range all {
			want = append(want, l.Address)
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s: read %q, want %q", name, got, want)
		}
	}
}

// Words are on the page, at their place: a part-used sheet begins where it is told to, and goes on to the next one.
func TestLabelsBeginWhereTold(t *testing.T) {
	all := exampleLabels(t)[:3]
	pdf := labelled(t, all, "99.1x67.7", 7)
	pages := placedWords(t, pdf).Pages
	if len(pages) != 2 {
		t.Fatalf("%d pages, want 2: two labels on the first sheet, one on the next", len(pages))
	}
	const mm = 72 / 25.4
	for i, w := range pages[0].Words {
		if w.Top < (13.1+3*67.7)*mm-1 {
			t.Errorf("word %d, %q, stands above the seventh label", i, w.Text)
		}
	}
	if w := pages[1].Words[0]; w.Left > 20*mm || w.Top > 25*mm {
		t.Errorf("the third stands at %.0f, %.0f, want the first place", w.Left/mm, w.Top/mm)
	}
	text := flat(poppler(t, pdf, "pdftotext"))
	for _, l := range all {
		for _, want := range []string{l.Title, l.Spent} {
			if !strings.Contains(text, flat(want)) {
				t.Errorf("%q is not on the sheet: %s", want, text)
			}
		}
	}
	if !bytes.Equal(pdf, labelled(t, all, "99.1x67.7", 7)) {
		t.Error("two renders differ")
	}
}

// On every size what is printed lies inside its label, with a name of 200 letters too; off a roll each label is a page.
func TestLabelsStayInside(t *testing.T) {
	l := exampleLabels(t)[0]
	long := l
	long.About = strings.Repeat("Grandmother's own warm-tone developer of 1926, ", 5)[:200]
	const mm = 72 / 25.4
	for _, on := range label.Stocks() {
		for _, one := range []label.Label{l, long} {
			var b bytes.Buffer
			if err := sheet.Labels(&b, []label.Label{one, one}, on, 1, day); err != nil {
				if !errors.Is(err, label.ErrSmall) {
					t.Errorf("%s: %v", on.Name, err)
				}
				continue
			}
			pages := placedWords(t, b.Bytes()).Pages
			if want := map[bool]int{true: 1, false: 2}[on.On() > 1]; len(pages) != want {
				t.Errorf("%s: %d pages, want %d", on.Name, len(pages), want)
			}
			for _, w := range pages[0].Words {
				x, across := w.Left/mm-on.Left, on.Across
				if across > 0 && x > across {
					x -= across
				}
				if right := x + (w.Right-w.Left)/mm; x < 0 || right > on.Label.Wide || w.Top/mm < on.Top-0.5 || w.Bottom/mm > on.Top+on.Label.High+0.5 {
					t.Errorf("%s: %q at %.1f to %.1f mm, down to %.1f", on.Name, w.Text, x, right, w.Bottom/mm)
				}
			}
		}
	}
}

// A letter that the face lacks is an empty box on paper.
func TestLabelLacksLetters(t *testing.T) {
	l := exampleLabels(t)[0]
	l.Title = "定着 fixer"
	if text := flat(poppler(t, labelled(t, []label.Label{l}, "99.1x67.7", 1), "pdftotext")); !strings.Contains(text, "□□ fixer") {
		t.Errorf("%s", text)
	}
}
