package quantity

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

// ML returns the volume in millilitres.
func (v Volume) ML() float64 { return float64(v) / float64(Millilitre) }

// Times returns n times v.
func (v Volume) Times(n int) Volume { return v * Volume(n) }
