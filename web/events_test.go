package web_test

import (
	"net/http"
	"net/url"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"wetside/access"
	"wetside/web"
)

// Each event that docs/security.md lists is told the log when it happens, whether it comes about or not: with the moment and its distance from UTC,
// the request's number, where from, who; without a name, a token, a passphrase or an evening's code, and in one line whatever was sent
// (ASVS 5.0, 16.2, 16.3 and 16.4.1).
func TestSecurityEventsAreLogged(t *testing.T) {
	h, ilka := shared(t)
	stranger := &device{house: h}
	stranger.do(http.MethodGet, "/keys", nil)
	stranger.do(http.MethodPost, "/keys", nil)
	for range 12 { // the clock goes on meanwhile, and gives tries back
		stranger.signIn("Ilka", drip)
	}
	stranger.signIn("Nobody\nlevel=INFO msg=\"signed in\"", drip)
	at := ilka.share()
	mo := h.joined(at, "Mo")
	mo.do(http.MethodGet, "/keys", nil)
	mo.do(http.MethodPost, "/join/00000%0A00000", url.Values{"name": {"Eve"}})
	r := h.request(http.MethodPost, "/keys", strings.NewReader("role=wall"))
	r.Header.Set("Origin", "http://evil.test")
	ilka.asks(r)
	wanda, member := ilka.key(access.Member, "Wanda")
	wanda.do(http.MethodGet, "/keys%0Alevel=INFO%20msg=signed", nil)
	(&device{house: h}).do(http.MethodPost, "/sign-in/key", url.Values{"key": {member}})
	(&device{house: h}).do(http.MethodPost, "/sign-in/key", url.Values{"key": {"made up"}})
	ilka.do(http.MethodPost, "/keyholders", url.Values{"name": {"Olga"}, "passphrase": {drip}})
	olga := &device{house: h}
	olga.signIn("Olga", drip)
	olga.do(http.MethodPost, "/keys/here", url.Values{"role": {"wall"}, "called": {"by the door"}})
	for _, k := range h.keysCalled("by the door") {
		ilka.do(http.MethodPost, "/keys/"+k.ID+"/away", nil)
	}
	secret := secretIn(t, ilka.do(http.MethodPost, "/second", url.Values{"do": {"begin"}}).Text)
	ilka.do(http.MethodPost, "/second", url.Values{"do": {"on"}, "secret": {secret}, "passphrase": {grey}, "code": {h.codeNow(secret, 0)}})
	ilka.do(http.MethodPost, "/second", url.Values{"do": {"off"}, "passphrase": {grey}})
	ilka.do(http.MethodPost, "/passphrase", url.Values{"old": {grey}, "fresh": {"two buckets under one drain"}})
	for _, id := range h.keyholderIDs("Olga") {
		ilka.do(http.MethodPost, "/keyholders/"+id+"/away", url.Values{"sure": {"yes"}})
	}
	ilka.do(http.MethodPost, "/sign-out", nil)
	ilka = &device{house: h}
	ilka.signIn("Ilka", "two buckets under one drain")
	ilka.do(http.MethodPost, "/sign-out/all", url.Values{"passphrase": {"two buckets under one drain"}})

	log := h.log.String()
	lines := regexp.MustCompile(`(?m)^time=(\S+) level=(INFO|WARN) msg=("[^"]*"|\S+) request=(\S+) from=(\S+) role=(\S+) person=(\S+) key=(\S+) .*$`)
	found := map[string][]string{}
	for _, m := range lines.FindAllStringSubmatch(log, -1) {
		what := strings.Trim(m[3], `"`)
		found[what] = append(found[what], m[0])
		if _, err := time.Parse(time.RFC3339Nano, m[1]); err != nil || len(m[4]) != 36 || m[5] != "127.0.0.1" {
			t.Errorf("without when, which or where: %s", m[0])
		}
	}
	for line := range strings.Lines(log) {
		if !strings.HasPrefix(line, "time=") {
			t.Errorf("a line that somebody else wrote: %q", line)
		}
	}
	for _, e := range web.Events() {
		if len(found[e]) == 0 {
			t.Errorf("the log has no %q", e)
		}
	}
	for e, want := range map[string][]string{
		"signed in":            {`result=ok`, `result=wrong`, `result="tried too often"`},
		"key taken up":         {`result=ok`, `result=wrong`},
		"refused":              {`why=stranger`, `why=not_yours`, `why=from_elsewhere`, `role=joined`, `path=/join/{code}`, `showed=true`},
		"keyholder made":       {`role=keyholder`},
		"key made":             {`for=member`},
		"first keyholder made": {`result=ok`},
	} {
		for _, w := range want {
			if !slices.ContainsFunc(found[e], func(line string) bool { return strings.Contains(line, w) }) {
				t.Errorf("no %q says %s", e, w)
			}
		}
	}
	for name, secret := range map[string]string{
		"a name": "Ilka", "a guest's name": "Mo ", "a member's": "Wanda", "a passphrase": grey, "a wrong one": drip, "a token": member, "a sign-in": ilka.cookie("key"),
		"an evening's code": strings.TrimPrefix(at, "/join/"),
	} {
		if secret != "" && strings.Contains(log, secret) {
			t.Errorf("the log has %s", name)
		}
	}
	doc, err := os.ReadFile("../docs/security.md")
	if err != nil {
		t.Fatal(err)
	}
	_, part, _ := strings.Cut(string(doc), "## What it writes to its log")
	part, _, _ = strings.Cut(part, "\n## ")
	var told []string
	for _, m := range regexp.MustCompile("(?m)^\\| `([^`]+)` \\|").FindAllStringSubmatch(part, -1) {
		told = append(told, m[1])
	}
	if want := web.Events(); !slices.Equal(slices.Sorted(slices.Values(told)), slices.Sorted(slices.Values(want))) {
		t.Errorf("docs/security.md lists the events %q, there are %q", told, want)
	}
}

func (h *house) keyholderIDs(name string) (all []string) {
	h.t.Helper()
	kept, err := h.book.Doors().Keyholders(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	for _, k := range kept {
		if k.Name == name {
			all = append(all, k.Person)
		}
	}
	return all
}
