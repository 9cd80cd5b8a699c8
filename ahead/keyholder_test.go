package ahead_test

import (
	"testing"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
)

// The keyholder's day in words, from the first mix over a slot of 40 fibre sheets, trays that nobody wrote down, a slot that
// nobody counted, to both fixers made new: what somebody careful with the books beside them would say (common practice; the
// counts are those of TestKeyholder; both new after the third change, Anchell, p. 107).
func TestKeyholderInWords(t *testing.T) {
	t.Parallel()
	r := newRoom(t, clubRoom)
	says := func(day, minute int, id string, wanted ...string) ahead.Outlook {
		t.Helper()
		o := r.look(day, minute, material.FB, id)
		holds(t, voice(t).Outlook(o).Text()+" "+beside(t, o), wanted...)
		return o
	}

	// Somebody left two trays: nobody knows since when.
	r.at(0, -60, &book.Mixed{Bath: "olddev", Product: "dev", Dilution: "1+9", Volume: "2 L", Tray: "white", Made: book.MadeUnknown})
	r.at(0, -59, &book.Mixed{Bath: "oldfix", Product: "fix", Dilution: "1+4", Volume: "2 L", Tray: "grey", Made: book.MadeUnknown})
	says(0, -50, "olddev", "Pour it out and make a new one.", "only a fixer is worth a test")
	says(0, -50, "oldfix", "Test it before a print goes in.", "Nobody knows since when it stands")
	r.at(0, -40, &book.Disposed{Bath: "olddev"})
	r.at(0, -39, &book.Disposed{Bath: "oldfix", Leaving: book.Leaving{To: "collected"}})

	// The first mix of the day.
	r.mix(0, 0, "dev", "dev", "1+9", "2 L", "white", "", "")
	r.mix(0, 1, "stop", "stop", "1+19", "2 L", "red", "", "")
	r.mix(0, 2, "f1", "fix", "1+4", "2 L", "grey", darkroom.BathFirst, "")
	r.mix(0, 3, "f2", "fix", "1+4", "2 L", "black", darkroom.BathSecond, "f1")
	says(0, 5, "dev", "Use it until Friday 2 October, 18:00.", "top it up to the mark after")
	says(0, 5, "f1", "Use it for 48 more 8×10 FB at exhibition standard; it probably lasts 64.", "Silver ends it", "Test after 45: silver strip.",
		"When it is spent, fixer 2 moves forward", "After 3 such changes both are made new.")
	says(0, 5, "f2", "A silver strip tells nothing here", "0.3 g/L")

	// A busy slot: four people, ten sheets each.
	r.work(0, 60, 40, material.FB, "dev", "stop", "f1", "f2")
	says(0, 90, "dev", "It is down about 320 mL: top it up to the mark, with fresh developer.", "air ends it about", "from memory")
	says(0, 90, "f1", "Use it for 8 more 8×10 FB at exhibition standard; it probably lasts 24.", "Test after 5: silver strip.")
	r.at(0, 95, &book.ToppedUp{Bath: "dev", Volume: "320 mL", With: book.WithFresh})
	if o := says(0, 96, "dev", "Use it until Friday 2 October, 18:00."); has(o, ahead.LevelDown) || has(o, ahead.AirSooner) {
		t.Errorf("topped up: %+v", o.More)
	}

	// Eight more, and it has come to its safe end: a test before the next sheet, not a bath thrown away.
	r.work(0, 120, 8, material.FB, "dev", "stop", "f1", "f2")
	says(0, 121, "f1", "Test it before the next sheet, with the silver strip. It has done what is safe at exhibition standard; it probably lasts 16 more.")

	// Moved forward: it brings what it took as the second.
	r.at(0, 130, &book.Moved{First: "f1", Second: "f2", Leaving: book.Leaving{To: "collected"}})
	r.mix(0, 131, "f3", "fix", "1+4", "2 L", "grey", darkroom.BathSecond, "f2")
	o := says(0, 135, "f2", "at exhibition standard", "After 2 such changes both are made new.")
	safe := o.Left.P10

	// The evening's slot was not written down; the strip finds it out.
	r.work(0, 140, 4, material.FB, "dev", "stop", "f2", "f3")
	strip := []float64{0.5, 1, 1.5, 2, 3}
	r.at(0, 200, &book.Tested{Bath: "f2", Test: book.SilverStrip, Result: "1.5 g/L", Steps: strip})
	says(0, 201, "f2", "Test it now: silver strip.", "The strip does not fit what was counted: it shows more silver. Test again, or somebody forgot to count.")
	r.at(0, 205, &book.Tested{Bath: "f2", Test: book.SilverStrip, Result: "1.5 g/L", Steps: strip})
	says(0, 206, "f2", "Again the strip shows more silver than was counted. Somebody forgot to count")
	r.at(0, 207, &book.Worked{Baths: []string{"dev", "stop", "f2", "f3"}, Prints: book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: safe - 6, Estimated: true}})
	says(0, 208, "f2", "sheets that went through were guessed, not counted.")

	// Two more changes, and both are to be new.
	for i, next := range []string{"f4", "f5"} {
		first, second := []string{"f2", "f3"}[i], []string{"f3", "f4"}[i]
		r.at(1+i, 30, &book.Moved{First: first, Second: second, Leaving: book.Leaving{To: "collected"}})
		r.mix(1+i, 31, next, "fix", "1+4", "2 L", "grey", darkroom.BathSecond, second)
	}
	says(2, 60, "f4", "Make both fixers new now: they have been changed often enough.")

	// The day is over: the developer is past its hours.
	says(2, 60, "dev", "Do not use it any more. Its time was over on Friday 2 October.")
}
