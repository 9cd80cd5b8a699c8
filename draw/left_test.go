package draw_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetside/draw"
	"wetside/draw/scene"
)

// fading is a way of washing in which what is left falls by a half every so many minutes.
func fading(name string, from, half, until float64, changes ...float64) draw.LeftWay {
	w := draw.LeftWay{Name: name, Changes: changes}
	for m := 0.0; m <= until; m += until / 40 {
		w.Points = append(w.Points, draw.Sample{At: m, Amount: from * math.Pow(0.5, m/half)})
	}
	return w
}

func washing() draw.Left {
	l := draw.Left{Limit: 0.007, Say: draw.LeftWords{
		Picture: "thiosulfate left against time", Amount: "thiosulfate left, g/m²", Time: "minutes", Limit: "limit 0.007 g/m²",
	}}
	l.Ways = []draw.LeftWay{
		fading("running", 2.6, 5, 60), fading("cascade", 2.6, 3.5, 50), fading("six changes", 2.6, 4.4, 48, 8, 16, 24, 32, 40), fading("standing", 2.6, 14, 60, 20, 40),
	}
	for i, half := range []float64{5, 3.5, 4.4} {
		l.Ways[i].Reaches = new(half * math.Log2(2.6/0.007))
	}
	return l
}

func lefts() map[string]draw.Left {
	one, desk, wall := washing(), washing(), washing()
	one.Ways = one.Ways[2:3]
	desk.Size, wall.Size = draw.Desk, draw.Wall
	aid := washing()
	aid.Say.Limit = ""
	aid.Ways = []draw.LeftWay{fading("running water with a washing aid, 20 °C", 2.6, 1, 30), fading("the same without", 2.6, 1.1, 30)}
	aid.Ways[0].Reaches, aid.Ways[1].Reaches = new(8.54), new(9.39)
	drop, figure := washing(), washing()
	drop.Found = &draw.LeftFound{At: 30, Low: 0.03, High: 0.1, Name: "your test"}
	figure.Size, figure.Found = draw.Desk, &draw.LeftFound{At: 30, Low: 0.05, High: 0.05, Name: "your test"}
	none := one
	none.Found = &draw.LeftFound{At: 70, High: 0.01, Name: "your test"}
	return map[string]draw.Left{"drop": drop, "figure": figure, "none": none, "phone": washing(), "desk": desk, "wall": wall, "one": one, "aid": aid}
}

func TestLeftGolden(t *testing.T) {
	for name, p := range lefts() {
		t.Run(name, func(t *testing.T) { checkPicture(t, "left-"+name, p) })
	}
}

func TestLeftRefuses(t *testing.T) {
	many, free, short, odd := washing(), washing(), washing(), washing()
	many.Ways = append(many.Ways, many.Ways[0])
	free.Limit = 0
	short.Ways[1].Points = short.Ways[1].Points[:1]
	odd.Ways[1].Points[3].Amount = math.Inf(1)
	late, upside := washing(), washing()
	late.Found, upside.Found = &draw.LeftFound{At: math.NaN(), High: 1}, &draw.LeftFound{At: 3, Low: 0.1, High: 0.03}
	for name, p := range map[string]draw.Left{"nothing": {Limit: 1}, "five": many, "no limit": free, "one point": short, "late": late, "upside": upside, "no figure": odd} {
		if _, err := p.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: error %v, want ErrModel", name, err)
		}
		if _, err := p.Text(draw.TextOptions{}); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: text's error %v, want ErrModel", name, err)
		}
	}
}

// What falls by a half in equal times is a straight line on this scale.
func TestLeftIsStraightForAnExponential(t *testing.T) {
	l := washing()
	l.Ways = l.Ways[:1]
	s, err := l.Scene(scene.Light)
	if err != nil {
		t.Fatal(err)
	}
	for _, it := range s.Items {
		p, ok := it.(scene.Path)
		if !ok || p.Stroke != scene.Ink || len(p.Segs) < 10 {
			continue
		}
		a, b := p.Segs[0].To, p.Segs[len(p.Segs)-1].To
		for _, seg := range p.Segs {
			if want := a.Y + (b.Y-a.Y)*(seg.To.X-a.X)/(b.X-a.X); math.Abs(seg.To.Y-want) > 1e-6 {
				t.Errorf("at %.1f the line is at %.3f, want %.3f", seg.To.X, seg.To.Y, want)
			}
		}
		return
	}
	t.Error("no line")
}

func TestLeftProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := draw.Left{Limit: rapid.SampledFrom([]float64{0.005, 0.2, 30}).Draw(t, "limit"), Say: washing().Say}
		for range rapid.IntRange(1, draw.MaxWays).Draw(t, "ways") {
			w := fading(
				rapid.SampledFrom([]string{"running", "six changes of water", "a cascade of three trays, the last one fresh"}).Draw(t, "name"),
				l.Limit*rapid.Float64Range(0.1, 2000).Draw(t, "from"), rapid.Float64Range(.1, 50).Draw(t, "half"), rapid.Float64Range(1, 300).Draw(t, "until"))
			if rapid.Bool().Draw(t, "reaches") {
				w.Reaches = new(rapid.Float64Range(0, 300).Draw(t, "at"))
			}
			w.Changes = rapid.SliceOfN(rapid.Float64Range(0, 300), 0, 12).Draw(t, "changes")
			l.Ways = append(l.Ways, w)
		}
		if rapid.Bool().Draw(t, "tested") {
			low := rapid.Float64Range(0, 1).Draw(t, "low")
			l.Found = &draw.LeftFound{At: rapid.Float64Range(0, 400).Draw(t, "tested at"), Low: low, High: low + rapid.SampledFrom([]float64{1e-3, 0.9}).Draw(t, "more"), Name: "your test"}
		}
		l.Size = draw.Size(rapid.IntRange(0, 3).Draw(t, "size"))
		s, err := l.Scene(anyForm(t))
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, s)
		checkForward(t, s)
		checkTextRows(t, l)
	})
}
