package web_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
)

// tapped is what comes back for taps.
type tapped struct {
	Now      string
	Position int64
	Taken    []struct {
		ID       string
		Position int64
	}
	Refused []struct{ ID, Why, Key string }
	Title   string // of a problem
	Status  int
	Detail  string
}

// send sends a body to /taps as a device's own page does.
func (h *house) send(body string) (answer, tapped) {
	h.t.Helper()
	r := h.request(http.MethodPost, "/taps", strings.NewReader(body))
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	a := h.ask(r)
	var t tapped
	if err := json.Unmarshal([]byte(a.Text), &t); err != nil {
		h.t.Fatalf("%d %s: %v", a.StatusCode, a.Text, err)
	}
	return a, t
}

// loadTap is a tap: a sheet went through two baths.
func loadTap(id string) string {
	return fmt.Sprintf(`{"id":%q,"kind":"bath.worked","at":"2026-03-12T17:00:00.123456Z","by":"",`+
		`"body":{"baths":["dev1","fix1"],"material":"RC paper","size":"8x10 in","sheets":1}}`, id)
}

// undoTap is a tap that takes another back.
func undoTap(id, target string) string {
	return fmt.Sprintf(`{"id":%q,"kind":"correction","at":"2026-03-12T17:00:01Z","takes_back":%q}`, id, target)
}

func sending(taps ...string) string {
	return `{"device":"phone-1","taps":[` + strings.Join(taps, ",") + `]}`
}

// TestTapsEachByItself sends good and bad taps together: the good are taken in their order, each bad one is told why in a
// sentence, and sent again all is as it was.
func TestTapsEachByItself(t *testing.T) {
	h := withExample(t)
	before := h.position()
	body := sending(
		loadTap("one"),
		strings.Replace(loadTap("many"), `"sheets":1`, `"sheets":-1`, 1),
		loadTap("two"),
		`{"id":"shut","kind":"bath.discarded","at":"2026-03-12T17:00:00Z","body":{"bath":"dev1"}}`,
		`{"id":"odd","kind":"kettle.boiled","at":"2026-03-12T17:00:00Z","body":{}}`,
		`{"id":"late","kind":"bath.worked","at":"yesterday","body":{}}`,
		`{"id":"wrong","kind":7}`,
		undoTap("undo-one", "one"),
		undoTap("undo-one-again", "one"),
		undoTap("undo-nothing", "nobody"),
		undoTap("undo-room", roomEntry(t, h)),
		strings.Replace(loadTap("two"), `"sheets":1`, `"sheets":2`, 1), // another tap under a mark that is taken
		undoTap("undo-undo", "undo-one"),
		strings.Replace(loadTap("by"), `"by":""`, `"by":"a b"`, 1),
	)
	a, got := h.send(body)
	if a.StatusCode != http.StatusOK || got.Position != before+4 || !strings.HasPrefix(got.Now, "2026-03-12T17:") {
		t.Errorf("%d %s", a.StatusCode, a.Text)
	}
	var taken, refused []string
	for _, x := range got.Taken {
		taken = append(taken, fmt.Sprint(x.ID, " ", x.Position-before))
	}
	for _, x := range got.Refused {
		refused = append(refused, x.ID+" "+x.Key)
		if !strings.HasSuffix(x.Why, ".") || strings.Contains(x.Why, "_") || !strings.Contains(x.Why, " ") {
			t.Errorf("%s is told %q", x.ID, x.Why)
		}
	}
	if d := cmp.Diff([]string{"one 1", "two 2", "undo-one 3", "undo-undo 4"}, taken); d != "" {
		t.Errorf("taken (-want +got):\n%s", d)
	}
	want := []string{
		"many entry_bad_body", "shut tap_decides", "odd tap_no_kind", "late tap_unreadable", "wrong tap_unreadable",
		"undo-one-again refused_already_undone", "undo-nothing refused_no_such_entry", "undo-room tap_decides", "two conflict", "by entry_bad_by",
	}
	if d := cmp.Diff(want, refused); d != "" {
		t.Errorf("refused (-want +got):\n%s", d)
	}
	body = strings.Replace(body, undoTap("undo-one-again", "one")+",", "", 1) // by now it could be done
	if _, again := h.send(body); !cmp.Equal(got.Taken, again.Taken) || len(again.Refused) != len(want)-1 || again.Position != got.Position {
		t.Errorf("sent again: %+v", again)
	}
	state, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if n := len(state.Events()); n != 2 {
		t.Errorf("%d loads stand, want 2", n)
	}
}

