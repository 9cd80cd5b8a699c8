package web_test

import (
	"bytes"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"wetside/access"
	"wetside/internal/webbook"
)

// A clock that stands until it is moved.
type stillClock struct {
	mu  sync.Mutex
	now time.Time
}

func (c *stillClock) read() time.Time { c.mu.Lock(); defer c.mu.Unlock(); return c.now }

func (c *stillClock) on(d time.Duration) { c.mu.Lock(); defer c.mu.Unlock(); c.now = c.now.Add(d) }

// stillHouse is a shared house whose clock stands.
func stillHouse(t *testing.T) (*house, *stillClock) {
	t.Helper()
	c := &stillClock{now: evening()}
	h := &house{t: t, log: &bytes.Buffer{}}
	b, pages, err := webbook.Open(t.Context(), filepath.Join(t.TempDir(), "book.db"), c.read, slog.New(slog.NewTextHandler(h.log, nil)))
	if err != nil {
		t.Fatal(err)
	}
	h.book, h.Server = b, httptest.NewServer(pages)
	t.Cleanup(func() { h.Close(); _ = b.Store.Close() })
	if a := h.post("/keyholders", url.Values{"name": {"Ilka"}, "passphrase": {grey}}); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("the first keyholder: %d", a.StatusCode)
	}
	return h, c
}

// Guessing is limited for one name: five tries at once, one a minute, told with how long to wait, and then the right passphrase
// waits, too. Another name from the same address goes on, and time gives tries back.
func TestGuessingIsLimited(t *testing.T) {
	h, clock := stillHouse(t)
	d := &device{house: h}
	for i := range 5 {
		if a := d.signIn("Ilka", fmt.Sprint("not the passphrase ", i)); a.StatusCode != http.StatusUnprocessableEntity {
			t.Fatalf("try %d: %d", i, a.StatusCode)
		}
	}
	for _, phrase := range []string{"not the passphrase 6", grey} {
		a := d.signIn(" ILKA ", phrase)
		if a.StatusCode != http.StatusTooManyRequests || a.Header.Get("Retry-After") != "60" || !strings.Contains(a.Text, "1\u00a0minute") {
			t.Errorf("after five tries: %d, again after %q", a.StatusCode, a.Header.Get("Retry-After"))
		}
	}
	if a := d.signIn("Mo", "not the passphrase either"); a.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("another name: %d", a.StatusCode)
	}
	clock.on(time.Minute)
	if a := d.signIn("Ilka", grey); a.StatusCode != http.StatusSeeOther {
		t.Errorf("a minute later: %d", a.StatusCode)
	}
}

// One address that tries many names is limited as well, and so is who tries keys, and the old passphrase of a device left open.
func TestGuessingOfManyIsLimited(t *testing.T) {
	h, clock := stillHouse(t)
	d := &device{house: h}
	limited := 0
	for i := range 25 {
		if a := d.signIn(fmt.Sprint("name ", i), "not the passphrase"); a.StatusCode == http.StatusTooManyRequests {
			limited++
		}
	}
	if limited != 5 {
		t.Errorf("of 25 names %d were refused, want 5", limited)
	}
	clock.on(time.Hour)
	limited = 0
	for i := range 25 {
		if a := d.do(http.MethodPost, "/sign-in/key", url.Values{"key": {fmt.Sprint("guess ", i)}}); a.StatusCode == http.StatusTooManyRequests {
			limited++
		}
	}
	if limited != 5 {
		t.Errorf("of 25 keys %d were refused, want 5", limited)
	}
	clock.on(time.Hour)
	d.signIn("Ilka", grey)
	limited = 0
	for i := range 8 {
		a := d.do(http.MethodPost, "/passphrase", url.Values{"old": {fmt.Sprint("not the passphrase ", i)}, "fresh": {drip}})
		if a.StatusCode == http.StatusTooManyRequests {
			limited++
		}
	}
	if limited == 0 || d.do(http.MethodGet, "/passphrase", nil).StatusCode != http.StatusOK {
		t.Errorf("of 8 old passphrases %d were refused", limited)
	}
}

