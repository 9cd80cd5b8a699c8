package web_test

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/internal/browsertest"
	"wetside/trade/process"
)

// atSink is a house whose baths are mixed, on an evening.
func atSink(tb testing.TB) *house {
	tb.Helper()
	h := withExample(tb)
	h.mixAll()
	return h
}

// keysOf are the values of the keys of a name on a page.
func keysOf(page, name string) []string {
	var out []string
	for _, m := range regexp.MustCompile(`name="`+name+`" value="([^"]+)"`).FindAllStringSubmatch(page, -1) {
		out = append(out, m[1])
	}
	return out
}

// press presses a key of the page as a browser without scripts does, and returns the page that comes.
func (h *house) press(name, value string) answer {
	h.t.Helper()
	a := h.post("/sink/move", url.Values{name: {value}})
	if a.StatusCode != http.StatusSeeOther {
		h.t.Fatalf("%s %q: %d\n%s", name, value, a.StatusCode, problemsOf(a.Text))
	}
	return h.get(a.Header.Get("Location"))
}

// TestSinkWithoutScripts takes a print from the developer to holding, and its batch through the wash, by forms alone.
func TestSinkWithoutScripts(t *testing.T) {
	h := atSink(t)
	h.mix("washing-aid")
	page := h.get("/sink")
	if n := len(keysOf(page.Text, "start")); n != 4 {
		t.Fatalf("%d keys to start: %v", n, keysOf(page.Text, "start"))
	}
	page = h.press("start", "FB-paper-11x14-in whole")
	var ways []string
	for range 8 {
		on := keysOf(page.Text, "on")
		if len(on) == 0 || on[len(on)-1] == " " {
			break
		}
		_, at, _ := strings.Cut(on[0], " ")
		ways = append(ways, at)
		page = h.press("on", on[0])
	}
	if d := cmp.Diff([]string{"develop", "stop", "fix", "second_fix"}, ways[:min(4, len(ways))]); d != "" {
		t.Fatalf("its way (-want +got):\n%s", d)
	}
	wash := keysOf(page.Text, "wash")
	if len(wash) != 1 || !strings.Contains(page.Text, "1 print, since") {
		t.Fatalf("washes %v after %v", wash, ways)
	}
	id, _, _ := strings.Cut(wash[0], " ")
	for _, do := range []string{"aid", "started", "done"} {
		wash = keysOf(page.Text, "wash")
		if d := cmp.Diff([]string{id + " " + do}, wash); d != "" {
			t.Fatalf("the batch's key (-want +got):\n%s", d)
		}
		page = h.press("wash", wash[0])
		h.press("wash", wash[0]) // pressed twice, it is done once
	}
	if wash = keysOf(page.Text, "wash"); len(wash) != 0 {
		t.Errorf("the wash is done, and there is %v", wash)
	}
	state, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	aids := 0
	for _, b := range state.Baths() {
		if p, _ := state.Product(b.Mixed.Product); p.Role == process.WashingAid {
			aids++
			if n := len(b.Events); n != 1 {
				t.Errorf("%d loads went through the washing aid, want 1", n)
			}
		}
	}
	if aids != 1 {
		t.Errorf("%d baths of washing aid", aids)
	}
	if b := state.Batches(); len(b) != 1 || len(b[0].Events) != 3 { // held, the wash, its end
		t.Errorf("the batch: %+v", b)
	}
}

// TestPressedTwice: the same key pressed twice moves a print once.
func TestPressedTwice(t *testing.T) {
	h := atSink(t)
	on := keysOf(h.press("start", "RC-paper-8x10-in whole").Text, "on")[0]
	h.press("on", on)
	page := h.press("on", on)
	if at := keysOf(page.Text, "on")[0]; !strings.HasSuffix(at, " stop") {
		t.Errorf("it lies in %s", at)
	}
	undo := keysOf(h.press("count", "RC-paper-8x10-in strip").Text, "undo")
	if len(undo) != 1 {
		t.Fatalf("undo %v", undo)
	}
	h.press("undo", undo[0])
}

// tap sends taps as a device does.
func (h *house) tap(device string, taps ...map[string]any) {
	h.t.Helper()
	text, err := json.Marshal(map[string]any{"device": device, "taps": taps})
	if err != nil {
		h.t.Fatal(err)
	}
	r := h.request(http.MethodPost, "/taps", bytes.NewReader(text))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	if a := h.ask(r); a.StatusCode != http.StatusOK || strings.Contains(a.Text, `"why"`) {
		h.t.Fatalf("taps: %d %s", a.StatusCode, a.Text)
	}
}

