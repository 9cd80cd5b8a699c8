package web_test

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/internal/webbook"
)

// A lossyRoom is a server with phones that reach it over a bad network.
type lossyRoom struct {
	t      *rapid.T
	path   string
	now    time.Time
	book   webbook.Book
	pages  http.Handler
	phones []*phone
	late   []flight // sendings that are still on their way
	kills  int
}

// A phone keeps its taps until it hears that they were taken.
type phone struct {
	id     string
	wrong  time.Duration // what its clock is off; taps are stamped with the server's time all the same when it knows it
	outbox []tapKept
	made   []tapKept // all that it ever made, in order
	undone map[string]bool
}

type tapKept struct {
	ID        string          `json:"id"`
	Kind      book.Kind       `json:"kind"`
	At        string          `json:"at"`
	Body      json.RawMessage `json:"body,omitempty"`
	TakesBack string          `json:"takes_back,omitempty"`
}

type flight struct {
	device string
	taps   []tapKept
}

func (r *lossyRoom) open() {
	r.t.Helper()
	b, pages, err := webbook.Open(r.t.Context(), r.path, func() time.Time { return r.now }, slog.New(slog.DiscardHandler))
	if err != nil {
		r.t.Fatal(err)
	}
	r.book, r.pages = b, pages
}

// kill ends the server and starts it again on the same file.
func (r *lossyRoom) kill() {
	if err := r.book.Store.Close(); err != nil {
		r.t.Fatal(err)
	}
	r.kills++
	r.open()
}

// deliver brings a sending to the server; what was taken or refused comes back.
func (r *lossyRoom) deliver(f flight) tapped {
	r.t.Helper()
	body, err := json.Marshal(map[string]any{"device": f.device, "taps": f.taps})
	if err != nil {
		r.t.Fatal(err)
	}
	req := atHome(httptest.NewRequestWithContext(r.t.Context(), http.MethodPost, "/taps", strings.NewReader(string(body))))
	req.Header.Set("Content-Type", "application/json")
	req.Header.Set("Sec-Fetch-Site", "same-origin")
	w := httptest.NewRecorder()
	r.pages.ServeHTTP(w, req)
	var t tapped
	if err := json.Unmarshal(w.Body.Bytes(), &t); err != nil || w.Code != http.StatusOK {
		r.t.Fatalf("%d %s: %v", w.Code, w.Body.String(), err)
	}
	return t
}

// heard takes out of the outbox what the server has.
func (p *phone) heard(t *rapid.T, a tapped) {
	for _, bad := range a.Refused {
		t.Fatalf("%s of %s was refused: %s", bad.ID, p.id, bad.Key)
	}
	has := map[string]bool{}
	for _, x := range a.Taken {
		has[x.ID] = true
	}
	var rest []tapKept
	for _, x := range p.outbox {
		if !has[x.ID] {
			rest = append(rest, x)
		}
	}
	p.outbox = rest
}

// tap makes one tap, by the phone's clock.
func (r *lossyRoom) tap(p *phone) {
	x := tapKept{ID: fmt.Sprintf("%s-%d", p.id, len(p.made)), At: r.now.Add(p.wrong).UTC().Format("2006-01-02T15:04:05.000000Z")}
	if n := len(p.made); n > 0 && rapid.IntRange(0, 6).Draw(r.t, "undo") == 0 {
		target := p.made[rapid.IntRange(0, n-1).Draw(r.t, "which")]
		if p.undone[target.ID] {
			return
		}
		p.undone[target.ID] = true
		x.Kind, x.TakesBack = book.Correction, target.ID
	} else {
		id := rapid.SampledFrom([]string{"p", "q", "r"}).Draw(r.t, "print")
		said := func(kind book.Kind, format string, args ...any) {
			x.Kind, x.Body = kind, json.RawMessage(fmt.Sprintf(format, args...))
		}
		switch rapid.IntRange(0, 6).Draw(r.t, "tap") {
		case 0, 1:
			said(book.PrintBegan, `{"print":%q,"session":"s1","material":"RC paper","size":"8x10 in","sheets":1,"step":"develop","bath":"dev","for":"60 s"}`, id)
		case 2:
			said(book.PrintOut, `{"print":%q}`, id)
		case 3:
			said(book.PrintPut, `{"print":%q,"step":"wash","batch":"b1"}`, id)
		case 4:
			said(book.BathWorked, `{"baths":["dev","fix"],"material":"RC paper","size":"8x10 in","sheets":1}`)
		default:
			said(book.PrintPut, `{"print":%q,"step":%q,"bath":"fix","for":"30 s"}`, id, rapid.SampledFrom([]string{"stop", "fix"}).Draw(r.t, "step"))
		}
	}
	p.made, p.outbox = append(p.made, x), append(p.outbox, x)
}

// send tries to send the head of an outbox. The network loses it, brings it and loses the answer, brings it twice, brings it
// later, or does what it should.
func (r *lossyRoom) send(p *phone) {
	if len(p.outbox) == 0 {
		return
	}
	f := flight{p.id, append([]tapKept(nil), p.outbox[:rapid.IntRange(1, len(p.outbox)).Draw(r.t, "how many")]...)}
	switch rapid.IntRange(0, 5).Draw(r.t, "network") {
	case 0: // lost
	case 1:
		r.deliver(f) // the answer is lost
	case 2:
		r.deliver(f)
		p.heard(r.t, r.deliver(f))
	case 3:
		r.late = append(r.late, f)
	default:
		p.heard(r.t, r.deliver(f))
	}
}

