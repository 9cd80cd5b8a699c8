package steady

import (
	"syscall"
	"time"
	"unsafe"
)

// bootTime is CLOCK_BOOTTIME, which no setting of the clock touches and which goes on while the machine sleeps; Go's own
// monotonic reading stands still then (man 2 clock_gettime).
const bootTime = 7

// Elapsed returns a function that tells how much time has passed since some moment, sleep of the machine counted. now is
// for kernels that can't tell.
func Elapsed(now func() time.Time) func() time.Duration {
	first := now()
	return func() time.Duration {
		if d, ok := sinceBoot(); ok {
			return d
		}
		return now().Sub(first)
	}
}

func sinceBoot() (time.Duration, bool) {
	var t syscall.Timespec
	_, _, errno := syscall.Syscall(syscall.SYS_CLOCK_GETTIME, bootTime, uintptr(unsafe.Pointer(&t)), 0)
	return time.Duration(t.Nano()), errno == 0
}
