package book_test

import (
	"fmt"
	"time"

	"wetside/book"
)

// A bottle of stop bath comes in, a bath is mixed from it, and a slip is taken back.
func Example() {
	number := 0
	a := &book.Author{
		By: "p1", Device: "phone", Now: time.Date(2026, time.December, 3, 18, 30, 0, 0, time.UTC),
		NewID: func() string { number++; return fmt.Sprint("entry-", number) },
	}
	state := book.New("ropewalk", book.Upcasters())
	var journal []book.Entry
	write := func(e book.Entry, err error) {
		if err != nil {
			fmt.Println(err)
			return
		}
		after, err := state.Admit([]book.Entry{e}, among(journal))
		if err != nil {
			fmt.Println(err)
			return
		}
		state, journal = after, append(journal, e)
	}
	write(a.Write(&book.Set{
		Part: book.ProductPart, ID: "stop", As: []byte(`{"name":"print stop","role":"stop bath","form":"liquid"}`),
	}))
	write(a.Write(&book.LotReceived{
		Lot: "lot-7", Product: "stop", As: []byte(`{"product":"print stop","holds":"32 US fl oz"}`),
	}))
	write(a.Write(&book.Mixed{
		Bath: "bath-1", Product: "stop", Dilution: "1+31", Volume: "32 US fl oz",
		From: []book.Draw{{Lot: "lot-7", Amount: "1 US fl oz"}},
	}))
	lot, _ := state.Lot("lot-7")
	fmt.Println("left:", lot.Lot.Left.Text)

	fmt.Println(state.CanTakeBack("entry-2", among(journal)))
	write(a.TakeBack("entry-3", "it was the fixer"))
	lot, _ = state.Lot("lot-7")
	fmt.Println("baths:", len(state.Baths()), "left said:", lot.Lot.Left.Given())
	// Output:
	// left: 31 US fl oz
	// entry entry-2 refused: lot_drawn_since (subject "lot-7", because of "entry-3")
	// baths: 0 left said: false
}
