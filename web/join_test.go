package web_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"wetside/internal/browsertest"
)

// A device is a browser with the cookies that it was given.
type device struct {
	*house
	cookies []*http.Cookie
}

func (d *device) do(method, path string, form url.Values) answer {
	d.t.Helper()
	r := d.request(method, path, strings.NewReader(form.Encode()))
	if method == http.MethodPost {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Sec-Fetch-Site", "same-origin")
	}
	return d.asks(r)
}

// share begins an evening that others join, and returns the path of its code.
func (h *house) share() string {
	h.t.Helper()
	if a := h.post("/evening", url.Values{"shared": {"yes"}}); a.StatusCode != http.StatusSeeOther {
		h.t.Fatalf("beginning a shared evening: %d", a.StatusCode)
	}
	at := regexp.MustCompile(`/join/[0-9A-Z]{10}`).FindString(h.get("/wall").Text)
	if at == "" {
		h.t.Fatal("no code hangs on the wall")
	}
	return at
}

// joined is a device that joined under a name.
func (h *house) joined(at, name string) *device {
	h.t.Helper()
	d := &device{house: h}
	if a := d.do(http.MethodPost, at, url.Values{"name": {name}}); a.StatusCode != http.StatusSeeOther {
		h.t.Fatalf("joining as %q: %d\n%s", name, a.StatusCode, a.Text)
	}
	return d
}

// posts are the patterns of all forms, found in the source.
func posts(t *testing.T) (all []string) {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasSuffix(name, "_test.go") || name == "doors.go" {
			continue
		}
		for _, m := range regexp.MustCompile(`"POST (/[^"]*)"`).FindAllStringSubmatch(string(text), -1) {
			all = append(all, m[1])
		}
	}
	if len(all) < 35 {
		t.Fatalf("only %d forms were found", len(all))
	}
	return all
}

// When the evening was closed over their head, who joined still starts a print: it is of no evening, and nothing is refused.
func TestWhoJoinedStartsAfterTheEvening(t *testing.T) {
	h := withExample(t)
	h.mixAll()
	d := h.joined(h.share(), "Mo")
	if setup := d.do(http.MethodGet, "/sink/setup.json", nil).Text; !strings.Contains(setup, `"guest":true`) {
		t.Error("the scripts are not told that the device joined")
	}
	if a := h.post("/evening/close", url.Values{"position": {fmt.Sprint(h.position())}}); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("closing: %d %s", a.StatusCode, problemsOf(a.Text))
	}
	at := h.position()
	a := d.do(http.MethodPost, "/sink/move", url.Values{"start": {"RC-paper-8x10-in whole"}})
	if a.StatusCode != http.StatusSeeOther || h.position() != at+1 {
		t.Errorf("%d, %d entries; want the print alone", a.StatusCode, h.position()-at)
	}
	if n := len(keysOf(h.get("/sink").Text, "on")); n == 0 {
		t.Error("the print does not lie in the sink")
	}
}

