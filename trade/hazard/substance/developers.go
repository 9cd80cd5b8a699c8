package substance

import "wetside/trade/hazard/ghs"

// developers are the agents that reduce silver.
func developers() []Substance {
	return []Substance{
		{
			Name: "hydroquinone", Also: []string{"quinol", "benzene-1,4-diol", "1,4-dihydroxybenzene", "1,4-benzenediol", "C6H4(OH)2"},
			CAS:     "123-31-9",
			Classes: classes(ghs.AcuteOral4, ghs.SkinSens1, ghs.EyeDam1, ghs.Muta2, ghs.Carc2, ghs.AquaticAcute1),
			MAcute:  10, Neutral: true,
			Basis: seen("SDS-hydroquinone"), Limited: seen("ECHA-14417"), // the six hazards in words; M = 10 as the official value
			Disputes: []string{"hydroquinone_m", "hydroquinone_sheets"},
		},
		{
			Name: "metol", Also: []string{
				"p-methylaminophenol sulfate", "4-methylaminophenol sulfate", "p-methylaminophenol hemisulfate", "monomethyl-p-aminophenol sulfate",
				"bis(4-hydroxy-N-methylanilinium) sulfate", "4-(methylamino)phenol sulfate", "p-(methylamino)phenol sulfate",
			},
			CAS:     "55-55-0",
			Classes: classes(ghs.AcuteOral4, ghs.SkinSens1, ghs.STOTRE2, ghs.AquaticAcute1, ghs.AquaticChronic1),
			// From memory; that it sensitises and harms water: SCCP-A22, ICSC-1528.
			Disputes: []string{"metol_m"},
		},
		{
			Name: "phenidone", Also: []string{"1-phenyl-3-pyrazolidone", "1-phenyl-3-pyrazolidinone", "1-phenylpyrazolidin-3-one"},
			CAS: "92-43-3", Classes: classes(ghs.AcuteOral4, ghs.AquaticChronic2), Neutral: true,
		},
		{
			Name: "4-hydroxymethyl-4-methyl-1-phenyl-3-pyrazolidone", Also: []string{
				"4-hydroxymethyl-4-methyl-1-phenyl-3-pyrazolidinone", "4-hydroxymethyl-4-methyl-1-phenylpyrazolidin-3-one",
			},
			CAS: "13047-13-7", Classes: classes(ghs.AcuteOral4, ghs.SkinSens1, ghs.Repr2, ghs.STOTRE2, ghs.AquaticChronic2), Effects: "f",
			Neutral: true,
		},
		{
			Name: "4-methyl-1-phenyl-3-pyrazolidone", Also: []string{"4-methyl-1-phenyl-3-pyrazolidinone"},
			CAS: "2654-57-1", Classes: classes(ghs.AcuteOral4, ghs.AquaticChronic2), Neutral: true,
		},
		{
			Name: "p-aminophenol", Also: []string{"4-aminophenol", "para-aminophenol"}, CAS: "123-30-8",
			Classes: classes(ghs.AcuteOral4, ghs.AcuteDust4, ghs.Muta2, ghs.AquaticAcute1, ghs.AquaticChronic1),
			Basis:   seen("EDQM-PAP"), Neutral: true,
		},
		{
			Name: "p-aminophenol hydrochloride", Also: []string{"4-aminophenol hydrochloride"}, CAS: "51-78-5",
			Classes: classes(ghs.AcuteOral4, ghs.AcuteDust4, ghs.SkinSens1, ghs.Muta2, ghs.AquaticAcute1, ghs.AquaticChronic1),
		},
		{
			Name: "p-phenylenediamine", Also: []string{"1,4-diaminobenzene", "benzene-1,4-diamine", "para-phenylenediamine", "PPD"}, CAS: "106-50-3",
			Classes: classes(ghs.AcuteOral3, ghs.AcuteDermal3, ghs.AcuteDust3, ghs.EyeIrrit2, ghs.SkinSens1, ghs.AquaticAcute1,
				ghs.AquaticChronic1),
			Neutral: true,
		},
		{
			Name: "pyrogallol", Also: []string{"pyrogallic acid", "pyro", "benzene-1,2,3-triol", "1,2,3-trihydroxybenzene"}, CAS: "87-66-1",
			Classes: classes(ghs.AcuteOral4, ghs.AcuteDermal4, ghs.AcuteDust4, ghs.Muta2, ghs.AquaticChronic3), Neutral: true,
		},
		{
			Name: "pyrocatechol", Also: []string{"catechol", "benzene-1,2-diol", "1,2-dihydroxybenzene", "pyrocatechin"}, CAS: "120-80-9",
			Classes: classes(ghs.AcuteOral3, ghs.AcuteDermal3, ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.Muta2, ghs.Carc1B),
			ATEs:    []ATE{{ghs.Oral, 300}, {ghs.Dermal, 600}}, Neutral: true,
		},
		{
			Name: "amidol", Also: []string{"2,4-diaminophenol dihydrochloride", "2,4-diaminophenol hydrochloride"}, CAS: "137-09-7",
			Classes: classes(ghs.AcuteOral4, ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.SkinSens1, ghs.STOTSE3),
		},
		{
			Name: "glycin", Also: []string{"N-(4-hydroxyphenyl)glycine", "p-hydroxyphenylglycine", "4-hydroxyphenylaminoacetic acid"}, CAS: "122-87-2",
			Classes: classes(ghs.AcuteOral4, ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.STOTSE3), Neutral: true,
		},
		{
			Name: "chlorohydroquinone", Also: []string{"chlorhydroquinone", "2-chlorohydroquinone", "2-chlorobenzene-1,4-diol"}, CAS: "615-67-8",
			Classes: classes(ghs.AcuteOral4, ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.STOTSE3, ghs.AquaticAcute1), Neutral: true,
		},
	}
}

