package process_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"wetside/trade/process"
)

// TestReadAgitation reads labels' usual words (common practice: continuous for the first half minute, then some seconds at
// the start of each minute).
func TestReadAgitation(t *testing.T) {
	sec := time.Second
	for text, want := range map[string]process.Agitation{
		"10 s every minute":                  {First: 10 * sec, Each: 10 * sec, Every: time.Minute},
		"30 s, then 10 s every 60 s":         {First: 30 * sec, Each: 10 * sec, Every: time.Minute},
		"First 30 s, then 5 s each 30 s":     {First: 30 * sec, Each: 5 * sec, Every: 30 * sec},
		"the first minute, 10 s per minute":  {First: time.Minute, Each: 10 * sec, Every: time.Minute},
		"1 min then 10 s every half minute":  {First: time.Minute, Each: 10 * sec, Every: 30 * sec},
		" continuous ":                       {Always: true},
		"30 s, then 10 s every minute":       {First: 30 * sec, Each: 10 * sec, Every: time.Minute},
		"first 30 s, then 10 s every 2 min":  {First: 30 * sec, Each: 10 * sec, Every: 2 * time.Minute},
		"0.5 min, then 10 s every 1 min":     {First: 30 * sec, Each: 10 * sec, Every: time.Minute},
		"the first 45 s, 5 s every 30 s":     {First: 45 * sec, Each: 5 * sec, Every: 30 * sec},
		"15 s each minute":                   {First: 15 * sec, Each: 15 * sec, Every: time.Minute},
		"first 20 s, then 10 s every minute": {First: 20 * sec, Each: 10 * sec, Every: time.Minute},
	} {
		got, ok := process.ReadAgitation(text)
		if d := cmp.Diff(want, got); !ok || d != "" {
			t.Errorf("%q (-want +got):\n%s", text, d)
		}
	}
	for _, text := range []string{"", "gently", "as the label says", "60 s every 10 s", "every minute", "-5 s every minute", "10 s every", "x, then 10 s every minute"} {
		if got, ok := process.ReadAgitation(text); ok || got != (process.Agitation{}) {
			t.Errorf("%q was read as %+v", text, got)
		}
	}
}

// TestMoves counts a step of 2:30 with 30 s at first and 10 s at each minute.
func TestMoves(t *testing.T) {
	a := process.Agitation{First: 30 * time.Second, Each: 10 * time.Second, Every: time.Minute}
	want := []process.Moving{{0, 30 * time.Second}, {time.Minute, 10 * time.Second}, {2 * time.Minute, 10 * time.Second}}
	if d := cmp.Diff(want, a.Moves(150*time.Second)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if got := a.Moves(125 * time.Second); len(got) != 3 || got[2].For != 5*time.Second {
		t.Errorf("the last one is cut off by the end: %+v", got)
	}
	if got := (process.Agitation{Always: true}).Moves(time.Minute); len(got) != 1 || got[0].For != time.Minute {
		t.Errorf("without a pause: %+v", got)
	}
}

func FuzzReadAgitation(f *testing.F) {
	for _, text := range []string{"10 s every minute", "30 s, then 10 s every 60 s", "continuous", "first the", ", every "} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, ok := process.ReadAgitation(text)
		if !ok && a != (process.Agitation{}) {
			t.Fatalf("%q: %+v without ok", text, a)
		}
		end := time.Duration(0)
		for _, m := range a.Moves(20 * time.Minute) {
			if m.At < end || m.For <= 0 || m.At+m.For > 20*time.Minute {
				t.Fatalf("%q: %+v after %v", text, m, end)
			}
			end = m.At + m.For
		}
	})
}
