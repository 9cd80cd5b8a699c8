package darkroom

import (
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

func benchKind() kind[Bench] {
	return thing([]field[Bench]{
		at("vessels", "Anything to measure in.", func(b *Bench) *[]Vessel { return &b.Vessels }, list(vesselKind())),
		at("trays", "The trays.", func(b *Bench) *[]Tray { return &b.Trays }, list(line(trayKind()))),
		at("tanks", "The film tanks.", func(b *Bench) *[]Tank { return &b.Tanks }, list(line(tankKind()))),
		at("cans", "The waste cans.", func(b *Bench) *[]Can { return &b.Cans }, list(line(canKind()))),
		at("fill_depth", "Wanted depth where a tray has no fill of its own; at least 13 mm is common practice.",
			func(b *Bench) *As[quantity.Length] { return &b.FillDepth }, as(length(300, "30 cm"))),
		at("dry", "Sheets of 8x10 that can dry at once.", func(b *Bench) *map[material.Material]int { return &b.Dry },
			table("paper", papers(), counted(count(1, maxSheets)))),
	})
}

func papers() []choice[material.Material] { return materials()[:2] }

// kinds of vessels; the number is one more than the measure.Kind, so that 0 was not given.
func kinds() []choice[measure.Kind] {
	return []choice[measure.Kind]{
		{word: "jug", value: measure.Jug},
		{word: "beaker", value: measure.Beaker},
		{word: "cylinder", value: measure.Cylinder},
		{word: "syringe", value: measure.Syringe},
		{word: "pipette", value: measure.Pipette},
		{word: "balance", value: measure.Balance},
	}
}

func classes() []choice[measure.Class] {
	return []choice[measure.Class]{{word: "A", value: measure.ClassA}, {word: "B", value: measure.ClassB}}
}

func vesselKind() kind[Vessel] {
	return thing([]field[Vessel]{
		must(at("name", "What it is called; no two alike.", func(v *Vessel) *string { return &v.Name }, text())),
		must(at("kind", "What it is.", func(v *Vessel) *measure.Kind { return &v.Kind }, chosen("vessel", kinds()))),
		at("class", "Its class, for a cylinder.", func(v *Vessel) *measure.Class { return &v.Class }, chosen("class", classes())),
		at("keep_for", "A role or a product: this vessel for nothing else, and it in no other.",
			func(v *Vessel) *string { return &v.KeepFor }, text()),
		at("permissible_error", "The room's own error, in place of the kind's: 5 mL, or 2 %, or 5 mL, 2 % (the larger).",
			func(v *Vessel) *As[measure.Permissible] { return &v.PermissibleError }, as(permissible())),
		at("inner_width", "Its width inside; one millimetre of level is then the setting error.",
			func(v *Vessel) *As[quantity.Length] { return &v.InnerWidth }, as(length(1000, "1 m"))),
		at("half_marks", "Whether one may read half-way between two marks.",
			func(v *Vessel) *As[bool] { return &v.HalfMarks }, as(yes())),
		at("setting", "How near to a mark people fill, as a part of a division.",
			func(v *Vessel) *As[quantity.Ratio] { return &v.Setting }, as(part())),
		at("setting_between", "The same between two marks.",
			func(v *Vessel) *As[quantity.Ratio] { return &v.SettingBetween }, as(part())),
		must(at("scales", "Its printed scales.", func(v *Vessel) *[]Scale { return &v.Scales }, list(line(scaleKind())))),
	}, vesselRules()...)
}

func permissible() scalar[measure.Permissible] {
	return withOunce("error", func(text string, o quantity.Ounce) (measure.Permissible, error) {
		p, _, err := ReadPermissible(text, o)
		return p, err
	})
}

func scaleKind() kind[Scale] {
	return thing([]field[Scale]{
		must(via("unit", "mL, L, fl oz, pint, quart, gallon; g for a balance.", unitOf, setUnit, as(scaleUnit()))),
		must(at("from", "The first mark.", func(s *Scale) *As[quantity.Ratio] { return &s.From }, as(mark(true)))),
		must(at("to", "The last mark.", func(s *Scale) *As[quantity.Ratio] { return &s.To }, as(mark(false)))),
		must(at("step", "From mark to mark.", func(s *Scale) *As[quantity.Ratio] { return &s.Step }, as(mark(false)))),
		at("numbered", "Every mark that is a multiple of it carries a number.",
			func(s *Scale) *As[quantity.Ratio] { return &s.Numbered }, as(mark(false))),
	}, scaleRules()...)
}

// graduation is the unit of a scale: of volume, or grams.
type graduation struct {
	volume quantity.VolumeUnit
	grams  bool
}

func unitOf(s *Scale) As[graduation] {
	return As[graduation]{graduation{s.Unit.Value, s.Grams}, s.Unit.Text}
}

func setUnit(s *Scale, g As[graduation]) {
	s.Unit, s.Grams = As[quantity.VolumeUnit]{g.Value.volume, g.Text}, g.Value.grams
}

func scaleUnit() scalar[graduation] {
	return withOunce("unit", func(text string, o quantity.Ounce) (graduation, error) {
		switch squeeze(text) {
		case "g", "gram", "grams":
			return graduation{grams: true}, nil
		}
		u, err := quantity.ReadVolumeUnit(text, o)
		return graduation{volume: u}, err
	})
}

func trayKind() kind[Tray] {
	return thing([]field[Tray]{
		must(at("name", "What it is called; no two alike.", func(t *Tray) *string { return &t.Name }, text())),
		at("for", "What it is for: a role, holding or wash.", func(t *Tray) *For { return &t.For }, chosen("use of a tray", uses())),
		at("inside", "Its width and length inside.", func(t *Tray) *As[Size] { return &t.Inside }, as(inside())),
		at("depth", "Its depth.", func(t *Tray) *As[quantity.Length] { return &t.Depth }, as(length(1000, "1 m"))),
		at("colour", "Its colour.", func(t *Tray) *string { return &t.Colour }, text()),
		at("fill", "What it is filled with.", func(t *Tray) *As[quantity.Volume] { return &t.Fill }, as(volume(maxVessel, "200 L"))),
		at("litre_depth", "How deep a litre stands in it, measured once.",
			func(t *Tray) *As[quantity.Length] { return &t.LitreDepth }, as(length(1000, "1 m"))),
	}, trayRules()...)
}

// uses are what a tray is for: every role, holding and wash.
func uses() []choice[For] {
	var all []choice[For]
	for _, r := range roles() {
		all = append(all, choice[For]{word: r.word, value: For{Role: r.value}})
	}
	return append(all, choice[For]{word: "holding", value: For{Holding: true}}, choice[For]{word: "wash", value: For{Wash: true}})
}

func tankKind() kind[Tank] {
	reels := table("reel", same("135", "120"), line(list(as(volume(maxVessel, "200 L")))))
	return thing([]field[Tank]{
		must(at("name", "What it is called; no two alike.", func(t *Tank) *string { return &t.Name }, text())),
		at("covers", "What covers one reel, two reels and so on, by the film's width.",
			func(t *Tank) *map[string][]As[quantity.Volume] { return &t.Covers }, reels),
	}, coversRise)
}

func canKind() kind[Can] {
	return thing([]field[Can]{
		must(at("name", "What it is called; no two alike.", func(c *Can) *string { return &c.Name }, text())),
		must(at("holds", "What it holds to the brim.", func(c *Can) *As[quantity.Volume] { return &c.Holds }, as(volume(maxHeld, "1000 L")))),
		must(at("takes", "Which used bath is collected in it: fixer, toner and so on, one alone.",
			func(c *Can) *process.Role { return &c.Takes }, chosen("role", roles()))),
		at("full_at", "The part of it at which it counts as full; 80 % where it is not said.",
			func(c *Can) *As[float64] { return &c.FullAt }, as(share())),
		at("vented", "Whether its cap lets gas out.", func(c *Can) *As[bool] { return &c.Vented }, as(yes())),
	})
}
