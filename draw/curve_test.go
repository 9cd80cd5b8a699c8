package draw_test

import (
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetside/draw"
	"wetside/draw/scene"
)

// silver is a two-litre fixer: each sheet brings grams and changes 8 mL for what the sheet before had.
func silver(grams float64) func(int) float64 {
	return func(n int) float64 {
		c := 0.0
		for range n {
			c = (2*c + grams) / 2.008
		}
		return c
	}
}

func fixerCurve(now, to int) draw.Curve {
	c := draw.Curve{Say: draw.CurveWords{
		Picture: "silver in fixer 1", Amount: "silver, g/L", Sheets: "sheets of 8×10", Limit: "limit 2 g/L, less as it thins",
		Safe: "safe", Likely: "likely", Now: "now",
	}}
	low, mid, high := silver(.0395), silver(.054), silver(.0735)
	for n := 0; n <= now; n++ {
		c.Done = append(c.Done, draw.Sample{At: float64(n), Amount: mid(n)})
	}
	for n := now; n <= to; n += 3 {
		c.Future = append(c.Future, draw.Forecast{At: float64(n), P10: low(n), P50: mid(n), P90: high(n)})
	}
	for n := 0; n <= to; n += 10 {
		c.Limit = append(c.Limit, draw.Sample{At: float64(n), Amount: 2 * math.Pow(2/2.008, float64(n))})
	}
	c.Now = new(float64(now))
	c.Ends = &draw.Ends{Safe: 48, Likely: 64}
	return c
}

func stopCurve() draw.Curve {
	c := draw.Curve{Ends: &draw.Ends{Safe: 44, Likely: 46}, Now: new(43.0), Size: draw.Desk, Say: draw.CurveWords{
		Picture: "pH of the stop bath", Amount: "pH", Sheets: "sheets of 8×10", Limit: "limit pH 5.5", Safe: "safe", Likely: "likely", Now: "now",
	}}
	at := func(n float64) float64 { return 4.2 + 0.3*math.Sinh(n/25) }
	for n := 0.0; n <= 43; n++ {
		c.Done = append(c.Done, draw.Sample{At: n, Amount: at(n)})
	}
	for n := 43.0; n <= 70; n += 3 {
		c.Future = append(c.Future, draw.Forecast{At: n, P10: at(n * .95), P50: at(n), P90: at(n * 1.05)})
	}
	c.Limit = []draw.Sample{{At: 0, Amount: 5.5}}
	return c
}

func curves() map[string]draw.Curve {
	desk, wall := fixerCurve(31, 100), fixerCurve(31, 100)
	desk.Size, wall.Size = draw.Desk, draw.Wall
	sheet := desk
	sheet.Size = draw.Sheet
	past := fixerCurve(58, 100)
	fresh := fixerCurve(0, 100)
	fresh.Done, fresh.Now = nil, nil
	unknown := fixerCurve(18, 40)
	unknown.Ends, unknown.Limit, unknown.Say.Limit = nil, nil, ""
	near := fixerCurve(47, 100)
	near.Ends.Likely = 49
	return map[string]draw.Curve{
		"phone": fixerCurve(31, 100), "desk": desk, "wall": wall, "sheet": sheet, "past": past, "fresh": fresh, "unknown": unknown, "near": near, "stop": stopCurve(),
	}
}

func TestCurveGolden(t *testing.T) {
	for name, p := range curves() {
		t.Run(name, func(t *testing.T) { checkPicture(t, "curve-"+name, p) })
	}
}

func TestCurveRefuses(t *testing.T) {
	backwards := fixerCurve(31, 100)
	slices.Reverse(backwards.Done)
	crossed := fixerCurve(31, 100)
	crossed.Future[2].P10 = 9
	none := fixerCurve(31, 100)
	none.Limit[3].Amount = math.NaN()
	for name, p := range map[string]draw.Curve{"nothing": {}, "backwards": backwards, "crossed": crossed, "no figure": none} {
		if _, err := p.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: error %v, want ErrModel", name, err)
		}
		if _, err := p.Text(draw.TextOptions{}); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: text's error %v, want ErrModel", name, err)
		}
	}
}

