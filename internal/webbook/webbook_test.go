package webbook_test

import (
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"wetside/book"
	"wetside/internal/webbook"
)

// The pages stand over the store that was opened: an empty one asks to begin, the example is on the shelf once it is
// loaded, and the sheet that they hand out is a PDF.
func TestOpen(t *testing.T) {
	evening := func() time.Time { return time.Date(2026, time.March, 12, 18, 0, 0, 0, time.UTC) }
	b, pages, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), evening, slog.Default())
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = b.Store.Close() }()
	get := func(path string) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		r := httptest.NewRequest(http.MethodGet, path, nil)
		r.Host, r.RemoteAddr = "localhost", "127.0.0.1:50000"
		pages.ServeHTTP(w, r)
		return w
	}
	if to := get("/").Header().Get("Location"); to != "/begin" {
		t.Errorf("an empty book leads to %q", to)
	}
	if err := b.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	if shelf := get("/shelf").Body.String(); !strings.Contains(shelf, "rapid fixer") {
		t.Error("the example is not on the shelf")
	}
	if pdf := get("/mix.pdf").Body.String(); !strings.HasPrefix(pdf, "%PDF-") {
		t.Errorf("the sheet begins with %.20q", pdf)
	}
	if err := b.CanTakeBack(t.Context(), "nothing"); err == nil {
		t.Error("what is not there can be taken back")
	}
}

// The example is put into an empty book alone: one that somebody has begun stays theirs.
func TestExampleIsForAnEmptyBook(t *testing.T) {
	b, _, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), time.Now, slog.Default())
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = b.Store.Close() }()
	a := &book.Author{Device: "d", Now: b.Now(), NewID: b.NewID}
	e, err := a.Write(&book.EveningOpened{Session: "s1"})
	if err != nil {
		t.Fatal(err)
	}
	if err := b.Append(t.Context(), []book.Entry{e}, nil); err != nil {
		t.Fatal(err)
	}
	if err := b.LoadExample(t.Context()); err != nil {
		t.Fatal(err)
	}
	if at, err := b.Position(t.Context()); err != nil || at != 1 {
		t.Errorf("the book stands at %d, %v; want the one entry that it had", at, err)
	}
}