// settle ends the bad network: what is under way comes in, in any order, and every outbox is emptied.
func (r *lossyRoom) settle() {
	for len(r.late) > 0 {
		i := rapid.IntRange(0, len(r.late)-1).Draw(r.t, "arrives")
		r.deliver(r.late[i])
		r.late = append(r.late[:i:i], r.late[i+1:]...)
	}
	for _, p := range r.phones {
		if len(p.outbox) > 0 {
			p.heard(r.t, r.deliver(flight{p.id, p.outbox}))
		}
		if len(p.outbox) > 0 {
			r.t.Fatalf("%d taps of %s were neither taken nor refused", len(p.outbox), p.id)
		}
	}
}

// A sinkSeen is what three phones must agree on.
type sinkSeen struct {
	Prints   []string
	Loads    []string
	Batches  []string
	Evenings int
}

func seen(s *book.State) sinkSeen {
	var out sinkSeen
	for _, p := range s.Prints() {
		out.Prints = append(out.Prints, fmt.Sprintf("%s in %v since %v, due after %v, %d odd", p.ID, p.Now().Step, p.Now().Since, p.Now().For, len(p.Odd)))
	}
	for _, e := range s.Events() {
		out.Loads = append(out.Loads, fmt.Sprintf("%v %T through %v", e.At, e.Did, e.Did.Baths()))
	}
	for _, b := range s.Batches() {
		out.Batches = append(out.Batches, fmt.Sprintf("%s %d %+v", b.ID, len(b.Prints), b.Wash))
	}
	out.Evenings = len(s.Evenings())
	return out
}

// histories is how many are tried: 1,000 in the long form of a desk or CI, 10,000 by make torture.
func histories() int {
	switch {
	case os.Getenv("WETSIDE_TORTURE") != "":
		return 10_000
	case testing.Short():
		return 50
	default:
		return 1_000
	}
}

// TestThreePhones plays three phones that drop, double, delay and reorder what they send, with servers that are ended in
// between: every tap stands in the book once, none is refused, and the state is the one that a perfect network would have
// given, whose entries go in one after the other, phone by phone.
func TestThreePhones(t *testing.T) {
	t.Parallel()
	taps, kills, doubled := 0, 0, 0
	dir := t.TempDir()
	n := 0
	check := func(rt *rapid.T) {
		n++
		r := &lossyRoom{t: rt, path: filepath.Join(dir, fmt.Sprintf("book%d.db", n)), now: evening()}
		r.open()
		defer func() {
			_ = r.book.Store.Close()
			_ = os.Remove(r.path)
		}()
		for i := range 3 {
			r.phones = append(r.phones, &phone{
				id: fmt.Sprintf("phone%d", i), undone: map[string]bool{},
				wrong: time.Duration(rapid.IntRange(-300, 300).Draw(rt, "clock")) * time.Second,
			})
		}
		for range rapid.IntRange(15, 40).Draw(rt, "acts") {
			r.now = r.now.Add(time.Duration(rapid.IntRange(0, 20).Draw(rt, "wait")) * time.Second)
			p := r.phones[rapid.IntRange(0, 2).Draw(rt, "phone")]
			switch rapid.IntRange(0, 9).Draw(rt, "act") {
			case 0:
				if r.kills < 2 && n%10 == 0 {
					r.kill()
				}
			case 1, 2, 3, 4:
				r.send(p)
			case 5:
				if len(r.late) > 0 {
					r.deliver(r.late[0])
					r.late = r.late[1:]
					doubled++
				}
			default:
				r.tap(p)
			}
		}
		r.settle()
		kills += r.kills
		taps += r.check()
	}
	for runs := histories(); n < runs && !t.Failed(); { // rapid tries a hundred at a time
		rapid.Check(t, check)
	}
	t.Logf("%d histories, %d taps, %d servers ended, %d late sendings", n, taps, kills, doubled)
	if n < 50 || taps < n || doubled == 0 {
		t.Errorf("%d histories with %d taps and %d late sendings prove nothing", n, taps, doubled)
	}
}

// check holds the book against what the phones made.
func (r *lossyRoom) check() int {
	all, err := r.book.Store.Since(r.t.Context(), r.book.Room, 0, 0)
	if err != nil {
		r.t.Fatal(err)
	}
	times := map[string]int{}
	for _, e := range all {
		times[e.ID]++
	}
	head, made := book.Head{Darkroom: r.book.Room}, 0
	var clean []book.Entry
	for _, p := range r.phones {
		for _, x := range p.made {
			made++
			if times[x.ID] != 1 {
				r.t.Fatalf("%s stands in the book %d times", x.ID, times[x.ID])
			}
			at, err := time.Parse("2006-01-02T15:04:05.000000Z", x.At)
			if err != nil {
				r.t.Fatal(err)
			}
			e := book.Entry{ID: x.ID, Kind: x.Kind, Version: 1, HappenedAt: at, RecordedAt: r.now, Device: p.id, TakesBack: x.TakesBack, Body: string(x.Body)}
			if e.Body == "" {
				e.Body = "{}"
			}
			e, head = head.Place(e)
			clean = append(clean, e)
		}
	}
	if len(all) != made {
		r.t.Fatalf("%d entries of %d taps", len(all), made)
	}
	want, err := book.Fold(r.book.Room, clean)
	if err != nil {
		r.t.Fatal(err)
	}
	got, err := r.book.State(r.t.Context())
	if err != nil {
		r.t.Fatal(err)
	}
	if d := cmp.Diff(seen(want), seen(got)); d != "" {
		r.t.Fatalf("over a bad network the state is another (-want +got):\n%s", d)
	}
	return made
}
