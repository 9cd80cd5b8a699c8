package quantity_test

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"wetside/internal/outside"
	"wetside/trade/quantity"
)

// asked is one question to GNU units, and what this package says to the same.
type asked struct {
	have, want string
	got        float64
}

// gnuUnits answers the questions with the real program, in one run of it.
func gnuUnits(t *testing.T, questions []asked) []float64 {
	t.Helper()
	path := outside.Program(t, "units", "units")
	var in bytes.Buffer
	for _, q := range questions {
		fmt.Fprintf(&in, "%s\n%s\n", q.have, q.want)
	}
	cmd := exec.CommandContext(t.Context(), path, "--terse", "--output-format", "%.17g")
	cmd.Stdin = &in
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Fields(string(out))
	if len(lines) != len(questions) {
		t.Fatalf("GNU units gave %d answers to %d questions:\n%s", len(lines), len(questions), out)
	}
	answers := make([]float64, len(lines))
	for i, line := range lines {
		if answers[i], err = strconv.ParseFloat(line, 64); err != nil {
			t.Fatalf("%s in %s: %v", questions[i].have, questions[i].want, err)
		}
	}
	return answers
}

// hold compares, with room for the rounding of two float64 programs and for that of what is held.
func hold(t *testing.T, questions []asked, rounding float64) {
	t.Helper()
	answers := gnuUnits(t, questions)
	for i, q := range questions {
		if tolerance := 1e-14*math.Abs(answers[i]) + rounding; math.Abs(q.got-answers[i]) > tolerance {
			t.Errorf("%s in %s: got %.17g, GNU units %.17g", q.have, q.want, q.got, answers[i])
		}
	}
	t.Logf("%d questions held against GNU units", len(questions))
}

// gnuVolumes are the names of the volume units in GNU units' own data file; "br" is the imperial one.
var gnuVolumes = map[quantity.VolumeUnit]string{
	quantity.UnitML: "ml", quantity.UnitLitre: "liter",
	quantity.UnitUSOunce: "usfloz", quantity.UnitImperialOunce: "brfloz",
	quantity.UnitUSPint: "uspint", quantity.UnitImperialPint: "brpint",
	quantity.UnitUSQuart: "usquart", quantity.UnitImperialQuart: "brquart",
	quantity.UnitUSGallon: "usgallon", quantity.UnitImperialGallon: "brgallon",
}

func TestVolumesAgainstGNUUnits(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	var questions []asked
	for _, u := range quantity.VolumeUnits() {
		name, ok := gnuVolumes[u]
		if !ok {
			t.Fatalf("no name for %v", u)
		}
		for range 40 {
			whole, thousandths := rng.Int64N(1000), rng.Int64N(1000)
			n := fmt.Sprintf("%d.%03d", whole, thousandths)
			n = strings.TrimSuffix(n, "0") // thousandths of a millilitre that end in 0 are refused
			v, err := quantity.ReadVolume(n+" "+u.String(), quantity.NoOunce)
			if err != nil {
				t.Fatal(err)
			}
			other := quantity.VolumeUnits()[rng.IntN(len(gnuVolumes))]
			questions = append(questions,
				asked{n + " " + name, "ml", v.ML()},
				asked{n + " " + name, gnuVolumes[other], v.InUnit(other).Float()})
		}
	}
	hold(t, questions, 0.51/float64(quantity.Millilitre))
}

func TestMassesAndLengthsAgainstGNUUnits(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	var questions []asked
	ask := func(ours, theirs, want string, read func(string) (float64, error)) {
		t.Helper()
		for range 30 {
			n := fmt.Sprintf("%d.%02d", 1+rng.Int64N(100), rng.Int64N(100))
			got, err := read(n + " " + ours)
			if err != nil {
				t.Fatal(err)
			}
			questions = append(questions, asked{n + " " + theirs, want, got})
		}
	}
	mass := func(s string) (float64, error) { m, err := quantity.ReadMass(s); return float64(m), err }
	length := func(s string) (float64, error) { l, err := quantity.ReadLength(s); return float64(l), err }
	area := func(s string) (float64, error) { a, err := quantity.ReadArea(s); return float64(a), err }
	density := func(s string) (float64, error) { d, err := quantity.ReadDensity(s); return float64(d), err }
	celsius := func(s string) (float64, error) { c, err := quantity.ReadCelsius(s); return float64(c), err }
	difference := func(s string) (float64, error) {
		c, err := quantity.ReadCelsiusDifference(s)
		return float64(c), err
	}
	for ours, theirs := range map[string]string{"g": "g", "kg": "kg", "mg": "mg", "gr": "grain", "oz av": "oz", "lb": "lb"} {
		ask(ours, theirs, "g", mass)
	}
	for ours, theirs := range map[string]string{"mm": "mm", "cm": "cm", "m": "m", "in": "inch", "ft": "ft"} {
		ask(ours, theirs, "mm", length)
	}
	for ours, theirs := range map[string]string{"m2": "m^2", "cm²": "cm^2", "sq in": "in^2", "sq ft": "ft^2"} {
		ask(ours, theirs, "m^2", area)
	}
	for range 30 {
		f := fmt.Sprintf("%d.%d", rng.Int64N(212), rng.Int64N(10))
		got, err := celsius(f + " °F")
		if err != nil {
			t.Fatal(err)
		}
		gotDiff, err := difference(f + " °F")
		if err != nil {
			t.Fatal(err)
		}
		d := fmt.Sprintf("%d.%03d", rng.Int64N(20), 1+rng.Int64N(999))
		gotDensity, err := density(d + " kg/L")
		if err != nil {
			t.Fatal(err)
		}
		questions = append(questions,
			asked{"tempF(" + f + ")", "tempC", got},
			asked{f + " degF", "degC", gotDiff},
			asked{d + " kg/liter", "g/ml", gotDensity})
	}
	hold(t, questions, 1e-13) // near 32 °F the offset leaves but the rounding
}
