package quantity

import "math"

// Masses in grams. Source: avoirdupois pound of 453.59237 g, of 16 ounces or 7000 grains.
const (
	gramsPerPound = 453.59237
	gramsPerOunce = gramsPerPound / 16
	gramsPerGrain = gramsPerPound / 7000
)

var massNames = []named[float64]{
	{"g", 1},
	{"gm", 1},
	{"gms", 1},
	{"gram", 1},
	{"grams", 1},
	{"gramme", 1},
	{"grammes", 1},
	{"kg", 1000},
	{"kilogram", 1000},
	{"kilograms", 1000},
	{"kilogramme", 1000},
	{"kilogrammes", 1000},
	{"mg", 0.001},
	{"milligram", 0.001},
	{"milligrams", 0.001},
	{"gr", gramsPerGrain},
	{"grain", gramsPerGrain},
	{"grains", gramsPerGrain},
	{"oz av", gramsPerOunce},
	{"oz avdp", gramsPerOunce},
	{"oz avoirdupois", gramsPerOunce},
	{"av oz", gramsPerOunce},
	{"avoirdupois oz", gramsPerOunce},
	{"avoirdupois ounce", gramsPerOunce},
	{"avoirdupois ounces", gramsPerOunce},
	{"lb", gramsPerPound},
	{"lbs", gramsPerPound},
	{"lb av", gramsPerPound},
	{"pound", gramsPerPound},
	{"pounds", gramsPerPound},
}

func takesMass(s *scan) bool {
	_, ok := unit(s, massNames)
	return ok
}

// maxFloat is the largest figure of a mass or a length that is read, in g and mm.
const maxFloat = 1e7

// ReadMass reads a mass, 0 or more: g, kg, mg, gr or grain, oz av, lb. A bare oz is a volume and refused.
func ReadMass(text string) (Mass, error) {
	s, err := open(text, "mass")
	if err != nil {
		return 0, err
	}
	g, err := s.mass()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, err
	}
	return Mass(g), nil
}

func (s *scan) mass() (float64, error) {
	start := s.at
	n, err := s.number()
	if err != nil {
		return 0, err
	}
	s.space()
	f, err := s.massUnit()
	if err != nil {
		return 0, err
	}
	g := n.float() * f
	if g > maxFloat {
		return 0, s.failAt(start, WhyTooLarge, "")
	}
	return g, nil
}

func (s *scan) massUnit() (float64, error) {
	if f, ok := unit(s, massNames); ok {
		return f, nil
	}
	at, t := s.at, *s
	if _, ok := unit(&t, systemNames); ok {
		t.space()
	}
	w, ok := unit(&t, volumeNames)
	switch {
	case ok && w == ounceWord:
		return 0, s.failAt(at, WhyIsVolume, "oz av")
	case ok:
		return 0, s.failAt(at, WhyIsVolume, "")
	}
	return 0, noUnit(s, massNames)
}

var degreeNames = []named[bool]{ // true: Fahrenheit
	{"°c", false},
	{"° c", false},
	{"ºc", false},
	{"º c", false},
	{"˚c", false},
	{"℃", false},
	{"c", false},
	{"deg c", false},
	{"degrees c", false},
	{"celsius", false},
	{"degrees celsius", false},
	{"°f", true},
	{"° f", true},
	{"ºf", true},
	{"º f", true},
	{"˚f", true},
	{"℉", true},
	{"f", true},
	{"deg f", true},
	{"degrees f", true},
	{"fahrenheit", true},
	{"degrees fahrenheit", true},
}

// The temperatures that are read: absolute zero, and what no darkroom has.
const (
	absoluteZero = -273.15
	hottest      = 1000
)

// ReadCelsius reads a temperature: 60 C, 60 °C, 12C, 140 F, 68 °F; it may be below zero.
func ReadCelsius(text string) (Celsius, error) {
	s, err := open(text, "temperature")
	if err != nil {
		return 0, err
	}
	c, err := s.celsius()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, err
	}
	return c, nil
}

func (s *scan) celsius() (Celsius, error) {
	start, sign := s.at, 1.0
	if s.negative() {
		s.take("-", "−", "–")
		s.space()
		sign = -1
	}
	n, err := s.number()
	if err != nil {
		return 0, err
	}
	s.space()
	f, ok := unit(s, degreeNames)
	if !ok {
		return 0, noUnit(s, degreeNames)
	}
	c := Celsius(sign * n.float())
	if f {
		c = Fahrenheit(sign * n.float())
	}
	switch {
	case c < absoluteZero:
		return 0, s.failAt(start, WhyTooSmall, "")
	case c > hottest:
		return 0, s.failAt(start, WhyTooLarge, "")
	}
	return c + 0, nil
}

// Fahrenheit returns the temperature of f degrees Fahrenheit: (f − 32)·5/9.
func Fahrenheit(f float64) Celsius { return Celsius((f - 32) * 5 / 9) }

// Fahrenheit returns the temperature in degrees Fahrenheit: c·9/5 + 32.
func (c Celsius) Fahrenheit() float64 { return float64(c)*9/5 + 32 }

