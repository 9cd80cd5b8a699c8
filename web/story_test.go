package web_test

import (
	"strings"
	"testing"
	"time"

	"wetside/internal/browsertest"
)

// Somebody who has never seen it, on a phone, from the first page to the mix sheet for their own jug; with scripts and
// without. The issue allows three minutes to a person; what the pages themselves take is logged, and is to stay small.
func TestAStrangerMixesInTheirOwnJug(t *testing.T) {
	for _, noScripts := range []bool{false, true} {
		name := "with scripts"
		if noScripts {
			name = "without scripts"
		}
		t.Run(name, func(t *testing.T) {
			look := browsertest.Phone()
			look.NoScripts = noScripts
			p := browsertest.Open(t, &chromium, empty(t).URL, look)
			start := time.Now()
			p.Go("/")
			p.Reach("/begin")
			p.Audit()
			p.Fill("What is your darkroom called?", "My bathroom")
			p.Click("checkbox", "a litre jug with mL and US fluid ounces")
			p.Click("button", "Begin")
			p.Reach("/jug")
			p.Fill("The label says", "1+31")
			p.Fill("How much", "1 L")
			p.Click("button", "Tell me")
			p.See("1 fl oz made up to 32 fl oz")
			p.See("Concentrate to the 1 fl oz mark of the litre jug with ounces.")
			p.See("Then water up to the 32 fl oz mark of the litre jug with ounces.")
			p.Audit()
			took := time.Since(start)
			t.Logf("four fields and three taps, %v in the browser", took)
			if took > time.Minute {
				t.Errorf("it took %v", took)
			}
		})
	}
}

// A word that can't be read is told at its field, on the phone too, and mended there.
func TestAMistakeIsMended(t *testing.T) {
	p := browsertest.Open(t, &chromium, empty(t).URL, browsertest.Phone())
	p.Expect(422)
	p.Go("/jug")
	p.Fill("The label says", "1+0")
	p.Fill("How much", "1 L")
	p.Click("button", "Tell me")
	p.See("1+0")
	p.Audit()
	p.Fill("The label says", "1+9")
	p.Click("button", "Tell me")
	p.See("Concentrate to the 100 mark")
}

// The example's evening: from the first page through the mix sheet, one screen at a time, until a bath is in its tray;
// the shelf is drawn down; undo brings it back.
func TestTheEveningOnAPhone(t *testing.T) {
	h := withExample(t)
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	shelf := lefts(h.get("/shelf").Text)
	p.Go("/")
	p.Click("link", "Start mixing")
	p.Reach("/mix/before/1")
	p.Click("link", "Ready")
	p.Reach("/mix/developer/1")
	p.See("bath 1 of")
	for n := 1; ; n++ {
		text := p.Text()
		if strings.Contains(text, "It is in the tray") {
			break
		}
		if n > 12 {
			t.Fatal("the bath does not end")
		}
		p.Audit()
		if strings.Contains(text, "Poured") {
			p.Click("link", "Poured")
		} else {
			p.Click("link", "Done")
		}
		p.Reach("/mix/developer/" + string(rune('1'+n)))
	}
	p.Click("button", "It is in the tray")
	p.See("bath 2 of")
	p.Go("/")
	p.See("Mixed already")
	if drawn := lefts(h.get("/shelf").Text); strings.Join(drawn, "|") == strings.Join(shelf, "|") {
		t.Errorf("nothing left the bottles: %q", drawn)
	}
	p.Audit()
	p.Click("button", "Undo")
	p.Until("nothing is mixed", func() bool { return !strings.Contains(p.Text(), "Mixed already") })
	if back := lefts(h.get("/shelf").Text); strings.Join(back, "|") != strings.Join(shelf, "|") {
		t.Errorf("after undo the shelf holds %q, want %q", back, shelf)
	}
}

// On a plain-http name that is not loopback, forms go through: Referrer-Policy must let the browser send its Origin.
func TestFormsOnAMappedHost(t *testing.T) {
	h := empty(t)
	p := browsertest.Open(t, &chromium, strings.Replace(h.URL, "127.0.0.1", browsertest.MappedHost, 1), browsertest.Phone())
	p.Go("/begin")
	p.Fill("What is your darkroom called?", "Cellar")
	p.Click("button", "Begin")
	p.Reach("/jug")
}

// Every page, on a phone and at a desk, light and dark.
func TestEveryPageIsFitToUse(t *testing.T) {
	h := withExample(t)
	bench := hrefs(h.get("/bench").Text)
	shelf := hrefs(h.get("/shelf").Text)
	pages := []string{
		"/", "/begin", "/plan", "/plan/when", "/plan/load/new", "/plan/load/0", "/mix", "/mix/before/1", "/mix/developer/1",
		"/mix/developer/2", "/jug", "/jug?label=1%2B9&volume=1+L", "/jug?label=1%2B999&volume=5+mL", "/shelf", "/bench", "/room",
		"/file", "/parts", "/shelf/lot/new", "/shelf/product/new", "/bench/vessel/new", "/bench/tray/new", "/bench/tank/new",
		first(t, bench, "/bench/vessel/"), first(t, bench, "/bench/tray/"), first(t, shelf, "/shelf/product/"), "/nowhere",
	}
	for name, look := range map[string]browsertest.Look{
		"phone, light": browsertest.Phone(), "phone, dark": {Width: 390, Height: 844, Dark: true},
		"desk, light": browsertest.Desk(), "desk, dark": {Width: 1280, Height: 800, Dark: true},
	} {
		t.Run(name, func(t *testing.T) {
			p := browsertest.Open(t, &chromium, h.URL, look)
			p.Expect(404)
			for _, path := range pages {
				p.Go(path)
				// What can be opened is looked at, too.
				if _, err := browsertest.Eval[bool](p.Tab, "document.querySelectorAll('details').forEach(d => d.open = true), true"); err != nil {
					t.Fatal(err)
				}
				p.Audit()
			}
		})
	}
}
