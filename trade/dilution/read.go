package dilution

import (
	"errors"

	"wetside/trade/quantity"
)

// Options rule what the words leave open.
type Options struct {
	Ounce quantity.Ounce // what an ounce, pint, quart and gallon are; NoOunce: an error where it matters
}

// Read reads a label's words; the package comment gives the grammar. The error is a *quantity.ReadError, whose Want is
// "dilution", or an *Error.
func Read(text string, o Options) (Dilution, error) {
	d, err := read(text, o.Ounce)
	if re, ok := errors.AsType[*quantity.ReadError](err); ok && re.Why == quantity.WhyWhichOunce {
		us, err1 := read(text, quantity.OunceUS)
		imp, err2 := read(text, quantity.OunceImperial)
		switch {
		case err1 == nil && err2 == nil && us.Same(imp):
			return us, nil // 1 oz to 31 oz: it does not matter which
		case err1 != nil && err2 != nil:
			return Dilution{}, err1
		}
	}
	return d, err
}

func read(text string, o quantity.Ounce) (Dilution, error) {
	if err := quantity.CheckText(text, want); err != nil {
		return Dilution{}, err
	}
	r := &reader{text: text, ounce: o}
	if d, ok := r.alone(); ok {
		return d, nil
	}
	f, err := r.form()
	if err != nil {
		return Dilution{}, err
	}
	return f.dilution(r)
}

// alone reads a chemical that is used as it is, where the text is no more than that.
func (r *reader) alone() (Dilution, bool) {
	was := r.at
	neat := r.take(neatWords...)
	stock := r.take("stock solution", "stock")
	neat = r.take(neatWords...) || neat
	r.take(".")
	if r.space(); r.done() && (neat || stock) {
		return Dilution{Chemicals: []quantity.Ratio{quantity.Int(1)}, FromStock: stock}, true
	}
	r.at = was
	return Dilution{}, false
}

// form takes the words apart.
func (r *reader) form() (form, error) {
	f := form{}
	r.take(verbs...)
	if _, at, ok := r.sign(); ok {
		return f, r.fail(at, Dangling)
	}
	fig, err := r.figure(false)
	if err != nil {
		return f, err
	}
	f.figures = []figure{fig}
	if r.take("%", "percent", "per cent") {
		f.percent()
		r.take("solution", "v/v", "by volume")
	}
	for {
		s, at, ok := r.sign()
		if !ok {
			break
		}
		if r.dangles() {
			return f, r.fail(at, Dangling)
		}
		fig, err := r.figure(s.takesBareUnit())
		if err != nil {
			return f, err
		}
		fig.signAt = at
		f.figures, f.signs = append(f.figures, fig), append(f.signs, s)
	}
	r.take("with water", "in water")
	f.fromStock = r.take("from stock solution", "from stock", "from the stock", "of stock")
	r.take(".")
	if r.space(); !r.done() {
		return f, r.fail(r.at, Trailing)
	}
	return f, nil
}

// dangles tells whether nothing, or another sign, follows a sign.
func (r *reader) dangles() bool {
	t := *r
	t.space()
	_, _, ok := t.sign()
	return ok || t.done()
}

// sign takes what stands between two figures and returns where it stood.
func (r *reader) sign() (s sign, at int, ok bool) {
	r.space()
	at = r.at
	t := *r
	if t.take("with water", "in water") && !t.take("to make", "made up to") {
		return 0, at, false
	}
	s, ok = find(r, signs)
	return s, at, ok
}

// figure reads [thing] number [unit] ["part"] ["of"] [thing]. Where it may be bare, a unit alone is one of it: "per
// litre".
func (r *reader) figure(bare bool) (figure, error) {
	fig := figure{}
	r.thing(&fig, leadingThings)
	fig.isLed = fig.is != unnamed
	r.take(verbs...)
	if bare {
		r.take("the")
	}
	r.space()
	fig.at = r.at
	var err, noNumber error
	if fig.value, noNumber = r.number(); noNumber != nil && !bare {
		return fig, r.mine(noNumber)
	}
	if fig.one, err = r.unit(); err != nil {
		return fig, r.mine(err)
	}
	if noNumber != nil {
		if fig.one == 0 {
			return fig, r.mine(noNumber)
		}
		fig.value = quantity.Int(1)
	}
	part, of := r.take("parts", "part"), r.take("of")
	fig.isMeasured = fig.one != 0 || part || of
	if !fig.isLed {
		r.thing(&fig, things)
	}
	return fig, nil
}
