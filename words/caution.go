package words

import (
	"slices"
	"strings"

	"wetside/plan"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/meet"
)

// Caution says a caution, in plain words.
func (v *Voice) Caution(c plan.Caution) Phrase {
	subject := own(c.Subject)
	if subject == "" {
		subject = v.say("the.chemical", nil)
	}
	a := args{
		"Subject": subject, "Other": own(c.Other), "Names": v.names(c.Names), "From": "", "Harms": v.harms(c.Harms), "Do": v.harmDo(c.Harms),
		"Thinned": v.harms(c.Thinned), "Same": "",
	}
	if slices.Equal(c.Harms, c.Thinned) {
		a["Same"] = a["Thinned"]
	}
	if c.Kind == plan.Harmful {
		a["From"] = v.say("harm_from."+string(c.From), nil)
	}
	return phrase(sentence(v.say("caution."+string(c.Kind), a)))
}

// names lists people's own names of things, each as it is.
func (v *Voice) names(all []string) string {
	out := make([]string, len(all))
	for i, n := range all {
		out[i] = own(n)
	}
	return v.list(out)
}

// harms says what something does: "damages eyes and is suspected of causing cancer".
func (v *Voice) harms(all []ghs.Harm) string {
	out := make([]string, len(all))
	for i, h := range all {
		out[i] = v.say("harm."+string(h), nil)
	}
	return v.list(out)
}

// harmDo says what is to be done about harms, each thing once.
func (v *Voice) harmDo(all []ghs.Harm) string {
	var out []string
	said := map[string]bool{}
	for _, h := range all {
		do := harmDo(h)
		if do != "" && !said[do] {
			said[do] = true
			out = append(out, v.say("harm_do."+do, nil))
		}
	}
	return v.Clauses(out...)
}

// harmDo is the key of what is to be done about a harm; empty where the head of the sheet says it.
func harmDo(h ghs.Harm) string {
	switch h {
	case ghs.Poisons, ghs.BurnsSkin, ghs.HarmsEyes:
		return "rinse"
	case ghs.MakesAllergic, ghs.HarmsBreath:
		return "fingers"
	case ghs.FeedsFire, ghs.CatchesFire:
		return "flame"
	case ghs.CausesCancer, ghs.HarmsGenes, ghs.HarmsChild, ghs.HarmsOrgans, ghs.SuspectedBoth, ghs.SuspectedCancer,
		ghs.SuspectedGenes, ghs.SuspectedChild, ghs.SuspectedOrgans:
	}
	return ""
}

// NeverTogether says in a sentence what must never be poured together, without who says so; empty for nothing. Chlorine bleach is
// named once, and so is what does the same with several. Water onto an acid and a bottle that bursts are sentences of their own.
func (v *Voice) NeverTogether(pairs []meet.Pair) Phrase {
	var parts, alone []string
	at := map[string]int{} // what a part begins with
	for len(pairs) > 0 {
		one, group, rest := sharing(pairs)
		effect := plain(v.say("tell.meets_short."+string(group[0].Effect), nil))
		pairs = rest
		if group[0].B == meet.Stopper || group[0].A == meet.Water {
			for _, p := range group {
				alone = append(alone, v.say("tell.meets.alone_"+string(p.Effect), args{"A": v.meetsShort(p.A), "B": v.meetsShort(p.B)}))
			}
			continue
		}
		var others []string
		for _, p := range group {
			others = append(others, v.meetsShort(other(p, one)))
		}
		with := v.say("tell.meets.with", args{"B": v.or(others), "Effect": effect})
		if i, ok := at[one]; ok {
			parts[i] += v.say("list.comma", nil) + with
			continue
		}
		at[one] = len(parts)
		parts = append(parts, v.say("tell.meets.short", args{"A": v.meetsShort(one), "With": with}))
	}
	said := alone
	if len(parts) > 0 {
		never := v.say("tell.meets.never", args{"Pairs": strings.Join(parts, v.say("list.semicolon", nil))})
		said = append([]string{never}, alone...)
	}
	return phrase(strings.Join(said, " "))
}

// meetsShort names one of a pair, chlorine bleach without its explanation.
func (v *Voice) meetsShort(name string) string {
	if name == meet.HouseBleach {
		return plain(v.say("tell.meets_short."+name, nil))
	}
	return own(v.meets(name))
}

// sharing takes the pairs that have the effect of the first and one of its two in common: chlorine bleach, else whichever more have;
// the rest stays in its order.
func sharing(pairs []meet.Pair) (one string, group, rest []meet.Pair) {
	first := pairs[0]
	with := func(name string) (in, out []meet.Pair) {
		for _, p := range pairs {
			if p.Effect == first.Effect && (p.A == name || p.B == name) {
				in = append(in, p)
				continue
			}
			out = append(out, p)
		}
		return in, out
	}
	a, notA := with(first.A)
	if b, notB := with(first.B); first.B == meet.HouseBleach || len(b) > len(a) {
		return first.B, b, notB
	}
	return first.A, a, notA
}

// other is the one of a pair that is not name.
func other(p meet.Pair, name string) string {
	if p.A == name {
		return p.B
	}
	return p.A
}
