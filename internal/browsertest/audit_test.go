package browsertest_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"wetside/internal/browsertest"
)

// The audit finds each of the faults that it is there for, and none on a page without.
func TestAuditFindsFaults(t *testing.T) {
	var b browsertest.Browser
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
	})
	const good = `<h1>Jug</h1><p><a href="/" style="display:inline-block;line-height:44px">on</a></p>`
	for name, tt := range map[string]struct{ body, want string }{
		"nothing":      {good, ""},
		"two heads":    {good + `<h1>Jug</h1>`, "2 h1"},
		"sideways":     {good + `<div style="width:900px">x</div>`, "scrolls sideways"},
		"a low target": {good + `<button style="height:20px">x</button>`, "target 20 px high"},
		"a low key":    {good + `<div class="keys"><button style="height:50px">x</button></div>`, "72 wanted"},
		"pale text":    {good + `<p style="color:#999">pale</p>`, "contrast 2.85"},
		"no label":     {good + `<input style="height:50px">`, "no label"},
		"no hint":      {good + `<input aria-label="x" aria-describedby="gone" style="height:50px">`, "not there: gone"},
		"no focus":     {`<main>` + good + `<button style="height:50px;outline:none">x</button></main>`, "focus not seen"},
	} {
		t.Run(name, func(t *testing.T) {
			s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
				_, _ = fmt.Fprint(w, `<!doctype html><title>x</title><link rel="icon" href="data:,">`+tt.body)
			}))
			t.Cleanup(s.Close)
			p := browsertest.Open(t, &b, s.URL, browsertest.Phone())
			p.Go("/")
			bad, err := p.Tab.Audit()
			if err != nil {
				t.Fatal(err)
			}
			if got := strings.Join(bad, "\n"); (tt.want == "") != (got == "") || !strings.Contains(got, tt.want) {
				t.Errorf("got %q, want %q", got, tt.want)
			}
		})
	}
}
