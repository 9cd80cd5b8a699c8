package web_test

import (
	"encoding/json"
	"fmt"
	"regexp"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/ahead"
	"wetside/book"
	"wetside/internal/browsertest"
	"wetside/plan"
	"wetside/sink"
	"wetside/trade/material"
)

// A history is what some devices tapped, in the order in which the book got it, and when one looks.
type history struct {
	entries []book.Entry
	now     time.Time
}

// A placed is where a print is by one of the two folds. Moments are microseconds since 1970, as far as a number of
// JavaScript is exact; due times milliseconds.
type placed struct {
	Print   string `json:"print"`
	Of      string `json:"of"`
	Number  int    `json:"number"`
	Station int    `json:"station"`
	Way     int    `json:"way"`
	Next    int    `json:"next"`
	Since   int64  `json:"since"`
	Lift    int64  `json:"lift"`
	Due     int64  `json:"due"`
}

type batched struct {
	ID      string `json:"id"`
	Prints  int    `json:"prints"`
	Station int    `json:"station"`
	Next    int    `json:"next"`
	Since   int64  `json:"since"`
	Due     int64  `json:"due"`
}

type folded struct {
	Tags    []placed  `json:"tags"`
	Batches []batched `json:"batches"`
	Next    int       `json:"next"`
}

// tapHistories draws what three devices tap about three prints, by clocks that are up to five minutes wrong, each device's
// own in order, and shuffles the devices.
func tapHistories(from time.Time) *rapid.Generator[history] {
	return rapid.Custom(func(t *rapid.T) history {
		queues := make([][]book.Entry, 3)
		for d := range queues {
			queues[d] = tapsOf(t, from, d)
		}
		h := history{now: from.Add(time.Duration(rapid.IntRange(0, 1500).Draw(t, "now")) * time.Second)}
		if rapid.IntRange(0, 9).Draw(t, "much later") == 0 {
			h.now = h.now.Add(12 * time.Hour)
		}
		for len(queues[0])+len(queues[1])+len(queues[2]) > 0 {
			d := rapid.IntRange(0, 2).Draw(t, "device")
			if len(queues[d]) > 0 {
				h.entries, queues[d] = append(h.entries, queues[d][0]), queues[d][1:]
			}
		}
		return h
	})
}

func tapsOf(t *rapid.T, from time.Time, device int) (all []book.Entry) {
	n := 0
	a := &book.Author{Device: fmt.Sprintf("d%d", device), NewID: func() string { n++; return fmt.Sprintf("d%d-%02d", device, n) }}
	at := rapid.IntRange(-300, 300).Draw(t, "clock")
	for range rapid.IntRange(0, 9).Draw(t, "taps") {
		at += rapid.IntRange(0, 60).Draw(t, "wait")
		a.Now = from.Add(time.Duration(at)*time.Second + time.Duration(rapid.IntRange(0, 2).Draw(t, "µs"))*time.Microsecond)
		var e book.Entry
		var err error
		if len(all) > 0 && rapid.IntRange(0, 5).Draw(t, "undo") == 0 {
			e, err = a.TakeBack(all[rapid.IntRange(0, len(all)-1).Draw(t, "which")].ID, "")
		} else {
			e, err = a.Write(anyBody(t))
		}
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, e)
	}
	return all
}

