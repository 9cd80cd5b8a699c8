package book_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/fault"
)

// What looked wrong is kept in order, stands in the life of the bath that it was about, and is taken back like any other word.
func TestWhatLookedWrong(t *testing.T) {
	j := newJournal(t)
	j.at(0, fixer("f1", darkroom.BathOne, ""))
	later := j.at(40, &book.FaultFound{Sign: "darkens_in_light", Cause: "fixer_spent", Done: book.FaultLater, Bath: "f1"})
	veil := j.at(20, &book.FaultFound{Sign: "grey_veil"})
	want := []book.FaultSeen{
		{Sign: fault.GreyVeil},
		{Sign: fault.DarkensInLight, Cause: fault.FixerSpent, Done: book.FaultLater, Bath: "f1"},
	}
	seen := func() (all []book.FaultSeen) {
		for _, e := range j.state.Faults() {
			all = append(all, e.Did.(book.FaultSeen))
		}
		return all
	}
	if diff := cmp.Diff(want, seen()); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	f1, _ := j.state.Bath("f1")
	if n := len(f1.Events); n != 1 || f1.Events[0].Entry != later || f1.Events[0].By != "p1" {
		t.Errorf("in the life of the bath: %+v", f1.Events)
	}
	back, err := j.takeBack(later)
	if err != nil {
		t.Fatal(err)
	}
	if got := seen(); len(got) != 1 || got[0] != want[0] {
		t.Errorf("after one was taken back: %+v", got)
	}
	if _, err := j.takeBack(back); err != nil || len(seen()) != 2 {
		t.Errorf("the taking back was taken back: %+v, %v", seen(), err)
	}
	if j.state.Faults()[0].Entry != veil {
		t.Error("the order is not that of the moments")
	}
}

// A print darkens when the fixer is long gone: to find that is nothing odd about the bath, and no decision.
func TestFoundWhenTheBathIsGone(t *testing.T) {
	j := newJournal(t)
	j.at(0, fixer("f1", darkroom.BathOne, ""))
	j.at(10, &book.Disposed{Bath: "f1", Leaving: book.Leaving{To: "collected"}})
	j.at(90, &book.FaultFound{Sign: "darkens_in_light", Cause: "fixer_spent", Bath: "f1"})
	if odd := j.state.Findings(); len(odd) > 0 {
		t.Errorf("odd: %+v", odd)
	}
	if book.FaultNoted.Decides() {
		t.Error("what was seen is a fact")
	}
}
