package measure

import (
	"math"

	"wetside/trade/quantity"
)

// choice tells a found choice in full.
func (b *bench) choice(f *found) Choice {
	var buf [8]use
	uses := b.uses(f, buf[:0])
	j := b.judge(f, uses)
	steps := b.steps(f)
	c := Choice{
		Manner: b.manner(f), Grade: f.cost.grade(), Total: f.total, Bias: j.bias, Uncertainty: j.u,
		Within: j.e <= b.p.Tolerance+Tie, Readings: f.cost.readings(), Vessels: b.vesselsOf(f, steps), Steps: steps,
	}
	chem, total := b.volumes(f)
	for i := range b.chemicals() {
		c.Chemical = append(c.Chemical, b.chemical(f, i, chem[i]))
		c.ChemicalUsed = append(c.ChemicalUsed, b.used(f, i))
		c.Strength += chem[i] / total
	}
	if len(c.Chemical) == 1 && f.form != formViaJug && f.form != formViaPour {
		c.Strength = float64(c.Chemical[0]) / float64(f.total)
	}
	c.Reckoning = b.reckon(f, uses, j)
	return c
}

// chemical returns how much of chemical i is in the total: what leaves the bottle, but for an intermediate dilution, of
// which only a part is used.
func (b *bench) chemical(f *found, i int, ml float64) quantity.Volume {
	if f.form == formViaJug || f.form == formViaPour {
		return quantity.Volume(math.Round(ml * float64(quantity.Millilitre)))
	}
	return b.used(f, i)
}
