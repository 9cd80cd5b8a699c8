package book_test

import (
	"errors"
	"testing"
	"time"

	"wetside/book"
)

// What a probe showed last counts by the moment at which it was read, however late it arrives; what is taken back does not;
// another probe and another bath are apart.
func TestReadings(t *testing.T) {
	j := newJournal(t)
	at := func(minute int, b book.Body) string {
		j.author.Now = evening.Add(time.Duration(minute) * time.Minute)
		return j.write(b)
	}
	at(10, &book.ProbeRead{Probe: "p1", Bath: "d", Reads: "20.4 °C"})
	at(5, &book.ProbeRead{Probe: "p1", Bath: "d", Reads: "19 °C"}) // it was without the network
	at(7, &book.ProbeRead{Probe: "p2", Bath: "f", Reads: "68 °F"})
	last := at(12, &book.ProbeRead{Probe: "p1", Place: book.InRoom, Reads: "17.5 °C"})
	want := func(what string, got book.Reading, ok bool, reads string) {
		t.Helper()
		if !ok || got.Reads.Text != reads {
			t.Errorf("%s: %q, %v; want %q", what, got.Reads.Text, ok, reads)
		}
	}
	r, ok := j.state.Reading("d")
	want("in the developer", r, ok, "20.4 °C")
	if r.Probe != "p1" || !r.At.Equal(evening.Add(10*time.Minute)) {
		t.Errorf("by %s at %v", r.Probe, r.At)
	}
	r, ok = j.state.Reading("f")
	want("in the fixer", r, ok, "68 °F")
	if r.Reads.Value != 20 { // 68 °F are 20 °C: the definition of the scales
		t.Errorf("68 °F are %v", r.Reads.Value)
	}
	r, ok = j.state.ReadBy("p1")
	want("by the first probe", r, ok, "17.5 °C")
	if all := j.state.Readings(); len(all) != 3 || all[0].Place != book.InRoom || all[1].Bath != "d" || all[2].Bath != "f" {
		t.Errorf("all: %+v", all)
	}
	if _, err := j.takeBack(last); err != nil {
		t.Fatal(err)
	}
	r, ok = j.state.ReadBy("p1")
	want("taken back", r, ok, "20.4 °C")
	if _, ok := j.state.ReadBy("p3"); ok || len(j.state.Readings()) != 2 {
		t.Error("what nobody read is there")
	}
	if _, known := j.state.Bath("d"); known || len(j.state.Events()) > 0 {
		t.Error("a reading makes a bath, or stands in its life")
	}
}

// A reading of water lies between its freezing and its boiling; it hangs in one place.
func TestReadingsThatCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		body  book.ProbeRead
		field string
		why   book.FieldWhy
	}{
		"no probe":   {book.ProbeRead{Bath: "d", Reads: "20 °C"}, "probe", book.FieldMissing},
		"nowhere":    {book.ProbeRead{Probe: "p", Reads: "20 °C"}, "bath", book.FieldMissing},
		"in both":    {book.ProbeRead{Probe: "p", Bath: "d", Place: book.InRoom, Reads: "20 °C"}, "place", book.FieldClashes},
		"elsewhere":  {book.ProbeRead{Probe: "p", Place: "attic", Reads: "20 °C"}, "place", book.FieldNoWord},
		"nothing":    {book.ProbeRead{Probe: "p", Bath: "d"}, "reads", book.FieldMissing},
		"no scale":   {book.ProbeRead{Probe: "p", Bath: "d", Reads: "20"}, "reads", book.FieldUnreadable},
		"no number":  {book.ProbeRead{Probe: "p", Bath: "d", Reads: "NaN °C"}, "reads", book.FieldUnreadable},
		"torn wire":  {book.ProbeRead{Probe: "p", Bath: "d", Reads: "-127 °C"}, "reads", book.FieldOutside},
		"above 100":  {book.ProbeRead{Probe: "p", Bath: "d", Reads: "100.1 °C"}, "reads", book.FieldOutside},
		"below zero": {book.ProbeRead{Probe: "p", Bath: "d", Reads: "31.9 °F"}, "reads", book.FieldOutside},
	} {
		j := newJournal(t)
		e, err := j.author.Write(&c.body)
		if err != nil {
			t.Fatal(err)
		}
		err = j.try(e)
		f, ok := errors.AsType[*book.FieldError](err)
		if !ok || f.Field != c.field || f.Why != c.why || book.KindOf(err) != book.BadInput {
			t.Errorf("%s: %v, want %s at %s", name, err, c.why, c.field)
		}
	}
}
