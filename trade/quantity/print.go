package quantity

import (
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
)

// The spaces of printed amounts. Files and JSON take the String methods, whose spaces are plain.
const (
	NoBreak = "\u00a0" // between number and unit
	Thin    = "\u202f" // before %, and it does not break either
)

// furthest is how far a rounded figure may be from the true one, relatively, to be the same amount still.
const furthest = 0.05

// A Style prints computed amounts as a reader is spoken to: rounded to what can be measured. Each method returns
// false, and no text, where the rounded figure would be nothing or more than 5 % off, or is below 0 where there is no
// such thing: such an amount cannot be measured in these units and must be said in other words.
type Style struct {
	System System
	// Short leaves US and imp away before ounces, quarts and gallons: for a room that has but one of them.
	Short bool
	// Figures is how many significant figures a figure has where no rule says otherwise; 0 means three.
	Figures int
}

// In prints a computed volume in a system, three figures of it, the system named: "237 mL", "1.25 L",
// "33.8 US fl oz".
func (v Volume) In(sys System) (text string, ok bool) { return Style{System: sys}.Volume(v) }

// Volume prints a volume. Metric: litres from one litre, whole millilitres from 10, tenths from 1, hundredths below.
// Else fluid ounces, in eighths where it is just so many, and gallons from one gallon; quarts where it is whole or
// half quarts.
func (st Style) Volume(v Volume) (text string, ok bool) {
	if st.System == Metric {
		ml := v.ML()
		switch {
		case math.Round(ml) >= 1000:
			return st.figure(ml/1000, math.MaxInt, NoBreak+"L")
		case ml >= 9.95:
			return st.figure(ml, 0, NoBreak+"mL")
		case ml >= 0.995:
			return st.figure(ml, 1, NoBreak+"mL")
		}
		return st.figure(ml, 2, NoBreak+"mL")
	}
	oz, quart, gallon := UnitUSOunce, UnitUSQuart, UnitUSGallon
	if st.System == Imperial {
		oz, quart, gallon = UnitImperialOunce, UnitImperialQuart, UnitImperialGallon
	}
	inGallons, inQuarts, inOunces := v.InUnit(gallon), v.InUnit(quart), v.InUnit(oz)
	switch {
	case inHalves(inGallons):
		return unbroken(inGallons.fraction()) + st.unit(gallon), true
	case inGallons.num >= inGallons.Den():
		return st.figure(inGallons.Float(), math.MaxInt, st.unit(gallon))
	case inHalves(inQuarts):
		return unbroken(inQuarts.fraction()) + st.unit(quart), true
	case v >= 0 && 8%inOunces.Den() == 0:
		return unbroken(inOunces.fraction()) + st.unit(oz), true
	}
	return st.figure(inOunces.Float(), 2, st.unit(oz))
}

func (st Style) unit(u VolumeUnit) string {
	if st.Short {
		return NoBreak + unbroken(u.Symbol())
	}
	return NoBreak + unbroken(u.String())
}

// unbroken makes the spaces of a text such that no line ends at them.
func unbroken(text string) string { return strings.ReplaceAll(text, " ", NoBreak) }

// Window prints a range of volumes: "900 mL–1 L".
func (st Style) Window(w Window) (text string, ok bool) {
	low, ok1 := st.Volume(w.Min)
	high, ok2 := st.Volume(w.Max)
	if !ok1 || !ok2 {
		return "", false
	}
	unitLow := low[strings.IndexFunc(low, unicode.IsLetter)-len(NoBreak):]
	if strings.HasSuffix(high, unitLow) {
		low = strings.TrimSuffix(low, unitLow)
	}
	return low + "–" + high, true
}

// Mark returns a mark of a scale in unit u as it is printed on jugs, exactly: "100", "27.5", and for ounces and their
// kin "1/2", "2 1/4". False for what no scale has: below 0, or a finer fraction than 128ths.
func (u VolumeUnit) Mark(n Ratio) (text string, ok bool) {
	if n.Sign() < 0 {
		return "", false
	}
	if u.System() != Metric && 128%n.Den() == 0 {
		return n.fraction(), true
	}
	if text, ok := n.decimal(3); ok {
		return text, true
	}
	if n.Den() > 128 {
		return "", false
	}
	return n.fraction(), true
}

