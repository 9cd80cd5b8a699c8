package bath_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/bath"
)

// Quantiles found by a tally or by selection are those of the sorted counts.
func TestQuantilesAreOfTheSorted(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.SampledFrom([]int32{0, 3, 400, bath.Most}).Draw(t, "most")
		counts := rapid.SliceOfN(rapid.Int32Range(0, most), 1, 300).Draw(t, "counts")
		sorted := slices.Sorted(slices.Values(counts))
		n := len(sorted)
		want := bath.Counts{P10: int(sorted[n/10]), P50: int(sorted[n/2]), P90: int(sorted[n-1-n/10])}
		given := slices.Clone(counts)
		if got := bath.CountsOf(counts); got != want {
			t.Errorf("CountsOf(%v) = %+v, want %+v", counts, got, want)
		}
		if !slices.Equal(given, counts) {
			t.Errorf("CountsOf changed %v into %v", given, counts)
		}
	})
}
