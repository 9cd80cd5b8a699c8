package wash

import (
	"math"
	"strings"

	"wetside/trade/material"
	"wetside/trade/quantity"
)

// A Found is what a residual-thiosulfate test found: a Stain, or where none is seen a figure between Least and Most, g/m². A
// plain figure has both alike; an infinite Most is a figure that is only known to be over Least.
type Found struct {
	Stain       Stain
	Least, Most float64
}

// Measured returns what a test in figures found, g/m².
func Measured(left float64) Found { return Found{Least: left, Most: left} }

// AnyStain returns what a drop found that left some stain, nobody said how dark: more than what nothing stands for.
func AnyStain() Found {
	_, least := NoStain.Between()
	_, most := DarkStain.Between()
	return Found{Least: least.Value, Most: most.Value}
}

// Between returns what may have been left, g/m². A stain is a class and not a figure, and nothing to be seen is not
// nothing left; over a figure is up to ten times as much, as a dark stain is (from memory).
func (f Found) Between() (least, most float64) {
	const decade = 10
	switch {
	case f.Stain != StainUnsaid:
		l, m := f.Stain.Between()
		return l.Value, m.Value
	case f.Least == 0 && f.Most == 0: // no test tells nothing from very little
		_, m := NoStain.Between()
		return 0, m.Value
	case math.IsInf(f.Most, 1):
		return f.Least, f.Least * decade
	}
	return f.Least, f.Most
}

// Plain reports whether it is one figure and not a class or a range.
func (f Found) Plain() bool { return f.Stain == StainUnsaid && f.Least == f.Most && f.Least != 0 }

// check returns the first thing that is malformed, or nil.
func (f Found) check() error {
	switch {
	case f.Stain != StainUnsaid && f.Stain.String() == "":
		return &ProblemError{WhyMissing, "result", float64(f.Stain)}
	case f.Stain != StainUnsaid:
		return nil
	case !(f.Least >= 0):
		return &ProblemError{WhyNegative, "result", f.Least}
	case f.Least > mostStart || f.Most > mostStart && !math.IsInf(f.Most, 1) || math.IsInf(f.Most, 1) && f.Least == 0:
		return &ProblemError{WhyTooLarge, "result", max(f.Least, f.Most)}
	case !(f.Most >= f.Least):
		return &ProblemError{WhyNegative, "result", f.Most}
	case f.Most > 0 && f.Most < leastMeasured:
		return &ProblemError{WhyMissing, "result", f.Most}
	}
	return nil
}

// ReadFound reads what a residual test found: none, faint, clear or dark, as a drop's stain is; or a figure with its unit or
// without: 0.05 g/m2, under 0.01 g/m², over 0.1, 0.03 to 0.1 g/m2. A figure may be less than nothing: Calibrate refuses
// it. The error is a *quantity.ReadError.
func ReadFound(text string) (Found, error) {
	said := strings.ToLower(strings.Join(strings.Fields(text), " "))
	var words []string
	for _, s := range Stains() {
		words = append(words, s.String())
		if said == s.String() || said == s.String()+" stain" || s == NoStain && said == "no stain" {
			return Found{Stain: s}, nil
		}
	}
	if said == "" {
		return Found{}, &quantity.ReadError{Want: "residual test", Why: quantity.WhyEmpty}
	}
	if !strings.ContainsAny(said, "0123456789½¼¾") {
		return Found{}, material.UnknownWord(text, "residual test", words...)
	}
	plain := strings.Join(strings.Fields(text), " ")
	word, rest, _ := strings.Cut(plain, " ")
	from, to, both := strings.Cut(plain, " to ")
	var f Found
	var err error
	switch {
	case strings.EqualFold(word, "under"):
		f.Most, err = ReadPerSquareMetre(rest)
	case strings.EqualFold(word, "over"):
		f.Least, err = ReadPerSquareMetre(rest)
		f.Most = math.Inf(1)
	case both:
		if f.Most, err = ReadPerSquareMetre(to); err == nil {
			f.Least, err = ReadPerSquareMetre(from)
		}
		if err == nil && f.Least >= f.Most {
			err = quantity.NewReadError(text, 0, "range", quantity.WhyReversed)
		}
	default:
		f.Least, err = ReadPerSquareMetre(plain)
		f.Most = f.Least
	}
	if err != nil {
		return Found{}, err
	}
	return f, nil
}

// ReadPerSquareMetre reads an amount on paper or film, g/m²: 0.03, 0.03 g/m2, 0.03 g/m². The error is a *quantity.ReadError.
func ReadPerSquareMetre(text string) (float64, error) {
	text = strings.TrimSuffix(strings.ReplaceAll(text, "²", "2"), "g/m2")
	n, err := quantity.ReadRatio(strings.TrimSpace(text))
	return n.Float(), err
}

// ReadWay reads which way somebody washed: still, running, cascade or standing, in a word or as the way's key. The error is a
// *quantity.ReadError.
func ReadWay(text string) (Way, error) {
	said := strings.ReplaceAll(strings.ToLower(strings.Join(strings.Fields(text), " ")), "_", " ")
	short := []string{"still", "running", "cascade", "standing"}
	for i, w := range []Way{StillChanges, Running, Cascade, StandingTray} {
		if said == short[i] || said == strings.ReplaceAll(w.String(), "_", " ") || w == Running && said == "running water" {
			return w, nil
		}
	}
	if said == "" {
		return NoWay, &quantity.ReadError{Want: "way of washing", Why: quantity.WhyEmpty}
	}
	return NoWay, material.UnknownWord(text, "way of washing", short...)
}

// UsualWay is the way that was washed where nobody said: changes where some were counted or no water runs, else running water.
func UsualWay(s Setting, changes int) Way {
	if changes > 0 || s.Flow == 0 {
		return StillChanges
	}
	return Running
}
