package quantity_test

import (
	"strings"
	"testing"
	"time"

	"wetside/trade/quantity"
)

func TestReadMass(t *testing.T) {
	type m = quantity.Mass
	check(t, quantity.ReadMass, []reading[m]{
		good("52.5 g", m(52.5)),
		good("0 g", m(0)),
		good("1 kg", m(1000)),
		good("500 mg", m(0.5)),
		good("1/2 g", m(0.5)),
		good("0."+strings.Repeat("3", 38)+" g", m(1.0/3)), // forty characters of number
		bad[m]("0."+strings.Repeat("3", 39)+" g", quantity.WhyTooLong, 0),
		good("437.5 gr", m(28.349523125)),
		good("1 grain", m(0.06479891)),
		good("1 oz av", m(28.349523125)),
		good("1 oz. av.", m(28.349523125)),
		good("1 oz avoirdupois", m(28.349523125)),
		good("1 lb", m(453.59237)),
		good("2 lbs", m(907.18474)),

		bad[m]("1 oz", quantity.WhyIsVolume, 2).meant("oz av"),
		bad[m]("1 US fl oz", quantity.WhyIsVolume, 2).meant("oz av"),
		bad[m]("100 mL", quantity.WhyIsVolume, 4),
		bad[m]("100", quantity.WhyNoUnit, 3),
		bad[m]("1 stone", quantity.WhyUnknownUnit, 2),
		bad[m]("1 gran", quantity.WhyUnknownUnit, 2).meant("gram"),
		bad[m]("-1 g", quantity.WhyNegative, 0),
		bad[m]("10001 kg", quantity.WhyTooLarge, 0),
		bad[m]("0.0000000001 g", quantity.WhyTooSmall, 0),
		bad[m]("1 kg 200 g", quantity.WhyTrailing, 5),
		bad[m]("100,000 g", quantity.WhyGrouped, 0),
	})
}

func TestReadCelsius(t *testing.T) {
	type c = quantity.Celsius
	check(t, quantity.ReadCelsius, []reading[c]{
		good("60 C", c(60)),
		good("60 °C", c(60)),
		good("60°C", c(60)),
		good("60 ° C", c(60)),
		good("60 ℃", c(60)),
		good("60 ºC", c(60)), // the ordinal sign of a keyboard
		good("12C", c(12)),
		good("12c", c(12)),
		good("20 deg C", c(20)),
		good("20 degrees Celsius", c(20)),
		good("20,5 °C", c(20.5)),
		good("20½ °C", c(20.5)),
		good("140 F", c(60)),
		good("68 °F", c(20)),
		good("68℉", c(20)),
		good("68 degrees Fahrenheit", c(20)),
		good("-5 °C", c(-5)),
		good("−5 °C", c(-5)),
		good("- 0 °C", c(0)),
		good("-40 F", c(-40)),
		good("-273.15 °C", c(-273.15)),
		good("1000 °C", c(1000)),

		bad[c]("20", quantity.WhyNoUnit, 2),
		bad[c]("20°", quantity.WhyNoUnit, 2),
		bad[c]("20 K", quantity.WhyUnknownUnit, 3),
		bad[c]("20 elsius", quantity.WhyUnknownUnit, 3).meant("celsius"),
		bad[c]("-274 °C", quantity.WhyTooSmall, 0),
		bad[c]("1001 °C", quantity.WhyTooLarge, 0),
		bad[c]("warm", quantity.WhyNoNumber, 0),
		bad[c]("20 °C ± 1", quantity.WhyTrailing, 7),
		bad[c]("--5 °C", quantity.WhyNoNumber, 0),
	})
	check(t, quantity.ReadCelsiusDifference, []reading[c]{
		good("2 °C", c(2)),
		good("18 °F", c(10)),
		good("-0.5 °C", c(-0.5)),
		bad[c]("2", quantity.WhyNoUnit, 1),
		bad[c]("1001 °C", quantity.WhyTooLarge, 0),
	})
}

