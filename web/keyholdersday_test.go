package web_test

import (
	"fmt"
	"io/fs"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/access"
	"wetside/book"
)

// A keyholder's day in a shared room: a sign-in, an evening that others join, a wall and a sink by one touch each, one of them
// withdrawn, a new passphrase, and out. (The first start on another address is TestFirstStartOnAnotherAddress in cmd/wetside.)
func TestKeyholdersDay(t *testing.T) {
	h, first := shared(t)
	first.do(http.MethodPost, "/sign-out", nil)
	ilka := &device{house: h}
	if a := ilka.do(http.MethodGet, "/shelf", nil); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("without a sign-in the shelf is %d", a.StatusCode)
	}
	if a := ilka.signIn("ilka", grey); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("signing in: %d %s", a.StatusCode, problemsOf(a.Text))
	}
	const offer = `action="/evening" novalidate><button class="key plain" name="shared" value="yes">`
	if today := ilka.do(http.MethodGet, "/", nil).Text; !strings.Contains(today, offer) {
		t.Error("today does not offer that others join")
	}
	at := ilka.share()
	if today := ilka.do(http.MethodGet, "/", nil).Text; strings.Contains(today, offer) || !strings.Contains(today, `class="key plain" href="/wall"`) {
		t.Error("others join, and today does not lead to the wall")
	}
	mo := h.joined(at, "Mo")

	wall, sink := &device{house: h}, &device{house: h}
	for d, role := range map[*device]string{wall: "wall", sink: "sink"} {
		d.signIn("Ilka", grey)
		signedIn := d.cookie("key")
		if a := d.do(http.MethodPost, "/keys/here", url.Values{"role": {role}, "called": {"by the " + role}}); a.Header.Get("Location") != "/"+role {
			t.Fatalf("making a %s: %d to %q", role, a.StatusCode, a.Header.Get("Location"))
		}
		if d.cookie("key") == signedIn {
			t.Errorf("the %s keeps the sign-in", role)
		}
		old := &device{house: h, cookies: []*http.Cookie{{Name: "key", Value: signedIn}}}
		if a := old.do(http.MethodGet, "/shelf", nil); a.StatusCode != http.StatusSeeOther {
			t.Errorf("the sign-in at the %s goes on: %d", role, a.StatusCode)
		}
	}
	if a := wall.do(http.MethodGet, "/wall", nil); a.StatusCode != http.StatusOK || !strings.Contains(a.Text, at) {
		t.Errorf("the wall shows %d, and the evening's code: %v", a.StatusCode, strings.Contains(a.Text, at))
	}
	for path, want := range map[string]int{"/shelf": http.StatusForbidden, "/sink": http.StatusForbidden, "/keys": http.StatusForbidden, "/handover": http.StatusForbidden} {
		if a := wall.do(http.MethodGet, path, nil); a.StatusCode != want {
			t.Errorf("the wall asks for %s: %d, want %d", path, a.StatusCode, want)
		}
	}
	position := h.position()
	if a := sink.do(http.MethodPost, "/lists/opening", url.Values{"done": {"air"}}); a.StatusCode != http.StatusSeeOther || h.position() != position+1 {
		t.Errorf("the sink ticks a list: %d", a.StatusCode)
	}
	if a := sink.do(http.MethodPost, "/shelf/product/new", nil); a.StatusCode != http.StatusForbidden {
		t.Errorf("the sink changes the shelf: %d", a.StatusCode)
	}

	page := ilka.do(http.MethodGet, "/keys", nil).Text
	for _, want := range []string{"by the wall", "by the sink", "last seen", "Ilka"} {
		if !strings.Contains(page, want) {
			t.Errorf("the list of keys lacks %q", want)
		}
	}
	away := regexp.MustCompile(`(?s)by the sink.*?action="(/keys/[^"]*/away)"`).FindStringSubmatch(page)
	if away == nil {
		t.Fatal("nothing withdraws the sink")
	}
	ilka.do(http.MethodPost, away[1], nil)
	if a := sink.do(http.MethodGet, "/sink", nil); a.StatusCode != http.StatusSeeOther {
		t.Errorf("the sink that was withdrawn: %d", a.StatusCode)
	}
	if a := wall.do(http.MethodGet, "/wall", nil); a.StatusCode != http.StatusOK {
		t.Errorf("the wall beside it: %d", a.StatusCode)
	}
	if a := mo.do(http.MethodGet, "/sink", nil); a.StatusCode != http.StatusOK {
		t.Errorf("who joined: %d", a.StatusCode)
	}

	phone := &device{house: h}
	phone.signIn("Ilka", grey)
	before := ilka.cookie("key")
	a := ilka.do(http.MethodPost, "/passphrase", url.Values{"old": {grey}, "fresh": {drip}})
	if a.Header.Get("Location") != "/keys?did=passphrase" || ilka.cookie("key") == before {
		t.Fatalf("a new passphrase: %d %s", a.StatusCode, problemsOf(a.Text))
	}
	if a := phone.do(http.MethodGet, "/shelf", nil); a.StatusCode != http.StatusSeeOther {
		t.Errorf("another sign-in goes on after a new passphrase: %d", a.StatusCode)
	}
	if phone.signIn("Ilka", grey).StatusCode != http.StatusUnprocessableEntity || phone.signIn("Ilka", drip).StatusCode != http.StatusSeeOther {
		t.Error("the old passphrase holds, or the new one does not")
	}
	ilka.do(http.MethodPost, "/sign-out/all", url.Values{"passphrase": {drip}})
	for name, d := range map[string]*device{"here": ilka, "on the phone": phone} {
		if a := d.do(http.MethodGet, "/shelf", nil); a.StatusCode != http.StatusSeeOther {
			t.Errorf("signed out of all, and %s goes on: %d", name, a.StatusCode)
		}
	}
}

