package dilution

import (
	"errors"
	"math"
	"strconv"
	"strings"

	"wetside/trade/quantity"
)

// A Dilution is what a label's words come to.
type Dilution struct {
	// Chemicals holds the parts of each chemical: one as a rule, two for a developer in parts A and B.
	Chemicals []quantity.Ratio
	// Water holds the parts of water; 0 for a chemical used undiluted.
	Water quantity.Ratio
	// FromStock says that the chemical of the dilution is a made-up stock, not the bottle as bought.
	FromStock bool
	// Note says how words with two readings were read; NoNote where there was nothing to say.
	Note Note
	// Other is the water of the other reading, where Note is ColonRead: 1:9 as one in nine is 1+8.
	Other quantity.Ratio
}

// New returns the dilution of so many parts of one or two chemicals in so many parts of water. No part may be
// below 0, no chemical 0, and water is 0 only beside a single chemical; else it is quantity.ErrRange.
func New(water quantity.Ratio, chemicals ...quantity.Ratio) (Dilution, error) {
	d := Dilution{Chemicals: chemicals, Water: water}
	least := 0
	if len(chemicals) == 2 {
		least = 1
	}
	if len(chemicals) < 1 || len(chemicals) > 2 || water.Sign() < least {
		return Dilution{}, quantity.ErrRange
	}
	for i, c := range chemicals {
		if c.Sign() <= 0 {
			return Dilution{}, quantity.ErrRange
		}
		if _, err := d.Strength(i); err != nil {
			return Dilution{}, err
		}
	}
	return d, nil
}

// Total returns the sum of all parts, or quantity.ErrRange where it does not fit (never of what Read or New returns).
func (d Dilution) Total() (quantity.Ratio, error) {
	return sum(append([]quantity.Ratio{d.Water}, d.Chemicals...))
}

func sum(parts []quantity.Ratio) (s quantity.Ratio, err error) {
	for _, p := range parts {
		if s, err = s.Add(p); err != nil {
			return quantity.Ratio{}, err
		}
	}
	return s, nil
}

// Strength returns chemical i's share of the whole, exactly, or quantity.ErrRange as Total does.
func (d Dilution) Strength(i int) (quantity.Ratio, error) {
	t, err := d.Total()
	if err != nil {
		return quantity.Ratio{}, err
	}
	return d.Chemicals[i].Quo(t)
}

// Same tells whether two dilutions are equally strong in every chemical: 2+18 is 1+9.
func (d Dilution) Same(e Dilution) bool {
	if len(d.Chemicals) != len(e.Chemicals) {
		return false
	}
	for i := range d.Chemicals {
		a, err1 := d.Strength(i)
		b, err2 := e.Strength(i)
		if err1 != nil || err2 != nil || a != b {
			return false
		}
	}
	return true
}

// Amounts returns what goes into a total: each chemical to the nearest unit of Volume, and water for the rest.
func (d Dilution) Amounts(total quantity.Volume) (chemicals []quantity.Volume, water quantity.Volume, err error) {
	water = total
	for i := range d.Chemicals {
		s, err := d.Strength(i)
		if err != nil {
			return nil, 0, err
		}
		v, err := s.Of(total)
		if err != nil {
			return nil, 0, err
		}
		chemicals, water = append(chemicals, v), water-v
	}
	return chemicals, water, nil
}

// ErrSerial is returned by Then where the second dilution is not of one chemical.
var ErrSerial = errors.New("only a dilution of one chemical can follow another")

// Then returns what comes of diluting the working solution of d once more by e: the strengths multiply, exactly.
func (d Dilution) Then(e Dilution) (Dilution, error) {
	if len(e.Chemicals) != 1 {
		return Dilution{}, ErrSerial
	}
	total, err := d.Total()
	if err != nil {
		return Dilution{}, err
	}
	share, err := e.Chemicals[0].Quo(total)
	if err != nil {
		return Dilution{}, err
	}
	out, err := Dilution{Chemicals: d.Chemicals, Water: d.Water, FromStock: d.FromStock}.times(share)
	if err != nil {
		return Dilution{}, err
	}
	if out.Water, err = out.Water.Add(e.Water); err != nil {
		return Dilution{}, err
	}
	return out.reduced()
}