// A sign-in ends two weeks after it was last used and 90 days after it began (docs/roles.md).
func TestSignInEnds(t *testing.T) {
	h, clock := stillHouse(t)
	d := &device{house: h}
	d.signIn("Ilka", grey)
	in := func() bool { return d.do(http.MethodGet, "/keys", nil).StatusCode == http.StatusOK }
	for day := 0; day < 84; day += 12 {
		if !in() {
			t.Fatalf("after %d days, used every 12, it has ended", day)
		}
		clock.on(12 * 24 * time.Hour)
	}
	in() // day 84
	clock.on(6*24*time.Hour - time.Minute)
	if !in() {
		t.Error("a minute before 90 days it has ended")
	}
	clock.on(2 * time.Minute)
	if in() {
		t.Error("after 90 days it goes on")
	}
	d.signIn("Ilka", grey)
	clock.on(14*24*time.Hour + time.Minute)
	if in() {
		t.Error("unused for two weeks it goes on")
	}
}

// A token that somebody planted before is none after: each sign-in has a new one, and the one before it ends.
func TestFixation(t *testing.T) {
	h, ilka := shared(t)
	planted := access.Token()
	victim := &device{house: h, cookies: []*http.Cookie{{Name: "key", Value: planted}}}
	victim.signIn("Ilka", grey)
	if victim.cookie("key") == planted {
		t.Fatal("a planted token became a sign-in")
	}
	attacker := &device{house: h, cookies: []*http.Cookie{{Name: "key", Value: planted}}}
	if a := attacker.do(http.MethodGet, "/keys", nil); a.StatusCode == http.StatusOK {
		t.Error("the planted token is in")
	}
	before := ilka.cookie("key")
	ilka.signIn("Ilka", grey)
	old := &device{house: h, cookies: []*http.Cookie{{Name: "key", Value: before}}}
	if before == ilka.cookie("key") || old.do(http.MethodGet, "/keys", nil).StatusCode == http.StatusOK {
		t.Error("signing in again leaves the token before")
	}
}

// Cookies and headers that were made up, cut, changed or taken from another way in open nothing.
func TestForgedKeys(t *testing.T) {
	h, ilka := shared(t)
	own := ilka.cookie("key")
	_, script := ilka.key(access.Keyholder, "the nightly script")
	_, sink := ilka.key(access.Sink, "by the sink")
	at := h.position()
	for name, value := range map[string]string{
		"empty": "", "made up": access.Token(), "cut": own[:42], "longer": own + "A", "changed": strings.ToUpper(own), "a wildcard": "%", "SQL": "' OR '1'='1",
		"NUL": own + "%00", "long": strings.Repeat("A", 4000), "a script's, as a cookie": script, "a role": "keyholder", "a hash": "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
	} {
		r := h.sending(http.MethodGet, "/keys")
		r.Header.Set("Cookie", "key="+value+"; joined="+value+"; role=keyholder; person=anybody; __Host-key="+own)
		if a := h.ask(r); a.StatusCode == http.StatusOK {
			t.Errorf("a cookie, %s: in", name)
		}
	}
	for name, value := range map[string]string{"a sign-in": own, "made up": access.Token(), "a sink's": sink, "cut": script[:42]} {
		r := h.sending(http.MethodGet, "/keys")
		r.Header.Set("Authorization", "Bearer "+value)
		if a := h.ask(r); a.StatusCode == http.StatusOK {
			t.Errorf("a header, %s: in", name)
		}
	}
	r := h.sending(http.MethodGet, "/keys")
	r.Header.Set("Authorization", "Bearer "+script)
	if a := h.ask(r); a.StatusCode != http.StatusOK {
		t.Errorf("the script's own: %d", a.StatusCode)
	}
	if h.position() != at {
		t.Error("entries were written")
	}
}

// A page of another site sends forms with the keyholder's cookies: each is refused and nothing is done.
func TestFormsOfOtherSites(t *testing.T) {
	h, ilka := shared(t)
	at := h.position()
	for _, pattern := range posts(t) {
		path := regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(pattern, "x")
		for header, value := range map[string]string{"Sec-Fetch-Site": "cross-site", "Origin": "http://evil.test"} {
			r := h.request(http.MethodPost, path, strings.NewReader("sure=yes&role=wall"))
			r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
			r.Header.Set(header, value)
			if a := ilka.asks(r); a.StatusCode != http.StatusForbidden {
				t.Errorf("POST %s, %s %s: %d", pattern, header, value, a.StatusCode)
			}
		}
	}
	if h.position() != at || ilka.do(http.MethodGet, "/keys", nil).StatusCode != http.StatusOK {
		t.Error("something was done")
	}
}

