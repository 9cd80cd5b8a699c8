package words

import (
	"strings"
	"unicode"

	"wetside/ahead"
	"wetside/book"
	"wetside/plan"
)

// Pictogram names a hazard pictogram by its code: "corrosion". A code that has no name here is told alone.
func (v *Voice) Pictogram(code string) string {
	if !v.has("pictogram." + code) {
		return code
	}
	return plain(v.say("pictogram."+code, nil))
}

// MadeOn says when a bath was mixed, with the year, as its label has it; empty where nobody knows.
func (v *Voice) MadeOn(b ahead.Bath) string {
	when := plain(v.say("date.time", args{"Date": v.DayYear(v.local(b.Made)), "Clock": v.Clock(b.Made)}))
	switch b.Known {
	case book.MadeUnknown:
		return ""
	case book.MadeEstimated:
		return plain(v.say("tell.on_label.about", args{"When": v.DayYear(v.local(b.Made))}))
	case book.MadeThen:
	}
	return when
}

// KeepsUntil says until which day a bath keeps, with the year, as its label has it; empty where that is not known or over.
func (v *Voice) KeepsUntil(o ahead.Outlook) string {
	if o.End.Date.IsZero() || o.OutOfUse() {
		return ""
	}
	return v.DayYear(v.local(o.End.Date))
}

// Initials are the first letters of a name's parts, in capitals: "MO" of Maren Ols.
func Initials(name string) string {
	var b strings.Builder
	for part := range strings.FieldsSeq(name) {
		for _, r := range part {
			if unicode.IsLetter(r) {
				b.WriteRune(unicode.ToUpper(r))
				break
			}
		}
	}
	return b.String()
}

// Dated says what falls on a day, in a line of a calendar.
func (v *Voice) Dated(r ahead.Report, d plan.Dated) string {
	if d.Kind == plan.IsDue && d.Due < len(r.Due) {
		return v.Due(r, r.Due[d.Due]).Text()
	}
	a := args{"Subject": own(d.Subject), "Bath": ""}
	if d.Bath >= 0 && d.Bath < len(r.Baths) {
		a["Bath"] = v.BathCalled(r.Baths[d.Bath].Bath)
	}
	return plain(sentence(v.say("tell.dated."+string(d.Kind), a)))
}
