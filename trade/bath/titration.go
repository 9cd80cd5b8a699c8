package bath

import "sort"

// points is how finely a titration is tabulated; linear between, it is within 0.01 of the curve where stop baths end.
const points = 2000

// A Titration is a stop bath's pH by the share of developer in it, tabulated once.
type Titration struct {
	ph [points + 1]float64
}

// NewTitration tabulates ph, which gives the pH at a share of developer from 0 to 1 and never falls with it.
func NewTitration(ph func(share float64) (float64, error)) (*Titration, error) {
	t := &Titration{}
	for i := range t.ph {
		p, err := ph(float64(i) / points)
		if err != nil {
			return nil, err
		}
		t.ph[i] = p
	}
	return t, nil
}

// PH returns the pH at a share of developer.
func (t *Titration) PH(share float64) float64 {
	at := min(max(share, 0), 1) * points
	i := min(int(at), points-1)
	return t.ph[i] + (t.ph[i+1]-t.ph[i])*(at-float64(i))
}

// ShareAt returns the share of developer at which the pH is reached, 1 where it never is.
func (t *Titration) ShareAt(ph float64) float64 {
	i := sort.SearchFloat64s(t.ph[:], ph)
	switch {
	case i == 0:
		return 0
	case i > points:
		return 1
	}
	low, high := t.ph[i-1], t.ph[i]
	return (float64(i-1) + (ph-low)/(high-low)) / points
}
