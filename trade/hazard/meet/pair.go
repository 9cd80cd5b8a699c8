package meet

import (
	"slices"

	"wetside/trade/hazard/substance"
	"wetside/trade/reckoning"
)

// A Thing is what stands on a shelf, is in use, or is poured together with others.
type Thing struct {
	Name   string // the user's own
	Groups substance.Group
	Burns  bool // H314 by reckoning or label
}

// An Effect is what happens when two things meet, a key of the message catalogue.
type Effect string

// The effects.
const (
	ChlorineGas       Effect = "chlorine_gas"
	Chloramines       Effect = "chloramines"        // and nitrogen trichloride, which explodes
	Boils             Effect = "boils"              // heat, spattering
	SulfurDioxide     Effect = "sulfur_dioxide"     // stings, and harms asthmatics
	SulfurComesDown   Effect = "sulfur_comes_down"  // with sulfur dioxide; the fixer is lost
	HydrogenSulfide   Effect = "hydrogen_sulfide"   // poisonous
	AmmoniaGas        Effect = "ammonia_gas"        // stings
	HydrogenCyanide   Effect = "hydrogen_cyanide"   // poisonous
	FulminatingSilver Effect = "fulminating_silver" // explodes when left standing
	Fire              Effect = "fire"
	Spatters          Effect = "spatters" // water onto a strong acid
	Bursts            Effect = "bursts"   // a stoppered bottle
)

// What no shelf has to list, but every room has: water, and a cap. Their names are keys of the message catalogue.
const (
	Water         = "water"
	Stopper       = "stopper"
	HouseBleach   = "chlorine_bleach" // chlorine bleach as for cleaning, never the bleach of a print
	houseBleachIs = substance.ChlorineBleach
)

// A Pair must not meet.
type Pair struct {
	A, B   string // names of things, or Water, Stopper, HouseBleach
	Effect Effect
	Origin reckoning.Origin
	Source string // a key of docs/sources.md; empty from memory
	// AsBought says that the bottles must not meet and their baths may: a stop bath between developer and fixer, of an acid that does
	// not burn, is normal practice (common practice).
	AsBought bool
}

// A clash is a rule about two groups.
type clash struct {
	a, b   substance.Group
	burns  bool // only where the one of group a is strong, H314
	effect Effect
	source string
}

// clashes are in the order of their danger. Ferricyanide with hypo is no clash: as a reducer it is normal practice (from
// memory). Sources: reference works on each pair, by key; the last one is from memory.
func clashes() []clash {
	return []clash{
		{substance.Cyanoferrate, substance.Acid, true, HydrogenCyanide, "ICSC-1132"},
		{substance.ChlorineBleach, substance.Acid, false, ChlorineGas, "ChlorineInst"},
		{substance.ChlorineBleach, substance.AmmoniumSalt | substance.Ammonia, false, Chloramines, "ChlorineInst"},
		{substance.ChlorineBleach, substance.Thiosulfate | substance.Sulfite, false, Boils, "ChlorineInst"},
		{substance.Sulfide, substance.Acid, false, HydrogenSulfide, "ICSC-1047"},
		{substance.Silver, substance.Ammonia, false, FulminatingSilver, "CEN-1996"},
		{substance.Oxidiser, substance.OrganicAcid, true, Fire, "Army-SS0513-37"},
		{substance.Sulfite, substance.Acid, false, SulfurDioxide, "FSU"},
		{substance.Thiosulfate, substance.Acid, false, SulfurComesDown, "Anchell3"},
		{substance.AmmoniumSalt, substance.StrongAlkali, false, AmmoniaGas, "NH4Cl-LS"},
		{substance.Dichromate, substance.Chloride, false, ChlorineGas, ""},
	}
}

// NeverTogether returns the pairs among some things that must not meet, each with its worst effect, the most dangerous
// first. house adds the chlorine bleach that stands under many sinks, where there is none among the things.
func NeverTogether(things []Thing, house bool) []Pair {
	all := slices.Clone(things)
	if house && !slices.ContainsFunc(things, func(t Thing) bool { return t.Groups&houseBleachIs != 0 }) {
		all = append(all, Thing{Name: HouseBleach, Groups: houseBleachIs})
	}
	var out []Pair
	for _, c := range clashes() {
		for i, x := range all {
			for _, y := range all[i+1:] {
				if x.Name != y.Name && (c.between(x, y) || c.between(y, x)) && !slices.ContainsFunc(out, func(p Pair) bool { return p.of(x, y) }) {
					p := pairOf(x.Name, y.Name, c.effect, c.source)
					p.AsBought = (c.effect == SulfurDioxide || c.effect == SulfurComesDown) && !x.strongAcid() && !y.strongAcid()
					out = append(out, p)
				}
			}
		}
	}
	return append(out, single(things)...)
}

// between tells whether x is of group a and y of group b; a strong one is the acid of the two.
func (c clash) between(x, y Thing) bool {
	if x.Groups&c.a == 0 || y.Groups&c.b == 0 {
		return false
	}
	return !c.burns || y.Burns
}

func (t Thing) strongAcid() bool { return t.Groups&substance.Acid != 0 && t.Burns }

func (p Pair) of(x, y Thing) bool {
	return p.A == x.Name && p.B == y.Name || p.A == y.Name && p.B == x.Name
}

func pairOf(a, b string, e Effect, source string) Pair {
	p := Pair{A: a, B: b, Effect: e, Origin: reckoning.Standard, Source: source}
	if source == "" {
		p.Origin = reckoning.FromMemory
	}
	return p
}

// single are the dangers of one thing with what is always there.
func single(things []Thing) []Pair {
	var out []Pair
	for _, t := range things {
		if t.strongAcid() {
			out = append(out, pairOf(Water, t.Name, Spatters, "OregonMetro"))
		}
		if t.Groups&substance.Peroxide != 0 {
			out = append(out, pairOf(t.Name, Stopper, Bursts, ""))
		}
	}
	return out
}
