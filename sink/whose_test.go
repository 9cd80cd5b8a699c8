package sink_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/trade/process"
)

// TestShares: who has what where, as somebody at the sink would count it: two of mo's in the developer and one in the wash with
// lu's; what nobody is named for is whoever's put it in; what is left over from before is in nobody's share.
func TestShares(t *testing.T) {
	r := newRoom(t)
	s := r.look(5)
	w := paper(t, s, material.RC)
	r.start(10, "stray", "mo", w, s)
	r.say(100, &book.EveningClosed{Session: "s1"})
	r.say(101, &book.EveningOpened{Session: "s2"})
	for i, of := range []string{"mo", "lu", "mo", "", "mo"} {
		r.author.By = "ada"
		r.say(110+i, &book.PrintStarted{
			Print: fmt.Sprint("p", i), Of: of, Session: "s2", Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1},
			At: book.At{Step: "develop"},
		})
	}
	for i := range 2 {
		r.say(120+i, &book.PrintMoved{Print: fmt.Sprint("p", i), At: book.At{Step: "wash", Batch: "b1"}})
	}
	r.say(130, &book.PrintStarted{
		Print: "film", Of: "lu", Session: "s2", Prints: book.Prints{Material: "film", Size: "135-36", Rolls: 1}, At: book.At{Step: "develop"},
	})
	s = r.look(140)
	want := []sink.Share{
		{Person: "mo", Places: []sink.Place{{Step: process.Develop, Prints: 2}, {Step: process.Wash, Prints: 1}}},
		{Person: "lu", Places: []sink.Place{{Step: process.Wash, Prints: 1}, {Step: process.Develop, Film: true, Prints: 1}}},
		{Person: "ada", Places: []sink.Place{{Step: process.Develop, Prints: 1}}},
	}
	if diff := cmp.Diff(want, s.Shares(r.state)); diff != "" {
		t.Errorf("shares (-want +got):\n%s", diff)
	}
	r.say(150, &book.Washed{Batch: "b1", Step: book.WashDone})
	s = r.look(160)
	if got := s.Shares(r.state); len(got) != 3 || len(got[0].Places) != 1 {
		t.Errorf("after the wash: %+v", got)
	}
}
