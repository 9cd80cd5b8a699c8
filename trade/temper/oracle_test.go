package temper_test

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
	"wetside/trade/temper"
)

// iapws runs testdata/water.py under Debian's Python and returns the numbers of each line.
func iapws(t *testing.T, lines []string) [][]float64 {
	t.Helper()
	python := outside.Python(t, "iapws")
	cmd := exec.CommandContext(t.Context(), python, "testdata/water.py")
	cmd.Stdin = strings.NewReader(strings.Join(lines, "\n") + "\n")
	var stderr bytes.Buffer
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("water.py: %v\n%s", err, stderr.String())
	}
	var rows [][]float64
	for line := range strings.Lines(string(out)) {
		var row []float64
		for f := range strings.FieldsSeq(line) {
			x, err := strconv.ParseFloat(f, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, x)
		}
		rows = append(rows, row)
	}
	if len(rows) != len(lines) {
		t.Fatalf("water.py answered %d of %d lines", len(rows), len(lines))
	}
	return rows
}

// TestWaterAgainstIAPWS holds density and enthalpy, between the rows of the table too, against IAPWS-95 as
// python3-iapws has it. The package says within 5e-5 kg/m³ and 7e-5 kJ/kg, and 2e-6 of either below 98 °C.
func TestWaterAgainstIAPWS(t *testing.T) {
	var at []float64
	for c := 0.0; c < 99.97; c += 0.53 {
		at = append(at, c)
	}
	at = append(at, 0.002, 0.01, 3.98, 99, 99.5, 99.84, 99.97)
	lines := make([]string, len(at))
	for i, c := range at {
		lines[i] = fmt.Sprintf("water %v", c)
	}
	for i, want := range iapws(t, lines) {
		rho, err := temper.Density(quantity.Celsius(at[i]))
		if err != nil {
			t.Fatal(err)
		}
		h, err := temper.Enthalpy(quantity.Celsius(at[i]))
		if err != nil {
			t.Fatal(err)
		}
		rhoTol, hTol := 2e-6, 2e-6
		if at[i] > 98 {
			rhoTol, hTol = 5e-5, 7e-5
		}
		if d := math.Abs(float64(rho)*1000 - want[0]); !(d <= rhoTol) {
			t.Errorf("Density(%v) = %v kg/m³, IAPWS-95 says %v: %.1e apart", at[i], float64(rho)*1000, want[0], d)
		}
		if d := math.Abs(h - want[1]); !(d <= hTol) {
			t.Errorf("Enthalpy(%v) = %v kJ/kg, IAPWS-95 says %v: %.1e apart", at[i], h, want[1], d)
		}
	}
}

// TestIceAgainstIAPWS holds the heat of melting against IAPWS-06 by way of what ice does to water: so much ice
// as brings 1 L of 26 °C to 20 °C takes up what the water gives off.
func TestIceAgainstIAPWS(t *testing.T) {
	melting := iapws(t, []string{"ice"})[0][0]
	r := solve(t, temper.Problem{Cold: 26, Hot: 50, Want: 20, Total: litre, Ice: true})
	h0, h20, h26 := enthalpy(t, 0), enthalpy(t, 20), enthalpy(t, 26)
	want := density(t, 20) * 1000 * (h26 - h20) / (h26 - h0 + melting)
	if got := float64(r.Ice); math.Abs(got-want) > 0.001 {
		t.Errorf("ice for 1 L from 26 to 20 °C: %v g, want %v g with %v kJ/kg", got, want, melting)
	}
}

// TestSolveAgainstIAPWS holds 60 mixes, a third of them with a chemical, against mass and enthalpy balances
// written apart, with IAPWS-95 itself in place of the table.
func TestSolveAgainstIAPWS(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1995))
	var problems []temper.Problem
	var lines []string
	for len(problems) < 60 {
		p := temper.Problem{
			Cold: quantity.Celsius(3 + 20*rng.Float64()), Hot: quantity.Celsius(35 + 50*rng.Float64()),
			Want: quantity.Celsius(18 + 22*rng.Float64()), Total: ml(250 + rng.Float64()*10_000), ChemicalAt: 20,
		}
		if len(problems)%3 == 0 {
			p.Chemical = quantity.Volume(float64(p.Total) * 0.4 * rng.Float64())
			p.ChemicalAt = quantity.Celsius(10 + 15*rng.Float64())
		}
		if r := solve(t, p); r.Status != temper.Reached {
			continue
		}
		problems = append(problems, p)
		lines = append(lines, fmt.Sprintf("mix %v %v %v %v %v %v", float64(p.Hot), float64(p.Cold), float64(p.Want),
			p.Total.ML(), p.Chemical.ML(), float64(p.ChemicalAt)))
	}
	for i, want := range iapws(t, lines) {
		r := solve(t, problems[i])
		tol := 1e-6 * problems[i].Total.ML()
		if math.Abs(r.Hot.ML()-want[0]) > tol || math.Abs(r.Cold.ML()-want[1]) > tol {
			t.Errorf("%s: hot %v, cold %v mL, want %v and %v", lines[i], r.Hot.ML(), r.Cold.ML(), want[0], want[1])
		}
	}
}
