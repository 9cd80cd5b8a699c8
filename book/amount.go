package book

import (
	"fmt"
	"strconv"
	"strings"

	"wetside/trade/quantity"
)

// The words that stand for no figure.
const (
	wordAll     = "all"
	wordUnknown = "unknown"
)

// An amount is what words of a draw or a count come to. One of its fields is set.
type amount struct {
	volume  quantity.Volume
	mass    quantity.Mass
	packets int32
	all     bool
	unknown bool
}

// readAmount reads the words of a draw: a volume, a mass, "2 packets", "all"; so many times over.
func readAmount(words string, times int, o Ounce) (amount, error) {
	if times < 0 || times > maxTimes {
		return amount{}, fmt.Errorf("times %d: %w", times, quantity.ErrRange)
	}
	times = max(times, 1)
	if words == wordAll {
		return amount{all: true}, nil
	}
	if n, ok := readPackets(words); ok {
		return amount{packets: int32(n * times)}, nil
	}
	v, err := quantity.ReadVolume(words, o.Quantity())
	if err == nil {
		v, err = quantity.Int(int64(times)).Of(v)
		return amount{volume: v}, err
	}
	if m, massErr := quantity.ReadMass(words); massErr == nil {
		return amount{mass: m * quantity.Mass(times)}, nil
	}
	return amount{}, err
}

// maxTimes bounds how often one amount is taken in one draw.
const maxTimes = 10_000

// readCount reads the words of a count: a volume, "2 packets" or "unknown".
func readCount(words string, o Ounce) (amount, error) {
	if words == wordUnknown {
		return amount{unknown: true}, nil
	}
	if n, ok := readPackets(words); ok {
		return amount{packets: int32(n)}, nil
	}
	v, err := quantity.ReadVolume(words, o.Quantity())
	return amount{volume: v}, err
}

// readPackets reads "1 packet" or "12 packets".
func readPackets(words string) (int, bool) {
	digits, unit, _ := strings.Cut(words, " ")
	n, err := strconv.ParseUint(digits, 10, 16)
	return int(n), err == nil && n > 0 && (unit == "packet" || unit == "packets")
}

// exactWords writes a volume that was worked out from words in the unit of those words, so that it reads like them: litres
// and millilitres as decimals, ounces and their kin, always with their system, to the 128th; what fits neither is in
// millilitres to the hundredth.
func exactWords(v quantity.Volume, like string, o Ounce) string {
	for _, u := range unitsLike(like, o) {
		r, err := quantity.NewRatio(int64(v), int64(u.Volume()))
		switch {
		case err != nil:
		case u.System() == quantity.Metric && 1000%r.Den() == 0:
			return decimal(r.Num()*(1000/r.Den()), 3) + " " + unitWord(u)
		case u.System() != quantity.Metric && r.Den() <= 128:
			return mixedNumber(r) + " " + unitWord(u)
		}
	}
	hundredth := int64(quantity.Millilitre) / 100
	return decimal((int64(v)+hundredth/2)/hundredth, 2) + " " + unitWord(quantity.UnitML)
}

// unitsLike returns the units to try for words like these: their own, the smaller one of its system, millilitres.
func unitsLike(words string, o Ounce) []quantity.VolumeUnit {
	_, end, err := quantity.ScanRatio(words, 0)
	if err != nil {
		return []quantity.VolumeUnit{quantity.UnitML}
	}
	own, err := quantity.ReadVolumeUnit(strings.TrimSpace(words[end:]), o.Quantity())
	if err != nil {
		return []quantity.VolumeUnit{quantity.UnitML}
	}
	switch own.System() {
	case quantity.US:
		return []quantity.VolumeUnit{own, quantity.UnitUSOunce, quantity.UnitML}
	case quantity.Imperial:
		return []quantity.VolumeUnit{own, quantity.UnitImperialOunce, quantity.UnitML}
	default:
		return []quantity.VolumeUnit{own, quantity.UnitML}
	}
}

// unitWord returns a unit as the file writes it, understood whatever ounce is set.
func unitWord(u quantity.VolumeUnit) string {
	switch u {
	case quantity.UnitLitre:
		return "L"
	case quantity.UnitUSOunce:
		return "US fl oz"
	case quantity.UnitImperialOunce:
		return "imperial fl oz"
	case quantity.UnitUSPint:
		return "US pint"
	case quantity.UnitImperialPint:
		return "imperial pint"
	case quantity.UnitUSQuart:
		return "US quart"
	case quantity.UnitImperialQuart:
		return "imperial quart"
	case quantity.UnitUSGallon:
		return "US gal"
	case quantity.UnitImperialGallon:
		return "imperial gal"
	default:
		return "mL"
	}
}

// decimal writes n with the last places digits behind the point, without trailing zeros.
func decimal(n int64, places int) string {
	digits := strconv.FormatInt(n, 10)
	if len(digits) <= places {
		digits = strings.Repeat("0", places+1-len(digits)) + digits
	}
	point := len(digits) - places
	return strings.TrimSuffix(strings.TrimRight(digits[:point]+"."+digits[point:], "0"), ".")
}

// mixedNumber writes 31/1 as 31, 63/2 as 31 1/2, 1/2 as 1/2.
func mixedNumber(r quantity.Ratio) string {
	whole, part := r.Num()/r.Den(), r.Num()%r.Den()
	fraction := fmt.Sprintf("%d/%d", part, r.Den())
	switch {
	case part == 0:
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return fraction
	}
	return strconv.FormatInt(whole, 10) + " " + fraction
}