// came says that people came in tonight, under these names.
func (h *house) came(names ...string) {
	h.t.Helper()
	at := evening().Format(time.RFC3339)
	taps := []map[string]any{{"id": "open", "kind": "session.opened", "at": at, "body": map[string]any{"session": "s1"}}}
	for i, name := range names {
		id := "who" + strconv.Itoa(i)
		if err := h.book.Store.PutPerson(h.t.Context(), h.book.Room, book.Person{ID: id, Name: name}); err != nil {
			h.t.Fatal(err)
		}
		taps = append(taps, map[string]any{"id": "join-" + id, "kind": "session.joined", "at": at, "body": map[string]any{"session": "s1", "person": id}})
	}
	h.tap("page", taps...)
}

// begins starts a sheet of somebody's, as the page without scripts does, and moves it on so many times.
func (h *house) begins(of, way string, moves int) {
	h.t.Helper()
	a := h.post("/sink/move", url.Values{"start": {way + " whole"}, "of": {of}})
	if a.StatusCode != http.StatusSeeOther {
		h.t.Fatalf("%d %s", a.StatusCode, a.Text)
	}
	for range moves {
		on := keysOf(h.get("/sink").Text, "on")
		newest, _, _ := strings.Cut(on[len(on)-2], " ") // the last is the large key's
		for _, key := range on {
			if id, _, _ := strings.Cut(key, " "); id == newest {
				h.press("on", key)
				break
			}
		}
	}
}

// The sink with nothing in it, three prints and eight, as large as screens there are, in the light, the dark and the red.
func TestSinkLooks(t *testing.T) {
	t.Parallel()
	h := atSink(t)
	h.came("Ada", "Lu", strings.Repeat("Wolfeschlegelsteinhausenbergerdorff", 6)[:200], "Søren 北京")
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	for n, add := range [][]int{{}, {2, 1, 0}, {4, 3, 0, 0, 0}} {
		for i, moves := range add {
			h.begins("who"+strconv.Itoa(i%4), "FB-paper-11x14-in", moves)
		}
		for name, l := range map[string]browsertest.Look{
			"phone": browsertest.Phone(), "wall": {Width: 820, Height: 1180}, "desk": {Width: 1280, Height: 900}, "dark": {Width: 390, Height: 844, Dark: true},
		} {
			if n != 1 && name == "dark" {
				continue
			}
			p.LookAs(l)
			p.Go("/sink")
			readySink(t, p)
			p.Audit()
			picture(t, p, name+strconv.Itoa(n), float64(l.Height))
		}
	}
	red := inRed(t, h.URL, browsertest.Phone())
	red.Go("/sink")
	readySink(t, red)
	red.Audit()
	look(t, red, "the sink")
	picture(t, red, "red", 844)
	run(t, red, "document.querySelectorAll('details').forEach(d => d.open = true); document.body.classList.add('pulse')")
	look(t, red, "the sink, all open")
	picture(t, red, "red-open", 0)
}

func picture(t *testing.T, p *browsertest.Page, name string, height float64) {
	t.Helper()
	shot, err := p.Screenshot(height)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(t.ArtifactDir(), name+".png"), shot, 0o600); err != nil {
		t.Fatal(err)
	}
}

// A print that a phone whose clock is five minutes ahead put into the stop bath goes on all the same, by the form and by the
// page's script: what is tapped comes after what it was tapped on.
func TestAClockAhead(t *testing.T) {
	l := running(t)
	s := openSink(t, l.mapped(), browsertest.Phone())
	s.press("start", "RC-paper-8x10-in whole")
	s.holds("page.box.taps.length === 0")
	id := l.state().Prints()[0].ID
	ahead := l.now().Add(5 * time.Minute).UTC().Format("2006-01-02T15:04:05.000000Z")
	l.tap("hasty", map[string]any{"id": "hasty-1", "kind": "print.moved", "at": ahead, "body": map[string]any{"print": id, "step": "stop", "for": "15 s"}})
	s.holds("page.state().tags[0].stay.step === 'stop'")
	s.press("on", id)
	s.holds("page.box.taps.length === 0")
	if p, _ := l.state().Print(id); p.Now().Step != process.Fix || len(p.Odd) > 0 {
		t.Errorf("by the script it went to %v, %+v", p.Now().Step, p.Odd)
	}
	ahead = l.now().Add(10 * time.Minute).UTC().Format("2006-01-02T15:04:05.000000Z")
	l.tap("hasty", map[string]any{"id": "hasty-2", "kind": "print.moved", "at": ahead, "body": map[string]any{"print": id, "step": "second_fix", "for": "15 s"}})
	l.press("on", id)
	if p, _ := l.state().Print(id); p.Now().Step != process.Wash {
		t.Errorf("by the form it lies in %v", p.Now().Step)
	}
}
