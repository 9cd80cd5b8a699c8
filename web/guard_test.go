package web_test

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"

	"wetside/access"
	"wetside/book"
	"wetside/internal/webbook"
	"wetside/web"
)

func TestHeaders(t *testing.T) {
	h := withExample(t)
	for _, path := range []string{"/", "/nowhere", "/darkroom.yaml", "/mix.pdf", first(t, hrefs(h.get("/").Text), "/assets/")} {
		a := h.get(path)
		csp := a.Header.Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "form-action 'self'", "frame-ancestors 'none'", "base-uri 'none'"} {
			if !strings.Contains(csp, want) {
				t.Errorf("GET %s: policy %q lacks %s", path, csp, want)
			}
		}
		if strings.Contains(csp, "unsafe") {
			t.Errorf("GET %s: policy %q", path, csp)
		}
		if got := a.Header.Get("Referrer-Policy"); got != "same-origin" {
			t.Errorf("GET %s: Referrer-Policy %q", path, got)
		}
		if got := a.Header.Get("X-Content-Type-Options"); got != "nosniff" {
			t.Errorf("GET %s: X-Content-Type-Options %q", path, got)
		}
	}
	if a := h.get("/mix.pdf"); a.Header.Get("Content-Type") != "application/pdf" || !strings.HasPrefix(a.Text, "%PDF-") {
		t.Errorf("mix.pdf: %s", a.Header.Get("Content-Type"))
	}
}

// A form of another site is refused; one of our own goes through, also where a browser sends Origin alone.
func TestCrossOrigin(t *testing.T) {
	h := withExample(t)
	form := url.Values{"material": {"RC paper"}, "size": {"5x7 in"}, "sheets": {"11"}}.Encode()
	for _, tt := range []struct {
		name, site, origin, host string
		want                     int
	}{
		{"another site", "cross-site", "", "", http.StatusForbidden},
		{"a neighbour", "same-site", "", "", http.StatusForbidden},
		{"another origin", "", "http://evil.test", "", http.StatusForbidden},
		{"no origin that can be told", "", "null", "", http.StatusForbidden},
		{"ourselves", "same-origin", "", "", http.StatusSeeOther},
		{"ourselves by name over plain http", "", "http://darkroom.test:8460", "darkroom.test:8460", http.StatusSeeOther},
		{"no browser", "", "", "", http.StatusSeeOther},
	} {
		r := h.request(http.MethodPost, "/plan/load/new", strings.NewReader(form))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		for name, value := range map[string]string{"Sec-Fetch-Site": tt.site, "Origin": tt.origin} {
			if value != "" {
				r.Header.Set(name, value)
			}
		}
		if tt.host != "" {
			r.Host = tt.host
		}
		before := h.position()
		if a := h.ask(r); a.StatusCode != tt.want {
			t.Errorf("%s: %d, want %d", tt.name, a.StatusCode, tt.want)
		}
		if now := h.position(); (now > before) != (tt.want == http.StatusSeeOther) {
			t.Errorf("%s: %d entries were written", tt.name, now-before)
		}
	}
}

func TestAnOverLongForm(t *testing.T) {
	h := withExample(t)
	before := h.position()
	long := url.Values{"text": {strings.Repeat("x", 2<<20)}, "name": {strings.Repeat("x", 2<<20)}}
	for _, path := range []string{"/file", "/room", "/bench/vessel/new", "/plan/load/new", "/begin", first(t, actions(h.get("/shelf").Text), "/shelf/lot/")} {
		a := h.post(path, long)
		if a.StatusCode != http.StatusRequestEntityTooLarge || !strings.Contains(a.Text, "more than this page takes") {
			t.Errorf("POST %s: %d", path, a.StatusCode)
		}
	}
	if now := h.position(); now != before {
		t.Errorf("%d entries were written", now-before)
	}
}

// After pouring, the page goes on only to an address of this house.
func TestPouredGoesNowhereElse(t *testing.T) {
	h := withExample(t)
	at := first(t, actions(lastStep(t, h, "developer").Text), "/mix/developer/poured")
	for next, want := range map[string]string{
		"/mix/stop/1": "/mix/stop/1", "/mix": "/mix", "": "/mix", "https://evil.test/": "/mix", "//evil.test": "/mix", `/\evil.test`: "/mix",
		"javascript:alert(1)": "/mix", "mix": "/mix", "/mix\r\nX: y": "/mix", "/%2f/evil.test": "/mix",
	} {
		if a := h.post(at, url.Values{"next": {next}, "again": {"yes"}}); a.StatusCode != http.StatusSeeOther || a.Header.Get("Location") != want {
			t.Errorf("next %q: %d to %q, want %q", next, a.StatusCode, a.Header.Get("Location"), want)
		}
	}
}

// broken is a book whose disk has failed.
type broken struct{ web.Book }

func (broken) State(context.Context) (*book.State, error) {
	return nil, errors.New("the disk at /secret/place failed")
}

func (broken) People(context.Context) (book.People, error) { return nil, nil }

// unasked are doors that let everybody in, where the book that says who may is the broken one.
type unasked struct{ web.Doors }

func (unasked) Who(*http.Request) (access.Who, error) {
	return access.Who{Role: access.Keyholder}, nil
}

// What broke is told with the request's id, the cause to the log alone.
func TestGoneWrong(t *testing.T) {
	var log strings.Builder
	c := webbook.Book{Now: evening, NewID: func() string { return "request-7" }}.Config(slog.New(slog.NewTextHandler(&log, nil)))
	c.Book, c.Doors = broken{}, unasked{}
	pages, err := web.New(c)
	if err != nil {
		t.Fatal(err)
	}
	w := httptest.NewRecorder()
	pages.ServeHTTP(w, atHome(httptest.NewRequest(http.MethodGet, "/", nil)))
	if w.Code != http.StatusInternalServerError || !strings.Contains(w.Body.String(), "request-7") || strings.Contains(w.Body.String(), "secret") {
		t.Errorf("%d\n%s", w.Code, w.Body)
	}
	if !strings.Contains(log.String(), "/secret/place") || !strings.Contains(log.String(), "request-7") {
		t.Errorf("the log says\n%s", &log)
	}
	if _, err := web.New(web.Config{}); err == nil {
		t.Error("pages without a book")
	}
}
