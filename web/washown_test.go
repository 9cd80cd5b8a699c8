package web_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"wetside/book"
)

// asWashed is the wash that these tests ask about.
const asWashed = "/wash?material=FB+paper&standard=exhibition&prints=4+8x10&water=20+C&tray=4+L&flow=2+L"

// TestWashByATest: a residual test that is typed sets the room's washing, in the sentence, the times and the plot; what it can't
// be is told at its field, with the text kept. By hand: the water of 4 prints hardly counts, so that 0.1 g/m² after an hour, and
// not what the table leaves, is what a clear stain stands for at the most.
func TestWashByATest(t *testing.T) {
	h := withExample(t)
	plain := h.get(asWashed).Text
	own := h.get(asWashed + "&found=clear&after=60+min").Text
	if !strings.Contains(plain, "No wash was tested") || strings.Contains(plain, "your test") {
		t.Error("without a test: the page does not say so")
	}
	for _, want := range []string{"times slower", "a clear, tan stain", "by the table alone it was", "your test", "found by the test, at most"} {
		if !strings.Contains(own, want) {
			t.Errorf("%q is not on the page", want)
		}
	}
	if strings.Contains(own, "No wash was tested") {
		t.Error("a room that has tested is called untested")
	}
	for _, c := range []struct{ query, field, value, says string }{
		{"&found=purple&after=30+min", "found", "purple", "none, faint, clear or dark"},
		{"&found=-3&after=30+min", "found", "-3", "less than nothing"},
		{"&found=faint&after=0+min", "after", "0 min", "must be given"},
		{"&found=faint", "after", "", "must be given"},
		{"&after=30+min", "found", "", "must be given"},
		{"&found=faint&after=30+min&washed_in=running&flow=0", "", "", "that way needs running water"},
	} {
		q := asWashed + c.query
		if strings.Contains(c.query, "flow=0") {
			q = strings.Replace(q, "&flow=2+L", "", 1)
		}
		a := h.get(q)
		if a.StatusCode != http.StatusUnprocessableEntity || !strings.Contains(a.Text, c.says) {
			t.Errorf("%s: %d, want %q", c.query, a.StatusCode, c.says)
		}
		if c.field == "" {
			continue
		}
		if in := inputOf(t, a.Text, c.field); !strings.Contains(in, `aria-invalid="true"`) || !strings.Contains(in, `value="`+c.value+`"`) {
			t.Errorf("%s: %s", c.query, in)
		}
	}
}

// TestWashByTheBook: the last test of a washed batch of that material is where the page starts, says so, and can be left out;
// one that is typed goes before it, and it tells nothing of another material.
func TestWashByTheBook(t *testing.T) {
	h := withExample(t)
	at := time.Date(2026, time.March, 12, 12, 0, 0, 0, time.UTC)
	put := book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: 4}
	for _, x := range []struct {
		minute int
		body   book.Body
	}{
		{0, &book.Washed{Batch: "n1", Step: book.WashStarted, Way: "running", Put: &put}},
		{55, &book.Washed{Batch: "n1", Step: book.WashDone}},
		{60, &book.Tested{Batch: "n1", Test: book.HypoDrop, Result: "0.03 to 0.1 g/m2"}},
	} {
		author := book.Author{Device: "test", Now: at.Add(time.Duration(x.minute) * time.Minute), NewID: h.book.NewID}
		e, err := author.Write(x.body)
		if err != nil {
			t.Fatal(err)
		}
		if err := h.book.Append(t.Context(), []book.Entry{e}, nil); err != nil {
			t.Fatal(err)
		}
	}
	const said = "By the test of Thursday 12\u00a0March 2026"
	for _, c := range []struct {
		query    string
		by, tick bool
	}{
		{"", true, false},
		{"&leave_out=yes", false, true},
		{"&found=faint&after=52+min", false, false},
	} {
		page := h.get(asWashed + c.query).Text
		if got := strings.Contains(plain(page), plain(said)); got != c.by {
			t.Errorf("%q: by the book %v, want %v", c.query, got, c.by)
		}
		if !strings.Contains(page, `name="leave_out"`) || strings.Contains(page, `name="leave_out" value="yes" checked`) != c.tick {
			t.Errorf("%q: the box to leave it out: want it ticked %v", c.query, c.tick)
		}
	}
	if rc := h.get("/wash?material=RC+paper&prints=4+8x10&water=20+C&tray=4+L&flow=2+L").Text; strings.Contains(rc, "leave_out") {
		t.Error("RC paper is washed by a test of FB paper")
	}
}
