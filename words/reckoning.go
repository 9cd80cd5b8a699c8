package words

import (
	"slices"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// RowKind says what a row of a reckoning is.
type RowKind uint8

// The kinds of rows.
const (
	Rule   RowKind = iota // the rule, a sentence
	Put                   // a figure that was put in
	Result                // the figure that came out
)

// A Row is one line of an opened reckoning.
type Row struct {
	Kind  RowKind
	Depth int    // 0 for the reckoning that was asked for, 1 for those of its figures, and so on
	Name  string // what the figure is, or the rule's sentence
	Value string // the figure with its unit; empty for a rule
	From  string // where it is from: "the label", "ASTM E1272-02(2012), Table 1", "from memory"
}

// maxDepth is how deep a reckoning is opened.
const maxDepth = 6

// Reckoning opens a reckoning: its rule, the figures put in, each followed by how it came about itself, and the
// result, so that every number on a screen can be looked into.
func (v *Voice) Reckoning(r reckoning.Reckoning) []Row { return v.rows(r, 0) }

func (v *Voice) rows(r reckoning.Reckoning, depth int) []Row {
	rows := []Row{{Kind: Rule, Depth: depth, Name: v.Rule(r.Rule)}}
	for _, f := range r.Puts {
		rows = append(rows, v.row(Put, f, depth))
		if f.By != nil && depth < maxDepth {
			rows = append(rows, v.rows(*f.By, depth+1)...)
		}
	}
	return append(rows, v.row(Result, r.Result, depth))
}

// FigureRows opens a single figure: itself, and how it came about where it was reckoned.
func (v *Voice) FigureRows(f reckoning.Figure) []Row {
	rows := []Row{v.row(Result, f, 0)}
	if f.By != nil {
		rows = append(rows, v.rows(*f.By, 1)...)
	}
	return rows
}

func (v *Voice) row(kind RowKind, f reckoning.Figure, depth int) Row {
	return Row{Kind: kind, Depth: depth, Name: v.FigureName(f), Value: v.fine(f), From: v.Origin(f)}
}

// fine prints a figure so that a reckoning can be followed: shares and temperatures with a figure more than one works
// with.
func (v *Voice) fine(f reckoning.Figure) string {
	switch f.Unit {
	case reckoning.Share:
		return v.shareTo(f.Value, figures)
	case reckoning.C:
		if v.system == quantity.US {
			return v.decimal(quantity.Celsius(f.Value).Fahrenheit(), 1) + string(nbsp) + "°F"
		}
		return v.decimal(f.Value, 1) + string(nbsp) + "°C"
	case reckoning.One, reckoning.ML, reckoning.G, reckoning.GPerML, reckoning.MM, reckoning.M2, reckoning.S,
		reckoning.KJPerKg, reckoning.KgPerM3, reckoning.Money, reckoning.L, reckoning.GPerL, reckoning.GPerM2,
		reckoning.MLPerM2, reckoning.GPerMol, reckoning.MolPerKg, reckoning.KJPerMol, reckoning.JPerMolK, reckoning.D:
	case reckoning.PH:
		return v.decimal(f.Value, 2)
	}
	return v.Figure(f)
}

// Rule says a rule in a sentence, by its key.
func (v *Voice) Rule(rule string) string { return plain(v.say("rule."+rule, nil)) }

// FigureName says what a figure is, and what it belongs to: "permissible error of the litre jug".
func (v *Voice) FigureName(f reckoning.Figure) string {
	name := v.say("figure."+f.Name, nil)
	if f.Of == "" {
		return plain(name)
	}
	a := args{"Figure": name}
	v.subject(a, "Of", f.Of)
	if slices.Contains([]string{"ingredient_share", "hazard_weight", "ate"}, f.Name) {
		a["Of"] = v.Substance(f.Of)
	}
	return plain(v.say("figure_of", a))
}

// Origin says where a figure is from. A named standard is told by its title.
func (v *Voice) Origin(f reckoning.Figure) string {
	if f.Source != "" {
		return v.SourceTitle(f.Source)
	}
	return plain(v.say(originKey(f.Origin), nil))
}

// SourceTitle returns the title of a named source, its key where there is none.
func (v *Voice) SourceTitle(key string) string {
	if title := v.catalogue.titles[key]; title != "" {
		return title
	}
	return key
}
