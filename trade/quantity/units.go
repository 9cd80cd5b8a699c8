package quantity

// System is the system of units in which a reader is spoken to.
type System uint8

// The systems of units. Metric is the zero value.
const (
	Metric System = iota
	US
	Imperial
)

// Ounce says what oz, fl oz, pint, quart and gallon mean where no word rules it.
type Ounce uint8

// NoOunce is the zero value: a bare ounce is then an error that asks which one is meant.
const (
	NoOunce Ounce = iota
	OunceUS
	OunceImperial
)

// VolumeUnit is a unit of volume that a scale can be printed in.
type VolumeUnit uint8

// The units of volume scales.
const (
	UnitML VolumeUnit = iota
	UnitLitre
	UnitUSOunce
	UnitImperialOunce
	UnitUSPint
	UnitImperialPint
	UnitUSQuart
	UnitImperialQuart
	UnitUSGallon
	UnitImperialGallon
)

// Volume returns the exact volume of one unit.
func (u VolumeUnit) Volume() Volume {
	return [...]Volume{
		Millilitre, Litre, USOunce, ImperialOunce, USPint, ImperialPint, USQuart, ImperialQuart,
		USGallon, ImperialGallon,
	}[u]
}

// System returns the system that the unit belongs to.
func (u VolumeUnit) System() System {
	switch u {
	case UnitML, UnitLitre:
		return Metric
	case UnitUSOunce, UnitUSPint, UnitUSQuart, UnitUSGallon:
		return US
	default:
		return Imperial
	}
}

// Mass is a mass in grams.
type Mass float64

// Length is a length in millimetres.
type Length float64

// Area is an area in square metres.
type Area float64

// Celsius is a temperature in degrees Celsius.
type Celsius float64

// Density is a density in grams per millilitre.
type Density float64
