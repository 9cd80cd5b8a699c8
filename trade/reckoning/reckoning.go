package reckoning

// Origin says where a figure is from.
type Origin uint8

// The origins.
const (
	Computed       Origin = iota // by the reckoning in By, or by this one's rule
	Asked                        // what the user asked for just now
	Label                        // a product's own label
	Measured                     // the room's own measurement or setting
	Standard                     // a named standard or handbook, in Source
	CommonPractice               // a fact of the trade without a source
	FromMemory                   // nobody's page
)

// Unit is the unit of a figure's value, an SI or metric one; printing may change it.
type Unit string

// The units.
const (
	One      Unit = ""    // a count or a pure number
	Share    Unit = "rel" // relative, 0.15 is 15 %
	ML       Unit = "ml"  // millilitre
	G        Unit = "g"   // gram
	GPerML   Unit = "g_per_ml"
	MM       Unit = "mm"
	M2       Unit = "m2"
	C        Unit = "c" // degree Celsius
	S        Unit = "s" // second
	KJPerKg  Unit = "kj_per_kg"
	KgPerM3  Unit = "kg_per_m3"
	L        Unit = "l"           // litre, where amounts of work are told per litre
	GPerL    Unit = "g_per_l"     // gram per litre, as of silver in a bath
	GPerM2   Unit = "g_per_m2"    // gram per square metre, as of silver on a paper
	MLPerM2  Unit = "ml_per_m2"   // millilitre per square metre, as of liquid that a print carries
	GPerMol  Unit = "g_per_mol"   // molar mass
	MolPerKg Unit = "mol_per_kg"  // mole per kilogram of water
	KJPerMol Unit = "kj_per_mol"  // enthalpy of a reaction
	JPerMolK Unit = "j_per_mol_k" // heat capacity of a reaction
	PH       Unit = "ph"          // on the pH scale
	D        Unit = "d"           // day, for what is told by the calendar
	Money    Unit = "money"       // in hundredths of the room's currency
)

// A Figure is one number in a reckoning.
type Figure struct {
	Name   string  // a stable snake_case key: "total", "chemical", "permissible_error"
	Of     string  // what it belongs to, the user's own word: a vessel's or a product's name; may be empty
	Value  float64 // in Unit
	Unit   Unit
	Origin Origin
	Source string     // a key of docs/sources.md where Origin is Standard, else empty
	By     *Reckoning // how it came about, where it was itself reckoned
}

// A Reckoning is a rule with the figures put in and the figure that came out.
type Reckoning struct {
	Rule   string // a stable snake_case key; words holds its sentence
	Puts   []Figure
	Result Figure
}

// Figure returns the result as a figure that can be opened: its By is the reckoning itself.
func (r Reckoning) Figure() Figure {
	f := r.Result
	f.By = &r
	return f
}
