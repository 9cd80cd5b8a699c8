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

// worked returns a book of n entries: baths that are mixed anew every 200 loads, and loads of several sizes through them.
func worked(n int) []book.Entry {
	all := shelf()
	a := &book.Author{By: "p1", Device: "d1", Now: evening, NewID: counting("0192f0c4-7d5e-7cc3-98c4-dc0c0c07")}
	sizes := []string{"8x10 in", "5x7 in", "11x14 in", "24x30 cm", "9.5x12 in"}
	var baths []string
	for i := len(all); i < n; i++ {
		a.Now = a.Now.Add(7 * time.Minute)
		if k := i % 200; k < 4 || len(baths) < 4 {
			id := fmt.Sprintf("0192f0c4-%d-%d", i, k)
			if baths = append(baths, id); len(baths) > 4 {
				baths = baths[1:]
			}
			all = append(all, written(a, &book.Mixed{Bath: id, Product: "fix", Dilution: "1+4", Volume: "2 L", Tray: "red"}))
			continue
		}
		all = append(all, written(a, &book.Worked{Baths: baths, Prints: book.Prints{
			Material: "RC paper", Size: sizes[i%5], Sheets: 1 + i%12, Strips: i % 3, Strip: "1/4",
		}}))
	}
	return place(all)
}

// BenchmarkFoldWorked folds loads through four baths. Aim: 300,000 a second.
func BenchmarkFoldWorked(b *testing.B) {
	for _, n := range []int{10_000, 100_000} {
		entries := worked(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				s, err := book.Fold("room", entries)
				if err != nil || len(s.Unread()) > 0 {
					b.Fatal(err, s.Unread()[0])
				}
			}
			b.ReportMetric(float64(n)*float64(b.N)/b.Elapsed().Seconds(), "entries/s")
		})
	}
}

// BenchmarkBaths asks a state of 10,000 loads for its baths' lives.
func BenchmarkBaths(b *testing.B) {
	s, err := book.Fold("room", worked(10_000))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		s.Baths()
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
