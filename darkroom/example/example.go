package example

import (
	"bytes"
	_ "embed"
	"text/template"
	"time"

	"wetside/darkroom"
)

//go:generate go test -run=TestDocs -update

//go:embed evening.yaml
var evening string

// YAML returns the example's darkroom file, with comments that teach it, for a class on the evening of today by
// today's own calendar.
func YAML(today time.Time) []byte {
	var out bytes.Buffer
	// The text is part of the program and tested for every day of four years, so that it cannot fail here.
	if err := text().Execute(&out, days{today}); err != nil {
		panic("example: " + err.Error())
	}
	return out.Bytes()
}

// File returns the example as it is read.
func File(today time.Time) (darkroom.File, error) { return darkroom.Read(YAML(today)) }

func text() *template.Template {
	return template.Must(template.New("evening").Delims("<<", ">>").Parse(evening))
}

// days are what the text asks for.
type days struct{ today time.Time }

// Day returns the day that is so many days from today.
func (d days) Day(n int) string { return d.today.AddDate(0, 0, n).Format(time.DateOnly) }
