package facts

import (
	"time"

	"wetside/trade/wash"
)

// Wash is how to wash to a limit: what `wetside wash --json` prints.
type Wash struct {
	Ways   []Way   `json:"ways"`
	Limit  float64 `json:"limit_g_per_m2"` // thiosulfate that may be left
	Source string  `json:"limit_source"`   // where the limit is from, in words
	Start  float64 `json:"start_g_per_m2"` // thiosulfate before the wash
	// Cheapest is the way with the least water, Fastest that with the least time; null where none gets there.
	Cheapest  *string     `json:"least_water"`
	Fastest   *string     `json:"least_time"`
	Findings  []string    `json:"findings"`
	Reckoning []Reckoning `json:"reckoning"`
	Own       *OwnWash    `json:"own,omitempty"` // by a residual test of this room; absent where none is known
}

// OwnWash is what a residual-thiosulfate test has told of a room's washing.
type OwnWash struct {
	Factor   float64 `json:"factor"`   // the time constant of what leaves slowest is so many times the table's
	Shortest float64 `json:"shortest"` // and may yet be so many times
	Longest  float64 `json:"longest"`
	Found    string  `json:"found"` // none, faint, clear, dark, figure
	// Least and Most bound what may have been left; the factor meets the most.
	Least    float64 `json:"found_least_g_per_m2"`
	Most     float64 `json:"found_most_g_per_m2"`
	Minutes  float64 `json:"after_minutes"`
	Way      string  `json:"way"`
	At       string  `json:"at,omitempty"` // of the book's test, RFC 3339
	Sentence string  `json:"sentence"`
}

// OfOwnWash takes a calibration apart; at is the moment of the book's test, zero for one that was typed.
func OfOwnWash(own *wash.Calibration, at time.Time, sentence string) *OwnWash {
	if own == nil {
		return nil
	}
	x := own.Test
	out := &OwnWash{
		Factor: own.Factor, Shortest: own.Short, Longest: own.Long, Found: x.Found.Stain.String(), Minutes: x.Time.Minutes(),
		Way: x.Way.String(), Sentence: sentence,
	}
	out.Least, out.Most = x.Found.Between()
	if out.Found == "" {
		out.Found = "figure"
	}
	if !at.IsZero() {
		out.At = at.Format(time.RFC3339)
	}
	return out
}

// Way is one way of washing. Minutes, changes and litres are null where it does not get to the limit.
type Way struct {
	Way     string   `json:"way"`
	Minutes *float64 `json:"minutes"`
	Changes *int     `json:"changes"` // fillings; running water has one
	Litres  *float64 `json:"litres"`
	Left    float64  `json:"left_g_per_m2"`
	// Safe is how long it may take at the most; null where even that does not get there.
	Safe      *float64    `json:"safe_minutes"`
	Contact   float64     `json:"contact_minutes"` // of each filling; 0 for running water
	Findings  []string    `json:"findings"`
	Reckoning []Reckoning `json:"reckoning"`
}

// OfWash takes an answer apart; source says where its limit is from.
func OfWash(a wash.Answer, source string) Wash {
	out := Wash{
		Ways: []Way{}, Limit: a.Limit.Value, Source: source, Start: a.Start.Value, Cheapest: named(a, a.Cheapest),
		Fastest: named(a, a.Fastest), Findings: ofWashFindings(a.Findings), Reckoning: []Reckoning{},
	}
	for _, r := range a.Ways {
		out.Ways = append(out.Ways, ofWay(r))
	}
	for _, x := range a.Reckonings {
		out.Reckoning = append(out.Reckoning, OfReckoning(x))
	}
	return out
}

// named returns the way of an index into an answer's ways, nil for none.
func named(a wash.Answer, i int) *string {
	if i < 0 {
		return nil
	}
	return new(a.Ways[i].Way.String())
}

func ofWay(r wash.Result) Way {
	out := Way{
		Way: r.Way.String(), Left: r.Left, Contact: r.Contact.Minutes(), Findings: ofWashFindings(r.Findings),
		Reckoning: []Reckoning{},
	}
	if r.Status == wash.Reached {
		out.Minutes, out.Changes, out.Litres = new(r.Time.Minutes()), new(r.Changes), new(r.Water.ML()/1000)
	}
	if r.Safe > 0 {
		out.Safe = new(r.Safe.Minutes())
	}
	for _, x := range r.Reckonings {
		out.Reckoning = append(out.Reckoning, OfReckoning(x))
	}
	return out
}

func ofWashFindings(fs []wash.Finding) []string {
	out := []string{}
	for _, f := range fs {
		out = append(out, string(f.Kind))
	}
	return out
}
