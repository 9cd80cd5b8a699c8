package words_test

import (
	"testing"

	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/words"
)

// Water goes in before an acid to a mark that the jug itself has, with room left for the acid (acid into water: common
// practice, and the water first of measure's own doc).
func TestStartMarkIsOnTheJug(t *testing.T) {
	ratio := func(text string) quantity.Ratio {
		r, err := quantity.ReadRatio(text)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	for _, tt := range []struct {
		name, from, to, step string
		want                 int64 // mL of water before the acid, three quarters
		mark                 string
	}{
		{"the nearest mark", "50", "500", "50", 337, "350"},
		{"by hundreds", "100", "500", "100", 337, "300"},
		{"a coarse jug", "250", "1000", "250", 712, "750"},
		{"no mark that leaves room", "500", "1000", "500", 337, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			jug := measure.Vessel{Name: "My jug", Scales: []measure.Scale{
				{Unit: quantity.UnitML, From: ratio(tt.from), To: ratio(tt.to), Step: ratio(tt.step)},
			}}
			c := measure.Choice{Steps: []measure.Step{
				{Do: measure.Start, What: measure.Water, Volume: quantity.Volume(tt.want) * quantity.Millilitre},
				{Do: measure.Fill, What: measure.Water, Mark: ratio(tt.to)},
			}}
			_, mark, ok := words.StartMark(c, []measure.Vessel{jug}, 0)
			switch {
			case tt.mark == "" && ok:
				t.Errorf("got the mark %v, want none", mark)
			case tt.mark != "" && (!ok || mark.Cmp(ratio(tt.mark)) != 0):
				t.Errorf("got %v, %v; want the mark %s", mark, ok, tt.mark)
			}
		})
	}
}
