package material

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"wetside/trade/quantity"
)

// A Size is a sheet's format or a roll's name.
type Size struct {
	Width, Height quantity.Length // of a sheet, as written; both 0 for a roll
	Roll          Roll            // NoRoll for a sheet
}

// Roll is a roll film's format.
type Roll uint8

// The rolls.
const (
	NoRoll Roll = iota
	Roll135x36
	Roll135x24
	Roll120
)

// Rolls returns the roll films in their order.
func Rolls() []Roll { return []Roll{Roll135x36, Roll135x24, Roll120} }

// String returns the roll's name, 135-36, 135-24 or 120; empty for NoRoll.
func (r Roll) String() string {
	switch r {
	case Roll135x36:
		return "135-36"
	case Roll135x24:
		return "135-24"
	case Roll120:
		return "120"
	case NoRoll:
	}
	return ""
}

// Reel returns the name of the reel that a roll is wound on, 135 or 120, by which a tank says what covers it.
func (r Roll) Reel() string {
	switch r {
	case Roll135x36, Roll135x24:
		return "135"
	case Roll120:
		return "120"
	case NoRoll:
	}
	return ""
}

const (
	inch = 25.4 // mm; exact, NIST HB 44 App. C
	// slack is how far, in its own unit, a length may be from a round one and still be printed as that one.
	slack = 1e-6
	// MinSide is the shortest side of a sheet that is read, in mm: less is no sheet.
	MinSide quantity.Length = 1
	// MaxSide is the longest side of a sheet that is read, in mm: more than paper comes on a roll (from memory).
	MaxSide quantity.Length = 3000
)

// ReadSize reads a sheet's size (8x10 in, 24x30 cm, width first as written) or a roll's name (135-36,
// 135-24, 120). The error is a *quantity.ReadError; a side above MaxSide is too large, one below MinSide too small.
func ReadSize(text string) (Size, error) {
	for _, r := range Rolls() {
		if fold(text) == fold(r.String()) {
			return Size{Roll: r}, nil
		}
	}
	w, h, err := quantity.ReadSize(text)
	if err != nil {
		return Size{}, err
	}
	if !(w > 0 && h > 0) {
		return Size{}, &quantity.ReadError{Text: cut(text), Want: "size", Why: quantity.WhyNotPositive}
	}
	if w < MinSide || h < MinSide {
		return Size{}, &quantity.ReadError{Text: cut(text), Want: "size", Why: quantity.WhyTooSmall}
	}
	if w > MaxSide || h > MaxSide {
		return Size{}, &quantity.ReadError{Text: cut(text), Want: "size", Why: quantity.WhyTooLarge}
	}
	return Size{Width: w, Height: h}, nil
}

// ReadUsual reads a size as ReadSize does, and one without its unit where a sheet of that size is usually sold, either way
// round: 8x10 is inches, 24x30 centimetres. unit is the one that was added, "in" or "cm", empty where none was.
func ReadUsual(text string) (s Size, unit string, err error) {
	if s, err = ReadSize(text); err == nil {
		return s, "", nil
	}
	for _, unit := range []string{"in", "cm"} {
		if s, bare := ReadSize(text + " " + unit); bare == nil && s.Roll == NoRoll && s.usual() {
			return s, unit, nil
		}
	}
	return Size{}, "", err
}

func (s Size) usual() bool {
	return slices.ContainsFunc(Usual(), func(u Size) bool { return s == u || s == u.Turned() })
}

// Sheet returns the size of a sheet of w by h.
func Sheet(w, h quantity.Length) Size { return Size{Width: w, Height: h} }

// Inches returns the size of a sheet of w by h inches.
func Inches(w, h float64) Size {
	return Sheet(inches(w), inches(h))
}

// inches multiplies before it divides, as reading does, so that a size is the same however it came about.
func inches(x float64) quantity.Length { return quantity.Length(x * 127 / 5) }

// Centimetres returns the size of a sheet of w by h centimetres.
func Centimetres(w, h float64) Size {
	return Sheet(quantity.Length(w*10), quantity.Length(h*10))
}

// Turned returns the sheet with its sides exchanged; a roll stays as it is.
func (s Size) Turned() Size { return Size{Width: s.Height, Height: s.Width, Roll: s.Roll} }

// String returns the size as it stands in a darkroom file: 8x10 in where both sides are whole sixteenths of
// an inch, 24x30 cm otherwise; a roll by its name; empty for the zero value.
func (s Size) String() string {
	if s.Roll != NoRoll {
		return s.Roll.String()
	}
	if s == (Size{}) {
		return ""
	}
	w, h := float64(s.Width)/inch, float64(s.Height)/inch
	if sixteenths(w) && sixteenths(h) {
		return number(w) + "x" + number(h) + " in"
	}
	return number(float64(s.Width)/10) + "x" + number(float64(s.Height)/10) + " cm"
}

func sixteenths(in float64) bool { return math.Abs(in*16-math.Round(in*16)) < slack }

// number prints a length without trailing noughts, to a millionth of its unit.
func number(x float64) string {
	return strconv.FormatFloat(math.Round(x*1e6)/1e6, 'f', -1, 64)
}

// Usual returns the sheet sizes that are usually sold, in inches and in centimetres, smallest area first.
// The inch sizes are those of the trade; the centimetre ones are from memory (ISO 1008 was not to be had).
func Usual() []Size {
	all := append(InchSizes(),
		Centimetres(9, 13), Centimetres(10, 15), Centimetres(13, 18), Centimetres(18, 24), Centimetres(24, 30),
		Centimetres(30, 40), Centimetres(40, 50), Centimetres(50, 60),
	)
	slices.SortStableFunc(all, func(a, b Size) int { return cmp.Compare(a.Width*a.Height, b.Width*b.Height) })
	return all
}

// InchSizes returns the usual sheets in inches, smallest first: those that trays are named after.
func InchSizes() []Size {
	return []Size{
		Inches(4, 5), Inches(5, 7), Inches(8, 10), Inches(9.5, 12), Inches(11, 14), Inches(12, 16),
		Inches(16, 20), Inches(20, 24),
	}
}
