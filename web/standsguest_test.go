package web_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"
)

// Whoever joined neither sees the way to it nor gets the page.
func TestStandsIsForWhoKeepsTheRoom(t *testing.T) {
	h := withExample(t)
	if !slices.Contains(hrefs(h.get("/baths").Text), "/baths/stands") {
		t.Error("where no bath stands, nothing leads to one that does")
	}
	h.mixAll()
	if !slices.Contains(hrefs(h.get("/baths").Text), "/baths/stands") {
		t.Error("where baths stand, nothing leads to another")
	}
	d := h.joined(h.share(), "Mo")
	if slices.Contains(hrefs(d.do(http.MethodGet, "/baths", nil).Text), "/baths/stands") {
		t.Error("who joined is led there")
	}
	for _, method := range []string{http.MethodGet, http.MethodPost} {
		if a := d.do(method, "/baths/stands", nil); a.StatusCode != http.StatusForbidden || !strings.Contains(a.Text, "ask one of them") {
			t.Errorf("%s: %d, want 403 and who can", method, a.StatusCode)
		}
	}
}
