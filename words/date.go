package words

import (
	"strconv"
	"time"

	"wetside/trade/quantity"
)

// Dates are told day first, and by the 24-hour clock; month first and by the 12-hour clock to a reader in US
// units.

// Day prints a calendar date, the way dates of lots are kept: 14 October. It is not turned into any zone.
func (v *Voice) Day(t time.Time) string { return v.date("day", t) }

// DayYear prints a calendar date with its year: 14 October 2026.
func (v *Voice) DayYear(t time.Time) string { return v.date("day_year", t) }

// Date prints a moment's date in the room's zone, with the day of the week: Thursday 3 December.
func (v *Voice) Date(t time.Time) string { return v.date("weekday", v.local(t)) }

// DateYear is Date with the year.
func (v *Voice) DateYear(t time.Time) string { return v.date("weekday_year", v.local(t)) }

// Clock prints a moment's time of day in the room's zone: 18:30.
func (v *Voice) Clock(t time.Time) string {
	t = v.local(t)
	if v.system != quantity.US {
		return t.Format("15:04")
	}
	half := "am"
	if t.Hour() >= 12 {
		half = "pm"
	}
	return v.unit(t.Format("3:04"), half)
}

// DateTime prints a moment in the room's zone: Thursday 3 December, 18:30.
func (v *Voice) DateTime(t time.Time) string {
	return plain(v.say("date.time", args{"Date": v.Date(t), "Clock": v.Clock(t)}))
}

// DateTimeTitle is DateTime as a heading: it begins with a capital, which the days of the week have not in every language.
func (v *Voice) DateTimeTitle(t time.Time) string { return sentence(v.DateTime(t)) }

func (v *Voice) local(t time.Time) time.Time {
	if v.zone == nil {
		return t
	}
	return t.In(v.zone)
}

func (v *Voice) date(form string, t time.Time) string {
	order := ".day_first"
	if v.system == quantity.US {
		order = ".month_first"
	}
	return plain(v.say("date."+form+order, args{
		"Weekday": v.say("weekday.n"+strconv.Itoa(int(t.Weekday())), nil),
		"Day":     strconv.Itoa(t.Day()),
		"Month":   v.say("month.n"+strconv.Itoa(int(t.Month())), nil),
		"Year":    strconv.Itoa(t.Year()),
	}))
}
