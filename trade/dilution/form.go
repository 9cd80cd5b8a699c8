package dilution

import "wetside/trade/quantity"

// A figure is one number of a label's words with what belongs to it.
type figure struct {
	at         int // where the number stands
	signAt     int // where the sign before it stands
	value      quantity.Ratio
	one        quantity.Volume // of its unit; 0: parts
	is         thing
	isLed      bool // the thing stands before the number
	isMeasured bool // a unit, "part" or "of" stands between number and thing
}

// A form is a label's words taken apart: figures, and the signs between them.
type form struct {
	figures   []figure
	signs     []sign
	fromStock bool
	isShare   bool // of volumes or a percentage: in parts of nobody's choice, so that they may be reduced
}

// percent makes the first figure a percentage: 3 % is 3 in 100.
func (f *form) percent() {
	f.figures = append(f.figures, figure{at: f.figures[0].at, value: quantity.Int(100)})
	f.signs = append(f.signs, per)
	f.isShare = true
}

// dilution makes parts of the form.
func (f form) dilution(r *reader) (Dilution, error) {
	switch n := len(f.figures); {
	case n == 1:
		return Dilution{}, r.fail(f.figures[0].at, NoParts)
	case n > 3:
		return Dilution{}, r.fail(f.figures[3].at, TooMany)
	}
	if err := f.checkSigns(r); err != nil {
		return Dilution{}, err
	}
	if err := f.sameUnits(r); err != nil {
		return Dilution{}, err
	}
	if err := f.nameWhole(r); err != nil {
		return Dilution{}, err
	}
	w, err := f.waterIndex(r)
	if err != nil {
		return Dilution{}, err
	}
	d, err := f.parts(w, r)
	if err != nil {
		return Dilution{}, err
	}
	return f.settle(d, w, r)
}

// last returns the last figure and the sign before it.
func (f form) last() (figure, sign) { return f.figures[len(f.figures)-1], f.signs[len(f.signs)-1] }

// checkSigns refuses a whole that is not the last figure, and a list in commas that names nothing.
func (f form) checkSigns(r *reader) error {
	names := false
	for _, fig := range f.figures {
		names = names || fig.is != unnamed || fig.isMeasured
	}
	for i, s := range f.signs {
		switch {
		case s == comma && !names:
			return r.fail(f.figures[i+1].signAt, Trailing)
		case !s.adds() && i < len(f.signs)-1:
			return r.fail(f.figures[i+2].signAt, Trailing)
		}
	}
	return nil
}

// sameUnits turns figures with units into parts of the first figure's unit, and refuses a unit on one side only.
func (f *form) sameUnits(r *reader) error {
	first := f.figures[0].one
	for i, fig := range f.figures {
		if (fig.one == 0) != (first == 0) {
			return r.fail(fig.at, UnitOnOneSide)
		}
		if first == 0 {
			continue
		}
		ratio, err := fig.one.Over(first)
		if err != nil {
			return r.tooLarge(fig.at)
		}
		if f.figures[i].value, err = fig.value.Mul(ratio); err != nil {
			return r.tooLarge(fig.at)
		}
		f.isShare = true
	}
	return nil
}

// nameWhole settles what the last word names where it stands straight behind the last figure: in "1+9 stock" the
// dilution as a whole, in "9 parts to 1 developer" the figure. "9+1 developer" may be either and is refused.
func (f *form) nameWhole(r *reader) error {
	n := len(f.figures) - 1
	fig := f.figures[n]
	if fig.is == unnamed || fig.is == water || fig.is == partA || fig.is == partB || fig.isLed || fig.isMeasured {
		return nil
	}
	bare := true
	for _, other := range f.figures[:n] {
		bare = bare && !other.isMeasured && (other.is == unnamed || other.isLed && other.is != water)
	}
	_, s := f.last()
	switch {
	case !bare:
		return nil
	case s.adds() && f.figures[0].value.Cmp(fig.value) > 0:
		return r.fail(fig.at, WhichSide)
	}
	f.fromStock = f.fromStock || fig.is == stock
	f.figures[n].is = unnamed
	return nil
}

