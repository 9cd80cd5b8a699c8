package darkroom

import (
	"errors"
	"regexp"
	"strconv"
	"strings"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// ReadCapacity reads what so much of a bath does: "50 8x10 in per L", "1 m2 per L", "20 rolls per L",
// "30 8x10 in per bottle". The error is a *quantity.ReadError.
func ReadCapacity(text string, o quantity.Ounce) (Capacity, error) {
	var c Capacity
	i := strings.LastIndex(text, " per ")
	if i < 0 {
		return c, unreadable(text, "capacity")
	}
	work, per := strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+len(" per "):])
	number, unit, _ := strings.Cut(work, " ")
	n, err := quantity.ReadRatio(number)
	if err == nil {
		err = positive(n.Float(), maxSheets, text, "capacity")
	}
	if err != nil {
		return Capacity{}, err
	}
	if err := c.work(n.Float(), strings.TrimSpace(unit)); err != nil {
		return Capacity{}, err
	}
	if err := c.per(per, o); err != nil {
		return Capacity{}, err
	}
	return c, nil
}

// work sets the area or the rolls of n units.
func (c *Capacity) work(n float64, unit string) error {
	switch strings.ToLower(unit) {
	case "m2", "m²", "sq m", "square metres", "square meters":
		c.Area = quantity.Area(n)
		return nil
	case "roll", "rolls", "film", "films":
		c.Rolls = n
		return nil
	}
	for _, word := range []string{"sheets of ", "sheets ", "sheet "} {
		unit = strings.TrimPrefix(unit, word)
	}
	w, h, err := quantity.ReadSize(unit)
	if err != nil {
		return err
	}
	if w <= 0 || h <= 0 {
		return unreadable(unit, "capacity")
	}
	const perSquareMetre = 1e6 // mm²
	c.Area = quantity.Area(n * float64(w) * float64(h) / perSquareMetre)
	return nil
}

// per sets of how much.
func (c *Capacity) per(text string, o quantity.Ounce) error {
	if squeeze(text) == "bottle" {
		c.PerBottle = true
		return nil
	}
	v, err := quantity.ReadVolume(text, o)
	if read, ok := errors.AsType[*quantity.ReadError](err); ok && read.Why == quantity.WhyNoNumber {
		v, err = quantity.ReadVolume("1 "+text, o)
	}
	if err == nil && v <= 0 {
		err = &quantity.ReadError{Text: cut(text), Want: "capacity", Why: quantity.WhyNotPositive}
	}
	c.Per = v
	return err
}

// ReadSilver reads a silver content in g/L: "0.5 g/L". The error is a *quantity.ReadError.
func ReadSilver(text string) (float64, error) {
	low := strings.ToLower(strings.TrimSpace(text))
	for _, unit := range []string{"g/l", "g per l", "g per litre", "g per liter"} {
		if number, ok := strings.CutSuffix(low, unit); ok {
			r, err := quantity.ReadRatio(number)
			return r.Float(), err
		}
	}
	return 0, &quantity.ReadError{Text: cut(text), Want: "silver", Why: quantity.WhyNoUnit, Near: "g/L"}
}

// ReadRange reads a share of a label: "1 to 2 %", "1-2 %", "5 %", "< 1 %". The error is a *quantity.ReadError.
func ReadRange(text string) (Range, error) {
	for _, under := range []string{"<", "≤", "under ", "below ", "up to "} {
		if rest, ok := strings.CutPrefix(text, under); ok {
			to, err := quantity.ReadShare(strings.TrimSpace(rest))
			if err == nil {
				err = positive(to, 1, text, "share")
			}
			if err != nil {
				return Range{}, err
			}
			return Range{To: to}, nil
		}
	}
	from, to, several := twoEnds(text)
	high, err := quantity.ReadShare(to)
	if err != nil {
		return Range{}, err
	}
	low := high
	if several {
		if !strings.Contains(from, "%") {
			from += " %"
		}
		if low, err = quantity.ReadShare(from); err != nil {
			return Range{}, err
		}
	}
	switch {
	case low > high:
		return Range{}, &quantity.ReadError{Text: cut(text), Want: "share", Why: quantity.WhyReversed}
	case high > 1:
		return Range{}, &quantity.ReadError{Text: cut(text), Want: "share", Why: quantity.WhyTooLarge}
	}
	return Range{low, high}, nil
}

// twoEnds parts "1 to 2 %" and "1-2 %".
func twoEnds(text string) (from, to string, several bool) {
	for _, between := range []string{" to ", "–", "-"} {
		if from, to, ok := strings.Cut(text, between); ok && from != "" {
			return strings.TrimSpace(from), strings.TrimSpace(to), true
		}
	}
	return "", strings.TrimSpace(text), false
}