var lengthNames = []named[float64]{
	{"mm", 1},
	{"millimetre", 1},
	{"millimetres", 1},
	{"millimeter", 1},
	{"millimeters", 1},
	{"cm", 10},
	{"centimetre", 10},
	{"centimetres", 10},
	{"centimeter", 10},
	{"centimeters", 10},
	{"m", 1000},
	{"metre", 1000},
	{"metres", 1000},
	{"meter", 1000},
	{"meters", 1000},
	{"in", 25.4},
	{"ins", 25.4},
	{"inch", 25.4},
	{"inches", 25.4},
	{`"`, 25.4},
	{"″", 25.4},
	{"”", 25.4},
	{"''", 25.4},
	{"′′", 25.4},
	{"’’", 25.4},
	{"ft", 304.8},
	{"foot", 304.8},
	{"feet", 304.8},
}

// ReadLength reads a length above 0: mm, cm, m, in, inch, ", ft.
func ReadLength(text string) (Length, error) {
	s, err := open(text, "length")
	if err != nil {
		return 0, err
	}
	l, err := s.length()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, err
	}
	return l, nil
}

func (s *scan) length() (Length, error) {
	start := s.at
	n, err := s.number()
	if err != nil {
		return 0, err
	}
	s.space()
	f, ok := unit(s, lengthNames)
	if !ok {
		return 0, noUnit(s, lengthNames)
	}
	return s.long(start, n.float()*f)
}

// long checks a length in mm whose number stood at start.
func (s *scan) long(start int, mm float64) (Length, error) {
	switch {
	case mm <= 0:
		return 0, s.failAt(start, WhyNotPositive, "")
	case mm > maxFloat:
		return 0, s.failAt(start, WhyTooLarge, "")
	}
	return Length(mm), nil
}

// ReadSize reads a width and a height: 8x10 in, 8×10", 24x30 cm, 38 x 30 cm. Width comes first as written.
func ReadSize(text string) (w, h Length, err error) {
	s, err := open(text, "size")
	if err != nil {
		return 0, 0, err
	}
	w, h, err = s.size()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, 0, err
	}
	return w, h, nil
}

func (s *scan) size() (w, h Length, err error) {
	start := s.at
	n, err := s.number()
	if err != nil {
		return 0, 0, err
	}
	s.space()
	f1, hasUnit := unit(s, lengthNames)
	if !s.by() {
		if !hasUnit {
			return 0, 0, noUnit(s, lengthNames)
		}
		return 0, 0, s.fail(WhyNoNumber)
	}
	second := s.at
	m, err := s.number()
	if err != nil {
		return 0, 0, err
	}
	s.space()
	f2, ok := unit(s, lengthNames)
	if !ok {
		return 0, 0, noUnit(s, lengthNames)
	}
	if !hasUnit {
		f1 = f2
	}
	if w, err = s.long(start, n.float()*f1); err != nil {
		return 0, 0, err
	}
	h, err = s.long(second, m.float()*f2)
	return w, h, err
}

// by takes what stands between width and height.
func (s *scan) by() bool {
	if s.word("by") {
		return true
	}
	s.space()
	if !s.take("x", "X", "×", "*") {
		return false
	}
	s.space()
	return true
}

// ReadDensity reads "1.10 g/mL", "1.1 kg/L", above 0 and up to 25 g/mL.
func ReadDensity(text string) (Density, error) {
	s, err := open(text, "density")
	if err != nil {
		return 0, err
	}
	d, err := s.density()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, err
	}
	return d, nil
}

// densest is the largest density that is read, above that of every substance (osmium, 22.6 g/mL, from memory).
const densest = 25

func (s *scan) density() (Density, error) {
	start := s.at
	g, err := s.mass()
	if err != nil {
		return 0, err
	}
	s.space()
	if !s.word("per") && !s.take("/") {
		return 0, s.fail(WhyNoUnit)
	}
	s.space()
	_, u, err := s.volumeUnit(NoOunce)
	if err != nil {
		return 0, err
	}
	d := g / u.Volume().ML()
	switch {
	case d <= 0:
		return 0, s.failAt(start, WhyNotPositive, "")
	case d > densest:
		return 0, s.failAt(start, WhyTooLarge, "")
	}
	return Density(d), nil
}

var shareNames = []named[float64]{
	{"%", 0.01},
	{"percent", 0.01},
	{"per cent", 0.01},
	{"pct", 0.01},
}

// ReadShare reads a relative amount, 0 or more: "2 %", "10%", "± 15 %"; "0.1" is refused (it has no unit). 15 % is
// 0.15.
func ReadShare(text string) (float64, error) {
	s, err := open(text, "share")
	if err != nil {
		return 0, err
	}
	if s.take("±") {
		s.space()
	}
	f, err := s.share()
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, err
	}
	return f, nil
}

func (s *scan) share() (float64, error) {
	start := s.at
	n, err := s.number()
	if err != nil {
		return 0, err
	}
	s.space()
	if _, ok := unit(s, shareNames); !ok {
		return 0, noUnit(s, shareNames)
	}
	f := n.float() / 100
	if math.IsInf(f, 0) || f > maxFloat {
		return 0, s.failAt(start, WhyTooLarge, "")
	}
	return f, nil
}