// Cookies are for this house alone: no script reads them, no other site's form sends them, and over https they bear the name that
// only https can set (RFC 6265bis, 4.1.3.2: Secure, Path=/, no Domain).
func TestCookiesAreKept(t *testing.T) {
	h, _ := shared(t)
	for name, proto := range map[string]string{"key": "", "__Host-key": "https"} {
		r := h.request(http.MethodPost, "/sign-in", strings.NewReader(url.Values{"name": {"Ilka"}, "passphrase": {grey}}.Encode()))
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		if proto != "" {
			r.Header.Set("X-Forwarded-Proto", proto)
		}
		a := h.ask(r)
		i := slices.IndexFunc(a.Cookies(), func(c *http.Cookie) bool { return c.Name == name })
		if i < 0 {
			t.Fatalf("%d: no cookie %s in %v", a.StatusCode, name, a.Cookies())
		}
		c := a.Cookies()[i]
		if !c.HttpOnly || c.SameSite != http.SameSiteLaxMode || c.Path != "/" || c.Domain != "" || c.Secure != (proto != "") || len(c.Value) != 43 || c.MaxAge > 90*24*3600 {
			t.Errorf("%v", c)
		}
		if a.Header.Get("Cache-Control") == "" && a.StatusCode == http.StatusOK {
			t.Error("the page may be kept")
		}
	}
}

// Whoever joined sends a keyholder's entries by the stream of taps: each is refused, and nobody is signed in by it.
func TestGuestTapsAKeyholdersEntries(t *testing.T) {
	h, ilka := shared(t)
	mo := h.joined(ilka.share(), "Mo")
	at := h.position()
	var taps []string
	for i, kind := range []string{"list.ticked", "note.left", "session.joined", "bath.topped_up", "waste.put", "lot.opened", "drain.answered", "session.opened", "room.set", "product.set"} {
		taps = append(taps, fmt.Sprintf(`{"id":"bad-%d","kind":%q,"at":%q,"by":"","body":{}}`, i, kind, h.book.Now().UTC().Format(time.RFC3339)))
	}
	r := h.request(http.MethodPost, "/taps", strings.NewReader(`{"device":"phone","taps":[`+strings.Join(taps, ",")+`]}`))
	a := mo.asks(r)
	if a.StatusCode != http.StatusOK || !strings.Contains(a.Text, `"taken":[]`) || h.position() != at {
		t.Errorf("%d %s: %d entries", a.StatusCode, a.Text, h.position()-at)
	}
}

// A name that nobody has takes as long as a wrong passphrase, and says the same: compared roughly, by the quicker half of each.
func TestUnknownNameLooksLikeAWrongPassphrase(t *testing.T) {
	h, clock := stillHouse(t)
	d := &device{house: h}
	var text [2]string
	var took [2][]time.Duration
	for i := range 24 {
		clock.on(time.Hour)
		name := []string{"Ilka", "Mona"}[i%2]
		begun := time.Now()
		a := d.signIn(name, "not the passphrase")
		took[i%2] = append(took[i%2], time.Since(begun))
		if a.StatusCode != http.StatusUnprocessableEntity {
			t.Fatalf("%s: %d", name, a.StatusCode)
		}
		text[i%2] = strings.ReplaceAll(a.Text, name, "NAME")
	}
	if text[0] != text[1] {
		t.Error("the pages differ")
	}
	for i := range took {
		slices.Sort(took[i])
	}
	known, unknown := took[0][len(took[0])/4], took[1][len(took[1])/4]
	if ratio := float64(unknown) / float64(known); ratio < 0.6 || ratio > 1.6 {
		t.Errorf("a wrong passphrase takes %v, a name that nobody has %v", known, unknown)
	}
	t.Logf("a wrong passphrase takes %v, a name that nobody has %v", known, unknown)
}

