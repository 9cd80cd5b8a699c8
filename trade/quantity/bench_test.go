package quantity_test

import (
	"testing"

	"wetside/trade/quantity"
)

func BenchmarkReadVolume(b *testing.B) {
	for _, text := range []string{"100 mL", "2 1/2 US fluid ounces", "1.25 L"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := quantity.ReadVolume(text, quantity.NoOunce); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkVolumeString(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = quantity.USOunce.String()
	}
}