// Whoever signed in writes in their own name, whatever the device says; a sink in nobody's, under its key's id.
func TestEntriesSayWho(t *testing.T) {
	h, ilka := shared(t)
	ilka.do(http.MethodPost, "/mix/developer/poured", nil)
	bath := first(t, hrefs(ilka.do(http.MethodGet, "/baths", nil).Text), "/baths/")
	sink, _ := ilka.key(access.Sink, "by the sink")
	member, _ := ilka.key(access.Member, "Wanda")
	people, _ := h.book.People(t.Context())
	called := func(id string) string { return people[id].Name }
	for name, c := range map[string]struct {
		d    *device
		want string
	}{"Ilka": {ilka, "Ilka"}, "the sink": {sink, ""}, "Wanda": {member, "Wanda"}} {
		c.d.cookies = append(c.d.cookies, &http.Cookie{Name: "person", Value: "somebody-else"})
		if a := c.d.do(http.MethodPost, bath+"/worked", url.Values{"load": {"2 8x10 in RC paper"}}); a.StatusCode != http.StatusSeeOther {
			t.Fatalf("%s counts: %d", name, a.StatusCode)
		}
		last := h.lastEntry()
		if called(last.By) != c.want || last.Device == "" {
			t.Errorf("%s counts as %q (%q) at %q", name, called(last.By), last.By, last.Device)
		}
		r := h.request(http.MethodPost, "/taps", strings.NewReader(fmt.Sprintf(
			`{"device":"forged","taps":[{"id":"tap-%s","kind":"bath.worked","at":%q,"by":"somebody-else","body":{"baths":[%q],"material":"RC paper","size":"8x10 in","sheets":1}}]}`,
			strings.ReplaceAll(name, " ", "-"), h.book.Now().UTC().Format(time.RFC3339), strings.TrimPrefix(bath, "/baths/"))))
		r.Header.Set("Sec-Fetch-Site", "same-origin")
		if a := c.d.asks(r); a.StatusCode != http.StatusOK {
			t.Fatalf("%s taps: %d %s", name, a.StatusCode, a.Text)
		}
		if last := h.lastEntry(); called(last.By) != c.want || name == "the sink" && last.Device == "forged" {
			t.Errorf("%s taps as %q at %q", name, last.By, last.Device)
		}
	}
	// What a page of the bench or the shelf keeps is in somebody's name, too.
	if a := ilka.do(http.MethodPost, "/plan/load/new", url.Values{"material": {"RC paper"}, "size": {"5x7 in"}, "sheets": {"11"}}); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("a load: %d", a.StatusCode)
	}
	if last := h.lastEntry(); called(last.By) != "Ilka" || last.Device == "page" {
		t.Errorf("a load is by %q at %q", last.By, last.Device)
	}
}

