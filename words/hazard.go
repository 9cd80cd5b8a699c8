package words

import (
	"strconv"
	"strings"
	"unicode"

	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/meet"
	"wetside/trade/reckoning"
)

// Statement says a hazard, supplemental or precautionary statement in the standard's own words, with its code. named are the
// substances of EUH208. A code that has no text here is told alone.
func (v *Voice) Statement(code string, named []string) string {
	if !v.has("statement." + code) {
		return code
	}
	names := make([]string, len(named))
	for i, n := range named {
		names[i] = v.Substance(n)
	}
	return code + " " + plain(v.say("statement."+code, args{"Names": v.list(names)}))
}

// Substance names a substance of the hazard table in the reader's language, by its name in the table; another, and one that
// there is no message of, as it is written.
func (v *Voice) Substance(name string) string {
	key := "substance." + strings.ReplaceAll(strings.ToLower(name), " ", "_")
	if !v.has(key) {
		return own(name)
	}
	return plain(v.say(key, nil))
}

// Signal says a signal word; empty for none.
func (v *Voice) Signal(s ghs.Signal) string {
	if s == ghs.NoSignal {
		return ""
	}
	return plain(v.say("signal."+string(s), nil))
}

// HazardState names a state: concentrate, working solution.
func (v *Voice) HazardState(s hazard.State) string {
	return plain(v.say("hazard_state."+string(s), nil))
}

// HazardClasses lists classes with their codes; the law's own short words are not translated.
func (v *Voice) HazardClasses(classes []ghs.Class) string {
	var out []string
	for _, c := range classes {
		out = append(out, c.Code()+" "+c.String())
	}
	return strings.Join(out, v.say("list.comma", nil))
}

// HazardShare prints a range of mass per cent: "25–28 %".
func (v *Voice) HazardShare(s hazard.Share) string {
	high := v.percent(s.High)
	if s.Low == s.High {
		return high
	}
	low := strings.TrimRightFunc(v.percent(s.Low), func(r rune) bool { return r == '%' || unicode.IsSpace(r) })
	return low + "–" + high
}

// NotJudged says what could not be judged of a mixture.
func (v *Voice) NotJudged(i hazard.Ingredient) Phrase {
	if i.Name == hazard.Undeclared {
		return v.Tell("hazard.not_judged_all")
	}
	if i.Open {
		return v.Tell("hazard.not_judged_open", "Substance", v.Substance(i.Name))
	}
	return v.Tell("hazard.not_judged", "Substance", v.Substance(i.Name), "Share", v.HazardShare(i.Share))
}

// HazardFinding says what is found about a judgement.
func (v *Voice) HazardFinding(f hazard.Finding) Phrase {
	if about := "hazard_about." + f.Key; f.Key != "" && v.has("tell."+about) {
		return v.Tell(about)
	}
	return v.begin("hazard."+string(f.Kind), "Substance", v.Substance(f.Substance), "Code", f.Code, "Percent", v.percent(f.Percent),
		"Low", v.decimal(hazard.LeastDensity, 1), "High", v.decimal(hazard.MostDensity, 1))
}

// PHRule says what the pH rule says, apart from the classes.
func (v *Voice) PHRule(r hazard.PHRule) Phrase {
	ph := ""
	if r.Known {
		ph = v.decimal(r.PH, 1)
	}
	return v.Tell("ph_rule."+string(r.Note), "PH", ph)
}

// MustNotMeet says which two must never meet, why, and who says so.
func (v *Voice) MustNotMeet(p meet.Pair) Phrase {
	key := "meets.pair"
	switch {
	case p.A == meet.Water:
		key = "meets.onto"
	case p.AsBought:
		key = "meets.as_bought"
	}
	from := v.Origin(reckoning.Figure{Origin: p.Origin, Source: p.Source})
	return v.Tell(key, "A", v.meets(p.A), "B", v.meets(p.B), "Effect", v.Tell("meets."+string(p.Effect)).Text(), "From", from)
}

func (v *Voice) meets(name string) string {
	switch name {
	case meet.Water, meet.Stopper, meet.HouseBleach:
		return v.Tell("meets." + name).Text()
	}
	return name
}

// MixtureError says what is wrong with a mixture.
func (v *Voice) MixtureError(e *hazard.MixtureError) Phrase {
	return v.Tell("mixture."+string(e.Why), "Substance", e.Substance, "Got", strconv.FormatFloat(e.Got, 'f', -1, 64))
}

// PersonCaution says a caution for one person.
func (v *Voice) PersonCaution(c hazard.PersonCaution) Phrase {
	return v.begin("person."+string(c.Kind), "Substance", v.Substance(c.Substance))
}

// Gloves says which gloves to wear.
func (v *Voice) Gloves(g hazard.Glove, because string) Phrase {
	return v.Tell("glove."+string(g), "Substance", v.Substance(because))
}

// percent prints mass per cent with four figures, so that 24.9 does not become a limit.
func (v *Voice) percent(p float64) string { return v.shareTo(p/100, 4) }

// begin is Tell with a capital at its beginning, where a substance may stand.
func (v *Voice) begin(key string, pairs ...string) Phrase {
	return phrase(sentence(v.say("tell."+key, pairsOf(pairs))))
}
