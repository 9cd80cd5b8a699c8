package api_test

import (
	"fmt"
	"net/http"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"wetside/access"
	"wetside/api"
	"wetside/book"
	"wetside/words/facts"
)

// At home nobody is asked who they are; from elsewhere, and through a proxy, nobody is served.
func TestAtHome(t *testing.T) {
	h := serve(t)
	if a := h.get("/state"); a.Status != http.StatusOK {
		t.Errorf("at home: %d", a.Status)
	}
	for _, header := range [][]string{{"X-Forwarded-For", "203.0.113.5"}, {"Forwarded", "for=203.0.113.5"}} {
		a := h.get("/state", header...)
		a.problem("not_served")
		if a.Status != http.StatusForbidden {
			t.Errorf("%v: %d", header, a.Status)
		}
	}
	r := h.request(http.MethodGet, api.Prefix+"/state", "")
	r.Host = "darkroom.example"
	if a := h.send(r, ""); a.Status != http.StatusForbidden {
		t.Errorf("by a name from elsewhere: %d", a.Status)
	}
}

// A page of another site can't let a browser write or read here, whatever it sends.
func TestPagesFromElsewhere(t *testing.T) {
	h := serve(t)
	before := h.position()
	for _, header := range [][]string{{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Origin", "https://elsewhere.example"}} {
		a := h.post("/entries", worked(uuid.NewString(), "d"), header...)
		a.problem("from_elsewhere")
		if a.Status != http.StatusForbidden || a.Header.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%v: %d", header, a.Status)
		}
	}
	if h.position() != before {
		t.Error("something was written")
	}
}