// No log has a token, a passphrase or a name, whatever goes wrong.
func TestLogsHaveNoSecrets(t *testing.T) {
	h, ilka := shared(t)
	own := ilka.cookie("key")
	_, script := ilka.key(access.Keyholder, "the nightly script")
	d := &device{house: h}
	d.signIn("Ilka", drip)
	d.do(http.MethodPost, "/sign-in/key", url.Values{"key": {script}})
	if err := h.book.Store.Close(); err != nil { // from now on everything goes wrong
		t.Fatal(err)
	}
	ilka.do(http.MethodGet, "/keys", nil)
	d.signIn("Ilka", grey)
	r := h.sending(http.MethodGet, "/shelf")
	r.Header.Set("Authorization", "Bearer "+script)
	h.ask(r)
	log := h.log.String()
	if !strings.Contains(log, "request failed") {
		t.Fatalf("nothing was logged: %q", log)
	}
	for name, secret := range map[string]string{"a sign-in": own, "a script's key": script, "a passphrase": grey, "a wrong one": drip, "a name": "Ilka"} {
		if strings.Contains(log, secret) {
			t.Errorf("the log has %s", name)
		}
	}
}

// Two darkrooms in one store: what opens one is nothing at the other.
func TestKeysOfAnotherDarkroom(t *testing.T) {
	h, ilka := shared(t)
	other := h.book
	other.Room = "other"
	if err := other.Store.Create(t.Context(), "other"); err != nil {
		t.Fatal(err)
	}
	_, sink := ilka.key(access.Sink, "by the sink")
	r := h.sending(http.MethodGet, "/")
	for name, show := range map[string]func(){
		"a sign-in": func() { r.Header.Set("Cookie", "key="+ilka.cookie("key")) },
		"a sink":    func() { r.Header.Del("Cookie"); r.Header.Set("Authorization", "Bearer "+sink) },
	} {
		show()
		if _, err := other.Doors().MakeFirst(t.Context(), "", "Mo", drip, ""); err != nil && !strings.Contains(err.Error(), "kept") {
			t.Log(err)
		}
		r.RemoteAddr = "127.0.0.1:1"
		if who, err := other.Doors().Who(r); err != nil || who.Role != access.Stranger {
			t.Errorf("%s of one darkroom is a %v at another, %v", name, who.Role, err)
		}
		if who, err := h.book.Doors().Who(r); err != nil || who.Role == access.Stranger {
			t.Errorf("%s is a %v at its own, %v", name, who.Role, err)
		}
	}
	if _, err := other.Doors().SignIn(t.Context(), "Ilka", grey, "", "", ""); err == nil {
		t.Error("a keyholder of one signs in at the other")
	}
}

// Somebody else's entry is not taken back by first sending another under its id: that one is refused, and the correction with it.
func TestNobodyBorrowsAnID(t *testing.T) {
	h, ilka := shared(t)
	ilka.do(http.MethodPost, "/mix/developer/poured", nil)
	bath := first(t, hrefs(ilka.do(http.MethodGet, "/baths", nil).Text), "/baths/")
	ilka.do(http.MethodPost, bath+"/worked", url.Values{"load": {"2 8x10 in RC paper"}})
	e, at := h.lastEntry(), h.position()
	sink, _ := ilka.key(access.Sink, "right")
	body := strings.Replace(e.Body, `"sheets":2`, `"sheets":1`, 1)
	if body == e.Body {
		t.Fatalf("the load is %s", e.Body)
	}
	r := h.request(http.MethodPost, "/taps", strings.NewReader(sending(
		fmt.Sprintf(`{"id":%q,"kind":%q,"at":"2026-03-12T17:00:00Z","by":"","body":%s}`, e.ID, e.Kind, body),
		fmt.Sprintf(`{"id":"undo","kind":"correction","at":"2026-03-12T17:00:01Z","takes_back":%q}`, e.ID),
	)))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	if a := sink.asks(r); !strings.Contains(a.Text, "not_yours") || h.position() != at {
		t.Errorf("%d %s, and the book is at %d, was at %d", a.StatusCode, a.Text, h.position(), at)
	}
}
