package hazards

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/hazard"
	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/meet"
	"wetside/trade/hazard/substance"
	"wetside/trade/material"
	"wetside/trade/process"
)

// An Item is one product in one state.
type Item struct {
	Product  string
	Dilution string // in a+b; empty as bought
	Label    []string
	Result   hazard.Result
}

// A Report is all of a shelf.
type Report struct {
	Law   hazard.Law
	Items []Item
	Never []meet.Pair
	// Reducer says that a ferricyanide stands there, which with hypo is normal practice.
	Reducer bool
}

// UsedSilver is what is not judged in a used fixer.
const UsedSilver = "silver thiosulfate"

// Of judges a file's shelf. An error tells the product whose declared shares are impossible; it wraps hazard.ErrMixture.
func Of(f darkroom.File) (Report, error) {
	r := Report{Law: LawOf(f)}
	var things []meet.Thing
	for i := range f.Shelf.Products {
		p := &f.Shelf.Products[i]
		bought, err := asBought(p, r.Law)
		if err != nil {
			return Report{}, fmt.Errorf("%s: %w", p.Name, err)
		}
		r.Items = append(r.Items, bought)
		t := thing(p, bought.Result)
		things = append(things, t)
		r.Reducer = r.Reducer || t.Groups&substance.Cyanoferrate != 0
		if p.Form == darkroom.Powder {
			stock, err := madeUp(p, r.Law)
			if err != nil {
				return Report{}, fmt.Errorf("%s: %w", p.Name, err)
			}
			r.Items = append(r.Items, stock)
		}
		for _, d := range dilutions(p) {
			items, err := mixed(p, d, r.Law)
			if err != nil {
				return Report{}, fmt.Errorf("%s: %w", p.Name, err)
			}
			r.Items = append(r.Items, items...)
		}
	}
	r.Never = meet.NeverTogether(things, len(things) > 0)
	return r, nil
}

// asBought judges a product as its label declares it. Where it declares statements alone, these are its judgement.
func asBought(p *darkroom.Product, law hazard.Law) (Item, error) {
	m := hazard.Mixture{Ingredients: ingredients(p), State: hazard.Concentrate, Law: law}
	if p.Form == darkroom.Powder {
		m.State = hazard.Powder
	}
	res, err := hazard.Classify(m)
	if err != nil {
		return Item{}, err
	}
	if len(p.Contains) == 0 {
		res.TakeLabel(p.Hazards)
	} else {
		res.Compare(p.Hazards)
	}
	return Item{Product: p.Name, Label: p.Hazards, Result: res}, nil
}

// madeUp judges a powder's stock.
func madeUp(p *darkroom.Product, law hazard.Law) (Item, error) {
	is, weighed := dissolved(p, 1)
	res, err := hazard.Classify(hazard.Mixture{Ingredients: is, State: hazard.Stock, Law: law})
	if weighed {
		res.Findings = append(res.Findings, hazard.Finding{Kind: hazard.DensityUnknown})
	}
	return Item{Product: p.Name, Result: res}, err
}

// dissolved returns a powder's ingredients in its stock, or in a dilution of it of so much strength. weighed is false where the
// label does not say what the packet weighs and makes, or declares nothing: then no share is known.
func dissolved(p *darkroom.Product, strength float64) (is []hazard.Ingredient, weighed bool) {
	is = ingredients(p)
	if p.Weighs.Value <= 0 || p.Makes.Value <= 0 || len(is) == 0 {
		return open(is), false
	}
	return hazard.MakeUp(is, float64(p.Weighs.Value), p.Makes.Value.ML()/strength), true
}

// open returns ingredients without their shares.
func open(is []hazard.Ingredient) []hazard.Ingredient {
	var out []hazard.Ingredient
	for _, i := range is {
		out = append(out, hazard.Ingredient{Name: i.Name, Open: true})
	}
	return out
}

// ingredients returns what a product declares, in mass per cent.
func ingredients(p *darkroom.Product) []hazard.Ingredient {
	var out []hazard.Ingredient
	for _, c := range p.Contains {
		i := hazard.Ingredient{Name: c.Substance, Open: c.Share.Text == ""}
		i.Share = hazard.Share{Low: c.Share.Value.From * 100, High: c.Share.Value.To * 100}
		out = append(out, i)
	}
	return out
}

// dilutions returns the product's dilutions, no two alike, in the order of their materials.
func dilutions(p *darkroom.Product) []dilution.Dilution {
	var out []dilution.Dilution
	for _, m := range slices.SortedFunc(maps.Keys(p.Dilutions), func(a, b material.Material) int { return int(a) - int(b) }) {
		d := p.Dilutions[m].Value
		if len(d.Chemicals) > 0 && !slices.ContainsFunc(out, func(e dilution.Dilution) bool { return d.Same(e) && d.FromStock == e.FromStock }) {
			out = append(out, d)
		}
	}
	return out
}

// mixed judges a dilution of a product: as it works, and for a fixer as it is when used.
func mixed(p *darkroom.Product, d dilution.Dilution, law hazard.Law) ([]Item, error) {
	item, m, err := working(p, d, law)
	if err != nil {
		return nil, err
	}
	items := []Item{item}
	if p.Role != process.Fixer {
		return items, nil
	}
	m.State = hazard.Used
	m.Ingredients = append(slices.Clone(m.Ingredients), hazard.Ingredient{Name: UsedSilver, Open: true})
	used, err := hazard.Classify(m)
	if err != nil {
		return nil, err
	}
	return append(items, Item{Product: p.Name, Dilution: d.String(), Result: used}), nil
}

// working judges a working solution, and returns what it was judged by.
func working(p *darkroom.Product, d dilution.Dilution, law hazard.Law) (Item, hazard.Mixture, error) {
	is, guessed, err := thinned(p, d)
	if err != nil {
		return Item{}, hazard.Mixture{}, err
	}
	m := hazard.Mixture{Ingredients: is, State: hazard.Working, Law: law}
	res, err := hazard.Classify(m)
	if err != nil {
		return Item{}, m, err
	}
	if guessed {
		res.Findings = append(res.Findings, hazard.Finding{Kind: hazard.DensityUnknown})
	}
	return Item{Product: p.Name, Dilution: d.String(), Result: res}, m, nil
}

// thinned returns a product's ingredients in a dilution; guessed tells that a density was not known.
func thinned(p *darkroom.Product, d dilution.Dilution) (is []hazard.Ingredient, guessed bool, err error) {
	if p.Form == darkroom.Powder {
		strength := 0.0
		for i := range d.Chemicals {
			s, err := d.Strength(i)
			if err != nil {
				return nil, false, err
			}
			strength += s.Float()
		}
		is, guessed = dissolved(p, strength)
		return is, guessed, nil
	}
	is, err = hazard.Dilute(ingredients(p), d, float64(p.Density.Value))
	return is, p.Density.Value <= 0 && len(is) > 0 && d.Water.Sign() > 0, err
}

// thing returns what a product is to others: by what it declares, and by its role and marks.
func thing(p *darkroom.Product, r hazard.Result) meet.Thing {
	t := meet.Thing{Name: p.Name, Groups: r.Groups, Burns: r.Burns()}
	if p.Role == process.Fixer {
		t.Groups |= substance.Thiosulfate
	}
	if p.Role == process.StopBath || p.Acid.Value {
		t.Groups |= substance.Acid
	}
	if p.Alkali.Value {
		t.Groups |= substance.StrongAlkali
	}
	t.Burns = t.Burns || slices.ContainsFunc(p.Hazards, func(h string) bool { return strings.HasPrefix(h, ghs.SkinCorr1.Code()) })
	return t
}
