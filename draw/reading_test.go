package draw_test

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wetside/draw"
	"wetside/draw/scene"
	"wetside/trade/measure"
	"wetside/trade/quantity"

	"pgregory.net/rapid"
)

func ratio(n, d int64) quantity.Ratio {
	r, err := quantity.NewRatio(n, d)
	if err != nil {
		panic(err)
	}
	return r
}

func whole(n int64) quantity.Ratio { return quantity.Int(n) }

func ml(n int64) quantity.Volume { return quantity.Volume(n) * quantity.Millilitre }

func litreJug() measure.Vessel {
	return measure.Vessel{Name: "litre jug", Kind: measure.Jug, Scales: []measure.Scale{
		{Unit: quantity.UnitML, From: whole(100), To: whole(1000), Step: whole(50), Numbered: whole(100)},
		{Unit: quantity.UnitUSOunce, From: whole(1), To: whole(32), Step: whole(1), Numbered: whole(4)},
	}}
}

func one(kind measure.Kind, from, to, step, numbered quantity.Ratio) measure.Vessel {
	return measure.Vessel{Name: "vessel", Kind: kind, Scales: []measure.Scale{
		{Unit: quantity.UnitML, From: from, To: to, Step: step, Numbered: numbered},
	}}
}

func cylinder() measure.Vessel {
	return one(measure.Cylinder, whole(2), whole(100), whole(1), whole(10))
}

func reading(v measure.Vessel, scale int, mark quantity.Ratio, pour draw.Content, before ...draw.Layer) draw.Reading {
	return draw.Reading{Vessel: v, Scale: scale, Mark: mark, Pour: pour, Before: before, Say: draw.ReadingWords{
		Label: "a vessel, filled to " + fmt.Sprint(mark.Float()), Units: []string{"mL", "fl oz"}, Stop: "stop here",
	}}
}

func TestReadingGolden(t *testing.T) {
	beaker := one(measure.Beaker, whole(50), whole(500), whole(50), whole(100))
	half := reading(beaker, 0, whole(125), draw.Concentrate)
	half.Half = true
	about := reading(litreJug(), 0, whole(0), draw.Water)
	about.About, about.Say.Stop = ml(750), "about 3/4"
	grams := reading(one(measure.Balance, whole(0), whole(500), ratio(1, 10), whole(0)), 0, ratio(1234, 10), draw.Concentrate)
	grams.Say.Units = []string{"g"}
	for name, r := range map[string]draw.Reading{
		"jug-200":      reading(litreJug(), 0, whole(200), draw.Concentrate),
		"jug-1000":     reading(litreJug(), 0, whole(1000), draw.Water, draw.Layer{What: draw.Concentrate, To: ml(200)}),
		"jug-1oz":      reading(litreJug(), 1, whole(1), draw.Concentrate),
		"jug-31oz":     reading(litreJug(), 1, whole(31), draw.Water),
		"jug-32oz":     reading(litreJug(), 1, whole(32), draw.Water, draw.Layer{What: draw.Concentrate, To: quantity.USOunce}),
		"jug-about":    about,
		"cylinder-10":  reading(cylinder(), 0, whole(10), draw.Concentrate),
		"cylinder-31":  reading(cylinder(), 0, whole(31), draw.Concentrate),
		"syringe-2.4":  reading(one(measure.Syringe, ratio(1, 5), whole(10), ratio(1, 5), whole(1)), 0, ratio(12, 5), draw.Concentrate),
		"syringe-4":    reading(one(measure.Syringe, whole(1), whole(5), whole(1), whole(1)), 0, whole(4), draw.Concentrate),
		"pipette-2.7":  reading(one(measure.Pipette, ratio(1, 10), whole(5), ratio(1, 10), ratio(1, 2)), 0, ratio(27, 10), draw.Concentrate),
		"beaker-half":  half,
		"beaker-three": reading(beaker, 0, whole(500), draw.Water, draw.Layer{What: draw.Concentrate, To: ml(50)}, draw.Layer{What: draw.MadeUp, To: ml(200)}),
		"balance":      grams,
	} {
		t.Run(name, func(t *testing.T) { checkPicture(t, "reading-"+name, r) })
	}
}

