package material_test

import (
	"testing"

	"wetside/trade/material"
)

// A size is the same whether it was read or comes out of the table of usual sizes.
func TestUsualSizesAreReadAsTheyAre(t *testing.T) {
	for _, s := range material.Usual() {
		got, err := material.ReadSize(s.String())
		if err != nil || got != s {
			t.Errorf("%s: read as %v, %v; want %v", s, got, err, s)
		}
	}
}
