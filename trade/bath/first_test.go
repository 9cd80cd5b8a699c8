package bath_test

import (
	"testing"
	"time"

	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// At the end of an evening the developer is poured away before the stop bath: dry sheets bring nothing into the stop bath, so that by what
// it takes up it never ends. It is answered at once, in every possible room, and what stands behind it ends as it does alone.
func TestStopBathFirstOnItsPath(t *testing.T) {
	t.Parallel()
	stop := bath.Limits{Developer: 0.02}
	for name, fixed := range map[string][]bath.Bath{"alone": nil, "before a fixer": {bath.NewFixer(1, bath.FilmStrength().Value)}} {
		p := bath.Past{Prior: bath.DefaultPrior(), Baths: append([]bath.Bath{bath.NewStop(2, nil)}, fixed...)}
		limit := []bath.Limits{stop}
		if len(fixed) > 0 {
			limit = append(limit, limits(t, material.RC, process.Exhibition, bath.Alone))
		}
		at := time.Now()
		e := ends(t, &p, 4000, material.RC, limit...)
		if took := time.Since(at); took > 2*time.Second {
			t.Errorf("%s: it took %v", name, took)
		}
		if got := e.Of(0); got.P10 != bath.Most {
			t.Errorf("%s: %+v, want no end", name, got)
		}
		if len(fixed) > 0 {
			if got := e.Of(1); got.P50 < 30 || got.P50 > 70 {
				t.Errorf("a fixer behind it: %+v, want about 47", got)
			}
		}
	}
}
