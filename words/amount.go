package words

import (
	"math"
	"time"

	"wetside/trade/quantity"
)

// unit sets a number before the unit "unit.KEY".
func (v *Voice) unit(number, key string) string {
	return number + string(nbsp) + plain(v.say("unit."+key, nil))
}

// Volume prints a volume in the reader's system, rounded to what can be measured: 7.5 mL, 30 mL, 1.5 L;
// ¾ fl oz, 32 fl oz, 1 gal. What is small keeps two figures; it never becomes nothing.
func (v *Voice) Volume(vol quantity.Volume) string {
	if vol < 0 {
		return minus + v.Volume(-vol)
	}
	switch v.system {
	case quantity.US:
		return v.ounces(vol, quantity.UnitUSOunce, quantity.UnitUSQuart, quantity.UnitUSGallon)
	case quantity.Imperial:
		return v.ounces(vol, quantity.UnitImperialOunce, quantity.UnitImperialPint, quantity.UnitImperialGallon)
	case quantity.Metric:
	}
	return v.millilitres(vol)
}

func (v *Voice) millilitres(vol quantity.Volume) string {
	switch ml := vol.ML(); {
	case ml >= 999.5:
		return v.unit(v.decimal(ml/1000, 2), "l")
	case ml >= 9.95:
		return v.unit(v.decimal(ml, 0), "ml")
	case ml >= 0.95:
		return v.unit(v.decimal(ml, 1), "ml")
	default:
		return v.unit(v.significant(ml, 2), "ml")
	}
}

// ounces prints a volume in whole gallons, in quarts (pints for imperial) where it is some of them, else in ounces.
func (v *Voice) ounces(vol quantity.Volume, ounce, middle, gallon quantity.VolumeUnit) string {
	oz, gal := of(vol, ounce), of(vol, gallon)
	switch {
	case vol >= gallon.Volume() && vol%(gallon.Volume()/4) == 0 || gal >= 2:
		return v.unit(v.quarters(gal), unitKey(gallon, v.both))
	case vol >= 2*middle.Volume() && vol%middle.Volume() == 0:
		return v.unit(v.decimal(of(vol, middle), 0), unitKey(middle, v.both))
	case oz >= 15.75:
		return v.unit(v.decimal(oz, 0), unitKey(ounce, v.both))
	case oz >= 0.25:
		return v.unit(v.quarters(oz), unitKey(ounce, v.both))
	default:
		return v.unit(v.significant(oz, 2), unitKey(ounce, v.both))
	}
}

func of(vol quantity.Volume, u quantity.VolumeUnit) float64 {
	return float64(vol) / float64(u.Volume())
}

// quarters prints x to the nearest quarter, as a vulgar fraction.
func (v *Voice) quarters(x float64) string {
	r, err := quantity.NewRatio(int64(math.Round(4*x)), 4)
	if err != nil {
		return v.decimal(x, 2)
	}
	return v.fraction(r)
}

// VolumeRange prints a range of volumes: 0.9 to 1.1 L.
func (v *Voice) VolumeRange(from, to quantity.Volume) string {
	return plain(v.say("range", args{"From": v.Volume(from), "To": v.Volume(to)}))
}

// Temperature prints a temperature to half a degree Celsius or a whole one Fahrenheit: 20.5 °C, 68 °F.
func (v *Voice) Temperature(t quantity.Celsius) string {
	if v.system == quantity.US {
		return v.unit(v.decimal(math.Round(float64(t)*9/5+32), 0), "f")
	}
	return v.unit(v.decimal(math.Round(2*float64(t))/2, 1), "c")
}

// Mass prints a mass in grams, as on a balance, or in kilograms.
func (v *Voice) Mass(m quantity.Mass) string {
	switch g := float64(m); {
	case g >= 999.5:
		return v.unit(v.decimal(g/1000, 2), "kg")
	case g >= 99.95:
		return v.unit(v.decimal(g, 0), "g")
	default:
		return v.unit(v.significant(g, 3), "g")
	}
}

