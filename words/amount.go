package words

import (
	"math"
	"strings"
	"time"

	"wetside/trade/quantity"
)

// style returns how amounts are printed for this reader.
func (v *Voice) style(sys quantity.System) quantity.Style {
	return quantity.Style{System: sys, Short: !v.both}
}

// printed takes what package quantity printed: with the language's own sign for the decimal point, and in other words
// where the amount is too small to be measured.
func (v *Voice) printed(text string, ok bool) string {
	if !ok {
		return plain(v.say("amount.unmeasurable", nil))
	}
	return strings.ReplaceAll(text, ".", v.point)
}

// unit sets a number before the unit "unit.KEY".
func (v *Voice) unit(number, key string) string {
	return number + string(nbsp) + plain(v.say("unit."+key, nil))
}

// Volume prints a volume in the reader's system, rounded to what can be measured: 7.5 mL, 30 mL, 1.5 L;
// 3/4 fl oz, 32 fl oz, 1 gal; what is too little for ounces in millilitres. What cannot be measured is said so; it never becomes another amount.
func (v *Voice) Volume(vol quantity.Volume) string {
	if vol == 0 {
		return plain(v.say("amount.none", nil))
	}
	text, ok := v.style(v.system).Volume(vol)
	if !ok { // a syringe has millilitres
		text, ok = v.style(quantity.Metric).Volume(vol)
	}
	return v.printed(text, ok)
}

// VolumeRange prints a range of volumes: 900 mL to 1.1 L.
func (v *Voice) VolumeRange(from, to quantity.Volume) string {
	if from == to {
		return v.Volume(from)
	}
	return plain(v.say("range", args{"From": v.Volume(from), "To": v.Volume(to)}))
}

// inUnit prints a volume in the unit in which it was measured, where that comes out even, else in the reader's.
func (v *Voice) inUnit(vol quantity.Volume, u quantity.VolumeUnit, named bool) string {
	if u.System() == quantity.Metric {
		return v.printed(v.style(quantity.Metric).Volume(vol))
	}
	if text, ok := (quantity.Style{Short: !named}).On(vol, u); ok && vol.InUnit(u).Den() <= most {
		return v.printed(text, ok)
	}
	return v.Volume(vol)
}

// most is the finest part of an ounce that is told as a fraction, a sixteenth.
const most = 16

// Temperature prints a temperature to half a degree Celsius or a whole one Fahrenheit: 20.5 °C, 68 °F.
func (v *Voice) Temperature(t quantity.Celsius) string {
	return v.printed(v.style(v.system).Temperature(t))
}

// TemperatureRead prints what an instrument showed, to a tenth of a degree: 20.4 °C, 68.7 °F.
func (v *Voice) TemperatureRead(t quantity.Celsius) string {
	return v.printed(v.style(v.system).TemperatureRead(t))
}

// Mass prints a mass: 33 g; 1.2 oz av.
func (v *Voice) Mass(m quantity.Mass) string { return v.printed(v.style(v.system).Mass(m)) }

// ice prints a mass of ice as a kitchen balance can weigh it.
func (v *Voice) ice(m quantity.Mass) string {
	st := v.style(v.system)
	st.Figures = 2
	if v.system == quantity.Metric && m >= 1 {
		m = quantity.Mass(math.Round(float64(m)))
	}
	return v.printed(st.Mass(m))
}

// Length prints a length: 15 mm, 38 cm; 5/8 in.
func (v *Voice) Length(l quantity.Length) string { return v.printed(v.style(v.system).Length(l)) }

// Area prints an area: 516 cm², 0.65 m²; 80 in².
func (v *Voice) Area(a quantity.Area) string { return v.printed(v.style(v.system).Area(a)) }

// Density prints a density in grams per millilitre.
func (v *Voice) Density(d quantity.Density) string { return v.printed(v.style(v.system).Density(d)) }

// Share prints a relative amount to a whole per cent, below one to a tenth: 7 %.
func (v *Voice) Share(x float64) string {
	if math.Abs(x) >= 0.0095 {
		x = math.Round(100*x) / 100
	}
	if text, ok := v.style(v.system).Share(x); ok {
		return v.printed(text, ok)
	}
	return v.shareTo(x, 1)
}

// shareTo prints a relative amount to so many significant figures, for who follows a reckoning.
func (v *Voice) shareTo(x float64, figures int) string {
	return v.significant(100*x, figures) + quantity.Thin + "%"
}

// PlusMinus prints a relative uncertainty: ±7 %.
func (v *Voice) PlusMinus(x float64) string { return plusMinus + v.Share(math.Abs(x)) }

// Time prints a duration: 45 s, 1 min 30 s, 9 min 45 s, 3 h.
func (v *Voice) Time(d time.Duration) string { return v.printed(v.style(v.system).Duration(d)) }

// Period prints a keeping time: 2 years, 6 months, 4 weeks, 24 hours.
func (v *Voice) Period(p quantity.Period) string {
	var parts []string
	add := func(noun string, n int) {
		if n != 0 {
			parts = append(parts, v.Count(noun, n))
		}
	}
	if p.Months%12 == 0 {
		add("years", p.Months/12)
	} else {
		add("months", p.Months)
	}
	if p.Days%7 == 0 {
		add("weeks", p.Days/7)
	} else {
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
