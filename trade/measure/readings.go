package measure

import (
	"math"
	"math/bits"
	"slices"
	"sync"

	"wetside/trade/quantity"
)

// A grid is a scale's readings on a common denominator: From is from/den, half a step half/den, Numbered
// numbered/den.
type grid struct{ den, from, half, numbered int64 }

// grid returns the scale's grid, or quantity.ErrRange where it does not fit.
func (s *Scale) grid() (grid, error) {
	den := int64(1)
	for _, d := range [...]int64{s.From.Den(), 2 * s.Step.Den(), s.Numbered.Den()} {
		hi, lo := bits.Mul64(uint64(den/gcd(den, d)), uint64(d))
		if hi != 0 || lo > 1<<40 {
			return grid{}, quantity.ErrRange
		}
		den = int64(lo)
	}
	g := grid{den: den, from: s.From.Num() * (den / s.From.Den())}
	g.half = s.Step.Num() * (den / s.Step.Den() / 2)
	g.numbered = s.Numbered.Num() * (den / s.Numbered.Den())
	for _, x := range [...]int64{g.from, g.half, g.numbered} {
		if x < 0 || x > 1<<50 {
			return grid{}, quantity.ErrRange
		}
	}
	return g, nil
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// A reading is one mark, or place between two, of one scale of one vessel.
type reading struct {
	vol     quantity.Volume
	ml      float64
	t, h    float64 // permissible and setting error, mL
	z, y    float64 // the first relative to the reading; the second, too, squared
	cost    cost    // of a distinct reading: one mark, foreign or not, numbered or not
	halves  int32   // it stands at From + halves × Step/2
	vessel  uint8
	scale   uint8
	between bool
}

// A bench is a problem's vessels made ready: all readings, by vessel and volume.
type bench struct {
	p     *Problem
	all   []reading
	span  []span // each vessel's readings in all
	f     [2]float64
	sum   float64 // of all chemicals' shares
	two   bool
	spare *spare
}

// A spare holds lists that one search after the other fills anew, so that no memory is asked for each time.
type spare struct {
	all, merged   []reading
	lot           []lotPlan
	alikes, mixes [MaxJugfuls + 1][]fillPlan
	singles       [MaxJugfuls + 1][]pourPlan
}

// spares are those of problems that were solved. What is in them says nothing to the next.
var spares = sync.Pool{New: func() any { return new(spare) }}

// mostSpare is how many readings may be kept: a usual bench's few hundred, and a balance's thousands.
const mostSpare = 1 << 14

// free gives back what the bench was laid out in. It is not used afterwards.
func (b *bench) free() {
	if s := b.spare; cap(b.all) <= mostSpare {
		s.all = b.all
		spares.Put(s)
	}
	b.spare, b.all = nil, nil
}

type span struct{ from, to int32 }

// newBench lays out the readings. Of a balance only those from least to most are taken.
func newBench(p *Problem, least, most quantity.Volume) (*bench, error) {
	b := &bench{p: p, two: len(p.Dilution.Chemicals) == 2, span: make([]span, len(p.Vessels))}
	for i := range p.Dilution.Chemicals {
		f, err := p.Dilution.Strength(i)
		if err != nil {
			return nil, &ProblemError{What: BadDilution, Index: i}
		}
		b.f[i] = f.Float()
		b.sum += b.f[i]
	}
	b.spare, _ = spares.Get().(*spare)
	if err := b.layOut(least, most); err != nil {
		b.free()
		return nil, err
	}
	return b, nil
}

// layOut lays out all readings, by vessel and volume.
func (b *bench) layOut(least, most quantity.Volume) error {
	p := b.p
	b.all = b.spare.all[:0]
	for v := range p.Vessels {
		from := len(b.all)
		for s := range p.Vessels[v].Scales {
			var err error
			next := len(b.all)
			if p.Vessels[v].Kind == Balance {
				err = b.addWeights(v, s, least, most)
			} else {
				err = b.addMarks(v, s)
			}
			if err != nil {
				return err
			}
			b.merge(from, next)
		}
		part := b.all[from:]
		for i := range part {
			r := &part[i]
			r.z, r.y = r.t/r.ml, r.h*r.h/(r.ml*r.ml)
		}
		b.span[v] = span{int32(from), int32(len(b.all))}
	}
	return nil
}

// merge brings the readings from one index on, of which those up to the next and those after it are in order of volume, in
// order.
func (b *bench) merge(from, next int) {
	if from == next {
		return
	}
	b.spare.merged = append(b.spare.merged[:0], b.all[next:]...)
	last := b.spare.merged
	i, j := next-1, len(last)-1
	for at := len(b.all) - 1; j >= 0; at-- {
		if i >= from && b.all[i].vol > last[j].vol {
			b.all[at] = b.all[i]
			i--
		} else {
			b.all[at] = last[j]
			j--
		}
	}
}

// addMarks adds a scale's readings.
func (b *bench) addMarks(v, scale int) error {
	vessel := &b.p.Vessels[v]
	s := &vessel.Scales[scale]
	g, err := s.grid()
	if err != nil {
		return &ProblemError{What: DoesNotDivide, Vessel: vessel.Name, Index: scale, Scale: s}
	}
	steps, _ := s.steps()
	limit, unit, by := vessel.Limit(scale), s.Unit.Volume(), int32(2)
	if vessel.HalfMarks {
		by = 1
	}
	on, between := vessel.SettingError(scale, false), vessel.SettingError(scale, true)
	foreign := s.Unit.System() != b.p.System
	for i := int32(0); i <= 2*int32(steps.Num()); i += by {
		n := g.from + int64(i)*g.half
		r := reading{vol: volumeOf(n, g.den, unit), halves: i, vessel: uint8(v), scale: uint8(scale), h: on}
		if i%2 == 1 {
			r.between, r.h = true, between
		}
		r.ml = r.vol.ML()
		r.t = limit.At(r.ml)
		r.cost = markCost(foreign, !r.between && g.numbered > 0 && n%g.numbered == 0)
		b.all = append(b.all, r)
	}
	return nil
}

// volumeOf returns n/den of a unit, to the nearest unit of Volume.
func volumeOf(n, den int64, unit quantity.Volume) quantity.Volume {
	if int64(unit)%den == 0 {
		return quantity.Volume(n * (int64(unit) / den))
	}
	hi, lo := bits.Mul64(uint64(n), uint64(unit))
	q, rem := bits.Div64(hi%uint64(den), lo, uint64(den))
	if rem >= uint64(den)-rem {
		q++
	}
	return quantity.Volume(q)
}

// addWeights adds a balance's readings whose volume is from least to most. Its errors in grams become mL by the
// density, which leaves them the same relative to the reading.
func (b *bench) addWeights(v, scale int, least, most quantity.Volume) error {
	vessel, rho := &b.p.Vessels[v], float64(b.p.Density)
	if rho == 0 || b.two {
		return nil
	}
	s := &vessel.Scales[scale]
	g, err := s.grid()
	if err != nil {
		return &ProblemError{What: DoesNotDivide, Vessel: vessel.Name, Index: scale, Scale: s}
	}
	steps, _ := s.steps()
	limit, h, step := vessel.Limit(scale), vessel.SettingError(scale, false), 2*float64(g.half)/float64(g.den)
	first := max(0, int64((least.ML()*rho-s.From.Float())/step)-1)
	if last := min(steps.Num(), int64((most.ML()*rho-s.From.Float())/step)+1); last >= first {
		b.all = slices.Grow(b.all, int(last-first)+1)
	}
	for i := first; i <= steps.Num(); i++ {
		n := g.from + 2*i*g.half
		grams := float64(n) / float64(g.den)
		vol := quantity.Volume(math.Round(grams / rho * float64(quantity.Millilitre)))
		if vol > most {
			break
		}
		if n == 0 || vol < least {
			continue
		}
		b.all = append(b.all, reading{
			vol: vol, ml: vol.ML(), t: limit.At(grams) / rho, h: h / rho, halves: int32(2 * i),
			vessel: uint8(v), scale: uint8(scale), cost: markCost(false, g.numbered > 0 && n%g.numbered == 0),
		})
	}
	return nil
}

// of returns a vessel's readings, by volume.
func (b *bench) of(v int) []reading { return b.all[b.span[v].from:b.span[v].to] }

// fills reports whether a vessel can be a fill vessel by its kind.
func (v *Vessel) fills() bool {
	switch v.Kind {
	case Jug, Beaker, Cylinder:
		return true
	case Syringe, Pipette, Balance:
		return false
	}
	return false
}
