package darkroom

import (
	"time"

	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// As is a value as it was read and the words in which it was written. The zero value was not given.
type As[T any] struct {
	Value T
	Text  string
}

// Given reports whether it was given.
func (a As[T]) Given() bool { return a.Text != "" }

// Or returns the value, or other where none was given.
func (a As[T]) Or(other T) T {
	if a.Given() {
		return a.Value
	}
	return other
}

// A File is one darkroom and one session.
type File struct {
	Darkroom Room
	Bench    Bench
	Shelf    Shelf
	People   []Person
	Session  Session
}

// Place is what kind of room it is.
type Place string

// The places.
const (
	Home      Place = "home"
	Community Place = "community"
	School    Place = "school"
)

// Drain is where the sink drains.
type Drain string

// The drains.
const (
	Sewer   Drain = "sewer"
	Septic  Drain = "septic"
	NoDrain Drain = "none"
)

// A Room is the darkroom's own settings.
type Room struct {
	Name         string
	Place        Place
	Units        quantity.System
	UnitsGiven   bool
	Ounce        quantity.Ounce
	Water        Water
	Room         As[quantity.Celsius]
	Drain        Drain
	Law          string // EU, UK, US, CA, other, or empty
	PoisonCentre string
	Currency     string
	PrintOn      string // A4, Letter, or empty
	Strip        As[quantity.Ratio]
	DrainTime    As[time.Duration]
	SilverStrip  []float64                                                       // g/L
	SilverLimits map[material.Material]map[process.Standard]map[Bath]As[float64] // g/L
	Language     string
	Standards    map[material.Material]Wanted
}

// Bath is which bath a silver limit is for.
type Bath string

// The baths of a silver limit.
const (
	BathOne    Bath = "one bath"
	BathFirst  Bath = "first of two"
	BathSecond Bath = "second of two"
)

// Water is what comes from the taps.
type Water struct {
	Cold, Hot            As[quantity.Celsius]
	Hardness             string // soft, medium, hard, or empty
	Kettle, Ice, Running As[bool]
}

// Wanted is the permanence that is wanted of a material.
type Wanted struct {
	Standard   process.Standard
	Fixing     process.Fixing
	WashingAid As[bool]
}

// A Bench is the room's gear.
type Bench struct {
	Vessels   []Vessel
	Trays     []Tray
	Tanks     []Tank
	Cans      []Can
	FillDepth As[quantity.Length]
	Dry       map[material.Material]int // sheets of 8×10 that can dry at once
}

// A Vessel is anything to measure in.
type Vessel struct {
	Name             string
	Kind             measure.Kind
	Class            measure.Class
	KeepFor          string // a role's or a product's name, or empty
	PermissibleError As[measure.Permissible]
	InnerWidth       As[quantity.Length]
	HalfMarks        As[bool]
	Setting          As[quantity.Ratio] // of a division, on a mark
	SettingBetween   As[quantity.Ratio]
	Scales           []Scale
}

// A Scale is one printed scale of a vessel.
type Scale struct {
	Unit           As[quantity.VolumeUnit] // Grams is true for a balance, and Unit's value means nothing then
	Grams          bool
	From, To, Step As[quantity.Ratio]
	Numbered       As[quantity.Ratio]
}

// Holds returns the vessel's largest mark, 0 for a balance.
func (v Vessel) Holds() quantity.Volume {
	var most quantity.Volume
	for _, s := range v.Scales {
		if s.Grams {
			continue
		}
		if m, err := s.To.Value.Of(s.Unit.Value.Volume()); err == nil {
			most = max(most, m)
		}
	}
	return most
}

// For is what a tray is for: a role, holding or wash.
type For struct {
	Role          process.Role
	Holding, Wash bool
}

// A Size is a width and a height as written.
type Size struct{ Width, Height quantity.Length }

// A Tray is a tray.
type Tray struct {
	Name       string
	For        For
	Inside     As[Size]
	Depth      As[quantity.Length]
	Colour     string
	Fill       As[quantity.Volume]
	LitreDepth As[quantity.Length] // how deep a litre stands in it, measured once
}

// A Tank is a film tank.
type Tank struct {
	Name   string
	Covers map[string][]As[quantity.Volume] // by "135", "120": what covers one reel, two reels, ...
}

// A Can is a waste can: one kind of used bath, collected until somebody takes it away. What its fields mean and which of
// them may be missing, docs/darkroom-file.md says.
type Can struct {
	Name   string
	Holds  As[quantity.Volume] // to the brim
	Takes  process.Role        // what is collected in it, once used: fixer, toner, ...
	FullAt As[float64]         // the share of Holds at which it counts as full
	Vented As[bool]            // its cap lets gas out
}

// A Shelf is what stands there.
type Shelf struct {
	Products []Product
	Lots     []Lot
}

// Form is a product's form.
type Form string

// The forms.
const (
	Liquid Form = "liquid"
	Powder Form = "powder"
)

// A Product is a chemical as its label says.
type Product struct {
	Name         string
	Role         process.Role
	For          []material.Material // empty: for all
	Form         Form
	Acid         As[bool]
	Alkali       As[bool]
	Foams        As[bool]
	Dilutions    map[material.Material]As[dilution.Dilution]
	Times        map[material.Material]As[time.Duration]
	Temperature  As[quantity.Celsius]
	Tolerance    As[float64] // relative
	Capacity     map[material.Material]As[Capacity]
	Keeps        map[State]As[quantity.Period]
	Density      As[quantity.Density]
	Contains     []Ingredient
	Hazards      []string
	Packs        []Pack
	Indicator    Indicator
	Makes        As[quantity.Volume] // powder: what the whole packet makes
	StartWith    As[quantity.Ratio]  // powder: share of the water
	Weighs       As[quantity.Mass]   // powder: the whole packet
	MixAt        As[quantity.Celsius]
	Agitation    string
	LeastPerRoll As[quantity.Volume]
	Reuse        string
	Whose        string // as of a Lot: the room neither buys nor plans with what is somebody's
}

// State is a state of a container, for keeping times.
type State string

// The states.
const (
	Unopened    State = "unopened"
	Opened      State = "opened"
	FullBottle  State = "full bottle"
	PartBottle  State = "part bottle"
	FloatingLid State = "floating lid"
	InTray      State = "tray"
)

// Capacity is the area or the rolls that so much of a bath does.
type Capacity struct {
	Area      quantity.Area // of Per; 0 where Rolls is given
	Rolls     float64
	Per       quantity.Volume // of working solution; 0: per bottle as bought (PerBottle)
	PerBottle bool
}

// An Ingredient is one line of a label or a safety data sheet.
type Ingredient struct {
	Substance string
	Share     As[Range]
}

// A Range is a share from From to To, relative.
type Range struct{ From, To float64 }

// A Pack is a size that can be bought.
type Pack struct {
	Holds   As[quantity.Volume] // of liquid; a powder's pack holds Packets
	Packets int
	Price   As[int64] // in hundredths of the room's currency
}

// An Indicator is a stop bath's change of colour.
type Indicator struct{ From, To string }

// Somebody stands for an owner who has no name any more: what is somebody's is not the room's.
const Somebody = "somebody"

// A Lot is one bought bottle or packet, or one made-up stock.
type Lot struct {
	Product     string
	Stock       bool // state: stock
	Holds       As[quantity.Volume]
	Packets     int // "1 packet"
	Left        As[quantity.Volume]
	LeftUnknown bool
	Received    As[time.Time] // dates at midnight UTC
	Opened      As[time.Time]
	Made        As[time.Time]
	Whose       string // the name of one of File.People, or Somebody; empty: the room's
}

// A Person is somebody who works here.
type Person struct {
	Name  string
	Does  []string
	Notes []string // into the erasable record, never exported
}

// A Session is an evening that is wanted.
type Session struct {
	Starts As[time.Time]
	Lasts  As[time.Duration]
	People int
	ToMake []Load
}

// A Load is one line of what the session wants.
type Load struct {
	Material  material.Material
	Size      As[material.Size]
	Sheets    int
	Rolls     int
	Strips    int
	Wanted    Wanted
	Dilution  As[dilution.Dilution]
	Time      As[time.Duration]
	Agitation string
	Product   string // a developer by name, where several would do
}
