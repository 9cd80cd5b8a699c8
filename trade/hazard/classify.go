package hazard

import (
	"slices"
	"strings"

	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
	"wetside/trade/reckoning"
)

// A Result is the judgement of a mixture. It is an estimate; the supplier's sheet rules.
type Result struct {
	State   State
	Law     Law
	Classes []ghs.Class // at the worse end of every share
	Milder  []ghs.Class // at the other end; the same where all shares are exact
	// Codes are the hazard statements with their suffix, H360FD, those for gas behind them, EUH031, and EUH208 last.
	Codes      []string
	P          []string
	Pictograms []string
	Signal     ghs.Signal
	// Elicits are the substances that EUH208 names.
	Elicits []string
	// NotJudged is what the table does not know, or what has no share. Never empty where nothing was declared.
	NotJudged []Ingredient
	PHRule    PHRule
	// Otherwise is the judgement under the law that differs most; its Codes are empty where it agrees.
	Otherwise Otherwise
	Findings  []Finding
	Reckoning []reckoning.Reckoning
	Groups    substance.Group // of all that was known
	known     []Part
}

// Otherwise is what another law gives.
type Otherwise struct {
	Law   Law
	Codes []string
}

// Undeclared is the name of what is not judged where nothing was declared.
const Undeclared = "undeclared"

// Classify judges a mixture at the worse end of every share. The error is a *MixtureError. An ingredient that the
// table does not know is no error: it stands in NotJudged and gives no class. A mixture of which nothing is declared is
// not judged as a whole.
func Classify(m Mixture) (Result, error) {
	if err := m.check(); err != nil {
		return Result{}, err
	}
	r := Result{State: m.State, Law: m.Law}
	if r.State == "" {
		r.State = Concentrate
	}
	if r.Law == "" {
		r.Law = EU
	}
	low, unknown := r.sort(m.Ingredients)
	v := Judge(r.known, unknown.High, r.Law)
	r.take(v)
	r.Milder = Judge(low, unknown.Low, r.Law).Classes
	r.PHRule = phRule(m, r.State, r.known, low, len(r.NotJudged) > 0)
	r.otherwise(unknown.High)
	r.find(v)
	return r, nil
}

// sort parts what the table knows from what it does not. It returns the known at their lower ends, and the share of those
// unknown ingredients that count as of unknown toxicity.
func (r *Result) sort(is []Ingredient) (low []Part, unknown Share) {
	if len(is) == 0 {
		r.NotJudged = []Ingredient{{Name: Undeclared, Share: Share{0, total}}}
	}
	for _, i := range is {
		s, ok := substance.Lookup(i.Name)
		if ok {
			r.Groups |= s.Groups
		}
		if !ok || i.Open {
			if i.Open {
				i.Share = Share{0, total}
			}
			r.NotJudged = append(r.NotJudged, i)
			if !i.Open && atLeast(i.Share.High, countsFrom) {
				unknown.Low, unknown.High = unknown.Low+i.Share.Low, unknown.High+i.Share.High
			}
			continue
		}
		r.known, low = add(r.known, s, i.Share.High), add(low, s, i.Share.Low)
	}
	unknown.Low, unknown.High = min(unknown.Low, total), min(unknown.High, total)
	return low, unknown
}

// add adds a share of a substance, which may stand there already under another name.
func add(parts []Part, s substance.Substance, share float64) []Part {
	for i := range parts {
		if parts[i].Substance.Name == s.Name {
			parts[i].Share = min(parts[i].Share+share, total)
			return parts
		}
	}
	return append(parts, Part{s, share})
}

// take makes the label of a verdict.
func (r *Result) take(v Verdict) {
	l := ghs.LabelOf(v.Classes)
	r.Classes, r.P, r.Pictograms, r.Signal = v.Classes, l.P, l.Pictograms, l.Signal
	r.Codes = codesOf(l, v, r.Law)
	if slices.Contains(r.Codes, elicitation) {
		r.Elicits = v.Elicits
	}
	r.Reckoning = v.Reckoning
}

const elicitation = "EUH208"

// codesOf returns the statements: with suffixes and supplements where the law has them, which the US and Canada have not.
func codesOf(l ghs.Label, v Verdict, law Law) []string {
	var codes []string
	for _, code := range l.Codes {
		if !law.american() && (code == ghs.Repr1B.Code() || code == ghs.Repr2.Code()) {
			code += v.Effects
		}
		codes = append(codes, code)
	}
	if law.american() {
		return codes
	}
	codes = append(codes, v.Supplements...)
	if len(v.Elicits) > 0 {
		codes = append(codes, elicitation)
	}
	return codes
}

// otherwise judges under the law that differs, and keeps its codes where they are others, suffixes and supplements apart.
func (r *Result) otherwise(unknown float64) {
	other := US
	if r.Law.american() {
		other = EU
	}
	v := Judge(r.known, unknown, other)
	theirs := codesOf(ghs.LabelOf(v.Classes), v, other)
	if !slices.Equal(plainCodes(theirs), plainCodes(r.Codes)) {
		r.Otherwise = Otherwise{Law: other, Codes: theirs}
	}
}

func plainCodes(codes []string) []string {
	var out []string
	for _, c := range codes {
		if !strings.HasPrefix(c, "EUH") {
			out = append(out, c[:4])
		}
	}
	return out
}

// Burns tells whether the mixture burns skin, by reckoning or by its label.
func (r Result) Burns() bool { return slices.Contains(r.Codes, ghs.SkinCorr1.Code()) }