// moreDevelopers are what else goes into a developer, alkalis apart.
func moreDevelopers() []Substance {
	return []Substance{
		{Name: "ascorbic acid", Also: []string{"vitamin C", "L-ascorbic acid", "C6H8O6"}, CAS: "50-81-7"},
		{Name: "isoascorbic acid", Also: []string{"erythorbic acid", "D-isoascorbic acid"}, CAS: "89-65-6", Neutral: true},
		{Name: "sodium ascorbate", CAS: "134-03-2", Neutral: true},
		{Name: "sodium erythorbate", Also: []string{"sodium isoascorbate"}, CAS: "6381-77-7", Neutral: true},
		{Name: "potassium bromide", Also: []string{"KBr"}, CAS: "7758-02-3", Classes: classes(ghs.EyeIrrit2)},
		{Name: "sodium bromide", Also: []string{"NaBr"}, CAS: "7647-15-6"},
		{Name: "potassium iodide", Also: []string{"KI"}, CAS: "7681-11-0", Classes: classes(ghs.STOTRE1)},
		{
			Name: "benzotriazole", Also: []string{"1H-benzotriazole", "1,2,3-benzotriazole"}, CAS: "95-14-7",
			Classes: classes(ghs.AcuteOral4, ghs.EyeIrrit2, ghs.AquaticChronic2), Neutral: true,
		},
		{
			Name: "tetrasodium edta", Also: []string{"tetrasodium ethylenediaminetetraacetate", "Na4 EDTA", "EDTA tetrasodium salt"}, CAS: "64-02-8",
			Classes: classes(ghs.AcuteOral4, ghs.EyeDam1),
		},
		{
			Name: "disodium edta", Also: []string{"edetate disodium", "Na2 EDTA", "EDTA disodium salt"}, CAS: "139-33-3",
			Classes: classes(ghs.AcuteDust4, ghs.STOTRE2),
		},
		{Name: "edta", Also: []string{"ethylenediaminetetraacetic acid", "edetic acid"}, CAS: "60-00-4", Classes: classes(ghs.EyeIrrit2)},
		{Name: "sodium hexametaphosphate", Also: []string{"sodium polyphosphate"}, CAS: "10124-56-8", Neutral: true},
		{
			Name: "ethylene glycol", Also: []string{"ethane-1,2-diol", "1,2-ethanediol"}, CAS: "107-21-1", Classes: classes(ghs.AcuteOral4, ghs.STOTRE2),
			Neutral: true,
		},
		{
			Name: "diethylene glycol", Also: []string{"2,2'-oxydiethanol", "2,2'-oxybisethanol", "DEG"}, CAS: "111-46-6", Classes: classes(ghs.AcuteOral4),
			Neutral: true,
		},
		{Name: "propylene glycol", Also: []string{"propane-1,2-diol"}, CAS: "57-55-6", Neutral: true},
		{Name: "triethanolamine", Also: []string{"2,2',2''-nitrilotriethanol", "TEA"}, CAS: "102-71-6"},
		{
			Name: "diethanolamine", Also: []string{"2,2'-iminodiethanol", "DEA"}, CAS: "111-42-2",
			Classes: classes(ghs.AcuteOral4, ghs.SkinIrrit2, ghs.EyeDam1, ghs.STOTRE2),
		},
		{
			Name: "monoethanolamine", Also: []string{"2-aminoethanol", "ethanolamine", "MEA"}, CAS: "141-43-5",
			Classes: classes(ghs.AcuteOral4, ghs.AcuteDermal4, ghs.AcuteVapour4, ghs.SkinCorr1B, ghs.STOTSE3, ghs.AquaticChronic3),
			Limits:  []Limit{{ghs.STOTSE3, 5}},
		},
		{Name: "glycerol", Also: []string{"glycerine", "glycerin"}, CAS: "56-81-5", Neutral: true},
	}
}
