package book_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/book"
)

// TestSaid: what is handed on of a print and a batch is all that was said of them, corrections of corrections too, in the
// order of the book, and nothing of their neighbours.
func TestSaid(t *testing.T) {
	j := sink(t)
	var want []string
	add := func(id string) { want = append(want, id) }
	add(j.after(10, "d1", started("p", "")))
	j.after(11, "d1", started("q", ""))
	on := j.after(70, "d1", moved("p", "stop", ""))
	add(on)
	add(j.after(80, "d1", &book.PrintMoved{Print: "p", At: book.At{Step: "hold", Batch: "b1"}}))
	j.after(81, "d1", &book.PrintMoved{Print: "q", At: book.At{Step: "hold", Batch: "b1"}})
	back := mustTakeBack(t, j, on)
	add(back)
	add(mustTakeBack(t, j, back))
	add(j.after(90, "d1", &book.Washed{Batch: "b1", Step: book.WashStarted}))
	j.after(91, "d1", &book.Washed{Batch: "b2", Step: book.WashStarted})
	if d := cmp.Diff(want, j.state.Said([]string{"p", "nobody"}, []string{"b1", "none"})); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if got := j.state.Said(nil, nil); len(got) != 0 {
		t.Errorf("of nothing: %v", got)
	}
}
