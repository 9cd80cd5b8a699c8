package web_test

import (
	"net/http"
	"strings"
	"testing"
)

// The cards come as PDF, what falls on a day as a calendar; in the dark both wait for white light.
func TestPapers(t *testing.T) {
	h := withExample(t)
	h.mixAll()
	if page := h.get("/baths").Text; !strings.Contains(page, `href="/labels"`) {
		t.Error("the baths do not lead to the labels")
	}
	page := h.get("/labels").Text
	for path, want := range map[string]struct{ kind, begin string }{
		"/cards.pdf": {"application/pdf", "%PDF-"}, "/calendar.ics": {"text/calendar; charset=utf-8", "BEGIN:VCALENDAR\r\n"},
	} {
		if !strings.Contains(page, `href="`+path+`"`) {
			t.Errorf("no link to %s", path)
		}
		if a := h.get(path); a.StatusCode != http.StatusOK || a.Header.Get("Content-Type") != want.kind || !strings.HasPrefix(a.Text, want.begin) {
			t.Errorf("GET %s: %d, %s, %.20q", path, a.StatusCode, a.Header.Get("Content-Type"), a.Text)
		}
	}
	if text := h.get("/calendar.ics").Text; !strings.Contains(text, "Developer keeps no longer") {
		t.Errorf("the developer is not in the calendar: %s", text)
	}
}
