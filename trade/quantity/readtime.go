package quantity

import (
	"math"
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
// Units stand from large to small, each once. It may be 0.
func ReadDuration(text string) (time.Duration, error) {
	s, err := open(text, "duration")
	if err != nil {
		return 0, err
	}
	d, err := s.duration()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, err
	}
	return d, nil
}

func (s *scan) duration() (time.Duration, error) {
	if d, ok, err := s.clock(); ok {
		return d, err
	}
	var sum time.Duration
	last := time.Duration(math.MaxInt64)
	for {
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
		if u >= last {
			return 0, s.failAt(start, WhyTrailing, "")
		}
		if r.Float()*u.Seconds() > maxDuration.Seconds() {
			return 0, s.failAt(start, WhyTooLarge, "")
		}
		sum += time.Duration(math.Round(r.Float() * float64(u)))
		if sum > maxDuration {
			return 0, s.failAt(start, WhyTooLarge, "")
		}
		last = u
		s.space()
		if !startsWithDigit(s.rest()) {
			return sum, nil
		}
	}
}

// clock reads 1:30 and 1:30:00.
func (s *scan) clock() (d time.Duration, ok bool, err error) {
	t := *s
	first := t.digits()
	if first == "" || !t.take(":") {
		return 0, false, nil
	}
	parts := []string{first}
	for {
		at := t.at
		p := t.digits()
		if len(p) != 2 || p > "59" || len(parts) > 2 {
			return 0, true, s.failAt(at, WhyNoNumber, "")
		}
		parts = append(parts, p)
		if !t.take(":") {
			break
		}
	}
	if len(first) > 6 {
		return 0, true, s.fail(WhyTooLarge)
	}
	for _, p := range parts {
		n := 0
		for _, c := range p {
			n = 10*n + int(c-'0')
		}
		d = d*60 + time.Duration(n)*time.Second
	}
	if d > maxDuration {
		return 0, true, s.fail(WhyTooLarge)
	}
	s.at = t.at
	return d, true, nil
}

// A Period is a keeping time by the calendar: months and days stay what they are, hours are exact.
type Period struct {
	Months, Days int
	Hours        int
}

var periodNames = []named[Period]{
	{"h", Period{Hours: 1}},
	{"hr", Period{Hours: 1}},
	{"hrs", Period{Hours: 1}},
	{"hour", Period{Hours: 1}},
	{"hours", Period{Hours: 1}},
	{"d", Period{Days: 1}},
	{"day", Period{Days: 1}},
	{"days", Period{Days: 1}},
	{"wk", Period{Days: 7}},
	{"wks", Period{Days: 7}},
	{"week", Period{Days: 7}},
	{"weeks", Period{Days: 7}},
	{"mo", Period{Months: 1}},
	{"mth", Period{Months: 1}},
	{"mths", Period{Months: 1}},
	{"month", Period{Months: 1}},
	{"months", Period{Months: 1}},
	{"yr", Period{Months: 12}},
	{"yrs", Period{Months: 12}},
	{"year", Period{Months: 12}},
	{"years", Period{Months: 12}},
}

// maxPeriod is the longest period that is read, in units of each of its fields: a century and more.
const maxPeriod = 1200

// ReadPeriod reads 24 months, 2 years, 4 weeks, 1 week, 10 days, 24 h: above 0, and whole months, days or hours
// (1½ years are 18 months; half a month is refused).
func ReadPeriod(text string) (Period, error) {
	s, err := open(text, "keeping time")
	if err != nil {
		return Period{}, err
	}
	p, err := s.period()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return Period{}, err
	}
	return p, nil
}

func (s *scan) period() (Period, error) {
	start := s.at
	r, err := s.ratio()
	if err != nil {
		return Period{}, err
	}
	s.space()
	u, ok := unit(s, periodNames)
	if !ok {
		return Period{}, noUnit(s, periodNames)
	}
	n, err := r.Mul(Int(int64(u.Months + u.Days + u.Hours)))
	switch {
	case err != nil || n.Cmp(Int(100_000)) > 0:
		return Period{}, s.failAt(start, WhyTooLarge, "")
	case n.Sign() == 0:
		return Period{}, s.failAt(start, WhyNotPositive, "")
	case n.Den() != 1:
		return Period{}, s.failAt(start, WhyNotWhole, "")
	}
	whole := int(n.Num())
	switch {
	case u.Months > 0:
		return Period{Months: whole}, nil
	case u.Days > 0:
		return Period{Days: whole}, nil
	}
	return Period{Hours: whole}, nil
}

// From returns the moment a period after t, by t's own calendar.
func (p Period) From(t time.Time) time.Time {
	return t.AddDate(0, p.Months, p.Days).Add(time.Duration(p.Hours) * time.Hour)
}
