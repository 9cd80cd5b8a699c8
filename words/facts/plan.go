package facts

import (
	"time"

	"wetside/plan"
	"wetside/trade/hazard/ghs"
	"wetside/trade/measure"
)

// Plan is a whole plan: what `wetside plan --json` prints.
type Plan struct {
	Darkroom  string    `json:"darkroom"`
	Starts    string    `json:"starts"`
	Loads     []Load    `json:"loads"`
	Baths     []Bath    `json:"baths"`
	Order     []string  `json:"order"`
	DayBefore []Stock   `json:"day_before"`
	Missing   []Missing `json:"missing"`
	Findings  []Finding `json:"findings"`
	Cautions  []Caution `json:"cautions"`
	// NeverTogether is what must never meet of all that is in use, and chlorine bleach.
	NeverTogether []Never `json:"never_together"`
	Cost          Cost    `json:"cost"`
}

// Load is one line of what is to be made.
type Load struct {
	Material   string  `json:"material"`
	Size       string  `json:"size"`
	Sheets     int     `json:"sheets,omitempty"`
	Rolls      int     `json:"rolls,omitempty"`
	Strips     int     `json:"strips,omitempty"`
	Standard   string  `json:"standard,omitempty"`
	Fixing     string  `json:"fixing,omitempty"`
	WashingAid bool    `json:"washing_aid"`
	AreaM2     float64 `json:"area_m2"`
	Units      float64 `json:"units_80_sq_in"`
	Steps      []Timed `json:"steps"`
}

// Timed is one step of a load's chain.
type Timed struct {
	Step      string  `json:"step"`
	Bath      string  `json:"bath,omitempty"`
	TimeS     float64 `json:"time_s"`
	DrainS    float64 `json:"drain_s"`
	Agitation string  `json:"agitation,omitempty"`
	Origin    string  `json:"origin"`
}

// Bath is one working solution.
type Bath struct {
	ID           string      `json:"id"`
	Step         string      `json:"step"`
	Role         string      `json:"role,omitempty"`
	Materials    []string    `json:"materials"`
	Product      string      `json:"product,omitempty"`
	Dilution     *Dilution   `json:"dilution"`
	Tray         string      `json:"tray,omitempty"`
	Tank         string      `json:"tank,omitempty"`
	Rolls        int         `json:"rolls,omitempty"`
	VolumeML     float64     `json:"volume_ml"`
	WindowML     [2]float64  `json:"window_ml"`
	DepthMM      float64     `json:"depth_mm"`
	Makings      int         `json:"makings"`
	PartOfLife   *float64    `json:"part_of_label_capacity,omitempty"`
	Tolerance    float64     `json:"tolerance,omitempty"`
	TemperatureC float64     `json:"temperature_c,omitempty"`
	Mix          *Choice     `json:"mix"`
	Others       []Choice    `json:"alternatives,omitempty"`
	Advice       *Advice     `json:"advice,omitempty"`
	Lots         []Draw      `json:"lots"`
	RinseBefore  []string    `json:"rinse_before,omitempty"`
	Temper       *Temper     `json:"temper,omitempty"`
	AtOnce       int         `json:"sheets_at_once,omitempty"`
	Cautions     []Caution   `json:"cautions"`
	Findings     []Finding   `json:"findings"`
	Reckoning    []Reckoning `json:"reckoning,omitempty"`
}

// Draw is what is taken from one lot.
type Draw struct {
	Product     string   `json:"product"`
	Lot         *int     `json:"lot,omitempty"` // its place on the shelf, from 0
	FromStock   bool     `json:"from_stock_of_the_day_before,omitempty"`
	AmountML    float64  `json:"amount_ml"`
	LeftML      *float64 `json:"left_ml,omitempty"`
	LeftUnknown bool     `json:"left_unknown,omitempty"`
	Opens       bool     `json:"opens,omitempty"`
}

// Stock is a powder to be made up the day before.
type Stock struct {
	Product  string    `json:"product"`
	Packets  int       `json:"packets"`
	MakesML  float64   `json:"makes_ml"`
	Vessel   string    `json:"vessel,omitempty"`
	StartML  float64   `json:"start_with_ml"`
	MixAtC   float64   `json:"mix_at_c"`
	Temper   *Temper   `json:"temper,omitempty"`
	Cautions []Caution `json:"cautions"`
	Findings []Finding `json:"findings"`
}

