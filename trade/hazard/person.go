package hazard

import (
	"slices"
	"strings"

	"wetside/trade/hazard/ghs"
	"wetside/trade/hazard/substance"
)

// A Glove is what to wear.
type Glove string

// The gloves. Which material stands what is from memory.
const (
	NoGlove    Glove = ""
	ThinGlove  Glove = "thin_nitrile"      // working solutions
	ThickGlove Glove = "butyl_or_neoprene" // glacial acid and its like
)

// Gloves returns what to wear for a mixture, and the substance that asks for more than thin nitrile.
func (r Result) Gloves() (g Glove, because string) {
	for _, p := range r.known {
		if from := p.Substance.StrongGloves; from > 0 && atLeast(p.Share, from) {
			return ThickGlove, p.Substance.Name
		}
	}
	return ThinGlove, ""
}

// A Person is what is known of somebody that raises the caution. Keep it with the person and the keyholder.
type Person struct {
	SensitisedTo []string // substances, as written
	Asthma       bool     // or sensitive to sulfites
	Under18      bool
	Pregnant     bool // or nursing
}

// ReadPerson reads notes: "sensitised to metol", "asthma", "sulfite-sensitive", "under 18", "pregnant". What means none of these is
// passed over.
func ReadPerson(notes []string) Person {
	var p Person
	for _, n := range notes {
		n = strings.Join(strings.Fields(strings.ToLower(strings.ReplaceAll(n, "-", " "))), " ")
		for _, before := range []string{"sensitised to ", "sensitized to ", "allergic to ", "allergy to "} {
			if what, ok := strings.CutPrefix(n, before); ok {
				p.SensitisedTo = append(p.SensitisedTo, what)
			}
		}
		n = strings.ReplaceAll(n, "sulph", "sulf")
		p.Asthma = p.Asthma || strings.Contains(n, "asthma") || strings.Contains(n, "sulfite sensitive") || n == "sensitive to sulfites"
		p.Under18 = p.Under18 || n == "under 18" || n == "minor" || n == "pupil"
		p.Pregnant = p.Pregnant || n == "pregnant" || n == "nursing" || n == "breastfeeding"
	}
	return p
}

// A CautionKind is a caution for one person, a key of the message catalogue.
type CautionKind string

// The cautions for persons; all are from memory as practice, the classes behind them are those of the table.
const (
	KeepAway        CautionKind = "keep_away"        // sensitised to Substance: does not work with this
	SulfiteGas      CautionKind = "sulfite_gas"      // asthma: sulfites and their gas provoke it
	TongsOnly       CautionKind = "tongs_only"       // under 18: working solutions alone, with tongs
	NotForPupils    CautionKind = "not_for_pupils"   // under 18: no concentrate, powder, or what harms for long
	UnbornChild     CautionKind = "unborn_child"     // pregnant: Substance may harm the child
	AskFirst        CautionKind = "ask_first"        // something in it can't be judged: read its sheet first
	IrritatesBreath CautionKind = "irritates_breath" // asthma: it irritates the breath
)

// A PersonCaution is one caution with the substance that it is about, where it is one's.
type PersonCaution struct {
	Kind      CautionKind
	Substance string
}

// For returns the cautions of a mixture for a person. A sensitised person is warned of any share, as what elicits an allergy
// has no safe limit here.
func (r Result) For(p Person) []PersonCaution {
	var out []PersonCaution
	add := func(k CautionKind, s string) {
		if c := (PersonCaution{k, s}); !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	for _, name := range p.SensitisedTo {
		if s, ok := r.holds(name); ok {
			add(KeepAway, s)
		}
	}
	for _, part := range r.known {
		s := part.Substance
		if part.Share == 0 {
			continue
		}
		if p.Asthma && s.Groups&substance.Sulfite != 0 {
			add(SulfiteGas, s.Name)
		}
		if p.Asthma && (s.Has(ghs.STOTSE3) || s.Has(ghs.RespSens1)) {
			add(IrritatesBreath, s.Name)
		}
		if p.Pregnant && harmsChild(s) {
			add(UnbornChild, s.Name)
		}
	}
	if p.Under18 {
		add(r.pupils(), "")
	}
	if len(r.NotJudged) > 0 && (len(p.SensitisedTo) > 0 || p.Asthma || p.Pregnant) {
		add(AskFirst, "")
	}
	return out
}

// holds finds a substance, by any of its names, among those known and those not judged.
func (r Result) holds(name string) (string, bool) {
	wanted, known := substance.Lookup(name)
	for _, p := range r.known {
		if known && p.Substance.Name == wanted.Name && p.Share > 0 {
			return p.Substance.Name, true
		}
	}
	for _, i := range r.NotJudged {
		if s, ok := substance.Lookup(i.Name); ok && known && s.Name == wanted.Name || strings.EqualFold(i.Name, name) {
			return i.Name, true
		}
	}
	return "", false
}

// pupils tells whether pupils may work with it: a working solution with tongs, where nothing in it harms for long.
func (r Result) pupils() CautionKind {
	if r.State != Working && r.State != Used || r.Signal == ghs.Danger {
		return NotForPupils
	}
	for _, c := range r.Classes {
		switch c.Kind() {
		case ghs.Genes, ghs.Cancer, ghs.Birth, ghs.Repeated, ghs.Breath:
			return NotForPupils
		default:
		}
	}
	return TongsOnly
}

func harmsChild(s substance.Substance) bool {
	for _, c := range s.Classes {
		switch c.Kind() {
		case ghs.Birth, ghs.Milk, ghs.Genes:
			return true
		default:
		}
	}
	return false
}
