package ghs

// A Class is a hazard class with its category. The zero value is none.
type Class uint8

// The classes, the severer first within each kind.
const (
	None Class = iota
	FlamLiq2
	FlamLiq3
	FlamSol1
	SelfHeat1
	OxLiq1
	OxLiq2
	OxLiq3
	OxSol1
	OxSol2
	OxSol3
	MetCorr1
	AcuteOral1
	AcuteOral2
	AcuteOral3
	AcuteOral4
	AcuteDermal1
	AcuteDermal2
	AcuteDermal3
	AcuteDermal4
	AcuteVapour1
	AcuteVapour2
	AcuteVapour3
	AcuteVapour4
	AcuteDust1
	AcuteDust2
	AcuteDust3
	AcuteDust4
	AcuteGas1
	AcuteGas2
	AcuteGas3
	AcuteGas4
	SkinCorr1A
	SkinCorr1B
	SkinCorr1C
	SkinCorr1 // of no known subcategory
	SkinIrrit2
	EyeDam1
	EyeIrrit2
	RespSens1
	SkinSens1A
	SkinSens1
	SkinSens1B
	Muta1B
	Muta2
	Carc1A
	Carc1B
	Carc2
	Repr1A
	Repr1B
	Repr2
	Lact
	STOTSE1
	STOTSE2
	STOTSE3       // H335
	STOTSE3Drowsy // H336
	STOTRE1
	STOTRE2
	AspTox1
	AquaticAcute1
	AquaticChronic1
	AquaticChronic2
	AquaticChronic3
	AquaticChronic4
	numClasses
)

// A Signal is a signal word.
type Signal string

// The signal words, English as in the law; package words translates them.
const (
	NoSignal Signal = ""
	Warning  Signal = "Warning"
	Danger   Signal = "Danger"
)

// A row is what the standard says of a class.
type row struct {
	name, code string
	signal     Signal
	pictogram  string
	kind       Kind
}

// A Kind is what a class harms; of two classes of a kind the one that stands first is the severer.
type Kind uint8

// The kinds.
const (
	Fire Kind = iota
	Heating
	Oxidiser
	Metals
	Oral
	Dermal
	Vapour
	Dust
	Gas
	Skin
	Eyes
	Breath
	Allergy
	Genes
	Cancer
	Birth
	Milk
	Once
	Airways
	Drowsy
	Repeated
	Lungs
	WaterNow
	WaterLong
)

