package facts

import (
	"math"
	"time"

	"wetside/ahead"
	"wetside/trade/waste"
)

// Waste is a year of the waste cans and what is done with each kind of bath here: what `wetside waste --json` prints.
type Waste struct {
	Year   int         `json:"year"`
	At     string      `json:"at"`
	Place  string      `json:"place"` // home, community, school; empty: not said
	Drain  string      `json:"drain"` // sewer, septic, none; empty: not said
	Cans   []WasteCan  `json:"cans"`
	Drains []UsedBath  `json:"used_baths"`
	Put    float64     `json:"put_in_ml"`
	Taken  float64     `json:"taken_ml"`
	Silver WasteSilver `json:"silver_taken"`
}

// WasteCan is a can with its year. What is in it is as it is now, whatever the year.
type WasteCan struct {
	ID      string      `json:"id"` // empty: what was collected and nobody named a can of
	Name    string      `json:"name"`
	There   bool        `json:"there"`
	Takes   string      `json:"takes"`
	Holds   float64     `json:"holds_ml"`
	FullAt  float64     `json:"full_at_ml"` // 0: not known
	In      float64     `json:"in_can_ml"`
	Fill    string      `json:"fill"`     // empty, has_room, near_full, full, brimful, no_size
	FullOn  string      `json:"full_on"`  // about; empty: no pace can be told
	Silver  WasteSilver `json:"silver"`   // in it now
	Wrong   int         `json:"wrong"`    // entries of what does not belong in it
	Began   float64     `json:"began_ml"` // when the year began
	Put     float64     `json:"put_in_ml"`
	Taken   float64     `json:"taken_ml"`
	Entries []WasteLine `json:"entries"` // of the year
	Says    string      `json:"says"`
}

// WasteSilver is an estimate, g: one room in ten lies under p10, half under p50, one in ten above p90.
type WasteSilver struct {
	P10     float64 `json:"p10_g"`
	P50     float64 `json:"p50_g"`
	P90     float64 `json:"p90_g"`
	Known   float64 `json:"known_ml"`
	Unknown float64 `json:"unknown_ml"` // of which nobody knows
}

// WasteLine is one entry.
type WasteLine struct {
	Entry    string       `json:"entry"`
	At       string       `json:"at"`
	What     string       `json:"what"`
	Bath     string       `json:"bath"` // its id; empty: no bath's own entry
	Put      float64      `json:"put_in_ml"`
	Taken    float64      `json:"taken_ml"`
	Level    float64      `json:"in_can_ml"`
	By       string       `json:"taken_by"`
	Document string       `json:"document"`
	Silver   *WasteSilver `json:"silver"` // of what was taken; null: it was put in
}

// UsedBath is what is done with a kind of used bath here.
type UsedBath struct {
	Of      string   `json:"of"`
	Way     string   `json:"way"` // collect, keep_and_ask, ask_first, as_answered
	Says    string   `json:"says"`
	Because []string `json:"because"`
	Sources []string `json:"sources"` // one for each of because; empty: the authority, common practice or from memory
}

// OfWaste takes apart a year of the waste cans; says and because are the sentences.
func OfWaste(y *ahead.WasteYear, says func(*ahead.Can) string, of func(*waste.Advice) (lead string, because []string)) Waste {
	out := Waste{
		Year: y.Year, At: y.At.Format(time.RFC3339), Place: string(y.Here.Place), Drain: string(y.Here.Drain), Cans: []WasteCan{}, Drains: []UsedBath{},
		Put: y.Put.ML(), Taken: y.Taken.ML(), Silver: ofSilver(&y.Fetched),
	}
	for i := range y.Cans {
		out.Cans = append(out.Cans, ofCan(&y.Cans[i], says(&y.Cans[i].Can), y.At.Location()))
	}
	for i := range y.Advice {
		a := &y.Advice[i]
		one := UsedBath{Of: a.Of.String(), Way: string(a.Way), Sources: []string{}}
		one.Says, one.Because = of(a)
		for _, w := range a.Why {
			one.Sources = append(one.Sources, w.Source)
		}
		out.Drains = append(out.Drains, one)
	}
	return out
}

func ofCan(y *ahead.CanYear, says string, zone *time.Location) WasteCan {
	c := &y.Can
	out := WasteCan{
		ID: c.ID, Name: c.Can.Name, There: c.There, Takes: c.Can.Takes.String(), Holds: c.Can.Holds.Value.ML(), FullAt: 1000 * c.Level.Mark,
		In: 1000 * c.Litres, Fill: string(c.Level.Fill), Silver: ofSilver(&c.Silver), Wrong: len(c.Wrong), Began: y.Began.ML(), Put: y.Put.ML(),
		Taken: y.Taken.ML(), Entries: []WasteLine{}, Says: says,
	}
	if !c.FullOn.IsZero() {
		out.FullOn = c.FullOn.In(zone).Format(time.DateOnly)
	}
	for i := range y.Rows {
		r := &y.Rows[i]
		line := WasteLine{Entry: r.Entry, At: r.At.In(zone).Format(time.RFC3339), What: r.Of().String(), Level: r.Level.ML()}
		if r.In != nil {
			line.Bath, line.Put = r.In.Bath, r.Volume.ML()
		} else {
			silver := ofSilver(&r.Silver)
			line.Taken, line.By, line.Document, line.Silver = r.Volume.ML(), r.Taken.By, r.Taken.Document, &silver
		}
		out.Entries = append(out.Entries, line)
	}
	return out
}

func ofSilver(s *ahead.Silver) WasteSilver {
	return WasteSilver{P10: milligrams(s.Grams.P10), P50: milligrams(s.Grams.P50), P90: milligrams(s.Grams.P90), Known: 1000 * s.Known, Unknown: 1000 * s.Unknown}
}

// milligrams rounds grams to them.
func milligrams(g float64) float64 { return math.Round(g*1e3) / 1e3 }
