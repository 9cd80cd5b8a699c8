package chem

// entries are the substances that this package knows, by what they become in water, in two parts. Formulas and names
// are common knowledge of chemistry; the molar masses follow from the formulas, the constants stand with the
// acids. Polyborates, polythionates and complexes are left out. Never written to.
var entries = append(organicAndPhosphates(), sulfurAndStrong()...)

// organicAndPhosphates are the salts and acids of carbon, boron and phosphorus.
func organicAndPhosphates() []entry {
	return []entry{
		{
			name: "acetic acid", formula: "CH3COOH",
			also:  []alias{{"ethanoic acid", 0}, {"glacial acetic acid", 0}, {"c2h4o2", 0}, {"hc2h3o2", 0}},
			acids: []share{{acetate, 1}},
		},
		{
			name: "sodium acetate", formula: "CH3COONa",
			hydrates: []float64{3},
			also:     []alias{{"ethanoate of sodium", 0}, {"nach3coo", 0}, {"nac2h3o2", 0}, {"c2h3nao2", 0}},
			acids:    []share{{acetate, 1}},
			ions:     []ion{{"Na^+", 1, 1}},
		},
		{
			name: "potassium acetate", formula: "CH3COOK",
			also:  []alias{{"kch3coo", 0}},
			acids: []share{{acetate, 1}},
			ions:  []ion{{"K^+", 1, 1}},
		},
		{
			name: "ammonium acetate", formula: "CH3COONH4",
			acids: []share{{acetate, 1}, {ammonium, 1}},
		},
		{
			name: "citric acid", formula: "C6H8O7",
			hydrates: []float64{1},
			also:     []alias{{"h3c6h5o7", 0}},
			acids:    []share{{citrate, 1}},
		},
		{
			name: "sodium dihydrogen citrate", formula: "NaC6H7O7",
			also:  []alias{{"monosodium citrate", 0}, {"nah2c6h5o7", 0}},
			acids: []share{{citrate, 1}},
			ions:  []ion{{"Na^+", 1, 1}},
		},
		{
			name: "potassium dihydrogen citrate", formula: "KC6H7O7",
			also:  []alias{{"monopotassium citrate", 0}, {"kh2c6h5o7", 0}, {"kh2 citrate", 0}},
			acids: []share{{citrate, 1}},
			ions:  []ion{{"K^+", 1, 1}},
		},
		{
			name: "disodium hydrogen citrate", formula: "Na2C6H6O7",
			hydrates: []float64{1.5},
			also:     []alias{{"disodium citrate", 0}, {"na2hc6h5o7", 0}},
			acids:    []share{{citrate, 1}},
			ions:     []ion{{"Na^+", 1, 2}},
		},
		{
			name: "trisodium citrate", formula: "Na3C6H5O7",
			hydrates: []float64{2},
			also:     []alias{{"sodium citrate", 0}, {"tribasic sodium citrate", 0}, {"c6h5na3o7", 0}},
			acids:    []share{{citrate, 1}},
			ions:     []ion{{"Na^+", 1, 3}},
		},
		{
			name: "tripotassium citrate", formula: "K3C6H5O7",
			hydrates: []float64{1},
			also:     []alias{{"potassium citrate", 0}},
			acids:    []share{{citrate, 1}},
			ions:     []ion{{"K^+", 1, 3}},
		},
		{
			name: "boric acid", formula: "H3BO3",
			also:  []alias{{"boracic acid", 0}, {"orthoboric acid", 0}, {"b(oh)3", 0}},
			acids: []share{{borate, 1}},
		},
		{
			name: "sodium tetraborate", formula: "Na2B4O7",
			hydrates: []float64{5, 10},
			also: []alias{
				{"borax", 10},
				{"anhydrous borax", 0},
				{"borax anhydrous", 0},
				{"disodium tetraborate", 0},
				{"borax pentahydrate", 5},
				{"borax decahydrate", 10},
			},
			acids: []share{{borate, 4}},
			ions:  []ion{{"Na^+", 1, 2}},
		},
		{
			name: "sodium metaborate", formula: "NaBO2",
			hydrates: []float64{2, 4},
			also:     []alias{{"nab(oh)4", 0}},
			acids:    []share{{borate, 1}},
			ions:     []ion{{"Na^+", 1, 1}},
		},
		{
			name: "carbonic acid", formula: "H2CO3",
			also:  []alias{{"carbon dioxide", 0}, {"co2", 0}},
			acids: []share{{carbonate, 1}},
		},
		{
			name: "sodium bicarbonate", formula: "NaHCO3",
			also: []alias{
				{"sodium hydrogen carbonate", 0},
				{"sodium hydrogencarbonate", 0},
				{"bicarbonate of soda", 0},
				{"baking soda", 0},
			},
			acids: []share{{carbonate, 1}},
			ions:  []ion{{"Na^+", 1, 1}},
		},
		{
			name: "sodium carbonate", formula: "Na2CO3",
			hydrates: []float64{1, 7, 10},
			also: []alias{
				{"soda ash", 0},
				{"calcined soda", 0},
				{"washing soda", 10},
				{"sal soda", 10},
				{"soda crystals", 10},
				{"carbonate of soda", 0},
				{"disodium carbonate", 0},
			},
			acids: []share{{carbonate, 1}},
			ions:  []ion{{"Na^+", 1, 2}},
		},
		{
			name: "potassium bicarbonate", formula: "KHCO3",
			also:  []alias{{"potassium hydrogen carbonate", 0}, {"potassium hydrogencarbonate", 0}},
			acids: []share{{carbonate, 1}},
			ions:  []ion{{"K^+", 1, 1}},
		},
		{
			name: "potassium carbonate", formula: "K2CO3",
			hydrates: []float64{1.5},
			also: []alias{
				{"potash", 0}, {"pearl ash", 0}, {"carbonate of potash", 0}, {"dipotassium carbonate", 0},
			},
			acids: []share{{carbonate, 1}},
			ions:  []ion{{"K^+", 1, 2}},
		},
		{
			name: "ammonium carbonate", formula: "(NH4)2CO3",
			hydrates: []float64{1},
			acids:    []share{{carbonate, 1}, {ammonium, 2}},
		},
		{
			name: "phosphoric acid", formula: "H3PO4",
			also:  []alias{{"orthophosphoric acid", 0}},
			acids: []share{{phosphate, 1}},
		},
		{
			name: "sodium dihydrogen phosphate", formula: "NaH2PO4",
			hydrates: []float64{1, 2},
			also: []alias{
				{"monosodium phosphate", 0},
				{"sodium phosphate monobasic", 0},
				{"monobasic sodium phosphate", 0},
			},
			acids: []share{{phosphate, 1}},
			ions:  []ion{{"Na^+", 1, 1}},
		},
		{
			name: "disodium phosphate", formula: "Na2HPO4",
			hydrates: []float64{2, 7, 12},
			also: []alias{
				{"disodium hydrogen phosphate", 0},
				{"sodium phosphate dibasic", 0},
				{"dibasic sodium phosphate", 0},
				{"disodium hydrogenphosphate", 0},
				{"sodium hydrogen phosphate", 0},
			},
			acids: []share{{phosphate, 1}},
			ions:  []ion{{"Na^+", 1, 2}},
		},
		{
			name: "trisodium phosphate", formula: "Na3PO4",
			hydrates: []float64{12},
			also:     []alias{{"tsp", 0}, {"sodium phosphate tribasic", 0}, {"tribasic sodium phosphate", 0}},
			acids:    []share{{phosphate, 1}},
			ions:     []ion{{"Na^+", 1, 3}},
		},
		{
			name: "potassium dihydrogen phosphate", formula: "KH2PO4",
			also: []alias{
				{"monopotassium phosphate", 0},
				{"potassium phosphate monobasic", 0},
				{"potassium dihydrogenphosphate", 0},
			},
			acids: []share{{phosphate, 1}},
			ions:  []ion{{"K^+", 1, 1}},
		},
		{
			name: "dipotassium phosphate", formula: "K2HPO4",
			hydrates: []float64{3},
			also:     []alias{{"dipotassium hydrogen phosphate", 0}, {"potassium phosphate dibasic", 0}},
			acids:    []share{{phosphate, 1}},
			ions:     []ion{{"K^+", 1, 2}},
		},
		{
			name: "tripotassium phosphate", formula: "K3PO4",
			also:  []alias{{"potassium phosphate tribasic", 0}},
			acids: []share{{phosphate, 1}},
			ions:  []ion{{"K^+", 1, 3}},
		},
	}
}
