package web_test

import (
	"strings"
	"testing"
	"time"

	"wetside/internal/browsertest"
)

// listening opens the sink and writes down what is rung and said.
func listening(t *testing.T, l *line) sinkTab {
	t.Helper()
	s := openSink(t, l.mapped(), browsertest.Phone())
	ask[bool](s, `((window.said = []), (page.bell.say = (text) => window.said.push(text)), true)`)
	return s
}

// later lets the page take it for so much later.
func (s sinkTab) later(d time.Duration) {
	s.t.Helper()
	ask[bool](s, "((page.clock.offset += "+number(int(d.Milliseconds()))+"), true)")
	time.Sleep(600 * time.Millisecond)
}

func (s sinkTab) rung() string {
	s.t.Helper()
	return ask[string](s, "page.bell.rung.map((r) => r[0]).join(' ')")
}

// A film is played by ear: agitation begins and rests, pouring out is told before the time is over, and then what comes next.
// The film developer's label says 10 s every minute.
func TestFilmByEar(t *testing.T) {
	l := running(t)
	s := listening(t, l)
	s.press("start", "film-135-36 whole")
	s.holds("page.box.taps.length === 0")
	s.holds("page.position > page.setup.position") // nothing more comes that tells the time
	time.Sleep(300 * time.Millisecond)
	for _, step := range []struct {
		later time.Duration
		want  string
	}{{0, "agitate"}, {-5 * time.Second, "agitate"}, {16 * time.Second, "agitate rest"}, {49 * time.Second, "agitate rest agitate"}, {10 * time.Second, "agitate rest agitate rest"}} {
		s.later(step.later)
		if got := s.rung(); got != step.want {
			t.Fatalf("%v later: %q, want %q", step.later, got, step.want)
		}
	}
	const left = "Math.round(page.state().tags[0].lift - page.clock.now())"
	s.later(time.Duration(ask[int](s, left))*time.Millisecond + 200*time.Millisecond)
	if got := s.rung(); !strings.HasSuffix(got, "pour") {
		t.Errorf("when it is to be poured out: %q", got)
	}
	s.See("pour out")
	s.later(10 * time.Second)
	if got := ask[string](s, "window.said.join('; ')"); got != "Film 1 pour in the stop bath" {
		t.Errorf("said %q", got)
	}
}

// What was over while the page slept is rung late, with how long ago; a page that may not sound yet says so until it is touched.
func TestRungLate(t *testing.T) {
	l := running(t)
	s := listening(t, l)
	s.press("start", "RC-paper-8x10-in whole")
	s.holds("page.box.taps.length === 0")
	s.holds("page.position > page.setup.position") // nothing more comes that tells the time
	time.Sleep(300 * time.Millisecond)
	s.See("No sound yet: touch the page once.")
	s.later(time.Duration(ask[int](s, "Math.round(page.state().tags[0].due - page.clock.now())"))*time.Millisecond + 130*time.Second)
	if got := ask[string](s, "window.said.join('; ')"); !strings.HasPrefix(got, "Print 1 into the stop bath: ended 2:1") {
		t.Errorf("said %q", got)
	}
	if got := s.rung(); got != "due" {
		t.Errorf("rung %q", got)
	}
	s.Click("DisclosureTriangle", "More")
	s.holds("page.bell.context?.state === 'running'")
	s.Until("it says no more that it has no sound", func() bool { return !strings.Contains(s.Text(), "No sound yet") })
	ask[bool](s, "(page.bell.set(0), true)")
	s.See("Sound is off: the page pulses.")
	if !ask[bool](s, "document.body.classList.contains('pulse')") {
		t.Error("it does not pulse")
	}
	if slow := ask[string](s, "getComputedStyle(document.querySelector('.next')).animationDuration"); slow != "2.6s" {
		t.Errorf("it pulses in %s", slow)
	}
}
