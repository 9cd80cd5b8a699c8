package label_test

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"wetside/draw/label"
	"wetside/draw/scene"
	"wetside/words"
)

// unsaid is what stands where a message or what belongs in it is missing.
var unsaid = regexp.MustCompile(`\[[a-z_]+\.[A-Za-z_.0-9]+\]|<no value>|\{\{|\x{E000}`)

// Whatever the language: on every size a label lies within its edges and has all its hazard statements, or is refused and
// another size takes it; the usual ones take all. No message is missing, and the face has every letter.
func TestEveryLanguageFits(t *testing.T) {
	c, err := words.Open()
	if err != nil {
		t.Fatal(err)
	}
	if len(c.Languages()) < 4 {
		t.Fatalf("languages: %v", c.Languages())
	}
	for _, lang := range c.Languages() {
		t.Run(lang.String(), func(t *testing.T) {
			all := labelsIn(t, lang.String())
			if len(all) < 5 {
				t.Fatalf("%d labels", len(all))
			}
			for title, l := range all {
				if missing := unsaid.FindString(l.Text()); missing != "" {
					t.Errorf("%s says %q", title, missing)
				}
				if lacks := l.Lacks(); len(lacks) > 0 {
					t.Errorf("%s: the face lacks %q", title, lacks)
				}
				fits := 0
				for _, s := range label.Stocks() {
					got, err := l.Fit(s.Label, scene.Light)
					usual := s.Name == "99.1x67.7" || s.Name == "4x3 1/3 in"
					if err != nil {
						if usual || !errors.Is(err, label.ErrSmall) {
							t.Errorf("%s on %s: %v", title, s.Name, err)
						}
						continue
					}
					fits++
					inside(t, got.Scene)
					if usual && (got.NoCode || got.NoTally || got.Without > 0) {
						t.Errorf("%s on %s leaves out: no code %v, no tally %v, without %d", title, s.Name, got.NoCode, got.NoTally, got.Without)
					}
					whole(t, l, got.Scene)
				}
				if fits == 0 {
					t.Errorf("%s fits no size", title)
				}
			}
		})
	}
}

// whole holds every word of the hazard statements on the label.
func whole(t *testing.T, l label.Label, s scene.Scene) {
	t.Helper()
	on := said(s)
	for _, h := range l.Hazard {
		for word := range strings.FieldsSeq(h) {
			if !strings.Contains(on, word) {
				t.Errorf("%s: %q of %q is not on it: %s", l.Title, word, h, on)
			}
		}
	}
}
