package hazard

import (
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
)

// A FindingKind is what is found about a judgement, a key of the message catalogue.
type FindingKind string

// The kinds of findings.
const (
	NothingDeclared FindingKind = "nothing_declared" // not judged: read the label; never harmless
	SomeNotJudged   FindingKind = "some_not_judged"  // Substance is not in the table, or has no share
	UnknownAcute    FindingKind = "unknown_acute"    // Percent of the whole is of unknown acute toxicity
	NonAdditive     FindingKind = "non_additive"     // a corrosive from 1 % on to which additivity may not apply
	OwnLimit        FindingKind = "own_limit"        // Code of Substance from our own limit on, Percent
	RowFromMemory   FindingKind = "row_from_memory"  // the classes of Substance are from memory
	SheetsDisagree  FindingKind = "sheets_disagree"  // about Substance, Key tells about what
	DensityUnknown  FindingKind = "density_unknown"  // diluted with a density from LeastDensity to MostDensity
	BeyondLabel     FindingKind = "beyond_label"     // Code was reckoned, and is not on the label
	OnlyOnLabel     FindingKind = "only_on_label"    // Code is on the label, and was not reckoned
	FromLabel       FindingKind = "from_label"       // nothing is declared but statements: they are the label's
)

// A Finding is one thing found.
type Finding struct {
	Kind      FindingKind
	Substance string
	Code      string
	Key       string
	Percent   float64
}

// find keeps what a reader must know beside the classes.
func (r *Result) find(v Verdict) {
	for _, i := range r.NotJudged {
		f := Finding{Kind: SomeNotJudged, Substance: i.Name}
		if i.Name == Undeclared {
			f = Finding{Kind: NothingDeclared}
		}
		r.Findings = append(r.Findings, f)
	}
	if v.UnknownAcute > 0 {
		r.Findings = append(r.Findings, Finding{Kind: UnknownAcute, Percent: v.UnknownAcute})
	}
	burns := false
	for _, c := range v.Classes {
		burns = burns || c.Code() == ghs.SkinCorr1.Code()
	}
	for _, p := range r.known {
		r.findOf(p, burns)
	}
}

func (r *Result) findOf(p Part, burns bool) {
	s := p.Substance
	if !burns && corrosive(s) && len(s.LimitsOf(ghs.Skin)) == 0 && atLeast(p.Share, countsFrom) {
		r.Findings = append(r.Findings, Finding{Kind: NonAdditive, Substance: s.Name, Percent: p.Share})
	}
	for _, x := range s.Supplements {
		if x.Own && !r.Law.american() && atLeast(p.Share, x.From) {
			r.Findings = append(r.Findings, Finding{Kind: OwnLimit, Substance: s.Name, Code: x.Code, Percent: x.From})
		}
	}
	if s.Basis.Status == substance.Memory && p.Share > 0 {
		r.Findings = append(r.Findings, Finding{Kind: RowFromMemory, Substance: s.Name})
	}
	for _, d := range s.Disputes {
		r.Findings = append(r.Findings, Finding{Kind: SheetsDisagree, Substance: s.Name, Key: d})
	}
}

func corrosive(s substance.Substance) bool {
	for _, c := range s.Classes {
		if c.Code() == ghs.SkinCorr1.Code() {
			return true
		}
	}
	return false
}
