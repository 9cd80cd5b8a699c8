package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"wetside/internal/browsertest"
)

// A stranger counts what somebody who has never seen the pages does and reads, by the keystroke-level model (Card, Moran
// and Newell, CACM 23 (1980): a decision takes 1.35 s). A tap, a character on a phone's glass and the pace of reading are
// from memory.
type stranger struct {
	t                            *testing.T
	page                         *browsertest.Page
	taps, chars, thoughts, words int
}

const (
	tapTime     = 1100 * time.Millisecond
	charTime    = 350 * time.Millisecond
	thoughtTime = 1350 * time.Millisecond
	wordTime    = time.Minute / 200
)

// takes is what the model makes of it.
func (s *stranger) takes() time.Duration {
	return time.Duration(s.taps)*tapTime + time.Duration(s.chars)*charTime + time.Duration(s.thoughts)*thoughtTime +
		time.Duration(s.words)*wordTime
}

// decides taps something after a thought.
func (s *stranger) decides(role, name string) {
	s.t.Helper()
	s.thoughts++
	s.taps++
	s.page.Click(role, name)
}

// types thinks, taps a field, takes away what stands there, a tap for each character, and types.
func (s *stranger) types(label, was, text string) {
	s.t.Helper()
	s.thoughts++
	s.taps += 1 + len(was)
	s.chars += len(text)
	s.page.Fill(label, text)
}

// goesOn reads all that is shown by now, what stands in fields too, and taps a key that needs no thought.
func (s *stranger) goesOn(role, name, to string) {
	s.t.Helper()
	shown, err := browsertest.Eval[string](s.page.Tab, `document.querySelector('main').innerText + ' ' +
		[...document.querySelectorAll('main input:not([type=hidden],[type=checkbox],[type=radio])')].filter(e => e.checkVisibility()).map(e => e.value).join(' ')`)
	if err != nil {
		s.t.Fatal(err)
	}
	s.words += len(strings.Fields(shown))
	s.taps++
	s.page.Audit()
	s.page.Click(role, name)
	s.page.Reach(to)
}

// Somebody who has never seen it, on a phone, from the first page to the mix sheet for their own jug, in less than three
// minutes; with scripts and without.
func TestAStrangerMixesInTheirOwnJug(t *testing.T) {
	for _, noScripts := range []bool{false, true} {
		name := "with scripts"
		if noScripts {
			name = "without scripts"
		}
		t.Run(name, func(t *testing.T) {
			look := browsertest.Phone()
			look.NoScripts = noScripts
			h := empty(t)
			s := &stranger{t: t, page: browsertest.Open(t, &chromium, h.URL, look)}
			p := s.page
			p.Go("/")
			p.Reach("/begin")
			s.thoughts++ // begin, the example, or one thing
			s.goesOn("button", "Begin", "/begin/jugs")
			s.decides("DisclosureTriangle", "Mine is not here")
			s.types("Its last mark", "", "500")
			s.types("A mark every", "", "50")
			s.types("Its lowest mark", "", "100")
			s.decides("checkbox", "a 10 mL syringe")
			s.goesOn("button", "Next", "/begin/trays")
			s.thoughts++ // which trays
			s.goesOn("button", "Three trays, 8×10 in 1 L", "/begin/bottles")
			s.fillNth("Dilution", 1, "1+19", "1+31")
			s.goesOn("button", "Next", "/begin/prints")
			s.types("Sheets", "10", "12")
			s.goesOn("button", "Mix sheet", "/mix")
			p.See("12 sheets of RC paper, 8×10")
			p.See("Paper developer to the 100 mark of the 500 mL jug.")
			p.See("First water to about the 350 mark of the 500 mL jug.")
			if file := h.get("/darkroom.yaml").Text; !strings.Contains(file, "RC paper: 1+31") {
				t.Errorf("the stop bath is not the one that was told:\n%s", file)
			}
			if text := p.Text(); strings.Contains(text, "Missing") {
				t.Errorf("something is missing:\n%s", text)
			}
			p.Audit()
			t.Logf("%d taps, %d characters, %d decisions, %d words: %v", s.taps, s.chars, s.thoughts, s.words, s.takes().Round(time.Second))
			if s.taps > 45 || s.chars > 40 || s.words > 300 || s.takes() >= 3*time.Minute {
				t.Errorf("%d taps (45), %d characters (40), %d words (300), %v (3 min)", s.taps, s.chars, s.words, s.takes())
			}
		})
	}
}

