package web_test

import (
	"net/http"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"wetside/internal/browsertest"
)

// mixAll mixes the paper's baths of the example's evening and returns the address of each by its name.
func (h *house) mixAll() map[string]string {
	h.t.Helper()
	for _, id := range []string{"developer", "stop", "fixer", "fixer-second"} {
		h.mix(id)
	}
	return h.baths()
}

// mix mixes one bath of the plan.
func (h *house) mix(id string) {
	h.t.Helper()
	if a := h.post("/mix/"+id+"/poured", url.Values{"next": {"/mix/ready"}}); a.StatusCode != http.StatusSeeOther {
		h.t.Fatalf("mixing the %s: %d", id, a.StatusCode)
	}
}

// baths are the addresses of the baths that stand there, by name.
func (h *house) baths() map[string]string {
	h.t.Helper()
	out := map[string]string{}
	one := regexp.MustCompile(`(?s)<a href="(/baths/[^"]*)"><span class="who">.*?class="name">([^<]*)<`)
	for _, m := range one.FindAllStringSubmatch(h.get("/baths").Text, -1) {
		out[m[2]] = m[1]
	}
	return out
}

// plain sets every space that does not break as one that does.
func plain(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

// more is the count that a bath's page leads with, -1 where it leads with none.
func more(page string) int {
	m := regexp.MustCompile(`Use it for ([0-9]+) more`).FindStringSubmatch(page)
	if m == nil {
		return -1
	}
	n, err := strconv.Atoi(m[1])
	if err != nil {
		return -1
	}
	return n
}

// The safe end of 2 L of rapid fixer 1+4, RC paper at exhibition standard: twice what one litre does, which is 35 by the
// model's worked figures (47 likely).
func TestAFixerByItsBook(t *testing.T) {
	h := withExample(t)
	all := h.mixAll()
	if len(all) != 4 {
		t.Fatalf("baths %v, want four", all)
	}
	fixer := all["Fixer 1"]
	fresh := more(h.get(fixer).Text)
	if fresh != 2*35 {
		t.Errorf("fresh: %d more, want 70", fresh)
	}
	to := h.post(fixer+"/worked", url.Values{"load": {"20 8x10 in RC paper"}}).Header.Get("Location")
	page := h.get(to)
	if !strings.HasPrefix(to, fixer+"?did=") || !strings.Contains(page.Text, "Written down:") {
		t.Fatalf("twenty sheets lead to %q", to)
	}
	worked := more(page.Text)
	if worked >= fresh || worked < fresh-25 {
		t.Errorf("after twenty: %d more of %d", worked, fresh)
	}
	for _, name := range []string{"Fixer 1", "Stop bath"} { // a spent bath takes what went through, with a warning
		over := h.post(all[name]+"/worked", url.Values{"load": {"400 8x10 in RC paper"}}).Header.Get("Location")
		again := h.post(all[name]+"/worked", url.Values{"load": {"1 8x10 in RC paper"}}).Header.Get("Location")
		if p := h.get(again).Text; !strings.Contains(p, "It was spent before") || !strings.Contains(p, "Mix a fresh one") {
			t.Errorf("the spent %s takes a load without a word", name)
		}
		for _, at := range []string{again, over} {
			h.post(first(t, actions(h.get(at).Text), "/undo/"), nil)
		}
	}
	// The load went the whole way.
	for _, name := range []string{"Developer", "Stop bath"} {
		if p := h.get(all[name]).Text; !strings.Contains(plain(p), "<b>20 sheets</b> of RC paper") {
			t.Errorf("the %s does not know of the load", name)
		}
	}
	if p := h.get(all["Fixer 2"]).Text; strings.Contains(plain(p), "20 sheets") {
		t.Error("RC paper went through the second fixer, which it never does here")
	}
	undo := first(t, actions(page.Text), "/undo/")
	if a := h.post(undo, url.Values{"back": {fixer}}); a.Header.Get("Location") != fixer {
		t.Errorf("undo leads to %q", a.Header.Get("Location"))
	}
	if back := more(h.get(fixer).Text); back != fresh {
		t.Errorf("after undo %d more, want %d", back, fresh)
	}
	if a := h.post("/undo/nobody", url.Values{"back": {"//elsewhere"}}); a.Header.Get("Location") == "//elsewhere" {
		t.Error("undo leads out of the house")
	}
}

// What can't be read is told at its field, with what was typed; nothing is written.
func TestBathForms(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	at := h.position()
	for _, tt := range []struct {
		name, path, field string
		form              url.Values
	}{
		{"no load", "/worked", "load", url.Values{"load": {"some"}}},
		{"a count below zero", "/worked", "load", url.Values{"load": {"-3 8x10 RC"}}},
		{"no material", "/worked", "load", url.Values{"load": {"6 8x10 wood"}}},
		{"a guess of none", "/worked", "sheets", url.Values{"what": {"8x10 in RC paper"}, "sheets": {"lots"}, "how": {"12 people, 3 h"}}},
		{"no result", "/tested", "result", url.Values{"test": {"silver strip"}, "result": {"much"}}},
		{"no step of the strip", "/tested", "result", url.Values{"test": {"silver strip"}, "result": {"0.7 g/L"}}},
		{"no test", "/tested", "result", url.Values{"test": {"tea leaves"}, "result": {"passed"}}},
		{"a top-up of nothing", "/topped", "poured", url.Values{"poured": {"0 L"}, "with": {"fresh"}}},
	} {
		a := h.post(fixer+tt.path, tt.form)
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(inputOf(t, a.Text, tt.field), `aria-invalid="true"`) {
			t.Errorf("%s: %d, want what is wrong at %s", tt.name, a.StatusCode, tt.field)
			continue
		}
		if typed := tt.form.Get(tt.field); !strings.Contains(inputOf(t, a.Text, tt.field), `value="`+typed+`"`) {
			t.Errorf("%s: what was typed is gone", tt.name)
		}
		if m := left.FindString(a.Text); m != "" {
			t.Errorf("%s: %q is left on the page", tt.name, m)
		}
	}
	for _, path := range []string{"/back", "/out", "/away"} {
		if a := h.post(fixer+path, url.Values{"into": {"bucket"}, "to": {"drain"}}); a.StatusCode != http.StatusNotFound {
			t.Errorf("%s: %d, want 404", path, a.StatusCode)
		}
	}
	if h.get("/baths/nobody").StatusCode != http.StatusNotFound || h.post("/baths/nobody/worked", nil).StatusCode != http.StatusNotFound {
		t.Error("a bath that is not there has a page")
	}
	if now := h.position(); now != at {
		t.Errorf("%d entries were written", now-at)
	}
}

// A guess is asked first, and marked as one.
func TestNobodyCounted(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	at := h.position()
	page := h.get(fixer + "?people=12&hours=3").Text
	if !strings.Contains(page, `Take it as <b>36</b>?`) || h.position() != at {
		t.Fatal("twelve people in three hours are not offered as 36 sheets, or were written down unasked")
	}
	for _, bad := range []string{"?people=x&hours=3", "?people=12&hours=-1", "?people=12&hours="} {
		if p := h.get(fixer + bad).Text; !strings.Contains(p, `aria-invalid="true"`) {
			t.Errorf("%s: nothing is wrong", bad)
		}
	}
	to := h.post(fixer+"/worked", url.Values{"what": {"8x10 in RC paper"}, "sheets": {"36"}, "how": {"12 people, 3 h"}}).Header.Get("Location")
	if p := plain(h.get(to).Text); !strings.Contains(p, "About <b>36 sheets</b> of RC paper") || !strings.Contains(p, "sheets that went through were guessed") {
		t.Error("the guess is not marked as one")
	}
}

// A bath goes into a bottle and out again; it goes for ever after one question, and fixer never down the drain.
func TestABathGoes(t *testing.T) {
	h := withExample(t)
	all := h.mixAll()
	fixer := all["Fixer 1"]
	if p := h.get(fixer).Text; strings.Contains(p, `value="drain"`) || !strings.Contains(h.get(all["Developer"]).Text, `value="drain"`) {
		t.Error("the drain is offered for fixer, or not for developer")
	}
	h.post(fixer+"/back", url.Values{"into": {"full bottle"}})
	bottled := h.get(fixer).Text
	out := regexp.MustCompile(`name="to" value="(tray [^"]*)"`).FindStringSubmatch(bottled)
	if out == nil || !strings.Contains(bottled, "Poured back into a full bottle") {
		t.Fatal("it is in no bottle, or does not come out again")
	}
	if a := h.post(fixer+"/out", url.Values{"to": {out[1]}}); a.StatusCode != http.StatusSeeOther {
		t.Errorf("out again: %d", a.StatusCode)
	}
	at := h.position()
	asked := h.post(all["Fixer 2"]+"/forward", nil)
	if asked.StatusCode != http.StatusConflict || h.position() != at {
		t.Fatalf("moving forward: %d, %d entries; want to be asked", asked.StatusCode, h.position()-at)
	}
	yes := url.Values{"sure": {"yes"}, "position": {strconv.FormatInt(at, 10)}}
	if a := h.post(all["Fixer 2"]+"/forward", yes); !strings.Contains(h.get(a.Header.Get("Location")).Text, "Mix a fresh second") {
		t.Fatalf("moving forward: %d, or nothing is said of a fresh second", a.StatusCode)
	}
	if now := h.baths(); now["Fixer 1"] != all["Fixer 2"] || len(now) != 3 {
		t.Errorf("after the second moved forward there are %v", now)
	}
	if p := h.get(fixer).Text; !strings.Contains(p, "It went") || strings.Contains(p, "/worked") {
		t.Error("the first fixer still takes loads")
	}
	// A decision that was made on an older book is asked again.
	stale := url.Values{"sure": {"yes"}, "position": {"1"}, "to": {"collected"}}
	if a := h.post(all["Fixer 2"]+"/away", stale); a.StatusCode != http.StatusConflict {
		t.Errorf("a decision on an old book: %d, want 409", a.StatusCode)
	}
}

// Every other way that is offered answers on both sides; a wrong word is told at its field.
func TestWhatIf(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	ifs := 0
	for _, m := range regexp.MustCompile(`href="(/baths/[^"#]*\?if=[^"#]*)`).FindAllStringSubmatch(h.get(fixer).Text, -1) {
		at := m[1]
		ifs++
		if p := h.get(at).Text; !strings.Contains(p, `class="sides"`) || !strings.Contains(p, "As it is") {
			t.Errorf("%s: no two answers", at)
		}
	}
	if ifs < 4 {
		t.Errorf("only %d other ways", ifs)
	}
	sides := regexp.MustCompile(`<p class="more"><b>([0-9]+)</b>`).FindAllStringSubmatch(h.get(fixer+"?volume=4+L").Text, -1)
	if len(sides) != 2 || sides[0][1] != "70" || sides[1][1] != "140" {
		t.Errorf("twice the volume answers %v, want 70 and 140", sides)
	}
	for _, bad := range []string{"?dilution=1%2B0", "?volume=-1+L", "?more=x"} {
		if p := h.get(fixer + bad).Text; !strings.Contains(p, `aria-invalid="true"`) || strings.Contains(p, `class="sides"`) {
			t.Errorf("%s: nothing is wrong", bad)
		}
	}
}

// The wash: a half-life of a minute takes film from what a fresh fixer leaves to the limit in about ten half-lives
// (NAVEDTRA 14209; the limit is ANSI IT9.1-1996's); a wrong word is told at its field.
func TestWashPage(t *testing.T) {
	h := withExample(t)
	film := h.get("/wash?material=film&standard=exhibition&prints=1+135-36&water=20+C&tray=1+L&flow=2+L").Text
	if !strings.Contains(film, "At most 0.014") || !strings.Contains(film, "<svg") || !strings.Contains(film, "starts it again") {
		t.Error("no limit, no picture, or nothing of the one clock")
	}
	if rc := h.get("/wash?material=RC+paper&standard=exhibition&prints=9+16x20&water=1+C&tray=1+L&flow=0&aid=yes").Text; !strings.Contains(rc, "too long for RC paper") || !strings.Contains(rc, "does nothing for RC") {
		t.Error("RC paper in cold water: nothing is said of its edges, or of the washing aid")
	}
	for name, q := range map[string]string{
		"prints": "prints=lots", "water": "water=cold", "tray": "tray=big", "flow": "flow=x",
	} {
		a := h.get("/wash?material=FB+paper&" + q)
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(inputOf(t, a.Text, name), `aria-invalid="true"`) {
			t.Errorf("%s: %d, want what is wrong at %s", q, a.StatusCode, name)
		}
	}
}

// A fixer on a phone: twenty taps, a silver strip, the number falls; undo brings it back.
func TestAFixerOnAPhone(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	look := browsertest.Phone()
	look.NoScripts = true
	p := browsertest.Open(t, &chromium, h.URL, look)
	p.Go("/")
	p.Click("link", "What each bath still does")
	p.Reach("/baths")
	p.See("All four are good")
	p.Audit()
	p.Go(fixer)
	fresh := more(p.Text())
	for n := 1; n <= 20; n++ {
		p.Click("button", "+ 1\u00a0sheet 8×10\u00a0in RC paper")
		want := strconv.Itoa(n)
		p.Until("sheet "+want+" is counted", func() bool { return strings.Count(plain(p.Text()), "1 sheet of RC paper") > n })
	}
	p.Go("/baths")
	p.Click("button", "+ 1\u00a0strip 8×10\u00a0in RC paper")
	p.See("Written down:")
	p.Reach("/baths")
	p.Audit()
	p.Click("button", "Undo")
	p.Until("the strip is taken back", func() bool { return !strings.Contains(p.Text(), "Written down:") })
	p.Go(fixer)
	tapped := more(p.Text())
	if tapped >= fresh {
		t.Errorf("after twenty sheets %d more, before %d", tapped, fresh)
	}
	p.Click("button", "1.5")
	p.See("Silver strip: 1.5 g/L")
	p.Audit()
	tested := more(p.Text())
	if tested >= tapped { // twenty sheets of RC in two litres leave 0.4 g/L: 1.5 is far more silver than was thought
		t.Errorf("after a strip of 1.5 g/L %d more, before %d", tested, tapped)
	}
	p.Click("button", "Undo")
	p.Until("the test is taken back", func() bool { return more(p.Text()) == tapped })
}
