package words_test

import (
	"testing"

	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/words"
)

func scale(u quantity.VolumeUnit, from, to int64, step quantity.Ratio, numbered int64) measure.Scale {
	return measure.Scale{Unit: u, From: quantity.Int(from), To: quantity.Int(to), Step: step, Numbered: quantity.Int(numbered)}
}

func ratio(t testing.TB, num, den int64) quantity.Ratio {
	t.Helper()
	r, err := quantity.NewRatio(num, den)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func jug() measure.Vessel {
	return measure.Vessel{Name: "litre jug", Kind: measure.Jug, Scales: []measure.Scale{
		scale(quantity.UnitML, 100, 1000, quantity.Int(50), 100),
		scale(quantity.UnitUSOunce, 1, 32, quantity.Int(1), 4),
	}}
}

func voice(t testing.TB, sys quantity.System) *words.Voice {
	t.Helper()
	v, err := words.New("en", sys, quantity.OunceUS)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestTry(t *testing.T) {
	v := voice(t, quantity.Metric)
	b := words.Batch{Vessels: []measure.Vessel{jug()}, Chemical: "paper developer", Into: "white",
		Dilution: dilution.Dilution{Chemicals: []quantity.Ratio{quantity.Int(1)}, Water: quantity.Int(9)}}
	ml := quantity.Millilitre
	c := measure.Choice{Manner: measure.FirstJug, Total: 2 * quantity.Litre, Chemical: []quantity.Volume{200 * ml},
		Uncertainty: 0.07, Steps: []measure.Step{
			{Do: measure.Pour, Mark: quantity.Int(200), Volume: 200 * ml, Times: 1},
			{Do: measure.Fill, What: measure.Water, Mark: quantity.Int(1000), Volume: 1000 * ml, Times: 1},
			{Do: measure.Tip, What: measure.Mix, Vessel: -1, Times: 1},
			{Do: measure.Fill, What: measure.Water, Mark: quantity.Int(1000), Volume: 1000 * ml, Times: 1, Group: 1},
			{Do: measure.Tip, What: measure.Mix, Vessel: -1, Times: 1, Group: 1},
			{Do: measure.Stir, What: measure.Mix, Vessel: -1, Times: 1, Group: 1},
		}}
	for _, l := range v.Walk(c, b) {
		t.Logf("%5s %-3s %s | %s", l.Number, l.Unit, l.Text(), l.Next)
	}
	t.Log(v.Summary(c, b, 0, 0.15))
	t.Log(v.Exact(c, 0, 0.15))
	t.Log(v.Volume(1500*ml), v.Temperature(20), v.Money(123456, "EUR"), v.PlusMinus(.145))
}
