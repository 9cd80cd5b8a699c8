package ahead_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/material"
	"wetside/trade/process"
)

// stripped is a litre of fixer through which so many RC sheets went by the count, with strips read after them.
func stripped(t *testing.T, counted float64, read ...float64) ahead.Outlook {
	t.Helper()
	b := newBench(t, 1000)
	way := b.usual("1+4", 1, process.OneBath)
	b.ask(material.RC, process.WorkPrint, process.OneBath, way...)
	b.work(material.RC, counted, way...)
	for _, from := range read {
		steps := append([]float64{0}, strip...)
		steps = append(steps, math.Inf(1))
		test(b, way[2], book.TestResult{Test: book.SilverStrip, From: from, To: steps[slices.Index(steps, from)+1]})
	}
	return b.of(way[2])
}

// Ten sheets give a litre of fixer some 0.35 g/L of silver, seventy some 2.4 (1 g/m² on 0.0516 m², seven tenths of it
// undeveloped, less what is carried out). A strip at 2 after ten does not fit, and is asked for again; the same again says
// that somebody did not count. One that fits says nothing, and takes the finding back.
func TestStripThatDoesNotFit(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		counted float64
		read    []float64
		says    string // beside the sentence; nothing where it fits
	}{
		{"it fits", 10, []float64{0.5}, ""},
		{"sixty were not counted", 10, []float64{2}, "does not fit what was counted: it shows more silver. Test again"},
		{"the same again", 10, []float64{2, 2}, "Again the strip shows more silver than was counted. Somebody forgot to count"},
		{"little off, and the same again", 13, []float64{1.5, 1.5}, "Again the strip shows more silver"},
		{"the next one fits", 10, []float64{2, 0.5}, ""},
		{"first low, then high", 25, []float64{0, 3}, "does not fit what was counted: it shows more silver"},
		{"nothing where forty went through", 40, []float64{0}, "it shows less silver"},
		{"nothing again", 40, []float64{0, 0}, "Again the strip shows less silver"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			o := stripped(t, c.counted, c.read...)
			if said := has(o, ahead.StripHigh) || has(o, ahead.StripLow); said != (c.says != "") {
				t.Fatalf("said to fit: %t; %+v", !said, o.More)
			}
			if c.says == "" {
				return
			}
			holds(t, beside(t, o), c.says)
			again := strings.HasPrefix(c.says, "Again")
			if now := o.TestAfter == 0; o.Lead.Kind == ahead.UseFor && now == again {
				t.Errorf("the next test after %d", o.TestAfter)
			}
		})
	}
}

// A strip after every five sheets, each on the step that the count makes likeliest (0.034 g/L a sheet), teaches the rooms and
// nothing else; one that is far over comes out against all of them.
func TestManyStripsThatFit(t *testing.T) {
	t.Parallel()
	b := newBench(t, 500)
	way := b.usual("1+4", 1, process.OneBath)
	b.ask(material.RC, process.WorkPrint, process.OneBath, way...)
	read := func(from, to float64) ahead.Outlook {
		test(b, way[2], book.TestResult{Test: book.SilverStrip, From: from, To: to})
		return b.of(way[2])
	}
	for i, from := range []float64{0, 0, 0.5, 0.5, 1, 1, 1} {
		b.work(material.RC, 5, way...)
		to := from + 0.5
		if o := read(from, to); has(o, ahead.StripHigh) || has(o, ahead.StripLow) {
			t.Fatalf("%g to %g after %d sheets does not fit: %+v", from, to, 5*(i+1), o.More)
		}
	}
	if o := read(3, math.Inf(1)); !has(o, ahead.StripHigh) {
		t.Errorf("3 and more after 35 sheets fits: %+v", o.More)
	}
}
