package draw_test

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"wetside/draw"
	"wetside/draw/scene"
)

func learned() draw.Narrowing {
	return draw.Narrowing{
		Rows: []draw.NarrowingRow{
			{"carry-over", "mL per 8×10 FB", draw.Interval{P10: 5, P50: 8, P90: 13}, draw.Interval{P10: 6.1, P50: 7.2, P90: 8.6}},
			{"silver in the coating", "g/m²", draw.Interval{P10: 0.85, P50: 1.2, P90: 1.6}, draw.Interval{P10: 1.2, P50: 1.38, P90: 1.55}},
		},
		Say: draw.NarrowingWords{Picture: "what this room's tests taught", Before: "before", After: "after"},
	}
}

func TestNarrowingGolden(t *testing.T) {
	desk, wall, none := learned(), learned(), learned()
	desk.Size, wall.Size = draw.Desk, draw.Wall
	none.Rows = none.Rows[:1]
	none.Rows[0].After = none.Rows[0].Before
	for name, p := range map[string]draw.Narrowing{"phone": learned(), "desk": desk, "wall": wall, "none": none} {
		t.Run(name, func(t *testing.T) { checkPicture(t, "narrowing-"+name, p) })
	}
}

func TestNarrowingRefuses(t *testing.T) {
	crossed := learned()
	crossed.Rows[1].After.P10 = 7
	for name, p := range map[string]draw.Narrowing{"nothing": {}, "crossed": crossed} {
		if _, err := p.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: error %v, want ErrModel", name, err)
		}
		if _, err := p.Text(draw.TextOptions{}); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: text's error %v, want ErrModel", name, err)
		}
	}
}

func anyInterval(t *rapid.T, most float64) draw.Interval {
	a := rapid.Float64Range(0, most).Draw(t, "p10")
	b := a + rapid.Float64Range(0, most).Draw(t, "to p50")
	return draw.Interval{P10: a, P50: b, P90: b + rapid.Float64Range(0, most).Draw(t, "to p90")}
}

// Nothing runs into anything, and a narrower interval is a narrower bar over the same scale.
func TestNarrowingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := draw.Narrowing{Size: draw.Size(rapid.IntRange(0, 3).Draw(t, "size")), Say: learned().Say}
		for range rapid.IntRange(1, 3).Draw(t, "rows") {
			most := rapid.SampledFrom([]float64{0.03, 1, 40, 9000}).Draw(t, "most")
			n.Rows = append(n.Rows, draw.NarrowingRow{"carry-over", "mL per 8×10 FB", anyInterval(t, most), anyInterval(t, most)})
		}
		s, err := n.Scene(anyForm(t))
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, s)
		checkTextRows(t, n)
		var wide []float64
		for _, it := range s.Items {
			if r, ok := it.(scene.Rect); ok {
				wide = append(wide, r.W)
			}
		}
		for i, r := range n.Rows {
			before, after := r.Before.P90-r.Before.P10, r.After.P90-r.After.P10
			if before < after && wide[2*i] > wide[2*i+1] || before > after && wide[2*i] < wide[2*i+1] {
				t.Errorf("row %d: bars %v wide for intervals of %g and %g", i, wide[2*i:2*i+2], before, after)
			}
		}
	})
}
