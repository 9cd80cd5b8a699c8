package book_test

import (
	"fmt"
	"testing"

	"wetside/book"
)

// TestUnderAStandingClock has a bottle come, be counted and be drawn from in one instant, as under a clock that stands
// still or ticks slowly: first it is there, then what one device says goes in its order.
func TestUnderAStandingClock(t *testing.T) {
	count := func(left string) book.Body { return &book.LotCounted{Lot: "l", Left: left} }
	draw := func(amount string) book.Body { return &book.LotDrawn{Draw: book.Draw{Lot: "l", Amount: amount}} }
	for name, c := range map[string]struct {
		by   string // the device; the bottle comes by device m
		day  []book.Body
		want string
	}{
		"counted":                   {"m", []book.Body{count("700 mL")}, "700 mL"},
		"drawn":                     {"m", []book.Body{draw("100 mL")}, "500 mL"},
		"counted, drawn":            {"m", []book.Body{count("700 mL"), draw("100 mL")}, "600 mL"},
		"drawn, counted":            {"m", []book.Body{draw("100 mL"), count("700 mL")}, "700 mL"},
		"counted twice":             {"m", []book.Body{count("700 mL"), count("650 mL")}, "650 mL"},
		"by a device before":        {"a", []book.Body{count("700 mL"), draw("100 mL")}, "600 mL"},
		"by a device after":         {"z", []book.Body{draw("100 mL"), count("700 mL")}, "700 mL"},
		"by a device without an id": {"", []book.Body{draw("100 mL"), draw("100 mL")}, "400 mL"},
	} {
		t.Run(name, func(t *testing.T) {
			j := newJournal(t)
			left := 99 // ids fall, so that they never have the order of the entries
			falling := func() string { left--; return fmt.Sprint("e", left) }
			j.author.Device, j.author.NewID = "m", falling
			for _, e := range shelf() {
				if err := j.try(e); err != nil {
					t.Fatal(err)
				}
			}
			j.write(&book.LotReceived{Lot: "before", Product: "fix", As: []byte(`{"product":"rapid fixer"}`)})
			j.write(&book.LotReceived{Lot: "l", Product: "fix", As: []byte(`{"product":"rapid fixer","holds":"1 L","left":"600 mL"}`)})
			j.author = &book.Author{Device: c.by, Now: evening, NewID: falling}
			for _, b := range c.day {
				j.write(b)
			}
			if l, _ := j.state.Lot("l"); l.Lot.Left.Text != c.want {
				t.Errorf("left %q, want %q", l.Lot.Left.Text, c.want)
			}
		})
	}
}
