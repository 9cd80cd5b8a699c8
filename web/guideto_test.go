package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// Whoever lacks a vessel is led to the usual ones, and back to where it was wanted; a word that leads nowhere is the way itself.
func TestVesselsOutsideTheWay(t *testing.T) {
	h := guided(t)
	if !strings.Contains(h.get("/bench").Text, `href="/begin/jugs?to=bench"`) {
		t.Error("the bench does not lead to the usual vessels")
	}
	for to, want := range map[string]string{"bench": "/bench", "mix": "/mix", "": "/begin/trays", "//elsewhere.example": "/begin/trays"} {
		page := h.get("/begin/jugs?" + url.Values{"to": {to}}.Encode())
		if got := strings.Contains(page.Text, `name="to" value="`+to+`"`); got != (want != "/begin/trays") {
			t.Errorf("to %q: the page keeps it: %v", to, got)
		}
		a := h.post("/begin/jugs", url.Values{"vessel": {"syringe_10"}, "to": {to}})
		if got := a.Header.Get("Location"); a.StatusCode != http.StatusSeeOther || got != want {
			t.Errorf("to %q: %d to %q, want %q", to, a.StatusCode, got, want)
		}
	}
	if a := h.post("/begin/jugs", url.Values{"holds": {"300"}, "every": {"50"}, "do": {"more"}, "to": {"bench"}}); a.Header.Get("Location") != "/begin/jugs?to=bench" {
		t.Errorf("one more leads to %q", a.Header.Get("Location"))
	}
}

// How long prints shall last is asked with what is printed, as the room's own from then on.
func TestPermanenceIsAsked(t *testing.T) {
	for said, want := range map[string]string{"archival": "archival", "work print": "work print", "": "", "for ever": ""} {
		h := empty(t)
		h.post("/begin", nil)
		a := h.post("/begin/prints", url.Values{"size": {"8x10 in"}, "material": {"FB paper"}, "sheets": {"4"}, "standard": {said}})
		if a.Header.Get("Location") != "/mix" {
			t.Fatalf("%q: %d\n%s", said, a.StatusCode, problemsOf(a.Text))
		}
		file := h.get("/darkroom.yaml").Text
		if got := strings.Contains(file, "standards:"); got != (want != "") || want != "" && !strings.Contains(file, want) {
			t.Errorf("said %q, the file says\n%s", said, file)
		}
	}
}
