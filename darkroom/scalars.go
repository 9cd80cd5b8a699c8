package darkroom

import (
	"errors"
	"regexp"
	"strconv"
	"strings"
	"time"

	"wetside/darkroom/outline"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// Bounds. Those of vessels, water and sheets are the contract's; the rest are far beyond what a darkroom has,
// and catch a slip of the pen.
const (
	maxVessel = 200 * quantity.Litre
	maxHeld   = 1000 * quantity.Litre // by a bottle or a pack: an IBC container
	maxSheets = 100_000
	maxPeople = 1000
)

func volume(high quantity.Volume, highText string) scalar[quantity.Volume] {
	return above(withOunce("volume", quantity.ReadVolume), high, highText)
}

func mass(high quantity.Mass, highText string) scalar[quantity.Mass] {
	return above(quantityOf("mass", quantity.ReadMass), high, highText)
}

func celsius(high quantity.Celsius, highText string) scalar[quantity.Celsius] {
	return within(quantityOf("temperature", quantity.ReadCelsius), 0, high, "0 °C", highText)
}

func length(high quantity.Length, highText string) scalar[quantity.Length] {
	return above(quantityOf("length", quantity.ReadLength), high, highText)
}

func duration(high time.Duration, highText string) scalar[time.Duration] {
	return above(quantityOf("duration", quantity.ReadDuration), high, highText)
}

func share() scalar[float64] {
	return above(quantityOf("share", quantity.ReadShare), 1, "100 %")
}

func density() scalar[quantity.Density] {
	return within(quantityOf("density", quantity.ReadDensity), 0.5, 3, "0.5 g/mL", "3 g/mL")
}

func diluted() scalar[dilution.Dilution] {
	return withOunce("dilution", func(text string, o quantity.Ounce) (dilution.Dilution, error) {
		return dilution.Read(text, dilution.Options{Ounce: o})
	})
}

func period() scalar[quantity.Period] {
	s := quantityOf("period", quantity.ReadPeriod)
	parse := s.parse
	s.parse = func(r *reader, text string) (quantity.Period, *Problem) {
		p, bad := parse(r, text)
		if bad == nil && p == (quantity.Period{}) {
			bad = &Problem{Kind: ProblemNotPositive}
		}
		return p, bad
	}
	return s
}

// size is a sheet's or a roll's.
func size() scalar[material.Size] {
	s := quantityOf("size", material.ReadSize)
	s.schema = func() *shape {
		return &shape{AnyOf: []*shape{schemaOfText(), {Const: 120}}}
	}
	return s
}

// inside is the inside of a tray, up to 3 m a side.
func inside() scalar[Size] {
	s := quantityOf("size", func(text string) (Size, error) {
		w, h, err := quantity.ReadSize(text)
		return Size{Width: w, Height: h}, err
	})
	parse := s.parse
	s.parse = func(r *reader, text string) (Size, *Problem) {
		v, p := parse(r, text)
		switch {
		case p != nil:
		case v.Width <= 0 || v.Height <= 0:
			p = &Problem{Kind: ProblemNotPositive}
		case v.Width > material.MaxSide || v.Height > material.MaxSide:
			p = &Problem{Kind: ProblemOutOfBounds, Expected: Expected{High: "3 m"}}
		}
		return v, p
	}
	return s
}

// part is more than nothing and at most the whole.
func part() scalar[quantity.Ratio] {
	return ratio("part", func(r quantity.Ratio) *Problem {
		switch {
		case r.Sign() <= 0:
			return &Problem{Kind: ProblemNotPositive, Expected: Expected{High: "1"}}
		case r.Cmp(quantity.Int(1)) > 0:
			return &Problem{Kind: ProblemOutOfBounds, Expected: Expected{High: "1"}}
		}
		return nil
	})
}

// mark is a figure of a scale: nothing or more, or more than nothing.
func mark(fromZero bool) scalar[quantity.Ratio] {
	return ratio("mark", func(r quantity.Ratio) *Problem {
		switch {
		case r.Sign() < 0:
			return &Problem{Kind: ProblemNegative}
		case r.Sign() == 0 && !fromZero:
			return &Problem{Kind: ProblemNotPositive}
		case r.Cmp(quantity.Int(1_000_000)) > 0:
			return &Problem{Kind: ProblemOutOfBounds, Expected: Expected{High: "1,000,000"}}
		}
		return nil
	})
}

func ratio(what string, look func(quantity.Ratio) *Problem) scalar[quantity.Ratio] {
	s := quantityOf(what, quantity.ReadRatio)
	parse := s.parse
	s.parse = func(r *reader, text string) (quantity.Ratio, *Problem) {
		v, p := parse(r, text)
		if p == nil {
			p = look(v)
		}
		return v, p
	}
	s.schema = schemaOfNumber
	return s
}

// count is a whole number from low to high.
func count(low, high int) scalar[int] {
	return scalar[int]{
		what: "count",
		parse: func(_ *reader, text string) (int, *Problem) {
			expected := Expected{Low: strconv.Itoa(low), High: thousands(high)}
			n, err := strconv.Atoi(text)
			switch {
			case errors.Is(err, strconv.ErrRange):
				return 0, &Problem{Kind: ProblemOutOfBounds, Expected: expected}
			case err != nil || n < low:
				return 0, &Problem{Kind: ProblemNotACount, Expected: expected}
			case n > high:
				return 0, &Problem{Kind: ProblemOutOfBounds, Expected: expected}
			}
			return n, nil
		},
		schema: func() *shape { return schemaOfCount(low, high) },
	}
}

// counted makes the kind of a count whose zero was not given.
func counted(s scalar[int]) kind[int] {
	return bare(s, func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	})
}

