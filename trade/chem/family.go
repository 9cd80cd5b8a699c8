package chem

import "wetside/trade/reckoning"

// A family is an acid with all that it becomes by giving off protons.
type family uint8

const (
	acetate family = iota
	citrate
	carbonate
	phosphate
	borate
	sulfite
	thiosulfate
	sulfate
	ammonium
	phthalate
	ascorbate
	edta
	hydroquinone
	metol
	families // how many there are
)

// most is the greatest number of protons that an acid of the table gives off.
const most = 5

// An acid is what is known of a family.
type acid struct {
	key       string
	charge    int      // of the most protonated form
	forms     []string // from the most protonated on
	constants []Constant
}

// seen is a constant of the PHREEQC databases, with the enthalpy and heat capacity from memory (Goldberg, Kishore and
// Lennen 2002, of which the table itself was not at hand).
func seen(pk, dh, dcp float64) Constant {
	return Constant{PK25: pk, DH: dh, DCp: dcp, Origin: reckoning.Standard, Source: phreeqc, DHMemory: true}
}

// whole is a constant of which the enthalpy stands in the same database as the pK.
func whole(pk, dh float64) Constant {
	return Constant{PK25: pk, DH: dh, Origin: reckoning.Standard, Source: phreeqc}
}

// recalled is a constant from memory.
func recalled(pk, dh, dcp float64) Constant {
	return Constant{PK25: pk, DH: dh, DCp: dcp, Origin: reckoning.FromMemory, DHMemory: true}
}

// acids is what is known of each family, in their order. Never written to.
var acids = [families]acid{
	// LibreTexts; minteq.v4 has 4.757, sit 4.76.
	acetate: {"acetic", 0, []string{"CH3COOH", "CH3COO^-"}, []Constant{{
		PK25: 4.756, DH: -0.41, DCp: -142, Origin: reckoning.Standard, Source: libreTexts, DHMemory: true,
	}}},
	// Minteq.v4, from cumulative constants 6.396, 11.157, 14.285.
	citrate: {
		"citric", 0,
		[]string{"C6H8O7", "C6H7O7^-", "C6H6O7^2-", "C6H5O7^3-"},
		[]Constant{seen(3.128, 4.07, -131), seen(4.761, 2.23, -178), seen(6.396, -3.38, -254)},
	},
	// Minteq.v4, wateq4f and phreeqc alike; the first form is all dissolved carbon dioxide.
	carbonate: {
		"carbonic", 0,
		[]string{"H2CO3", "HCO3^-", "CO3^2-"},
		[]Constant{seen(6.352, 9.15, -371), seen(10.329, 14.70, -249)},
	},
	// Minteq.v4; phreeqc has 7.207 and 12.346.
	phosphate: {
		"phosphoric", 0,
		[]string{"H3PO4", "H2PO4^-", "HPO4^2-", "PO4^3-"},
		[]Constant{seen(2.148, -8.0, -141), seen(7.198, 3.6, -230), seen(12.375, 16.0, -242)},
	},
	// Minteq.v4; 9.24 in phreeqc. Polyborates are left out.
	borate: {"boric", 0, []string{"H3BO3", "B(OH)4^-"}, []Constant{seen(9.236, 13.8, -240)}},
	// The pair of sit; llnl has 2.008 and 7.205. The first form is all dissolved sulfur dioxide.
	sulfite: {
		"sulfurous", 0,
		[]string{"H2SO3", "HSO3^-", "SO3^2-"},
		[]Constant{seen(1.86, -17.80, -272), seen(7.17, -3.65, -262)},
	},
	// Sit, 1.72; llnl has 1.014.
	thiosulfate: {"thiosulfuric", -1, []string{"HS2O3^-", "S2O3^2-"}, []Constant{whole(1.72, -8.25)}},
	// The first proton of sulfuric acid is always off.
	sulfate: {"sulfuric", -1, []string{"HSO4^-", "SO4^2-"}, []Constant{recalled(1.99, -22.4, -258)}},
	// Minteq.v4; 9.252 in phreeqc, 9.241 in llnl.
	ammonium: {"ammonium", 1, []string{"NH4^+", "NH3"}, []Constant{seen(9.244, 51.95, 8)}},
	phthalate: {
		"phthalic", 0,
		[]string{"C8H6O4", "C8H5O4^-", "C8H4O4^2-"},
		[]Constant{recalled(2.950, -2.70, -91), recalled(5.408, -2.17, -295)},
	},
	// Printed from 4.04 to 4.17 and from 11.6 to 11.7.
	ascorbate: {
		"ascorbic", 0,
		[]string{"C6H8O6", "C6H7O6^-", "C6H6O6^2-"},
		[]Constant{recalled(4.10, 0, 0), recalled(11.6, 0, 0)},
	},
	// Minteq.v4, from cumulative constants 10.948, 17.221, 20.34, 22.5, 24.0; sit lies up to 0.8 higher.
	edta: {
		"edta", 1,
		[]string{"C10H17N2O8^+", "C10H16N2O8", "C10H15N2O8^-", "C10H14N2O8^2-", "C10H13N2O8^3-", "C10H12N2O8^4-"},
		[]Constant{
			whole(1.50, -2.09), whole(2.16, -1.25), whole(3.119, -5.44), whole(6.273, 17.57), whole(10.948, 23.43),
		},
	},
	// Printed from 9.85 to 10.35 and from 11.4 to 12.
	hydroquinone: {
		"hydroquinone", 0,
		[]string{"C6H6O2", "C6H5O2^-", "C6H4O2^2-"},
		[]Constant{recalled(9.85, 0, 0), recalled(11.4, 0, 0)},
	},
	// P-methylaminophenol, weakly known: the phenol is printed from 10.4 to 11.
	metol: {
		"methylaminophenol", 1,
		[]string{"C7H10NO^+", "C7H9NO", "C7H8NO^-"},
		[]Constant{recalled(5.9, 0, 0), recalled(10.7, 0, 0)},
	},
}