// fillNth types into the n-th field (from 0) of a label.
func (s *stranger) fillNth(label string, n int, was, text string) {
	s.t.Helper()
	s.thoughts++
	s.taps += 1 + len(was)
	s.chars += len(text)
	if err := s.page.ClickNth("textbox", label, n); err != nil {
		s.t.Fatal(err)
	}
	if _, err := browsertest.Eval[bool](s.page.Tab, `(document.activeElement.value = "`+text+`") !== ""`); err != nil {
		s.t.Fatal(err)
	}
}

// guided is a house after the guided way: a 500 mL jug and a syringe, three trays, three bottles, twelve sheets.
func guided(t *testing.T) *house {
	t.Helper()
	h := empty(t)
	for _, step := range []struct {
		path string
		form url.Values
		to   string
	}{
		{"/begin", url.Values{}, "/begin/jugs"},
		{"/begin/jugs", url.Values{"holds": {"500"}, "every": {"50"}, "lowest": {"100"}, "vessel": {"syringe_10"}}, "/begin/trays"},
		{"/begin/trays", url.Values{"size": {"8x10 in"}}, "/begin/bottles"},
		{"/begin/bottles", url.Values{
			"role0": {"developer"}, "name0": {"Paper developer"}, "dilution0": {"1+9"}, "role1": {"stop bath"}, "name1": {"Stop bath"},
			"dilution1": {"1+19"}, "role2": {"fixer"}, "name2": {"Fixer"}, "dilution2": {"1+4"},
		}, "/begin/prints"},
		{"/begin/prints", url.Values{"material": {"RC paper"}, "other": {"8x10"}, "sheets": {"12"}}, "/mix?read=inches"},
	} {
		if a := h.post(step.path, step.form); a.Header.Get("Location") != step.to {
			t.Fatalf("%s: %d to %q, want %q\n%s", step.path, a.StatusCode, a.Header.Get("Location"), step.to, problemsOf(a.Text))
		}
	}
	return h
}

// All baths poured: an end that says so, today says so too, and a second mix into the same tray asks first.
func TestMixingEnds(t *testing.T) {
	h := guided(t)
	if a := h.get("/mix?read=inches"); !strings.Contains(a.Text, "read as inches") {
		t.Error("nothing is said of the size that was read as inches")
	}
	p := browsertest.Open(t, &chromium, h.URL, browsertest.Phone())
	p.Go("/mix/developer/1")
	if n := pour(t, p, "/mix/developer/"); n != 5 { // two jugfuls: concentrate, water, into the tray, water, into the tray
		t.Errorf("%d screens of the developer, want 5", n)
	}
	pour(t, p, "/mix/stop/")
	p.Reach("/mix/fixer/1")
	pour(t, p, "/mix/fixer/")
	p.Reach("/mix/ready")
	p.See("All three baths are ready")
	p.Audit()
	p.Click("link", "Today")
	p.See("All three baths are ready")
	if strings.Contains(p.Text(), "Start mixing") {
		t.Error("today still asks to start mixing")
	}
	at := h.position()
	again := first(t, actions(lastStep(t, h, "developer").Text), "/mix/developer/poured")
	if a := h.post(again, url.Values{"next": {"/mix"}}); a.StatusCode != http.StatusConflict || !strings.Contains(a.Text, "was mixed already") || h.position() != at {
		t.Errorf("mixed again: %d, %d entries; want to be asked first", a.StatusCode, h.position()-at)
	}
	if h.post(again, url.Values{"next": {"/mix"}, "again": {"yes"}}); h.position() == at {
		t.Error("with a yes nothing is written")
	}
}

// The last number on the sheet is how many screens a bath has.
func TestTheSheetCountsAsTheScreensDo(t *testing.T) {
	h := guided(t)
	sheet := h.get("/mix").Text
	for _, bath := range []string{"developer", "stop", "fixer"} {
		_, of, ok := strings.Cut(h.get("/mix/"+bath+"/1").Text, " of ")
		if !ok {
			t.Fatalf("%s: no screen", bath)
		}
		of, _, _ = strings.Cut(of, "<")
		of, _, _ = strings.Cut(of, `"`)
		_, part, _ := strings.Cut(sheet, `id="`+bath+`"`)
		part, _, _ = strings.Cut(part, "</ol>")
		last := part[strings.LastIndex(part, `data-n="`)+len(`data-n="`):]
		last, _, _ = strings.Cut(last, `"`)
		if parts := strings.FieldsFunc(last, func(r rune) bool { return r == ' ' || r == '–' }); len(parts) > 0 { // of 7, 13
			last = parts[len(parts)-1]
		}
		if last != of {
			t.Errorf("%s: the sheet ends at step %s, the screens at %s", bath, last, of)
		}
	}
}
