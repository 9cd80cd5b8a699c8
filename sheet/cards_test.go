package sheet_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/sheet"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/words"
)

// dealt draws the cards of a darkroom and returns its plan with them.
func dealt(t *testing.T, f darkroom.File) ([]byte, plan.Plan, *words.Voice) {
	t.Helper()
	request := plan.Request{File: f, Now: day}
	p, err := plan.Make(t.Context(), request)
	if err != nil {
		t.Fatal(err)
	}
	s, err := plan.Ahead(t.Context(), request, material.None)
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
	var b bytes.Buffer
	if err := sheet.Cards(&b, v, p, r, f); err != nil {
		t.Fatal(err)
	}
	return b.Bytes(), p, v
}

// There is a card for every tray with its times, the lists, and every product that is in use on the safety sheet. Two renders
// are alike.
func TestCards(t *testing.T) {
	for _, paper := range []string{"A4", "Letter"} {
		f := exampleRoom(t, paper)
		pdf, p, v := dealt(t, f)
		text := flat(poppler(t, pdf, "pdftotext"))
		trays := 0
		for i, b := range p.Baths {
			if b.Tray == "" {
				continue
			}
			trays++
			for _, want := range []string{v.BathTitle(b), "those of " + b.Tray + ", and no others"} {
				if b.Step == process.Wash {
					want = v.BathTitle(b) // nobody's tongs are for the wash alone
				}
				if !strings.Contains(text, flat(want)) {
					t.Errorf("%s: %q is not on a card", paper, want)
				}
			}
			for _, l := range p.Loads {
				for _, x := range l.Times {
					if want := v.Material(l.Material) + ": " + v.Time(x.Time); x.Bath == i && x.Time > 0 && !strings.Contains(text, flat(want)) {
						t.Errorf("%s: %q is not on the card of %s", paper, want, b.ID)
					}
				}
			}
		}
		if trays < 4 {
			t.Fatalf("%d trays", trays)
		}
		_, safety, ok := strings.Cut(text, "Safety sheet of what is in use")
		if !ok {
			t.Fatalf("%s: no safety sheet", paper)
		}
		for _, name := range p.Products() {
			if !strings.Contains(safety, name) {
				t.Errorf("%s: %s is not on the safety sheet", paper, name)
			}
		}
		for _, want := range []string{"the supplier's safety data sheet comes first", "Never together"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is missing", paper, want)
			}
		}
		if again, _, _ := dealt(t, f); !bytes.Equal(pdf, again) {
			t.Error("two renders differ")
		}
	}
}

// However long the names are, a card stays in its half of the page, and nothing runs off the paper or into its foot.
func TestCardsStayOnThePage(t *testing.T) {
	long := "white tray with the chipped left corner that stands under the window of the old laundry by the door"
	pdf, p, _ := dealt(t, exampleRoom(t, "A4", "white tray", long, "paper developer", strings.Repeat("grandmother's developer ", 8)[:180]))
	trays := 0
	for _, b := range p.Baths {
		if b.Tray != "" {
			trays++
		}
	}
	const mm = 72 / 25.4
	middle := 12 + (297.0-12-12)/2
	for i, page := range placedWords(t, pdf).Pages {
		for _, w := range page.Words {
			if w.Left < 12*mm-1 || w.Right > page.Width-12*mm+1 || w.Bottom > page.Height-5*mm {
				t.Errorf("page %d: %q at %.0f to %.0f, down to %.0f", i+1, w.Text, w.Left, w.Right, w.Bottom)
			}
			if i < (trays+1)/2 && w.Top/mm < middle-2.5 && w.Bottom/mm > middle-2.5 {
				t.Errorf("page %d: %q stands on the line to cut along", i+1, w.Text)
			}
		}
	}
}