func (h *house) lastEntry() book.Entry {
	h.t.Helper()
	all, err := h.book.Since(h.t.Context(), h.position()-1, 1)
	if err != nil || len(all) != 1 {
		h.t.Fatal(err)
	}
	return all[0]
}

// A sink takes back what it wrote, and nothing that a person or another sink did.
func TestSinkTakesBackItsOwn(t *testing.T) {
	h, ilka := shared(t)
	ilka.do(http.MethodPost, "/mix/developer/poured", nil)
	bath := first(t, hrefs(ilka.do(http.MethodGet, "/baths", nil).Text), "/baths/")
	one, _ := ilka.key(access.Sink, "left")
	two, _ := ilka.key(access.Sink, "right")
	for name, c := range map[string]struct {
		by   *device
		want int
	}{"its own": {one, http.StatusSeeOther}, "another's": {two, http.StatusForbidden}, "a keyholder's": {ilka, http.StatusForbidden}} {
		c.by.do(http.MethodPost, bath+"/worked", url.Values{"load": {"2 8x10 in RC paper"}})
		if a := one.do(http.MethodPost, "/undo/"+h.lastEntry().ID, nil); a.StatusCode != c.want {
			t.Errorf("a sink takes back %s: %d, want %d", name, a.StatusCode, c.want)
		}
	}
}

// What is withdrawn ends a stream within seconds; what holds goes on.
func TestWithdrawnInMidStream(t *testing.T) {
	t.Parallel()
	h, ilka := shared(t)
	sink, token := ilka.key(access.Sink, "by the sink")
	wall, _ := ilka.key(access.Wall, "by the door")
	ends := func(d *device) chan time.Duration {
		done := make(chan time.Duration, 1)
		r := h.request(http.MethodGet, "/live?after=0", nil)
		r.AddCookie(&http.Cookie{Name: "key", Value: d.cookie("key")})
		resp, err := http.DefaultClient.Do(r) //nolint:bodyclose // closed where the stream is read
		if err != nil || resp.StatusCode != http.StatusOK {
			t.Fatalf("a stream: %v %v", err, resp)
		}
		if c := resp.Cookies(); len(c) != 1 || c[0].Value != d.cookie("key") || c[0].MaxAge != 400*24*3600 {
			t.Errorf("the device's key is not given anew: %v", c)
		}
		begun := time.Now()
		go func() {
			buffer := make([]byte, 1<<16)
			for {
				if _, err := resp.Body.Read(buffer); err != nil {
					_ = resp.Body.Close()
					done <- time.Since(begun)
					return
				}
			}
		}()
		return done
	}
	gone, stays := ends(sink), ends(wall)
	for _, k := range h.keysCalled("by the sink") {
		ilka.do(http.MethodPost, "/keys/"+k.ID+"/away", nil)
	}
	select {
	case after := <-gone:
		t.Logf("it ended after %v", after)
	case <-time.After(8 * time.Second):
		t.Error("the stream of a key that was withdrawn goes on")
	case <-stays:
		t.Error("the stream of another key ended")
	}
	r := h.request(http.MethodGet, "/live", nil)
	r.Header.Set("Authorization", "Bearer "+token)
	if a := h.ask(r); a.StatusCode != http.StatusUnauthorized {
		t.Errorf("a new stream: %d, want 401", a.StatusCode)
	}
}

