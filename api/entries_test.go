package api_test

import (
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/uuid"

	"wetside/api"
	"wetside/book"
	"wetside/words/facts"
)

func sessionOpened(id string) book.Body { return &book.EveningOpened{Session: id} }

// trayOf is the name of one of the example's trays.
func trayOf(h *house, i int) string {
	h.t.Helper()
	s, err := h.book.State(h.t.Context())
	if err != nil {
		h.t.Fatal(err)
	}
	f, _ := s.File(nil)
	return f.Bench.Trays[i].Name
}

func worked(id, bath string) string {
	return fmt.Sprintf(`{"id":%q,"kind":"worked","body":{"baths":[%q],"material":"RC paper","size":"8x10 in","sheets":1}}`, id, bath)
}

// An entry is written once: 201 when it is new, 200 with the same when it was there, whether it has a moment of its own or not.
// Its kind stands in the book by its own name, its body byte for byte.
func TestAppendOnce(t *testing.T) {
	h := serve(t)
	before := h.position()
	for _, body := range []string{
		worked(uuid.NewString(), "dev1"),
		`{"id":"` + uuid.NewString() + `","kind":"bath.worked","happened_at":"2026-03-12T18:59:30.123456+01:00","by":"mo","device":"phone","body": {"baths" :["dev1"],"material":"film","size":"120","rolls":2}}`,
	} {
		first := h.post("/entries", body)
		h.clock.pass(time.Minute)
		second := h.post("/entries", body)
		if first.Status != http.StatusCreated || second.Status != http.StatusOK || first.Text != second.Text {
			t.Fatalf("%d %s\nthen %d %s", first.Status, first.Text, second.Status, second.Text)
		}
		var e facts.Entry
		first.into(&e)
		if e.Kind != "bath.worked" || first.Header.Get("Location") != "/api/v1/entries/"+e.ID {
			t.Errorf("kind %s at %s", e.Kind, first.Header.Get("Location"))
		}
		if again := h.get("/entries/" + e.ID); again.Text != first.Text {
			t.Errorf("it is read as %s", again.Text)
		}
	}
	if n := h.position() - before; n != 2 {
		t.Errorf("%d entries were written, want 2", n)
	}
	last, err := h.book.Since(t.Context(), before+1, 1)
	if err != nil || last[0].Body != `{"baths" :["dev1"],"material":"film","size":"120","rolls":2}` || last[0].By != "mo" || last[0].Device != "phone" ||
		!last[0].HappenedAt.Equal(time.Date(2026, 3, 12, 17, 59, 30, 123456000, time.UTC)) {
		t.Errorf("%v %+v", err, last)
	}
}

// The same id with other contents is told apart, with what stands there.
func TestAppendOtherContents(t *testing.T) {
	h := serve(t)
	id := uuid.NewString()
	h.post("/entries", worked(id, "dev1"))
	a := h.post("/entries", worked(id, "dev2"))
	p := a.problem("other_contents")
	if a.Status != http.StatusConflict || p.Stored == nil || p.Stored.ID != id || !strings.Contains(string(p.Stored.Body), "dev1") {
		t.Errorf("%d %s", a.Status, a.Text)
	}
}

// Twenty programs send the same entry at once: one hears that it is new, all hear the same.
func TestAppendOnceAtOnce(t *testing.T) {
	h := serve(t)
	body, before := worked(uuid.NewString(), "dev1"), h.position()
	var mu sync.Mutex
	var all []answer
	var wg sync.WaitGroup
	for range 20 {
		wg.Go(func() {
			a := h.post("/entries", body)
			mu.Lock()
			defer mu.Unlock()
			all = append(all, a)
		})
	}
	wg.Wait()
	fresh := 0
	for _, a := range all {
		if a.Status == http.StatusCreated {
			fresh++
		}
		if a.Text != all[0].Text {
			t.Errorf("%s, and %s", a.Text, all[0].Text)
		}
	}
	if fresh != 1 || h.position() != before+1 {
		t.Errorf("%d times new, %d written", fresh, h.position()-before)
	}
}