// Missing is what the room lacks.
type Missing struct {
	Kind    string  `json:"kind"`
	Bath    string  `json:"bath,omitempty"`
	Role    string  `json:"role,omitempty"`
	Product string  `json:"product,omitempty"`
	NeedML  float64 `json:"need_ml,omitempty"`
	HaveML  float64 `json:"have_ml,omitempty"`
	Near    string  `json:"near,omitempty"`
	// Steps are all that lack a tray, where one is missing.
	Steps []string `json:"steps,omitempty"`
}

// Finding is something to be said, with its figures.
type Finding struct {
	Kind    string   `json:"kind"`
	Subject string   `json:"subject,omitempty"`
	Other   string   `json:"other,omitempty"`
	Figures []Figure `json:"figures,omitempty"`
}

// Caution is a caution's kind and what it is about.
type Caution struct {
	Kind    string   `json:"kind"`
	Subject string   `json:"subject,omitempty"`
	Hazards []string `json:"hazards,omitempty"`
	// Substance is the one to blame; Products are those that it is about, where they are several.
	Substance string   `json:"substance,omitempty"`
	Products  []string `json:"products,omitempty"`
	// From is what is poured from, Harms what that does, ThinnedHarms what the working solution still does of it.
	From         string   `json:"from,omitempty"`
	Harms        []string `json:"harms,omitempty"`
	ThinnedHarms []string `json:"thinned_harms,omitempty"`
}

// Cost is what the session's chemicals cost, in hundredths of the currency.
type Cost struct {
	Currency       string     `json:"currency,omitempty"`
	TotalHundredth int64      `json:"total_hundredths"`
	PerUnit        int64      `json:"per_8x10_hundredths"`
	PerHead        int64      `json:"per_head_hundredths"`
	Parts          []CostPart `json:"parts"`
	Unpriced       []string   `json:"unpriced,omitempty"`
}

// CostPart is one product's share.
type CostPart struct {
	Product    string  `json:"product"`
	AmountML   float64 `json:"amount_ml"`
	Hundredths int64   `json:"hundredths"`
}

// OfPlan takes a plan apart.
func OfPlan(p plan.Plan) Plan {
	out := Plan{
		Darkroom: p.Name, Starts: p.Starts.Format(time.RFC3339), Loads: []Load{}, Baths: []Bath{}, Order: []string{},
		DayBefore: []Stock{}, Missing: []Missing{}, Findings: findings(p.Findings), Cautions: cautions(p.Cautions), NeverTogether: nevers(p.Never),
		Cost: ofCost(p.Cost),
	}
	for _, l := range p.Loads {
		out.Loads = append(out.Loads, ofLoad(l, p.Baths))
	}
	for _, b := range p.Baths {
		out.Baths = append(out.Baths, ofBath(b))
	}
	for _, i := range p.Order {
		out.Order = append(out.Order, p.Baths[i].ID)
	}
	for _, s := range p.DayBefore {
		out.DayBefore = append(out.DayBefore, ofStock(s))
	}
	for _, m := range p.Missing {
		x := Missing{
			Kind: string(m.Kind), Bath: m.Bath, Role: m.Role.String(), Product: m.Product, NeedML: m.Need.ML(),
			HaveML: m.Have.ML(), Near: m.Near,
		}
		for _, s := range m.Steps {
			x.Steps = append(x.Steps, stepName(s))
		}
		out.Missing = append(out.Missing, x)
	}
	return out
}

func ofLoad(l plan.Load, baths []plan.Bath) Load {
	out := Load{
		Material: l.Material.String(), Size: l.Size.String(), Sheets: l.Sheets, Rolls: l.Rolls, Strips: l.Strips,
		Standard: l.Standard.String(), Fixing: l.Fixing.String(), WashingAid: l.WashAid, AreaM2: float64(l.Area),
		Units: l.Units, Steps: []Timed{},
	}
	for _, t := range l.Times {
		s := Timed{
			Step: stepName(t.Step), TimeS: t.Time.Seconds(), DrainS: t.Drain.Seconds(), Agitation: t.Agitation,
			Origin: origin(t.Figure.Origin),
		}
		if t.Bath >= 0 {
			s.Bath = baths[t.Bath].ID
		}
		out.Steps = append(out.Steps, s)
	}
	return out
}

