package quantity

// A volumeWord is a unit of volume as people write it: so many of one of our units, which may be one of two by the
// ounce in force.
type volumeWord struct {
	times   int // 10 for a centilitre
	us, imp VolumeUnit
}

// ouncy tells whether the word is of the ounce's kin, of which there are two.
func (w volumeWord) ouncy() bool { return w.us != w.imp }

var (
	mlWord     = volumeWord{1, UnitML, UnitML}
	clWord     = volumeWord{10, UnitML, UnitML}
	dlWord     = volumeWord{100, UnitML, UnitML}
	litreWord  = volumeWord{1, UnitLitre, UnitLitre}
	ounceWord  = volumeWord{1, UnitUSOunce, UnitImperialOunce}
	pintWord   = volumeWord{1, UnitUSPint, UnitImperialPint}
	quartWord  = volumeWord{1, UnitUSQuart, UnitImperialQuart}
	gallonWord = volumeWord{1, UnitUSGallon, UnitImperialGallon}
)

var volumeNames = []named[volumeWord]{
	{"ml", mlWord},
	{"mls", mlWord},
	{"cc", mlWord},
	{"c c", mlWord},
	{"ccm", mlWord},
	{"cm3", mlWord},
	{"cm³", mlWord},
	{"㎖", mlWord},
	{"millilitre", mlWord},
	{"millilitres", mlWord},
	{"milliliter", mlWord},
	{"milliliters", mlWord},
	{"cl", clWord},
	{"centilitre", clWord},
	{"centilitres", clWord},
	{"centiliter", clWord},
	{"centiliters", clWord},
	{"dl", dlWord},
	{"l", litreWord},
	{"ℓ", litreWord},
	{"lt", litreWord},
	{"ltr", litreWord},
	{"litre", litreWord},
	{"litres", litreWord},
	{"liter", litreWord},
	{"liters", litreWord},
	{"fl oz", ounceWord},
	{"fl ozs", ounceWord},
	{"oz", ounceWord},
	{"ozs", ounceWord},
	{"fluid oz", ounceWord},
	{"fluid ounce", ounceWord},
	{"fluid ounces", ounceWord},
	{"ounce", ounceWord},
	{"ounces", ounceWord},
	{"pt", pintWord},
	{"pts", pintWord},
	{"pint", pintWord},
	{"pints", pintWord},
	{"qt", quartWord},
	{"qts", quartWord},
	{"quart", quartWord},
	{"quarts", quartWord},
	{"gal", gallonWord},
	{"gals", gallonWord},
	{"gallon", gallonWord},
	{"gallons", gallonWord},
}

var systemNames = []named[Ounce]{
	{"us", OunceUS},
	{"u s", OunceUS},
	{"imperial", OunceImperial},
	{"imp", OunceImperial},
	{"uk", OunceImperial},
	{"u k", OunceImperial},
}

// ReadVolume reads a volume, 0 or more: "100 mL", "1/2 fl oz", "1 US qt". A bare oz is a fluid ounce, never a
// mass; o says which where the words do not. What is not a whole number of units of Volume (1/7 mL) is
// rounded to the nearest one.
func ReadVolume(text string, o Ounce) (Volume, error) {
	return read(text, "volume", func(s *scan) (Volume, error) { return s.volume(o) })
}

// ReadVolumeUnit reads the unit of a scale: "mL", "fl oz", "US fl oz".
func ReadVolumeUnit(text string, o Ounce) (VolumeUnit, error) {
	return read(text, "unit of volume", func(s *scan) (VolumeUnit, error) {
		start := s.at
		w, u, err := s.volumeUnit(o)
		if err == nil && w.times != 1 {
			s.at = start
			err = s.failNear(WhyUnknownUnit, "mL") // no scale is in centilitres
		}
		return u, err
	})
}

// ScanVolumeUnit reads the unit of volume that stands at byte at of text, and returns the volume of one and where
// it ends. The error is a *ReadError.
func ScanVolumeUnit(text string, at int, o Ounce) (one Volume, end int, err error) {
	s := &scan{text: text, at: at, want: "volume"}
	if one, err = s.oneVolume(o); err != nil {
		return 0, at, err
	}
	return one, s.at, nil
}

// volume reads a number and its unit.
func (s *scan) volume(o Ounce) (Volume, error) {
	start := s.at
	n, err := s.number()
	if err != nil {
		return 0, err
	}
	s.space()
	one, err := s.oneVolume(o)
	if err != nil {
		return 0, err
	}
	return s.amount(start, n, one)
}

// amount returns n times one, where n stood at start. Nobody measures thousandths of a millilitre, but many
// write a thousand as 1.000: "1.000 mL" is refused as 1,000 mL is.
func (s *scan) amount(start int, n number, one Volume) (Volume, error) {
	r, err := n.ratio()
	switch {
	case err != nil:
		return 0, s.failAt(start, WhyTooLong)
	case one == Millilitre && n.likeThousands() && n.decimal[len(n.decimal)-1] == '0':
		return 0, s.failAt(start, WhyGrouped)
	case r.Sign() == 0:
		return 0, nil
	}
	v, err := r.Of(one)
	switch {
	case err != nil:
		return 0, s.failAt(start, WhyTooLarge)
	case v == 0:
		return 0, s.failAt(start, WhyTooSmall)
	}
	return v, nil
}

// oneVolume reads a unit of volume and returns how much one is.
func (s *scan) oneVolume(o Ounce) (Volume, error) {
	w, u, err := s.volumeUnit(o)
	return u.Volume().Times(w.times), err
}

// volumeUnit reads a unit of volume, with the system before it where the words have one.
func (s *scan) volumeUnit(o Ounce) (volumeWord, VolumeUnit, error) {
	start := s.at
	said, isSaid := unit(s, systemNames)
	if isSaid {
		o = said
		s.space()
	}
	at := s.at
	if _, isMass := unit(s, massNames); isMass {
		return volumeWord{}, 0, s.failAt(at, WhyIsMass)
	}
	w, ok := unit(s, volumeNames)
	switch {
	case !ok:
		return w, 0, noUnit(s, volumeNames)
	case isSaid && !w.ouncy():
		return w, 0, s.failAt(start, WhyUnknownUnit) // a US millilitre
	case w.ouncy() && o == NoOunce:
		return w, 0, s.failAt(at, WhyWhichOunce)
	case o == OunceImperial:
		return w, w.imp, nil
	}
	return w, w.us, nil
}
