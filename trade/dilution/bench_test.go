package dilution_test

import (
	"testing"

	"wetside/trade/dilution"
)

func BenchmarkRead(b *testing.B) {
	for _, words := range []string{"1+9", "16 mL per litre", "31 parts water to 1 part concentrate"} {
		b.Run(words, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := dilution.Read(words, dilution.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
