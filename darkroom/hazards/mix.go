package hazards

import (
	"slices"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/hazard"
	"wetside/trade/hazard/meet"
	"wetside/trade/hazard/substance"
	"wetside/trade/process"
)

// LawOf returns whose rules a file's estimates follow: the EU's where it names none.
func LawOf(f darkroom.File) hazard.Law {
	if l := hazard.Law(f.Darkroom.Law); l != "" {
		return l
	}
	return hazard.EU
}

// A Mixing is one product as somebody mixes it.
type Mixing struct {
	// From is what is poured from: the concentrate, the powder or its stock. Where the stock can't be judged it is the powder.
	From hazard.Result
	// Works is the working solution.
	Works hazard.Result
	// Acid and Alkali tell whether the concentrate is one, so that water goes in first: by its mark, by what it declares.
	Acid, Alkali bool
	// Vapour is the substance of it that comes off as a sharp vapour; empty for none.
	Vapour string
}

// A Judge judges the products of one file as they are mixed, each of their states once. It is for use by one goroutine, while
// the products stay as they are.
type Judge struct {
	law    hazard.Law
	judged map[judgedState]judgedItem
}

// A judgedState is a product in one of its states.
type judgedState struct {
	product  *darkroom.Product
	law      hazard.Law
	state    hazard.State
	dilution string
}

type judgedItem struct {
	item Item
	err  error
}

// NewJudge returns a judge by the law of a file.
func NewJudge(f darkroom.File) *Judge {
	return &Judge{law: LawOf(f), judged: map[judgedState]judgedItem{}}
}

func (j *Judge) once(s judgedState, judge func() (Item, error)) (Item, error) {
	known, ok := j.judged[s]
	if !ok {
		known.item, known.err = judge()
		j.judged[s] = known
	}
	return known.item, known.err
}

func (j *Judge) asBought(p *darkroom.Product, law hazard.Law) (Item, error) {
	return j.once(judgedState{product: p, law: law, state: hazard.Concentrate}, func() (Item, error) { return asBought(p, law) })
}

// Mixing judges a product as it is mixed at a dilution; the dilution may be nothing, and Works then is not judged. The error wraps
// hazard.ErrMixture: impossible shares.
func (j *Judge) Mixing(p *darkroom.Product, d dilution.Dilution) (Mixing, error) {
	bought, err := j.asBought(p, j.law)
	if err != nil {
		return Mixing{}, err
	}
	m := Mixing{From: bought.Result, Acid: isAcid(p, bought.Result), Alkali: isAlkali(p, bought.Result), Vapour: vapour(p)}
	if p.Form == darkroom.Powder && len(d.Chemicals) > 0 {
		stock, err := j.once(judgedState{product: p, state: hazard.Stock}, func() (Item, error) { return madeUp(p, j.law) })
		if err != nil {
			return Mixing{}, err
		}
		if stock.Result.Judged() {
			m.From = stock.Result
		}
	}
	if len(d.Chemicals) == 0 {
		m.Works.State = hazard.Working
		return m, nil
	}
	works, err := j.once(judgedState{product: p, state: hazard.Working, dilution: d.String()}, func() (Item, error) {
		item, _, err := working(p, d, j.law)
		return item, err
	})
	m.Works = works.Result
	return m, err
}

// WaterFirst tells of a liquid whether it is an acid or a strong alkali by what it declares, under whatever law.
func (j *Judge) WaterFirst(p *darkroom.Product) bool {
	if p.Form == darkroom.Powder || len(p.Contains) == 0 {
		return false
	}
	bought, err := j.asBought(p, hazard.EU)
	return err == nil && (isAcid(p, bought.Result) || isAlkali(p, bought.Result))
}

// isAcid tells whether a product is an acid to be poured into water: marked so, or one that burns, or a stop bath's.
func isAcid(p *darkroom.Product, r hazard.Result) bool {
	return p.Acid.Value || r.Groups&substance.Acid != 0 && (r.Burns() || p.Role == process.StopBath)
}

// isAlkali tells whether a product is a strong alkali: marked so, or one that burns.
func isAlkali(p *darkroom.Product, r hazard.Result) bool {
	return p.Alkali.Value || r.Groups&substance.StrongAlkali != 0 && r.Burns()
}

// vapour names what of a product comes off as a sharp vapour: acetic and formic acid, ammonia (common practice).
func vapour(p *darkroom.Product) string {
	for _, c := range p.Contains {
		if s, ok := substance.Lookup(c.Substance); ok && slices.Contains([]string{"acetic acid", "formic acid", "ammonia"}, s.Name) {
			return s.Name
		}
	}
	return ""
}

// Never returns what must never meet among some products of a file, named in any order; house adds the chlorine bleach that stands
// under many sinks. What can't be judged counts by its role and marks alone. What must not meet only as it is bought is left out: a
// warning of developer and stop bath, side by side every evening, would teach people to pass over the others.
func (j *Judge) Never(f darkroom.File, products []string, house bool) []meet.Pair {
	var things []meet.Thing
	for i := range f.Shelf.Products {
		p := &f.Shelf.Products[i]
		if !slices.Contains(products, p.Name) {
			continue
		}
		bought, err := j.asBought(p, j.law)
		if err != nil {
			bought.Result = hazard.Result{}
		}
		things = append(things, thing(p, bought.Result))
	}
	all := meet.NeverTogether(things, house && len(things) > 0)
	return slices.DeleteFunc(all, func(p meet.Pair) bool { return p.AsBought })
}

// Declared returns the groups of what a product declares, for what is poured together: whatever the share, as nobody knows it of a
// used bath.
func Declared(p *darkroom.Product) substance.Group {
	var out substance.Group
	for _, c := range p.Contains {
		if s, ok := substance.Lookup(c.Substance); ok {
			out |= s.Groups
		}
	}
	return out
}
