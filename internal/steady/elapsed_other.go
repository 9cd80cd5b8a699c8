//go:build !linux

package steady

import "time"

// Elapsed returns a function that tells how much time has passed since some moment, by the monotonic reading in what now
// returns. Where a machine sleeps, some systems do not count it.
func Elapsed(now func() time.Time) func() time.Duration {
	first := now()
	return func() time.Duration { return now().Sub(first) }
}
