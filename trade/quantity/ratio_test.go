package quantity_test

import (
	"errors"
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"wetside/trade/quantity"
)

// anyRatio draws small and enormous ratios of both signs.
func anyRatio() *rapid.Generator[quantity.Ratio] {
	return rapid.Custom(func(t *rapid.T) quantity.Ratio {
		bits := rapid.SampledFrom([]int64{10, 1000, math.MaxInt32, math.MaxInt64}).Draw(t, "size")
		num := rapid.Int64Range(-bits, bits).Draw(t, "num")
		den := rapid.Int64Range(1, bits).Draw(t, "den")
		return ratio(num, den)
	})
}

func rat(r quantity.Ratio) *big.Rat { return big.NewRat(r.Num(), r.Den()) }

// The arithmetic agrees with math/big wherever it gives an answer, and gives one wherever the naive terms fit.
func TestRatioAgreesWithBig(t *testing.T) {
	type op struct {
		name string
		ours func(r, s quantity.Ratio) (quantity.Ratio, error)
		big  func(z, x, y *big.Rat) *big.Rat
	}
	ops := []op{
		{"add", quantity.Ratio.Add, (*big.Rat).Add},
		{"sub", quantity.Ratio.Sub, (*big.Rat).Sub},
		{"mul", quantity.Ratio.Mul, (*big.Rat).Mul},
		{"quo", quantity.Ratio.Quo, (*big.Rat).Quo},
	}
	rapid.Check(t, func(t *rapid.T) {
		r, s := anyRatio().Draw(t, "r"), anyRatio().Draw(t, "s")
		for _, o := range ops {
			got, err := o.ours(r, s)
			if o.name == "quo" && s.Sign() == 0 {
				if !errors.Is(err, quantity.ErrRange) {
					t.Fatalf("%v by nothing: %v, %v", r, got, err)
				}
				continue
			}
			want := o.big(new(big.Rat), rat(r), rat(s))
			small := max(abs(r.Num()), r.Den(), abs(s.Num()), s.Den()) < 1<<30
			switch {
			case err == nil && rat(got).Cmp(want) != 0:
				t.Fatalf("%v %s %v: got %v, want %v", r, o.name, s, got, want)
			case err != nil && small:
				t.Fatalf("%v %s %v: %v", r, o.name, s, err)
			case err != nil && got != quantity.Ratio{}:
				t.Fatalf("%v %s %v: %v beside an error", r, o.name, s, got)
			}
		}
		if got, want := r.Cmp(s), rat(r).Cmp(rat(s)); got != want {
			t.Fatalf("%v against %v: got %d, want %d", r, s, got, want)
		}
		if (r == s) != (r.Cmp(s) == 0) || r.Equal(s) != (r == s) {
			t.Fatalf("== and Cmp differ on %v and %v", r, s)
		}
	})
}

func abs(n int64) int64 { return max(n, -n) }

// r.Of(v) is r × v to the nearest unit, halves away from zero.
func TestRatioOf(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRatio().Draw(t, "r")
		v := quantity.Volume(rapid.Int64Range(-int64(quantity.MaxVolume), int64(quantity.MaxVolume)).Draw(t, "v"))
		exact := new(big.Rat).Mul(rat(r), big.NewRat(int64(v), 1))
		got, err := r.Of(v)
		if err != nil {
			beyond := new(big.Rat).SetInt64(int64(quantity.MaxVolume))
			if exact.Abs(exact).Cmp(beyond) <= 0 {
				t.Fatalf("%v of %d: %v", r, v, err)
			}
			return
		}
		off := new(big.Rat).Sub(exact, big.NewRat(int64(got), 1))
		if off.Abs(off).Cmp(big.NewRat(1, 2)) > 0 {
			t.Fatalf("%v of %d: got %d, %v off", r, v, got, off)
		}
		if exact.Sign()*int(got) < 0 {
			t.Fatalf("%v of %d: got %d", r, v, got)
		}
	})
	for _, c := range []struct {
		r       quantity.Ratio
		v, want quantity.Volume
	}{{ratio(1, 2), 3, 2}, {ratio(-1, 2), 3, -2}, {ratio(1, 2), -3, -2}, {ratio(1, 3), 4, 1}, {quantity.Ratio{}, 5, 0}} {
		if got, err := c.r.Of(c.v); got != c.want || err != nil {
			t.Errorf("%v of %d: got %d, %v, want %d", c.r, c.v, got, err, c.want)
		}
	}
}

