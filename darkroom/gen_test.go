package darkroom_test

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// gen writes random files that are right, straight from the contract's text and not from the tables under test.
type gen struct {
	t      *rapid.T
	n      int
	owners []string // the names of people, quoted
}

func (g *gen) pick(words ...string) string { return rapid.SampledFrom(words).Draw(g.t, "word") }

func (g *gen) flip() bool { return rapid.Bool().Draw(g.t, "flip") }

// name gives a name that no other thing has, with what YAML makes difficult.
func (g *gen) name() string {
	g.n++
	return fmt.Sprintf("%s %d", g.pick("jug", "film developer, powder", "no", "12", "a: b", "# not a comment", "- dash",
		"{brace}", "[x]", "Ängström's", "quote\"s", `back\slash`, "日本", "½ jug", "null", "&a", "*a", "!tag", "|", "%"), g.n)
}

// quoted writes a text as a double-quoted YAML scalar.
func quoted(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`).Replace(s) + `"`
}

// fields writes a flow mapping of the pairs given, leaving out at random those whose key begins with ?.
func (g *gen) fields(pairs ...string) string {
	var out []string
	for i := 0; i < len(pairs); i += 2 {
		key, optional := strings.CutPrefix(pairs[i], "?")
		if optional && g.flip() || pairs[i+1] == "" {
			continue
		}
		out = append(out, key+": "+pairs[i+1])
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// many writes a flow list of up to most items.
func (g *gen) many(most int, one func() string) string {
	var out []string
	for range rapid.IntRange(0, most).Draw(g.t, "many") {
		out = append(out, one())
	}
	return "[" + strings.Join(out, ", ") + "]"
}

func (g *gen) yes() string { return g.pick("yes", "no", "true", "No") }

func (g *gen) volume() string {
	return g.pick("1 L", "500 mL", "32 fl oz", "1/2 US gal", "1 imp pint", "0.75 l", "½ L", "750ml", "12 oz", "1 quart")
}

func (g *gen) byMaterial(value func() string) string {
	return g.fields("?RC paper", value(), "?FB paper", value(), "?film", value())
}

func (g *gen) file() string {
	people := g.many(2, func() string {
		name := quoted(g.name())
		g.owners = append(g.owners, name)
		return g.fields("name", name, "?does", g.many(2, func() string { return g.pick("mixes", "teaches") }),
			"?notes", g.many(2, func() string { return quoted(g.name() + g.pick("", "\nsecond line", "\ttab")) }))
	})
	return "darkroom: " + g.room() + "\nbench: " + g.bench() + "\nshelf: " + g.shelf() + "\npeople: " + people + "\nsession: " + g.session() + "\n"
}

func (g *gen) room() string {
	wanted := func() string {
		return g.fields("?standard", g.pick("work print", "exhibition", "archival"), "?fixing", g.pick("one bath", "two baths"),
			"?washing_aid", g.yes())
	}
	return g.fields("name", quoted(g.name()), "?place", g.pick("home", "community", "school"),
		"?units", g.pick("metric", "us", "imperial", "US"), "ounce", g.pick("us", "imperial"),
		"?water", g.fields("?cold", g.pick("5 °C", "8 C"), "?hot", g.pick("45 °C", "140 °F"), "?hardness", g.pick("soft", "hard"),
			"?kettle", g.yes(), "?ice", g.yes(), "?running", g.yes()),
		"?room", g.pick("19 °C", "68 °F", "20C"), "?drain", g.pick("sewer", "septic", "none"), "?law", g.pick("EU", "UK", "other"),
		"?poison_centre", quoted(g.name()), "?currency", g.pick("EUR", "€", "\"$\""), "?print_on", g.pick("A4", "Letter"),
		"?strip", g.pick("1/4", "0.25", "¼", "1"), "?drain_time", g.pick("10 s", "0:15"),
		"?silver_strip", g.pick("[0.5, 1, 1.5]", "[]", "[1]"),
		"?silver_limits", g.fields("?FB paper", g.fields("?exhibition", g.fields("?one bath", "0.5 g/L", "?first of two", "2 g/L"))),
		"?language", g.pick("en", "de", "pt-BR"), "?standards", g.byMaterial(wanted))
}

func (g *gen) bench() string {
	scale := func() string {
		return g.pick("{unit: mL, from: 100, to: 1000, step: 50, numbered: 100}", "{unit: fl oz, from: 1, to: 32, step: 1}",
			"{unit: L, from: 1/4, to: 2, step: 1/4}", "{unit: imp fl oz, from: 0, to: 20, step: 0.5, numbered: 5}")
	}
	vessel := func() string {
		if rapid.IntRange(0, 4).Draw(g.t, "balance") == 0 {
			return g.fields("name", quoted(g.name()), "kind", "balance", "?permissible_error", g.pick("0.1 g", `"0.1 g, 1 %"`),
				"scales", "[{unit: g, from: 0, to: 500, step: 0.1}]")
		}
		return g.fields("name", quoted(g.name()), "kind", g.pick("jug", "beaker", "cylinder", "syringe", "pipette"),
			"?keep_for", g.pick("fixer", "Stop Bath", "toner"), "?permissible_error", g.pick("5 mL", "2 %", `"5 mL, 2 %"`),
			"?inner_width", g.pick("13 cm", "5 in"), "?half_marks", g.yes(), "?setting", "1/4", "?setting_between", "1/2",
			"scales", "["+scale()+", "+scale()+"]")
	}
	tray := func() string {
		return g.fields("name", quoted(g.name()), "?for", g.pick("developer", "fixer", "holding", "wash", "wetting agent"),
			"?inside", g.pick("38 x 30 cm", "11x14 in"), "?depth", g.pick("8 cm", "3 in"), "?colour", g.pick("white", "no"),
			"?fill", g.pick("2 L", "1.5 L"), "?litre_depth", g.pick("9 mm", "1 cm"))
	}
	tank := func() string {
		return g.fields("name", quoted(g.name()), "?covers", g.fields("?135", g.pick("[290 mL, 500 mL]", "[16 oz]"), "?120", "[500 mL]"))
	}
	can := func() string {
		return g.fields("name", quoted(g.name()), "takes", g.pick("fixer", "toner"), "holds", g.pick("25 L", "5 gal"),
			"?full_at", g.pick("80 %", "75 %"), "?vented", g.yes())
	}
	return g.fields("?vessels", g.many(3, vessel), "?trays", g.many(3, tray), "?tanks", g.many(2, tank), "?cans", g.many(2, can),
		"?fill_depth", g.pick("15 mm", "1/2 in"), "?dry", g.fields("?RC paper", "24", "?FB paper", "12"))
}

func (g *gen) shelf() string {
	var names []string
	product := func() string {
		names = append(names, quoted(g.name()))
		return g.product(names[len(names)-1])
	}
	products := g.many(3, product)
	lot := func() string {
		return g.fields("product", rapid.SampledFrom(names).Draw(g.t, "product"), "state", "stock", "?holds", g.pick("5 L", "1 gal"),
			"?left", g.pick("310 mL", "unknown", "0 L"), "?received", "2026-09-02", "?made", "2026-09-03", "?opened", "2026-10-14", "?whose", g.pick(append(g.owners, "somebody")...))
	}
	if len(names) == 0 {
		return "{products: " + products + "}"
	}
	return "{products: " + products + ", lots: " + g.many(3, lot) + "}"
}

func (g *gen) product(name string) string {
	liquid := g.flip()
	both := []string{
		"name", name, "role", g.pick("developer", "stop bath", "fixer", "washing aid", "toner"),
		"?acid", g.yes(), "?foams", g.yes(), "?alkali", g.yes(),
		"?dilutions", g.byMaterial(func() string {
			return g.pick("1+9", `"1:9"`, "1 in 32", "25 mL/L", "1+1 from stock", "1/2 fl oz per quart", "stock")
		}),
		"?times", g.byMaterial(func() string { return g.pick("60 s", "9 min 45 s", `"1:30"`) }),
		"?temperature", "20 °C", "?tolerance", g.pick("15 %", "10%"),
		"?capacity", g.byMaterial(func() string {
			return g.pick("100 8x10 in per L", "1 m2 per L", "20 rolls per L", "30 8x10 in per bottle", "80 24x30 cm per 500 mL", "40 8x10 in per gal")
		}),
		"?keeps", g.fields("?unopened", "24 months", "?opened", "2 years", "?full bottle", "4 weeks", "?tray", "24 h"),
		"?contains", g.many(2, func() string {
			return g.fields("substance", quoted(g.name()), "?share", g.pick("1 to 2 %", "5 %", "1-2 %", `"< 1 %"`))
		}),
		"?hazards", g.pick("[H317, H361fd, EUH031]", "[]"), "?indicator", g.fields("?from", "yellow", "?to", "purple"),
		"?agitation", "10 s every minute", "?least_per_roll", g.pick("125 mL", "4 oz"), "?whose", g.pick(append(g.owners, "Somebody")...),
		"?reuse", g.pick("one-shot", `"+10 % per roll"`, "replenish 20 mL per roll"),
	}
	if liquid {
		return g.fields(append(both, "form", "liquid", "?density", "1.10 g/mL", "?packs", "[{holds: 500 mL, price: 11.20}, {holds: 5 L}]")...)
	}
	return g.fields(append(both, "form", "powder", "?makes", g.volume(), "?weighs", g.pick("110 g", "3.5 oz av", "1.2 kg"), "?start_with", "3/4", "?mix_at", "52 °C",
		"?packs", "[{holds: 1 packet, price: 7}]")...)
}

func (g *gen) session() string {
	load := func() string {
		paper := g.fields("material", g.pick("RC paper", "FB paper", "rc"), "?size", g.pick("8x10 in", "24x30 cm"), "?sheets", "36",
			"?strips", g.pick("24", "0"), "?standard", "archival", "?fixing", "two baths", "?washing_aid", g.yes())
		film := g.fields("material", "film", "?size", g.pick("135-36", "120"), "?rolls", "2", "?dilution", g.pick("1+1 from stock", "1+50"),
			"?time", g.pick("9 min", "570 s"), "?agitation", "10 s every minute")
		return g.pick(paper, film)
	}
	return g.fields("?starts", g.pick("2026-12-03 18:30", "2026-12-03T18:30"), "?lasts", "3 h", "?people", "8", "?to_make", g.many(3, load))
}
