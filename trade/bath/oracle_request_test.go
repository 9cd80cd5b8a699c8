package bath_test

import (
	"wetside/trade/bath"
	"wetside/trade/material"
)

// The independent model in testdata/oracle, as its README tells the format.
type (
	oracleBath struct {
		Kind        string   `json:"kind"`
		Litres      float64  `json:"volume_l"`
		Silver      float64  `json:"silver_g_per_l,omitempty"`
		Thiosulfate float64  `json:"thiosulfate_g_per_l,omitempty"`
		Made        float64  `json:"thiosulfate_made_g_per_l,omitempty"`
		SilverLimit *float64 `json:"silver_limit_g_per_l"`
		Least       *float64 `json:"thiosulfate_least_share"`
		Developer   *float64 `json:"developer_share_most"`
	}
	oracleDraws struct {
		Coating     []float64 `json:"coating"`
		Undeveloped []float64 `json:"undeveloped"`
		Carry       []float64 `json:"carry"`
	}
	oracleRequest struct {
		Baths    []oracleBath `json:"baths"`
		Film     float64      `json:"film_strength_g_per_l"`
		Material struct {
			Area        float64 `json:"area_m2"`
			Carry       float64 `json:"carry_l_per_m2"`
			Coating     float64 `json:"coating_g_per_m2"`
			Undeveloped float64 `json:"undeveloped"`
		} `json:"material"`
		Sheets int         `json:"sheets"`
		Draws  oracleDraws `json:"draws"`
	}
	oracleRow struct {
		Sheet       int       `json:"sheet"`
		Litres      []float64 `json:"volume_l"`
		Silver      []float64 `json:"silver_g_per_l"`
		Thiosulfate []float64 `json:"thiosulfate_g_per_l"`
		Developer   []float64 `json:"developer_share"`
		Out         struct {
			Litres      float64 `json:"litres"`
			Silver      float64 `json:"silver_g"`
			Thiosulfate float64 `json:"thiosulfate_g"`
			Developer   float64 `json:"developer_l"`
		} `json:"carried_out"`
	}
	oracleAnswer struct {
		Rows   []oracleRow `json:"trajectory"`
		Values struct {
			Coating     []float64 `json:"coating_g_per_m2"`
			Undeveloped []float64 `json:"undeveloped"`
			Carry       []float64 `json:"carry_l_per_m2"`
		} `json:"values"`
		Median      []*int     `json:"median_counts"`
		MedianBinds []*string  `json:"median_binds"`
		Counts      [][]int    `json:"counts"`
		Binds       [][]string `json:"binds"`
	}
	oracleVector struct {
		Request oracleRequest `json:"request"`
		Answer  oracleAnswer  `json:"answer"`
	}
)

// past sets the request's chain up; its material stands as RC.
func (q *oracleRequest) past() bath.Past {
	p := bath.Past{Prior: bath.DefaultPrior()}
	m := &q.Material
	s := &p.Prior[material.RC]
	s.Coating.Median, s.Undeveloped.Median = m.Coating, m.Undeveloped
	s.CarryOver = bath.CarryOver{Rest: m.Carry * 1000}
	for _, b := range q.Baths {
		switch b.Kind {
		case "developer":
			p.Baths = append(p.Baths, bath.NewDeveloper(b.Litres))
		case "stop":
			p.Baths = append(p.Baths, bath.NewStop(b.Litres, nil))
		case "water":
			p.Baths = append(p.Baths, bath.NewWater(b.Litres))
		case "fixer":
			f := bath.NewFixer(b.Litres, b.Thiosulfate)
			f.Made[bath.Silver] = b.Silver * b.Litres
			p.Baths = append(p.Baths, f)
		}
	}
	return p
}

// ask asks for every bath's end. Where no share ends a stop bath behind a developer, pH 5.2 does, at the share that the
// oracle's titration gives.
func (q *oracleRequest) ask() bath.Ask {
	const shareAtTurn = 0.258289653
	a := bath.Ask{Sheet: bath.Sheet{Of: material.RC, Area: q.Material.Area}}
	for i, b := range q.Baths {
		var l bath.Limits
		if b.Kind == "fixer" {
			l.FilmStrength = q.Film
			if b.SilverLimit != nil {
				l.Silver = *b.SilverLimit
			}
			made := b.Thiosulfate
			if b.Made > 0 {
				made = b.Made
			}
			if b.Least != nil {
				l.Thiosulfate = *b.Least * made
			}
		}
		if b.Kind == "stop" && q.Baths[0].Kind == "developer" {
			l.Developer = shareAtTurn
			if b.Developer != nil {
				l.Developer = *b.Developer
			}
		}
		if l.Silver == 0 && l.Thiosulfate == 0 && l.Developer == 0 {
			l = bath.Limits{}
		}
		a.Through, a.Limits = append(a.Through, i), append(a.Limits, l)
	}
	return a
}

// dry reports whether so many sheets take more than half of the first bath: there Go tops the tray up to its level, and
// the oracle does not.
func (q *oracleRequest) dry(sheets int, carry float64) bool {
	return float64(sheets)*carry*q.Material.Area >= q.Baths[0].Litres/2
}
