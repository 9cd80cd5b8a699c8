package web_test

import (
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wetside/internal/browsertest"
)

// On a phone of 390 × 844 each step's mark, the jug with it, and the key to the next step are on the first screen, in white light and in
// red; no caution stands there twice.
func TestStepsFitAPhone(t *testing.T) {
	h := withExample(t)
	var steps []string
	for _, bath := range []string{"before", "developer", "film-developer", "stop", "film-stop", "fixer", "fixer-second", "film-fixer", "washing-aid", "film-washing-aid", "film-wetting-agent"} {
		for n := 1; h.get(fmt.Sprintf("/mix/%s/%d", bath, n)).StatusCode == http.StatusOK; n++ {
			steps = append(steps, fmt.Sprintf("/mix/%s/%d", bath, n))
		}
	}
	if len(steps) < 25 {
		t.Fatalf("only %d steps: %v", len(steps), steps)
	}
	pages := map[string]*browsertest.Page{
		"light": browsertest.Open(t, &chromium, h.URL, browsertest.Phone()), "red": inRed(t, h.URL, browsertest.Phone()),
	}
	for form, p := range pages {
		for _, step := range steps {
			p.Go(step)
			feet, err := browsertest.Eval[map[string]float64](p.Tab, `Object.fromEntries([["key",".keys .go"],["jug",".picture svg"],["mark","h1.lead"]].map(([n,q])=>[n,document.querySelector(q)?.getBoundingClientRect().bottom??0]))`)
			if err != nil {
				t.Fatal(err)
			}
			keyTop, err := browsertest.Eval[float64](p.Tab, `document.querySelector(".keys").getBoundingClientRect().top`)
			if err != nil {
				t.Fatal(err)
			}
			for what, foot := range feet {
				limit := 844.0
				if what != "key" {
					limit = min(limit, keyTop) + 1
				}
				if foot > limit && !strings.HasPrefix(step, "/mix/before") {
					t.Errorf("%s, %s: the %s reaches down to %.0f, seen is %.0f", form, step, what, foot, limit)
				}
			}
			picture, err := p.Screenshot(0)
			if err == nil {
				name := form + strings.ReplaceAll(step, "/", "-") + ".png"
				if err := os.WriteFile(filepath.Join(t.ArtifactDir(), name), picture, 0o600); err != nil {
					t.Fatal(err)
				}
			}
			seen := map[string]bool{}
			all, err := browsertest.Eval[[]string](p.Tab, `[...document.querySelectorAll(".cautions li, .findings li")].map(e=>e.innerText.trim())`)
			if err != nil {
				t.Fatal(err)
			}
			for _, text := range all {
				if seen[text] {
					t.Errorf("%s, %s says twice: %s", form, step, text)
				}
				seen[text] = true
			}
		}
	}
}
