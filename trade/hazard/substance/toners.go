package substance

import "wetside/trade/hazard/ghs"

// bleaches are what takes silver away or turns it.
func bleaches() []Substance {
	return []Substance{
		{
			Name: "potassium ferricyanide", Also: []string{"potassium hexacyanoferrate(III)", "red prussiate of potash", "K3Fe(CN)6"}, CAS: "13746-66-2",
			Supplements: cyanideOwn(), Groups: Cyanoferrate, Neutral: true, Disputes: []string{"ferricyanide"},
		},
		{
			Name: "potassium ferrocyanide", Also: []string{"potassium hexacyanoferrate(II)", "yellow prussiate of potash", "K4Fe(CN)6"}, CAS: "13943-58-3",
			Classes: classes(ghs.AquaticChronic3), Supplements: cyanideOwn(), Groups: Cyanoferrate, Neutral: true,
		},
		{
			Name: "sodium hypochlorite", Also: []string{"chlorine bleach", "household bleach", "NaOCl", "NaClO"}, CAS: "7681-52-9",
			Classes: classes(ghs.SkinCorr1B, ghs.EyeDam1, ghs.AquaticAcute1, ghs.AquaticChronic1), MAcute: 10, MChronic: 1,
			// From 5 % of active chlorine, which is 5.25 % of the salt by their molar masses; from memory.
			Supplements: gas(5.25), Groups: ChlorineBleach, Basis: seen("HCIS-4178"), Limited: seen("GisChem-898"),
		},
		{
			Name: "hydrogen peroxide", Also: []string{"H2O2"}, CAS: "7722-84-1",
			// Breathed in as mist, as GisChem 6380 counts it (from 30 % on); the entry names no route.
			Classes: classes(ghs.OxLiq1, ghs.AcuteOral4, ghs.AcuteDust4, ghs.SkinCorr1A),
			Limits: []Limit{
				{ghs.OxLiq1, 70},
				{ghs.OxLiq2, 50},
				{ghs.SkinCorr1A, 70},
				{ghs.SkinCorr1B, 50},
				{ghs.SkinIrrit2, 35},
				{ghs.EyeDam1, 8},
				{ghs.EyeIrrit2, 5},
				{ghs.STOTSE3, 35},
			},
			Groups: Peroxide, Neutral: true, Basis: seen("CLH-H2O2"), Limited: seen("CLH-H2O2"), Disputes: []string{"peroxide"},
		},
		{
			Name: "potassium dichromate", Also: []string{"potassium bichromate", "K2Cr2O7"}, CAS: "7778-50-9",
			Classes: classes(ghs.OxSol2, ghs.AcuteOral3, ghs.AcuteDermal4, ghs.AcuteDust2, ghs.SkinCorr1B, ghs.RespSens1, ghs.SkinSens1, ghs.Muta1B,
				ghs.Carc1B, ghs.Repr1B, ghs.STOTRE1, ghs.AquaticAcute1, ghs.AquaticChronic1),
			Limits: []Limit{{ghs.SkinSens1, 0.2}, {ghs.RespSens1, 0.2}, {ghs.STOTSE3, 5}}, Effects: "FD", Groups: Oxidiser | Dichromate, StrongGloves: 10,
		},
		{
			Name: "ammonium dichromate", Also: []string{"ammonium bichromate", "(NH4)2Cr2O7"}, CAS: "7789-09-5",
			Classes: classes(ghs.OxSol2, ghs.AcuteOral3, ghs.AcuteDermal4, ghs.AcuteDust2, ghs.SkinCorr1B, ghs.RespSens1, ghs.SkinSens1, ghs.Muta1B,
				ghs.Carc1B, ghs.Repr1B, ghs.STOTRE1, ghs.AquaticAcute1, ghs.AquaticChronic1),
			Limits: []Limit{{ghs.SkinSens1, 0.2}, {ghs.RespSens1, 0.2}, {ghs.STOTSE3, 5}}, Effects: "FD", Groups: Oxidiser | Dichromate | AmmoniumSalt,
			StrongGloves: 10,
		},
		{
			Name: "potassium permanganate", Also: []string{"KMnO4"}, CAS: "7722-64-7",
			Classes: classes(ghs.OxSol2, ghs.AcuteOral4, ghs.SkinCorr1C, ghs.Repr2, ghs.STOTRE2, ghs.AquaticAcute1, ghs.AquaticChronic1), Effects: "d",
			Groups: Oxidiser, Neutral: true,
		},
		{
			Name: "ammonium persulfate", Also: []string{"ammonium peroxodisulfate", "(NH4)2S2O8"}, CAS: "7727-54-0",
			Classes: classes(ghs.OxSol3, ghs.AcuteOral4, ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.RespSens1, ghs.SkinSens1, ghs.STOTSE3),
			Groups:  Oxidiser | AmmoniumSalt,
		},
		{
			Name: "potassium persulfate", Also: []string{"potassium peroxodisulfate", "K2S2O8"}, CAS: "7727-21-1",
			Classes: classes(ghs.OxSol3, ghs.AcuteOral4, ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.RespSens1, ghs.SkinSens1, ghs.STOTSE3), Groups: Oxidiser,
		},
		{
			Name: "copper sulfate", Also: []string{"cupric sulfate", "copper(II) sulfate", "CuSO4"}, CAS: "7758-98-7",
			Classes: classes(ghs.AcuteOral4, ghs.EyeDam1, ghs.AquaticAcute1, ghs.AquaticChronic1), MAcute: 10,
		},
		{
			Name: "ferric chloride", Also: []string{"iron(III) chloride", "FeCl3"}, CAS: "7705-08-0",
			Classes: classes(ghs.AcuteOral4, ghs.SkinIrrit2, ghs.EyeDam1), Groups: Acid,
		},
		{Name: "ferric ammonium citrate", Also: []string{"ammonium iron(III) citrate"}, CAS: "1185-57-5", Groups: AmmoniumSalt},
		{
			Name: "mercuric chloride", Also: []string{"mercury(II) chloride", "HgCl2", "mercury bichloride", "corrosive sublimate"}, CAS: "7487-94-7",
			Classes: classes(ghs.AcuteOral2, ghs.SkinCorr1B, ghs.Muta2, ghs.Repr2, ghs.STOTRE1, ghs.AquaticAcute1, ghs.AquaticChronic1), Effects: "f",
			StrongGloves: 1,
		},
	}
}