// ReadPermissible reads a room's own error limit: "5 mL", "2 %", "5 mL, 2 %" (the larger), or "0.1 g" of a
// balance, for which mass is true. The error is a *quantity.ReadError.
func ReadPermissible(text string, o quantity.Ounce) (p measure.Permissible, mass bool, err error) {
	parts := strings.Split(atCommas(text), "\n")
	for _, part := range parts {
		part = strings.TrimSpace(part)
		var figure *float64
		var v float64
		if strings.HasSuffix(part, "%") {
			figure = &p.Rel
			if v, err = quantity.ReadShare(part); err == nil {
				err = positive(v, 1, text, "error")
			}
		} else {
			figure = &p.Abs
			v, mass, err = readAbsolute(part, o)
		}
		switch {
		case err != nil:
			return measure.Permissible{}, false, err
		case v <= 0:
			return measure.Permissible{}, false, positive(v, 1, text, "error")
		case *figure != 0 || len(parts) > 2:
			return measure.Permissible{}, false, unreadable(text, "error")
		}
		*figure = v
	}
	return p, mass, nil
}

// readAbsolute reads a volume in mL or a mass in grams.
func readAbsolute(text string, o quantity.Ounce) (v float64, mass bool, err error) {
	volume, err := quantity.ReadVolume(text, o)
	if read, ok := errors.AsType[*quantity.ReadError](err); ok && read.Why == quantity.WhyIsMass {
		g, err := quantity.ReadMass(text)
		return float64(g), true, err
	}
	return volume.ML(), false, err
}

// atCommas turns the commas that part figures, not those within one (0,5 mL), into line ends.
func atCommas(text string) string {
	b := []byte(text)
	for i := range b {
		within := i > 0 && i+1 < len(b) && digit(b[i-1]) && digit(b[i+1])
		if b[i] == ',' && !within {
			b[i] = '\n'
		}
	}
	return string(b)
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// Reuse is what becomes of a film developer after use.
type Reuse struct {
	OneShot   bool
	Longer    float64         // relative, of the time, for every roll that went through
	Replenish quantity.Volume // for every roll
}

var longerPattern = regexp.MustCompile(`^\+?\s*([\d.,]+\s*%) per roll$`)

// ReadReuse reads "one-shot", "+10 % per roll", "replenish 20 mL per roll". The error is a *quantity.ReadError.
func ReadReuse(text string, o quantity.Ounce) (Reuse, error) {
	low := strings.ToLower(strings.Join(strings.Fields(text), " "))
	if squeeze(low) == "oneshot" {
		return Reuse{OneShot: true}, nil
	}
	if m := longerPattern.FindStringSubmatch(low); m != nil {
		s, err := quantity.ReadShare(m[1])
		if err == nil {
			err = positive(s, 1, text, "reuse")
		}
		if err != nil {
			return Reuse{}, err
		}
		return Reuse{Longer: s}, nil
	}
	if rest, ok := strings.CutPrefix(low, "replenish "); ok {
		if rest, ok = strings.CutSuffix(rest, " per roll"); ok {
			v, err := quantity.ReadVolume(rest, o)
			if err == nil {
				err = positive(v.ML(), maxVessel.ML(), text, "reuse")
			}
			if err != nil {
				return Reuse{}, err
			}
			return Reuse{Replenish: v}, nil
		}
	}
	return Reuse{}, unreadable(text, "reuse")
}

// readPackets reads "1 packet", "3 packets".
func readPackets(text string) (int, bool) {
	number, unit, _ := strings.Cut(text, " ")
	unit = strings.ToLower(strings.TrimSpace(unit))
	n, err := strconv.Atoi(number)
	return n, err == nil && (unit == "packet" || unit == "packets")
}

// positive is the error for a figure that is not above 0 or is above high, nil for others.
func positive(figure, high float64, text, want string) error {
	switch {
	case figure <= 0:
		return &quantity.ReadError{Text: cut(text), Want: want, Why: quantity.WhyNotPositive}
	case figure > high:
		return &quantity.ReadError{Text: cut(text), Want: want, Why: quantity.WhyTooLarge}
	}
	return nil
}

// unreadable is the error for words that have not the form of what is wanted.
func unreadable(text, want string) error {
	return &quantity.ReadError{Text: cut(text), Want: want, Why: whyUnreadable}
}

// whyUnreadable is the reason where words have not the form of what is wanted.
const whyUnreadable quantity.Why = quantity.Why(ProblemUnreadable)