func (h *house) keysCalled(name string) (all []access.Key) {
	h.t.Helper()
	keys, err := h.book.Doors().Keys(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	for _, k := range keys {
		if k.Name == name {
			all = append(all, k)
		}
	}
	return all
}

// The only keyholder can't be withdrawn on the pages, nor their name be erased: the room would ask nobody who they are. Of two, one
// can, and is out at once.
func TestTheLastKeyholderStays(t *testing.T) {
	h, ilka := shared(t)
	keyholders, err := h.book.Doors().Keyholders(t.Context())
	if err != nil || len(keyholders) != 1 {
		t.Fatal(keyholders, err)
	}
	id := keyholders[0].Person
	for _, path := range []string{"/keyholders/" + id + "/away", "/people/" + id + "/away"} {
		if a := ilka.do(http.MethodPost, path, url.Values{"sure": {"yes"}}); a.StatusCode != http.StatusConflict || !strings.Contains(a.Text, "only keyholder") {
			t.Errorf("%s: %d", path, a.StatusCode)
		}
	}
	if a := ilka.do(http.MethodPost, "/keyholders", url.Values{"name": {"ILKA"}, "passphrase": {drip}}); a.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("another of the same name: %d", a.StatusCode)
	}
	ilka.do(http.MethodPost, "/keyholders", url.Values{"name": {"Mo"}, "passphrase": {drip}})
	mo := &device{house: h}
	mo.signIn("Mo", drip)
	if a := mo.do(http.MethodPost, "/keyholders/"+id+"/away", nil); a.StatusCode != http.StatusConflict || !strings.Contains(a.Text, "Ilka") {
		t.Errorf("withdrawing asks nobody: %d", a.StatusCode)
	}
	mo.do(http.MethodPost, "/people/"+id+"/away", url.Values{"sure": {"yes"}})
	if a := ilka.do(http.MethodGet, "/shelf", nil); a.StatusCode != http.StatusSeeOther {
		t.Errorf("whose name was erased is still in: %d", a.StatusCode)
	}
	if a := ilka.signIn("Ilka", grey); a.StatusCode != http.StatusUnprocessableEntity {
		t.Errorf("and signs in: %d", a.StatusCode)
	}
	files, _ := filepath.Glob(filepath.Join(filepath.Dir(h.path()), "*"))
	for _, name := range files {
		if text, err := os.ReadFile(name); err == nil && strings.Contains(strings.ToLower(string(text)), "ilka") {
			t.Errorf("%s still has the name", filepath.Base(name))
		}
	}
}

// path is where the house's book lies.
func (h *house) path() string {
	h.t.Helper()
	if _, err := os.Stat(h.book.Store.Place()); err != nil {
		h.t.Fatal(err, fs.ErrNotExist)
	}
	return h.book.Store.Place()
}

// What can't be a passphrase is told at its field before anything is reckoned; the name stays; what was typed is shown on wish alone.
func TestPassphraseAtItsField(t *testing.T) {
	h := withExample(t)
	for name, bad := range map[string]string{"one character": "x", "ten kilobytes": strings.Repeat("tray", 2500), "nothing": "", "familiar": "passwordpassword"} {
		begun := time.Now()
		a := h.post("/keyholders", url.Values{"name": {"Ilka"}, "passphrase": {bad}})
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(inputOf(t, a.Text, "passphrase"), `aria-invalid="true"`) || !strings.Contains(inputOf(t, a.Text, "name"), `value="Ilka"`) {
			t.Errorf("%s: %d", name, a.StatusCode)
		}
		if bad != "" && len(bad) > 1 && strings.Contains(a.Text, bad) {
			t.Errorf("%s stands in the page unasked", name)
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("%s took %v", name, took)
		}
	}
	a := h.post("/keyholders", url.Values{"name": {"Ilka"}, "passphrase": {"short"}, "do": {"show"}})
	if in := inputOf(t, a.Text, "passphrase"); a.StatusCode != http.StatusOK || !strings.Contains(in, `type="text"`) || !strings.Contains(in, `value="short"`) {
		t.Errorf("shown on wish: %d %s", a.StatusCode, in)
	}
	if in := inputOf(t, h.get("/keyholders/new").Text, "passphrase"); !strings.Contains(in, `type="password"`) || !strings.Contains(in, `autocomplete="new-password"`) {
		t.Errorf("unasked: %s", in)
	}
}
