package words_test

import (
	"testing"

	"wetside/trade/quantity"
	"wetside/words"
)

// What the first page waits for.
func BenchmarkOpen(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := words.Open(); err != nil {
			b.Fatal(err)
		}
	}
}

// What each page waits for, many times over.
func BenchmarkMix(b *testing.B) {
	v, err := words.New("en", quantity.Metric, quantity.NoOunce)
	if err != nil {
		b.Fatal(err)
	}
	c, batch, err := exampleMix()
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		v.Mix(c, batch)
	}
}
