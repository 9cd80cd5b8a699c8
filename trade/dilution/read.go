package dilution

import (
	"errors"
	"strings"

	"wetside/trade/quantity"
)

// maxText is the longest text that is read as a dilution, in bytes.
const maxText = 200

// Read reads a label's words; the package comment gives the grammar. The error is a *quantity.ReadError or a *Error.
func Read(text string, o Options) (Dilution, error) {
	r, err := start(text, o)
	if err != nil {
		return Dilution{}, err
	}
	d, err := r.dilution()
	if err != nil {
		return Dilution{}, err
	}
	return d, nil
}

// dilution reads the whole text.
func (r *reader) dilution() (Dilution, error) {
	r.words("use", "used", "mix", "mixed", "dilute", "diluted")
	if d, ok := r.alone(); ok {
		return d, r.end()
	}
	f := form{}
	it, err := r.item(false)
	if err != nil {
		return Dilution{}, err
	}
	if r.percent() {
		return r.finishPercent(it)
	}
	f.items = append(f.items, it)
	for {
		s, at, ok := r.sep()
		if !ok {
			break
		}
		if it, err = r.item(s == per || s == to || s == in || s == upTo); err != nil {
			var re *quantity.ReadError
			if errors.As(err, &re) && re.Why == quantity.WhyNoNumber && (s == plus || s == colon) {
				err = r.fail(at, Dangling)
			}
			return Dilution{}, err
		}
		f.items, f.seps = append(f.items, it), append(f.seps, s)
	}
	f.fromStock = r.tail()
	if err := r.end(); err != nil {
		return Dilution{}, err
	}
	return f.dilution(r)
}

// alone reads a chemical that is used as it is.
func (r *reader) alone() (Dilution, bool) {
	was := r.at
	neat := r.words("undiluted", "neat", "full strength", "as is")
	stock := r.words("stock solution", "stock")
	neat = r.words("undiluted", "neat", "full strength", "as is") || neat
	r.space()
	if !neat && !stock || r.at < len(r.text) {
		r.at = was
		return Dilution{}, false
	}
	return Dilution{Chemicals: []quantity.Ratio{quantity.Int(1)}, FromStock: stock}, true
}

// tail reads what may stand behind the parts, and tells whether it says that they are of stock.
func (r *reader) tail() bool {
	r.words("with water", "in water", "with tap water")
	return r.words("from stock", "of stock", "from stock solution", "stock solution", "stock")
}

// finishPercent makes parts of a percentage: 3 % is 3 parts in 100.
func (r *reader) finishPercent(it item) (Dilution, error) {
	r.words("solution", "v/v", "by volume")
	f := form{
		items: []item{it, {at: it.at, value: quantity.Int(100)}},
		seps:  []sep{per}, reduce: true, fromStock: r.tail(),
	}
	if err := r.end(); err != nil {
		return Dilution{}, err
	}
	return f.dilution(r)
}

// A sep is what stands between two figures.
type sep uint8

const (
	plus  sep = iota // water is added
	colon            // the same, by the trade's usual reading
	to               // the same where nothing says otherwise
	in               // the second figure is the whole, unless it is water
	per              // the same, by volume
	upTo             // the second figure is the whole
)

var seps = []struct {
	text string
	is   sep
}{
	{"made up to make", upTo},
	{"made up to", upTo},
	{"make up to", upTo},
	{"topped up to", upTo},
	{"diluted to", upTo},
	{"made to", upTo},
	{"with water to make", upTo},
	{"in water to make", upTo},
	{"water to make", upTo},
	{"to make", upTo},
	{"diluted with", plus},
	{"added to", plus},
	{"plus", plus},
	{"and", plus},
	{"with", plus},
	{"&", plus},
	{"+", plus},
	{"＋", plus},
	{",", plus},
	{"-to-", to},
	{"to", to},
	{":", colon},
	{"∶", colon},
	{"：", colon},
	{"in", in},
	{"per", per},
	{"/", per},
}

// sep takes what stands between two figures and returns where it stood.
func (r *reader) sep() (s sep, at int, ok bool) {
	r.space()
	at = r.at
	for _, c := range seps {
		if r.words(c.text) {
			return c.is, at, true
		}
	}
	return 0, at, false
}

// start checks the text as a whole.
func start(text string, o Options) (*reader, error) {
	r := &reader{text: text, o: o}
	// ReadRatio refuses what is too long, empty or not text at all, in its own words.
	if _, err := quantity.ReadRatio(text); err != nil {
		var re *quantity.ReadError
		if errors.As(err, &re) {
			switch re.Why {
			case quantity.WhyEmpty, quantity.WhyNotText:
				return nil, r.as(err)
			case quantity.WhyTooLong:
				if len(text) > maxText {
					return nil, r.as(err)
				}
			}
		}
	}
	return r, nil
}

// as gives a reading error the name of what is read here.
func (r *reader) as(err error) error {
	var re *quantity.ReadError
	if errors.As(err, &re) {
		c := *re
		c.Want = "dilution"
		return &c
	}
	return err
}

func (r *reader) fail(at int, why Reason) error {
	text := []rune(strings.ToValidUTF8(r.text, "\uFFFD"))
	cut := string(text[:min(len(text), 80)])
	return &Error{Text: cut, At: min(at, len(cut)), Reason: why}
}
