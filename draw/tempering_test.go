package draw_test

import (
	"errors"
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/measure"
	"wetside/trade/quantity"
)

func tempering(v *measure.Vessel, pours ...draw.TemperingPour) draw.Tempering {
	return draw.Tempering{Vessel: v, Pours: pours, Want: 20, Say: draw.TemperingWords{
		Label: "hot and cold water", Unit: "mL", Stop: "stop here", Want: "20 °C",
	}}
}

func to(n int64, what, degree string) draw.TemperingPour {
	return draw.TemperingPour{To: ml(n), Number: strconv.FormatInt(n, 10), What: what, Degree: degree}
}

func twoLitreJug() *measure.Vessel {
	v := one(measure.Jug, whole(200), whole(2000), whole(100), whole(200))
	return &v
}

// The first is the ordinary case of 2 L at 20 °C from 8 and 45 °C: hot to 600, cold to 1800.
func TestTemperingGolden(t *testing.T) {
	for name, p := range map[string]draw.Tempering{
		"jug":  tempering(twoLitreJug(), to(600, "hot", "45 °C"), to(1800, "cold", "8 °C")),
		"any":  tempering(nil, to(600, "hot", "45 °C"), to(1800, "cold", "8 °C")),
		"near": tempering(twoLitreJug(), to(1700, "hot", "25 °C"), to(1800, "cold", "8 °C")),
		"ice":  tempering(twoLitreJug(), draw.TemperingPour{Number: "310 g", What: "ice"}, to(1700, "cold", "26 °C")),
		"one":  tempering(twoLitreJug(), to(1000, "cold", "20 °C")),
	} {
		t.Run(name, func(t *testing.T) { checkPicture(t, "tempering-"+name, p) })
	}
}

func TestTemperingRefuses(t *testing.T) {
	for name, p := range map[string]draw.Tempering{
		"nothing":            tempering(nil),
		"ice alone":          tempering(nil, draw.TemperingPour{Number: "100 g", What: "ice"}),
		"levels that sink":   tempering(nil, to(600, "hot", ""), to(500, "cold", "")),
		"more than it holds": tempering(twoLitreJug(), to(600, "hot", ""), to(5000, "cold", "")),
	} {
		if _, err := p.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: error %v, want ErrModel", name, err)
		}
	}
}

// The heavy line lies on the surface, the other on the border of hot and cold; nothing runs into anything.
func TestTemperingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var v *measure.Vessel
		if rapid.Bool().Draw(t, "jug") {
			v = twoLitreJug()
		}
		first := rapid.Int64Range(20, 1800).Draw(t, "first")
		last := rapid.Int64Range(first+1, 2000).Draw(t, "last")
		p := tempering(v, to(first, "hot tap", "45.5 °C"), to(last, "cold tap", "8 °C"))
		if rapid.Bool().Draw(t, "ice") {
			p.Pours = append([]draw.TemperingPour{{Number: "1250 g", What: "ice"}}, p.Pours...)
		}
		p.Want = quantity.Celsius(rapid.Float64Range(0, 60).Draw(t, "want"))
		s, err := p.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, s)
		var ends []float64
		for _, it := range s.Items {
			if line, ok := it.(scene.Path); ok && (line.Width == 5 || line.Width == 3) && line.Stroke != scene.None {
				ends = append(ends, line.Segs[len(line.Segs)-1].To.Y)
			}
		}
		layers := surfaces(s)
		if len(ends) != 2 || len(layers) != 2 {
			t.Fatalf("%d lines and %d layers, want 2 and 2", len(ends), len(layers))
		}
		for i, want := range []float64{layers[1].Box().Min.Y, layers[0].Box().Min.Y} {
			if math.Abs(ends[i]-want) > 1e-6 {
				t.Errorf("line %d is at %v, the level at %v", i, ends[i], want)
			}
		}
	})
}
