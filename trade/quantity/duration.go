package quantity

import (
	"math"
	"strconv"
	"time"
)

var durationNames = []named[time.Duration]{
	{"s", time.Second},
	{"sec", time.Second},
	{"secs", time.Second},
	{"second", time.Second},
	{"seconds", time.Second},
	{"m", time.Minute},
	{"min", time.Minute},
	{"mins", time.Minute},
	{"minute", time.Minute},
	{"minutes", time.Minute},
	{"h", time.Hour},
	{"hr", time.Hour},
	{"hrs", time.Hour},
	{"hour", time.Hour},
	{"hours", time.Hour},
}

// maxDuration is the longest time that is read.
const maxDuration = 10_000 * time.Hour

// ReadDuration reads 90 s, 1 min 30 s, 1:30 (minutes and seconds), 1:30:00, 9 min, 9 min 45 s, 3 h, 1 h 30 min.
// Units run from large to small, each once. It may be 0.
func ReadDuration(text string) (time.Duration, error) {
	return read(text, "duration", func(s *scan) (time.Duration, error) {
		if d, ok, err := s.clock(); ok {
			return d, err
		}
		return s.duration()
	})
}

func (s *scan) duration() (sum time.Duration, err error) {
	for last := time.Duration(math.MaxInt64); ; {
		start := s.at
		r, err := s.ratio()
		if err != nil {
			return 0, err
		}
		s.space()
		u, ok := unit(s, durationNames)
		if !ok {
			return 0, noUnit(s, durationNames)
		}
		ns := r.Float() * float64(u)
		switch {
		case u >= last:
			return 0, s.failAt(start, WhyTrailing)
		case ns+float64(sum) > float64(maxDuration):
			return 0, s.failAt(start, WhyTooLarge)
		}
		sum, last = sum+time.Duration(math.Round(ns)), u
		if s.space(); !startsWithDigit(s.rest()) {
			return sum, nil
		}
	}
}

// clock reads 1:30 and 1:30:00.
func (s *scan) clock() (d time.Duration, ok bool, err error) {
	t, start := *s, s.at
	first := t.digits()
	if first == "" || !t.take(":") {
		return 0, false, nil
	}
	n, err := strconv.Atoi(first)
	if err != nil || n > int(maxDuration/time.Second) {
		return 0, true, s.fail(WhyTooLarge)
	}
	for parts := 1; ; parts++ {
		s.at = t.at
		p := t.digits()
		if len(p) != 2 || p > "59" || parts > 2 {
			return 0, true, s.fail(WhyNoNumber)
		}
		sixtieth, _ := strconv.Atoi(p) // two digits
		n = 60*n + sixtieth
		if !t.take(":") {
			break
		}
	}
	if n > int(maxDuration/time.Second) {
		return 0, true, s.failAt(start, WhyTooLarge)
	}
	s.at = t.at
	return time.Duration(n) * time.Second, true, nil
}

// Duration returns a duration, 0 or more, so that ReadDuration reads it back: "9 min 45 s", "3 h".
func Duration(d time.Duration) string {
	h, m, s := d/time.Hour, d%time.Hour/time.Minute, d%time.Minute
	text := ""
	if h > 0 {
		text += plain(float64(h)) + " h "
	}
	if m > 0 {
		text += plain(float64(m)) + " min "
	}
	if s > 0 || text == "" {
		seconds, _ := NewRatio(int64(s), int64(time.Second)) // below a minute
		digits, _ := seconds.decimal(9)
		text += digits + " s "
	}
	return text[:len(text)-1]
}