// On prints a volume exactly as a mark of a scale in unit u: "27.5 mL", "2 1/2 US fl oz". False where it is none.
func (st Style) On(v Volume, u VolumeUnit) (text string, ok bool) {
	text, ok = u.Mark(v.InUnit(u))
	if !ok {
		return "", false
	}
	return unbroken(text) + st.unit(u), true
}

// Nearest returns the multiple of step that is nearest to v in unit u, the larger of two. False where that would be
// nothing though v is not, or more than 5 % off.
func (v Volume) Nearest(u VolumeUnit, step Ratio) (Ratio, bool) {
	steps, err := v.InUnit(u).Quo(step)
	if err != nil || v < 0 || step.Sign() < 0 {
		return Ratio{}, false
	}
	n, err := Int(int64(math.Floor(steps.Float() + 0.5))).Mul(step)
	if err != nil {
		return Ratio{}, false
	}
	got, err := n.Of(u.Volume())
	return n, err == nil && math.Abs(float64(got-v)) <= furthest*float64(v)
}

// Mass prints a mass. Metric: tenths of a gram, hundredths below a gram, kilograms from one. Else grains below an
// ounce avoirdupois, ounces below a pound, pounds.
func (st Style) Mass(m Mass) (text string, ok bool) {
	g := float64(m)
	switch {
	case st.System == Metric && math.Round(g) >= 1000:
		return st.figure(g/1000, math.MaxInt, NoBreak+"kg")
	case st.System == Metric && g >= 0.995:
		return fixed(g, 1, NoBreak+"g")
	case st.System == Metric:
		return fixed(g, 2, NoBreak+"g")
	case g >= pound.Float():
		return st.figure(g/pound.Float(), math.MaxInt, NoBreak+"lb")
	case g >= ounce.Float():
		return st.figure(g/ounce.Float(), math.MaxInt, NoBreak+"oz"+NoBreak+"av")
	}
	return st.figure(g/grain.Float(), 1, NoBreak+"gr")
}

// Length prints a length. Metric: millimetres below 100, tenths of them below 10, centimetres below 10 m. Else inches
// to the nearest sixteenth.
func (st Style) Length(l Length) (text string, ok bool) {
	mm := float64(l)
	switch {
	case st.System != Metric:
		return inSixteenths(mm / inch.Float())
	case mm >= 9995:
		return st.figure(mm/1000, math.MaxInt, NoBreak+"m")
	case mm >= 99.5:
		return st.figure(mm/10, 1, NoBreak+"cm")
	case mm >= 9.95:
		return st.figure(mm, 0, NoBreak+"mm")
	}
	return st.figure(mm, 1, NoBreak+"mm")
}

func inSixteenths(in float64) (string, bool) {
	n, err := NewRatio(int64(min(in*16+0.5, most)), 16)
	if err != nil || !same(n.Float(), in) {
		return "", false
	}
	return unbroken(n.fraction()) + NoBreak + "in", true
}

// Area prints an area. Metric: square centimetres below a tenth of a square metre. Else square inches below three
// square feet.
func (st Style) Area(a Area) (text string, ok bool) {
	m2 := float64(a)
	switch {
	case st.System == Metric && m2 >= 0.09995:
		return st.figure(m2, math.MaxInt, NoBreak+"m²")
	case st.System == Metric:
		return st.figure(m2*1e4, math.MaxInt, NoBreak+"cm²")
	case m2 >= 3*squareFoot.Float():
		return st.figure(m2/squareFoot.Float(), math.MaxInt, NoBreak+"ft²")
	}
	return st.figure(m2/squareInch.Float(), math.MaxInt, NoBreak+"in²")
}

// Temperature prints a temperature to the half degree Celsius, or to the whole degree Fahrenheit where the system is
// not metric. False for what is none: not a number, below absolute zero.
func (st Style) Temperature(c Celsius) (text string, ok bool) {
	if !(c >= absoluteZero && c <= hottest) {
		return "", false
	}
	if st.System == Metric {
		return degrees(math.Round(float64(c)*2)/2) + NoBreak + "°C", true
	}
	return degrees(math.Round(c.Fahrenheit())) + NoBreak + "°F", true
}

