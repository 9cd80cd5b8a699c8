package web_test

import (
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
)

// Whoever prints may choose another language than the room's, on the page and in the address; the room's own page speaks on as the
// room does.
func TestPapersInTheReadersLanguage(t *testing.T) {
	h := withExample(t)
	h.post("/evening", nil)
	bath := h.mixAll()["Developer"]
	for path, says := range map[string]struct{ from, german, english string }{
		"/mix.pdf":      {"/mix", "Schutzbrille", "goggles"},
		"/cards.pdf":    {"/labels", "Sicherheitsblatt", "Safety sheet"},
		"/waste.pdf":    {"/waste", "Sammelkanister", "Waste"},
		"/calendar.ics": {"/labels", "SUMMARY:Entwickler", "SUMMARY:Developer"},
		"/labels.pdf":   {"", "Entsorgen am", "Discard by"},
		"/safety":       {"/safety", "Sicherheitsdatenblatt", "safety data sheet"},
	} {
		if says.from != "" && !regexp.MustCompile(regexp.QuoteMeta(path)+`\?language=de[^"]*" hreflang="de"`).MatchString(h.get(says.from).Text) {
			t.Errorf("%s offers no German %s", says.from, path)
		}
		for lang, want := range map[string]string{"": says.english, "de": says.german} {
			q := url.Values{}
			if lang != "" {
				q.Set("language", lang)
			}
			a := h.get(path + "?" + q.Encode())
			text := a.Text
			if strings.HasSuffix(path, ".pdf") {
				text = paperText(t, text)
			}
			if a.StatusCode != http.StatusOK || !strings.Contains(text, want) {
				t.Errorf("%s in %q: %d, no %q in %.400s", path, lang, a.StatusCode, want, text)
			}
		}
		if a := h.get(path + "?language=tlh"); a.StatusCode != http.StatusNotFound {
			t.Errorf("%s in a language that nobody speaks here: %d", path, a.StatusCode)
		}
	}
	page := h.get("/labels?language=fr&of=" + strings.TrimPrefix(bath, "/baths/")).Text
	for _, want := range []string{">Labels<", "À jeter", `<option value="fr" selected>Français`} {
		if !strings.Contains(page, want) {
			t.Errorf("the labels' page does not say %q", want)
		}
	}
	pdf := html.UnescapeString(regexp.MustCompile(`/labels\.pdf\?[^"]+`).FindString(page))
	if text := paperText(t, h.get(pdf).Text); !strings.Contains(text, "À jeter") {
		t.Errorf("%s is not French: %s", pdf, text)
	}
}

// The room's own language is chosen, not typed; what another file said is kept.
func TestTheRoomsLanguage(t *testing.T) {
	h := withExample(t)
	form := h.formOf("/room")
	if !strings.Contains(h.get("/room").Text, `<option value="es">Español</option>`) {
		t.Fatal("the languages are not there to choose from")
	}
	form.Set("language", "de")
	if a := h.post("/room", form); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("keeping it: %d", a.StatusCode)
	}
	if page := h.get("/room").Text; !strings.Contains(page, `<html lang="de"`) || !strings.Contains(page, `<option value="de" selected>Deutsch`) {
		t.Error("the room does not speak German")
	}
	if text := paperText(t, h.get("/mix.pdf").Text); !strings.Contains(text, "Schutzbrille") {
		t.Errorf("its mix sheet is not German: %.300s", text)
	}
	if text := paperText(t, h.get("/mix.pdf?language=en").Text); !strings.Contains(text, "goggles") {
		t.Errorf("nor is there an English one: %.300s", text)
	}
}
