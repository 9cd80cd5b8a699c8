package quantity

// Celsius is a temperature in degrees Celsius.
type Celsius float64

// degreeNames tells for each way of writing a degree whether it is Fahrenheit's.
var degreeNames = []named[bool]{
	{"c", false},
	{"° c", false},
	{"º c", false},
	{"˚ c", false},
	{"℃", false},
	{"deg c", false},
	{"degree c", false},
	{"degrees c", false},
	{"celsius", false},
	{"deg celsius", false},
	{"degrees celsius", false},
	{"f", true},
	{"° f", true},
	{"º f", true},
	{"˚ f", true},
	{"℉", true},
	{"deg f", true},
	{"degree f", true},
	{"degrees f", true},
	{"fahrenheit", true},
	{"deg fahrenheit", true},
	{"degrees fahrenheit", true},
}

// The temperatures that are read: absolute zero, and what no darkroom has.
const (
	absoluteZero = -273.15
	hottest      = 1000
)

// ReadCelsius reads a temperature: 60 C, 60 °C, 12C, 140 F, 68 °F. It may be below zero. A bare 20° is refused:
// two scales have it.
func ReadCelsius(text string) (Celsius, error) {
	return read(text, "temperature", func(s *scan) (Celsius, error) {
		f, isF, err := s.degrees()
		if err != nil {
			return 0, err
		}
		c := Celsius(f)
		if isF {
			c = Fahrenheit(f)
		}
		switch {
		case c < absoluteZero:
			return 0, NewReadError(s.text, 0, s.want, WhyTooSmall)
		case c > hottest:
			return 0, NewReadError(s.text, 0, s.want, WhyTooLarge)
		}
		return c, nil
	})
}

// ReadCelsiusDifference reads a difference of temperatures in degrees Celsius: 18 °F are 10 °C, without the offset
// of the scales.
func ReadCelsiusDifference(text string) (Celsius, error) {
	return read(text, "difference of temperatures", func(s *scan) (Celsius, error) {
		f, isF, err := s.degrees()
		switch {
		case err != nil:
			return 0, err
		case f > hottest || f < -hottest:
			return 0, NewReadError(s.text, 0, s.want, WhyTooLarge)
		case isF:
			return Celsius(f * 5 / 9), nil
		}
		return Celsius(f), nil
	})
}

// degrees reads a signed number with a degree.
func (s *scan) degrees() (f float64, isF bool, err error) {
	minus := s.negative()
	if minus {
		s.take("-", "−", "–")
		s.space()
	}
	n, err := s.number()
	if err != nil {
		return 0, false, err
	}
	s.space()
	isF, ok := unit(s, degreeNames)
	if !ok {
		return 0, false, s.noDegree()
	}
	if f = n.float(); minus && f != 0 {
		f = -f
	}
	return f, isF, nil
}

// noDegree says what is wrong where a degree should stand.
func (s *scan) noDegree() error {
	at := s.at
	if s.take("°", "º", "˚"); s.done() {
		return s.failAt(at, WhyNoUnit)
	}
	s.at = at
	return noUnit(s, degreeNames)
}

// Fahrenheit returns the temperature of f degrees Fahrenheit: (f − 32)·5/9.
func Fahrenheit(f float64) Celsius { return Celsius((f - 32) * 5 / 9) }

// Fahrenheit returns the temperature in degrees Fahrenheit: c·9/5 + 32.
func (c Celsius) Fahrenheit() float64 { return float64(c)*9/5 + 32 }

// String returns the temperature so that ReadCelsius reads it back: "20 °C".
func (c Celsius) String() string { return plain(float64(c)) + " °C" }