func TestReadLengthAreaSize(t *testing.T) {
	type l = quantity.Length
	check(t, quantity.ReadLength, []reading[l]{
		good("15 mm", l(15)),
		good("8 cm", l(80)),
		good("1 m", l(1000)),
		good("8 in", l(203.2)),
		good("8 in.", l(203.2)),
		good("8 inches", l(203.2)),
		good(`8"`, l(203.2)),
		good("8″", l(203.2)),
		good("8''", l(203.2)),
		good("8½ in", l(215.9)),
		good("1 ft", l(304.8)),
		bad[l]("0 mm", quantity.WhyNotPositive, 0),
		bad[l]("-1 mm", quantity.WhyNegative, 0),
		bad[l]("15", quantity.WhyNoUnit, 2),
		bad[l]("15 yd", quantity.WhyUnknownUnit, 3),
		bad[l]("20000 m", quantity.WhyTooLarge, 0),
		bad[l]("0.0000000001 mm", quantity.WhyTooSmall, 0),
		bad[l]("15 mm deep", quantity.WhyTrailing, 6),
	})
	type a = quantity.Area
	check(t, quantity.ReadArea, []reading[a]{
		good("1 m2", a(1)),
		good("1 m²", a(1)),
		good("1 sq. m", a(1)),
		good("100 cm2", a(0.01)),
		good("80 sq in", a(0.0516128)),
		good("1 ft²", a(0.09290304)),
		bad[a]("1 m", quantity.WhyUnknownUnit, 2),
		bad[a]("0 m2", quantity.WhyNotPositive, 0),
		good("1 square metre", a(1)),
		slipped[a]("1 square metr", 2, "square metre"),
	})
	type size [2]l
	check(t, func(s string) (size, error) { w, h, err := quantity.ReadSize(s); return size{w, h}, err },
		[]reading[size]{
			good("8x10 in", size{203.2, 254}),
			good(`8×10"`, size{203.2, 254}),
			good(`8" x 10"`, size{203.2, 254}),
			good("8 X 10 inches", size{203.2, 254}),
			good("8*10 in", size{203.2, 254}),
			good("8 by 10 in", size{203.2, 254}),
			good("8½x11 in", size{215.9, 279.4}),
			good("8 1/2 x 11 in", size{215.9, 279.4}),
			good("24x30 cm", size{240, 300}),
			good("38 x 30 cm", size{380, 300}),
			good("24 cm × 300 mm", size{240, 300}),
			bad[size]("8x10", quantity.WhyNoUnit, 4),
			bad[size]("8 in x 10", quantity.WhyNoUnit, 9),
			bad[size]("8 in", quantity.WhyNoNumber, 4),
			bad[size]("8", quantity.WhyNoUnit, 1),
			bad[size]("x10 in", quantity.WhyNoNumber, 0),
			bad[size]("8x in", quantity.WhyNoNumber, 3),
			bad[size]("0x10 in", quantity.WhyNotPositive, 0),
			bad[size]("8x0 in", quantity.WhyNotPositive, 2),
			bad[size]("8x10x12 in", quantity.WhyUnknownUnit, 4),
			bad[size]("-8x10 in", quantity.WhyNegative, 0),
			bad[size]("8x99999 m", quantity.WhyTooLarge, 2),
		})
}

func TestReadDensity(t *testing.T) {
	type d = quantity.Density
	check(t, quantity.ReadDensity, []reading[d]{
		good("1.10 g/mL", d(1.1)),
		good("1.1 kg/L", d(1.1)),
		good("1.1 g / cm³", d(1.1)),
		good("1100 g per litre", d(1.1)),
		good("1,10 g/ml", d(1.1)),
		bad[d]("1.1", quantity.WhyNoUnit, 3),
		bad[d]("1.1 g", quantity.WhyNoUnit, 5),
		bad[d]("1.1 g/", quantity.WhyNoUnit, 6),
		bad[d]("1.1 g/h", quantity.WhyUnknownUnit, 6),
		bad[d]("1.1 mL/g", quantity.WhyIsVolume, 4),
		bad[d]("0 g/mL", quantity.WhyNotPositive, 0),
		bad[d]("-1 g/mL", quantity.WhyNegative, 0),
		bad[d]("110 g/mL", quantity.WhyTooLarge, 0),
		bad[d]("1 g/fl oz", quantity.WhyWhichOunce, 4),
	})
}

func TestReadShare(t *testing.T) {
	check(t, quantity.ReadShare, []reading[float64]{
		good("2 %", 0.02),
		good("10%", 0.1),
		good("15\u202f%", 0.15),
		good("±15 %", 0.15),
		good("6.4 %", 0.064),
		good("1/2 %", 0.005),
		good("0 %", 0.0),
		good("10 percent", 0.1),
		good("10 per cent", 0.1),
		bad[float64]("0.1", quantity.WhyNoUnit, 3),
		bad[float64]("-2 %", quantity.WhyNegative, 0),
		bad[float64]("2 %%", quantity.WhyTrailing, 3),
		bad[float64]("%", quantity.WhyNoNumber, 0),
		bad[float64]("2 ‰", quantity.WhyUnknownUnit, 2),
		bad[float64]("10000000000 %", quantity.WhyTooLarge, 0),
	})
	type ends [2]float64
	check(t, func(s string) (ends, error) { a, b, err := quantity.ReadShares(s); return ends{a, b}, err }, []reading[ends]{
		good("1 to 2 %", ends{0.01, 0.02}),
		good("1-2 %", ends{0.01, 0.02}),
		good("1 % – 2 %", ends{0.01, 0.02}),
		good("5 %", ends{0.05, 0.05}),
		bad[ends]("2 to 1 %", quantity.WhyReversed, 0),
		bad[ends]("1 % to 2", quantity.WhyNoUnit, 8),
		bad[ends]("1 to 2", quantity.WhyNoUnit, 6),
		bad[ends]("1", quantity.WhyNoUnit, 1),
		bad[ends]("1 to %", quantity.WhyNoNumber, 5),
	})
}

