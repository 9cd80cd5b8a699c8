package hazards

import (
	"slices"

	"wetside/trade/hazard"
	"wetside/trade/hazard/meet"
)

// A Personal is one caution for one person, with the products that it is about.
type Personal struct {
	Caution  hazard.PersonCaution
	Products []string
}

// ForPerson returns the cautions of a shelf's items for one person, those of one kind together. Somebody who does not mix meets working
// and used solutions alone.
func ForPerson(items []Item, who hazard.Person, mixes bool) []Personal {
	var out []Personal
	for _, i := range items {
		if works := i.Result.State == hazard.Working || i.Result.State == hazard.Used; !works && !mixes {
			continue
		}
		for _, c := range i.Result.For(who) {
			if c.Kind == hazard.AskFirst && i.Result.State == hazard.Used {
				continue // no data sheet tells of its silver; of the rest the working solution asks
			}
			at := slices.IndexFunc(out, func(p Personal) bool { return p.Caution == c })
			if at < 0 {
				out, at = append(out, Personal{Caution: c}), len(out)
			}
			if !slices.Contains(out[at].Products, i.Product) {
				out[at].Products = append(out[at].Products, i.Product)
			}
		}
	}
	return out
}

// Among returns the items of some products, in their order.
func (r Report) Among(products []string) []Item {
	var out []Item
	for _, i := range r.Items {
		if slices.Contains(products, i.Product) {
			out = append(out, i)
		}
	}
	return out
}

// NeverAmong returns of what must never meet what some products have to do with, among one another or with what stands in every house.
func (r Report) NeverAmong(products []string) []meet.Pair {
	there := append(slices.Clone(products), meet.Water, meet.Stopper, meet.HouseBleach)
	return slices.DeleteFunc(slices.Clone(r.Never), func(p meet.Pair) bool {
		return !slices.Contains(there, p.A) || !slices.Contains(there, p.B)
	})
}
