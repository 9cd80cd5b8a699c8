package web_test

import (
	"html"
	"net/http"
	"regexp"
	"strings"
	"testing"
)

// After mixing, a bath's page leads to its label, which is shown as it is printed; the code on it opens that page. What is wrong is
// said before anything is printed.
func TestLabels(t *testing.T) {
	h := withExample(t)
	if a := h.get("/labels"); !strings.Contains(a.Text, "grey can") {
		t.Errorf("the waste can has no label: %s", a.Text)
	}
	bath := h.mixAll()["Developer"]
	link := html.UnescapeString(regexp.MustCompile(`/labels\?of=[^"]+`).FindString(h.get(bath).Text))
	if link == "" {
		t.Fatalf("%s does not lead to its label", bath)
	}
	page := h.get(link)
	for _, want := range []string{`aria-label="The label of Developer"`, "Discard by", "8 on A4", h.URL + bath, "May produce an allergic reaction"} {
		if !strings.Contains(page.Text, want) {
			t.Errorf("%q is not on %s", want, link)
		}
	}
	paper := html.UnescapeString(regexp.MustCompile(`/labels\.pdf\?[^"]+`).FindString(page.Text))
	if a := h.get(paper); a.Header.Get("Content-Type") != "application/pdf" || !strings.HasPrefix(a.Text, "%PDF-") {
		t.Errorf("GET %s: %d %s", paper, a.StatusCode, a.Header.Get("Content-Type"))
	}
	for query, want := range map[string]string{
		"&size=huge": "is no size of a label", "&start=9": "start at 1 to 8, not at 9", "&start=x": "not at x", "&size=99.1x67.7&start=0": "not at 0",
	} {
		a := h.get(link + query)
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(a.Text, want) || strings.Contains(a.Text, "/labels.pdf") {
			t.Errorf("%s: %d, want %q and no way to print", query, a.StatusCode, want)
		}
		if a := h.get("/labels.pdf" + strings.TrimPrefix(link, "/labels") + query); a.StatusCode != http.StatusSeeOther {
			t.Errorf("/labels.pdf, %s: %d, want a way back to where it is said", query, a.StatusCode)
		}
	}
}
