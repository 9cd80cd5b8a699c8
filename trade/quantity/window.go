package quantity

// A Window is a range of volumes and the one that is wanted.
type Window struct{ Min, Max, Want Volume }

// ReadWindow reads "900 mL to 1 L", "900-1000 mL", "1.4 to 1.6 L" (Want is the upper end), or "1 L" alone, which is
// 10 % either way with 1 L wanted. A unit given once, at the end, is that of both ends. Both ends are above 0, the
// lower one first.
func ReadWindow(text string, o Ounce) (Window, error) {
	return read(text, "volume or range of volumes", func(s *scan) (Window, error) { return s.window(o) })
}

func (s *scan) window(o Ounce) (Window, error) {
	start := s.at
	low, err := s.number()
	if err != nil {
		return Window{}, err
	}
	var lowOne Volume
	isRange := s.dash()
	if !isRange {
		s.space()
		if lowOne, err = s.oneVolume(o); err != nil {
			return Window{}, err
		}
		isRange = s.dash()
	}
	if !isRange {
		return s.around(start, low, lowOne)
	}
	second := s.at
	high, err := s.number()
	if err != nil {
		return Window{}, err
	}
	s.space()
	highOne, err := s.oneVolume(o)
	if err != nil {
		return Window{}, err
	}
	if lowOne == 0 {
		lowOne = highOne
	}
	from, err := s.amount(start, low, lowOne)
	if err != nil {
		return Window{}, err
	}
	to, err := s.amount(second, high, highOne)
	if err != nil {
		return Window{}, err
	}
	return s.ends(start, Window{from, to, to})
}

// around returns the window of a tenth either way of one volume.
func (s *scan) around(start int, n number, one Volume) (Window, error) {
	v, err := s.amount(start, n, one)
	if err != nil {
		return Window{}, err
	}
	w := around(v)
	if w.Max > MaxVolume {
		return Window{}, s.failAt(start, WhyTooLarge)
	}
	return s.ends(start, w)
}

func around(v Volume) Window {
	tenth, _ := Ratio{1, 10}.Of(v) // a tenth of a volume is one
	return Window{v - tenth, v + tenth, v}
}

// ends checks the ends of a window that stood at start.
func (s *scan) ends(start int, w Window) (Window, error) {
	switch {
	case w.Max < w.Min:
		return Window{}, s.failAt(start, WhyReversed)
	case w.Min <= 0:
		return Window{}, s.failAt(start, WhyNotPositive)
	}
	return w, nil
}

// dash takes what stands between the ends of a range.
func (s *scan) dash() bool {
	if s.word("to") {
		return true
	}
	t := *s
	t.space()
	if !t.take("-", "–", "—", "−") {
		return false
	}
	t.space()
	s.at = t.at
	return true
}

// String returns the window so that ReadWindow reads it back: "900 mL to 1 L", or the wanted volume alone where the
// window is a tenth either way of it. Of any other window the wanted volume is lost.
func (w Window) String() string {
	if w == around(w.Want) {
		return w.Want.String()
	}
	return w.Min.String() + " to " + w.Max.String()
}