func anyBody(t *rapid.T) book.Body {
	one := func(name string, of ...string) string { return rapid.SampledFrom(of).Draw(t, name) }
	id, long := one("print", "p", "q", "r"), one("time", "", "45 s", "1 min 30 s", "2 min")
	switch rapid.SampledFrom([]int{0, 0, 0, 3, 4, 4, 4, 4, 5, 6, 7, 7, 7, 7}).Draw(t, "tap") {
	case 0:
		p := book.Prints{Material: one("material", "RC paper", "FB paper"), Size: one("size", "8x10 in", "11x14 in", "5x7 in"), Sheets: 1}
		if rapid.IntRange(0, 3).Draw(t, "film") == 0 {
			p = book.Prints{Material: "film", Size: "135-36", Rolls: 2}
		}
		return &book.PrintStarted{
			Print: id, Of: one("of", "", "ada"), Session: one("session", "s1", "s2"), Prints: p,
			At: book.At{Step: "develop", Bath: one("bath", "", "dev"), For: long, Drain: "10 s"},
		}
	case 3:
		return &book.PrintLeft{Print: id, Abandoned: rapid.Bool().Draw(t, "abandoned")}
	case 4:
		return &book.PrintMoved{Print: id, At: book.At{
			Step: one("batched", "hold", "washing_aid", "wash"), Batch: one("batch", "b1", "b2"), For: long, Drain: "10 s",
		}}
	case 5:
		return &book.Washed{Batch: one("batch", "b1", "b2"), Step: book.WashStep(one("wash", "started", "more in", "done"))}
	case 6:
		if rapid.IntRange(0, 3).Draw(t, "close") == 0 {
			return &book.EveningClosed{Session: one("session", "s1", "s2")}
		}
		return &book.EveningOpened{Session: one("session", "s1", "s2")}
	default:
		return &book.PrintMoved{Print: id, At: book.At{Step: one("step", "stop", "fix", "second_fix", "tone"), Bath: one("bath", "", "fix1"), For: long, Drain: "10 s"}}
	}
}

// byServer folds a history on a state and looks at it.
func byServer(t *testing.T, s *book.State, p plan.Plan, h history) folded {
	t.Helper()
	s = s.Clone()
	for i, e := range h.entries {
		e.Darkroom, e.Position = s.Darkroom(), s.Position()+1
		h.entries[i].Position = e.Position
		if err := s.Apply(e); err != nil {
			t.Fatal(err)
		}
	}
	got := sink.Look(sink.Scene{State: s, Plan: p, Baths: ahead.FromBook(s, material.None, h.now), Now: h.now})
	out := folded{Tags: []placed{}, Batches: []batched{}, Next: got.Next}
	for _, x := range got.Tags {
		one := placed{Print: x.Print.ID, Of: x.Print.Of, Number: x.Number, Station: x.Station, Way: x.Way, Next: x.Next, Since: x.Print.Now().Since.UnixMicro()}
		if x.Timed() {
			one.Lift, one.Due = x.Lift.UnixMilli(), x.Due.UnixMilli()
		}
		out.Tags = append(out.Tags, one)
	}
	for _, b := range got.Batches {
		one := batched{ID: b.ID, Station: b.Station, Next: b.Next, Since: b.Since.UnixMilli()}
		for _, p := range b.Prints {
			one.Prints += p.Said.Sheets + p.Said.Strips + p.Said.Rolls
		}
		if !b.Due.IsZero() {
			one.Due = b.Due.UnixMilli()
		}
		out.Batches = append(out.Batches, one)
	}
	return out
}

// sentEntry is an entry as the stream gives it.
func sentEntry(e book.Entry) map[string]any {
	return map[string]any{
		"id": e.ID, "position": e.Position, "kind": e.Kind, "at": e.HappenedAt.UTC().Format("2006-01-02T15:04:05.000000Z"), "by": e.By,
		"device": e.Device, "body": json.RawMessage(e.Body), "takes_back": e.TakesBack,
	}
}

const foldInPage = `(() => { const setup = window.setup; return window.histories.map((h) => {
	const b = new window.entries.Book();
	b.take(h.entries);
	const s = window.entries.look(b.fold(setup.steps), setup, h.now);
	const tags = s.tags.map((t) => ({print: t.print.id, of: t.print.of, number: t.number, station: t.station, way: t.way, next: t.next,
		since: t.stay.since, lift: Math.floor(t.lift), due: Math.floor(t.due)}));
	const batches = s.batches.map((b) => ({id: b.id, prints: b.prints, station: b.station, next: b.next, since: Math.floor(b.since), due: Math.floor(b.due)}));
	return {tags, batches, next: s.next};
}) })()`

