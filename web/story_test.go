package web_test

import (
	"net/url"
	"strings"
	"testing"

	"wetside/internal/browsertest"
)

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

// pour goes through the screens from where the page is until one key leads to another path than these.
func pour(t *testing.T, p *browsertest.Page, within string) (screens int) {
	t.Helper()
	for ; ; screens++ {
		at, err := p.At()
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(at, within) {
			return screens
		}
		if screens > 40 {
			t.Fatal("the bath does not end")
		}
		p.Audit()
		name, err := browsertest.Eval[string](p.Tab, `document.querySelector('.keys .go').innerText`)
		if err != nil {
			t.Fatal(err)
		}
		role, err := browsertest.Eval[string](p.Tab, `document.querySelector('.keys .go').tagName==='A'?'link':'button'`)
		if err != nil {
			t.Fatal(err)
		}
		p.Click(role, name)
		var now string
		p.Until("the next screen", func() bool { now, err = p.At(); return err == nil && now != at })
		p.Reach(now)
	}
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
	pour(t, p, "/mix/developer/")
	p.See("bath 2 of")
	p.Go("/")
	p.See("Mixed already")
	p.See("Go on mixing")
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
	p.Fill("Your darkroom's name", "Cellar")
	p.Click("button", "Begin")
	p.Reach("/begin/jugs")
}

// Every page, on a phone and at a desk, light and dark.
func TestEveryPageIsFitToUse(t *testing.T) {
	t.Parallel()
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	h.post(fixer+"/worked", url.Values{"load": {"20 8x10 in RC paper"}})
	code := h.share()
	bench := hrefs(h.get("/bench").Text)
	shelf := hrefs(h.get("/shelf").Text)
	pages := []string{
		"/", "/begin", "/begin/jugs", "/begin/trays", "/begin/bottles", "/begin/prints", "/mix/ready", "/plan", "/plan/when", "/plan/load/new", "/plan/load/0", "/mix", "/mix/before/1", "/mix/developer/1",
		"/mix/developer/2", "/jug", "/jug?label=1%2B9&volume=1+L", "/jug?label=1%2B999&volume=5+mL", "/shelf", "/safety", "/bench", "/room",
		"/file", "/parts", "/shelf/lot/new", "/shelf/product/new", "/bench/vessel/new", "/bench/tray/new", "/bench/tank/new",
		first(t, bench, "/bench/vessel/"), first(t, bench, "/bench/tray/"), first(t, shelf, "/shelf/product/"), "/nowhere",
		"/baths", "/wall", "/handover", "/lists/opening", "/lists/closing", "/evening/close", "/people", code, fixer, fixer + "?if=archival", fixer + "?people=12&hours=3", "/labels", "/labels?size=63.5x38.1", "/waste", "/wash", "/wash?material=FB+paper&standard=archival&prints=4+8x10", "/wrong", "/wrong?q=brown+patches", "/wrong?sign=grey_veil&no=unsafe_light&yes=developer_hot",
	}
	for name, look := range map[string]browsertest.Look{
		"phone, light": browsertest.Phone(), "phone, dark": {Width: 390, Height: 844, Dark: true},
		"desk, light": browsertest.Desk(), "desk, dark": {Width: 1280, Height: 800, Dark: true},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := browsertest.Open(t, &chromium, h.URL, look)
			p.Expect(404)
			for i, path := range pages {
				if look.Dark && i%3 != 0 {
					continue // the same pages in other colours
				}
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