// TemperatureRead prints a temperature as an instrument showed it, to the tenth of a degree. False as for Temperature.
func (st Style) TemperatureRead(c Celsius) (text string, ok bool) {
	if !(c >= absoluteZero && c <= hottest) {
		return "", false
	}
	if st.System == Metric {
		return degrees(math.Round(float64(c)*10)/10) + NoBreak + "°C", true
	}
	return degrees(math.Round(c.Fahrenheit()*10)/10) + NoBreak + "°F", true
}

// TemperatureDifference prints a difference of temperatures likewise: 10 °C are 18 °F. False where it would be
// nothing.
func (st Style) TemperatureDifference(c Celsius) (text string, ok bool) {
	step, value, sign := 0.5, float64(c), "°C"
	if st.System != Metric {
		step, value, sign = 1, float64(c)*9/5, "°F"
	}
	rounded := math.Round(value/step) * step
	if !(math.Abs(rounded) <= hottest) || rounded == 0 && c != 0 {
		return "", false
	}
	return degrees(rounded) + NoBreak + sign, true
}

func degrees(f float64) string { return strings.Replace(plain(f+0), "-", "−", 1) }

// Duration prints a duration to the second, or to a tenth below ten seconds: "45 s", "1 min 30 s", "3 h".
func (st Style) Duration(d time.Duration) (text string, ok bool) {
	step := time.Second
	if d < 10*time.Second {
		step = time.Second / 10
	}
	r := d.Round(step)
	if d < 0 || !same(float64(r), float64(d)) {
		return "", false
	}
	return unbroken(Duration(r)), true
}

// Density prints a density in grams per millilitre; no other unit of it is in use in a darkroom.
func (st Style) Density(d Density) (text string, ok bool) {
	return st.figure(float64(d), math.MaxInt, NoBreak+"g/mL")
}

// Share prints a relative amount in percent, whole from ten, else in tenths: 0.07 is "7 %". It may be below 0.
func (st Style) Share(f float64) (text string, ok bool) {
	places := 1
	if math.Abs(f) >= 0.0995 {
		places = 0
	}
	text, ok = fixed(math.Abs(f*100), places, Thin+"%")
	if ok && f < 0 {
		text = "−" + text
	}
	return text, ok
}

// PlusMinus prints an uncertainty in percent: "±7 %".
func (st Style) PlusMinus(f float64) (text string, ok bool) {
	text, ok = st.Share(math.Abs(f))
	if !ok {
		return "", false
	}
	return "±" + text, true
}

// figure prints f with the style's significant figures, at most so many of them decimals.
func (st Style) figure(f float64, maxDecimals int, unit string) (string, bool) {
	figures := st.Figures
	if figures == 0 {
		figures = 3
	}
	magnitude := 0
	if f > 0 {
		_, e, _ := strings.Cut(strconv.FormatFloat(f, 'e', figures-1, 64), "e")
		magnitude, _ = strconv.Atoi(e) // FormatFloat's own
	}
	return fixed(f, max(0, min(figures-1-magnitude, maxDecimals)), unit)
}

// fixed prints f with so many decimals at most, where that is near enough to f to be the same amount.
func fixed(f float64, decimals int, unit string) (string, bool) {
	if f < 0 || f > math.MaxInt32 || decimals > 12 {
		return "", false
	}
	text := strconv.FormatFloat(f, 'f', decimals, 64)
	if decimals > 0 {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	got, _ := strconv.ParseFloat(text, 64) // FormatFloat's own
	if !same(got, f) {
		return "", false
	}
	return text + unit, true
}

// same tells whether got may stand for f.
func same(got, f float64) bool { return math.Abs(got-f) <= furthest*math.Abs(f) }

// plain writes f in full, without an exponent.
func plain(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) }

// backTo returns what reading text with a unit of that factor gives.
func backTo(text string, factor float64) float64 {
	f, _ := strconv.ParseFloat(text, 64) // plain's own
	return f * factor
}