// Stronger returns by how much the other reading is stronger, relatively, where the note is ColonRead: 1:9 read as one
// in nine is stronger by 1/9. 0 for every other note.
func (d Dilution) Stronger() quantity.Ratio {
	if d.Note != ColonRead {
		return quantity.Ratio{}
	}
	total, err1 := d.Total()
	other, err2 := Dilution{Chemicals: d.Chemicals, Water: d.Other}.Total()
	ratio, err3 := total.Quo(other)
	more, err4 := ratio.Sub(quantity.Int(1))
	if errors.Join(err1, err2, err3, err4) != nil {
		return quantity.Ratio{}
	}
	return more
}

// String returns the parts so that Read reads them back: "1+9", "1+1+10", "1+1 from stock", "stock", "undiluted".
func (d Dilution) String() string {
	return d.text(quantity.Ratio.String)
}

// Plain returns the parts as String does, but a part that is neither a decimal nor a simple fraction is given by four
// figures of it: "1+32.81". exact is false where one is.
func (d Dilution) Plain() (text string, exact bool) {
	exact = true
	text = d.text(func(r quantity.Ratio) string {
		s, ok := plain(r)
		exact = exact && ok
		return s
	})
	return text, exact
}

// plain returns a part as people write it, and whether that is all of it.
func plain(r quantity.Ratio) (string, bool) {
	if s := r.String(); r.Den() <= 16 || !strings.Contains(s, "/") && len(s) <= 8 {
		return s, true
	}
	f := r.Float()
	figures := max(0, 3-int(math.Floor(math.Log10(f))))
	s := strconv.FormatFloat(f, 'f', figures, 64)
	if figures > 0 {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s, false
}

func (d Dilution) text(part func(quantity.Ratio) string) string {
	if d.Water.Sign() == 0 {
		if d.FromStock {
			return "stock"
		}
		return "undiluted"
	}
	var b strings.Builder
	for _, c := range d.Chemicals {
		b.WriteString(part(c) + "+")
	}
	b.WriteString(part(d.Water))
	if d.FromStock {
		b.WriteString(" from stock")
	}
	return b.String()
}

// reduced returns the same dilution in the parts that a printer would give: the first chemical 1 where the others
// then have two decimals at most (16 mL per litre is 1+61.5), else the least whole numbers where none is above 1000
// (3 % is 3+97), else the first chemical 1.
func (d Dilution) reduced() (Dilution, error) {
	one, err := quantity.Int(1).Quo(d.Chemicals[0])
	if err != nil {
		return Dilution{}, err
	}
	byOne, err := d.times(one)
	if err != nil {
		return Dilution{}, err
	}
	den, twoDecimals := int64(1), true
	for _, p := range append([]quantity.Ratio{byOne.Water}, byOne.Chemicals...) {
		twoDecimals = twoDecimals && 100%p.Den() == 0
		den = leastCommon(den, p.Den())
	}
	if twoDecimals || den > mostWhole {
		return byOne, nil
	}
	whole, err := byOne.times(quantity.Int(den))
	if err != nil {
		return Dilution{}, err
	}
	for _, p := range append([]quantity.Ratio{whole.Water}, whole.Chemicals...) {
		if p.Num() > mostWhole {
			return byOne, nil
		}
	}
	return whole, nil
}

// mostWhole is the largest whole number of parts that is easier to grasp than a fraction.
const mostWhole = 1000

// leastCommon returns the least common multiple, or more than mostWhole where it is.
func leastCommon(a, b int64) int64 {
	if a > mostWhole || b > mostWhole {
		return mostWhole + 1
	}
	g, h := a, b
	for h != 0 {
		g, h = h, g%h
	}
	return a / g * b
}

// times returns the dilution with every part multiplied by k.
func (d Dilution) times(k quantity.Ratio) (Dilution, error) {
	e := d
	e.Chemicals = make([]quantity.Ratio, len(d.Chemicals))
	var err1, err2, err3 error
	for i, c := range d.Chemicals {
		var err error
		e.Chemicals[i], err = c.Mul(k)
		err1 = errors.Join(err1, err)
	}
	e.Water, err2 = d.Water.Mul(k)
	e.Other, err3 = d.Other.Mul(k)
	if err := errors.Join(err1, err2, err3); err != nil {
		return Dilution{}, err
	}
	return e, nil
}
