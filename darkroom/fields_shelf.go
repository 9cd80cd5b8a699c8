package darkroom

import (
	"fmt"
	"time"

	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

func shelfKind() kind[Shelf] {
	return thing([]field[Shelf]{
		at("products", "The chemicals as their labels say.", func(s *Shelf) *[]Product { return &s.Products }, list(productKind())),
		at("lots", "Bought bottles and packets, and made-up stocks.", func(s *Shelf) *[]Lot { return &s.Lots }, list(line(lotKind()))),
	})
}

func productKind() kind[Product] {
	fields := append(productHead(), productPowder()...)
	fields = append(fields, productLabel()...)
	return thing(append(fields, productFilm()...), productRules()...)
}

// productHead is what a product is.
func productHead() []field[Product] {
	return []field[Product]{
		must(at("name", "What it is called; no two alike.", func(p *Product) *string { return &p.Name }, text())),
		must(at("role", "What it does.", func(p *Product) *process.Role { return &p.Role }, chosen("role", roles()))),
		at("for", "What it is for; for all where left out.", func(p *Product) *[]material.Material { return &p.For },
			line(list(chosen("material", materials())))),
		must(at("form", "Its form as bought.", func(p *Product) *Form { return &p.Form }, chosen("form", same(Liquid, Powder)))),
		at("acid", "Whether it is an acid: water goes in first. H314 does the same.",
			func(p *Product) *As[bool] { return &p.Acid }, as(yes())),
		at("alkali", "Whether it is a strong alkali: water goes in first.",
			func(p *Product) *As[bool] { return &p.Alkali }, as(yes())),
		at("foams", "Whether it foams: water goes in first.", func(p *Product) *As[bool] { return &p.Foams }, as(yes())),
	}
}

// productLabel is what its label and its safety data sheet say.
func productLabel() []field[Product] {
	return []field[Product]{
		at("dilutions", "By material, in the label's words.",
			func(p *Product) *Dilutions { return &p.Dilutions }, table("material", materials(), as(diluted()))),
		at("times", "By material.",
			func(p *Product) *Times { return &p.Times }, table("material", materials(), as(duration(24*time.Hour, "24 h")))),
		at("temperature", "The temperature it is used at.",
			func(p *Product) *As[quantity.Celsius] { return &p.Temperature }, as(celsius(100, "100 °C"))),
		at("tolerance", "How far its strength may be off.", func(p *Product) *As[float64] { return &p.Tolerance }, as(share())),
		at("capacity", "By material: 50 8x10 in per L, 1 m2 per L, 20 rolls per L, 30 8x10 in per bottle.",
			func(p *Product) *Capacities { return &p.Capacity },
			table("material", materials(), as(withOunce("capacity", ReadCapacity)))),
		at("keeps", "How long it keeps, by the state of its container.",
			func(p *Product) *Keeping { return &p.Keeps },
			table("state", states(), as(period()))),
		at("density", "Its density.", func(p *Product) *As[quantity.Density] { return &p.Density }, as(density())),
		at("contains", "What the label or the safety data sheet declares.",
			func(p *Product) *[]Ingredient { return &p.Contains }, list(line(ingredientKind()))),
		at("hazards", "The hazard statements, as H314.", func(p *Product) *[]string { return &p.Hazards }, line(list(hazard()))),
		at("packs", "The sizes that can be bought.", func(p *Product) *[]Pack { return &p.Packs }, line(list(line(packKind())))),
		at("indicator", "A stop bath's change of colour.", func(p *Product) *Indicator { return &p.Indicator }, line(indicatorKind())),
	}
}

// states are those of a container, with other words for the same.
func states() []choice[State] {
	return []choice[State]{
		{word: "unopened", value: Unopened},
		{word: "opened", value: Opened},
		{word: "full bottle", value: FullBottle, others: []string{"full"}},
		{word: "part bottle", value: PartBottle, others: []string{"half bottle", "half full", "part full", "half-full bottle"}},
		{word: "floating lid", value: FloatingLid},
		{word: "tray", value: InTray, others: []string{"open tray", "in tray"}},
	}
}

// productPowder is what is particular to powders.
func productPowder() []field[Product] {
	return []field[Product]{
		at("makes", "Of a powder: what the whole packet makes.",
			func(p *Product) *As[quantity.Volume] { return &p.Makes }, as(volume(maxVessel, "200 L"))),
		at("weighs", "Of a powder: what the whole packet weighs.",
			func(p *Product) *As[quantity.Mass] { return &p.Weighs }, as(mass(100_000, "100 kg"))),
		at("start_with", "Of a powder: the part of the water it is stirred into.",
			func(p *Product) *As[quantity.Ratio] { return &p.StartWith }, as(part())),
		at("mix_at", "Of a powder: the temperature of that water.",
			func(p *Product) *As[quantity.Celsius] { return &p.MixAt }, as(celsius(100, "100 °C"))),
	}
}

// productFilm is how film and paper are worked in it.
func productFilm() []field[Product] {
	return []field[Product]{
		at("agitation", "How the film or print is moved.", func(p *Product) *string { return &p.Agitation }, text()),
		at("least_per_roll", "The least concentrate or stock a roll needs, whatever the dilution.",
			func(p *Product) *As[quantity.Volume] { return &p.LeastPerRoll }, as(volume(10*quantity.Litre, "10 L"))),
		at("reuse", "one-shot, +10 % per roll, or replenish 20 mL per roll.",
			func(p *Product) *string { return &p.Reuse }, worded(as(withOunce("reuse", ReadReuse)))),
		at("whose", "Whose it is: one of people, by name, or somebody; the room's where left out. The room does not plan with it or buy it.",
			func(p *Product) *string { return &p.Whose }, text()),
	}
}

// worded keeps of a value only its words.
func worded[T any](k kind[As[T]]) kind[string] {
	return kind[string]{
		read:   func(r *reader, n *node) string { return k.read(r, n).Text },
		write:  func(text string) *node { return k.write(As[T]{Text: text}) },
		schema: k.schema,
	}
}

func ingredientKind() kind[Ingredient] {
	return thing([]field[Ingredient]{
		must(at("substance", "What it is.", func(i *Ingredient) *string { return &i.Substance }, text())),
		at("share", "Its share: 5 %, 1 to 2 %, < 1 %.", func(i *Ingredient) *As[Range] { return &i.Share }, as(quantityOf("range", ReadRange))),
	})
}

func indicatorKind() kind[Indicator] {
	return thing([]field[Indicator]{
		at("from", "Its colour while it works.", func(i *Indicator) *string { return &i.From }, text()),
		at("to", "Its colour when it is spent.", func(i *Indicator) *string { return &i.To }, text()),
	})
}

// holding is what a bottle or packet holds.
type holding struct {
	volume  quantity.Volume
	packets int
}

// holds reads a volume or a number of packets.
func holds() scalar[holding] {
	s := volume(maxHeld, "1000 L")
	return scalar[holding]{
		what: "holding",
		parse: func(r *reader, text string) (holding, *Problem) {
			if n, ok := readPackets(text); ok {
				if n < 1 || n > 1000 {
					return holding{}, &Problem{Kind: ProblemOutOfBounds, Expected: Expected{Low: "1", High: "1,000"}}
				}
				return holding{packets: n}, nil
			}
			v, p := s.parse(r, text)
			return holding{volume: v}, p
		},
		schema: schemaOfText,
	}
}

// bottleOrPackets parts a holding into the two fields that keep it; held puts them together again.
func bottleOrPackets(h As[holding], bottle *As[quantity.Volume], packets *int) {
	if *packets = h.Value.packets; *packets == 0 {
		*bottle = As[quantity.Volume]{h.Value.volume, h.Text}
	}
}

func held(bottle As[quantity.Volume], packets int) As[holding] {
	switch {
	case packets == 1:
		return As[holding]{holding{packets: 1}, "1 packet"}
	case packets > 1:
		return As[holding]{holding{packets: packets}, fmt.Sprintf("%d packets", packets)}
	}
	return As[holding]{holding{volume: bottle.Value}, bottle.Text}
}

func packKind() kind[Pack] {
	return thing([]field[Pack]{
		must(via("holds", "What it holds: a volume, or 1 packet.",
			func(p *Pack) As[holding] { return held(p.Holds, p.Packets) },
			func(p *Pack, h As[holding]) { bottleOrPackets(h, &p.Holds, &p.Packets) }, as(holds()))),
		at("price", "Its price.", func(p *Pack) *As[int64] { return &p.Price }, as(price())),
	})
}

func lotKind() kind[Lot] {
	return thing([]field[Lot]{
		must(at("product", "A product of this shelf, by name.", func(l *Lot) *string { return &l.Product }, text())),
		via("state", "stock: a solution that was made up.", stateOf,
			func(l *Lot, s string) { l.Stock = s != "" }, chosen("state of a lot", same("stock"))),
		via("holds", "What it holds when full: a volume, or 1 packet.",
			func(l *Lot) As[holding] { return held(l.Holds, l.Packets) },
			func(l *Lot, h As[holding]) { bottleOrPackets(h, &l.Holds, &l.Packets) }, as(holds())),
		via("left", "What is left in it, or unknown.", leftOf, setLeft, as(left())),
		at("received", "When it came.", func(l *Lot) *As[time.Time] { return &l.Received }, as(date())),
		at("opened", "When it was opened.", func(l *Lot) *As[time.Time] { return &l.Opened }, as(date())),
		at("made", "When a stock was made up.", func(l *Lot) *As[time.Time] { return &l.Made }, as(date())),
		at("whose", "Whose it is: one of people, by name, or somebody; the room's where left out.", func(l *Lot) *string { return &l.Whose }, text()),
	}, lotRules()...)
}

func stateOf(l *Lot) string {
	if l.Stock {
		return "stock"
	}
	return ""
}

// left reads a volume, nothing of one included, or unknown, which is less than nothing here.
func left() scalar[quantity.Volume] {
	s := within(withOunce("volume", quantity.ReadVolume), 0, maxHeld, "0 L", "1000 L")
	parse := s.parse
	s.parse = func(r *reader, text string) (quantity.Volume, *Problem) {
		if squeeze(text) == unknown {
			return -1, nil
		}
		return parse(r, text)
	}
	return s
}

const unknown = "unknown"

func leftOf(l *Lot) As[quantity.Volume] {
	if l.LeftUnknown {
		return As[quantity.Volume]{-1, unknown}
	}
	return l.Left
}

func setLeft(l *Lot, v As[quantity.Volume]) {
	if l.LeftUnknown = v.Value < 0; !l.LeftUnknown {
		l.Left = v
	}
}

// The tables of a label by material.
type (
	// Dilutions are a product's.
	Dilutions = map[material.Material]As[dilution.Dilution]
	// Times are a product's.
	Times = map[material.Material]As[time.Duration]
	// Capacities are a product's.
	Capacities = map[material.Material]As[Capacity]
	// Keeping is how long a product keeps.
	Keeping = map[State]As[quantity.Period]
	// Standards are what a room wants.
	Standards = map[material.Material]Wanted
	// SilverLimits are a room's own.
	SilverLimits = map[material.Material]map[process.Standard]map[Bath]As[float64]
)
