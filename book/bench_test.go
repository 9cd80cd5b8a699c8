package book_test

import (
	"fmt"
	"testing"
	"time"

	"wetside/book"
)

// year returns a book of n entries: a shelf, then a year's draws, counts and mixes on twenty lots.
func year(n int) []book.Entry {
	all := shelf()
	a := &book.Author{By: "p1", Device: "d1", Now: evening, NewID: counting("0192f0c4-7d5e-7cc3-98c4-dc0c0c07")}
	for i := range 20 {
		all = append(all, written(a, &book.LotReceived{
			Lot: fmt.Sprint("lot", i), Product: "fix",
			As: []byte(`{"product":"rapid fixer","holds":"5 L"}`),
		}))
	}
	for i := len(all); i < n; i++ {
		a.Now = a.Now.Add(7 * time.Minute)
		lot := fmt.Sprint("lot", i%20)
		all = append(all, written(a, &book.LotDrawn{Draw: book.Draw{Lot: lot, Amount: fmt.Sprint(10+i%90, " mL")}}))
	}
	return place(all)
}

func written(a *book.Author, b book.Body) book.Entry {
	e, err := a.Write(b)
	if err != nil {
		panic(err)
	}
	return e
}

// BenchmarkFold folds simple entries. Aim: 300,000 a second.
func BenchmarkFold(b *testing.B) {
	for _, n := range []int{1_000, 100_000} {
		entries := year(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s, err := book.Fold("room", entries)
				if err != nil || len(s.Unread()) > 0 {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "entries/s")
		})
	}
}

// BenchmarkPresent asks a state of 10,000 entries for its file.
func BenchmarkPresent(b *testing.B) {
	s, err := book.Fold("room", year(10_000))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		s.File(nil)
	}
}

// BenchmarkHash hashes one entry.
func BenchmarkHash(b *testing.B) {
	e := year(30)[29]
	for b.Loop() {
		book.HashOf(e)
	}
}
