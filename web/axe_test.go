package web_test

import (
	"fmt"
	"strings"
	"testing"

	"wetside/internal/browsertest"
	"wetside/internal/outside"
)

// axeFinds runs axe-core over a page by the rules of WCAG 2.2, levels A and AA, and leaves what it finds in the page.
const axeFinds = `window.found = null; axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"], resultTypes: ["violations"] }).then((r) =>
	r.violations.flatMap((v) => v.nodes.map((n) => v.id + ": " + n.target.join(" ") + " " + (n.any[0]?.message || n.all[0]?.message || "")))).then((found) => (window.found = found), (e) => (window.found = [String(e)]))`

// axe-core finds nothing in any page, light or red, with all opened; and it is seen to find something where there is something.
func TestAxe(t *testing.T) {
	if testing.Short() {
		t.Skip("long, and without a race of its own: the whole run has it")
	}
	t.Parallel()
	script := outside.Axe(t)
	h, paths := redHouse(t)
	for form, open := range map[string]func() *browsertest.Page{
		"light": func() *browsertest.Page {
			p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
			for _, status := range []int64{422, 404, 403, 409} {
				p.Expect(status)
			}
			return p
		},
		"red": func() *browsertest.Page { return inRed(t, h.URL, browsertest.Phone()) },
	} {
		t.Run(form, func(t *testing.T) {
			t.Parallel()
			p, looked := open(), 0
			finds := func() []string {
				t.Helper()
				run(t, p, "document.querySelectorAll('details').forEach(d => d.open = true);"+script)
				run(t, p, axeFinds)
				p.Until("axe-core has looked", func() bool {
					done, err := browsertest.Eval[bool](p.Tab, "!!window.found")
					return err == nil && done
				})
				got, err := browsertest.Eval[[]string](p.Tab, "window.found")
				if err != nil {
					t.Fatal(err)
				}
				return got
			}
			for i, path := range paths {
				if form == "red" && i%3 != 0 && path != "/sink" && path != "/wall" {
					continue // the same pages in other colours
				}
				p.Go(path)
				if got := finds(); len(got) > 0 {
					t.Errorf("%s:\n%s", path, strings.Join(got[:min(len(got), 6)], "\n"))
				}
				looked++
			}
			run(t, p, `document.querySelector("main").append(document.createElement("input"))`)
			if got := finds(); !strings.Contains(fmt.Sprint(got), "label") {
				t.Errorf("a field without a label is not found: %q", got)
			}
			t.Logf("%d pages", looked)
		})
	}
}
