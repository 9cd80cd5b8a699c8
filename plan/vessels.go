package plan

import (
	"context"

	"wetside/darkroom"
	"wetside/trade/measure"
)

// vesselsFor returns the vessels of a bench that may be used for a product, as package measure sees them.
func vesselsFor(p darkroom.Product, b darkroom.Bench) (use []measure.Vessel) {
	for _, v := range b.Vessels {
		if v.Serves(p, b) {
			use = append(use, v.ForMeasure(p, b))
		}
	}
	return use
}

// free reports whether plain water for a product, or a stock of it, may stand in a vessel: it is not kept for something
// else.
func free(v darkroom.Vessel, p *darkroom.Product, b darkroom.Bench) bool {
	return v.KeepFor == "" || v.Serves(*p, b)
}

// solve asks package measure.
func solve(ctx context.Context, p measure.Problem, alternatives int) (measure.Result, error) {
	return measure.Solve(ctx, p, measure.Options{Alternatives: alternatives})
}
