package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"strings"
	"unicode/utf8"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/words"
)

// Calendar writes what falls on a day as an iCalendar (RFC 5545): each a whole day, so that no clock rings; a calendar that takes
// it again changes what it has, as each keeps its name. Where nothing is due, that is what it says. The error is the writer's.
func Calendar(w io.Writer, v *words.Voice, all []plan.Dated, r ahead.Report, f darkroom.File) error {
	if len(all) == 0 {
		all = []plan.Dated{{Kind: plan.NothingDated, Day: r.At, ID: "nothing", Bath: -1}}
	}
	var c calendar
	c.line("BEGIN", "VCALENDAR")
	c.line("VERSION", "2.0")
	c.line("PRODID", "-//wetside//EN")
	c.line("X-WR-CALNAME", escaped(f.Darkroom.Name))
	for _, d := range all {
		c.event(v, d, r)
	}
	c.line("END", "VCALENDAR")
	_, err := io.WriteString(w, c.String())
	return err
}

type calendar struct{ strings.Builder }

func (c *calendar) event(v *words.Voice, d plan.Dated, r ahead.Report) {
	sum := sha256.Sum256([]byte(string(d.Kind) + "\x00" + d.ID))
	day := d.Day.In(r.At.Location())
	if d.Kind == plan.LotGoesOff {
		day = d.Day // a date, kept at midnight of no zone
	}
	c.line("BEGIN", "VEVENT")
	c.line("UID", hex.EncodeToString(sum[:12])+"@wetside")
	c.line("DTSTAMP", r.At.UTC().Format("20060102T150405Z"))
	c.line("DTSTART;VALUE=DATE", day.Format("20060102"))
	c.line("DTEND;VALUE=DATE", day.AddDate(0, 0, 1).Format("20060102"))
	c.line("SUMMARY", escaped(v.Dated(r, d)))
	c.line("TRANSP", "TRANSPARENT")
	c.line("END", "VEVENT")
}

// lineOctets is how long a line may be at most (RFC 5545, 3.1); what follows goes on behind a space.
const lineOctets = 75

// line writes a property, folded between letters.
func (c *calendar) line(name, value string) {
	used := 0
	for _, r := range name + ":" + value {
		if n := utf8.RuneLen(r); used+n > lineOctets {
			c.WriteString("\r\n ")
			used = 1
		}
		c.WriteRune(r)
		used += utf8.RuneLen(r)
	}
	c.WriteString("\r\n")
}

// escaped writes a text as RFC 5545, 3.3.11 wants it. What can't be seen is left out.
func escaped(text string) string {
	text = strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(strings.ToValidUTF8(text, "\uFFFD"))
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return -1
		}
		return r
	}, text)
}
