package api_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wetside/access"
)

// Who is refused stands in the log with the answer's number, where from and who, and what was shown does not (ASVS 5.0, 16.2.5 and 16.3.2).
func TestRefusalsAreLogged(t *testing.T) {
	h := serve(t)
	h.keyholder()
	wall, wrong := h.as(access.Wall, ""), *h
	wrong.key = "nobody-has-this"
	for name, c := range map[string]struct {
		a    answer
		want []string
	}{
		"nothing shown": {h.get("/state"), []string{"why=no_token", "role=stranger", "showed=false"}},
		"a wrong key":   {wrong.get("/state"), []string{"why=no_token", "role=stranger", "showed=true"}},
		"a wall":        {wall.post("/entries", worked(uuid.NewString(), "d")), []string{"why=may_not", "role=wall", "method=POST", "path=/api/v1/entries"}},
		"elsewhere":     {h.post("/entries", worked(uuid.NewString(), "d"), "Sec-Fetch-Site", "cross-site"), []string{"why=from_elsewhere"}},
	} {
		number := strings.TrimPrefix(c.a.instance(), "urn:uuid:")
		line := ""
		for l := range strings.Lines(h.log.String()) {
			if strings.Contains(l, "request="+number) {
				line = l
			}
		}
		for _, want := range append(c.want, "level=WARN", "msg=refused", "from=127.0.0.1", "time=") {
			if !strings.Contains(line, want) {
				t.Errorf("%s, %d: %q lacks %s", name, c.a.Status, line, want)
			}
		}
	}
	for _, secret := range []string{wall.key, wrong.key, "Ilka"} {
		if strings.Contains(h.log.String(), secret) {
			t.Errorf("the log has %q", secret)
		}
	}
}

// Every answer, of what is there and what is not, says what it is, is kept by nobody, is read by no page of another site and shown as no page
// (ASVS 5.0, 3.2.1, 3.4.2, 4.1.1 and 14.3.2).
func TestAnswersAreForPrograms(t *testing.T) {
	h := serve(t)
	for _, path := range []string{"/state", "/baths", "/sessions", "/timers", "/readings", "/entries", "/nowhere", "/baths/nowhere", "/state?x=<script>"} {
		a := h.get(path, "Origin", "https://elsewhere.example", "Sec-Fetch-Site", "none")
		kind := a.Header.Get("Content-Type")
		if want := map[bool]string{true: "application/json", false: "application/problem+json"}[a.Status == http.StatusOK]; kind != want {
			t.Errorf("GET %s: %d is %q, want %q", path, a.Status, kind, want)
		}
		for name, want := range map[string]string{
			"Cache-Control": "no-store", "X-Content-Type-Options": "nosniff", "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
			"Access-Control-Allow-Origin": "", "Access-Control-Allow-Credentials": "",
		} {
			if got := a.Header.Get(name); got != want {
				t.Errorf("GET %s: %s %q, want %q", path, name, got, want)
			}
		}
	}
}

// instance is the number of an answer that is a problem.
func (a answer) instance() string {
	a.t.Helper()
	var p struct {
		Instance string `json:"instance"`
	}
	a.into(&p)
	return p.Instance
}