// Facts are always taken, decisions on the position alone that they were made on; of two that are made at once one wins, and
// the other hears what came between.
func TestDecisionsRace(t *testing.T) {
	h := serve(t)
	h.say(sessionOpened("s1"))
	at := h.position()
	h.say(&book.Worked{Baths: []string{"d"}, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1}})
	closing := func(id string, expect int64) string {
		return fmt.Sprintf(`{"id":%q,"kind":"session.closed","expect":%d,"body":{"session":"s1"}}`, id, expect)
	}
	a := h.post("/entries", closing(uuid.NewString(), at))
	p := a.problem("stale")
	if a.Status != http.StatusConflict || *p.Expected != at || *p.Position != at+1 || len(p.Between) != 1 || p.Between[0].Kind != "bath.worked" {
		t.Fatalf("%d %s", a.Status, a.Text)
	}
	fact := h.post("/entries", strings.Replace(worked(uuid.NewString(), "d"), `"kind"`, `"expect":1,"kind"`, 1))
	if fact.Status != http.StatusCreated {
		t.Errorf("a fact that says an old position: %d %s", fact.Status, fact.Text)
	}
	at = h.position()
	ids := []string{uuid.NewString(), uuid.NewString()}
	answers := make([]answer, 2)
	var wg sync.WaitGroup
	for i, id := range ids {
		wg.Go(func() { answers[i] = h.post("/entries", closing(id, at)) })
	}
	wg.Wait()
	won := slices.IndexFunc(answers, func(a answer) bool { return a.Status == http.StatusCreated })
	if won < 0 || answers[1-won].Status != http.StatusConflict {
		t.Fatalf("%d and %d", answers[0].Status, answers[1].Status)
	}
	if p := answers[1-won].problem("stale"); len(p.Between) != 1 || p.Between[0].ID != ids[won] {
		t.Errorf("the other hears of %+v", p.Between)
	}
	if again := h.post("/entries", closing(ids[won], at)); again.Status != http.StatusOK || again.Text != answers[won].Text {
		t.Errorf("the winner sent again: %d %s", again.Status, again.Text)
	}
}

// A decision without a position, or on one that the book never had, is told at its place. A fact can be taken back without.
func TestExpect(t *testing.T) {
	h := serve(t)
	h.say(sessionOpened("s1"))
	send := func(more string) answer {
		return h.post("/entries", fmt.Sprintf(`{"id":%q,%s}`, uuid.NewString(), more))
	}
	if got := codes(send(`"kind":"session.closed","body":{"session":"s1"}`).problem("invalid")); got["#/expect"] != "decides" {
		t.Errorf("none: %v", got)
	}
	if got := codes(send(`"kind":"session.closed","expect":9999,"body":{"session":"s1"}`).problem("invalid")); got["#/expect"] != "ahead" {
		t.Errorf("ahead: %v", got)
	}
	id := uuid.NewString()
	h.post("/entries", worked(id, "d"))
	if a := send(`"kind":"correction","takes_back":"` + id + `","body":{"why":"a slip"}`); a.Status != http.StatusCreated {
		t.Errorf("a fact can't be taken back: %s", a.Text)
	}
	a := send(`"kind":"correction","takes_back":"` + id + `"`)
	if p := a.problem("refused"); p.Reason != "already_undone" || p.Because == "" {
		t.Errorf("twice: %s", a.Text)
	}
	closed := send(fmt.Sprintf(`"kind":"closed","expect":%d,"body":{"session":"s1"}`, h.position()))
	var e facts.Entry
	closed.into(&e)
	if got := codes(send(`"kind":"correction","takes_back":"` + e.ID + `"`).problem("invalid")); got["#/expect"] != "decides" {
		t.Errorf("a decision is taken back without a position: %v", got)
	}
	if p := send(`"kind":"correction","takes_back":"nothing"`).problem("refused"); p.Reason != "no_such_entry" {
		t.Errorf("nothing taken back: %+v", p)
	}
}