// waterIndex returns which figure is the water's, or the whole's where that is what the last one is: the one so named,
// or the only one without a name, or the last.
func (f form) waterIndex(r *reader) (int, error) {
	last := len(f.figures) - 1
	w, nameless, chemicals := -1, -1, 0
	for i, fig := range f.figures {
		switch fig.is {
		case water:
			if w >= 0 {
				return 0, r.fail(fig.at, NoChemical)
			}
			w = i
		case unnamed, whole:
			nameless = i
		case chemical, stock, partA, partB:
			chemicals++
		}
	}
	_, s := f.last()
	switch {
	case w < 0 && chemicals > last:
		return 0, r.fail(f.figures[last].at, TwoChemicals)
	case w < 0 && chemicals == last:
		w = nameless
	case w < 0:
		w = last
	}
	if w != last && !s.adds() {
		return 0, r.fail(f.figures[last].at, WhichSide)
	}
	return w, nil
}

// parts puts the figures in their places, part A before part B.
func (f form) parts(w int, r *reader) (Dilution, error) {
	d := Dilution{Water: f.figures[w].value, FromStock: f.fromStock}
	was := unnamed
	for i, fig := range f.figures {
		if i == w {
			continue
		}
		if fig.value.Sign() == 0 {
			return Dilution{}, r.fail(fig.at, NoChemical)
		}
		d.FromStock = d.FromStock || fig.is == stock
		if was == partB && fig.is == partA {
			d.Chemicals = []quantity.Ratio{fig.value, d.Chemicals[0]}
		} else {
			d.Chemicals = append(d.Chemicals, fig.value)
		}
		was = fig.is
	}
	return d, nil
}

// settle takes the chemical out of the whole where the last figure is the whole, checks what is left and says how the
// words were read.
func (f form) settle(d Dilution, w int, r *reader) (Dilution, error) {
	at := f.figures[w].at
	fig, s := f.last()
	chemicals, err := sum(d.Chemicals)
	if err != nil {
		return Dilution{}, r.tooLarge(at)
	}
	isWhole := s == upTo || fig.is == whole && s != plus || !s.adds() && fig.is != water
	if isWhole {
		if d.Water, err = d.Water.Sub(chemicals); err != nil {
			return Dilution{}, r.tooLarge(at)
		}
	}
	switch d.Water.Sign() {
	case -1:
		return Dilution{}, r.fail(at, MoreThanWhole)
	case 0:
		return Dilution{}, r.fail(at, NoWater)
	}
	other, err := d.Water.Sub(chemicals)
	if err != nil {
		return Dilution{}, r.tooLarge(at)
	}
	if d.Note = f.note(w, isWhole, other); d.Note == ColonRead {
		d.Other = other
	}
	if f.isShare {
		if d, err = d.reduced(); err != nil {
			return Dilution{}, r.tooLarge(at)
		}
	}
	if err := d.check(r, at); err != nil {
		return Dilution{}, err
	}
	return d, nil
}

// note says how the words were read; other is the water of the other reading.
func (f form) note(w int, isWhole bool, other quantity.Ratio) Note {
	_, s := f.last()
	byName := f.figures[w].is == water || w < len(f.figures)-1
	switch {
	case isWhole && f.isShare && s != upTo:
		return MadeUpTo
	case isWhole:
		return NoNote
	case byName && f.isShare && (s == to || !s.adds()):
		return AddedTo
	case byName || s != colon && s != to:
		return NoNote
	case other.Sign() > 0:
		return ColonRead
	case other.Sign() < 0:
		return ChemicalFirst
	}
	return NoNote
}

// weakest is the weakest strength that is read: one in a million.
const weakest = 1e-6

// check refuses what is too weak to be meant and what does not fit.
func (d Dilution) check(r *reader, at int) error {
	for i := range d.Chemicals {
		s, err := d.Strength(i)
		if err != nil || s.Float() < weakest {
			return r.tooLarge(at)
		}
	}
	return nil
}
