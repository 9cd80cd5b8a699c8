package facts

import (
	"wetside/trade/process"
	"wetside/trade/temper"
)

// Temper is how to get the water: what `wetside temper --json` prints.
type Temper struct {
	Status    string      `json:"status"`
	HotML     float64     `json:"hot_ml"`
	ColdML    float64     `json:"cold_ml"`
	KettleML  float64     `json:"kettle_ml,omitempty"`
	IceG      float64     `json:"ice_g,omitempty"`
	WaterC    float64     `json:"water_c"`
	NearestC  float64     `json:"nearest_c"`
	AtMarksC  float64     `json:"at_marks_c"`
	Marks     []Mark      `json:"marks"`
	Helps     []Help      `json:"helps,omitempty"`
	Scald     bool        `json:"scald"`
	Reckoning []Reckoning `json:"reckoning"`
}

// Mark is a level to pour to.
type Mark struct {
	What string  `json:"what"`
	ToML float64 `json:"to_ml,omitempty"`
	G    float64 `json:"g,omitempty"`
}

// Help is what would bring a temperature into reach.
type Help struct {
	What string  `json:"what"`
	ML   float64 `json:"ml,omitempty"`
	G    float64 `json:"g,omitempty"`
	AtC  float64 `json:"at_c"`
}

// OfTemper takes a tempering apart.
func OfTemper(r temper.Result) Temper {
	out := Temper{
		Status: temperStatus(r.Status), HotML: r.Hot.ML(), ColdML: r.Cold.ML(), KettleML: r.Kettle.ML(), IceG: float64(r.Ice),
		WaterC: float64(r.Water), NearestC: float64(r.Nearest), AtMarksC: float64(r.AtMarks), Scald: r.Scald,
		Marks: []Mark{}, Reckoning: []Reckoning{},
	}
	for _, m := range r.Marks {
		out.Marks = append(out.Marks, Mark{What: waterFrom(m.From), ToML: m.To.ML(), G: float64(m.Grams)})
	}
	for _, h := range r.Helps {
		out.Helps = append(out.Helps, Help{What: waterFrom(h.What), ML: h.Volume.ML(), G: float64(h.Grams), AtC: float64(h.At)})
	}
	for _, x := range r.Reckoning {
		out.Reckoning = append(out.Reckoning, OfReckoning(x))
	}
	return out
}

func temperStatus(s temper.Status) string {
	return [...]string{"reached", "with_kettle", "with_ice", "out_of_reach"}[s]
}

func waterFrom(s temper.Source) string { return [...]string{"hot", "cold", "kettle", "ice"}[s] }

func stepName(s process.Step) string {
	return [...]string{
		"", "pre_wash", "develop", "stop", "stop_rinse", "fix", "second_fix", "hold", "rinse", "tone", "wash_aid", "wash",
		"wet", "dry", "check_clearing",
	}[s]
}
