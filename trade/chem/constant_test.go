package chem_test

import (
	"errors"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"wetside/internal/outside"
	"wetside/trade/chem"
	"wetside/trade/quantity"
)

func TestDebyeHuckel(t *testing.T) {
	// Reckoned with python3-iapws from IAPWS-95 and IAPWS R8-97, apart from this program.
	for at, want := range map[quantity.Celsius]float64{
		15: 0.50149, 18: 0.50389, 20: 0.50553, 22: 0.50721, 24: 0.50891, 25: 0.50978, 30: 0.51422, 38: 0.52177,
	} {
		got, err := chem.DebyeHuckel(at)
		if err != nil || !(math.Abs(got-want) <= 1e-5) {
			t.Errorf("A at %v °C: %.6f, %v, want %.5f", at, got, err, want)
		}
	}
	for _, at := range []quantity.Celsius{9.99, 40.01, quantity.Celsius(math.NaN())} {
		var out *chem.RangeError
		if _, err := chem.DebyeHuckel(at); !errors.As(err, &out) {
			t.Errorf("A at %v °C: %v, want a RangeError", at, err)
		}
	}
}

func TestDebyeHuckelAgainstIAPWS(t *testing.T) {
	python := outside.Python(t, "iapws")
	const script = `
from iapws import IAPWS95
from iapws._iapws import _Dielectric
for i in range(21):
    t = 283.15 + 1.5 * i
    w = IAPWS95(T=t, P=0.101325)
    print("%.10f" % (1.824829e6 * (w.rho / 1000)**.5 / (_Dielectric(w.rho, t) * t)**1.5))
`
	out, err := exec.CommandContext(t.Context(), python, "-c", script).Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Fields(string(out))
	if len(lines) != 21 {
		t.Fatalf("%d answers", len(lines))
	}
	for i, line := range lines {
		want, err := strconv.ParseFloat(line, 64)
		if err != nil {
			t.Fatal(err)
		}
		at := quantity.Celsius(10 + 1.5*float64(i))
		got, err := chem.DebyeHuckel(at)
		if err != nil || !(math.Abs(got-want) <= 3e-7) {
			t.Errorf("A at %v °C: %.8f, %v, IAPWS %.8f", at, got, err, want)
		}
	}
}

func TestDavies(t *testing.T) {
	// By hand, after Davies 1962: I = 0.1, A = 0.509: √I/(1+√I) = 0.240253, − 0.03 = 0.210253, times −0.509 and z².
	tests := []struct {
		z    int
		i    float64
		want float64
	}{
		{0, 0.1, 0},
		{1, 0, 0},
		{1, 0.1, -0.107019},
		{-1, 0.1, -0.107019},
		{2, 0.1, -0.428075},
		{-3, 0.1, -0.963169},
		{1, 0.5, -0.134485},
		{1, 1, -0.1018},
		{1, 7, -0.1018},
	}
	for _, tt := range tests {
		if got := chem.Davies(0.509, tt.z, tt.i); !(math.Abs(got-tt.want) <= 1e-6) {
			t.Errorf("log γ of charge %d at %v: %.6f, want %.6f", tt.z, tt.i, got, tt.want)
		}
	}
}

func TestConstantsAtTemperature(t *testing.T) {
	// Against measurements other than those the constants are from. Water: 14.5346 (10 °C), 14.1669 (20), 13.8330 (30), 13.5348 (40), and
	// acetic acid: 4.762 (10), 4.757 (20), 4.757 (30), 4.769 (40), ammonium: 9.730, 9.400, 9.093, 8.805: handbook
	// tables (Harned and Owen; Bates and Pinching), from memory. Within 0.01, which is what enthalpies are worth.
	water := func(at quantity.Celsius) float64 { // at an ionic strength near 0: pH of pure water is half of pKw
		return 2 * ph(t, at, "NaCl 0 mol/kg")
	}
	first := func(name string) func(quantity.Celsius) float64 {
		s, err := chem.Lookup(name)
		if err != nil {
			t.Fatal(err)
		}
		return func(at quantity.Celsius) float64 { return s.PKs(at)[0].At }
	}
	tests := []struct {
		name string
		pk   func(quantity.Celsius) float64
		want [4]float64
	}{
		{"water", water, [4]float64{14.5346, 14.1669, 13.8330, 13.5348}},
		{"acetic", first("acetic acid"), [4]float64{4.762, 4.757, 4.757, 4.769}},
		{"ammonium", first("ammonia"), [4]float64{9.730, 9.400, 9.093, 8.805}},
	}
	for _, tt := range tests {
		for i, at := range []quantity.Celsius{10, 20, 30, 40} {
			if got := tt.pk(at); !(math.Abs(got-tt.want[i]) <= 0.01) {
				t.Errorf("pK of %s at %v °C: %.4f, want %.4f", tt.name, at, got, tt.want[i])
			}
		}
	}
}

func TestConstantAt(t *testing.T) {
	// At 25 °C it is the constant itself; without a heat capacity it is van 't Hoff's equation.
	for _, s := range chem.Substances() {
		for _, p := range s.PKs(25) {
			if !(math.Abs(p.At-p.Constant.PK25) <= 1e-12) {
				t.Errorf("%s %d at 25 °C: %v, want %v", p.Acid, p.Step, p.At, p.Constant.PK25)
			}
		}
	}
	c := chem.Constant{PK25: 9, DH: 20}
	want := 9 + 20000/(8.314462618*math.Ln10)*(1/308.15-1/298.15)
	if got := c.At(35); !(math.Abs(got-want) <= 1e-9) {
		t.Errorf("van 't Hoff: %v, want %v", got, want)
	}
}