// In the sketch's case the heavy mark ends on the limit where p90 crosses it, within the width of the line.
func TestCurveMarksEndOnTheLimit(t *testing.T) {
	s, err := fixerCurve(31, 100).Scene(scene.Light)
	if err != nil {
		t.Fatal(err)
	}
	var safe scene.Line
	var up, limit []scene.Point
	for _, it := range s.Items {
		switch it := it.(type) {
		case scene.Line:
			if it.Stroke == scene.Accent {
				safe = it
			}
		case scene.Path:
			var points []scene.Point
			for _, seg := range it.Segs {
				points = append(points, seg.To)
			}
			switch {
			case it.Stroke == scene.Accent:
				limit = points
			case it.Stroke == scene.Hatch && up == nil:
				up = points
			}
		}
	}
	for name, line := range map[string][]scene.Point{"limit": limit, "p90": up} {
		if y := yAt(line, safe.A.X); math.Abs(y-safe.A.Y) > 4 {
			t.Errorf("the heavy mark ends at %.1f, the %s is at %.1f", safe.A.Y, name, y)
		}
	}
}

// yAt reads a drawn line at x.
func yAt(line []scene.Point, x float64) float64 {
	for i := 1; i < len(line); i++ {
		if a, b := line[i-1], line[i]; a.X <= x && x <= b.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return math.NaN()
}

func anyLine(t *rapid.T, name string, most float64) []draw.Sample {
	at := 0.0
	var all []draw.Sample
	for range rapid.IntRange(0, 12).Draw(t, name) {
		all = append(all, draw.Sample{At: at, Amount: rapid.Float64Range(0, most).Draw(t, "amount")})
		at += rapid.Float64Range(0, 300).Draw(t, "step")
	}
	return all
}

// No word runs into another or is struck by a mark, nothing leaves the picture, and lines never go back.
func TestCurveProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		most := rapid.SampledFrom([]float64{0.02, 3, 14, 900}).Draw(t, "most")
		c := draw.Curve{Done: anyLine(t, "done", most), Limit: anyLine(t, "limit", most), Say: fixerCurve(0, 0).Say}
		for _, s := range anyLine(t, "future", most) {
			c.Future = append(c.Future, draw.Forecast{At: s.At, P10: s.Amount * .8, P50: s.Amount, P90: s.Amount * 1.4})
		}
		if len(c.Done)+len(c.Future) == 0 {
			c.Done = []draw.Sample{{}}
		}
		c.Size = draw.Size(rapid.IntRange(0, 3).Draw(t, "size"))
		count := rapid.Float64Range(0, 2000)
		if rapid.Bool().Draw(t, "known") {
			safe := count.Draw(t, "safe")
			c.Ends = &draw.Ends{Safe: safe, Likely: safe + count.Draw(t, "further")}
		}
		if rapid.Bool().Draw(t, "has now") {
			c.Now = new(count.Draw(t, "now"))
		}
		if rapid.Bool().Draw(t, "cut") {
			c.To = rapid.Float64Range(1, 500).Draw(t, "to")
		}
		form := anyForm(t)
		s, err := c.Scene(form)
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, s)
		checkForward(t, s)
		checkTextRows(t, c)
	})
}

// checkForward: no open line of a plot runs back to the left.
func checkForward(t *rapid.T, s scene.Scene) {
	for _, it := range s.Items {
		p, ok := it.(scene.Path)
		if !ok || p.Fill != scene.None || p.Stroke == scene.Mark {
			continue
		}
		for i := 1; i < len(p.Segs); i++ {
			if p.Segs[i].Op == scene.LineTo && p.Segs[i].To.X < p.Segs[i-1].To.X-1e-9 {
				t.Errorf("line runs back from %v to %v", p.Segs[i-1].To, p.Segs[i].To)
			}
		}
	}
}
