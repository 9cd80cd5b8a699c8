package web_test

import (
	"fmt"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"wetside/book"
)

// say writes a body into the book as a device of the room would.
func (h *house) say(b book.Body) string {
	h.t.Helper()
	a := book.Author{Device: "tablet", Now: h.book.Now(), NewID: h.book.NewID}
	e, err := a.Write(b)
	if err != nil {
		h.t.Fatal(err)
	}
	if err := h.book.Append(h.t.Context(), []book.Entry{e}, nil); err != nil {
		h.t.Fatal(err)
	}
	return e.ID
}

// running is the id of the evening that goes on.
func (h *house) running() string {
	h.t.Helper()
	s, err := h.book.State(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	e, _ := s.Running()
	return e.ID
}

// One tap ticks an item, another undoes it, and the list says who; what is on no list is nowhere, and nothing is written.
func TestLists(t *testing.T) {
	h := withExample(t)
	before := h.position()
	if a := h.post("/lists/opening", url.Values{"done": {"air"}}); a.StatusCode != http.StatusSeeOther || h.position() != before {
		t.Errorf("a tick without an evening: %d, %d entries", a.StatusCode, h.position()-before)
	}
	h.post("/evening", nil)
	ticked := regexp.MustCompile(`name="undone" value="air" aria-pressed="true"`)
	h.post("/lists/opening", url.Values{"done": {"air"}})
	if page := h.get("/lists/opening").Text; !ticked.MatchString(page) || !strings.Contains(page, "done 17:") {
		t.Error("the tick does not stand, or not since when")
	}
	h.post("/lists/opening", url.Values{"undone": {"air"}})
	if ticked.MatchString(h.get("/lists/opening").Text) {
		t.Error("it was undone, and stands")
	}
	before = h.position()
	for _, bad := range []struct {
		path string
		form url.Values
	}{
		{"/lists/opening", url.Values{"done": {"tea"}}},
		{"/lists/opening", url.Values{"done": {""}}},
		{"/lists/opening", nil},
		{"/lists/opening", url.Values{"done": {"lights"}}},
		{"/lists/tea", url.Values{"done": {"air"}}},
	} {
		if a := h.post(bad.path, bad.form); a.StatusCode != http.StatusNotFound {
			t.Errorf("POST %s %v: %d, want 404", bad.path, bad.form, a.StatusCode)
		}
	}
	if a := h.get("/lists/tea"); a.StatusCode != http.StatusNotFound || h.position() != before {
		t.Errorf("a list for tea: %d; %d entries", a.StatusCode, h.position()-before)
	}
}

// A note is told to whoever comes next, whole, as it was written, and never as a page's own words; today's page leads to it
// until an evening was begun since. Erased, it is gone.
func TestNotes(t *testing.T) {
	h := withExample(t)
	leads := func() bool { return strings.Contains(h.get("/").Text, `href="/handover"`) }
	if leads() {
		t.Error("nothing is to be handed over, and today's page leads there")
	}
	before := h.position()
	for _, bad := range []string{"", " \r\n ", strings.Repeat("я", 2001), "a\xff", "a\x00b"} {
		a := h.post("/handover/note", url.Values{"words": {bad}})
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(a.Text, `aria-invalid="true"`) || h.position() != before {
			t.Errorf("note %.10q: %d, %d entries", bad, a.StatusCode, h.position()-before)
		}
	}
	h.post("/handover/note", url.Values{"words": {"Кипятильник сломан <script>\r\nFixer 2 is fresh"}})
	page := h.get("/handover").Text
	if !strings.Contains(page, "Кипятильник сломан &lt;script&gt;\nFixer 2 is fresh") || !leads() {
		t.Error("the note is not told, or today's page does not lead to it")
	}
	h.post("/evening", nil)
	h.post("/evening/close", url.Values{"position": {fmt.Sprint(h.position())}})
	if h.running() != "" || leads() {
		t.Errorf("an evening was begun and closed since, and today's page still leads to the note (running: %q)", h.running())
	}
	if a := h.get("/darkroom.yaml"); a.StatusCode != http.StatusOK || strings.Contains(a.Text, "Кипятильник") {
		t.Errorf("the export has the note: %d", a.StatusCode)
	}
	erase := first(t, actions(page), "/handover/note/")
	for _, a := range regexp.MustCompile(`action="(/handover/note/[^"]*/away)"`).FindAllStringSubmatch(page, -1) {
		erase = a[1]
	}
	if a := h.post(erase, nil); a.StatusCode != http.StatusConflict {
		t.Errorf("erasing asks nobody: %d", a.StatusCode)
	}
	h.post(erase, url.Values{"sure": {"yes"}})
	if strings.Contains(h.get("/handover").Text, "сломан") {
		t.Error("the erased note is still told")
	}
	if a := h.post("/handover/note/nobody/away", url.Values{"sure": {"yes"}}); a.StatusCode != http.StatusNotFound {
		t.Errorf("erasing no note: %d", a.StatusCode)
	}
}

// Whoever comes in reads each bath with who made it and since when, what was odd, and how much fixer was put by.
func TestHandover(t *testing.T) {
	h := withExample(t)
	all := h.mixAll()
	for _, name := range []string{"Developer", "Stop bath", "Fixer 1", "Fixer 2"} {
		if !strings.Contains(h.get("/handover").Text, `href="`+all[name]+`"`) {
			t.Errorf("the handover does not tell of the %s", name)
		}
	}
	if p := h.get("/handover").Text; strings.Contains(p, "failed") || strings.Contains(p, "collected") {
		t.Error("something failed or was collected before anybody did")
	}
	h.post(all["Fixer 1"]+"/tested", url.Values{"test": {"drop test"}, "result": {"failed"}})
	h.post(all["Fixer 2"]+"/away", url.Values{"to": {"collected"}, "sure": {"yes"}, "position": {fmt.Sprint(h.position())}})
	h.post(all["Fixer 2"]+"/worked", url.Values{"load": {"2 8x10 in FB paper"}})
	h.say(&book.PrintMoved{Print: "ghost", At: book.At{Step: "fix"}})
	page := plain(h.get("/handover").Text)
	for what, want := range map[string]string{
		"the failed test": "Fixer 1: drop test failed", "the bath that had gone": "The bath had gone by then", "what is in the can": "Grey can: <b>2 L</b> in it",
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the handover does not tell of %s", what)
		}
	}
}