// roomEntry returns the entry that gave the room its name.
func roomEntry(t *testing.T, h *house) string {
	t.Helper()
	all, err := h.book.Since(t.Context(), 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range all {
		if e.Kind == book.RoomSet {
			return e.ID
		}
	}
	t.Fatal("no room")
	return ""
}

// A body that is no sending of taps is told as a problem (RFC 9457), and nothing is written.
func TestTapsOfTheWrongForm(t *testing.T) {
	h := withExample(t)
	before := h.position()
	var many []string
	for i := range 501 {
		many = append(many, loadTap(fmt.Sprint("tap", i)))
	}
	for name, tt := range map[string]struct {
		body string
		want int
	}{
		"nothing":           {``, 400},
		"no object":         {`[]`, 400},
		"half":              {sending(loadTap("a"))[:60], 400},
		"two":               {sending(loadTap("a")) + sending(loadTap("b")), 400},
		"no device":         {`{"taps":[` + loadTap("a") + `]}`, 400},
		"a device in words": {strings.Replace(sending(loadTap("a")), "phone-1", "my phone", 1), 400},
		"no taps":           {`{"device":"phone-1"}`, 400},
		"a tap without id":  {sending(loadTap("a"), `{"kind":"bath.worked"}`), 400},
		"an id in words":    {sending(loadTap("a b")), 400},
		"a tap that is not": {sending(loadTap("a"), `7`), 400},
		"too many":          {sending(many...), 413},
		"too long":          {sending(strings.Replace(loadTap("a"), "RC paper", strings.Repeat("x", 256<<10), 1)), 413},
	} {
		a, got := h.send(tt.body)
		if a.StatusCode != tt.want || got.Status != tt.want || got.Title == "" || got.Detail == "" ||
			a.Header.Get("Content-Type") != "application/problem+json" {
			t.Errorf("%s: %d %s", name, a.StatusCode, a.Text)
		}
	}
	if now := h.position(); now != before {
		t.Errorf("%d entries were written", now-before)
	}
	if a, got := h.send(sending(many[:500]...)); a.StatusCode != http.StatusOK || len(got.Taken) != 500 {
		t.Errorf("500 taps: %d, %d taken", a.StatusCode, len(got.Taken))
	}
	if a, got := h.send(sending()); a.StatusCode != http.StatusOK || got.Taken == nil || got.Refused == nil || got.Position != before+500 {
		t.Errorf("no taps: %d %s", a.StatusCode, a.Text)
	}
}

// Taps of another site are refused.
func TestTapsFromElsewhere(t *testing.T) {
	h := withExample(t)
	before := h.position()
	r := h.request(http.MethodPost, "/taps", strings.NewReader(sending(loadTap("a"))))
	r.Header.Set("Sec-Fetch-Site", "cross-site")
	if a := h.ask(r); a.StatusCode != http.StatusForbidden || h.position() != before {
		t.Errorf("%d, %d entries", a.StatusCode, h.position()-before)
	}
}

// FuzzTaps sends anything: it is answered, and what is written can be read.
func FuzzTaps(f *testing.F) {
	f.Add(sending(loadTap("a"), undoTap("b", "a")))
	f.Add(`{"device":"d","taps":[{"id":"x","kind":"bath.tested","at":"2026-03-12T17:00:00Z","body":{"bath":"b","test":"drop","result":"no"}}]}`)
	f.Add(`{"device":"d","taps":[{"id":"x","kind":"correction","at":"0000-01-01T00:00:00Z","takes_back":"x","body":null}]}`)
	h := withExample(f)
	f.Fuzz(func(t *testing.T, body string) {
		h.t = t
		r := h.request(http.MethodPost, "/taps", strings.NewReader(body))
		switch a := h.ask(r); a.StatusCode {
		case http.StatusOK, http.StatusBadRequest, http.StatusRequestEntityTooLarge:
		default:
			t.Errorf("%d %s", a.StatusCode, a.Text)
		}
		if state, err := h.book.State(t.Context()); err != nil || len(state.Unread()) > 0 {
			t.Errorf("the book can't be read: %v", err)
		}
	})
}
