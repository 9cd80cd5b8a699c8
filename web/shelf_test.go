package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// What stands in a field is read as it stands, in every language.
func TestWhatIsLeftUnknownCanBeKept(t *testing.T) {
	for _, language := range []string{"en", "fr"} {
		h := empty(t)
		text := strings.Join([]string{
			"darkroom: {name: Attic, language: " + language + "}",
			"shelf:",
			"  products: [{name: rapid fixer, role: fixer, form: liquid, dilutions: {RC paper: 1+4}}]",
			"  lots: [{product: rapid fixer, holds: 1 L, left: unknown}]",
		}, "\n")
		if a := h.post("/file", url.Values{"text": {text}}); a.Header.Get("Location") != "/" {
			t.Fatalf("%s: %d\n%s", language, a.StatusCode, problemsOf(a.Text))
		}
		page := h.get("/shelf").Text
		_, after, _ := strings.Cut(page, `name="left" value="`)
		left, _, _ := strings.Cut(after, `"`)
		lot := first(t, actions(page), "/shelf/lot/")
		at := lot[:strings.LastIndex(lot, "/")] + "/left"
		if a := h.post(at, url.Values{"left": {left}}); a.StatusCode != http.StatusSeeOther {
			t.Errorf("%s: %q at %s: %d\n%s", language, left, at, a.StatusCode, problemsOf(a.Text))
		}
	}
}
