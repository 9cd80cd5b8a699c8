package words

import (
	"slices"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/fault"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// SignName names what is seen. A sign that no message file has is told by its key: a newer program wrote it.
func (v *Voice) SignName(s fault.Sign) string {
	return v.faultWord("sign."+string(s)+".name", string(s))
}

// SignLook says what a sign looks like.
func (v *Voice) SignLook(s fault.Sign) string { return v.faultWord("sign."+string(s)+".look", "") }

// SignFirst says how light is told from chemistry where a sign can be both; empty for other signs.
func (v *Voice) SignFirst(s fault.Sign) Phrase {
	if key := "fault.first." + string(s); v.has(key) {
		return phrase(v.say(key, nil))
	}
	return nil
}

// FaultPlace says where signs are seen: on the print, on the film, in a bath.
func (v *Voice) FaultPlace(w fault.Where) string { return v.faultWord("place."+string(w), string(w)) }

// FaultKind names a kind of cause.
func (v *Voice) FaultKind(k fault.Kind) string { return v.faultWord("kind."+string(k), string(k)) }

// CauseName names a cause, as a sentence without its stop. One that no message file has is told by its key.
func (v *Voice) CauseName(c fault.Cause) string {
	return v.faultWord("cause."+string(c)+".name", string(c))
}

// A CauseTold is a cause written out.
type CauseTold struct{ Why, Check, Remedy Phrase }

// Cause says why a cause does what is seen, how it is checked in two minutes, and what then helps.
func (v *Voice) Cause(c fault.Cause) CauseTold {
	at := args{"Usual": v.Temperature(20), "FixMost": v.Temperature(27), "Warm": v.Temperature(30)}
	of := func(what string) Phrase { return phrase(v.say("fault.cause."+string(c)+"."+what, at)) }
	return CauseTold{Why: of("why"), Check: of("check"), Remedy: of("remedy")}
}

// CauseFrom says where it is from that a cause is behind a sign.
func (v *Voice) CauseFrom(l fault.Link) string {
	o, source := l.Origin()
	return v.Origin(reckoning.Figure{Origin: o, Source: source})
}

// Spoken says a fact that speaks for or against a cause.
func (v *Voice) Spoken(s fault.Spoken) Phrase {
	key := "fault.spoken_for"
	if s.By < 0 {
		key = "fault.spoken_against"
	}
	return phrase(v.say(key, args{"Fact": v.Fact(s.Fact)}))
}

// Fact says what is known.
func (v *Voice) Fact(f fault.Fact) string {
	a := v.places(f.Figures)
	for _, x := range f.Figures {
		switch x.Unit {
		case reckoning.S:
			a[x.Name] = v.Time(time.Duration(x.Value * float64(time.Second)))
		case reckoning.C:
			a[x.Name] = v.Temperature(quantity.Celsius(x.Value))
		case reckoning.One:
			a[x.Name] = v.whole(int(x.Value))
		default:
		}
	}
	a["Bath"] = own(f.Name)
	return plain(sentence(v.say("fault.fact."+string(f.Kind), a)))
}

// FactsCalled returns the facts with their baths called as people call them in this language.
func (v *Voice) FactsCalled(facts []fault.Fact, r *ahead.Report) []fault.Fact {
	facts = slices.Clone(facts)
	for i := range facts {
		for j := range r.Baths {
			if b := &r.Baths[j].Bath; b.ID == facts[i].Bath && b.ID != "" {
				facts[i].Name = v.withArticle(v.BathCalled(*b))
			}
		}
	}
	return facts
}

// withArticle puts the article of the message file before a name that has no number.
func (v *Voice) withArticle(name string) string {
	a := args{"Name": name, "Numbered": ""}
	if last := name[len(name)-1]; '0' <= last && last <= '9' {
		a["Numbered"] = name
	}
	return plain(v.say("fault.the", a))
}

// Found says what was found: the sign, the cause, and what was done.
func (v *Voice) Found(f book.FaultSeen) Phrase {
	a := args{"Sign": v.SignName(f.Sign), "Cause": "", "Done": ""}
	if f.Cause == "" {
		return phrase(v.say("fault.found_nothing", a))
	}
	a["Cause"] = v.CauseName(f.Cause)
	if f.Done != "" {
		a["Done"] = v.faultWord("done."+string(f.Done), string(f.Done))
	}
	return phrase(v.say("fault.found", a))
}

// FoundOdd says it for the handover, with the bath that it was about and who found it; both may be empty.
func (v *Voice) FoundOdd(f book.FaultSeen, bath string, at time.Time, by string) Phrase {
	said := v.Found(f)
	var raw strings.Builder
	for _, s := range said {
		if s.Weight == Heavy {
			raw.WriteString(heavy(s.Text))
			continue
		}
		raw.WriteString(s.Text)
	}
	return phrase(sentence(v.say("fault.found_odd", args{"Said": raw.String(), "Bath": own(bath), "When": v.DateTime(at), "By": own(by)})))
}

// faultWord returns a message about faults; where there is none, the key's own words.
func (v *Voice) faultWord(key, otherwise string) string {
	if v.has("fault." + key) {
		return plain(v.say("fault."+key, nil))
	}
	return own(strings.ReplaceAll(otherwise, "_", " "))
}
