package words_test

import (
	"testing"

	"wetside/trade/dilution"
	"wetside/trade/measure"
	"wetside/trade/quantity"
	"wetside/words"
)

// The vessels of the ordinary cases: J a litre jug with 50 mL and 1 fl oz marks, C a 100 mL cylinder of class B, S a
// 10 mL syringe in 0.2 mL; and a few more.

func ratio(t *testing.T, text string) quantity.Ratio {
	t.Helper()
	r, err := quantity.ReadRatio(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func scale(t *testing.T, u quantity.VolumeUnit, from, to, step, numbered string) measure.Scale {
	t.Helper()
	return measure.Scale{
		Unit: u, From: ratio(t, from), To: ratio(t, to), Step: ratio(t, step), Numbered: ratio(t, numbered),
	}
}

func jug(t *testing.T) measure.Vessel {
	t.Helper()
	return measure.Vessel{Name: "litre jug", Kind: measure.Jug, Scales: []measure.Scale{
		scale(t, quantity.UnitML, "100", "1000", "50", "100"),
		scale(t, quantity.UnitUSOunce, "1", "32", "1", "4"),
	}}
}

func imperialJug(t *testing.T) measure.Vessel {
	t.Helper()
	return measure.Vessel{Name: "quart jug", Kind: measure.Jug, Scales: []measure.Scale{
		scale(t, quantity.UnitImperialOunce, "2", "40", "1", "10"),
	}}
}

func cylinder(t *testing.T) measure.Vessel {
	t.Helper()
	return measure.Vessel{Name: "small cylinder", Kind: measure.Cylinder, Class: measure.ClassB, Scales: []measure.Scale{
		scale(t, quantity.UnitML, "2", "100", "1", "10"),
	}}
}

func syringe(t *testing.T) measure.Vessel {
	t.Helper()
	return measure.Vessel{Name: "syringe", Kind: measure.Syringe, Scales: []measure.Scale{
		scale(t, quantity.UnitML, "0.2", "10", "0.2", "1"),
	}}
}

func balance(t *testing.T) measure.Vessel {
	t.Helper()
	return measure.Vessel{Name: "pocket balance", Kind: measure.Balance, Scales: []measure.Scale{
		scale(t, quantity.UnitML, "0", "200", "0.1", "10"),
	}}
}

// read reads a label's words and a volume.
func read(t *testing.T, label, volume string, o quantity.Ounce) (dilution.Dilution, quantity.Window) {
	t.Helper()
	d, err := dilution.Read(label, dilution.Options{Ounce: o})
	if err != nil {
		t.Fatalf("%q: %v", label, err)
	}
	w, err := quantity.ReadWindow(volume, o)
	if err != nil {
		t.Fatalf("%q: %v", volume, err)
	}
	return d, w
}

func voice(t *testing.T, sys quantity.System, settings ...words.Setting) *words.Voice {
	t.Helper()
	v, err := words.New("en", sys, quantity.OunceUS, settings...)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
