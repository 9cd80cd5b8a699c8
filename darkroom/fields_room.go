package darkroom

import (
	"strconv"
	"time"

	"wetside/darkroom/outline"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// The tables of this and the next files are the contract of the file: names, order, what must be there, bounds.

func fileKind() kind[File] {
	sections := []field[File]{
		at("darkroom", "The room's own settings.", func(f *File) *Room { return &f.Darkroom }, roomKind()),
		at("bench", "The room's gear.", func(f *File) *Bench { return &f.Bench }, benchKind()),
		at("shelf", "What stands on the shelf.", func(f *File) *Shelf { return &f.Shelf }, shelfKind()),
		at("people", "Who works here.", func(f *File) *[]Person { return &f.People }, list(line(personKind()))),
		at("session", "The evening that is wanted.", func(f *File) *Session { return &f.Session }, sessionKind()),
	}
	sections[0].must, sections[0].always = false, true
	return thing(sections, fileRules()...)
}

func roomKind() kind[Room] {
	return thing([]field[Room]{
		must(at("name", "What the darkroom is called.", func(r *Room) *string { return &r.Name }, text())),
		at("place", "What kind of room it is.", func(r *Room) *Place { return &r.Place },
			chosen("place", same(Home, Community, School))),
		via("units", "The system of units in which it speaks.", saidUnits, setUnits, chosen("units", systems())),
		at("ounce", "What oz, fl oz, pint, quart and gallon mean in this file.",
			func(r *Room) *quantity.Ounce { return &r.Ounce }, chosen("ounce", ounces())),
		at("water", "What comes from the taps.", func(r *Room) *Water { return &r.Water }, line(waterKind())),
		at("room", "The room's temperature.",
			func(r *Room) *As[quantity.Celsius] { return &r.Room }, as(celsius(50, "50 °C"))),
		at("drain", "Where the sink drains.", func(r *Room) *Drain { return &r.Drain },
			chosen("drain", same(Sewer, Septic, NoDrain))),
		at("law", "Whose rules the estimates follow.", func(r *Room) *string { return &r.Law },
			chosen("law", same("EU", "UK", "US", "CA", "other"))),
		at("poison_centre", "A line the room types, never invented.",
			func(r *Room) *string { return &r.PoisonCentre }, text()),
		at("currency", "The currency of the prices.", func(r *Room) *string { return &r.Currency },
			textWhere("currency", func(s string) bool { return len(s) <= 8 })),
		at("print_on", "The paper that sheets are printed on.", func(r *Room) *string { return &r.PrintOn },
			chosen("paper format", same("A4", "Letter"))),
		at("strip", "A test strip's part of a sheet.",
			func(r *Room) *As[quantity.Ratio] { return &r.Strip }, as(part())),
		at("drain_time", "How long a sheet drains between baths.",
			func(r *Room) *As[time.Duration] { return &r.DrainTime }, as(duration(10*time.Minute, "10 min"))),
		at("silver_strip", "The steps of this room's silver test strips, g/L.",
			func(r *Room) *[]float64 { return &r.SilverStrip }, line(list(silverStep()))),
		silverLimits(),
		at("language", "The language it speaks, as en or de.", func(r *Room) *string { return &r.Language },
			textWhere("language", isLanguage)),
		at("standards", "The permanence this room wants, by material; a session may differ.",
			func(r *Room) *Standards { return &r.Standards }, tall(table("material", materials(), line(wantedKind())))),
	}, roomRules()...)
}

func silverLimits() field[Room] {
	limit := as(above(quantityOf("silver", ReadSilver), 20, "20 g/L"))
	baths := table("bath", same(BathOne, BathFirst, BathSecond), limit)
	standards := table("standard", named(process.Standards()), baths)
	return at("silver_limits", "The room's own limits of silver in a fixer, where they differ.",
		func(r *Room) *SilverLimits { return &r.SilverLimits }, table("material", materials(), standards))
}

func waterKind() kind[Water] {
	return thing([]field[Water]{
		at("cold", "The cold tap's temperature.", func(w *Water) *As[quantity.Celsius] { return &w.Cold }, as(celsius(100, "100 °C"))),
		at("hot", "The hot tap's temperature.", func(w *Water) *As[quantity.Celsius] { return &w.Hot }, as(celsius(100, "100 °C"))),
		at("hardness", "How hard the water is.", func(w *Water) *string { return &w.Hardness },
			chosen("hardness", same("soft", "medium", "hard"))),
		at("kettle", "Whether there is a kettle.", func(w *Water) *As[bool] { return &w.Kettle }, as(yes())),
		at("ice", "Whether there is ice.", func(w *Water) *As[bool] { return &w.Ice }, as(yes())),
		at("running", "Whether there is running water.", func(w *Water) *As[bool] { return &w.Running }, as(yes())),
	}, hotAboveCold)
}

func wantedKind() kind[Wanted] { return thing(wantedFields(func(w *Wanted) *Wanted { return w })) }

// wantedFields are the fields of what is wanted, of a material or of a load.
func wantedFields[T any](of func(*T) *Wanted) []field[T] {
	return []field[T]{
		at("standard", "How long a print shall last.", func(t *T) *process.Standard { return &of(t).Standard },
			chosen("standard", named(process.Standards()))),
		at("fixing", "In how many baths it is fixed.", func(t *T) *process.Fixing { return &of(t).Fixing },
			chosen("fixing", named(process.Fixings()))),
		at("washing_aid", "Whether a washing aid is used.", func(t *T) *As[bool] { return &of(t).WashingAid }, as(yes())),
	}
}

func ounces() []choice[quantity.Ounce] {
	return []choice[quantity.Ounce]{{word: "us", value: quantity.OunceUS}, {word: "imperial", value: quantity.OunceImperial, others: []string{"UK"}}}
}

// said is a system of units that was given, one more than the system; 0 was not.
type said uint8

func systems() []choice[said] {
	return []choice[said]{
		{word: "metric", value: 1 + said(quantity.Metric)},
		{word: "us", value: 1 + said(quantity.US)},
		{word: "imperial", value: 1 + said(quantity.Imperial), others: []string{"UK"}},
	}
}

func saidUnits(r *Room) said {
	if !r.UnitsGiven {
		return 0
	}
	return 1 + said(r.Units)
}

func setUnits(r *Room, s said) {
	if r.UnitsGiven = s != 0; r.UnitsGiven {
		r.Units = quantity.System(s - 1)
	}
}

// silverStep is one step of a silver test strip, g/L.
func silverStep() kind[float64] {
	s := quantityOf("number", func(text string) (float64, error) {
		r, err := quantity.ReadRatio(text)
		return r.Float(), err
	})
	s.schema = schemaOfNumber
	return bare(above(s, 20, "20"), func(f float64) string { return strconv.FormatFloat(f, 'f', -1, 64) })
}

// isLanguage reports whether text has the form of a language tag (BCP 47): letters, then parts after hyphens.
func isLanguage(text string) bool {
	for i, c := range text {
		letter := c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
		if !letter && (i < 2 || c != '-' && (c < '0' || c > '9')) {
			return false
		}
	}
	return len(text) >= 2 && len(text) <= 35
}

// tall writes a mapping as a block, each value on a line of its own.
func tall[T any](k kind[T]) kind[T] {
	write := k.write
	k.write = func(t T) *outline.Node {
		n := write(t)
		if n != nil {
			n.Flow = false
		}
		return n
	}
	return k
}
