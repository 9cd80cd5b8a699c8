package dilution

import "wetside/trade/quantity"

// A form is a label's words taken apart: figures and what stands between them.
type form struct {
	items     []item
	seps      []sep
	fromStock bool
	reduce    bool // to the parts a printer would give
}

// dilution makes parts of the form.
func (f form) dilution(r *reader) (Dilution, error) {
	n := len(f.items)
	switch {
	case n == 1:
		return Dilution{}, r.fail(f.items[0].at, NoParts)
	case n > 3:
		return Dilution{}, r.fail(f.items[3].at, TooMany)
	}
	if err := f.sameUnits(r); err != nil {
		return Dilution{}, err
	}
	w, err := f.waterIndex(r)
	if err != nil {
		return Dilution{}, err
	}
	d := Dilution{FromStock: f.fromStock}
	var waterItem item
	for i, it := range f.items {
		if i == w {
			waterItem = it
			continue
		}
		if it.value.Sign() == 0 {
			return Dilution{}, r.fail(it.at, NoChemical)
		}
		d.FromStock = d.FromStock || it.isStock
		d.Chemicals = append(d.Chemicals, it.value)
	}
	d.Water = waterItem.value
	return f.settle(d, w, r)
}

// sameUnits turns figures with units into parts of the first unit, and refuses a unit on one side only.
func (f *form) sameUnits(r *reader) error {
	first := f.items[0].one
	for i, it := range f.items {
		if (it.one == 0) != (first == 0) {
			return r.fail(it.at, UnitOnOneSide)
		}
		if first == 0 {
			continue
		}
		ratio, err := quantity.NewRatio(int64(it.one), int64(first))
		if err == nil {
			f.items[i].value, err = it.value.Mul(ratio)
		}
		if err != nil {
			return r.tooLarge(it.at)
		}
		f.reduce = true
	}
	return nil
}

// waterIndex returns which figure is the water's, or the whole's where last says so.
func (f form) waterIndex(r *reader) (int, error) {
	w, chemicals := -1, 0
	for i, it := range f.items {
		switch it.is {
		case water:
			if w >= 0 {
				return 0, r.fail(it.at, NoChemical)
			}
			w = i
		case chemical, partA, partB:
			chemicals++
		case unnamed, whole:
		}
	}
	last := len(f.items) - 1
	switch {
	case w >= 0:
		return w, nil
	case chemicals == len(f.items):
		return 0, r.fail(f.items[last].at, TwoChemicals)
	case last == 1 && f.items[1].is == chemical && f.seps[0] <= to:
		return 0, nil
	}
	return last, nil
}

// settle takes the chemical out of the whole where the last figure is the whole, and says how it was read.
func (f form) settle(d Dilution, w int, r *reader) (Dilution, error) {
	last := f.seps[len(f.seps)-1]
	at := f.items[w].at
	sum := quantity.Ratio{}
	var err error
	for _, c := range d.Chemicals {
		if sum, err = sum.Add(c); err != nil {
			return Dilution{}, r.tooLarge(at)
		}
	}
	named := f.items[w].is == water
	isWhole := last == upTo || (last == in || last == per) && !named
	byVolume := f.reduce
	if isWhole {
		if d.Water, err = d.Water.Sub(sum); err != nil {
			return Dilution{}, r.tooLarge(at)
		}
	}
	switch {
	case d.Water.Sign() < 0:
		return Dilution{}, r.fail(at, MoreThanWhole)
	case d.Water.Sign() == 0:
		return Dilution{}, r.fail(at, NoWater)
	}
	other, oerr := d.Water.Sub(sum)
	anyNamed := false
	for _, it := range f.items {
		anyNamed = anyNamed || it.is != unnamed
	}
	switch {
	case isWhole && byVolume && last != upTo:
		d.Note = MadeUpTo
	case named && byVolume && last != plus && last != colon:
		d.Note = AddedTo
	case (last == colon || last == to) && !anyNamed && oerr == nil && other.Sign() > 0:
		d.Note, d.Other = ColonRead, other
	case !isWhole && !anyNamed && oerr == nil && other.Sign() < 0:
		d.Note = ChemicalFirst
	}
	if f.reduce {
		if d, err = d.reduced(); err != nil {
			return Dilution{}, r.tooLarge(at)
		}
	}
	if _, err := d.Total(); err != nil {
		return Dilution{}, r.tooLarge(at)
	}
	return d, nil
}

func (r *reader) tooLarge(at int) error {
	return &quantity.ReadError{Text: r.text[:min(len(r.text), 80)], At: min(at, 80), Want: "dilution", Why: quantity.WhyTooLarge}
}

// reduced returns the same dilution in the parts that a printer would give: the first chemical 1 where the others
// then have two decimals at most, else the least whole numbers where none is above 1000, else the first chemical 1.
func (d Dilution) reduced() (Dilution, error) {
	one, err := quantity.Int(1).Quo(d.Chemicals[0])
	if err != nil {
		return d, err
	}
	e, err := d.times(one)
	if err != nil || e.every(func(q quantity.Ratio) bool { return 100%q.Den() == 0 }) {
		return e, err
	}
	den := int64(1)
	e.every(func(q quantity.Ratio) bool { den = lcm(den, q.Den()); return true })
	if den > 1000 {
		return e, nil
	}
	w, err := e.times(quantity.Int(den))
	if err != nil || !w.every(func(q quantity.Ratio) bool { return q.Num() <= 1000 }) {
		return e, nil //nolint:nilerr // no whole numbers: the parts of one chemical stand.
	}
	return w, nil
}

// times returns the dilution with every part multiplied by k.
func (d Dilution) times(k quantity.Ratio) (Dilution, error) {
	e := d
	e.Chemicals = make([]quantity.Ratio, len(d.Chemicals))
	var err error
	for i, c := range d.Chemicals {
		if e.Chemicals[i], err = c.Mul(k); err != nil {
			return d, err
		}
	}
	if e.Water, err = d.Water.Mul(k); err != nil {
		return d, err
	}
	if e.Other, err = d.Other.Mul(k); err != nil {
		return d, err
	}
	return e, nil
}

func (d Dilution) every(ok func(quantity.Ratio) bool) bool {
	all := ok(d.Water)
	for _, c := range d.Chemicals {
		all = ok(c) && all
	}
	return all
}

func lcm(a, b int64) int64 {
	g, h := a, b
	for h != 0 {
		g, h = h, g%h
	}
	if b/g > 1<<31/a {
		return 1 << 31
	}
	return a / g * b
}
