package bath

import "cmp"

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
