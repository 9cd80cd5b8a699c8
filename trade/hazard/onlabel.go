package hazard

import (
	"cmp"
	"slices"
	"strings"

	"wetside/trade/hazard/ghs"
)

// TakeLabel makes a label's own statements the judgement of a mixture of which nothing else is declared. It stays not judged.
func (r *Result) TakeLabel(codes []string) {
	if len(codes) == 0 {
		return
	}
	var classes []ghs.Class
	for _, code := range codes {
		if c, ok := ghs.OfCode(code); ok {
			classes = append(classes, c)
		}
	}
	l := ghs.LabelOf(classes)
	r.Codes = slices.Clone(codes)
	slices.SortFunc(r.Codes, func(a, b string) int { // H before EUH
		return cmp.Or(strings.Index(a, "H")-strings.Index(b, "H"), strings.Compare(a, b))
	})
	r.Pictograms, r.Signal, r.P = l.Pictograms, l.Signal, l.P
	r.Findings = append(r.Findings, Finding{Kind: FromLabel})
}

// Compare finds the statements that were reckoned and are not on the label, and those of the label that were not reckoned. Nothing is
// found where no statement is on the label.
func (r *Result) Compare(codes []string) {
	if len(codes) == 0 {
		return
	}
	for _, code := range r.Codes {
		if strings.HasPrefix(code, "H") && !covered(code, codes) {
			r.Findings = append(r.Findings, Finding{Kind: BeyondLabel, Code: code})
		}
	}
	for _, code := range codes {
		if strings.HasPrefix(code, "H") && !covered(code, r.Codes) {
			r.Findings = append(r.Findings, Finding{Kind: OnlyOnLabel, Code: code})
		}
	}
}

// covered tells whether a statement, its suffix apart, is among others, or under a severer one of its kind.
func covered(code string, among []string) bool {
	c, known := ghs.OfCode(code)
	for _, other := range among {
		if len(other) >= 4 && len(code) >= 4 && other[:4] == code[:4] {
			return true
		}
		if d, ok := ghs.OfCode(other); ok && known && (d.Severer(c) || d.Code() == ghs.SkinCorr1.Code() && c.Kind() == ghs.Eyes ||
			d == ghs.AquaticChronic1 && c == ghs.AquaticAcute1) {
			return true
		}
	}
	return false
}