func TestReadingRefuses(t *testing.T) {
	unmarked := reading(litreJug(), 0, whole(220), draw.Water)
	notHalf := reading(litreJug(), 0, whole(200), draw.Water)
	notHalf.Half = true
	sinking := reading(litreJug(), 0, whole(500), draw.Water, draw.Layer{To: ml(300)}, draw.Layer{To: ml(200)})
	over := reading(litreJug(), 0, whole(0), draw.Water)
	over.About = ml(5000)
	for name, r := range map[string]draw.Reading{
		"a mark that is not there": unmarked,
		"a half mark on a mark":    notHalf,
		"layers that sink":         sinking,
		"more than it holds":       over,
		"a scale too many":         reading(litreJug(), 2, whole(200), draw.Water),
		"no scale":                 reading(measure.Vessel{}, 0, whole(200), draw.Water),
		"no step":                  reading(one(measure.Jug, whole(1), whole(9), whole(0), whole(1)), 0, whole(2), draw.Water),
		"a scale without end":      reading(one(measure.Jug, whole(1), whole(1e9), whole(1), whole(1)), 0, whole(2), draw.Water),
		"nothing to weigh":         reading(one(measure.Balance, whole(0), whole(9), whole(1), whole(0)), 0, whole(0), draw.Water),
	} {
		if _, err := r.Scene(scene.Light); !errors.Is(err, draw.ErrModel) {
			t.Errorf("%s: Scene gives error %v, want ErrModel", name, err)
		}
		if text, err := r.Text(draw.TextOptions{}); !errors.Is(err, draw.ErrModel) || text != "" {
			t.Errorf("%s: Text gives %q and error %v, want ErrModel", name, text, err)
		}
	}
}

// stops returns the heavy lines, the main one first.
func stops(s scene.Scene) []scene.Line {
	var found []scene.Line
	for _, it := range s.Items {
		if l, ok := it.(scene.Line); ok && l.Stroke == scene.Accent {
			found = append(found, l)
		}
	}
	slices.SortFunc(found, func(a, b scene.Line) int { return int(10 * (b.Width - a.Width)) })
	return found
}

// surfaces returns the filled liquids.
func surfaces(s scene.Scene) []scene.Path {
	var found []scene.Path
	for _, it := range s.Items {
		if p, ok := it.(scene.Path); ok && p.Fill == scene.Liquid {
			found = append(found, p)
		}
	}
	return found
}

func texts(s scene.Scene) []scene.Text {
	var found []scene.Text
	for _, it := range s.Items {
		if text, ok := it.(scene.Text); ok {
			found = append(found, text)
		}
	}
	return found
}

// anyReading draws a vessel as people own them, and a mark of it.
func anyReading(t *rapid.T) draw.Reading {
	steps := []quantity.Ratio{ratio(1, 10), ratio(1, 5), ratio(1, 4), ratio(1, 2), whole(1), whole(2), whole(5), whole(10), whole(25), whole(50), whole(100)}
	kinds := []measure.Kind{measure.Jug, measure.Beaker, measure.Cylinder, measure.Syringe, measure.Pipette}
	v := measure.Vessel{Name: "vessel", Kind: rapid.SampledFrom(kinds).Draw(t, "kind")}
	if rapid.Bool().Draw(t, "wide") {
		v.InnerWidth = quantity.Length(rapid.Float64Range(5, 200).Draw(t, "width"))
	}
	for i := range rapid.IntRange(1, 2).Draw(t, "scales") {
		step := rapid.SampledFrom(steps).Draw(t, "step")
		times := func(n int64) quantity.Ratio {
			r, err := step.Mul(whole(n))
			if err != nil {
				t.Fatal(err)
			}
			return r
		}
		first := rapid.Int64Range(1, 4).Draw(t, "first")
		v.Scales = append(v.Scales, measure.Scale{
			Unit: []quantity.VolumeUnit{quantity.UnitML, quantity.UnitUSOunce}[i],
			From: times(first), Step: step, To: times(first + rapid.Int64Range(1, 120).Draw(t, "marks")),
			Numbered: times(rapid.SampledFrom([]int64{1, 2, 4, 5, 10}).Draw(t, "numbered")),
		})
	}
	at := rapid.IntRange(0, len(v.Scales)-1).Draw(t, "scale")
	all := marksOf(t, v.Scales[at])
	r := reading(v, at, rapid.SampledFrom(all).Draw(t, "mark"), draw.Water)
	if r.Half = r.Mark.Cmp(all[len(all)-1]) < 0 && rapid.Bool().Draw(t, "half"); r.Half {
		r.Mark = halfWay(t, r.Mark, v.Scales[at].Step)
	}
	level := r.Mark.Float() * v.Scales[at].Unit.Volume().ML()
	if rapid.Bool().Draw(t, "second") {
		r.Before = []draw.Layer{{What: draw.Concentrate, To: quantity.Volume(level * rapid.Float64Range(0.05, 0.95).Draw(t, "before") * float64(quantity.Millilitre))}}
	}
	return r
}

