package quantity

// A volumeWord is a unit of volume as people write it: so many of one of our units, or a unit that is one of
// two by the ounce in force.
type volumeWord struct {
	times   int // 10 for a centilitre
	us, imp VolumeUnit
}

func metric(times int, u VolumeUnit) volumeWord { return volumeWord{times, u, u} }

var (
	ounceWord  = volumeWord{1, UnitUSOunce, UnitImperialOunce}
	pintWord   = volumeWord{1, UnitUSPint, UnitImperialPint}
	quartWord  = volumeWord{1, UnitUSQuart, UnitImperialQuart}
	gallonWord = volumeWord{1, UnitUSGallon, UnitImperialGallon}
)

// ouncy tells whether the word is of the ounce's kin, of which there are two.
func (w volumeWord) ouncy() bool { return w.us != w.imp }

var volumeNames = []named[volumeWord]{
	{"ml", metric(1, UnitML)},
	{"mls", metric(1, UnitML)},
	{"cc", metric(1, UnitML)},
	{"ccm", metric(1, UnitML)},
	{"cm3", metric(1, UnitML)},
	{"cm³", metric(1, UnitML)},
	{"㎖", metric(1, UnitML)},
	{"millilitre", metric(1, UnitML)},
	{"millilitres", metric(1, UnitML)},
	{"milliliter", metric(1, UnitML)},
	{"milliliters", metric(1, UnitML)},
	{"cl", metric(10, UnitML)},
	{"centilitre", metric(10, UnitML)},
	{"centilitres", metric(10, UnitML)},
	{"centiliter", metric(10, UnitML)},
	{"centiliters", metric(10, UnitML)},
	{"dl", metric(100, UnitML)},
	{"l", metric(1, UnitLitre)},
	{"ℓ", metric(1, UnitLitre)},
	{"lt", metric(1, UnitLitre)},
	{"ltr", metric(1, UnitLitre)},
	{"ltrs", metric(1, UnitLitre)},
	{"litre", metric(1, UnitLitre)},
	{"litres", metric(1, UnitLitre)},
	{"liter", metric(1, UnitLitre)},
	{"liters", metric(1, UnitLitre)},
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
// rounded to the nearest.
func ReadVolume(text string, o Ounce) (Volume, error) {
	s, err := open(text, "volume")
	if err != nil {
		return 0, err
	}
	v, err := s.volume(o)
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return 0, err
	}
	return v, nil
}

// ReadVolumeUnit reads the unit of a scale: "mL", "fl oz", "US fl oz".
func ReadVolumeUnit(text string, o Ounce) (VolumeUnit, error) {
	s, err := open(text, "unit of volume")
	if err != nil {
		return 0, err
	}
	start := s.at
	w, u, err := s.volumeUnit(o)
	if err == nil {
		err = s.close()
	}
	if err == nil && w.times != 1 {
		err = s.failAt(start, WhyUnknownUnit, "mL")
	}
	if err != nil {
		return 0, err
	}
	return u, nil
}

// ScanVolumeUnit reads the unit of volume that stands at byte at of text, and returns the volume of one and where
// it ends.
func ScanVolumeUnit(text string, at int, o Ounce) (one Volume, end int, err error) {
	s := &scan{text: text, at: at, want: "volume"}
	w, u, err := s.volumeUnit(o)
	if err != nil {
		return 0, at, err
	}
	return u.Volume().Times(w.times), s.at, nil
}

// volume reads a number and its unit.
func (s *scan) volume(o Ounce) (Volume, error) {
	start := s.at
	r, err := s.ratio()
	if err != nil {
		return 0, err
	}
	s.space()
	w, u, err := s.volumeUnit(o)
	if err != nil {
		return 0, err
	}
	v, err := r.Of(u.Volume().Times(w.times))
	switch {
	case err != nil:
		return 0, s.failAt(start, WhyTooLarge, "")
	case v == 0 && r.Sign() > 0:
		return 0, s.failAt(start, WhyTooSmall, "")
	}
	return v, nil
}