func TestReadDuration(t *testing.T) {
	type d = time.Duration
	const s, m, h = time.Second, time.Minute, time.Hour
	check(t, quantity.ReadDuration, []reading[d]{
		good("90 s", 90*s),
		good("90s", 90*s),
		good("90 sec.", 90*s),
		good("0 s", 0*s),
		good("1 min 30 s", 90*s),
		good("1m30s", 90*s),
		good("1:30", 90*s),
		good("0:05", 5*s),
		good("1:30:00", 90*m),
		good("10000:00:00", 10000*h),
		good("9 min", 9*m),
		good("9 min 45 s", 9*m+45*s),
		good("1½ min", 90*s),
		good("1,5 min", 90*s),
		good("3 h", 3*h),
		good("1 h 30 min", 90*m),
		good("1 hour 30 minutes 5 seconds", 90*m+5*s),
		good("0.1 s", s/10),
		good("1/3 s", d(333333333)),

		bad[d]("90", quantity.WhyNoUnit, 2),
		bad[d]("1 min 30", quantity.WhyNoUnit, 8),
		bad[d]("30 s 1 min", quantity.WhyTrailing, 5),
		bad[d]("1 min 2 min", quantity.WhyTrailing, 6),
		bad[d]("1:3", quantity.WhyNoNumber, 2),
		bad[d]("1:75", quantity.WhyNoNumber, 2),
		bad[d]("1:", quantity.WhyNoNumber, 2),
		bad[d]("1:00:00:00", quantity.WhyNoNumber, 8),
		bad[d]("1:30 min", quantity.WhyTrailing, 5),
		bad[d]("9 minuts", quantity.WhyUnknownUnit, 2).meant("minute"),
		bad[d]("1 week", quantity.WhyUnknownUnit, 2),
		bad[d]("-1 s", quantity.WhyNegative, 0),
		bad[d]("10001 h", quantity.WhyTooLarge, 0),
		bad[d]("10000 h 1 s", quantity.WhyTooLarge, 8),
		bad[d]("99999999:00", quantity.WhyTooLarge, 0),
		bad[d]("9999999:00:00", quantity.WhyTooLarge, 0),
		bad[d]("99999999999999999999:00", quantity.WhyTooLarge, 0),
	})
}

func TestReadPeriod(t *testing.T) {
	type p = quantity.Period
	check(t, quantity.ReadPeriod, []reading[p]{
		good("24 months", p{Months: 24}),
		good("1 month", p{Months: 1}),
		good("2 years", p{Months: 24}),
		good("1½ years", p{Months: 18}),
		good("4 weeks", p{Days: 28}),
		good("1 week", p{Days: 7}),
		good("10 days", p{Days: 10}),
		good("24 h", p{Hours: 24}),
		good("24 hrs", p{Hours: 24}),
		bad[p]("24", quantity.WhyNoUnit, 2),
		bad[p]("0 days", quantity.WhyNotPositive, 0),
		bad[p]("-1 day", quantity.WhyNegative, 0),
		bad[p]("1/2 month", quantity.WhyNotWhole, 0),
		bad[p]("1.5 weeks", quantity.WhyNotWhole, 0),
		bad[p]("2 moths", quantity.WhyUnknownUnit, 2).meant("mths"),
		bad[p]("6 mins", quantity.WhyUnknownUnit, 2),
		bad[p]("100001 days", quantity.WhyTooLarge, 0),
		bad[p]("1 year 6 months", quantity.WhyTrailing, 7),
	})
}

func TestPeriodFrom(t *testing.T) {
	utc := func(y int, m time.Month, d, h int) time.Time { return time.Date(y, m, d, h, 0, 0, 0, time.UTC) }
	for _, c := range []struct {
		name string
		p    quantity.Period
		from time.Time
		want time.Time
	}{
		{"six months", quantity.Period{Months: 6}, utc(2026, 10, 14, 18), utc(2027, 4, 14, 18)},
		{"a month from the 31st", quantity.Period{Months: 1}, utc(2026, 1, 31, 0), utc(2026, 2, 28, 0)},
		{"a month from the 31st, leap year", quantity.Period{Months: 1}, utc(2028, 1, 31, 0), utc(2028, 2, 29, 0)},
		{"a year from a leap day", quantity.Period{Months: 12}, utc(2028, 2, 29, 0), utc(2029, 2, 28, 0)},
		{"four weeks", quantity.Period{Days: 28}, utc(2026, 2, 10, 9), utc(2026, 3, 10, 9)},
		{"a day's hours", quantity.Period{Hours: 24}, utc(2026, 12, 31, 9), utc(2027, 1, 1, 9)},
	} {
		if got := c.p.From(c.from); !got.Equal(c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}