func TestNewRatio(t *testing.T) {
	for _, c := range []struct {
		num, den         int64
		wantNum, wantDen int64
		ok               bool
	}{
		{6, 8, 3, 4, true},
		{-6, 8, -3, 4, true},
		{6, -8, -3, 4, true},
		{0, 5, 0, 1, true},
		{0, -5, 0, 1, true},
		{1, 0, 0, 1, false},
		{math.MinInt64, 1, 0, 1, false},
		{1, math.MinInt64, 0, 1, false},
		{math.MaxInt64, math.MaxInt64, 1, 1, true},
	} {
		got, err := quantity.NewRatio(c.num, c.den)
		if got.Num() != c.wantNum || got.Den() != c.wantDen || (err == nil) != c.ok {
			t.Errorf("%d/%d: got %d/%d, %v", c.num, c.den, got.Num(), got.Den(), err)
		}
	}
	if got := quantity.Int(math.MinInt64); got.Num() != -math.MaxInt64 {
		t.Errorf("the smallest int64: got %v", got)
	}
	if quantity.Int(0) != (quantity.Ratio{}) {
		t.Error("0 has two forms")
	}
}

func TestRatioString(t *testing.T) {
	for r, want := range map[quantity.Ratio]string{
		{}:                        "0",
		ratio(9, 1):               "9",
		ratio(1, 2):               "0.5",
		ratio(123, 2):             "61.5",
		ratio(1, 1000000):         "0.000001",
		ratio(1, 8):               "0.125",
		ratio(1, 128):             "1/128",
		ratio(97, 3):              "32 1/3",
		ratio(1, 3):               "1/3",
		ratio(-1, 3):              "-1/3",
		ratio(-5, 4):              "-1.25",
		ratio(math.MaxInt64, 2):   "4611686018427387903 1/2",
		ratio(1, math.MaxInt64):   "1/9223372036854775807",
		ratio(10, 1):              "10",
		ratio(1001, 10):           "100.1",
		ratio(math.MaxInt64, 1):   "9223372036854775807",
		ratio(1000000001, 100000): "10000.00001",
	} {
		if got := r.String(); got != want {
			t.Errorf("%d/%d: got %q, want %q", r.Num(), r.Den(), got, want)
		}
	}
}

func TestCmpTimesAgreesWithBig(t *testing.T) {
	volume := rapid.Int64Range(-int64(quantity.MaxVolume)*10, int64(quantity.MaxVolume)*10)
	rapid.Check(t, func(t *rapid.T) {
		v, w := quantity.Volume(volume.Draw(t, "v")), quantity.Volume(volume.Draw(t, "w"))
		r := anyRatio().Draw(t, "r")
		if rapid.Bool().Draw(t, "equal") && v != 0 && w != 0 {
			var err error
			if r, err = v.Over(w); err != nil {
				t.Fatal(err)
			}
		}
		want := big.NewRat(int64(v), 1).Cmp(new(big.Rat).Mul(rat(r), big.NewRat(int64(w), 1)))
		if got := v.CmpTimes(r, w); got != want {
			t.Fatalf("%d against %v × %d: got %d, want %d", v, r, w, got, want)
		}
	})
}

func TestVolumeArithmetic(t *testing.T) {
	const most = quantity.MaxVolume
	if got, err := (most - 1).Add(1); got != most || err != nil {
		t.Errorf("up to the largest: %v, %v", got, err)
	}
	for _, c := range [][2]quantity.Volume{{most, 1}, {-most, -1}, {math.MaxInt64, 1}, {math.MinInt64, -1}, {math.MaxInt64, math.MinInt64}} {
		if got, err := c[0].Add(c[1]); got != 0 || !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%d + %d: got %d, %v", c[0], c[1], got, err)
		}
	}
	if _, err := quantity.Litre.Over(0); !errors.Is(err, quantity.ErrRange) {
		t.Errorf("over nothing: %v", err)
	}
	for _, ml := range []float64{-1e-9, math.NaN(), math.Inf(1), 100_001_000} {
		if got, err := quantity.VolumeOfML(ml); got != 0 || !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%v mL: got %v, %v", ml, got, err)
		}
	}
	if got, err := quantity.VolumeOfML(29.5735295625); got != quantity.USOunce || err != nil {
		t.Errorf("an ounce in mL: got %v, %v", got, err)
	}
	for _, n := range []quantity.Ratio{ratio(-1, 2), ratio(1, math.MaxInt64), ratio(math.MaxInt64, 1)} {
		if got, err := quantity.VolumeOf(n, quantity.UnitML); got != 0 || !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%v mL: got %v, %v", n, got, err)
		}
	}
}

// A volume is so many of any unit exactly, and so many of that unit are the volume.
func TestInUnitIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := quantity.Volume(rapid.Int64Range(1, int64(quantity.MaxVolume)).Draw(t, "v"))
		u := rapid.SampledFrom(quantity.VolumeUnits()).Draw(t, "unit")
		if got, err := quantity.VolumeOf(v.InUnit(u), u); got != v || err != nil {
			t.Fatalf("%d as %v %v: got %d, %v", v, v.InUnit(u), u, got, err)
		}
	})
}