// toners are those for selenium, sulfide and thiourea toning, and silver salts.
func toners() []Substance {
	return []Substance{
		{
			Name: "selenium compounds", Also: []string{
				"ammonium selenosulfate", "sodium selenosulfate", "ammonium selenite", "selenium compound", "selenosulfate",
			},
			Classes: classes(ghs.AcuteOral3, ghs.AcuteDust3, ghs.STOTRE2, ghs.AquaticAcute1, ghs.AquaticChronic1),
			ATEs:    []ATE{{ghs.Oral, 100}, {ghs.Dust, 0.501}}, Basis: seen("ECHA-YW-Se"), Limited: second("Se-ATE"), Neutral: true,
		},
		{
			Name: "sodium selenite", Also: []string{"Na2SeO3"}, CAS: "10102-18-8",
			Classes: classes(ghs.AcuteOral2, ghs.AcuteDust3, ghs.SkinSens1, ghs.AquaticChronic2), Supplements: gasOwn(1),
		},
		{
			Name: "sodium sulfide", Also: []string{"Na2S"}, CAS: "1313-82-2",
			Classes: classes(ghs.AcuteOral3, ghs.AcuteDermal3, ghs.SkinCorr1B, ghs.AquaticAcute1), Supplements: gasOwn(1), Groups: Sulfide | StrongAlkali,
			Basis: seen("SDS-Na2S"),
		},
		{
			Name: "potassium polysulfide", Also: []string{"liver of sulfur", "potassium polysulfides", "sulfurated potash"}, CAS: "37199-66-9",
			Classes: classes(ghs.SkinCorr1B, ghs.AquaticAcute1), Supplements: gasOwn(1), Groups: Sulfide | StrongAlkali,
		},
		{
			Name: "barium sulfide", Also: []string{"BaS"}, CAS: "21109-95-5", Classes: classes(ghs.AcuteOral4, ghs.AcuteDust4, ghs.AquaticAcute1),
			Supplements: gasOwn(1), Groups: Sulfide,
		},
		{
			Name: "thiourea", Also: []string{"thiocarbamide"}, CAS: "62-56-6",
			Classes: classes(ghs.AcuteOral4, ghs.Carc2, ghs.Repr2, ghs.AquaticChronic2), Effects: "d", Neutral: true,
		},
		{
			Name: "silver nitrate", Also: []string{"AgNO3", "lunar caustic"}, CAS: "7761-88-8",
			Classes: classes(ghs.OxSol2, ghs.SkinCorr1B, ghs.AquaticAcute1, ghs.AquaticChronic1), Groups: Silver, Neutral: true,
			MAcute: 1000, MChronic: 100, // as suppliers give them, from memory
			Basis: seen("CLH-AgNO3"), Disputes: []string{"silver_nitrate"},
		},
		{
			Name: "gold chloride", Also: []string{"chloroauric acid", "tetrachloroauric acid", "HAuCl4"}, CAS: "16903-35-8",
			Classes: classes(ghs.AcuteOral4, ghs.SkinCorr1B, ghs.SkinSens1, ghs.AquaticChronic2),
		},
	}
}

