package web_test

import (
	"compress/gzip"
	"io"
	"net/http"
	"strings"
	"testing"

	"wetside/internal/browsertest"
)

// zippedFrom asks for an address as browsers do, and returns the answer and what it takes on the wire.
func (h *house) zippedFrom(path string) (answer, []byte) {
	h.t.Helper()
	r := h.request(http.MethodGet, path, nil)
	r.Header.Set("Accept-Encoding", "gzip, deflate, br")
	a := h.ask(r)
	return a, []byte(a.Text)
}

// TestZipped: texts are packed for who asks for it, are the same unpacked, and no one else gets them packed.
func TestZipped(t *testing.T) {
	h := withExample(t)
	for _, path := range []string{"/shelf", "/nowhere"} {
		a, wire := h.zippedFrom(path)
		plain := h.get(path)
		if a.Header.Get("Content-Encoding") != "gzip" || a.StatusCode != plain.StatusCode || len(wire)*3 > len(plain.Text)*2 {
			t.Errorf("%s: %d, %d bytes of %d, %q", path, a.StatusCode, len(wire), len(plain.Text), a.Header.Get("Content-Encoding"))
			continue
		}
		z, err := gzip.NewReader(strings.NewReader(a.Text))
		if err != nil {
			t.Fatal(err)
		}
		if text, err := io.ReadAll(z); err != nil || path == "/shelf" && string(text) != plain.Text {
			t.Errorf("%s unpacked: %v\n%s", path, err, text)
		}
	}
	r := h.request(http.MethodGet, "/shelf", nil)
	r.Header.Set("Accept-Encoding", "gzip;q=0, identity")
	if a := h.ask(r); a.Header.Get("Content-Encoding") != "" {
		t.Error("packed for who can't unpack it")
	}
}

// TestSinkOnTheWire measures what the sink page takes the first time, with its scripts, and what from then on.
func TestSinkOnTheWire(t *testing.T) {
	h := atSink(t)
	for range 8 {
		h.press("start", "RC-paper-8x10-in whole")
	}
	var first, later int64
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	for _, sum := range []*int64{&first, &later} {
		p.Received()
		p.Go("/sink")
		readySink(t, p)
		*sum = p.Received()
	}
	t.Logf("%d bytes at first, %d after", first, later)
	if first > 60_000 || later > 10_000 || first < 5_000 {
		t.Errorf("%d bytes at first (60,000), %d after (10,000)", first, later)
	}
}

// readySink waits until the scripts have taken the page over.
func readySink(t *testing.T, p *browsertest.Page) {
	t.Helper()
	p.Until("the sink's scripts run", func() bool {
		ok, err := browsertest.Eval[bool](p.Tab, `document.querySelector("form.sink")?.dataset.ready === "yes"`)
		return ok && err == nil
	})
}
