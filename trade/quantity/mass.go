package quantity

// Mass is a mass in grams.
type Mass float64

// Masses in grams. Source: avoirdupois pound of 453.59237 g, of 16 ounces or 7000 grains (NIST HB 44 App. C).
var (
	pound = Ratio{45359237, 100_000}
	ounce = Ratio{45359237, 1_600_000}
	grain = Ratio{6479891, 100_000_000}
)

var massNames = []named[Ratio]{
	{"g", Ratio{1, 1}},
	{"gm", Ratio{1, 1}},
	{"gms", Ratio{1, 1}},
	{"gram", Ratio{1, 1}},
	{"grams", Ratio{1, 1}},
	{"gramme", Ratio{1, 1}},
	{"grammes", Ratio{1, 1}},
	{"kg", Ratio{1000, 1}},
	{"kilo", Ratio{1000, 1}},
	{"kilos", Ratio{1000, 1}},
	{"kilogram", Ratio{1000, 1}},
	{"kilograms", Ratio{1000, 1}},
	{"mg", Ratio{1, 1000}},
	{"milligram", Ratio{1, 1000}},
	{"milligrams", Ratio{1, 1000}},
	{"gr", grain},
	{"grain", grain},
	{"grains", grain},
	{"oz av", ounce},
	{"oz avdp", ounce},
	{"oz avoir", ounce},
	{"oz avoirdupois", ounce},
	{"av oz", ounce},
	{"avoirdupois oz", ounce},
	{"avoirdupois ounce", ounce},
	{"avoirdupois ounces", ounce},
	{"lb", pound},
	{"lbs", pound},
	{"lb av", pound},
	{"pound", pound},
	{"pounds", pound},
}

// The figures in g, mm and so on that are read, where they are above 0.
const (
	least = 1e-9
	most  = 1e7
)

// bounded checks a figure that stood at start.
func (s *scan) bounded(start int, f float64) (float64, error) {
	switch {
	case f > most:
		return 0, s.failAt(start, WhyTooLarge)
	case f > 0 && f < least:
		return 0, s.failAt(start, WhyTooSmall)
	}
	return f, nil
}

// positive checks a figure that stood at start and may not be 0.
func (s *scan) positive(start int, f float64) (float64, error) {
	if f == 0 {
		return 0, s.failAt(start, WhyNotPositive)
	}
	return s.bounded(start, f)
}

// figure reads a number with one of the units, and returns it in the unit whose factor is 1.
func (s *scan) figure(names []named[Ratio]) (float64, error) {
	n, err := s.number()
	if err != nil {
		return 0, err
	}
	s.space()
	factor, ok := unit(s, names)
	if !ok {
		return 0, noUnit(s, names)
	}
	return factor.times(n.float()), nil
}

// times returns r × f, rounded once where r's numerator × f is a whole number below 2^53.
func (r Ratio) times(f float64) float64 { return f * float64(r.num) / float64(r.Den()) }

// ReadMass reads a mass, 0 or more: g, kg, mg, gr or grain, oz av, lb. A bare oz is a volume and refused.
func ReadMass(text string) (Mass, error) {
	return read(text, "mass", func(s *scan) (Mass, error) {
		g, err := s.mass()
		return Mass(g), err
	})
}

func (s *scan) mass() (float64, error) {
	start := s.at
	g, err := s.figure(massNames)
	if err != nil {
		return 0, s.volumeForMass(err)
	}
	return s.bounded(start, g)
}

// volumeForMass returns err, or what says it better where the unit that is none of mass is one of volume.
func (s *scan) volumeForMass(err error) error {
	t := *s
	if _, said := unit(&t, systemNames); said {
		t.space()
	}
	switch w, ok := unit(&t, volumeNames); {
	case ok && w == ounceWord:
		return s.failNear(WhyIsVolume, "oz av")
	case ok:
		return s.fail(WhyIsVolume)
	}
	return err
}

// String returns the mass so that ReadMass reads it back: "52.5 g".
func (m Mass) String() string { return plain(float64(m)) + " g" }

// Density is a density in grams per millilitre.
type Density float64

// densest is the largest density that is read, above that of every substance (osmium, 22.6 g/mL, from memory).
const densest = 25

// ReadDensity reads "1.10 g/mL", "1.1 kg/L", above 0 and up to 25 g/mL.
func ReadDensity(text string) (Density, error) {
	return read(text, "density", (*scan).density)
}

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
	one, err := s.oneVolume(NoOunce)
	if err != nil {
		return 0, err
	}
	d, err := s.positive(start, g/one.ML())
	if d > densest {
		return 0, s.failAt(start, WhyTooLarge)
	}
	return Density(d), err
}

// String returns the density so that ReadDensity reads it back: "1.1 g/mL".
func (d Density) String() string { return plain(float64(d)) + " g/mL" }
