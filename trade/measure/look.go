package measure

// phase says which pour plans are gone through.
type phase uint8

const (
	ofOne    phase = iota // of one reading
	ofVessel              // of two readings in one vessel
	ofTwo                 // of two vessels
	phases
)

// look goes through the choices with s.level readings.
func (s *search) look() {
	for ph := ofOne; s.direct && ph < phases; ph++ {
		for n := 1; n <= MaxJugfuls; n++ {
			if s.fits(n) {
				s.lookAt(s.alike(n), n, ph)
			}
		}
		for n := 2; n <= MaxJugfuls; n++ {
			if rest := s.level - n; rest >= 1 && rest <= s.chemicalReadings() {
				s.lookAt(s.mixed(n), n, ph)
			}
		}
	}
	if s.via {
		s.lookVia()
	}
}

// chemicalReadings returns the most readings of chemical in one jugful.
func (s *search) chemicalReadings() int {
	if s.two {
		return 2 * MaxPours
	}
	return MaxPours
}

// fits reports whether n fills alike can make up s.level readings in any form.
func (s *search) fits(n int) bool {
	k, rest := s.chemicalReadings(), s.level-n
	return rest >= 1 && (rest <= k || rest%n == 0 && rest/n <= k)
}

func (s *search) lookAt(list []fillPlan, n int, ph phase) {
	for i := range list {
		if s.cancelled() {
			return
		}
		if s.two {
			s.makeTwo(&list[i], n, ph)
		} else {
			s.make(&list[i], n, ph)
		}
	}
}

// make goes through what can be made with a plan of n fills and one chemical.
func (s *search) make(f *fillPlan, n int, ph phase) {
	rest := s.level - n
	if f.vol >= s.lo && s.mix[f.vessel] {
		if ph == ofOne && !s.p.WaterFirst {
			s.inJug(f, n)
		}
		if f.b == none && rest%n == 0 {
			s.filled(f, formPoured, n, rest/n, ph)
		}
		if n > 1 {
			s.filled(f, formFirstPoured, 1, rest, ph)
		}
	}
	s.apart(f, rest, ph)
}