// others are solvents, wetting agents and what is left.
func others() []Substance {
	return []Substance{
		{
			Name: "isopropyl alcohol", Also: []string{"isopropanol", "propan-2-ol", "2-propanol", "IPA"}, CAS: "67-63-0",
			// Flammable from about 20 % in water on; from memory, and no calculation stands in for a flash point.
			Classes: classes(ghs.FlamLiq2, ghs.EyeIrrit2, ghs.STOTSE3Drowsy), Limits: []Limit{{ghs.FlamLiq2, 50}, {ghs.FlamLiq3, 20}}, Neutral: true,
		},
		{
			Name: "ethanol", Also: []string{"ethyl alcohol", "alcohol", "denatured alcohol", "methylated spirit"}, CAS: "64-17-5",
			Classes: classes(ghs.FlamLiq2, ghs.EyeIrrit2), Limits: []Limit{{ghs.FlamLiq2, 70}, {ghs.FlamLiq3, 24}, {ghs.EyeIrrit2, 50}}, Neutral: true,
		},
		{
			Name: "alcohol ethoxylate", Also: []string{"alcohols ethoxylated", "fatty alcohol ethoxylate", "ethoxylated alcohol"},
			Classes: classes(ghs.AcuteOral4, ghs.EyeDam1), Neutral: true,
		},
		{
			Name: "sodium lauryl sulfate", Also: []string{"sodium dodecyl sulfate", "SLS"}, CAS: "151-21-3",
			Classes: classes(ghs.FlamSol1, ghs.AcuteOral4, ghs.AcuteDust4, ghs.SkinIrrit2, ghs.EyeDam1, ghs.STOTSE3, ghs.AquaticChronic3), Neutral: true,
		},
		{
			Name: "methylchloroisothiazolinone and methylisothiazolinone", Also: []string{
				"CMIT/MIT", "C(M)IT/MIT", "CIT/MIT", "MCI/MI", "reaction mass of 5-chloro-2-methyl-2H-isothiazol-3-one and 2-methyl-2H-isothiazol-3-one",
				"reaction mass of CMIT/MIT (3:1)",
			},
			CAS: "55965-84-9",
			Classes: classes(ghs.AcuteOral3, ghs.AcuteDermal2, ghs.AcuteDust2, ghs.SkinCorr1C, ghs.EyeDam1, ghs.SkinSens1A, ghs.AquaticAcute1,
				ghs.AquaticChronic1),
			Limits: []Limit{
				{ghs.SkinCorr1C, 0.6}, {ghs.SkinIrrit2, 0.06}, {ghs.EyeDam1, 0.6}, {ghs.EyeIrrit2, 0.06}, {ghs.SkinSens1A, 0.0015},
			},
			MAcute: 100, MChronic: 100, Neutral: true,
		},
		{
			Name: "sodium dithionite", Also: []string{"sodium hydrosulfite", "Na2S2O4"}, CAS: "7775-14-6",
			Classes: classes(ghs.SelfHeat1, ghs.AcuteOral4), Supplements: gasOwn(sulfiteGas), Groups: Sulfite,
		},
		{Name: "sodium borohydride", Also: []string{"NaBH4"}, CAS: "16940-66-2", Classes: classes(ghs.AcuteOral3, ghs.SkinCorr1B, ghs.Repr1B), Effects: "FD"},
		{
			Name: "hydroxylamine sulfate", Also: []string{"bis(hydroxylammonium) sulfate"}, CAS: "10039-54-0",
			Classes: classes(ghs.MetCorr1, ghs.AcuteOral4, ghs.AcuteDermal4, ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.SkinSens1, ghs.Carc2, ghs.STOTRE2,
				ghs.AquaticAcute1), Groups: Acid,
		},
	}
}