// halfWay returns what lies half a step above a mark.
func halfWay(t *rapid.T, mark, step quantity.Ratio) quantity.Ratio {
	t.Helper()
	half, err := step.Quo(whole(2))
	if err != nil {
		t.Fatal(err)
	}
	sum, err := mark.Add(half)
	if err != nil {
		t.Fatal(err)
	}
	return sum
}

func marksOf(t *rapid.T, s measure.Scale) []quantity.Ratio {
	var all []quantity.Ratio
	for n := s.From; n.Cmp(s.To) <= 0; {
		all = append(all, n)
		next, err := n.Add(s.Step)
		if err != nil {
			t.Fatal(err)
		}
		n = next
	}
	return all
}

func TestReadingProperties(t *testing.T) {
	enlarged, plain := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		r := anyReading(t)
		s, err := r.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		checkScene(t, s)
		checkStops(t, s)
		checkNumbers(t, r, s)
		if len(stops(s)) == 2 {
			enlarged++
		} else {
			plain++
		}
		if again, err := r.Scene(scene.Light); err != nil || again.SVG() != s.SVG() {
			t.Errorf("two drawings of one reading differ (%v)", err)
		}
		text, err := r.Text(draw.TextOptions{})
		if err != nil {
			t.Fatal(err)
		}
		checkStopRow(t, r, text)
	})
	if enlarged == 0 || plain == 0 {
		t.Errorf("drew %d enlarged and %d plain readings, want both", enlarged, plain)
	}
}

// checkStops: each heavy line lies on the surface of a liquid, no other.
func checkStops(t *rapid.T, s scene.Scene) {
	t.Helper()
	lines := stops(s)
	if len(lines) == 0 {
		t.Fatalf("no mark to stop at")
	}
	for _, l := range lines {
		top := math.Inf(1)
		for _, p := range surfaces(s) {
			if b := p.Box(); b.Min.X < l.B.X && l.A.X < b.Max.X {
				top = min(top, b.Min.Y)
			}
		}
		if math.Abs(top-l.A.Y) > 1e-6 || l.A.Y != l.B.Y {
			t.Errorf("the mark to stop at is at %v, the level at %v", l.A.Y, top)
		}
	}
}

// checkNumbers: every number that is written stands on a scale, and those next to the stop are written.
func checkNumbers(t *rapid.T, r draw.Reading, s scene.Scene) {
	t.Helper()
	numbered := map[string]bool{}
	for _, sc := range r.Vessel.Scales {
		for _, n := range marksOf(t, sc) {
			if q, err := n.Quo(sc.Numbered); err == nil && q.Den() == 1 {
				numbered[strconv.FormatFloat(n.Float(), 'f', -1, 64)] = true
			}
		}
	}
	written := map[string]bool{}
	stop := strconv.FormatFloat(r.Mark.Float(), 'f', -1, 64)
	for _, text := range texts(s) {
		written[text.Text] = true
		if _, err := strconv.ParseFloat(text.Text, 64); err == nil && !numbered[text.Text] && text.Text != stop {
			t.Errorf("%q is written and no scale has that number", text.Text)
		}
	}
	if !written[stop] {
		t.Errorf("the mark to stop at, %s, is not written", stop)
	}
	for _, next := range neighbours(t, r) {
		if !written[next] {
			t.Errorf("%s, the numbered mark next to the stop %s, is not written", next, stop)
		}
	}
}

// neighbours returns the numbered marks next below and next above the stop.
func neighbours(t *rapid.T, r draw.Reading) []string {
	below, above := "", ""
	for _, n := range marksOf(t, r.Vessel.Scales[r.Scale]) {
		q, err := n.Quo(r.Vessel.Scales[r.Scale].Numbered)
		if err != nil || q.Den() != 1 {
			continue
		}
		name := strconv.FormatFloat(n.Float(), 'f', -1, 64)
		switch {
		case n.Cmp(r.Mark) < 0:
			below = name
		case n.Cmp(r.Mark) > 0 && above == "":
			above = name
		}
	}
	return slices.DeleteFunc([]string{below, above}, func(s string) bool { return s == "" })
}

