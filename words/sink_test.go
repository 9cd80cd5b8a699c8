package words_test

import (
	"regexp"
	"strings"
	"testing"
	"time"

	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/words"
)

// What is left is rounded up, as a kitchen clock does: at 0:00 it is over. What is over has a plus.
func TestCountdown(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "0:00", time.Millisecond: "0:01", 62 * time.Second: "1:02", 59*time.Minute + 59*time.Second + 1: "1:00:00",
		-900 * time.Millisecond: "0:00", -65 * time.Second: "+1:05", 2*time.Hour + 3*time.Second: "2:00:03",
	} {
		if got := words.Countdown(d); got != want {
			t.Errorf("%v: %q, want %q", d, got, want)
		}
	}
}

// Every step has its place and its way in, for paper and for a tank, in six words at most: they are spoken.
func TestSinkMoves(t *testing.T) {
	v := voice(t, quantity.Metric)
	for _, step := range append(process.Steps(), process.NoStep) {
		for _, film := range []bool{false, true} {
			said := v.SinkMove("Lu", step, 2, film).Text()
			if strings.Contains(said, "[") || len(strings.Fields(said)) > 7 {
				t.Errorf("%v: %q", step, said)
			}
		}
		if place := v.SinkPlace(step, 0); strings.Contains(place, "[") {
			t.Errorf("%v: %q", step, place)
		}
	}
	if got := v.SinkMove("Lu", process.SecondFix, 2, false).Text(); got != "Lu into fixer 2" {
		t.Errorf("%q", got)
	}
}

// A line of the page keeps its places for the page to fill, and none is missing.
func TestSinkLines(t *testing.T) {
	lines := voice(t, quantity.Metric).SinkLines()
	if lines["move"] != "{who} {into}" || lines["waiting.one"] != "{n} tap waits for the network." {
		t.Errorf("%q, %q", lines["move"], lines["waiting.one"])
	}
	for key, line := range lines {
		if line == "" || regexp.MustCompile(`\[|<no value>`).MatchString(line) {
			t.Errorf("%s: %q", key, line)
		}
	}
}
