package api_test

import (
	"encoding/json"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wetside/api"
)

// FuzzAppend sends any body. What is no JSON is refused; nothing is our fault; what is taken is one that the description allows,
// is read back the same and is not written twice; what is refused says why as described.
func FuzzAppend(f *testing.F) {
	handler := serve(f, func(c *api.Config) { c.Log = slog.New(slog.DiscardHandler) }).Config.Handler
	const id = `"id":"7c9e6679-7425-40de-944b-e07fc1f90ae7"`
	for _, body := range []string{
		worked(uuid.NewString(), "d"), `{}`, ``, `[]`, `{` + id + `,"kind":"worked"}`,
		`{` + id + `,"kind":"temperature.read","body":{"probe":"p","place":"room","reads":"20.4 °C"}}`,
		`{` + id + `,"kind":"correction","takes_back":"x","body":{"why":"a \u0000 slip"}}`,
		`{` + id + `,"kind":"tray.set","expect":37,"body":{"id":"t","as":{"name":"grey"}}}`,
		`{` + id + `,"kind":"session.opened","happened_at":"2026-03-12T17:00:00+14:00","body":{"session":"s"}}`,
		`{` + id + `,"kind":"print.started","body":{"print":"p","step":"develop","material":"RC paper","size":"8x10 in","sheets":1,"for":"90 s"}}`,
		`{` + id + `,"id":1,"body":{"a":{"b":[{"c":{}}]}}}`, "{\"\\ud800\":\"\xff\"}",
	} {
		f.Add(body)
	}
	ask := func(t *testing.T, method, path, body string) *httptest.ResponseRecorder {
		t.Helper()
		r := httptest.NewRequestWithContext(t.Context(), method, "http://127.0.0.1"+path, strings.NewReader(body))
		r.RemoteAddr = "127.0.0.1:1"
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		return w
	}
	f.Fuzz(func(t *testing.T, body string) {
		w := ask(t, http.MethodPost, api.Prefix+"/entries", body)
		text := w.Body.String()
		switch {
		case w.Code >= 500:
			t.Fatalf("%d %s", w.Code, text)
		case w.Code >= 400:
			if err := described().holds("/components/schemas/Problem", text); err != nil {
				t.Fatalf("%v: %s", err, text)
			}
			if strings.Contains(text, "[tell.") {
				t.Fatalf("a sentence is missing: %s", text)
			}
			return
		}
		if !json.Valid([]byte(body)) {
			t.Fatalf("taken: %q", body)
		}
		if err := described().holds("/components/schemas/Append", body); err != nil {
			t.Fatalf("taken, and not described: %v\n%s", err, body)
		}
		if err := described().holds("/components/schemas/Entry", text); err != nil {
			t.Fatalf("%v: %s", err, text)
		}
		if again := ask(t, http.MethodPost, api.Prefix+"/entries", body); again.Code != http.StatusOK || again.Body.String() != text {
			t.Fatalf("%d %s, then %d %s", w.Code, text, again.Code, again.Body)
		}
		if read := ask(t, http.MethodGet, w.Header().Get("Location"), ""); read.Body.String() != text {
			t.Fatalf("%s is read as %s", text, read.Body)
		}
	})
}