// checkStopRow: the terminal has one heavy line, it bears the stop's number, and liquid is under it alone.
func checkStopRow(t *rapid.T, r draw.Reading, text string) {
	t.Helper()
	heavy := -1
	rows := strings.Split(text, "\n")
	for i, row := range rows {
		if !strings.Contains(row, "━") {
			continue
		}
		if heavy >= 0 {
			t.Errorf("two heavy lines:\n%s", text)
		}
		heavy = i
		if want := strconv.FormatFloat(r.Mark.Float(), 'f', -1, 64) + " "; !strings.HasPrefix(strings.TrimSpace(row), want) {
			t.Errorf("the heavy line is %q, want it to begin with %q", row, want)
		}
	}
	for i, row := range rows {
		if wet := strings.ContainsAny(row, "░╱"); wet && i < heavy {
			t.Errorf("liquid above the mark to stop at:\n%s", text)
		}
	}
	if heavy < 0 {
		t.Errorf("no heavy line:\n%s", text)
	}
}

// Levels rise with volume, in every kind.
func TestLevelsRise(t *testing.T) {
	for _, kind := range []measure.Kind{measure.Jug, measure.Beaker, measure.Cylinder, measure.Syringe} {
		last := math.Inf(1)
		for mark := int64(1); mark <= 8; mark++ {
			s, err := reading(one(kind, whole(1), whole(8), whole(1), whole(1)), 0, whole(mark), draw.Water).Scene(scene.Light)
			if err != nil {
				t.Fatal(err)
			}
			l := stops(s)
			if len(l) != 1 {
				t.Fatalf("kind %d: %d heavy lines, want a plain picture", kind, len(l))
			}
			y := l[0].A.Y - s.Height // a syringe's picture grows with its plunger
			if y >= last {
				t.Errorf("kind %d: mark %d stands at %v, not above %v", kind, mark, y, last)
			}
			last = y
		}
	}
}

// Oracle: the volume of a frustum, h/3·(a² + a·b + b²) times π (Euclid XII). Two layers of a jug must have it in the
// relation of their volumes.
func TestJugLevelsFollowTheFrustum(t *testing.T) {
	for _, part := range []int64{100, 250, 500, 900} {
		r := reading(litreJug(), 0, whole(1000), draw.Water, draw.Layer{What: draw.Concentrate, To: ml(part)})
		s, err := r.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		var volumes []float64
		for _, p := range surfaces(s) {
			a, b := p.Segs[3].To.X-p.Segs[0].To.X, p.Segs[2].To.X-p.Segs[1].To.X
			h := p.Segs[0].To.Y - p.Segs[1].To.Y
			volumes = append(volumes, h*(a*a+a*b+b*b))
		}
		if len(volumes) != 2 {
			t.Fatalf("%d layers, want 2", len(volumes))
		}
		got, want := volumes[0]/(volumes[0]+volumes[1]), float64(part)/1000
		if math.Abs(got-want) > 1e-6 {
			t.Errorf("the layer of %d mL takes %.6f of the jug drawn, want %.6f", part, got, want)
		}
	}
}

// Oracle: a cylinder of 29 mm bore holds 100 mL in a height of V/(π/4·d²), 151.4 mm: 5.22 times its width.
func TestInnerWidthGivesTheProportions(t *testing.T) {
	v := one(measure.Cylinder, whole(10), whole(100), whole(10), whole(10))
	v.InnerWidth = 29
	s, err := reading(v, 0, whole(100), draw.Water).Scene(scene.Light)
	if err != nil {
		t.Fatal(err)
	}
	b := surfaces(s)[0].Box()
	got, want := (b.Max.Y-b.Min.Y)/(b.Max.X-b.Min.X), 100_000/(math.Pi/4*29*29)/29
	if math.Abs(got-want) > 0.01 {
		t.Errorf("drawn %.3f times as high as wide, want %.3f", got, want)
	}
}

// A scale is drawn whole, or with its numbered marks alone: a tick left out between two others would be miscounted.
func TestMarksAreThinnedHonestly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyReading(t)
		r.Vessel.Scales, r.Scale = r.Vessel.Scales[r.Scale:r.Scale+1], 0
		s, err := r.Scene(scene.Light)
		if err != nil {
			t.Fatal(err)
		}
		if len(stops(s)) != 1 {
			t.Skip("enlarged")
		}
		sc := r.Vessel.Scales[0]
		all, numbered := len(marksOf(t, sc)), 0
		for _, n := range marksOf(t, sc) {
			if q, err := n.Quo(sc.Numbered); err == nil && q.Den() == 1 {
				numbered++
			}
		}
		got := 0
		for _, it := range s.Items {
			if l, ok := it.(scene.Line); ok && l.Stroke == scene.Mark && l.A.Y == l.B.Y && (l.Width == 1.8 || l.Width == 1.1) {
				got++
			}
		}
		got -= len(r.Before) // the line between two layers
		if got != all && got != numbered {
			t.Errorf("%d marks drawn of %d, %d of them numbered", got, all, numbered)
		}
	})
}
