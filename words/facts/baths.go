package facts

import (
	"math"
	"time"

	"wetside/ahead"
	"wetside/trade/bath"
	"wetside/trade/process"
)

// Baths is what each bath still does: what `wetside baths --json` prints.
type Baths struct {
	At    string    `json:"at"` // the moment that is asked about
	Baths []Outlook `json:"baths"`
}

// Outlook is what one bath still does. What is not known, or means nothing for the bath, is null.
type Outlook struct {
	Bath     string  `json:"bath"`
	ID       *string `json:"bath_id"` // the book's; null for a bath of a file
	Role     string  `json:"role"`
	Product  string  `json:"product"`
	VolumeML float64 `json:"volume_ml"`
	Standard *string `json:"standard"`
	Fixing   *string `json:"fixing"`
	Material *string `json:"material"`
	// Left counts sheets of 8×10 that go through one by one; After the same after the session.
	Left   *Counts  `json:"sheets_8x10_left"`
	After  *Counts  `json:"after_session"`
	Ends   Ends     `json:"ends"`
	Silver *Span    `json:"silver_g_per_l"` // of fixers
	PH     *float64 `json:"ph"`             // of stop baths
	Label  *int     `json:"label_left"`     // what the label's capacity leaves, sheets of 8×10
	// Sentence says it to people.
	Sentence  string      `json:"sentence"`
	Tests     []TestDue   `json:"tests"` // those that tell something of it, the most telling first
	Reckoning []Reckoning `json:"reckoning"`
}

// Counts are sheets that nine rooms in ten, half of them and one in ten reach.
type Counts struct {
	P10 int `json:"p10"`
	P50 int `json:"p50"`
	P90 int `json:"p90"`
}

// Span is an amount with its tenth, middle and ninetieth percentile.
type Span struct {
	P10 float64 `json:"p10"`
	P50 float64 `json:"p50"`
	P90 float64 `json:"p90"`
}

// Ends is what ends a bath, after how many sheets in all, and when at the latest.
type Ends struct {
	By      string  `json:"by"`
	AtCount *int    `json:"at_count"`
	Date    *string `json:"date"`
}

// TestDue is a test, and after how many more sheets of 8×10 it is due; null where it is due on no count.
type TestDue struct {
	Test  string `json:"test"`
	After *int   `json:"after_sheets"`
}

// OfReport takes a report apart; sentence says an outlook to people.
func OfReport(r ahead.Report, sentence func(ahead.Outlook) string) Baths {
	out := Baths{At: r.At.Format(time.RFC3339), Baths: []Outlook{}}
	for i := range r.Baths {
		out.Baths = append(out.Baths, ofOutlook(&r.Baths[i], sentence(r.Baths[i])))
	}
	return out
}

func ofOutlook(o *ahead.Outlook, sentence string) Outlook {
	out := Outlook{
		Bath: o.Bath.Name, ID: some(o.Bath.ID), Role: o.Bath.Role.String(), VolumeML: millilitres(o.Bath.Litres), Standard: word(o.Chain.Standard),
		Fixing: word(o.Chain.Fixing), Material: word(o.Chain.Material), Left: counts(o.Left), After: counts(o.After),
		Ends: ofEnd(o), Label: o.Label, Sentence: sentence, Tests: []TestDue{}, Reckoning: []Reckoning{},
	}
	if o.Bath.Product != nil {
		out.Product = o.Bath.Product.Name
	}
	if o.Bath.Role == process.Fixer {
		s := Span(o.Silver)
		out.Silver = &s
	}
	if o.PH > 0 {
		out.PH = &o.PH
	}
	for i, t := range o.Tests {
		due := TestDue{Test: string(t)}
		if i == 0 && o.Lead.Kind == ahead.UseFor {
			due.After = &o.TestAfter
		}
		out.Tests = append(out.Tests, due)
	}
	for _, x := range o.Reckoning {
		out.Reckoning = append(out.Reckoning, OfReckoning(x))
	}
	return out
}

func ofEnd(o *ahead.Outlook) Ends {
	out := Ends{By: string(o.End.By)}
	if o.Left != nil {
		out.AtCount = &o.End.At
	}
	if !o.End.Date.IsZero() {
		day := o.End.Date.Format(time.RFC3339)
		out.Date = &day
	}
	return out
}

func counts(c *bath.Counts) *Counts {
	if c == nil {
		return nil
	}
	out := Counts(*c)
	return &out
}

// word returns a word of the darkroom file, nil where nobody said one.
func word(w interface{ String() string }) *string {
	if s := w.String(); s != "" {
		return &s
	}
	return nil
}

// millilitres rounds litres to a thousandth of a millilitre, which no jug shows.
func millilitres(litres float64) float64 { return math.Round(litres*1e6) / 1e3 }
