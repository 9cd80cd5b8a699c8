package substance

import "wetside/trade/hazard/ghs"

// acids are those of stop baths, bleaches and toners.
func acids() []Substance {
	return []Substance{
		{
			Name: "acetic acid", Also: []string{"ethanoic acid", "glacial acetic acid", "acetic acid glacial", "CH3COOH", "C2H4O2"}, CAS: "64-19-7",
			Classes: classes(ghs.FlamLiq3, ghs.SkinCorr1A),
			// Flammable above 80 %: as the transport rules part its solutions; from memory.
			Limits: append(bands(90, 25, 10), Limit{ghs.FlamLiq3, 80}), StrongGloves: 50, Groups: Acid | OrganicAcid,
			Basis: seen("ECHA-17358"), Limited: second("AcOH-limits"), Recalled: []ghs.Kind{ghs.Fire}, Disputes: []string{"acetic_acid_limits"},
		},
		{
			Name: "citric acid", Also: []string{"2-hydroxypropane-1,2,3-tricarboxylic acid", "C6H8O7"}, CAS: "77-92-9",
			Classes: classes(ghs.EyeIrrit2, ghs.STOTSE3), Groups: Acid, Basis: seen("ATP17"),
		},
		{
			Name: "formic acid", Also: []string{"methanoic acid", "HCOOH"}, CAS: "64-18-6",
			Classes: classes(ghs.AcuteOral4, ghs.AcuteVapour3, ghs.SkinCorr1A), Limits: bands(90, 10, 2), StrongGloves: 50, Groups: Acid | OrganicAcid,
		},
		{
			Name: "sulfuric acid", Also: []string{"H2SO4", "oil of vitriol"}, CAS: "7664-93-9",
			Classes: classes(ghs.SkinCorr1A), Limits: bands(15, 0, 5), StrongGloves: 50, Groups: Acid,
		},
		{
			Name: "sulfamic acid", Also: []string{"amidosulfuric acid", "sulfamidic acid", "H2NSO3H"}, CAS: "5329-14-6",
			Classes: classes(ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.AquaticChronic3), Groups: Acid,
		},
		{
			Name: "hydrochloric acid", Also: []string{"HCl", "muriatic acid", "hydrogen chloride"}, CAS: "7647-01-0",
			Classes: classes(ghs.SkinCorr1B, ghs.STOTSE3), Limits: append(bands(0, 25, 10), Limit{ghs.STOTSE3, 10}), StrongGloves: 30,
			Groups: Acid | Chloride,
		},
		{
			Name: "nitric acid", Also: []string{"HNO3"}, CAS: "7697-37-2",
			Classes: classes(ghs.OxLiq2, ghs.MetCorr1, ghs.AcuteVapour3, ghs.SkinCorr1A),
			Limits:  append(bands(20, 5, 1), Limit{ghs.OxLiq2, 99}, Limit{ghs.OxLiq3, 65}), StrongGloves: 30, Groups: Acid | Oxidiser,
		},
		{
			Name: "phosphoric acid", Also: []string{"orthophosphoric acid", "H3PO4"}, CAS: "7664-38-2",
			Classes: classes(ghs.SkinCorr1B), Limits: bands(0, 25, 10), Groups: Acid,
		},
		{
			Name: "oxalic acid", Also: []string{"ethanedioic acid"}, CAS: "144-62-7", Classes: classes(ghs.AcuteOral4, ghs.AcuteDermal4, ghs.EyeDam1),
			Groups: Acid,
		},
		{Name: "tartaric acid", CAS: "87-69-4", Classes: classes(ghs.EyeDam1), Groups: Acid},
		{
			Name: "sodium bisulfate", Also: []string{"sodium hydrogen sulfate", "sodium hydrogensulfate", "NaHSO4"}, CAS: "7681-38-1",
			Classes: classes(ghs.EyeDam1), Groups: Acid,
		},
		{
			Name: "boric acid", Also: []string{"boracic acid", "orthoboric acid", "H3BO3"}, CAS: "10043-35-3",
			Classes: classes(ghs.Repr1B), Effects: "FD", Basis: seen("CLH-Borates"), Limited: seen("TRGS201-CMR"), Disputes: []string{"borates"},
		},
	}
}

// alkalis are those of developers.
func alkalis() []Substance {
	borate := func(name, cas string, also ...string) Substance {
		return Substance{
			Name: name, Also: also, CAS: cas, Classes: classes(ghs.Repr1B), Effects: "FD",
			Basis: seen("CLH-Borates"), Limited: seen("TRGS201-CMR"), Disputes: []string{"borates"},
		}
	}
	return []Substance{
		{
			Name: "sodium hydroxide", Also: []string{"caustic soda", "lye", "NaOH"}, CAS: "1310-73-2",
			Classes: classes(ghs.SkinCorr1A), Limits: bands(5, 2, 0.5), Groups: StrongAlkali,
			Basis: second("AnnexVI-mirror"), Limited: second("EuroChlor-NaOH"),
		},
		{
			Name: "potassium hydroxide", Also: []string{"caustic potash", "KOH"}, CAS: "1310-58-3",
			Classes: classes(ghs.AcuteOral4, ghs.SkinCorr1A), Limits: bands(5, 2, 0.5), Groups: StrongAlkali,
			Basis: seen("ICSC-0357"), Disputes: []string{"potassium_hydroxide"},
		},
		{
			Name: "lithium hydroxide", Also: []string{"LiOH"}, CAS: "1310-65-2", Classes: classes(ghs.AcuteOral4, ghs.SkinCorr1B), Groups: StrongAlkali,
		},
		{
			Name: "sodium carbonate", Also: []string{"soda ash", "washing soda", "Na2CO3"}, CAS: "497-19-8", Classes: classes(ghs.EyeIrrit2),
			Basis: seen("ICSC-1135"),
		},
		{
			Name: "potassium carbonate", Also: []string{"potash", "K2CO3"}, CAS: "584-08-7",
			Classes: classes(ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.STOTSE3),
		},
		{Name: "sodium bicarbonate", Also: []string{"sodium hydrogen carbonate", "sodium hydrogencarbonate", "baking soda", "NaHCO3"}, CAS: "144-55-8"},
		{
			Name: "trisodium phosphate", Also: []string{"sodium phosphate tribasic", "Na3PO4", "TSP"}, CAS: "7601-54-9",
			Classes: classes(ghs.SkinIrrit2, ghs.EyeIrrit2, ghs.STOTSE3),
		},
		{Name: "disodium phosphate", Also: []string{"disodium hydrogen phosphate", "Na2HPO4"}, CAS: "7558-79-4"},
		borate("borax", "1303-96-4", "sodium tetraborate", "disodium tetraborate", "Na2B4O7"),
		{
			Name: "sodium metaborate", Also: []string{"NaBO2"}, CAS: "7775-19-1", Classes: classes(ghs.EyeIrrit2, ghs.Repr1B), Effects: "FD",
			Disputes: []string{"borates"},
		},
		{
			Name: "ammonia", Also: []string{"ammonium hydroxide", "ammonia water", "aqueous ammonia", "NH4OH", "NH3"}, CAS: "1336-21-6",
			Classes: classes(ghs.SkinCorr1B, ghs.AquaticAcute1), Limits: []Limit{{ghs.STOTSE3, 5}}, Groups: Ammonia,
		},
	}
}
