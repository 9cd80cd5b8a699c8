package facts

import (
	"wetside/plan"
	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Dilution is how a label's words were read.
type Dilution struct {
	ReadAs        string   `json:"read_as"`
	ChemicalParts string   `json:"chemical_parts"`
	PartsB        string   `json:"chemical_b_parts,omitempty"`
	WaterParts    string   `json:"water_parts"`
	Strength      float64  `json:"strength"`
	Note          *string  `json:"note"`
	OtherStrength *float64 `json:"other_strength,omitempty"`
}

// Mix is the answer for one bath: what `wetside mix --json` prints.
type Mix struct {
	Dilution  Dilution   `json:"dilution"`
	WindowML  [2]float64 `json:"window_ml"`
	WantedML  float64    `json:"wanted_ml"`
	Tolerance float64    `json:"tolerance"`
	Choices   []Choice   `json:"choices"`
	Advice    *Advice    `json:"advice"`
	// UsualBench says that no bench was given and the usual one was taken.
	UsualBench bool     `json:"usual_bench,omitempty"`
	Product    string   `json:"product,omitempty"`
	Cautions   []string `json:"cautions,omitempty"`
	// Lack is vessel or chemical where nothing can be made.
	Lack string `json:"lack,omitempty"`
}

// Choice is one way of making a bath.
type Choice struct {
	Grade          string      `json:"grade"`
	Manner         string      `json:"manner"`
	TotalML        float64     `json:"total_ml"`
	ChemicalML     float64     `json:"chemical_ml"`
	ChemicalUsedML float64     `json:"chemical_used_ml"`
	ChemicalsML    []float64   `json:"chemicals_ml,omitempty"` // of A and B, where there are two
	Strength       float64     `json:"strength"`
	Bias           float64     `json:"bias"`
	Uncertainty    float64     `json:"uncertainty"`
	Within         bool        `json:"within_tolerance"`
	Readings       int         `json:"readings"`
	Vessels        []string    `json:"vessels"`
	Steps          []Step      `json:"steps"`
	Reckoning      []Reckoning `json:"reckoning"`
	Differs        []Differs   `json:"differs,omitempty"`
}

// Step is one thing to do.
type Step struct {
	Do       string   `json:"do"`
	What     string   `json:"what"`
	Vessel   string   `json:"vessel,omitempty"`
	Scale    string   `json:"scale,omitempty"`
	Mark     string   `json:"mark,omitempty"`
	Between  bool     `json:"between_marks,omitempty"`
	VolumeML *float64 `json:"volume_ml,omitempty"`
	MassG    *float64 `json:"mass_g,omitempty"`
	Times    int      `json:"times"`
}

// Differs is one gain or cost of an alternative against the best.
type Differs struct {
	In   string  `json:"in"`
	Gain bool    `json:"gain"`
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// Advice is the vessel to get.
type Advice struct {
	Get         string  `json:"get"`
	Uncertainty float64 `json:"uncertainty"`
	Bias        float64 `json:"bias"`
}

// Reckoning is a figure with how it came about.
type Reckoning struct {
	Rule    string   `json:"rule"`
	Figures []Figure `json:"figures"`
	Result  Figure   `json:"result"`
}

// Figure is one number of a reckoning.
type Figure struct {
	Name   string     `json:"name"`
	Of     string     `json:"of,omitempty"`
	Value  float64    `json:"value"`
	Unit   string     `json:"unit"`
	Origin string     `json:"origin"`
	Source string     `json:"source,omitempty"`
	By     *Reckoning `json:"by,omitempty"`
}

// OfDilution takes a dilution apart.
func OfDilution(d dilution.Dilution) Dilution {
	out := Dilution{ReadAs: d.String(), WaterParts: number(d.Water)}
	for i, c := range d.Chemicals {
		s, err := d.Strength(i)
		if err == nil {
			out.Strength += s.Float()
		}
		if i == 0 {
			out.ChemicalParts = number(c)
		} else {
			out.PartsB = number(c)
		}
	}
	if key := d.Note.Key(); key != "" {
		out.Note = &key
	}
	return out
}

// OfOne takes one bath's answer apart.
func OfOne(o plan.One) Mix {
	m := Mix{
		Dilution: OfDilution(o.Dilution), WindowML: [2]float64{o.Window.Min.ML(), o.Window.Max.ML()},
		WantedML: o.Window.Want.ML(), Tolerance: o.Tolerance, UsualBench: o.Usual, Product: o.Product,
		Choices: []Choice{}, Lack: lack(o.Result),
	}
	for _, c := range o.Result.Choices {
		m.Choices = append(m.Choices, OfChoice(c, o.Vessels))
	}
	if a := o.Result.Advice; a != nil {
		m.Advice = &Advice{Get: a.Get.Name, Uncertainty: a.Uncertainty, Bias: a.Bias}
	}
	for _, c := range o.Cautions {
		if c.Kind == plan.AcidUnknown { // nobody declared anything, so there is nothing to repeat
			continue
		}
		m.Cautions = append(m.Cautions, string(c.Kind))
	}
	return m
}

func lack(r measure.Result) string {
	switch r.Lack {
	case measure.LackVessel:
		return "vessel"
	case measure.LackChemical:
		return "chemical"
	case measure.LackNothing:
	}
	return ""
}

// OfChoice takes a choice apart; vs are the vessels that its indexes mean.
func OfChoice(c measure.Choice, vs []measure.Vessel) Choice {
	out := Choice{
		Grade: grade(c.Grade), Manner: manner(c.Manner), TotalML: c.Total.ML(), ChemicalML: total(c.Chemical),
		ChemicalUsedML: total(c.ChemicalUsed), Strength: c.Strength, Bias: c.Bias, Uncertainty: c.Uncertainty,
		Within: c.Within, Readings: c.Readings, Reckoning: []Reckoning{},
	}
	if len(c.Chemical) > 1 {
		for _, v := range c.Chemical {
			out.ChemicalsML = append(out.ChemicalsML, v.ML())
		}
	}
	for _, i := range c.Vessels {
		out.Vessels = append(out.Vessels, vs[i].Name)
	}
	for _, s := range c.Steps {
		out.Steps = append(out.Steps, ofStep(s, vs))
	}
	for _, r := range c.Reckoning {
		out.Reckoning = append(out.Reckoning, OfReckoning(r))
	}
	for _, d := range c.Differs {
		out.Differs = append(out.Differs, Differs{In: aspect(d.Aspect), Gain: d.Gain, From: d.From, To: d.To})
	}
	return out
}

func total(vs []quantity.Volume) (ml float64) {
	var sum quantity.Volume
	for _, v := range vs {
		sum += v
	}
	return sum.ML()
}

func ofStep(s measure.Step, vs []measure.Vessel) Step {
	out := Step{Do: do(s.Do), What: what(s.What), Times: s.Times, Between: s.Half}
	if s.Vessel >= 0 && s.Vessel < len(vs) {
		out.Vessel = vs[s.Vessel].Name
	}
	switch s.Do {
	case measure.Pour, measure.Fill:
		out.Scale, out.Mark = vs[s.Vessel].Scales[s.Scale].Unit.String(), number(s.Mark)
		ml := s.Volume.ML()
		out.VolumeML = &ml
	case measure.Weigh:
		g, ml := s.Mark.Float(), s.Volume.ML()
		out.Scale, out.Mark, out.MassG, out.VolumeML = "g", number(s.Mark), &g, &ml
	case measure.Start, measure.Tip, measure.Rinse, measure.Stir:
	}
	return out
}

// OfReckoning takes a reckoning apart.
func OfReckoning(r reckoning.Reckoning) Reckoning {
	out := Reckoning{Rule: r.Rule, Figures: []Figure{}, Result: ofFigure(r.Result)}
	for _, f := range r.Puts {
		out.Figures = append(out.Figures, ofFigure(f))
	}
	return out
}

func ofFigure(f reckoning.Figure) Figure {
	out := Figure{Name: f.Name, Of: f.Of, Value: f.Value, Unit: string(f.Unit), Origin: origin(f.Origin), Source: f.Source}
	if f.By != nil {
		by := OfReckoning(*f.By)
		out.By = &by
	}
	return out
}

// Imported is what `wetside import --json` prints.
type Imported struct {
	Entries int `json:"entries"`
}
