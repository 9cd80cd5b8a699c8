package hazards

import (
	"slices"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/process"
)

// Labelled is what stands on the label of a bath or of a can about its hazards.
type Labelled struct {
	ghs.Label
	Elicits []string // whom EUH208 names
	// NotJudged says that something in it could not be judged.
	NotJudged bool
	// Bought are the statements of the label of the product as bought, where nothing else is declared.
	Bought []string
	// Extreme says that by its pH alone it would burn.
	Extreme bool
}

// OfBath judges a product in a dilution as it works. A zero dilution is the product as bought. The error wraps hazard.ErrMixture.
func OfBath(f darkroom.File, p *darkroom.Product, d dilution.Dilution) (Labelled, error) {
	var l Labelled
	items, err := states(f, p, d)
	if err == nil {
		l.add(p, items[0])
	}
	return l, err
}

// OfCan judges what is collected of a role: each of the shelf's products in each of its dilutions, a fixer as it is when used. All
// of it counts, as nobody knows what of it is in the can.
func OfCan(f darkroom.File, role process.Role) (Labelled, error) {
	var l Labelled
	for i := range f.Shelf.Products {
		p := &f.Shelf.Products[i]
		if p.Role != role {
			continue
		}
		for _, d := range dilutions(p) {
			items, err := states(f, p, d)
			if err != nil {
				return Labelled{}, err
			}
			l.add(p, items[len(items)-1])
		}
	}
	return l, nil
}

func states(f darkroom.File, p *darkroom.Product, d dilution.Dilution) ([]Item, error) {
	if len(d.Chemicals) == 0 {
		item, err := asBought(p, LawOf(f))
		return []Item{item}, err
	}
	return mixed(p, d, LawOf(f))
}

// add takes a judgement's words into a label; no word stands there twice, and the stronger signal word stays.
func (l *Labelled) add(p *darkroom.Product, i Item) {
	r := i.Result
	l.Codes = union(l.Codes, r.Codes)
	l.Pictograms = union(l.Pictograms, r.Pictograms)
	if l.P = union(l.P, r.P); len(l.P) > ghs.MostP {
		l.P = l.P[:ghs.MostP]
	}
	l.Elicits = union(l.Elicits, r.Elicits)
	if r.Signal == ghs.Danger || l.Signal == ghs.NoSignal {
		l.Signal = r.Signal
	}
	l.Extreme = l.Extreme || r.PHRule.Note == hazard.SeeSheet
	l.NotJudged = l.NotJudged || len(r.NotJudged) > 0
	if len(p.Contains) == 0 {
		l.Bought = union(l.Bought, p.Hazards)
	}
}

func union(a, b []string) []string {
	all := slices.Clone(a)
	for _, x := range b {
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}
