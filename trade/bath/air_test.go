package bath_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/bath"
)

// A paper developer of 2 L with an open-tray life of 24 h, after an evening of six hours in which thirty sheets carried
// 0.24 L away.
func ExampleAir() {
	tray := bath.NewAir(2, 24).Wait(6).Lose(0.24)
	fmt.Printf("%.0f %% of its strength, good for %.0f h more\n", 100*tray.Share(), tray.Left())
	tray = tray.TopUp(0.24)
	fmt.Printf("topped up: %.0f %%, %.0f h\n", 100*tray.Share(), tray.Left())
	// Output:
	// 88 % of its strength, good for 16 h more
	// topped up: 89 %, 19 h
}

func TestAir(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		litres := rapid.Float64Range(0.3, 10).Draw(t, "litres")
		life := rapid.Float64Range(1, 100).Draw(t, "life")
		fresh := bath.NewAir(litres, life)
		if got := fresh.Left(); math.Abs(got/life-1) > 1e-12 {
			t.Errorf("%g L fresh: left %g h, the label says %g", litres, got, life)
		}
		if got := fresh.Wait(life).Share(); math.Abs(got-bath.LeastDeveloper().Value) > 1e-12 {
			t.Errorf("at the label's life a share of %g is left, want %g", got, bath.LeastDeveloper().Value)
		}
		waited := rapid.Float64Range(0, 0.9).Draw(t, "waited") * life
		lost := rapid.Float64Range(0.01, 0.5).Draw(t, "lost") * litres
		used := fresh.Wait(waited)
		shallow := used.Lose(lost)
		if got := used.Left(); math.Abs(got-(life-waited)) > 1e-9*life {
			t.Errorf("after %g of %g h: left %g", waited, life, got)
		}
		if math.Abs(shallow.Share()-used.Share()) > 1e-12 || shallow.Left() >= used.Left() {
			t.Errorf("a shallow tray: share %g of %g, left %g h of %g", shallow.Share(), used.Share(), shallow.Left(), used.Left())
		}
		full := shallow.TopUp(lost)
		if full.Left() <= used.Left() && waited > life/1000 || full.Left() <= shallow.Left() || full.Share() < shallow.Share()-1e-12 || full.Share() > 1+1e-12 {
			t.Errorf("topped up: left %g h, before the loss %g h; share %g, before %g", full.Left(), used.Left(), full.Share(), shallow.Share())
		}
		more := rapid.Float64Range(0, life).Draw(t, "more")
		if later := used.Wait(more); later.Share() > used.Share()+1e-12 || later.Left() > used.Left()+1e-9*life || later.Share() < 0 {
			t.Errorf("%g h later: share %g of %g, left %g h of %g", more, later.Share(), used.Share(), later.Left(), used.Left())
		}
		if wide := fresh.Spread(2); math.Abs(wide.Left()-life/2) > 1e-9*life {
			t.Errorf("twice the surface: left %g h, want %g", wide.Left(), life/2)
		}
	})
}

func TestAirEdges(t *testing.T) {
	t.Parallel()
	if got := bath.NewAir(1, 0).Wait(1000); got.Share() != 1 || !math.IsInf(got.Left(), 1) {
		t.Errorf("no life given: share %g, left %g h", got.Share(), got.Left())
	}
	if got := bath.NewAir(1, 24).Lose(2); got.Share() != 0 || got.Left() != 0 || got.TopUp(1).Share() != 1 {
		t.Errorf("emptied: share %g, left %g h, filled again %g", got.Share(), got.Left(), got.TopUp(1).Share())
	}
	r := bath.NewAir(2, 24).Wait(12).Reckon()
	if r.Result.Value != 12*3600 {
		t.Errorf("Reckon: %g s, want 12 h", r.Result.Value)
	}
}
