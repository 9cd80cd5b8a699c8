package substance

import (
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"wetside/trade/hazard/ghs"
	"wetside/trade/reckoning"
)

// Status says how well a row is known.
type Status uint8

// The statuses.
const (
	Memory Status = iota
	Seen
	SeenSecond
)

// A Basis is where something of a row is from.
type Basis struct {
	Status Status
	Source string // a key of docs/sources.md; empty from memory
}

// Origin returns the basis as a figure carries it.
func (b Basis) Origin() reckoning.Origin {
	if b.Status == Memory {
		return reckoning.FromMemory
	}
	return reckoning.Standard
}

// A Limit is a specific concentration limit: from so many mass per cent on the substance gives a mixture the class. The limits
// of a kind stand in for the generic ones of that kind.
type Limit struct {
	Class ghs.Class
	From  float64
}

// A Supplement is a supplemental statement, EUH031, and the mass per cent from which it is given.
type Supplement struct {
	Code string
	From float64
	// Own says that the entry gives no limit and this one is our own judgement.
	Own bool
}

// An ATE is an estimate of acute toxicity: mg/kg for mouth and skin, mg/L for vapour and dust, ppm for gas.
type ATE struct {
	Kind  ghs.Kind
	Value float64
}

// A Group is what a substance is to others that it must not meet. Groups are added up.
type Group uint32

// The groups.
const (
	Acid Group = 1 << iota
	ChlorineBleach
	Thiosulfate
	AmmoniumSalt
	Sulfite
	Sulfide
	StrongAlkali
	Cyanoferrate
	Peroxide
	Ammonia
	Silver
	Oxidiser
	Dichromate
	Chloride // hydrochloric acid, which dichromate turns into chlorine
	OrganicAcid
)

// A Substance is one row. The zero value is none.
type Substance struct {
	Name    string   // in lower case, as Lookup gives it back
	Also    []string // synonyms and formulas, as written on labels
	CAS     string
	Classes []ghs.Class // of the substance itself; none where it is not classified
	Limits  []Limit
	// MAcute and MChronic multiply the share in water; 0 counts as 1.
	MAcute, MChronic float64
	ATEs             []ATE  // where a value is known; else the category's point value holds
	Effects          string // behind H360 and H361: F, D, FD, f, d, fd
	Supplements      []Supplement
	Groups           Group
	// StrongGloves is the share, mass per cent, from which thin nitrile is not enough; 0 for never.
	StrongGloves float64
	// Neutral says that it leaves the pH of water as it is, near enough for the pH rule.
	Neutral bool
	Basis   Basis
	Limited Basis
	// Recalled are the kinds whose limits are from memory, though Limited has a source for the others.
	Recalled []ghs.Kind
	// Disputes are keys of what sheets were seen to disagree about.
	Disputes []string
}

// Has tells whether the substance is of a class.
func (s Substance) Has(c ghs.Class) bool {
	return slices.Contains(s.Classes, c)
}

// LimitsOf returns the specific limits of a kind, the severer class first.
func (s Substance) LimitsOf(k ghs.Kind) []Limit {
	var out []Limit
	for _, l := range s.Limits {
		if l.Class.Kind() == k {
			out = append(out, l)
		}
	}
	return out
}

// maxName is how long a name is that is looked up; longer ones are unknown.
const maxName = 1000

// All returns the table.
func All() []Substance {
	all := developers()
	all = append(all, moreDevelopers()...)
	all = append(all, acids()...)
	all = append(all, alkalis()...)
	all = append(all, fixers()...)
	all = append(all, bleaches()...)
	all = append(all, toners()...)
	return append(all, others()...)
}

// Lookup finds a row by name, synonym, formula or CAS number, in any case, with or without a hyphen, a word for
// its water of crystallisation, a bracket behind it, or "solution". ok is false where there is none.
func Lookup(name string) (s Substance, ok bool) {
	if len(name) > maxName || !utf8.ValidString(name) {
		return Substance{}, false
	}
	rows := index()
	for _, word := range []string{folded(name), bare(folded(name))} {
		if s, ok = rows[word]; ok && word != "" {
			return s, true
		}
	}
	return Substance{}, false
}

// index has the rows by all their names. It is made once and never written to.
var index = sync.OnceValue(func() map[string]Substance {
	rows := map[string]Substance{}
	for _, s := range All() {
		for _, name := range append([]string{s.Name, s.CAS}, s.Also...) {
			rows[folded(name)] = s
		}
	}
	delete(rows, "")
	return rows
})

// folded writes a name as it is compared: lower case, single spaces, no hyphens, British sulph as sulf.
func folded(name string) string {
	name = strings.ToLower(name)
	name = folds.Replace(name)
	return strings.Join(strings.Fields(name), " ")
}

// folds are the signs and spellings that make no difference. Never written to.
var folds = strings.NewReplacer("-", " ", "‐", " ", "‑", " ", "–", " ", "_", " ", ",", " ", "’", "'", "·", ".", "sulph", "sulf",
	"aluminium", "aluminum", "caesium", "cesium")

// bare takes off a folded name what does not change the row: a bracket, water of crystallisation, "solution".
func bare(word string) string {
	if i := strings.IndexByte(word, '('); i > 0 && strings.HasSuffix(word, ")") && word[i-1] == ' ' {
		word = word[:i]
	}
	if i := strings.Index(word, ".h2o"); i > 0 {
		word = word[:i]
	}
	if i := strings.LastIndexByte(word, '.'); i > 0 && strings.HasSuffix(word, "h2o") {
		word = word[:i]
	}
	for _, tail := range []string{
		"anhydrous", "anhyd.", "desiccated", "monohydrate", "dihydrate", "trihydrate", "tetrahydrate", "pentahydrate",
		"hexahydrate", "heptahydrate", "nonahydrate", "decahydrate", "dodecahydrate", "hydrate", "crystals", "solution", "aqueous", "tech.",
	} {
		word = strings.TrimSuffix(strings.TrimPrefix(word, tail+" "), " "+tail)
	}
	return strings.TrimSpace(word)
}