// Closing says what is still in the sink and takes it out only where somebody says so; a tap meanwhile makes it ask again.
func TestClosing(t *testing.T) {
	h := withExample(t)
	if a := h.get("/evening/close"); a.Header.Get("Location") != "/handover" {
		t.Errorf("closing what does not run: %d", a.StatusCode)
	}
	for _, left := range []string{"", "yes"} {
		h.post("/evening", nil)
		if page := h.get("/handover").Text; !strings.Contains(page, `<a class="key" href="/lists/closing">Close the evening</a>`) || strings.Contains(page, "/evening/close") {
			t.Error("the handover closes the evening elsewhere than on its list")
		}
		session := h.running()
		h.say(&book.PrintStarted{Print: "p" + left, Session: session, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1}, At: book.At{Step: "develop"}})
		page := h.get("/evening/close").Text
		stale := regexp.MustCompile(`name="position" value="([0-9]+)"`).FindStringSubmatch(page)
		want := "1 print</b> is still in the sink"
		if left != "" {
			want = "2 prints</b> are still in the sink" // the stray one of the evening before, too
		}
		if stale == nil || !strings.Contains(page, want) {
			t.Fatalf("closing does not say %q:\n%s", want, page)
		}
		h.say(&book.PrintMoved{Print: "p" + left, At: book.At{Step: "stop"}})
		if a := h.post("/evening/close", url.Values{"position": {stale[1]}, "left": {left}}); a.StatusCode != http.StatusConflict || h.running() == "" {
			t.Errorf("a tap came meanwhile: %d, want to be asked again", a.StatusCode)
		}
		if a := h.post("/evening/close", url.Values{"left": {left}}); a.StatusCode != http.StatusConflict || h.running() == "" {
			t.Errorf("closed on no position: %d", a.StatusCode)
		}
		h.post("/evening/close", url.Values{"position": {fmt.Sprint(h.position())}, "left": {left}})
		if h.running() != "" {
			t.Fatal("it still runs")
		}
		s, err := h.book.State(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		if n := len(s.Prints()); (n == 0) != (left != "") {
			t.Errorf("left %q: %d prints in the sink", left, n)
		}
	}
}

// The wall says whose prints are where, without a login or a script, and loads itself again; a home's has no code.
func TestWall(t *testing.T) {
	h := withExample(t)
	h.mixAll()
	h.post("/evening", nil)
	p := h.get("/wall").Text
	if strings.Contains(p, "/join/") || !strings.Contains(p, `http-equiv="refresh"`) || strings.Contains(p, "<form method=\"post\" action=\"/evening") {
		t.Error("a home's wall has a code, does not load itself again, or writes")
	}
	at := h.share()
	d := h.joined(at, "Mo")
	h.joined(at, "Mo")
	s, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	evening, _ := s.Running()
	for i, n := range []int{0, 1, 1} {
		h.say(&book.PrintStarted{
			Print: fmt.Sprint("p", i), Of: evening.Joined[n].Person, Session: evening.ID,
			Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1}, At: book.At{Step: "develop"},
		})
	}
	p = plain(h.get("/wall").Text)
	for _, want := range []string{`>Mo</bdi> developer</li>`, `>Mo 2</bdi> developer ×2</li>`, h.URL + at, "No phone can come in this way"} {
		if !strings.Contains(p, want) {
			t.Errorf("the wall does not say %q", want)
		}
	}
	if p := d.do(http.MethodGet, "/wall", nil).Text; strings.Contains(p, "own-white") && strings.Contains(p, at) {
		t.Error("whoever joined is asked to join")
	}
}
