package material_test

import (
	"strings"
	"testing"

	"wetside/trade/material"
)

// A size is the same whether it was read or comes out of the table of usual sizes.
func TestUsualSizesAreReadAsTheyAre(t *testing.T) {
	for _, s := range material.Usual() {
		got, err := material.ReadSize(s.String())
		bare, unit, bad := material.ReadUsual(strings.TrimSuffix(strings.TrimSuffix(s.String(), " in"), " cm"))
		if bad != nil || bare != s || unit == "" {
			t.Errorf("%s without its unit: %v %q, %v", s, bare, unit, bad)
		}
		if err != nil || got != s {
			t.Errorf("%s: read as %v, %v; want %v", s, got, err, s)
		}
	}
}

// What is no usual size needs its unit; what has one is not given another.
func TestReadUsualAsksForTheUnit(t *testing.T) {
	for _, text := range []string{"7x9", "8x10 furlongs", "", "8"} {
		if s, unit, err := material.ReadUsual(text); err == nil {
			t.Errorf("%q was read as %v %s", text, s, unit)
		}
	}
	if s, unit, err := material.ReadUsual("8x10 cm"); err != nil || unit != "" || s != material.Centimetres(8, 10) {
		t.Errorf("8x10 cm was read as %v %q, %v", s, unit, err)
	}
}