// Whoever joined is refused every form but those that count, time and test, with a page that says who can; nothing is written.
func TestWhoJoinedMayCountTimeAndTest(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	d := h.joined(h.share(), "Mo")
	open := []string{ // what writes what they may, or nothing into the book
		"/baths/{id}/worked", "/baths/{id}/tested", "/undo/{id}", "/sink/move", "/taps", "/join/{code}", "/wrong/{sign}", "/red", "/red/screen",
		"/sign-in", "/sign-in/key", "/sign-out", // of the doors
	}
	at, asked := h.position(), 0
	for _, pattern := range posts(t) {
		if slices.Contains(open, pattern) {
			continue
		}
		asked++
		path := strings.Replace(pattern, "/baths/{id}", fixer, 1)
		path = regexp.MustCompile(`\{[^}]*\}`).ReplaceAllString(path, "x")
		if a := d.do(http.MethodPost, path, nil); a.StatusCode != http.StatusForbidden || !strings.Contains(a.Text, "ask one of them") {
			t.Errorf("POST %s: %d, want 403 and who can", pattern, a.StatusCode)
		}
	}
	if asked < 25 || h.position() != at {
		t.Errorf("%d forms were asked, %d entries written", asked, h.position()-at)
	}
	worked := d.do(http.MethodPost, fixer+"/worked", url.Values{"load": {"2 8x10 in RC paper"}})
	tested := d.do(http.MethodPost, fixer+"/tested", url.Values{"test": {"silver strip"}, "result": {"0.5 g/L"}})
	if worked.StatusCode != http.StatusSeeOther || tested.StatusCode != http.StatusSeeOther || h.position() != at+2 {
		t.Fatalf("counting %d, testing %d, %d entries", worked.StatusCode, tested.StatusCode, h.position()-at)
	}
	if page := h.get(fixer).Text; !strings.Contains(page, "Mo") {
		t.Error("the bath's page does not say who counted")
	}
	// Their own they take back, nobody else's.
	theirs := h.post(fixer+"/worked", url.Values{"load": {"3 8x10 in RC paper"}}).Header.Get("Location")
	for to, want := range map[string]int{worked.Header.Get("Location"): http.StatusSeeOther, theirs: http.StatusForbidden} {
		u, err := url.Parse(to)
		if err != nil {
			t.Fatal(err)
		}
		if a := d.do(http.MethodPost, "/undo/"+u.Query().Get("did"), nil); a.StatusCode != want {
			t.Errorf("taking back %s: %d, want %d", to, a.StatusCode, want)
		}
	}
}

// A page that only leads to what they may not do is none of theirs, and a list shows them what is done, without keys.
func TestWhoJoinedSeesNoKeysOfTheKeepers(t *testing.T) {
	h := withExample(t)
	d := h.joined(h.share(), "Mo")
	h.post("/lists/opening", url.Values{"done": {"air"}})
	for _, path := range []string{"/people", "/evening/close", "/baths/stands"} {
		if a := d.do(http.MethodGet, path, nil); a.StatusCode != http.StatusForbidden || h.get(path).StatusCode != http.StatusOK {
			t.Errorf("GET %s: %d, want 403, and the page for who keeps the room", path, a.StatusCode)
		}
	}
	list := d.do(http.MethodGet, "/lists/opening", nil).Text
	if strings.Contains(list, "<button class=\"tick") || !strings.Contains(list, `<span class="tick on">`) || !strings.Contains(list, "done 17:") {
		t.Error("the list has keys, or does not tell what is done")
	}
	if strings.Contains(list, `action="/evening"`) {
		t.Error("the list offers to begin an evening")
	}
}

// Without the network a tap and its undo are sent together, and both are taken, as they are one after the other.
func TestWhoJoinedTakesBackInOneSending(t *testing.T) {
	h := withExample(t)
	d := h.joined(h.share(), "Mo")
	at := h.book.Now().UTC().Format(time.RFC3339Nano)
	tap := func(id, kind, body, back string) string {
		return fmt.Sprintf(`{"id":%q,"kind":%q,"at":%q,"body":%s,"takes_back":%q}`, id, kind, at, body, back)
	}
	begun := `{"print":"p1","material":"RC paper","size":"8x10 in","sheets":1,"step":"develop"}`
	r := d.request(http.MethodPost, "/taps", strings.NewReader(`{"device":"phone","taps":[`+strings.Join([]string{
		tap("t1", "print.started", begun, ""), tap("t2", "correction", "{}", "t1"), tap("t3", "list.ticked", `{"session":"s","list":"opening","item":"air"}`, ""),
		tap("t4", "correction", "{}", "t3"),
	}, ",")+`]}`))
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	for _, c := range d.cookies {
		r.AddCookie(c)
	}
	var said struct{ Taken, Refused []struct{ ID string } }
	if a := d.ask(r); json.Unmarshal([]byte(a.Text), &said) != nil || len(said.Taken) != 2 || len(said.Refused) != 2 || said.Taken[1].ID != "t2" {
		t.Errorf("%d: %s\nwant t1 and t2 taken, t3 and t4 refused", a.StatusCode, a.Text)
	}
	s, err := h.book.State(t.Context())
	if err != nil || len(s.Prints()) != 0 {
		t.Errorf("%d prints stand, %v", len(s.Prints()), err)
	}
}

