package web_test

import (
	"fmt"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/trade/material"
	"wetside/web"
)

// pupils are the first names of a class of ten, in several scripts.
func pupils() []string {
	return []string{"Lena", "Omar", "Юлия", "美咲", "Zoë", "Ada", "Mo", "Nour", "Łukasz", "Lena"}
}

// A class is a school's darkroom with a teacher and ten who print on resin-coated paper.
func class(t *testing.T) *house {
	t.Helper()
	h := empty(t)
	f, err := example.File(evening())
	if err != nil {
		t.Fatal(err)
	}
	f.Darkroom.Name, f.Darkroom.Place, f.Session.People = "Room 12", darkroom.School, 11
	f.People = nil
	f.Session.ToMake = slices.DeleteFunc(f.Session.ToMake, func(l darkroom.Load) bool { return l.Material != material.RC })
	if err := h.book.Keep(t.Context(), f, web.Keeping{}); err != nil {
		t.Fatal(err)
	}
	return h
}

// A teacher and ten pupils under 18, from mixing to the emptied sink: the pupils join by first name, meet working solutions alone and
// with tongs, and count what they print; the teacher mixes, labels, hangs up a card at each tray, keeps the safety sheet of all in use,
// has the waste fetched against a numbered paper and has the year's sheet to sign.
func TestAClassOfTen(t *testing.T) {
	h := class(t)
	code := h.share()
	if text := read(h.get("/mix").Text); !strings.Contains(text, "Pupils: working solutions only, and with tongs.") {
		t.Error("the mix sheet says nothing of pupils")
	}
	var all []*device
	for _, name := range pupils() {
		d := h.joined(code, name)
		all = append(all, d)
		if text := read(d.do(http.MethodGet, "/sink", nil).Text); !strings.Contains(text, "Under 18: with tongs only.") {
			t.Errorf("%s is not told of the tongs: %s", name, text)
		}
		if a := d.do(http.MethodPost, "/mix/developer/poured", url.Values{"next": {"/mix/ready"}}); a.StatusCode != http.StatusForbidden {
			t.Errorf("%s mixes a developer: %d", name, a.StatusCode)
		}
	}
	for _, id := range []string{"developer", "stop", "fixer"} {
		h.mix(id)
	}
	baths := h.baths()
	if len(baths) != 3 {
		t.Fatalf("baths: %v", baths)
	}
	h.classPapers(baths)
	for i, d := range all {
		if a := d.do(http.MethodPost, baths["Fixer"]+"/worked", url.Values{"load": {"3 8x10 in RC paper"}}); a.StatusCode != http.StatusSeeOther {
			t.Errorf("%s can't count: %d", pupils()[i], a.StatusCode)
		}
	}
	if text := read(h.get("/people").Text); !strings.Contains(text, "Юлия") || !strings.Contains(text, "美咲") {
		t.Errorf("the teacher is not told who is here: %s", text)
	}
	h.classEnds(baths)
	h.readBack(t)
}

// classPapers holds what hangs in the room: a label on each bath whose code opens its page, a card at each tray, the rules, the safety
// sheet of what is in use and of nothing else.
func (h *house) classPapers(baths map[string]string) {
	h.t.Helper()
	t := h.t
	page := h.get("/labels").Text
	labels := h.get(html.UnescapeString(regexp.MustCompile(`/labels\.pdf\?[^"]+`).FindString(page))).Text
	got := codes(t, labels)
	for name, path := range baths {
		if !slices.Contains(got, h.URL+path) {
			t.Errorf("no code opens %s at %s: %v", name, path, got)
		}
	}
	if !slices.Contains(got, h.URL+"/waste") {
		t.Errorf("the can's code does not open the waste cans: %v", got)
	}
	var trays, safety string
	for i, sheet := range paperPages(t, h.get("/cards.pdf").Text) {
		switch {
		case strings.Contains(sheet, "Safety sheet") || safety != "":
			safety += sheet + " "
		case i < 2:
			trays += sheet + " "
		}
	}
	for _, want := range []string{"1 Developer", "2 Stop bath", "3 Fixer", "Tongs: those of white tray", "Tongs: those of red tray", "Tongs: those of grey tray"} {
		if !strings.Contains(strings.ToLower(trays), strings.ToLower(want)) {
			t.Errorf("no card says %q: %s", want, trays)
		}
	}
	for _, want := range []string{"paper developer", "citric stop bath", "rapid fixer", "H317", "Never together", "In an eye"} {
		if !strings.Contains(safety, want) {
			t.Errorf("the safety sheet does not say %q: %s", want, safety)
		}
	}
	if strings.Contains(safety, "film developer powder") {
		t.Error("the safety sheet tells of what is not in use")
	}
}

// classEnds closes the evening by the one list and has the can fetched.
func (h *house) classEnds(baths map[string]string) {
	h.t.Helper()
	h.post(baths["Fixer"]+"/tested", url.Values{"test": {"drop test"}, "result": {"failed"}})
	list := read(h.get("/lists/closing").Text)
	if !strings.Contains(list, "Fixer into the waste can, not down the drain") {
		h.t.Errorf("the closing list does not say where the fixer goes: %s", list)
	}
	for name, do := range map[string]string{"Fixer": "collected", "Stop bath": "full", "Developer": "collected"} {
		a := h.post("/lists/closing/bath/"+strings.TrimPrefix(baths[name], "/baths/"), url.Values{"do": {do}, "position": {fmt.Sprint(h.position())}})
		if a.StatusCode != http.StatusSeeOther {
			h.t.Fatalf("%s, %s: %d, %s", name, do, a.StatusCode, problemsOf(a.Text))
		}
	}
	list = read(h.get("/lists/closing").Text)
	for _, want := range []string{"Rapid fixer: into the grey can", "Citric stop bath: back in its bottle", "Paper developer: put by to be collected"} {
		if !strings.Contains(list, want) {
			h.t.Errorf("the closing list does not say %q: %s", want, list)
		}
	}
	h.post("/evening/close", url.Values{"from": {"list"}, "position": {fmt.Sprint(h.position())}})
	if h.running() != "" || len(keysOf(h.get("/sink").Text, "on")) > 0 {
		h.t.Error("the evening still runs, or something lies in the sink")
	}
	can := strings.TrimPrefix(first(h.t, hrefs(h.get("/waste").Text), "/bench/can/"), "/bench/can/")
	a := h.post("/waste/taken", url.Values{"can": {can}, "by " + can: {"the town's van"}, "document " + can: {"EN 2026-0417"}})
	if a.StatusCode != http.StatusSeeOther {
		h.t.Fatalf("fetching: %d, %s", a.StatusCode, problemsOf(a.Text))
	}
	sheet := paperText(h.t, h.get(fmt.Sprintf("/waste.pdf?year=%d", evening().Year())).Text)
	for _, want := range []string{"Room 12", "the town's van", "EN 2026-0417", "2 L", "(a test failed)", "Kept by: name, date", "Seen by: name, date"} {
		if !strings.Contains(strings.ToLower(sheet), strings.ToLower(want)) {
			h.t.Errorf("the year's sheet does not say %q: %s", want, sheet)
		}
	}
	for _, name := range pupils() {
		if slices.Contains(strings.Fields(sheet), name) {
			h.t.Errorf("the year's sheet names %s", name)
		}
	}
}
