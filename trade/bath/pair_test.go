package bath_test

import (
	"math"
	"testing"

	"wetside/trade/bath"
	"wetside/trade/material"
)

// Both new after the third change (a maker's rule, Anchell3 p. 107) or after 250 sheets of 8×10 per litre (APorg-fix).
func TestBothNew(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name     string
		pair     bath.Pair
		changes  int
		perLitre float64
		want     bath.Renewal
	}{
		{"first spent", bath.DefaultPair(), 0, 50, bath.NotYet},
		{"changed twice", bath.DefaultPair(), 2, 150, bath.NotYet},
		{"changed three times", bath.DefaultPair(), 3, 200, bath.ByChanges},
		{"many small sheets", bath.DefaultPair(), 1, 250, bath.ByCount},
		{"both", bath.DefaultPair(), 3, 250, bath.ByChanges},
		{"a room's own", bath.Pair{MostChanges: 1, MostPerLitre: 60}, 0, 60, bath.ByCount},
		{"no limit", bath.Pair{}, 9, 900, bath.NotYet},
	} {
		if got := c.pair.BothNew(c.changes, c.perLitre); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
	if got := bath.DefaultPair().Reckon(1, 100); got.Result.Value != 150 || got.Puts[3].Source != "APorg-fix" {
		t.Errorf("Reckon: %+v", got)
	}
	if got := (bath.Pair{MostChanges: 3, MostPerLitre: 100}).Reckon(1, 120); got.Result.Value != 0 || got.Puts[3].Source != "" {
		t.Errorf("a room's own: %+v", got)
	}
}

// A tray loses its carry-over with every dry sheet, and what was lost is what brings it back.
func TestTopUp(t *testing.T) {
	t.Parallel()
	p := fixers(1)
	p.Prior = certain(p.Prior)
	ask := bath.Ask{Sheet: bath.Sheet{Of: material.FB, Area: area8x10}, Through: []int{0, 1, 2}, Limits: make([]bath.Limits, 3)}
	p.Steps = []bath.Step{bath.Worked{Sheet: ask.Sheet, Sheets: 20, Through: ask.Through}}
	rooms, err := p.Draw(1, 1)
	if err != nil {
		t.Fatal(err)
	}
	got, err := rooms.TopUp(ask, 30)
	if err != nil {
		t.Fatal(err)
	}
	// 8.0 mL a sheet of 8×10, the model's worked figure, times 50.
	if math.Abs(got.P50-0.4) > 0.001 {
		t.Errorf("after 50 sheets the tray lacks %.4f L, want 0.400", got.P50)
	}
	after, err := rooms.After(
		bath.Worked{Sheet: ask.Sheet, Sheets: 30, Through: ask.Through},
		bath.ToppedUp{Bath: 0, With: bath.NewDeveloper(got.P50).Made},
	)
	if err != nil {
		t.Fatal(err)
	}
	if l := after.Litres(0).P50; math.Abs(l-2) > 1e-12 {
		t.Errorf("topped up it holds %.15g L, want 2", l)
	}
	if _, err := rooms.TopUp(ask, math.NaN()); err == nil {
		t.Error("no number of sheets: no error")
	}
	if _, err := rooms.TopUp(bath.Ask{Sheet: ask.Sheet}, 1); err == nil {
		t.Error("no path: no error")
	}
}
