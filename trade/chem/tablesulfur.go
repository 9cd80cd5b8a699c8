package chem

// sulfurAndStrong are the sulfites, thiosulfates and sulfates, the strong acids and bases with their salts, and what
// developers hold.
func sulfurAndStrong() []entry {
	return []entry{
		{
			name: "sulfurous acid", formula: "H2SO3",
			also:  []alias{{"sulfur dioxide", 0}, {"so2", 0}},
			acids: []share{{sulfite, 1}},
		},
		{
			name: "sodium sulfite", formula: "Na2SO3",
			hydrates: []float64{7},
			also:     []alias{{"sulfite of soda", 0}, {"disodium sulfite", 0}},
			acids:    []share{{sulfite, 1}},
			ions:     []ion{{"Na^+", 1, 2}},
		},
		{
			name: "sodium bisulfite", formula: "NaHSO3",
			also:  []alias{{"sodium hydrogen sulfite", 0}, {"sodium hydrogensulfite", 0}},
			acids: []share{{sulfite, 1}},
			ions:  []ion{{"Na^+", 1, 1}},
		},
		{
			name: "sodium metabisulfite", formula: "Na2S2O5",
			also:  []alias{{"sodium disulfite", 0}, {"sodium pyrosulfite", 0}, {"metabisulfite", 0}},
			acids: []share{{sulfite, 2}},
			ions:  []ion{{"Na^+", 1, 2}},
		},
		{
			name: "potassium sulfite", formula: "K2SO3",
			acids: []share{{sulfite, 1}},
			ions:  []ion{{"K^+", 1, 2}},
		},
		{
			name: "potassium metabisulfite", formula: "K2S2O5",
			also:  []alias{{"potassium disulfite", 0}, {"potassium pyrosulfite", 0}},
			acids: []share{{sulfite, 2}},
			ions:  []ion{{"K^+", 1, 2}},
		},
		{
			name: "ammonium sulfite", formula: "(NH4)2SO3",
			hydrates: []float64{1},
			acids:    []share{{sulfite, 1}, {ammonium, 2}},
		},
		{
			name: "sodium thiosulfate", formula: "Na2S2O3",
			hydrates: []float64{5},
			also: []alias{
				{"hypo", 5}, {"hyposulfite of soda", 5}, {"sodium hyposulfite", 5}, {"hypo crystals", 5},
			},
			acids: []share{{thiosulfate, 1}},
			ions:  []ion{{"Na^+", 1, 2}},
		},
		{
			name: "ammonium thiosulfate", formula: "(NH4)2S2O3",
			acids: []share{{thiosulfate, 1}, {ammonium, 2}},
		},
		{
			name: "sulfuric acid", formula: "H2SO4",
			acids: []share{{sulfate, 1}},
		},
		{
			name: "sodium bisulfate", formula: "NaHSO4",
			hydrates: []float64{1},
			also:     []alias{{"sodium hydrogen sulfate", 0}, {"sodium hydrogensulfate", 0}},
			acids:    []share{{sulfate, 1}},
			ions:     []ion{{"Na^+", 1, 1}},
		},
		{
			name: "sodium sulfate", formula: "Na2SO4",
			hydrates: []float64{10},
			also:     []alias{{"glauber's salt", 10}, {"glauber salt", 10}},
			acids:    []share{{sulfate, 1}},
			ions:     []ion{{"Na^+", 1, 2}},
		},
		{
			name: "potassium sulfate", formula: "K2SO4",
			acids: []share{{sulfate, 1}},
			ions:  []ion{{"K^+", 1, 2}},
		},
		{
			name: "ammonium sulfate", formula: "(NH4)2SO4",
			acids: []share{{sulfate, 1}, {ammonium, 2}},
		},
		{
			name: "sodium hydroxide", formula: "NaOH",
			hydrates: []float64{1},
			also:     []alias{{"caustic soda", 0}, {"lye", 0}},
			ions:     []ion{{"Na^+", 1, 1}},
		},
		{
			name: "potassium hydroxide", formula: "KOH",
			also: []alias{{"caustic potash", 0}},
			ions: []ion{{"K^+", 1, 1}},
		},
		{
			name: "ammonia", formula: "NH3",
			also:  []alias{{"ammonium hydroxide", 0}, {"nh4oh", 0}, {"ammonia water", 0}, {"ammonia solution", 0}},
			acids: []share{{ammonium, 1}},
		},
		{
			name: "ammonium chloride", formula: "NH4Cl",
			also:  []alias{{"sal ammoniac", 0}, {"salmiac", 0}},
			acids: []share{{ammonium, 1}},
			ions:  []ion{{"Cl^-", -1, 1}},
		},
		{
			name: "hydrochloric acid", formula: "HCl",
			also: []alias{{"hydrogen chloride", 0}, {"muriatic acid", 0}},
			ions: []ion{{"Cl^-", -1, 1}},
		},
		{
			name: "sodium chloride", formula: "NaCl",
			also: []alias{{"salt", 0}, {"table salt", 0}, {"common salt", 0}},
			ions: []ion{{"Na^+", 1, 1}, {"Cl^-", -1, 1}},
		},
		{
			name: "potassium chloride", formula: "KCl",
			ions: []ion{{"K^+", 1, 1}, {"Cl^-", -1, 1}},
		},
		{
			name: "potassium bromide", formula: "KBr",
			also: []alias{{"bromide of potash", 0}},
			ions: []ion{{"K^+", 1, 1}, {"Br^-", -1, 1}},
		},
		{
			name: "sodium bromide", formula: "NaBr",
			ions: []ion{{"Na^+", 1, 1}, {"Br^-", -1, 1}},
		},
		{
			name: "ammonium bromide", formula: "NH4Br",
			acids: []share{{ammonium, 1}},
			ions:  []ion{{"Br^-", -1, 1}},
		},
		{
			name: "potassium iodide", formula: "KI",
			ions: []ion{{"K^+", 1, 1}, {"I^-", -1, 1}},
		},
		{
			name: "potassium nitrate", formula: "KNO3",
			also: []alias{{"saltpetre", 0}},
			ions: []ion{{"K^+", 1, 1}, {"NO3^-", -1, 1}},
		},
		{
			name: "sodium nitrate", formula: "NaNO3",
			ions: []ion{{"Na^+", 1, 1}, {"NO3^-", -1, 1}},
		},
		{
			name: "potassium hydrogen phthalate", formula: "KC8H5O4",
			also: []alias{
				{"khp", 0},
				{"potassium biphthalate", 0},
				{"potassium acid phthalate", 0},
				{"khc8h4o4", 0},
				{"c8h5ko4", 0},
			},
			acids: []share{{phthalate, 1}},
			ions:  []ion{{"K^+", 1, 1}},
		},
		{
			name: "ascorbic acid", formula: "C6H8O6",
			also:  []alias{{"vitamin c", 0}, {"erythorbic acid", 0}, {"isoascorbic acid", 0}},
			acids: []share{{ascorbate, 1}},
		},
		{
			name: "sodium ascorbate", formula: "NaC6H7O6",
			also:  []alias{{"c6h7nao6", 0}},
			acids: []share{{ascorbate, 1}},
			ions:  []ion{{"Na^+", 1, 1}},
		},
		{
			name: "sodium erythorbate", formula: "C6H7O6Na",
			hydrates: []float64{1},
			also:     []alias{{"sodium isoascorbate", 0}},
			acids:    []share{{ascorbate, 1}},
			ions:     []ion{{"Na^+", 1, 1}},
		},
		{
			name: "edta", formula: "C10H16N2O8",
			also:  []alias{{"edetic acid", 0}, {"edta acid", 0}},
			acids: []share{{edta, 1}},
		},
		{
			name: "disodium edta", formula: "Na2C10H14N2O8",
			hydrates: []float64{2},
			also:     []alias{{"edta disodium", 0}, {"edta disodium salt", 0}, {"sodium edta", 0}},
			acids:    []share{{edta, 1}},
			ions:     []ion{{"Na^+", 1, 2}},
		},
		{
			name: "tetrasodium edta", formula: "Na4C10H12N2O8",
			hydrates: []float64{4},
			also:     []alias{{"edta tetrasodium", 0}, {"edta tetrasodium salt", 0}},
			acids:    []share{{edta, 1}},
			ions:     []ion{{"Na^+", 1, 4}},
		},
		{
			name: "hydroquinone", formula: "C6H4(OH)2",
			also:  []alias{{"quinol", 0}, {"c6h6o2", 0}, {"benzene 1 4 diol", 0}},
			acids: []share{{hydroquinone, 1}},
		},
		{
			name: "metol", formula: "(C7H9NO)2H2SO4",
			also: []alias{
				{"monomethyl p aminophenol sulfate", 0},
				{"methylaminophenol sulfate", 0},
				{"p methylaminophenol sulfate", 0},
			},
			acids: []share{{metol, 2}, {sulfate, 1}},
		},
	}
}
