package facts

import "wetside/trade/wash"

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
