package bath

import (
	"cmp"
	"slices"
)

// countsOf returns the quantiles of counts: by a tally, where they lie close together.
func countsOf(counts []int32) Counts {
	least, most := counts[0], counts[0]
	for _, c := range counts {
		least, most = min(least, c), max(most, c)
	}
	if int(most-least) >= len(counts) {
		low, middle, high := select3(slices.Clone(counts))
		return Counts{int(low), int(middle), int(high)}
	}
	tally := make([]int32, most-least+1)
	for _, c := range counts {
		tally[c-least]++
	}
	n := len(counts)
	ranks := [...]int{n / 10, n / 2, n - 1 - n/10}
	var found [len(ranks)]int
	under, r := 0, 0
	for c, times := range tally {
		for under += int(times); r < len(ranks) && ranks[r] < under; r++ {
			found[r] = int(least) + c
		}
	}
	return Counts{found[0], found[1], found[2]}
}

// select3 returns the values of the ranks n/10, n/2 and n−1−n/10 of n, and leaves them there (selection after Hoare).
func select3[T cmp.Ordered](values []T) (low, middle, high T) {
	n := len(values)
	a, b, c := n/10, n/2, n-1-n/10
	nth(values, b)
	nth(values[:b], a)
	nth(values[b:], c-b)
	return values[a], values[b], values[c]
}

// nth moves the value of rank k to k, none larger before it and none smaller behind it.
func nth[T cmp.Ordered](values []T, k int) {
	low, high := 0, len(values)-1
	for low < high {
		pivot := values[k]
		i, j := low, high
		for i <= j {
			for values[i] < pivot {
				i++
			}
			for pivot < values[j] {
				j--
			}
			if i <= j {
				values[i], values[j] = values[j], values[i]
				i++
				j--
			}
		}
		if j < k {
			low = i
		}
		if k < i {
			high = j
		}
	}
}
