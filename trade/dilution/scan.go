package dilution

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"wetside/trade/quantity"
)

// A reader walks along a label's words.
type reader struct {
	text string
	at   int
	o    Options
}

// A thing is what a figure counts.
type thing uint8

const (
	unnamed thing = iota
	chemical
	partA
	partB
	water
	whole // "working solution"
)

// An item is one figure of a dilution with what belongs to it.
type item struct {
	at      int
	value   quantity.Ratio
	one     quantity.Volume // of the unit; 0: parts
	is      thing
	isStock bool
}

// item reads [thing] number [unit] [part] [of] [thing]. Behind "per", "to" and the like a unit may stand alone.
func (r *reader) item(bare bool) (item, error) {
	r.space()
	it := item{at: r.at}
	if err := r.thing(&it); err != nil {
		return it, err
	}
	if bare {
		r.words("the")
	}
	it.at = r.at
	err := r.number(&it)
	if bare && err != nil {
		r.space()
		one, end, uerr := quantity.ScanVolumeUnit(r.text, r.at, r.o.Ounce)
		if uerr != nil {
			if isWhy(uerr, quantity.WhyWhichOunce) || isWhy(uerr, quantity.WhyIsMass) {
				return it, r.as(uerr)
			}
			return it, r.as(err)
		}
		it.value, it.one, r.at = quantity.Int(1), one, end
	} else if err != nil {
		return it, r.as(err)
	} else if err := r.unit(&it); err != nil {
		return it, err
	}
	r.words("parts", "part")
	r.words("of")
	return it, r.thing(&it)
}

func isWhy(err error, why quantity.Why) bool {
	re, ok := err.(*quantity.ReadError) //nolint:errorlint // made by quantity one call ago, never wrapped.
	return ok && re.Why == why
}

var numberWords = []string{
	"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
	"thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen", "twenty",
}

// number reads a figure or a number word.
func (r *reader) number(it *item) error {
	r.space()
	for n, w := range numberWords {
		if r.words(w) {
			it.value = quantity.Int(int64(n))
			return nil
		}
	}
	if r.words("a", "an") {
		it.value = quantity.Int(1)
		return nil
	}
	v, end, err := quantity.ScanRatio(r.text, r.at)
	if err != nil {
		return err
	}
	it.value, r.at = v, end
	return nil
}

// unit reads a unit of volume where one stands.
func (r *reader) unit(it *item) error {
	was := r.at
	r.space()
	one, end, err := quantity.ScanVolumeUnit(r.text, r.at, r.o.Ounce)
	switch {
	case err == nil:
		it.one, r.at = one, end
	case isWhy(err, quantity.WhyWhichOunce), isWhy(err, quantity.WhyIsMass):
		return r.as(err)
	default:
		r.at = was
	}
	return nil
}

var things = []struct {
	text string
	is   thing
}{
	{"stock solution", chemical},
	{"stock", chemical},
	{"concentrated", chemical},
	{"concentrate", chemical},
	{"chemical", chemical},
	{"paper developer", chemical},
	{"film developer", chemical},
	{"developer", chemical},
	{"fixer", chemical},
	{"stop bath", chemical},
	{"washing aid", chemical},
	{"wetting agent", chemical},
	{"toner", chemical},
	{"solution a", partA},
	{"solution b", partB},
	{"a", partA},
	{"b", partB},
	{"tap water", water},
	{"distilled water", water},
	{"cold water", water},
	{"warm water", water},
	{"water", water},
	{"working solution", whole},
	{"ready solution", whole},
	{"solution", whole},
}

// thing reads what is counted, where it is named: "stock", "developer concentrate", "water".
func (r *reader) thing(it *item) error {
	for {
		at, n := r.at, 0
		for _, t := range things {
			if !r.words(t.text) {
				continue
			}
			if it.is != unnamed && it.is != t.is {
				r.at = at
				return nil
			}
			it.is, n = t.is, n+1
			it.isStock = it.isStock || strings.HasPrefix(t.text, "stock")
			break
		}
		if n == 0 {
			return nil
		}
	}
}

// percent takes a percent sign.
func (r *reader) percent() bool { return r.words("%", "percent", "per cent") }

// end refuses whatever is left.
func (r *reader) end() error {
	r.words(".")
	r.space()
	if r.at < len(r.text) {
		return r.fail(r.at, Trailing)
	}
	return nil
}

func (r *reader) space() {
	r.at = len(r.text) - len(strings.TrimLeftFunc(r.text[r.at:], unicode.IsSpace))
}

// words takes the first of the given phrases that stands here, in capitals or not, as words of their own.
func (r *reader) words(phrases ...string) bool {
	was := r.at
	r.space()
	for _, p := range phrases {
		if n := startsWith(r.text[r.at:], p); n > 0 {
			r.at += n
			return true
		}
	}
	r.at = was
	return false
}

// startsWith returns how much of the start of text is the phrase, any spaces for each of its own, or 0.
func startsWith(text, phrase string) int {
	at := 0
	var last rune
	for _, want := range phrase {
		last = want
		if want == ' ' {
			rest := strings.TrimLeftFunc(text[at:], unicode.IsSpace)
			if len(rest) == len(text)-at {
				return 0
			}
			at = len(text) - len(rest)
			continue
		}
		got, n := utf8.DecodeRuneInString(text[at:])
		if unicode.ToLower(got) != want {
			return 0
		}
		at += n
	}
	next, _ := utf8.DecodeRuneInString(text[at:])
	if unicode.IsLetter(last) && unicode.IsLetter(next) {
		return 0
	}
	return at
}
