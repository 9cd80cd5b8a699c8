package words

import "time"

// Bytes prints how large a file or a disk is, in decimal units: 86 kB, 1.2 GB.
func (v *Voice) Bytes(n int64) string {
	units := []string{"B", "kB", "MB", "GB", "TB"}
	x, u := float64(n), 0
	for x >= 1000 && u < len(units)-1 {
		x, u = x/1000, u+1
	}
	figures := 3
	if x < 100 {
		figures = 2
	}
	return v.significant(x, figures) + string(nbsp) + units[u]
}

// Span prints a length of time in the largest unit that it has two of, in words: 3 days, 20 minutes.
func (v *Voice) Span(d time.Duration) string {
	if d < 0 {
		d = -d
	}
	const day = 24 * time.Hour
	switch {
	case d >= 2*365*day:
		return v.sayN("count.years", int(d/(365*day)), nil)
	case d >= 2*day:
		return v.sayN("count.days", int(d/day), nil)
	case d >= 2*time.Hour:
		return v.sayN("count.hours", int(d/time.Hour), nil)
	default:
		return v.sayN("count.minutes", int(d.Round(time.Minute)/time.Minute), nil)
	}
}

// Instant prints a moment with its year, in the room's zone: 3 December 2026, 18:30.
func (v *Voice) Instant(t time.Time) string {
	return plain(v.say("date.time", args{"Date": v.date("day_year", v.local(t)), "Clock": v.Clock(t)}))
}
