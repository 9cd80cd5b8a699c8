package plan

import (
	"context"
	"errors"

	"wetside/trade/quantity"
)

// ErrNoName is returned for a file without a darkroom's name: an empty request.
var ErrNoName = errors.New("no darkroom in the request")

// Make turns a request into a plan. What the room lacks is no error: it stands in Plan.Missing, and the baths
// that can be made are planned all the same. The error is ErrNoName or the context's.
func Make(ctx context.Context, r Request) (Plan, error) {
	if r.File.Darkroom.Name == "" {
		return Plan{}, ErrNoName
	}
	m := newMaker(r)
	m.loads()
	m.paperBaths()
	m.filmBaths()
	m.chains()
	if err := m.measureAll(ctx); err != nil {
		return Plan{}, err
	}
	m.temperAll(ctx)
	m.stockTempers(ctx)
	m.rinses()
	m.cautions()
	m.cost()
	return m.plan, ctx.Err()
}

// System returns the system of units that a plan for this file speaks.
func (r Request) system() quantity.System { return r.File.Darkroom.Units }