// A name is kept whole in any script; what can't be a name is told at its field, and nobody joins.
func TestNamesAtTheDoor(t *testing.T) {
	h := withExample(t)
	at := h.share()
	before := h.position()
	for name, bad := range map[string]string{
		"empty": "", "spaces": " \t  ", "control": "Mo\x07", "escape": "\x1b[31mMo", "turned round": "Mo\u202e", "no text": "Mo\xff",
		"nothing to see": "\u200d\u0301", "201 letters": strings.Repeat("я", 201), "NUL": "M\x00o",
	} {
		d := &device{house: h}
		a := d.do(http.MethodPost, at, url.Values{"name": {bad}})
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(inputOf(t, a.Text, "name"), `aria-invalid="true"`) {
			t.Errorf("%s: %d, want what is wrong at the name", name, a.StatusCode)
		}
	}
	if h.position() != before {
		t.Errorf("%d joined all the same", h.position()-before)
	}
	for _, name := range []string{strings.Repeat("Я", 200), "まき", "مريم", "नीलिमा", "José", "O’Brien & <b>"} {
		d := h.joined(at, name)
		people, err := h.book.People(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		found := false
		for _, p := range people {
			found = found || p.Name == name
		}
		if page := d.do(http.MethodGet, at, nil); !found || page.StatusCode != http.StatusOK || strings.Contains(page.Text, "<b>&") {
			t.Errorf("%.20s: kept %v, %d", name, found, page.StatusCode)
		}
	}
}

// The same code serves forty people. Two of one name are told apart; one device is one person, however often it sends; a code
// that is no code and one whose evening is over say so.
func TestForty(t *testing.T) {
	h := withExample(t)
	at := h.share()
	before := h.position()
	var all []*device
	for i := range 40 {
		all = append(all, h.joined(at, []string{"Mo", "Lu"}[i%2]))
	}
	all[0].do(http.MethodPost, at, url.Values{"name": {"Mo"}})
	if n := h.position() - before; n != 40 {
		t.Errorf("forty joined, and %d entries were written", n)
	}
	page := h.get("/handover").Text
	for _, name := range []string{">Mo<", ">Mo 2<", ">Mo 20<", ">Lu 20<"} {
		if strings.Count(page, name) != 1 {
			t.Errorf("%s is here %d times", name, strings.Count(page, name))
		}
	}
	tokens := map[string]bool{}
	for _, d := range all {
		for _, c := range d.cookies {
			if c.Name == "joined" {
				tokens[c.Value] = true
				if !c.HttpOnly || c.SameSite != http.SameSiteLaxMode || len(c.Value) < 22 {
					t.Errorf("the token's cookie is %v", c)
				}
			}
		}
	}
	if len(tokens) != 40 {
		t.Errorf("%d tokens for forty devices", len(tokens))
	}
	typed := "/join/" + strings.ToLower(strings.ReplaceAll(strings.TrimPrefix(at, "/join/"), "0", "o"))
	if a := h.get(typed); a.StatusCode != http.StatusOK {
		t.Errorf("typed in small letters: %d", a.StatusCode)
	}
	for _, bad := range []string{"/join/AAAAAAAAAA", "/join/%00", "/join/%D1%8F", "/join/" + strings.Repeat("A", 500)} {
		a := h.get(bad)
		if a.StatusCode != http.StatusNotFound || !strings.Contains(a.Text, "Look at the wall") {
			t.Errorf("GET %.30s: %d", bad, a.StatusCode)
		}
	}
	h.post("/evening/close", url.Values{"position": {fmt.Sprint(h.position())}})
	for _, method := range []string{http.MethodGet, http.MethodPost} {
		d := &device{house: h}
		a := d.do(method, at, url.Values{"name": {"Late"}})
		if a.StatusCode != http.StatusGone || !strings.Contains(a.Text, "That evening is over") {
			t.Errorf("%s of a code whose evening is over: %d", method, a.StatusCode)
		}
	}
	// Whoever joined is no keeper because the evening is over, and what was tapped late is taken.
	if a := all[3].do(http.MethodPost, "/evening", nil); a.StatusCode != http.StatusForbidden {
		t.Errorf("after the evening: %d, want 403", a.StatusCode)
	}
}

// A bath's page tells two of one name apart as the wall does.
func TestWhoCountedAtTheBath(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	at := h.share()
	for range 2 {
		h.joined(at, "Perpetua").do(http.MethodPost, fixer+"/worked", url.Values{"load": {"2 8x10 in RC paper"}})
	}
	page := h.get(fixer).Text
	for _, who := range []string{", Perpetua</span>", ", Perpetua 2</span>"} {
		if strings.Count(page, who) != 1 {
			t.Errorf("%q stands there %d times, want once", who, strings.Count(page, who))
		}
	}
}

// An erased name is somebody everywhere, and in no file any more.
func TestErasedNames(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	d := h.joined(h.share(), "Perpetua")
	d.do(http.MethodPost, fixer+"/worked", url.Values{"load": {"2 8x10 in RC paper"}})
	people, err := h.book.People(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	erase := ""
	for id, p := range people {
		if p.Name == "Perpetua" {
			erase = "/people/" + id + "/away"
		}
	}
	if !slices.Contains(actions(h.get("/people").Text), erase) {
		t.Fatalf("nobody can erase the name by %q", erase)
	}
	if a := h.post(erase, nil); a.StatusCode != http.StatusConflict || !strings.Contains(a.Text, "Perpetua") {
		t.Errorf("erasing asks nobody: %d", a.StatusCode)
	}
	if a := h.post(erase, url.Values{"sure": {"yes"}}); a.StatusCode != http.StatusSeeOther {
		t.Fatalf("erasing: %d", a.StatusCode)
	}
	for _, path := range []string{fixer, "/handover", "/wall", "/people"} {
		if p := h.get(path).Text; strings.Contains(p, "Perpetua") {
			t.Errorf("%s still has the name", path)
		}
	}
	if p := h.get("/handover").Text; !strings.Contains(p, "<bdi class=\"cut\">somebody</bdi>") {
		t.Error("whoever is here is not somebody")
	}
	if a := h.post("/people/nobody/away", url.Values{"sure": {"yes"}}); a.StatusCode != http.StatusNotFound {
		t.Errorf("erasing nobody: %d", a.StatusCode)
	}
}

// On a phone: in by the code, a count, and a refusal at the shelf.
func TestJoiningOnAPhone(t *testing.T) {
	h := withExample(t)
	fixer := h.mixAll()["Fixer 1"]
	at := h.share()
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	p.Expect(http.StatusForbidden)
	p.Go(at)
	p.Audit()
	p.Fill("Your first name", "Анастасия")
	p.Click("button", "Join")
	p.See("You are here as Анастасия")
	p.Audit()
	before := h.position()
	p.Click("link", "Count a sheet")
	p.Reach("/baths")
	p.Click("button", "+ 1\u00a0sheet 8×10\u00a0in RC paper")
	p.See("Written down")
	if h.position() != before+1 || !strings.Contains(h.get(fixer).Text, "Анастасия") {
		t.Errorf("%d entries, and the bath's page does not name her", h.position()-before)
	}
	p.Go("/shelf")
	if strings.Contains(p.Text(), "It is gone") {
		t.Error("the shelf offers what is not hers to do")
	}
	p.Go("/room")
	p.Click("button", "Keep")
	p.See("ask one of them")
	p.Audit()
	if h.position() != before+1 {
		t.Error("the shelf took it")
	}
}
