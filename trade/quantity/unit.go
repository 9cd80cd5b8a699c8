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

// VolumeUnits returns every unit.
func VolumeUnits() []VolumeUnit {
	return []VolumeUnit{
		UnitML, UnitLitre, UnitUSOunce, UnitImperialOunce, UnitUSPint, UnitImperialPint, UnitUSQuart,
		UnitImperialQuart, UnitUSGallon, UnitImperialGallon,
	}
}

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

// Symbol returns what a jug has printed on it: "mL", "fl oz". It does not say whose ounce it is.
func (u VolumeUnit) Symbol() string {
	return [...]string{"mL", "L", "fl oz", "fl oz", "pt", "pt", "qt", "qt", "gal", "gal"}[u]
}

// String returns the unit with its system where there are two of it: "mL", "US fl oz", "imp fl oz". ReadVolumeUnit
// reads it back whatever the ounce.
func (u VolumeUnit) String() string {
	switch u.System() {
	case US:
		return "US " + u.Symbol()
	case Imperial:
		return "imp " + u.Symbol()
	case Metric:
	}
	return u.Symbol()
}
