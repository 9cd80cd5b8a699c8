package quantity

// Length is a length in millimetres.
type Length float64

// An inch is 25.4 mm exactly. Source: the international inch of 1959 (NIST HB 44 App. C).
var (
	inch = Ratio{127, 5}
	foot = Ratio{1524, 5}
)

var lengthNames = []named[Ratio]{
	{"mm", Ratio{1, 1}},
	{"millimetre", Ratio{1, 1}},
	{"millimetres", Ratio{1, 1}},
	{"millimeter", Ratio{1, 1}},
	{"millimeters", Ratio{1, 1}},
	{"cm", Ratio{10, 1}},
	{"centimetre", Ratio{10, 1}},
	{"centimetres", Ratio{10, 1}},
	{"centimeter", Ratio{10, 1}},
	{"centimeters", Ratio{10, 1}},
	{"m", Ratio{1000, 1}},
	{"metre", Ratio{1000, 1}},
	{"metres", Ratio{1000, 1}},
	{"meter", Ratio{1000, 1}},
	{"meters", Ratio{1000, 1}},
	{"in", inch},
	{"ins", inch},
	{"inch", inch},
	{"inches", inch},
	{`"`, inch},
	{"″", inch},
	{"”", inch},
	{"''", inch},
	{"′′", inch},
	{"’’", inch},
	{"ft", foot},
	{"foot", foot},
	{"feet", foot},
}

// ReadLength reads a length above 0: mm, cm, m, in, inch, ", ft.
func ReadLength(text string) (Length, error) {
	return read(text, "length", func(s *scan) (Length, error) {
		start := s.at
		mm, err := s.figure(lengthNames)
		if err != nil {
			return 0, err
		}
		mm, err = s.positive(start, mm)
		return Length(mm), err
	})
}

// ReadSize reads a width and a height: 8x10 in, 8×10", 24x30 cm, 38 x 30 cm. Width comes first as written. A unit
// given once, at the end, is that of both.
func ReadSize(text string) (w, h Length, err error) {
	size, err := read(text, "size", (*scan).size)
	return size[0], size[1], err
}

func (s *scan) size() (size [2]Length, err error) {
	start := s.at
	width, err := s.number()
	if err != nil {
		return size, err
	}
	s.space()
	unitW, hasUnit := unit(s, lengthNames)
	if !s.by() {
		if !hasUnit {
			return size, noUnit(s, lengthNames)
		}
		return size, s.fail(WhyNoNumber)
	}
	second := s.at
	height, err := s.number()
	if err != nil {
		return size, err
	}
	s.space()
	unitH, ok := unit(s, lengthNames)
	if !ok {
		return size, noUnit(s, lengthNames)
	}
	if !hasUnit {
		unitW = unitH
	}
	w, err := s.positive(start, unitW.times(width.float()))
	if err != nil {
		return size, err
	}
	h, err := s.positive(second, unitH.times(height.float()))
	return [2]Length{Length(w), Length(h)}, err
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

// String returns the length so that ReadLength reads it back: in inches where it is a whole number of eighths of
// an inch, else in cm from 100 mm, else in mm.
func (l Length) String() string {
	if n, ok := l.eighths(); ok {
		return n.fraction() + " in"
	}
	if cm := plain(float64(l) / 10); l >= 100 && backTo(cm, 10) == float64(l) {
		return cm + " cm"
	}
	return plain(float64(l)) + " mm"
}

// Size returns width and height so that ReadSize reads them back: "8x10 in", "24x30 cm".
func Size(w, h Length) string {
	nw, okW := w.eighths()
	nh, okH := h.eighths()
	if okW && okH {
		return nw.fraction() + "x" + nh.fraction() + " in"
	}
	cw, ch := plain(float64(w)/10), plain(float64(h)/10)
	if backTo(cw, 10) == float64(w) && backTo(ch, 10) == float64(h) {
		return cw + "x" + ch + " cm"
	}
	return plain(float64(w)) + "x" + plain(float64(h)) + " mm"
}

// eighths returns the length in inches where reading so many would give just this length.
func (l Length) eighths() (Ratio, bool) {
	r, err := NewRatio(int64(float64(l)/25.4*8+0.5), 8)
	return r, err == nil && inch.times(r.Float()) == float64(l)
}

// Area is an area in square metres.
type Area float64

// AreaOf returns the area of a sheet of that width and height.
func AreaOf(w, h Length) Area { return Area(w) * Area(h) / 1e6 }

// Square inch and square foot in m², exact.
var (
	squareInch = Ratio{16129, 25_000_000}
	squareFoot = Ratio{145161, 1_562_500}
)

var areaNames = []named[Ratio]{
	{"m2", Ratio{1, 1}},
	{"m²", Ratio{1, 1}},
	{"sq m", Ratio{1, 1}},
	{"square metre", Ratio{1, 1}},
	{"square metres", Ratio{1, 1}},
	{"square meter", Ratio{1, 1}},
	{"square meters", Ratio{1, 1}},
	{"cm2", Ratio{1, 10_000}},
	{"cm²", Ratio{1, 10_000}},
	{"sq cm", Ratio{1, 10_000}},
	{"in2", squareInch},
	{"in²", squareInch},
	{"sq in", squareInch},
	{"square inch", squareInch},
	{"square inches", squareInch},
	{"ft2", squareFoot},
	{"ft²", squareFoot},
	{"sq ft", squareFoot},
	{"square foot", squareFoot},
	{"square feet", squareFoot},
}

// ReadArea reads an area above 0: m2, m², cm², sq in, sq ft.
func ReadArea(text string) (Area, error) {
	return read(text, "area", func(s *scan) (Area, error) {
		start := s.at
		f, err := s.figure(areaNames)
		if err != nil {
			return 0, err
		}
		f, err = s.positive(start, f)
		return Area(f), err
	})
}

// String returns the area so that ReadArea reads it back: "0.0516128 m2".
func (a Area) String() string { return plain(float64(a)) + " m2" }
