package measure

import (
	"math"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Keys of docs/sources.md for the errors that this package takes from a page.
const (
	SourceCylinders = "ASTM-E1272"  // ASTM E1272-02(2012) Table 1
	SourceSyringes  = "ISO7886"     // ISO 7886-1:2017 table 1
	SourceJugs      = "PK-measures" // household liquid measures: 5 % at every graduation
	SourceGUM       = "JCGM-100"    // JCGM 100:2008
)

// A Limit is a vessel's permissible error, in mL (g for a balance), and where it is from.
type Limit struct {
	// Abs and Rel: the larger of Abs and Rel × reading.
	Permissible
	// Below it the error is LowAbs + LowRel × reading instead (syringes); 0: nowhere.
	Below, LowAbs, LowRel float64
	Origin, LowOrigin     reckoning.Origin
	Source, LowSource     string
}

// At returns the permissible error at a reading.
func (l Limit) At(reading float64) float64 {
	if reading < l.Below {
		return l.LowAbs + l.LowRel*reading
	}
	return max(l.Abs, l.Rel*reading)
}

// From says where the error at a reading is from.
func (l Limit) From(reading float64) (reckoning.Origin, string) {
	if reading < l.Below {
		return l.LowOrigin, l.LowSource
	}
	return l.Origin, l.Source
}

// Limit returns the permissible error of what is read on a scale of v: its own where the room has one, else its
// kind's. Cylinders: ASTM E1272-02(2012) Table 1; jugs: 5 %, the standard of household measures; beakers: 5 %
// (ASTM E960, from memory); syringes: ISO 7886-1; pipettes and balances: half a step (from memory).
func (v Vessel) Limit(scale int) Limit {
	if v.Own != nil {
		return Limit{Permissible: *v.Own, Origin: reckoning.Measured}
	}
	switch v.Kind {
	case Cylinder:
		return cylinderLimit(v.capacity(), v.Class)
	case Jug:
		return Limit{Permissible: Permissible{Rel: 0.05}, Origin: reckoning.Standard, Source: SourceJugs}
	case Beaker:
		return Limit{Permissible: Permissible{Rel: 0.05}, Origin: reckoning.FromMemory}
	case Syringe:
		return syringeLimit(v.capacity())
	case Pipette, Balance:
		return Limit{Permissible: Permissible{Abs: v.step(scale) / 2}, Origin: reckoning.FromMemory}
	}
	return Limit{}
}

// Error returns the permissible error in mL (g for a balance) at a reading in mL (g) on a scale.
func (v Vessel) Error(scale int, reading float64) float64 { return v.Limit(scale).At(reading) }

// SettingError returns the half-width in mL (g for a balance) within which people set to a mark of a scale, or
// between two: a quarter and a half of a division (a choice, from memory), the room's own Setting, or one
// millimetre of level, π/4 × width², where the inner width is known.
func (v Vessel) SettingError(scale int, between bool) float64 {
	if v.InnerWidth > 0 && v.Kind != Balance {
		w := float64(v.InnerWidth)
		return math.Pi / 4 * w * w / 1000 // 1 mm × mm², in mL
	}
	return v.settingPart(between) * v.step(scale)
}

// settingPart returns the part of a division that people set to.
func (v Vessel) settingPart(between bool) float64 {
	switch {
	case between && v.Setting.Between > 0:
		return v.Setting.Between
	case between:
		return 0.5
	case v.Setting.OnMark > 0:
		return v.Setting.OnMark
	}
	return 0.25
}

// settingOrigin says where the setting error is from.
func (v Vessel) settingOrigin(between bool) reckoning.Origin {
	own := v.Setting.OnMark
	if between {
		own = v.Setting.Between
	}
	if own > 0 || (v.InnerWidth > 0 && v.Kind != Balance) {
		return reckoning.Measured
	}
	return reckoning.FromMemory
}

// step returns a scale's division in mL, or g for a balance.
func (v Vessel) step(scale int) float64 {
	s := v.Scales[scale]
	if v.Kind == Balance {
		return s.Step.Float()
	}
	return s.Step.Float() * s.Unit.Volume().ML()
}

// capacity returns the largest mark of all scales, in mL.
func (v Vessel) capacity() float64 {
	var c float64
	for _, s := range v.Scales {
		c = max(c, s.To.Float()*s.Unit.Volume().ML())
	}
	return c
}

// cylinderLimit is ASTM E1272-02(2012) Table 1: a capacity that is not listed takes the next smaller listed
// one's; one below the smallest takes the smallest's (from memory). From 1000 mL up the figures are from memory.
func cylinderLimit(capacity float64, class Class) Limit {
	rows := [...]struct{ capacity, a, b float64 }{
		{5, 0.05, 0.10},
		{10, 0.10, 0.20},
		{25, 0.17, 0.34},
		{50, 0.25, 0.50},
		{100, 0.50, 1.00},
		{250, 1.00, 2.00},
		{500, 2.00, 4.00},
		{1000, 3.00, 6.00},
		{2000, 6.00, 12.00},
		{4000, 14.50, 29.00},
	}
	row := rows[0]
	for _, r := range rows[1:] {
		if r.capacity <= capacity {
			row = r
		}
	}
	l := Limit{Permissible: Permissible{Abs: row.b}, Origin: reckoning.Standard, Source: SourceCylinders}
	if class == ClassA {
		l.Abs = row.a
	}
	if row.capacity >= 1000 || capacity < rows[0].capacity {
		l.Origin, l.Source = reckoning.FromMemory, ""
	}
	return l
}

// syringeLimit is ISO 7886-1:2017 table 1, as a laboratory's note works from it; 4 % from half the size up is
// from memory.
func syringeLimit(size float64) Limit {
	l := Limit{
		Below: size / 2, LowAbs: 0.015 * size, LowRel: 0.01, LowOrigin: reckoning.Standard, LowSource: SourceSyringes,
		Permissible: Permissible{Rel: 0.04}, Origin: reckoning.FromMemory,
	}
	if size < 5 {
		l.LowRel, l.Rel = 0.02, 0.05
		l.Origin, l.Source = reckoning.Standard, SourceSyringes
	}
	return l
}

// markOf returns the number that a reading stands at: From + halves × Step/2.
func (s Scale) markOf(halves int) (quantity.Ratio, error) {
	n, err := s.Step.Mul(quantity.Int(int64(halves)))
	if err == nil {
		n, err = n.Quo(quantity.Int(2))
	}
	if err != nil {
		return quantity.Ratio{}, err
	}
	return s.From.Add(n)
}
