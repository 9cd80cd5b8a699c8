package darkroom

import (
	"slices"
	"time"

	"wetside/trade/material"
)

func productRules() []rule[Product] { return []rule[Product]{powderFields, packsOfForm, forMaterials} }

// powderFields refuses on a liquid what only a powder has, and a density on a powder, which nobody can use.
func powderFields(r *reader, n *node, p *Product) {
	if p.Form == "" {
		return
	}
	beside := "form: " + string(p.Form)
	liquid := p.Form == Liquid
	r.goesWith(n, "makes", liquid && p.Makes.Given(), beside)
	r.goesWith(n, "weighs", liquid && p.Weighs.Given(), beside)
	r.goesWith(n, "start_with", liquid && p.StartWith.Given(), beside)
	r.goesWith(n, "mix_at", liquid && p.MixAt.Given(), beside)
	r.goesWith(n, "density", !liquid && p.Density.Given(), beside)
}

// packsOfForm refuses litres of a powder and packets of a liquid.
func packsOfForm(r *reader, n *node, p *Product) {
	if p.Form == "" {
		return
	}
	for i, pack := range p.Packs {
		wrong := p.Form == Liquid && pack.Packets > 0 || p.Form == Powder && pack.Holds.Given()
		r.inItem(n, "packs", i, func(n *node) { r.goesWith(n, "holds", wrong, "form: "+string(p.Form)) })
	}
}

// forMaterials refuses a dilution, time or capacity for a material that the product is not for.
func forMaterials(r *reader, n *node, p *Product) {
	if len(p.For) == 0 || !r.clean("for") {
		return
	}
	for _, name := range []string{"dilutions", "times", "capacity"} {
		for _, f := range n.Get(name).Fields {
			m, err := material.Read(f.Key)
			if err == nil && !slices.Contains(p.For, m) {
				at := &node{Place: f.Place}
				r.in(name, func() {
					r.in(f.Key, func() {
						r.bad(at, Problem{Kind: ProblemNotFor, Found: f.Key, Expected: Expected{Words: p.forWords(), Other: m.String()}})
					})
				})
			}
		}
	}
}

func (p *Product) forWords() []string {
	var words []string
	for _, m := range p.For {
		words = append(words, m.String())
	}
	return words
}

func lotRules() []rule[Lot] { return []rule[Lot]{leftFits, datesInOrder, stockFields} }

// leftFits refuses more left than the bottle holds.
func leftFits(r *reader, n *node, l *Lot) {
	if l.Left.Given() && l.Holds.Given() && l.Left.Value > l.Holds.Value {
		r.badField(n, "left", Problem{Kind: ProblemMoreThanHolds, Expected: Expected{High: l.Holds.Text}})
	}
	r.goesWith(n, "left", l.Packets > 0 && (l.Left.Given() || l.LeftUnknown), "packets")
}

// datesInOrder refuses a bottle that was opened before it came, or a stock before it was made.
func datesInOrder(r *reader, n *node, l *Lot) {
	before := func(first As[time.Time], name string) {
		if first.Given() && l.Opened.Given() && l.Opened.Value.Before(first.Value) {
			r.badField(n, "opened", Problem{Kind: ProblemBefore, Expected: Expected{Other: name, Low: first.Text}})
		}
	}
	before(l.Received, "received")
	before(l.Made, "made")
}

// stockFields refuses a day of making on what was bought, and packets of a stock.
func stockFields(r *reader, n *node, l *Lot) {
	r.goesWith(n, "made", l.Made.Given() && !l.Stock && r.clean("state"), "a lot that is no stock")
	r.goesWith(n, "holds", l.Stock && l.Packets > 0, "state: stock")
}

func loadRules() []rule[Load] { return []rule[Load]{loadCounts, sheetOrRoll} }

// loadCounts refuses rolls of paper and strips of film.
func loadCounts(r *reader, n *node, l *Load) {
	if l.Material == material.None {
		return
	}
	beside := "material: " + l.Material.String()
	r.goesWith(n, "rolls", l.Material.Paper() && l.Rolls > 0, beside)
	r.goesWith(n, "strips", l.Material == material.Film && l.Strips > 0, beside)
	r.goesWith(n, "size", l.Material.Paper() && l.Size.Value.Roll != material.NoRoll, beside)
}

// sheetOrRoll refuses sheets of a roll's size and rolls of a sheet's.
func sheetOrRoll(r *reader, n *node, l *Load) {
	if !l.Size.Given() || l.Material != material.Film {
		return
	}
	roll := l.Size.Value.Roll != material.NoRoll
	r.goesWith(n, "sheets", roll && l.Sheets > 0, "size: "+l.Size.Text)
	r.goesWith(n, "rolls", !roll && l.Rolls > 0, "size: "+l.Size.Text)
}