// Entries come in order, in pages that join without gaps or repeats, of the wanted kinds alone.
func TestEntriesInPages(t *testing.T) {
	h := serve(t)
	for i := range 30 {
		h.say(&book.Worked{Baths: []string{"d"}, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1 + i}})
	}
	head := h.position()
	for _, q := range []struct {
		query string
		want  int
	}{{"limit=7", int(head)}, {"limit=7&kinds=bath.", 30}, {"limit=1000&kinds=bath.worked,lot.", -1}, {"", int(head)}} {
		var after int64
		var got []int64
		for more := true; more; {
			var page facts.Entries
			h.get(fmt.Sprintf("/entries?after=%d&%s", after, q.query)).into(&page)
			for _, e := range page.Entries {
				got = append(got, e.Position)
			}
			if page.Position != head || page.Next < after {
				t.Fatalf("%+v", page)
			}
			after, more = page.Next, page.More
		}
		if !slices.IsSorted(got) || len(slices.Compact(slices.Clone(got))) != len(got) || q.want >= 0 && len(got) != q.want || after != head {
			t.Errorf("%s: %d entries, want %d; up to %d of %d", q.query, len(got), q.want, after, head)
		}
	}
	var short, full facts.Entries // a kind is read by the words by which it is written
	h.get("/entries?kinds=received&limit=1000").into(&short)
	h.get("/entries?kinds=lot.received&limit=1000").into(&full)
	if diff := cmp.Diff(full, short); diff != "" || len(full.Entries) == 0 {
		t.Errorf("%d entries; -lot.received +received:\n%s", len(full.Entries), diff)
	}
	a := h.get(fmt.Sprintf("/entries?after=%d", head+1))
	if p := a.problem("beyond"); a.Status != http.StatusConflict || *p.Position != head {
		t.Errorf("beyond: %s", a.Text)
	}
	for query, want := range map[string]map[string]string{
		"after=-1":        {"after": "no_position"},
		"after=x&limit=0": {"after": "no_position", "limit": "outside"},
		"limit=1001":      {"limit": "outside"},
		"limit=1&limit=2": {"limit": "twice"},
		"kind=bath":       {"kind": "no_parameter"},
		"after=%zz":       {"#": "query"},
		"after=":          {"after": "no_position"},
		"kinds=bath.,":    {"kinds": "no_kind"},
		"kinds=foo":       {"kinds": "no_kind"},
		"kinds=Bath.":     {"kinds": "no_kind"},
		"kinds=a,b,c,d,e,f,g,h,i,j,k,l,m,n,o,p,q": {"kinds": "outside"},
	} {
		if diff := cmp.Diff(want, codes(h.get("/entries?"+query).problem("invalid"))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", query, diff)
		}
	}
	for _, list := range []string{"/entries", "/baths", "/sessions"} { // which says where to look
		a := h.get(list + "/none")
		if p := a.problem("not_found"); a.Status != http.StatusNotFound || !strings.Contains(p.Detail, "‘none’") || !strings.Contains(p.Detail, api.Prefix+list+" ") {
			t.Errorf("nothing of that id: %s", a.Text)
		}
	}
	if a := h.get("/entries/" + strings.Repeat("x", 300)); a.Status != http.StatusNotFound {
		t.Errorf("an id that is none: %d", a.Status)
	}
}

// What has not changed is not sent again; the hour changes what a bath still does.
func TestStateIsTagged(t *testing.T) {
	h := serve(t)
	h.pour("dev1", "paper developer", "1+9", trayOf(h, 0))
	for _, path := range []string{"/state", "/baths", "/baths?material=FB+paper", "/baths/dev1"} {
		a := h.get(path)
		tag := a.Header.Get("ETag")
		if a.Status != http.StatusOK || !strings.HasPrefix(tag, fmt.Sprintf(`W/"%d-`, h.position())) || a.Header.Get("Cache-Control") != "no-store" {
			t.Errorf("%s: %d, tag %s", path, a.Status, tag)
		}
		if again := h.get(path, "If-None-Match", `"other", `+tag); again.Status != http.StatusNotModified {
			t.Errorf("%s with its tag: %d", path, again.Status)
		}
		h.post("/entries", worked(uuid.NewString(), "dev1"))
		fresh := h.get(path, "If-None-Match", tag)
		if fresh.Status != http.StatusOK || fresh.Text == a.Text {
			t.Errorf("%s after a load: %d, the same: %v", path, fresh.Status, fresh.Text == a.Text)
		}
		h.clock.pass(time.Hour)
		if later := h.get(path, "If-None-Match", fresh.Header.Get("ETag")); later.Status != http.StatusOK {
			t.Errorf("%s an hour later: %d", path, later.Status)
		}
	}
	var s facts.State
	h.get("/state").into(&s)
	if s.Position != h.position() || len(s.Baths) != 1 || *s.Baths[0].ID != "dev1" || s.Baths[0].Sentence == "" || len(s.Shelf) == 0 || s.Darkroom.Name == "" {
		t.Errorf("%+v", s)
	}
	if i := slices.IndexFunc(s.Trays, func(x facts.Tray) bool { return x.Bath != nil && *x.Bath == "dev1" }); i != 0 {
		t.Errorf("the bath stands in no tray: %+v", s.Trays)
	}
	if got := codes(h.get("/baths?material=glass").problem("invalid")); got["material"] != "no_word" {
		t.Errorf("glass: %v", got)
	}
	if a := h.get("/baths/none"); a.Status != http.StatusNotFound || a.Header.Get("ETag") != "" {
		t.Errorf("no such bath: %d", a.Status)
	}
	h.say(&book.Disposed{Bath: "dev1", Leaving: book.Leaving{To: "drain"}})
	var b facts.BathLife
	h.get("/baths/dev1").into(&b)
	if b.GoneAt == nil || b.Outlook != nil {
		t.Errorf("a bath that is gone: %+v", b)
	}
}

