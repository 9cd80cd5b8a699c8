package web_test

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"
)

// The key of a script ends by itself: after a year where nobody says otherwise, which the page tells; those of devices stay.
func TestScriptKeysEnd(t *testing.T) {
	const day = 24 * time.Hour
	h, clock := stillHouse(t)
	ilka := &device{house: h}
	ilka.signIn("Ilka", grey)
	makes := func(role, lasts string) (token, page string) {
		t.Helper()
		a := ilka.do(http.MethodPost, "/keys", url.Values{"role": {role}, "name": {role + " " + lasts}, "lasts": {lasts}})
		m := regexp.MustCompile(`<b class="address">([A-Za-z0-9_-]{43})</b>`).FindStringSubmatch(a.Text)
		if m == nil {
			t.Fatalf("%s %s: %d", role, lasts, a.StatusCode)
		}
		return m[1], a.Text
	}
	opens := func(token string) bool {
		t.Helper()
		r := h.request(http.MethodGet, "/shelf", nil)
		r.Header.Set("Authorization", "Bearer "+token)
		return h.ask(r).StatusCode == http.StatusOK
	}
	ends := map[string]time.Duration{"": 365 * day, "year": 365 * day, "nonsense": 365 * day, "month": 30 * day, "always": 0}
	tokens := map[string]string{}
	for lasts, after := range ends {
		token, page := makes("keyholder", lasts)
		if told := strings.Contains(page, "2027"); told != (after > 31*day) {
			t.Errorf("a script's for %q: the year after is told: %v", lasts, told)
		}
		if tokens[lasts] = token; strings.Contains(page, "It ends by itself") != (after > 0) {
			t.Errorf("a script's for %q: the page tells the end: %v", lasts, after == 0)
		}
	}
	sink, page := makes("sink", "month")
	if strings.Contains(page, "It ends by itself") {
		t.Error("a sink's key ends")
	}
	if list := ilka.do(http.MethodGet, "/keys", nil).Text; strings.Count(list, "<small>ends ") != 4 {
		t.Errorf("%d ends are told in the list, want 4", strings.Count(list, "<small>ends "))
	}
	at := time.Duration(0)
	for _, on := range []time.Duration{30*day - time.Minute, 30*day + time.Minute, 365*day - time.Minute, 365*day + time.Minute, 4000 * day} {
		clock.on(on - at)
		at = on
		for lasts, after := range ends {
			if got, want := opens(tokens[lasts]), after == 0 || on < after; got != want {
				t.Errorf("after %v, for %q: opens %v, want %v", on, lasts, got, want)
			}
		}
		if !opens(sink) {
			t.Errorf("after %v the sink is out", on)
		}
	}
}
