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
func (f *stream) way(l *line, p int, carry float64) (w way, ok bool) {
	from := len(f.x[0])
	for i := range followed {
		if l.per[i] != 0 {
			from = min(from, f.from[i])
		}
	}
	w = way{now: f.line(l, p), g: l.off}
	if p < from {
		return w, true
	}
	if carry < least*f.volumes[p] {
		return w, false
	}
	w.f = f.rate(p, carry)
	if p == from {
		w.g += f.brought(l, p) / carry
		w.c = w.g - w.now
		return w, true
	}
	if p > from+1 {
		return w, false
	}
	w.g += f.brought(l, from) / carry
	behind := w.g - f.line(l, from)
	w.g += f.brought(l, p) / carry
	w.c = w.g - w.now
	differ := f.volumes[from] - f.volumes[p]
	switch {
	case differ == 0:
		w.d = behind * carry / (f.volumes[p] + carry)
	case math.Abs(differ) < alike*f.volumes[p]:
		return w, false
	default:
		w.e = f.rate(from, carry)
		w.b = behind * f.volumes[from] / differ
		w.c -= w.b
	}
	return w, behind > 0
}

// rate returns −log r of bath p, worked out once for neighbours alike.
func (f *stream) rate(p int, carry float64) float64 {
	if f.rates[p] == 0 {
		if p > 0 && f.volumes[p] == f.volumes[p-1] {
			f.rates[p] = f.rate(p-1, carry)
		} else {
			f.rates[p] = math.Log1p(carry / f.volumes[p])
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
	soonest, ratio := math.Inf(1), math.Inf(1)
	for i := range lines {
		w, ok := f.way(&lines[i], p, carry)
		if !ok || w.now > 0 {
			return 0, NoEnding, false
		}
		k := 0.0
		switch {
		case w.g <= 0: // it never passes
			continue
		case w.b == 0 && w.d == 0:
			x := -w.now / w.g
			if x >= ratio { // not before another
				continue
			}
			ratio = x
			k = math.Log1p(x) / w.f
		case soonest < Most && w.at(soonest) < 0: // not before another
			continue
		default:
			k = w.passes()
		}
		if !(math.Abs(k-math.Round(k)) >= 1e-8*(1+k)) {
			return 0, NoEnding, false
		}
		if math.Floor(k) < math.Floor(soonest) {
			soonest, by = k, lines[i].by
		}
	}
	if soonest >= Most {
		return Most, NoEnding, true
	}
	return int(soonest), by, true
}

// at returns the line after k sheets.
func (w *way) at(k float64) float64 {
	h := w.g - (w.c+w.d*k)*math.Exp(-w.f*k)
	if w.b != 0 {
		h -= w.b * math.Exp(-w.e*k)
	}
	return h
}

// slope returns the line after k sheets and its first two derivatives there.
func (w *way) slope(k float64) (h, d1, d2 float64) {
	u := math.Exp(-w.f * k)
	c := w.c + w.d*k
	h, d1, d2 = w.g-c*u, (w.f*c-w.d)*u, w.f*(2*w.d-w.f*c)*u
	if w.b != 0 {
		u = w.b * math.Exp(-w.e*k)
		h, d1, d2 = h-u, d1+w.e*u, d2-w.e*w.e*u
	}
	return h, d1, d2
}

// start guesses where the line passes 0, by its first two derivatives now.
func (w *way) start() float64 {
	d1 := w.f*w.c - w.d + w.e*w.b
	d2 := 2*w.f*w.d - w.f*w.f*w.c - w.e*w.e*w.b
	if k := -2 * w.now / (d1 + math.Sqrt(d1*d1-2*d2*w.now)); k > 0 && k < Most {
		return k
	}
	return math.Log1p(-w.now/w.g) / w.f
}

// passes returns after how many sheets, and parts of one, the line goes above 0; infinity where that is beyond Most, NaN
// where it is not found. It steps as Halley does, three times as many right digits at each, until the next step would
// not count.
func (w *way) passes() float64 {
	low, high := 0.0, math.Inf(1)
	k := w.start()
	for range 60 {
		h, d1, d2 := w.slope(k)
		if h <= 0 {
			low = k
		} else {
			high = k
		}
		next := k - 2*h*d1/(2*d1*d1-h*d2)
		switch {
		case d1 > 0 && next > low && next < high || h == 0:
			if math.Abs(next-k) <= 1e-4*next {
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
