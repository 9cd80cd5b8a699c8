package bath_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"wetside/trade/bath"
	"wetside/trade/chem"
)

// aStop tabulates a stop bath of so much acetic acid into which the usual developer is carried, at 20 °C.
func aStop(t *testing.T, acid float64) *bath.Titration {
	t.Helper()
	var substances []chem.Substance
	for _, name := range []string{"acetic acid", "sodium carbonate", "sodium sulfite"} {
		s, err := chem.Lookup(name)
		if err != nil {
			t.Fatal(err)
		}
		substances = append(substances, s)
	}
	mix, err := chem.Prepare(20, substances...)
	if err != nil {
		t.Fatal(err)
	}
	carbonate, sulfite := bath.CarriedDeveloper()
	titration, err := bath.NewTitration(func(share float64) (float64, error) {
		for i, x := range []float64{(1 - share) * acid, share * carbonate.Value, share * sulfite.Value} {
			if err := mix.Set(i, x); err != nil {
				return 0, err
			}
		}
		return mix.Solve().PH, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return titration
}

// The independent model solves the same stop baths on its own: pH within 0.02, the share at the turn within 0.001.
func TestOracleTitration(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("testdata/oracle/vectors.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Titration struct {
			At []struct {
				Acid  float64 `json:"acetic_mol_per_kg"`
				Share float64 `json:"share"`
				PH    float64 `json:"ph"`
			} `json:"ph_at_share"`
			Turn []struct {
				Acid  float64 `json:"acetic_mol_per_kg"`
				PH    float64 `json:"ph"`
				Share float64 `json:"share"`
			} `json:"share_at_ph"`
		} `json:"titration"`
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Titration.At) < 48 || len(file.Titration.Turn) < 4 {
		t.Fatalf("%d points and %d turns, want 48 and 4", len(file.Titration.At), len(file.Titration.Turn))
	}
	stops := map[float64]*bath.Titration{}
	for _, c := range file.Titration.Turn {
		stops[c.Acid] = aStop(t, c.Acid)
		if got := stops[c.Acid].ShareAt(c.PH); math.Abs(got-c.Share) > 0.001 {
			t.Errorf("%g mol/kg: pH %g at a share of %.5f, want %.5f", c.Acid, c.PH, got, c.Share)
		}
	}
	worst := 0.0
	for _, c := range file.Titration.At {
		got := stops[c.Acid].PH(c.Share)
		worst = max(worst, math.Abs(got-c.PH))
		if math.Abs(got-c.PH) > 0.02 {
			t.Errorf("%g mol/kg, share %g: pH %.4f, want %.4f", c.Acid, c.Share, got, c.PH)
		}
	}
	t.Logf("worst difference of pH %.4f", worst)
}
