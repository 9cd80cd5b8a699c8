package bath

import "math"

// A line is one limit as a sum over what a bath holds per litre: passed where it is above 0.
type line struct {
	per [len(followed)]float64
	off float64
	by  Ending
}

// lines returns the limits as lines, in the order in which they are told where two are passed at once.
func (l *Limits) lines() []line {
	var all []line
	if l.Developer > 0 {
		all = append(all, line{[...]float64{1, 0, 0}, -l.Developer, ByPH})
	}
	if l.Silver > 0 {
		all = append(all, line{[...]float64{0, -l.Silver, l.FilmStrength}, 0, BySilver})
	}
	if l.Thiosulfate > 0 {
		all = append(all, line{[...]float64{0, -1, 0}, l.Thiosulfate, ByThiosulfate})
	}
	return all
}

// A way is how a line runs with the sheets: h(k) = g − b·e^(−e·k) − (c + d·k)·e^(−f·k), with e and f the rates
// −log r of the bath before and of the bath itself.
type way struct {
	now, g, b, c, d, e, f float64
	alone                 bool    // b and d are 0
	at, atF, atE          float64 // where it passes 0, once that is found, and the two powers there
}

// alike is how near the volumes of two baths may be before the difference of their rates is too small to divide by.
const alike = 1e-3

// least is the least share of a bath that a sheet may carry: below, the sums are differences of large numbers.
const least = 1e-6

// way follows a line in bath p, in closed form where it has one: where every bath before p, or before the one before p,
// holds nothing of what the line asks for and brings none. With h the line, every sheet makes
//
//	h'_p = r_p·h_p + (1 − r_p)·(h'_(p−1) + s_p/v),   r = V/(V + v)
//
// so that h of the first such bath nears a constant, g + (h − g)·r^k, and h of the next one nears that. A line that nears
// one which only rises falls at most until they meet and rises from then on, so it goes above 0 once. ok is false where
// that is not known.
func (f *stream) way(w *way, l *line, p int, carry float64) (ok bool) {
	from := len(f.x[0])
	for i := range followed {
		if l.per[i] != 0 {
			from = min(from, f.from[i])
		}
	}
	*w = way{now: f.line(l, p), g: l.off, alone: p <= from}
	if p < from {
		return true
	}
	if p > from+1 || carry < least*f.volumes[p] {
		return false
	}
	w.f = f.rate(p, carry)
	w.g += f.brought(l, from) / carry
	if p == from {
		w.c = w.g - w.now
		return true
	}
	behind := w.g - f.line(l, from)
	w.g += f.brought(l, p) / carry
	w.c = w.g - w.now
	differ := f.volumes[from] - f.volumes[p]
	switch {
	case differ == 0:
		w.d = behind * carry / (f.volumes[p] + carry)
	case math.Abs(differ) < alike*f.volumes[p]:
		return false
	default:
		w.e = f.rate(from, carry)
		w.b = behind * f.volumes[from] / differ
		w.c -= w.b
	}
	return behind > 0
}

// rate returns −log r of bath p, worked out once for neighbours alike.
func (f *stream) rate(p int, carry float64) float64 {
	if f.rates[p] == 0 {
		if p > 0 && f.volumes[p] == f.volumes[p-1] {
			f.rates[p] = f.rate(p-1, carry)
		} else {
			f.rates[p] = log1p(carry / f.volumes[p])
		}
	}
	return f.rates[p]
}

// line returns the line of what bath p holds.
func (f *stream) line(l *line, p int) float64 {
	sum := 0.0
	for i := range followed {
		sum += l.per[i] * f.x[i][p]
	}
	return sum/f.volumes[p] + l.off
}

// brought returns the line, without its constant, of what a sheet brings into bath p.
func (f *stream) brought(l *line, p int) float64 {
	sum := 0.0
	for i := range followed {
		sum += l.per[i] * f.s[i][p]
	}
	return sum
}

