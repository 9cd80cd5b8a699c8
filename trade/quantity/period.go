package quantity

import (
	"strconv"
	"time"
)

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

// longest is the largest figure of a period in months, days or hours: more than a century of each but the hours.
const longest = 100_000

// ReadPeriod reads 24 months, 2 years, 4 weeks, 1 week, 10 days, 24 h: above 0, and whole months, days or hours
// (1½ years are 18 months; half a month is refused).
func ReadPeriod(text string) (Period, error) {
	return read(text, "keeping time", (*scan).period)
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
	case err != nil || n.Cmp(Int(longest)) > 0:
		return Period{}, s.failAt(start, WhyTooLarge)
	case n.Sign() == 0:
		return Period{}, s.failAt(start, WhyNotPositive)
	case n.Den() != 1:
		return Period{}, s.failAt(start, WhyNotWhole)
	case u.Months > 0:
		return Period{Months: int(n.Num())}, nil
	case u.Days > 0:
		return Period{Days: int(n.Num())}, nil
	}
	return Period{Hours: int(n.Num())}, nil
}

// From returns the moment a period after t, by t's own calendar. Where the month has no such day it is the month's
// last: a month after 31 January is 28 or 29 February, because what keeps a month is not good in March.
func (p Period) From(t time.Time) time.Time {
	first := time.Date(t.Year(), t.Month()+time.Month(p.Months), 1, 0, 0, 0, 0, t.Location())
	lastDay := first.AddDate(0, 1, -1).Day()
	moved := time.Date(first.Year(), first.Month(), min(t.Day(), lastDay)+p.Days,
		t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), t.Location())
	return moved.Add(time.Duration(p.Hours) * time.Hour)
}

// String returns a period of one kind so that ReadPeriod reads it back: "24 months", "4 weeks", "10 days", "24 h".
// Of a period of several kinds, which ReadPeriod never returns, it gives the largest.
func (p Period) String() string {
	switch {
	case p.Months > 0:
		return many(p.Months, "month")
	case p.Days > 0 && p.Days%7 == 0:
		return many(p.Days/7, "week")
	case p.Days > 0:
		return many(p.Days, "day")
	}
	return strconv.Itoa(p.Hours) + " h"
}

func many(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return strconv.Itoa(n) + " " + what
}
