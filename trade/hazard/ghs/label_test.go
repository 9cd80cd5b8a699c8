package ghs_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/hazard/ghs"
)

func ofCodes(t *testing.T, codes string) []ghs.Class {
	t.Helper()
	var out []ghs.Class
	for code := range strings.FieldsSeq(codes) {
		c, ok := ghs.OfCode(code)
		if !ok {
			t.Fatalf("%s is in no class", code)
		}
		out = append(out, c)
	}
	return out
}

// Which pictogram gives way: CLP Article 26, consolidated 2025-09-01; signal words and pictograms of the codes as in the standard.
func TestPrecedence(t *testing.T) {
	for _, tt := range []struct {
		codes, kept, pictograms string
		signal                  ghs.Signal
	}{
		{"H301 H317 H319", "H301 H317 H319", "GHS06", "Danger"},             // 26(b)
		{"H302 H315 H318", "H302 H315 H318", "GHS05 GHS07", "Danger"},       // 26(c): it stays for H302
		{"H315 H318", "H315 H318", "GHS05", "Danger"},                       // 26(c)
		{"H314 H315 H319", "H314 H315 H319", "GHS05", "Danger"},             // 26(c)
		{"H314 H335", "H314 H335", "GHS05 GHS07", "Danger"},                 // it stays for H335
		{"H317 H318", "H317 H318", "GHS05 GHS07", "Danger"},                 // it stays for H317
		{"H290 H315", "H290 H315", "GHS05 GHS07", "Warning"},                // corrosive to metals is no burn
		{"H334 H317 H315", "H315 H317 H334", "GHS08", "Danger"},             // 26(d)
		{"H334 H302", "H302 H334", "GHS07 GHS08", "Danger"},                 // it stays for H302
		{"H341 H351 H317", "H317 H341 H351", "GHS07 GHS08", "Warning"},      // 26(d) is for H334 alone
		{"H360FD H319", "H319 H360", "GHS07 GHS08", "Danger"},               // the same
		{"H314 H318", "H314", "GHS05", "Danger"},                            // H318 may be left out
		{"H400 H410", "H410", "GHS09", "Warning"},                           // so may H400
		{"H400 H411", "H400 H411", "GHS09", "Warning"},                      // not beside H411
		{"H412", "H412", "", ""},                                            // no pictogram, no word
		{"H411", "H411", "GHS09", ""},                                       // a pictogram, no word
		{"H226 H314", "H226 H314", "GHS02 GHS05", "Danger"},                 // two dangers
		{"H300 H373 H410", "H300 H373 H410", "GHS06 GHS08 GHS09", "Danger"}, // three
		{"", "", "", ""},
	} {
		l := ghs.LabelOf(ofCodes(t, tt.codes))
		if d := cmp.Diff(strings.Fields(tt.kept), append([]string{}, l.Codes...)); d != "" {
			t.Errorf("%s: codes\n%s", tt.codes, d)
		}
		if d := cmp.Diff(strings.Fields(tt.pictograms), append([]string{}, l.Pictograms...)); d != "" {
			t.Errorf("%s: pictograms\n%s", tt.codes, d)
		}
		if l.Signal != tt.signal {
			t.Errorf("%s: %q, want %q", tt.codes, l.Signal, tt.signal)
		}
	}
}

// The eyes' precautionary statements are those of CLP Annex I 3.3.4.
func TestPrecautions(t *testing.T) {
	for codes, want := range map[string]string{
		"H318": "P280 P305+P351+P338 P310",
		"H319": "P264 P280 P305+P351+P338 P337+P313",
		"H412": "P273 P501",
		"":     "",
	} {
		if d := cmp.Diff(strings.Fields(want), append([]string{}, ghs.LabelOf(ofCodes(t, codes)).P...)); d != "" {
			t.Errorf("%s\n%s", codes, d)
		}
	}
	many := ghs.LabelOf(ofCodes(t, "H226 H302 H314 H317 H341 H351 H400")).P
	want := []string{"P280", "P301+P330+P331", "P303+P361+P353", "P304+P340", "P305+P351+P338", "P501"}
	if d := cmp.Diff(want, many); d != "" {
		t.Errorf("cut to six\n%s", d)
	}
}

// No label has more than six, and disposal is kept wherever a class asks for it (CLP Article 28).
func TestAtMostSix(t *testing.T) {
	all := ghs.All()
	for i, c := range all {
		for j, d := range all {
			p := ghs.LabelOf([]ghs.Class{c, d, all[(i+j)%len(all)]}).P
			if len(p) > ghs.MostP {
				t.Fatalf("%s, %s: %v", c, d, p)
			}
			for _, x := range p {
				if !slices.Contains(ghs.Precautions(), x) {
					t.Fatalf("%s is in no order", x)
				}
			}
		}
		alone := ghs.LabelOf([]ghs.Class{c}).P
		if slices.Contains(alone, "P501") && !slices.Contains(ghs.LabelOf(append([]ghs.Class{c}, all...)).P, "P501") {
			t.Errorf("%s: disposal was cut", c)
		}
		if len(alone) == 0 {
			t.Errorf("%s has no precaution", c)
		}
	}
}

func TestEveryClassIsWhole(t *testing.T) {
	for _, c := range ghs.All() {
		if c.String() == "" || len(c.Code()) != 4 {
			t.Errorf("class %d: %q %q", c, c, c.Code())
		}
		if back, ok := ghs.OfCode(c.Code()); !ok || back.Code() != c.Code() {
			t.Errorf("%s is read back as %s", c.Code(), back)
		}
		if c.Severer(c) || !c.Severer(ghs.None) || ghs.None.Severer(c) {
			t.Errorf("%s is severer than itself, or than nothing not", c)
		}
	}
	for _, no := range []string{"", "H", "H999", "EUH031", "P280"} {
		if c, ok := ghs.OfCode(no); ok {
			t.Errorf("%q is %s", no, c)
		}
	}
	if !ghs.SkinCorr1A.Severer(ghs.SkinIrrit2) || ghs.EyeDam1.Severer(ghs.SkinIrrit2) {
		t.Error("severity does not keep to its kind")
	}
}