// volumeUnit reads a unit of volume, with the system before it where the words have one.
func (s *scan) volumeUnit(o Ounce) (volumeWord, VolumeUnit, error) {
	start := s.at
	said, hasSaid := unit(s, systemNames)
	if hasSaid {
		o = said
		s.space()
	}
	at := s.at
	if t := *s; takesMass(&t) {
		return volumeWord{}, 0, s.failAt(at, WhyIsMass, "")
	}
	w, ok := unit(s, volumeNames)
	switch {
	case !ok:
		return w, 0, noUnit(s, volumeNames)
	case hasSaid && !w.ouncy():
		return w, 0, s.failAt(start, WhyUnknownUnit, "")
	case w.ouncy() && o == NoOunce:
		return w, 0, s.failAt(at, WhyWhichOunce, "")
	case o == OunceImperial:
		return w, w.imp, nil
	}
	return w, w.us, nil
}

// ReadWindow reads "900 mL to 1 L", "900-1000 mL", "1.4 to 1.6 L" (Want is the upper end), or "1 L" alone,
// which is 10 % either way with 1 L wanted. A unit given once, at the end, is that of both ends. Nothing is no
// window.
func ReadWindow(text string, o Ounce) (Window, error) {
	s, err := open(text, "volume or range of volumes")
	if err != nil {
		return Window{}, err
	}
	w, err := s.window(o)
	if err == nil {
		err = s.close()
	}
	if err != nil {
		return Window{}, err
	}
	return w, nil
}

func (s *scan) window(o Ounce) (Window, error) {
	start := s.at
	low, err := s.ratio()
	if err != nil {
		return Window{}, err
	}
	unitless := s.dash()
	if !unitless {
		s.at = start
	}
	var from Volume
	if !unitless {
		if from, err = s.volume(o); err != nil {
			return Window{}, err
		}
		if !s.dash() {
			return s.tenth(start, from)
		}
	}
	second := s.at
	to, err := s.volume(o)
	if err != nil {
		return Window{}, err
	}
	if unitless {
		t := scan{text: s.text, at: second, want: s.want}
		if from, err = t.sameUnit(low, o); err != nil {
			return Window{}, t.failAt(start, WhyTooLarge, "")
		}
	}
	switch {
	case from <= 0 || to <= 0:
		return Window{}, s.failAt(start, WhyNotPositive, "")
	case from > to:
		return Window{}, s.failAt(start, WhyReversed, "")
	}
	return Window{from, to, to}, nil
}

// sameUnit returns low of the unit behind the number that stands here.
func (s *scan) sameUnit(low Ratio, o Ounce) (Volume, error) {
	if _, err := s.number(); err != nil {
		return 0, err
	}
	s.space()
	w, u, err := s.volumeUnit(o)
	if err != nil {
		return 0, err
	}
	return low.Of(u.Volume().Times(w.times))
}

// dash takes what stands between the ends of a range.
func (s *scan) dash() bool {
	if s.word("to") {
		return true
	}
	was := s.at
	s.space()
	if s.take("-", "–", "—", "−") {
		s.space()
		return true
	}
	s.at = was
	return false
}

// tenth is the window of a tenth either way of one volume.
func (s *scan) tenth(start int, v Volume) (Window, error) {
	low, err1 := (Ratio{9, 10}).Of(v)
	high, err2 := (Ratio{11, 10}).Of(v)
	switch {
	case v <= 0:
		return Window{}, s.failAt(start, WhyNotPositive, "")
	case err1 != nil || err2 != nil:
		return Window{}, s.failAt(start, WhyTooLarge, "")
	}
	return Window{low, high, v}, nil
}

// A Window is a range of volumes and the one that is wanted.
type Window struct{ Min, Max, Want Volume }
