package web_test

import (
	"context"
	"net/http"
	"strings"
	"testing"
	"time"

	"wetside/access"
)

// One guest has sixteen streams at most: the next gets a problem that says when to come again, and others still get theirs. A stream that ends
// makes room.
func TestStreamsAreLimited(t *testing.T) {
	h, ilka := shared(t)
	code := ilka.share()
	mo, pia := &device{house: h}, &device{house: h}
	for name, d := range map[string]*device{"Mo": mo, "Pia": pia} {
		d.do(http.MethodPost, code, map[string][]string{"name": {name}})
	}
	listens := func(d *device) (status int, head http.Header, end func()) {
		t.Helper()
		ctx, stop := context.WithCancel(t.Context())
		r, err := http.NewRequestWithContext(ctx, http.MethodGet, h.URL+"/live?after=0", nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range d.cookies {
			r.AddCookie(&http.Cookie{Name: c.Name, Value: c.Value})
		}
		resp, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { stop(); _ = resp.Body.Close() })
		return resp.StatusCode, resp.Header, stop
	}
	var end func()
	for i := range access.StreamsOfOne {
		status, _, stop := listens(mo)
		if end = stop; status != http.StatusOK {
			t.Fatalf("stream %d: %d", i+1, status)
		}
	}
	status, head, _ := listens(mo)
	if status != http.StatusTooManyRequests || head.Get("Retry-After") != "10" || !strings.HasPrefix(head.Get("Content-Type"), "application/problem+json") {
		t.Errorf("one too many: %d, again after %q", status, head.Get("Retry-After"))
	}
	if status, _, _ := listens(pia); status != http.StatusOK {
		t.Errorf("another guest: %d", status)
	}
	end()
	for range 100 {
		if status, _, _ := listens(mo); status == http.StatusOK {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Error("a stream that ended makes no room")
}