// With a keyholder each request shows a key. None, one that is none, and one that was withdrawn are told apart from nothing else.
func TestKeys(t *testing.T) {
	h := serve(t)
	h.keyholder()
	sink := h.as(access.Sink, "")
	if a := sink.get("/state"); a.Status != http.StatusOK {
		t.Fatalf("with a key: %d %s", a.Status, a.Text)
	}
	keys, err := h.doors.Keys(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(keys, func(k access.Key) bool { return k.Role == access.Sink })
	if err := h.doors.Withdraw(t.Context(), keys[i].ID); err != nil {
		t.Fatal(err)
	}
	none, wrong := *h, *h
	wrong.key = "nobody-has-this"
	for name, one := range map[string]*house{"none": &none, "wrong": &wrong, "withdrawn": sink} {
		for _, a := range []answer{one.get("/state"), one.get("/entries", "Accept", "text/event-stream"), one.post("/entries", worked(uuid.NewString(), "d")), one.post("/probes/p/temperature", `{"temperature":"20 °C","place":"room"}`)} {
			a.problem("no_token")
			if a.Status != http.StatusUnauthorized || a.Header.Get("WWW-Authenticate") != "Bearer" {
				t.Errorf("%s: %d, %q", name, a.Status, a.Header.Get("WWW-Authenticate"))
			}
		}
		if a := one.get("/openapi.json"); a.Status != http.StatusOK {
			t.Errorf("%s: the description: %d", name, a.Status)
		}
	}
}

// For each role and each kind of entry: what the one table of it allows is taken, what it does not is refused with who may.
func TestRoles(t *testing.T) {
	h := serve(t)
	h.keyholder()
	as := map[access.Role]*house{}
	for _, r := range []access.Role{access.Wall, access.Sink, access.Member, access.Keyholder} {
		as[r] = h.as(r, "ilka")
	}
	source, err := os.ReadFile("../book/kind.go")
	if err != nil {
		t.Fatal(err)
	}
	asked := 0
	for _, m := range regexp.MustCompile(`(?m)^\t[A-Za-z]+ +Kind += "([a-z_.]+)"`).FindAllStringSubmatch(string(source), -1) {
		kind := book.Kind(m[1])
		if kind == book.Correction || len(api.NamesOf(m[1])) == 0 {
			continue
		}
		body := fmt.Sprintf(`{"id":%q,"kind":%q,"expect":0,"body":{}}`, uuid.NewString(), kind)
		for role, one := range as {
			a := one.post("/entries", body)
			asked++
			if access.Write(role, kind) == access.OwnOnly && a.Status == http.StatusBadRequest && codes(a.problem("invalid"))["#/body/whose"] == "not_theirs" {
				continue // it comes new, and does not say that it is theirs
			}
			if may := access.Write(role, kind) == access.Always; may != (a.Status != http.StatusForbidden) {
				t.Errorf("%v sends %s: %d %s", role, kind, a.Status, a.Text)
			}
			if a.Status != http.StatusForbidden {
				continue
			}
			p := a.problem("may_not")
			var want []string
			for _, r := range access.Roles() {
				if m := access.Write(r, kind); m == access.Always || m == access.OwnOnly && access.Write(role, kind) == access.Never {
					want = append(want, r.String())
				}
			}
			if !slices.Equal(p.Roles, want) || !strings.Contains(p.Detail, strings.Join(p.Roles, ", ")) {
				t.Errorf("%v may not send %s, these may: %v, want %v", role, kind, p.Roles, want)
			}
		}
	}
	if asked < 160 {
		t.Errorf("%d were asked", asked)
	}
	for role, one := range as {
		for _, path := range []string{"/state", "/baths", "/entries", "/sessions", "/timers", "/readings"} {
			a := one.get(path)
			if want := map[bool]int{true: http.StatusOK, false: http.StatusForbidden}[access.Reads(role)]; a.Status != want {
				t.Errorf("%v reads %s: %d, want %d", role, path, a.Status, want)
			}
			if a.Status == http.StatusForbidden && !slices.Contains(a.problem("may_not").Roles, "sink") {
				t.Errorf("%v: %s", role, a.Text)
			}
		}
	}
}

// Whoever writes by a key writes in its name, whatever they say, and takes back their own alone.
func TestInTheirName(t *testing.T) {
	h := serve(t)
	h.keyholder()
	sink, other, mo := h.as(access.Sink, ""), h.as(access.Sink, ""), h.as(access.Member, "")
	send := func(one *house, body string) (a answer, e facts.Entry) {
		a = one.post("/entries", body)
		if a.Status < 300 {
			a.into(&e)
		}
		return a, e
	}
	pretending := strings.Replace(worked(uuid.NewString(), "d"), `"kind"`, `"by":"ilka","device":"tablet","kind"`, 1)
	_, bySink := send(sink, pretending)
	if bySink.Device == "tablet" || bySink.Device == "" {
		t.Errorf("by %q of %q", bySink.By, bySink.Device)
	}
	_, byMo := send(mo, strings.Replace(pretending, pretending[7:43], uuid.NewString(), 1))
	if bySink.By != "" || byMo.By == "ilka" || byMo.By == "" {
		t.Errorf("by %q", byMo.By)
	}
	back := func(id string) string {
		return fmt.Sprintf(`{"id":%q,"kind":"correction","takes_back":%q}`, uuid.NewString(), id)
	}
	for name, c := range map[string]struct {
		one *house
		id  string
		ok  bool
	}{
		"another sink's": {other, bySink.ID, false}, "a member's": {sink, byMo.ID, false}, "a sink's": {mo, bySink.ID, false},
		"the sink's own": {sink, bySink.ID, true}, "the member's own": {mo, byMo.ID, true},
	} {
		a, _ := send(c.one, back(c.id))
		if (a.Status == http.StatusCreated) != c.ok || !c.ok && !slices.Equal(a.problem("may_not").Roles, []string{"keyholder"}) {
			t.Errorf("%s: %d %s", name, a.Status, a.Text)
		}
	}
	if a, _ := send(h.as(access.Keyholder, "ilka"), back(bySink.ID)); a.Status != http.StatusConflict {
		t.Errorf("taken back twice: %d", a.Status)
	}
}

// Who asks too often waits, each key by itself; the wait is told, and is enough.
func TestTooOften(t *testing.T) {
	h := serve(t)
	h.keyholder()
	sink, other := h.as(access.Sink, ""), h.as(access.Sink, "")
	h.clock.step.Store(0)
	taken := 0
	for range 125 {
		if a := sink.get("/readings"); a.Status == http.StatusOK {
			taken++
		} else if a.problem("too_often"); a.Header.Get("Retry-After") != "1" || a.Status != http.StatusTooManyRequests {
			t.Fatalf("%d, again after %q", a.Status, a.Header.Get("Retry-After"))
		}
	}
	if taken != 120 {
		t.Errorf("%d at once, want 120", taken)
	}
	if a := other.get("/readings"); a.Status != http.StatusOK {
		t.Errorf("another key waits too: %d", a.Status)
	}
	h.clock.pass(time.Second)
	for i := range 11 {
		if a := sink.get("/readings"); (a.Status == http.StatusOK) != (i < 10) {
			t.Errorf("a second later, request %d: %d", i+1, a.Status)
		}
	}
}

// While the book is away it is said so, in English, and nothing else.
func TestAway(t *testing.T) {
	h := serve(t, func(c *api.Config) { c.Patience = time.Nanosecond })
	a := h.get("/entries")
	a.problem("away")
	if a.Status != http.StatusServiceUnavailable {
		t.Errorf("%d", a.Status)
	}
	if !strings.Contains(h.log.String(), "request failed") {
		t.Error("the log does not say why")
	}
}

// Problems are told in the language of the room.
func TestProblemsInTheRoomsLanguage(t *testing.T) {
	h := serve(t)
	for lang, title := range map[string]string{"de": "Dort ist nichts", "fr": "Il n’y a rien là", "es": "Ahí no hay nada", "en": "Nothing is there"} {
		h.say(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"x","language":"` + lang + `"}`)})
		if p := h.get("/baths/none").problem("not_found"); p.Title != title {
			t.Errorf("%s: %q", lang, p.Title)
		}
	}
}

// Nothing is served by a part that is missing.
func TestParts(t *testing.T) {
	if _, err := api.New(api.Config{}); err == nil {
		t.Error("an API without a book")
	}
}
