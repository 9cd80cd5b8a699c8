package substance

import "wetside/trade/hazard/ghs"

// sulfiteGas is the share from which a sulfite's gas in acid is named. The entry gives no limit; other entries with this
// statement have limits from 1 to 10 % (from memory); 5 % is our own choice, what is in doubt being said by the pairs that must not
// meet.
const sulfiteGas = 5

// fixers are what fixers, washing aids and clearing baths are made of.
func fixers() []Substance {
	return []Substance{
		{
			Name: "sodium thiosulfate", Also: []string{"hypo", "sodium hyposulfite", "Na2S2O3"}, CAS: "7772-98-7", Groups: Thiosulfate,
			Basis: seen("SDS-thiosulfate"),
		},
		{
			Name: "ammonium thiosulfate", Also: []string{"(NH4)2S2O3", "ammonium hyposulfite"}, CAS: "7783-18-8", Groups: Thiosulfate | AmmoniumSalt,
		},
		{Name: "potassium thiosulfate", CAS: "10294-66-3", Groups: Thiosulfate, Neutral: true},
		{Name: "sodium sulfite", Also: []string{"Na2SO3"}, CAS: "7757-83-7", Groups: Sulfite},
		{Name: "potassium sulfite", Also: []string{"K2SO3"}, CAS: "10117-38-1", Groups: Sulfite},
		{Name: "ammonium sulfite", Also: []string{"(NH4)2SO3"}, CAS: "10196-04-0", Classes: irritant(), Groups: Sulfite | AmmoniumSalt},
		{
			Name: "sodium metabisulfite", Also: []string{"sodium pyrosulfite", "disodium disulfite", "sodium disulfite", "Na2S2O5"}, CAS: "7681-57-4",
			Classes: classes(ghs.AcuteOral4, ghs.EyeDam1), Supplements: gasOwn(sulfiteGas), Groups: Sulfite, Basis: seen("SDS-metabisulfite"),
		},
		{
			Name: "potassium metabisulfite", Also: []string{"potassium pyrosulfite", "dipotassium disulfite", "potassium disulfite", "K2S2O5"},
			CAS: "16731-55-8", Classes: classes(ghs.EyeDam1), Supplements: gasOwn(sulfiteGas), Groups: Sulfite, Basis: seen("SDS-KMBS"),
		},
		{
			Name: "sodium bisulfite", Also: []string{"sodium hydrogen sulfite", "sodium hydrogensulfite", "NaHSO3"}, CAS: "7631-90-5",
			Classes: classes(ghs.AcuteOral4), Supplements: gasOwn(sulfiteGas), Groups: Sulfite, Basis: seen("ICSC-1134"),
		},
		{
			Name: "ammonium bisulfite", Also: []string{"ammonium hydrogen sulfite", "ammonium hydrogensulfite"}, CAS: "10192-30-0",
			Classes: irritant(), Supplements: gasOwn(sulfiteGas), Groups: Sulfite | AmmoniumSalt,
		},
		{
			Name: "ammonium thiocyanate", Also: []string{"NH4SCN"}, CAS: "1762-95-4",
			Classes:     classes(ghs.AcuteOral4, ghs.AcuteDermal4, ghs.AcuteDust4, ghs.EyeDam1, ghs.AquaticChronic3),
			Supplements: cyanideOwn(), Groups: AmmoniumSalt, Neutral: true,
		},
		{
			Name: "potassium thiocyanate", Also: []string{"KSCN", "potassium rhodanide"}, CAS: "333-20-0",
			Classes:     classes(ghs.AcuteOral4, ghs.AcuteDermal4, ghs.AcuteDust4, ghs.AquaticChronic3),
			Supplements: cyanideOwn(), Neutral: true,
		},
		{
			Name: "sodium thiocyanate", Also: []string{"NaSCN"}, CAS: "540-72-7",
			Classes:     classes(ghs.AcuteOral4, ghs.AcuteDermal4, ghs.AcuteDust4, ghs.AquaticChronic3),
			Supplements: cyanideOwn(), Neutral: true,
		},
		{Name: "potassium aluminum sulfate", Also: []string{"potassium alum", "alum", "potassium aluminium sulfate"}, CAS: "10043-67-1"},
		{Name: "chrome alum", Also: []string{"potassium chromium sulfate", "chromium potassium sulfate"}, CAS: "10141-00-1", Classes: irritant()},
		{Name: "sodium acetate", Also: []string{"CH3COONa"}, CAS: "127-09-3"},
		{Name: "sodium citrate", Also: []string{"trisodium citrate"}, CAS: "68-04-2"},
		{Name: "sodium sulfate", Also: []string{"Na2SO4", "glauber's salt"}, CAS: "7757-82-6"},
		{Name: "sodium chloride", Also: []string{"table salt", "NaCl"}, CAS: "7647-14-5"},
		{
			Name: "ammonium chloride", Also: []string{"sal ammoniac", "NH4Cl"}, CAS: "12125-02-9", Classes: classes(ghs.AcuteOral4, ghs.EyeIrrit2),
			Groups: AmmoniumSalt,
		},
		{Name: "ammonium sulfate", Also: []string{"(NH4)2SO4"}, CAS: "7783-20-2", Groups: AmmoniumSalt},
		{
			Name: "formaldehyde", Also: []string{"formalin", "methanal", "HCHO"}, CAS: "50-00-0",
			Classes: classes(ghs.AcuteOral3, ghs.AcuteDermal3, ghs.AcuteGas3, ghs.SkinCorr1B, ghs.SkinSens1, ghs.Muta2, ghs.Carc1B),
			Limits:  append(bands(0, 25, 5), Limit{ghs.STOTSE3, 5}, Limit{ghs.SkinSens1, 0.2}), Neutral: true, StrongGloves: 10,
		},
		{
			Name: "glutaraldehyde", Also: []string{"glutaral", "1,5-pentanedial"}, CAS: "111-30-8",
			Classes: classes(ghs.AcuteOral3, ghs.AcuteVapour2, ghs.SkinCorr1B, ghs.RespSens1, ghs.SkinSens1A, ghs.STOTSE3, ghs.AquaticAcute1,
				ghs.AquaticChronic2),
			Limits: []Limit{{ghs.STOTSE3, 0.5}}, Neutral: true, StrongGloves: 10,
		},
		{
			Name: "water", Also: []string{"H2O", "distilled water"}, CAS: "7732-18-5", Neutral: true,
		},
	}
}
