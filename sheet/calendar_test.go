package sheet_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	ical "github.com/emersion/go-ical"

	"wetside/ahead"
	"wetside/plan"
	"wetside/sheet"
	"wetside/words"
)

// The calendar is read back: whole days, names that stay, words whole however long. Twice written it is the same; an empty one
// is a calendar, too.
func TestCalendar(t *testing.T) {
	f := exampleRoom(t, "A4")
	v, err := words.New("en", f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
	if err != nil {
		t.Fatal(err)
	}
	zone := time.FixedZone("UTC+10", 10*60*60)
	r := ahead.Report{At: day.In(zone), Baths: []ahead.Outlook{{Bath: ahead.Bath{ID: "a", Name: "fixer"}}}}
	long := strings.Repeat("grandmother's developer, strong; ", 6)
	all := []plan.Dated{
		{Kind: plan.BathGoesOff, Day: time.Date(2027, 3, 1, 20, 0, 0, 0, time.UTC), ID: "a"},
		{Kind: plan.LotGoesOff, Day: time.Date(2027, 3, 5, 0, 0, 0, 0, time.UTC), ID: "x", Bath: -1, Subject: long},
	}
	written := func(all []plan.Dated) string {
		var b bytes.Buffer
		if err := sheet.Calendar(&b, v, all, r, f); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	text := written(all)
	for line := range strings.SplitSeq(text, "\r\n") {
		if len(line) > 75 {
			t.Errorf("a line of %d octets: %q", len(line), line)
		}
	}
	c, err := ical.NewDecoder(strings.NewReader(text)).Decode()
	if err != nil {
		t.Fatal(err)
	}
	events := c.Events()
	if len(events) != 2 {
		t.Fatalf("%d events, want 2", len(events))
	}
	for i, want := range []struct{ day, words string }{{"20270302", "keeps no longer"}, {"20270305", strings.TrimSpace(long)}} {
		if got := events[i].Props.Get(ical.PropDateTimeStart).Value; got != want.day {
			t.Errorf("event %d is on %s, want %s: the day in the room's own zone", i, got, want.day)
		}
		if got, err := events[i].Props.Text(ical.PropSummary); err != nil || !strings.Contains(strings.ToLower(got), strings.ToLower(want.words)) {
			t.Errorf("event %d says %q, %v", i, got, err)
		}
	}
	if again := written(all); again != text {
		t.Error("written twice, it differs")
	}
	uid := events[0].Props.Get(ical.PropUID).Value
	all[0].Day = all[0].Day.AddDate(0, 0, 3)
	if !strings.Contains(written(all), uid) {
		t.Error("put off by three days, it has another name")
	}
	if _, err := ical.NewDecoder(strings.NewReader(written(nil))).Decode(); err != nil {
		t.Errorf("an empty calendar: %v", err)
	}
}
