package plan_test

import (
	"strings"
	"testing"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/plan"
)

// What goes off, is due and will be full stands in the order of its days; what has no day, or is over, is left out.
func TestDates(t *testing.T) {
	at := func(day int) time.Time { return time.Date(2027, 3, day, 0, 0, 0, 0, time.UTC) }
	r := ahead.Report{At: at(1), Baths: []ahead.Outlook{
		{Bath: ahead.Bath{ID: "a"}, End: ahead.End{Date: at(9)}},
		{Bath: ahead.Bath{ID: "b"}},
		{Bath: ahead.Bath{ID: "c"}, End: ahead.End{Date: at(2)}, Lead: ahead.Finding{Kind: ahead.PastDate}},
	}, Due: []ahead.Due{{Kind: ahead.DueTest, Bath: 1, Day: at(4)}, {Kind: ahead.DueDate, Bath: 0, Day: at(9)}, {Kind: ahead.DueChange, Bath: 2}}}
	f, err := darkroom.Read([]byte(`
darkroom: {name: Test}
shelf:
  products: [{name: stop, role: stop bath, form: liquid, dilutions: {RC paper: 1+19}, keeps: {opened: 1 month}}]
  lots:
    - {product: stop, holds: 1 L, received: 2027-02-01, opened: 2027-02-05}
    - {product: stop, holds: 1 L, received: 2027-02-01}
`))
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	can := func(name string, there bool, full time.Time) ahead.Can {
		return ahead.Can{WasteCan: book.WasteCan{ID: name, Can: darkroom.Can{Name: name}, There: there}, FullOn: full}
	}
	for _, d := range plan.Dates(r, f, []ahead.Can{can("grey can", true, at(20)), can("new can", true, time.Time{}), can("gone can", false, at(21))}) {
		got = append(got, d.Day.Format("2")+" "+string(d.Kind)+" "+d.Subject)
	}
	if want := "4 due ,5 lot_off stop,9 bath_off ,20 can_full grey can"; strings.Join(got, ",") != want {
		t.Errorf("got %q, want %q", strings.Join(got, ","), want)
	}
}