// Length prints a length: 15 mm, 38 cm; to an eighth of an inch for readers in US or imperial units.
func (v *Voice) Length(l quantity.Length) string {
	mm := float64(l)
	if v.system != quantity.Metric {
		if r, err := quantity.NewRatio(int64(math.Round(mm/25.4*8)), 8); err == nil && r.Sign() != 0 {
			return v.unit(v.fraction(r), "in")
		}
		return v.unit(v.significant(mm/25.4, 1), "in")
	}
	if mm >= 99.5 {
		return v.unit(v.decimal(mm/10, 1), "cm")
	}
	return v.unit(v.decimal(mm, 0), "mm")
}

// Area prints an area in square metres, or square inches.
func (v *Voice) Area(a quantity.Area) string {
	if v.system != quantity.Metric {
		return v.unit(v.significant(float64(a)/(0.0254*0.0254), 3), "in2")
	}
	return v.unit(v.significant(float64(a), 2), "m2")
}

// Density prints a density in grams per millilitre.
func (v *Voice) Density(d quantity.Density) string {
	return v.unit(v.decimal(float64(d), 3), "g_per_ml")
}

// percent prints a share to a whole per cent, below ten to a half, below one to a tenth.
func (v *Voice) percent(x float64) string {
	p := 100 * math.Abs(x)
	switch {
	case p >= 9.75:
		return v.decimal(p, 0)
	case p >= 0.95:
		return v.decimal(math.Round(p), 0)
	default:
		return v.decimal(p, 1)
	}
}

// Share prints a relative amount: 7 %.
func (v *Voice) Share(x float64) string {
	if x < 0 {
		return minus + v.Share(-x)
	}
	return v.unit(v.percent(x), "percent")
}

// PlusMinus prints a relative uncertainty: ±7 %.
func (v *Voice) PlusMinus(x float64) string { return plusMinus + v.Share(math.Abs(x)) }

// Time prints a duration: 45 s, 90 s, 9 min 45 s, 1 h 30 min.
func (v *Voice) Time(d time.Duration) string {
	s := int(math.Round(d.Seconds()))
	hours, minutes, seconds := s/3600, s/60%60, s%60
	switch {
	case s < 120 && s%60 != 0 || s == 60 || s == 0:
		return v.unit(v.whole(s), "s")
	case hours == 0 && seconds == 0:
		return v.unit(v.whole(minutes), "min")
	case hours == 0:
		return v.unit(v.whole(minutes), "min") + " " + v.unit(v.whole(seconds), "s")
	case minutes == 0:
		return v.unit(v.whole(hours), "h")
	}
	return v.unit(v.whole(hours), "h") + " " + v.unit(v.whole(minutes), "min")
}

// Period prints a keeping time: 2 years, 6 months, 4 weeks, 24 hours.
func (v *Voice) Period(p quantity.Period) string {
	var parts []string
	add := func(noun string, n int) {
		if n != 0 {
			parts = append(parts, v.Count(noun, n))
		}
	}
	switch {
	case p.Months%12 == 0:
		add("years", p.Months/12)
	default:
		add("months", p.Months)
	}
	switch {
	case p.Days%7 == 0:
		add("weeks", p.Days/7)
	default:
		add("days", p.Days)
	}
	add("hours", p.Hours)
	return plain(v.list(parts))
}

// Money prints a sum in hundredths of a currency; an empty code is the room's.
func (v *Voice) Money(hundredths int64, code string) string {
	if code == "" {
		code = v.currency
	}
	sum := v.fixed(float64(hundredths)/100, 2)
	switch {
	case code == "":
		return sum
	case v.has("money." + code):
		return plain(v.say("money."+code, args{"Sum": sum}))
	}
	return plain(v.say("money.plain", args{"Sum": sum, "Code": own(code)}))
}