// TestFoldInThePage holds the page's fold against the server's on 300 random histories of three devices.
func TestFoldInThePage(t *testing.T) {
	t.Parallel()
	h := atSink(t)
	state, err := h.book.State(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	people, err := h.book.People(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	f, _ := state.File(people)
	from := evening().Add(2 * time.Hour)
	p, err := plan.Make(t.Context(), plan.Request{File: f, Now: from})
	if err != nil {
		t.Fatal(err)
	}
	var want []folded
	var sent []map[string]any
	under := 0
	for i := range 301 {
		one := together(t, from) // what chance draws seldom
		if i > 0 {
			one = tapHistories(from).Example(i)
		}
		want = append(want, byServer(t, state, p, one))
		under += len(want[i].Tags)
		entries := []map[string]any{}
		for _, e := range one.entries {
			entries = append(entries, sentEntry(e))
		}
		sent = append(sent, map[string]any{"entries": entries, "now": one.now.UnixMilli()})
	}
	if under < 100 {
		t.Fatalf("only %d prints under way in all histories", under)
	}
	got := foldThere(t, h, sent)
	for i := range want {
		if d := cmp.Diff(want[i], got[i]); d != "" {
			t.Fatalf("history %d (-server +page):\n%s", i, d)
		}
	}
	t.Logf("%d prints under way in %d histories", under, len(want))
}

// together is two prints of one batch that go into the washing aid one after the other, and back to front.
func together(t *testing.T, from time.Time) (h history) {
	t.Helper()
	n := 0
	a := &book.Author{Device: "d0", NewID: func() string { n++; return fmt.Sprintf("t%02d", n) }}
	for _, x := range []struct {
		after int // s
		body  book.Body
	}{
		{10, &book.PrintStarted{Print: "p", Session: "s1", Prints: book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: 1}, At: book.At{Step: "develop"}}},
		{20, &book.PrintStarted{Print: "q", Session: "s1", Prints: book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: 2}, At: book.At{Step: "develop"}}},
		{30, &book.PrintMoved{Print: "p", At: book.At{Step: "hold", Batch: "b1"}}},
		{40, &book.PrintMoved{Print: "q", At: book.At{Step: "hold", Batch: "b1"}}},
		{90, &book.PrintMoved{Print: "q", At: book.At{Step: "washing_aid", Batch: "b1", For: "10 min", Drain: "10 s"}}},
		{50, &book.PrintMoved{Print: "p", At: book.At{Step: "washing_aid", Batch: "b1", For: "8 min", Drain: "10 s"}}},
	} {
		a.Now = from.Add(time.Duration(x.after) * time.Second)
		e, err := a.Write(x.body)
		if err != nil {
			t.Fatal(err)
		}
		h.entries = append(h.entries, e)
	}
	h.now = from.Add(2 * time.Minute)
	return h
}

// foldThere lets the page's own module fold histories.
func foldThere(t *testing.T, h *house, sent []map[string]any) []folded {
	t.Helper()
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	p.Go("/sink")
	text, err := json.Marshal(sent)
	if err != nil {
		t.Fatal(err)
	}
	script := h.get(regexp.MustCompile(`/assets/sink-[0-9a-f]+\.js`).FindString(h.get("/sink").Text)).Text
	module := regexp.MustCompile(`entries-[0-9a-f]+\.js`).FindString(script)
	run(t, p, fmt.Sprintf(`import("/assets/%s").then((m) => { window.entries = m });
		fetch("/sink/setup.json").then((a) => a.json()).then((s) => { window.setup = s }); window.histories = %s`, module, text))
	p.Until("the module is there", func() bool {
		ok, err := browsertest.Eval[bool](p.Tab, "!!(window.entries && window.setup)")
		return ok && err == nil
	})
	got, err := browsertest.Eval[[]folded](p.Tab, foldInPage)
	if err != nil {
		t.Fatal(err)
	}
	return got
}
