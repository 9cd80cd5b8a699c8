package ahead_test

import (
	"fmt"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
)

// tonight is a session at home that wants so many RC prints, at seven in the evening of a day of the room.
func (r *room) tonight(day, sheets int) {
	at := firstDay.AddDate(0, 0, day).Add(time.Hour).Format("2006-01-02 15:04")
	r.at(day, 0, &book.Set{Part: book.SessionPart, As: fmt.Appendf(nil,
		`{"starts":%q,"lasts":"3 h","to_make":[{"material":"RC paper","size":"8x10 in","sheets":%d}]}`, at, sheets)})
}

// A fixer in its bottle is not in tonight's way; its sentence says so, and what it would do. Poured out, it is (common
// practice: what is not in a tray fixes nothing).
func TestBottleIsNotTonight(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		wants int
		says  string
		tray  string
	}{
		{10, "so tonight does not count on it. Poured out, it does tonight's 10.", "Tonight wants 10 of it: enough."},
		{40, "Poured out, it does 26 of tonight's 40.", "Tonight wants 40: make it new after 26."},
	} {
		r := newRoom(t, homeRoom)
		r.mix(0, 2, "fix1", "fix", "1+4", "1 L", "grey", "", "")
		r.work(0, 60, 9, material.RC, "fix1")
		r.at(0, 181, &book.PouredBack{Bath: "fix1", Into: darkroom.PartBottle})
		r.tonight(7, c.wants)
		r.mix(7, 3, "dev", "dev", "1+9", "1 L", "white", "", "")
		o := r.look(7, 5, material.RC, "fix1")
		if o.Left == nil || o.After == nil || *o.After != *o.Left || !has(o, ahead.InBottle) || has(o, ahead.TonightEnough) || has(o, ahead.TonightShort) {
			t.Errorf("in its bottle: left %+v, after tonight %+v, %+v", o.Left, o.After, o.More)
		}
		holds(t, beside(t, o), c.says)

		r.at(7, 10, &book.PouredOut{Bath: "fix1", Tray: "grey"})
		o = r.look(7, 15, material.RC, "fix1")
		if has(o, ahead.InBottle) || o.After.P10 != max(0, o.Left.P10-c.wants) {
			t.Errorf("poured out: left %+v, after tonight %+v, %+v", o.Left, o.After, o.More)
		}
		holds(t, beside(t, o), c.tray)
	}
}

// A bottle beside a fixer that stands in its tray has nothing to do with tonight.
func TestBottleBesideATray(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	r.mix(0, 2, "old", "fix", "1+4", "1 L", "grey", "", "")
	r.at(0, 181, &book.PouredBack{Bath: "old", Into: darkroom.PartBottle})
	r.tonight(7, 10)
	r.mix(7, 3, "new", "fix", "1+4", "1 L", "grey", "", "")
	if o := r.look(7, 5, material.RC, "old"); has(o, ahead.InBottle) || has(o, ahead.TonightEnough) {
		t.Errorf("%+v", o.More)
	}
}

// Bottled baths of one kind are told apart by the day they were made, those of one day by a number; one in a tray by its
// tray. No two are called alike in a sentence.
func TestBottlesAreToldApart(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	for i, day := range []int{0, 2, 2} {
		id := fmt.Sprint("f", i)
		r.mix(day, i, id, "fix", "1+4", "1 L", "grey", "", "")
		r.at(day, 100+i, &book.PouredBack{Bath: id, Into: darkroom.PartBottle})
	}
	r.mix(3, 0, "f3", "fix", "1+4", "1 L", "grey", "", "")
	seen := map[string]bool{}
	for id, want := range map[string]string{
		"f0": "fixer, made 1 October", "f1": "fixer, made 3 October", "f2": "fixer, made 3 October (2)", "f3": "fixer, grey",
	} {
		o := r.look(3, 5, material.RC, id)
		if got := breaking(voice(t).BathCalled(o.Bath)); got != want {
			t.Errorf("%s is called %q, want %q", id, got, want)
		}
		if seen[o.Bath.Name] {
			t.Errorf("two are called %q", o.Bath.Name)
		}
		seen[o.Bath.Name] = true
	}
}

// A bottle whose age is a guess is judged by that guess, and says so; its month runs from the guessed day (keeping after
// RF-pl, as the product has it).
func TestBottleOfGuessedAge(t *testing.T) {
	t.Parallel()
	r := newRoom(t, homeRoom)
	r.at(0, 0, &book.Mixed{Bath: "f", Product: "fix", Dilution: "1+4", Volume: "1 L", Into: darkroom.PartBottle, Made: book.MadeEstimated})
	o := r.look(20, 0, material.RC, "f")
	if o.Lead.Kind != ahead.UseFor || !has(o, ahead.AgeGuessed) || o.Left == nil || abs(o.Left.P10-35) > 1 {
		t.Errorf("after twenty days: %s, %+v, %+v", o.Lead.Kind, o.Left, o.More)
	}
	holds(t, voice(t).Since(o.Bath, "Maren").Text(), "about", "1 October", "says Maren")
	holds(t, beside(t, o), "is a guess")
	holds(t, voice(t).Outlook(o).Text(), "1 November")
	if o = r.look(32, 0, material.RC, "f"); o.Lead.Kind != ahead.PastDate {
		t.Errorf("after a month: %s", o.Lead.Kind)
	}
}
