package web_test

import (
	"html"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"testing"
)

// idOf is the id of whoever goes by a name.
func (h *house) idOf(name string) string {
	h.t.Helper()
	people, err := h.book.People(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	for id, p := range people {
		if p.Name == name {
			return id
		}
	}
	h.t.Fatalf("nobody is called %q", name)
	return ""
}

// What is noted of somebody is changed by themselves, on their own device, and by whoever keeps the darkroom, without erasing them; their
// work keeps their name. Nobody else sees or changes it, and it stands on no wall, in no export, in no log.
func TestNotesAreChanged(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	code := h.share()
	lena, omar := &device{house: h}, h.joined(code, "Omar")
	lena.do(http.MethodPost, code, url.Values{"name": {"Lena"}, "note": {"asthma"}, "sensitised": {"metol"}})
	lena.do(http.MethodPost, fixer+"/worked", url.Values{"load": {"2 8x10 in RC paper"}})
	at := "/people/" + h.idOf("Lena")
	position := h.position()

	for _, from := range []string{"/safety", code} {
		if !slices.Contains(hrefs(lena.do(http.MethodGet, from, nil).Text), at) {
			t.Errorf("%s does not lead her to her notes", from)
		}
		if slices.Contains(hrefs(omar.do(http.MethodGet, from, nil).Text), at) {
			t.Errorf("%s leads Omar to her notes", from)
		}
	}
	form := lena.do(http.MethodGet, at, nil)
	if form.StatusCode != http.StatusOK || !strings.Contains(form.Text, `value="asthma" checked`) || !strings.Contains(form.Text, `name="sensitised" value="metol"`) {
		t.Fatalf("her notes as they are: %d %s", form.StatusCode, read(form.Text))
	}
	for _, method := range []string{http.MethodGet, http.MethodPost} {
		if a := omar.do(method, at, url.Values{"note": {"pregnant"}}); a.StatusCode != http.StatusForbidden || strings.Contains(a.Text, "metol") {
			t.Errorf("%s of her notes by Omar: %d", method, a.StatusCode)
		}
	}

	mine := url.Values{"note": {"under 18", "wine"}, "sensitised": {"hydroquinone, metol"}, "else": {"faints, carries a spray"}}
	if a := lena.do(http.MethodPost, at, mine); a.StatusCode != http.StatusSeeOther || a.Header.Get("Location") != "/safety" {
		t.Fatalf("her own change: %d", a.StatusCode)
	}
	want := []string{"under 18", "sensitised to hydroquinone", "sensitised to metol", "faints", "carries a spray"}
	if got := h.notesOf("Lena"); !slices.Equal(got, want) {
		t.Errorf("notes: %q, want %q", got, want)
	}
	if text := read(lena.do(http.MethodGet, "/safety", nil).Text); !strings.Contains(text, "Sensitised to hydroquinone") || !strings.Contains(text, "Under 18") {
		t.Errorf("her caution does not follow: %s", text)
	}
	h.nowhereElse("faints", "carries a spray", "sensitised")

	// Too long is told at its field, and keeps what was typed.
	long := strings.Repeat("x", 201)
	a := lena.do(http.MethodPost, at, url.Values{"note": {"asthma"}, "sensitised": {long}, "else": {"kept"}})
	if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(inputOf(t, a.Text, "sensitised"), `aria-invalid="true"`) || !strings.Contains(a.Text, `value="kept"`) || !strings.Contains(a.Text, `value="asthma" checked`) {
		t.Errorf("a name that is too long: %d", a.StatusCode)
	}
	if got := h.notesOf("Lena"); !slices.Equal(got, want) {
		t.Errorf("it was kept: %q", got)
	}

	// The keyholder changes them on the page of names.
	if !slices.Contains(hrefs(h.get("/people").Text), at) {
		t.Error("the names do not lead to what is noted of them")
	}
	if page := html.UnescapeString(h.get(at).Text); !strings.Contains(page, "faints, carries a spray") {
		t.Errorf("the keyholder does not see them: %s", read(page))
	}
	if a := h.post(at, url.Values{}); a.StatusCode != http.StatusSeeOther || a.Header.Get("Location") != "/people" {
		t.Errorf("the keyholder's change: %d", a.StatusCode)
	}
	if got := h.notesOf("Lena"); len(got) != 0 {
		t.Errorf("notes that were taken away: %q", got)
	}
	if !strings.Contains(h.get(fixer).Text, "Lena") || h.position() != position {
		t.Errorf("her work lost its name, or the book has %d entries more", h.position()-position)
	}
	if a := h.get("/people/nobody"); a.StatusCode != http.StatusNotFound {
		t.Errorf("the notes of nobody: %d", a.StatusCode)
	}
}

func (h *house) notesOf(name string) []string {
	h.t.Helper()
	people, err := h.book.People(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	return people[h.idOf(name)].Notes
}

// nowhereElse holds words out of the walls, the exports, the log and the book.
func (h *house) nowhereElse(all ...string) {
	h.t.Helper()
	entries, err := h.book.Since(h.t.Context(), 0, 0)
	if err != nil {
		h.t.Fatal(err)
	}
	texts := map[string]string{"the log": h.log.String()}
	for _, path := range []string{"/wall", "/handover", "/mix", "/darkroom.yaml", "/file", "/sink", "/sink/setup.json", "/today", "/", "/people"} {
		texts[path] = h.get(path).Text
	}
	for _, e := range entries {
		texts["the book"] += e.Body
	}
	for where, text := range texts {
		for _, word := range all {
			if strings.Contains(strings.ToLower(text), word) {
				h.t.Errorf("%s says %q", where, word)
			}
		}
	}
}