func ofBath(b plan.Bath) Bath {
	out := Bath{
		ID: b.ID, Step: stepName(b.Step), Role: b.Role.String(), Materials: []string{}, Product: b.Product, Tray: b.Tray,
		Tank: b.Tank, Rolls: b.Rolls, VolumeML: b.Volume.ML(), WindowML: [2]float64{b.Window.Min.ML(), b.Window.Max.ML()},
		DepthMM: float64(b.Depth), Makings: b.Makings, Tolerance: b.Tolerance, TemperatureC: float64(b.Temperature),
		Lots: []Draw{}, RinseBefore: b.Rinse, AtOnce: b.Together.Usual, Cautions: cautions(b.Cautions), Findings: findings(b.Findings),
	}
	for _, x := range b.Materials {
		out.Materials = append(out.Materials, x.String())
	}
	if b.Product != "" {
		d := OfDilution(b.Dilution)
		out.Dilution = &d
	}
	if b.Life != nil {
		out.PartOfLife = &b.Life.Load
	}
	out.mix(b.Mix, b.Vessels)
	for _, d := range b.Lots {
		out.Lots = append(out.Lots, ofDraw(d))
	}
	if b.Temper != nil {
		t := OfTemper(*b.Temper)
		out.Temper = &t
	}
	return out
}

// mix puts the best choice apart from the others.
func (b *Bath) mix(r measure.Result, vs []measure.Vessel) {
	for i, c := range r.Choices {
		x := OfChoice(c, vs)
		if i == 0 {
			b.Mix = &x
			continue
		}
		b.Others = append(b.Others, x)
	}
	if a := r.Advice; a != nil {
		b.Advice = &Advice{Get: a.Get.Name, Uncertainty: a.Uncertainty, Bias: a.Bias}
	}
}

func ofDraw(d plan.Draw) Draw {
	out := Draw{Product: d.Product, FromStock: d.Lot < 0, AmountML: d.Amount.ML(), LeftUnknown: d.Unknown, Opens: d.Opens}
	if d.Lot >= 0 {
		out.Lot = &d.Lot
	}
	if !d.Unknown {
		left := d.Left.ML()
		out.LeftML = &left
	}
	return out
}

func ofStock(s plan.Stock) Stock {
	out := Stock{
		Product: s.Product, Packets: s.Packets, MakesML: s.Makes.ML(), Vessel: s.Vessel, StartML: s.Start.ML(),
		MixAtC: float64(s.MixAt), Cautions: cautions(s.Cautions), Findings: findings(s.Findings),
	}
	if s.Temper != nil {
		t := OfTemper(*s.Temper)
		out.Temper = &t
	}
	return out
}

func findings(fs []plan.Finding) []Finding {
	out := []Finding{}
	for _, f := range fs {
		x := Finding{Kind: string(f.Kind), Subject: f.Subject, Other: f.Other}
		for _, g := range f.Figures {
			x.Figures = append(x.Figures, ofFigure(g))
		}
		out = append(out, x)
	}
	return out
}

func cautions(cs []plan.Caution) []Caution {
	out := []Caution{}
	for _, c := range cs {
		out = append(out, Caution{
			Kind: string(c.Kind), Subject: c.Subject, Hazards: c.Hazards, Substance: c.Other, Products: c.Names, From: string(c.From),
			Harms: harms(c.Harms), ThinnedHarms: harms(c.Thinned),
		})
	}
	return out
}

func ofCost(c plan.Cost) Cost {
	out := Cost{
		Currency: c.Currency, TotalHundredth: c.Total, PerUnit: c.PerUnit, PerHead: c.PerHead, Unpriced: c.Unpriced,
		Parts: []CostPart{},
	}
	for _, p := range c.Parts {
		out.Parts = append(out.Parts, CostPart{Product: p.Product, AmountML: p.Amount.ML(), Hundredths: p.Cost})
	}
	return out
}

func harms(all []ghs.Harm) []string {
	var out []string
	for _, h := range all {
		out = append(out, string(h))
	}
	return out
}
