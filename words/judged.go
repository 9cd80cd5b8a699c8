package words

import (
	"slices"
	"strings"

	"wetside/darkroom/hazards"
	"wetside/trade/hazard"
	"wetside/trade/reckoning"
)

// Judged is one judgement in words, part by part. It is an estimate; the supplier's sheet rules.
type Judged struct {
	Title      string // "working solution 1+9"
	Signal     string
	Pictograms []string // codes
	H, P       []string // in the standard's words
	NotJudged  []Phrase
	None       Phrase // where no limit is reached; never that it is harmless
	PH         Phrase
	Extreme    bool // by its pH alone it would burn
	Classes    string
	Notes      []Phrase
	Gloves     Phrase // empty where thin nitrile does
	Reckoning  []reckoning.Reckoning
}

// Judged says a judgement of a shelf.
func (v *Voice) Judged(i hazards.Item) Judged {
	r := i.Result
	out := Judged{
		Title: strings.TrimSpace(v.HazardState(r.State) + " " + i.Dilution), Signal: v.Signal(r.Signal), Pictograms: r.Pictograms,
		PH: v.PHRule(r.PHRule), Extreme: r.PHRule.Note == hazard.SeeSheet, Reckoning: r.Reckoning,
	}
	out.Reckoning = append(slices.Clip(out.Reckoning), r.PHRule.Reckoning...)
	for _, code := range r.Codes {
		out.H = append(out.H, v.Statement(code, r.Elicits))
	}
	for _, code := range r.P {
		out.P = append(out.P, v.Statement(code, nil))
	}
	for _, n := range r.NotJudged {
		out.NotJudged = append(out.NotJudged, v.NotJudged(n))
	}
	if len(r.Codes) == 0 && (r.Whole() || r.NotJudged[0].Name != hazard.Undeclared) {
		out.None = v.Tell("hazard.none_reached")
	}
	if g, because := r.Gloves(); g == hazard.ThickGlove {
		out.Gloves = v.Gloves(g, because)
	}
	if len(r.Classes) > 0 {
		out.Classes = v.HazardClasses(r.Classes) + ". " + v.Tell("hazard.from_declared").Text()
	}
	out.Notes = v.hazardNotes(r)
	return out
}

// hazardNotes says what the other end of the shares and another law give, where they differ, and what else is to be known.
func (v *Voice) hazardNotes(r hazard.Result) []Phrase {
	var out []Phrase
	if r.PHRule.Indicative {
		out = append(out, v.Tell("ph_rule.indicative"))
	}
	switch {
	case slices.Equal(r.Milder, r.Classes):
	case len(r.Milder) == 0:
		out = append(out, v.Tell("hazard.milder_none"))
	default:
		out = append(out, v.Tell("hazard.milder", "Classes", v.HazardClasses(r.Milder)))
	}
	switch o := r.Otherwise; {
	case o.Law == "":
	case len(o.Codes) == 0:
		out = append(out, v.Tell("hazard.otherwise_none", "Law", v.Tell("law."+string(o.Law)).Text()))
	default:
		out = append(out, v.Tell("hazard.otherwise", "Law", v.Tell("law."+string(o.Law)).Text(), "Codes", strings.Join(o.Codes, ", ")))
	}
	for _, f := range r.Findings {
		if f.Kind != hazard.SomeNotJudged && f.Kind != hazard.NothingDeclared { // told as not judged
			out = append(out, v.HazardFinding(f))
		}
	}
	return out
}

// Personal says a caution for one person with the products that it is about.
func (v *Voice) Personal(p hazards.Personal) Phrase {
	return v.Tell("person_at", "Products", plain(v.names(p.Products)), "Caution", v.PersonCaution(p.Caution).Text())
}

// AirSaid says what somebody published on how much air a darkroom wants.
func (v *Voice) AirSaid(a hazard.AirSaid) Phrase {
	return v.begin("air."+a.Key, "N", v.decimal(a.PerHour, 0), "From", v.Origin(reckoning.Figure{Origin: a.Origin, Source: a.Source}))
}