// Two programs that ask a book of one room see the evening, its prints and the ends of their times as they were stored.
func TestSessionsAndTimers(t *testing.T) {
	h := serve(t)
	h.say(sessionOpened("s1"))
	h.pour("dev1", "paper developer", "1+9", trayOf(h, 0))
	body := `{"id":"` + uuid.NewString() + `","kind":"print.started","happened_at":"2026-03-12T17:10:00Z","body":{"print":"p1","session":"s1",` +
		`"material":"RC paper","size":"8x10 in","sheets":1,"step":"develop","bath":"dev1","for":"90 s","drain":"10 s"}}`
	if a := h.post("/entries", body); a.Status != http.StatusCreated {
		t.Fatal(a.Text)
	}
	h.say(&book.Held{Batch: "n1", Prints: book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: 2}})
	var timers facts.Timers
	h.get("/timers").into(&timers)
	if len(timers.Timers) != 2 || *timers.Session != "s1" || *timers.Next != "p1" {
		t.Fatalf("%+v", timers)
	}
	p := timers.Timers[0]
	if p.ID != "p1" || p.Step != "develop" || *p.DueAt != "2026-03-12T17:11:30Z" || *p.LiftAt != "2026-03-12T17:11:20Z" || *p.Number != 1 || *p.Bath != "dev1" {
		t.Errorf("%+v", p)
	}
	now, err := time.Parse(time.RFC3339Nano, timers.At)
	if want := time.Date(2026, 3, 12, 17, 11, 30, 0, time.UTC).Sub(now).Seconds(); err != nil || *p.Left < want-0.002 || *p.Left > want+0.002 {
		t.Errorf("%v s are left, want %v", *p.Left, want)
	}
	if b := timers.Timers[1]; b.Of != "batch" || b.Step != "hold" || b.Sheets != 2 || b.DueAt != nil {
		t.Errorf("%+v", b)
	}
	var all facts.Sessions
	h.get("/sessions").into(&all)
	if len(all.Sessions) != 1 || *all.Running != "s1" || all.Sessions[0].Prints != 1 || all.Sessions[0].ClosedAt != nil {
		t.Errorf("%+v", all)
	}
	h.say(&book.EveningClosed{Session: "s1"})
	var one facts.Session
	h.get("/sessions/s1").into(&one)
	if one.ClosedAt == nil {
		t.Errorf("%+v", one)
	}
	if a := h.get("/sessions/none"); a.Status != http.StatusNotFound {
		t.Errorf("no such evening: %d", a.Status)
	}
}

// Routes that are not there, and methods that do nothing, are told as problems too.
func TestElsewhere(t *testing.T) {
	h := serve(t)
	for _, path := range []string{"", "/", "/nothing", "/state/", "//state", "/baths/", "/baths/a/b", "/entries/%zz", "/../state"} {
		r := h.request(http.MethodGet, "", "")
		r.URL.Opaque = strings.TrimPrefix(h.URL, "http:") + api.Prefix + path
		resp, err := http.DefaultTransport.RoundTrip(r)
		if err != nil {
			continue // no address at all
		}
		_ = resp.Body.Close()
		if kind := resp.Header.Get("Content-Type"); path != "/entries/%zz" && (resp.StatusCode != http.StatusNotFound || kind != "application/problem+json") {
			t.Errorf("%q: %d %s", path, resp.StatusCode, kind)
		}
	}
	for _, c := range []struct{ method, path, allow string }{
		{http.MethodPut, "/entries", "GET, HEAD, POST"},
		{http.MethodDelete, "/entries/x", "GET, HEAD"},
		{http.MethodOptions, "/state", "GET, HEAD"},
		{http.MethodGet, "/probes/p/temperature", "POST"},
		{"PROPFIND", "/baths/x", "GET, HEAD"},
	} {
		a := h.send(h.request(c.method, api.Prefix+c.path, ""), "")
		a.problem("method")
		if a.Status != http.StatusMethodNotAllowed || a.Header.Get("Allow") != c.allow || a.Header.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s %s: %d, Allow %q", c.method, c.path, a.Status, a.Header.Get("Allow"))
		}
	}
	head := h.send(h.request(http.MethodHead, api.Prefix+"/state", ""), "")
	if head.Status != http.StatusOK || head.Text != "" || head.Header.Get("ETag") == "" {
		t.Errorf("HEAD: %d %q", head.Status, head.Text)
	}
}