// closed returns the most sheets after which all lines of bath p hold, which they must do now. ok is false where there is
// no closed form, or where it is so near a whole number that rounding would decide.
func (f *stream) closed(p int, lines []line, carry float64) (count int, by Ending, ok bool) {
	var w, last way
	soonest, ratio := math.Inf(1), math.Inf(1)
	for i := range lines {
		if !f.way(&w, &lines[i], p, carry) || w.now > 0 {
			return 0, NoEnding, false
		}
		if w.g <= 0 { // it never passes
			continue
		}
		var k float64
		if w.alone {
			x := -w.now / w.g
			if x >= ratio { // not before another
				continue
			}
			ratio = x
			k = log1p(x) / w.f
		} else {
			if w.after(&last) { // not before another
				continue
			}
			k = w.passes()
			last = w
		}
		n := math.Floor(k)
		if near := unsure * (1 + k); !(k >= Most) && !(k-n >= near && n+1-k >= near) { // nor where it was not found
			return 0, NoEnding, false
		}
		if n < math.Floor(soonest) {
			soonest, by = k, lines[i].by
		}
	}
	if soonest >= Most {
		return Most, NoEnding, true
	}
	return int(soonest), by, true
}

// unsure is how near a count may come to a whole number, as a share of it, before it is counted another way.
const unsure = 1e-7

// log1p is math.Log1p for x of 0 and more, quicker: by the series of the inverse hyperbolic tangent where x is small.
func log1p(x float64) float64 {
	if x > 0.1 {
		return math.Log(1 + x)
	}
	z := x / (2 + x)
	y := z * z
	return 2 * z * (1 + y*(1./3+y*(1./5+y*(1./7+y*(1./9+y*(1./11+y/13))))))
}

// after reports whether a line surely passes no earlier than one of the same rates that was solved.
func (w *way) after(solved *way) bool {
	if solved.at == 0 || w.e != solved.e {
		return false
	}
	h := w.g - (w.c+w.d*solved.at)*solved.atF - w.b*solved.atE
	return h < -1e-5*(math.Abs(w.g)+math.Abs(w.c)+math.Abs(w.b))
}

// slope returns the line after k sheets and its first two derivatives there, and keeps the powers.
func (w *way) slope(k float64) (h, d1, d2 float64) {
	u := math.Exp(-w.f * k)
	c := w.c + w.d*k
	h, d1, d2 = w.g-c*u, (w.f*c-w.d)*u, w.f*(2*w.d-w.f*c)*u
	w.atF = u
	if w.b != 0 {
		w.atE = math.Exp(-w.e * k)
		u = w.b * w.atE
		h, d1, d2 = h-u, d1+w.e*u, d2-w.e*w.e*u
	}
	return h, d1, d2
}

// start guesses where the line passes 0, by its first three derivatives now.
func (w *way) start() float64 {
	d1 := w.f*w.c - w.d + w.e*w.b
	d2 := w.f*(2*w.d-w.f*w.c) - w.e*w.e*w.b
	d3 := w.f*w.f*(w.f*w.c-3*w.d) + w.e*w.e*w.e*w.b
	k := -2 * w.now / (d1 + math.Sqrt(d1*d1-2*d2*w.now))
	if k -= d3 * k * k * k / (6*d1 + k*(6*d2+k*3*d3)); k > 0 && k < Most {
		return k
	}
	return log1p(-w.now/w.g) / w.f
}

// passes returns after how many sheets, and parts of one, the line goes above 0; infinity where that is beyond Most, NaN
// where it is not found. It steps as Halley does, three times as many right digits at each, until the next step would
// not count. From far off its steps are as short as 2/f; so every other one halves, after the first few.
func (w *way) passes() float64 {
	low, high := 0.0, math.Inf(1)
	k := w.start()
	for step := range 60 {
		h, d1, d2 := w.slope(k)
		if h <= 0 {
			low = k
		} else {
			high = k
		}
		next := k - 2*h*d1/(2*d1*d1-h*d2)
		switch {
		case (step < 6 || step%2 == 0 || math.IsInf(high, 1)) && d1 > 0 && next > low && next < high || h == 0:
			if math.Abs(next-k) <= 1e-3*next {
				w.at = next
				w.atF *= 1 - w.f*(next-k)
				w.atE *= 1 - w.e*(next-k)
				return next
			}
		case math.IsInf(high, 1):
			next = 2*k + 1
		default:
			next = (low + high) / 2
		}
		if k = next; low > Most {
			return math.Inf(1)
		}
	}
	return math.NaN()
}
