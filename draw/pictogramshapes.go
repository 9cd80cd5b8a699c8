package draw

import (
	"math"
	"strconv"
	"strings"

	"wetside/draw/scene"
)

// An area is one closed part of a symbol; later ones lie on earlier ones.
type area struct {
	segs []scene.Seg
	dark bool
}

// symbol returns the shapes of a pictogram's symbol in a square of 100 that stands on its point; nil for a code that is none's.
// The paths are written in SVG's own letters M, L, C and Z.
func symbol(code string) []area {
	switch code {
	case "GHS01":
		return bomb()
	case "GHS02":
		return append(flame(50, 45, 1), black("M34 72L66 72L66 75.5L34 75.5Z"))
	case "GHS03":
		return append(flame(50, 32.5, 0.62), black(ring(50, 60.5, 13.5)), white(ring(50, 60.5, 8.5)), black("M38.5 77.4L61.5 77.4L61.5 80.4L38.5 80.4Z"))
	case "GHS04":
		return cylinder()
	case "GHS05":
		return corrosion()
	case "GHS06":
		return skull()
	case "GHS07":
		return []area{black("M44 23C44 19.5 47 18 50 18C53 18 56 19.5 56 23C56 34 53.5 47 53 59L47 59C46.5 47 44 34 44 23Z"), black(ring(50, 69.5, 6))}
	case "GHS08":
		return bust()
	case "GHS09":
		return dead()
	}
	return nil
}

func black(path string) area { return area{segsOf(path), true} }
func white(path string) area { return area{segsOf(path), false} }

// segsOf reads a path. It panics on anything but M, L, C, Z and figures, since the paths stand in this file alone.
func segsOf(path string) []scene.Seg {
	var segs []scene.Seg
	for _, op := range "MLCZ" {
		path = strings.ReplaceAll(path, string(op), "|"+string(op)+" ")
	}
	for part := range strings.SplitSeq(strings.TrimPrefix(path, "|"), "|") {
		fields := strings.Fields(part)
		var at []scene.Point
		for i := 1; i+1 < len(fields); i += 2 {
			at = append(at, scene.Point{X: figureOf(fields[i]), Y: figureOf(fields[i+1])})
		}
		switch fields[0] {
		case "M":
			segs = append(segs, scene.Seg{Op: scene.MoveTo, To: at[0]})
		case "L":
			segs = append(segs, scene.Seg{Op: scene.LineTo, To: at[0]})
		case "C":
			segs = append(segs, scene.Seg{Op: scene.CurveTo, C1: at[0], C2: at[1], To: at[2]})
		case "Z":
			segs = append(segs, scene.Seg{Op: scene.Close})
		default:
			panic("draw: a path with " + fields[0])
		}
	}
	return segs
}

func figureOf(text string) float64 {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic("draw: " + err.Error())
	}
	return v
}

// placed turns shapes by so many degrees to the right about the origin, enlarges them, and moves the origin to x, y.
func placed(shapes []area, x, y, degrees, by float64) []area {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	move := func(p scene.Point) scene.Point {
		return scene.Point{X: x + by*(p.X*cos-p.Y*sin), Y: y + by*(p.X*sin+p.Y*cos)}
	}
	out := make([]area, len(shapes))
	for i, s := range shapes {
		out[i].dark = s.dark
		for _, g := range s.segs {
			out[i].segs = append(out[i].segs, scene.Seg{Op: g.Op, C1: move(g.C1), C2: move(g.C2), To: move(g.To)})
		}
	}
	return out
}

// ring writes a circle as four curves.
func ring(x, y, r float64) string {
	const k = 0.5523 // of the radius: how far a quarter circle's handles reach
	num := func(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) + " " }
	var b strings.Builder
	b.WriteString("M" + num(x+r) + num(y))
	for _, q := range [][6]float64{
		{1, k, k, 1, 0, 1},
		{-k, 1, -1, k, -1, 0},
		{-1, -k, -k, -1, 0, -1},
		{k, -1, 1, -k, 1, 0},
	} {
		b.WriteString("C")
		for i, v := range q {
			at := x
			if i%2 == 1 {
				at = y
			}
			b.WriteString(num(at + r*v))
		}
	}
	return b.String() + "Z"
}

// bar is an upright bar with round ends about the origin.
func bar(wide, tall float64) string {
	w, h := wide/2, tall/2-wide/2
	num := func(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) + " " }
	top, bottom := num(-h-w*1.33), num(h+w*1.33)
	return "M" + num(-w) + num(h) + "L" + num(-w) + num(-h) + "C" + num(-w) + top + num(w) + top + num(w) + num(-h) +
		"L" + num(w) + num(h) + "C" + num(w) + bottom + num(-w) + bottom + num(-w) + num(h) + "Z"
}

// flame is a flame about a middle, 48 units high, with a light tongue in it.
func flame(x, y, by float64) []area {
	return placed([]area{
		black("M0 23C-10 23 -16.5 16 -16 7.5C-15.5 0.5 -10.5 -2.5 -10 -9.5C-7 -6.5 -5.8 -3 -6.2 1C-2.5 -4 -0.5 -13 -4 -25" +
			"C5 -19.5 9.2 -11.5 8 -3C10 -4.8 11 -7 10.8 -10C15 -4.5 16.5 2 16 8C15.3 17 9.5 23 0 23Z"),
		white("M0 20.5C-5 20.5 -8 16.5 -7.3 12C-6.7 8 -3.2 6.5 -2.6 1C1.2 4.5 2.8 8.2 2.2 12.3C3.5 11.3 4.2 10 4.3 8.2" +
			"C6.8 11 7.7 13.5 7.2 16C6.6 19 4 20.5 0 20.5Z"),
	}, x, y, 0, by)
}