// rows are in the order of the classes. Never written to.
var rows = [numClasses]row{
	FlamLiq2:  {"Flam. Liq. 2", "H225", Danger, "GHS02", Fire},
	FlamLiq3:  {"Flam. Liq. 3", "H226", Warning, "GHS02", Fire},
	FlamSol1:  {"Flam. Sol. 1", "H228", Danger, "GHS02", Fire},
	SelfHeat1: {"Self-heat. 1", "H251", Danger, "GHS02", Heating},
	OxLiq1:    {"Ox. Liq. 1", "H271", Danger, "GHS03", Oxidiser},
	OxLiq2:    {"Ox. Liq. 2", "H272", Danger, "GHS03", Oxidiser},
	OxLiq3:    {"Ox. Liq. 3", "H272", Warning, "GHS03", Oxidiser},
	OxSol1:    {"Ox. Sol. 1", "H271", Danger, "GHS03", Oxidiser},
	OxSol2:    {"Ox. Sol. 2", "H272", Danger, "GHS03", Oxidiser},
	OxSol3:    {"Ox. Sol. 3", "H272", Warning, "GHS03", Oxidiser},
	MetCorr1:  {"Met. Corr. 1", "H290", Warning, "GHS05", Metals},

	AcuteOral1: {"Acute Tox. 1", "H300", Danger, "GHS06", Oral},
	AcuteOral2: {"Acute Tox. 2", "H300", Danger, "GHS06", Oral},
	AcuteOral3: {"Acute Tox. 3", "H301", Danger, "GHS06", Oral},
	AcuteOral4: {"Acute Tox. 4", "H302", Warning, "GHS07", Oral},

	AcuteDermal1: {"Acute Tox. 1", "H310", Danger, "GHS06", Dermal},
	AcuteDermal2: {"Acute Tox. 2", "H310", Danger, "GHS06", Dermal},
	AcuteDermal3: {"Acute Tox. 3", "H311", Danger, "GHS06", Dermal},
	AcuteDermal4: {"Acute Tox. 4", "H312", Warning, "GHS07", Dermal},

	AcuteVapour1: {"Acute Tox. 1", "H330", Danger, "GHS06", Vapour},
	AcuteVapour2: {"Acute Tox. 2", "H330", Danger, "GHS06", Vapour},
	AcuteVapour3: {"Acute Tox. 3", "H331", Danger, "GHS06", Vapour},
	AcuteVapour4: {"Acute Tox. 4", "H332", Warning, "GHS07", Vapour},

	AcuteDust1: {"Acute Tox. 1", "H330", Danger, "GHS06", Dust},
	AcuteDust2: {"Acute Tox. 2", "H330", Danger, "GHS06", Dust},
	AcuteDust3: {"Acute Tox. 3", "H331", Danger, "GHS06", Dust},
	AcuteDust4: {"Acute Tox. 4", "H332", Warning, "GHS07", Dust},

	AcuteGas1: {"Acute Tox. 1", "H330", Danger, "GHS06", Gas},
	AcuteGas2: {"Acute Tox. 2", "H330", Danger, "GHS06", Gas},
	AcuteGas3: {"Acute Tox. 3", "H331", Danger, "GHS06", Gas},
	AcuteGas4: {"Acute Tox. 4", "H332", Warning, "GHS07", Gas},

	SkinCorr1:  {"Skin Corr. 1", "H314", Danger, "GHS05", Skin},
	SkinCorr1A: {"Skin Corr. 1A", "H314", Danger, "GHS05", Skin},
	SkinCorr1B: {"Skin Corr. 1B", "H314", Danger, "GHS05", Skin},
	SkinCorr1C: {"Skin Corr. 1C", "H314", Danger, "GHS05", Skin},
	SkinIrrit2: {"Skin Irrit. 2", "H315", Warning, "GHS07", Skin},
	EyeDam1:    {"Eye Dam. 1", "H318", Danger, "GHS05", Eyes},
	EyeIrrit2:  {"Eye Irrit. 2", "H319", Warning, "GHS07", Eyes},
	RespSens1:  {"Resp. Sens. 1", "H334", Danger, "GHS08", Breath},
	SkinSens1A: {"Skin Sens. 1A", "H317", Warning, "GHS07", Allergy},
	SkinSens1:  {"Skin Sens. 1", "H317", Warning, "GHS07", Allergy},
	SkinSens1B: {"Skin Sens. 1B", "H317", Warning, "GHS07", Allergy},

	Muta1B: {"Muta. 1B", "H340", Danger, "GHS08", Genes},
	Muta2:  {"Muta. 2", "H341", Warning, "GHS08", Genes},
	Carc1A: {"Carc. 1A", "H350", Danger, "GHS08", Cancer},
	Carc1B: {"Carc. 1B", "H350", Danger, "GHS08", Cancer},
	Carc2:  {"Carc. 2", "H351", Warning, "GHS08", Cancer},
	Repr1A: {"Repr. 1A", "H360", Danger, "GHS08", Birth},
	Repr1B: {"Repr. 1B", "H360", Danger, "GHS08", Birth},
	Repr2:  {"Repr. 2", "H361", Warning, "GHS08", Birth},
	Lact:   {"Lact.", "H362", NoSignal, "", Milk},

	STOTSE1:       {"STOT SE 1", "H370", Danger, "GHS08", Once},
	STOTSE2:       {"STOT SE 2", "H371", Warning, "GHS08", Once},
	STOTSE3:       {"STOT SE 3", "H335", Warning, "GHS07", Airways},
	STOTSE3Drowsy: {"STOT SE 3", "H336", Warning, "GHS07", Drowsy},
	STOTRE1:       {"STOT RE 1", "H372", Danger, "GHS08", Repeated},
	STOTRE2:       {"STOT RE 2", "H373", Warning, "GHS08", Repeated},
	AspTox1:       {"Asp. Tox. 1", "H304", Danger, "GHS08", Lungs},

	AquaticAcute1:   {"Aquatic Acute 1", "H400", Warning, "GHS09", WaterNow},
	AquaticChronic1: {"Aquatic Chronic 1", "H410", Warning, "GHS09", WaterLong},
	AquaticChronic2: {"Aquatic Chronic 2", "H411", NoSignal, "GHS09", WaterLong},
	AquaticChronic3: {"Aquatic Chronic 3", "H412", NoSignal, "", WaterLong},
	AquaticChronic4: {"Aquatic Chronic 4", "H413", NoSignal, "", WaterLong},
}

// String returns the class as the law writes it: "Skin Corr. 1B". The route of an acute toxicity stands in its code alone.
func (c Class) String() string { return rows[c].name }

// Code returns the hazard statement's code without a suffix: "H314".
func (c Class) Code() string { return rows[c].code }

// Signal returns the signal word; NoSignal where the class has none.
func (c Class) Signal() Signal { return rows[c].signal }

// Pictogram returns the pictogram, GHS01 to GHS09; empty where the class has none.
func (c Class) Pictogram() string { return rows[c].pictogram }

// Kind returns what the class harms.
func (c Class) Kind() Kind { return rows[c].kind }

// Severer tells whether c is of d's kind and severer. None is less than all.
func (c Class) Severer(d Class) bool {
	switch {
	case c == None:
		return false
	case d == None:
		return true
	}
	return c.Kind() == d.Kind() && c < d
}

// All returns every class.
func All() []Class {
	all := make([]Class, 0, numClasses-1)
	for c := FlamLiq2; c < numClasses; c++ {
		all = append(all, c)
	}
	return all
}

// OfCode returns the class that a hazard statement stands for, without its suffix and in the mildest category that has it:
// H314 is Skin Corr. 1, H360FD is Repr. 1B. ok is false for a code that is not in this table.
func OfCode(code string) (c Class, ok bool) {
	if len(code) > 4 && code[0] == 'H' {
		code = code[:4]
	}
	for i := numClasses - 1; i > None; i-- {
		if rows[i].code == code {
			return i, true
		}
	}
	return None, false
}