var (
	pricePattern  = regexp.MustCompile(`^\d{1,9}([.,]\d{1,2})?$`)
	hazardPattern = regexp.MustCompile(`^(H[2-4]\d\d|EUH\d\d\d)[A-Za-z]{0,2}$`)
)

// price is a sum of money in hundredths, exactly as it is written.
func price() scalar[int64] {
	return scalar[int64]{
		what: "price",
		parse: func(_ *reader, text string) (int64, *Problem) {
			if strings.HasPrefix(text, "-") {
				return 0, &Problem{Kind: ProblemNegative}
			}
			if !pricePattern.MatchString(text) {
				return 0, &Problem{Kind: ProblemUnreadable}
			}
			whole, hundredths, _ := strings.Cut(strings.Replace(text, ",", ".", 1), ".")
			n, err := strconv.ParseInt(whole+(hundredths + "00")[:2], 10, 64)
			if err != nil {
				return 0, &Problem{Kind: ProblemUnreadable}
			}
			return n, nil
		},
		schema: schemaOfNumber,
	}
}

// yes is a yes or a no.
func yes() scalar[bool] {
	s := word("yes or no", []choice[bool]{{"yes", true, []string{"true"}}, {"no", false, []string{"false"}}})
	s.schema = func() *shape {
		return &shape{Enum: []any{"yes", "no", true, false}}
	}
	return s
}

// date is a day, at midnight UTC.
func date() scalar[time.Time] { return moment("date", time.DateOnly) }

// start is a day and a time of day by the room's own clock, kept as if it were UTC.
func start() scalar[time.Time] { return moment("moment", "2006-01-02 15:04", "2006-01-02T15:04") }

func moment(what string, layouts ...string) scalar[time.Time] {
	return scalar[time.Time]{
		what: what,
		parse: func(_ *reader, text string) (time.Time, *Problem) {
			for _, layout := range layouts {
				t, err := time.Parse(layout, text)
				parse, wrong := errors.AsType[*time.ParseError](err)
				switch {
				case err == nil && (t.Year() < 1900 || t.Year() > 2199):
					return t, &Problem{Kind: ProblemOutOfBounds, Expected: Expected{Low: "1900", High: "2199"}}
				case err == nil:
					return t, nil
				case wrong && strings.Contains(parse.Message, "out of range"):
					return t, &Problem{Kind: ProblemNoSuchDate}
				}
			}
			return time.Time{}, &Problem{Kind: ProblemUnreadable}
		},
		schema: schemaOfText,
	}
}

// text is the kind of free words on one line.
func text() kind[string] { return textWhere("text", func(string) bool { return true }) }

// textWhere is text that has to look right.
func textWhere(what string, right func(string) bool) kind[string] {
	return words(what, func(s string) bool { return right(s) && !strings.ContainsAny(s, "\n\t") })
}

// words is the kind of free words, on several lines if need be.
func words(what string, right func(string) bool) kind[string] {
	return kind[string]{
		read: func(r *reader, n *outline.Node) string {
			text, ok := r.text(n)
			if ok && !right(text) {
				r.bad(n, Problem{Kind: ProblemUnreadable, Expected: Expected{What: what}})
				return ""
			}
			return text
		},
		write: func(text string) *outline.Node {
			if text == "" {
				return nil
			}
			return &outline.Node{Kind: outline.Scalar, Text: text, Words: true}
		},
		schema: schemaOfText,
	}
}

func materials() []choice[material.Material] {
	choices := named(material.All())
	choices[0].others = []string{"RC", "resin-coated paper"}
	choices[1].others = []string{"FB", "fibre paper", "fiber paper", "fibre-base paper", "fiber-base paper"}
	return choices
}

func roles() []choice[process.Role] { return named(process.Roles()) }

func hazard() kind[string] { return textWhere("hazard", hazardPattern.MatchString) }

// thousands prints a whole number with commas between its thousands.
func thousands(n int) string {
	s := strconv.Itoa(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
