package quantity

import (
	"cmp"
	"math"
)

// Volume is an exact volume in units of 1/6,144,000,000 mL.
type Volume int64

// The units of volume, exact. Sources: NIST HB 44 App. C; UK Weights and Measures Act 1985.
const (
	Millilitre     Volume = 6_144_000_000
	Litre                 = 1000 * Millilitre
	USOunce        Volume = 181_699_765_632 // 29.5735295625 mL
	USPint                = 16 * USOunce
	USQuart               = 32 * USOunce
	USGallon              = 128 * USOunce
	ImperialOunce  Volume = 174_569_856_000 // 28.4130625 mL
	ImperialPint          = 20 * ImperialOunce
	ImperialQuart         = 40 * ImperialOunce
	ImperialGallon        = 160 * ImperialOunce
	// MaxVolume is the largest volume that is read: 100,000 L, so that sums of many cannot overflow.
	MaxVolume = 100_000 * Litre
)

// VolumeOf returns n of a unit, to the nearest unit of Volume. A negative n, a result above MaxVolume, or one that
// would be nothing though n is not, is ErrRange.
func VolumeOf(n Ratio, u VolumeUnit) (Volume, error) { return volumeOf(n, u.Volume()) }

func volumeOf(n Ratio, one Volume) (Volume, error) {
	v, err := n.Of(one)
	if err != nil || n.Sign() < 0 || v == 0 && n.Sign() > 0 {
		return 0, ErrRange
	}
	return v, nil
}

// VolumeOfML returns a computed volume, to the nearest unit of Volume. Below 0, above MaxVolume and not a number are
// ErrRange.
func VolumeOfML(ml float64) (Volume, error) {
	if !(ml >= 0 && ml <= MaxVolume.ML()) {
		return 0, ErrRange
	}
	return Volume(math.Round(ml * float64(Millilitre))), nil
}

// ML returns the volume in millilitres.
func (v Volume) ML() float64 { return float64(v) / float64(Millilitre) }

// Times returns n times v.
func (v Volume) Times(n int) Volume { return v * Volume(n) }

// InUnit returns how many of a unit v is. Every volume is an exact ratio of every unit, and VolumeOf makes the same
// volume of it again.
func (v Volume) InUnit(u VolumeUnit) Ratio {
	r, _ := NewRatio(int64(v), int64(u.Volume())) // only the smallest int64 does not fit
	return r
}

// Over returns v ÷ w exactly; w = 0 is ErrRange.
func (v Volume) Over(w Volume) (Ratio, error) { return NewRatio(int64(v), int64(w)) }

// Add returns v + w, or ErrRange beyond MaxVolume either way.
func (v Volume) Add(w Volume) (Volume, error) {
	if max(v, w, v+w) > MaxVolume || min(v, w, v+w) < -MaxVolume {
		return 0, ErrRange
	}
	return v + w, nil
}

// CmpTimes compares v with r × w exactly: -1, 0 or 1, however large the product.
func (v Volume) CmpTimes(r Ratio, w Volume) int {
	sv, sw := cmp.Compare(v, 0), r.Sign()*cmp.Compare(w, 0)
	if sv != sw || sv == 0 {
		return cmp.Compare(sv, sw)
	}
	return sv * cmpProducts(int64(v), r.Den(), r.num, int64(w))
}

// String returns the volume exactly, so that ReadVolume reads it back whatever the ounce: "900 mL", "1.25 L",
// "2 1/2 US fl oz", "946.4 mL", and as a fraction of a millilitre what no unit gives more simply.
func (v Volume) String() string {
	for _, f := range []struct {
		unit VolumeUnit
		fits func(n Ratio) bool
	}{
		{UnitLitre, func(n Ratio) bool { return n.num >= n.Den() && 100%n.Den() == 0 }},
		{UnitML, func(n Ratio) bool { return 10%n.Den() == 0 }},
		{UnitUSGallon, inHalves},
		{UnitImperialGallon, inHalves},
		{UnitUSQuart, inHalves},
		{UnitImperialQuart, inHalves},
		{UnitImperialPint, inHalves},
		{UnitUSOunce, func(n Ratio) bool { return 128%n.Den() == 0 }},
		{UnitImperialOunce, func(n Ratio) bool { return 128%n.Den() == 0 }},
	} {
		if n := v.InUnit(f.unit); f.fits(n) {
			text, _ := f.unit.Mark(n) // of halves, tenths or 128ths there is always one
			return text + " " + f.unit.String()
		}
	}
	return v.InUnit(UnitML).String() + " mL"
}

// inHalves tells whether n is one or more, in halves.
func inHalves(n Ratio) bool { return n.num >= n.Den() && 2%n.Den() == 0 }
