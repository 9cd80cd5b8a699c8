package measure

import (
	"math"

	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// reckon tells how the figures of a choice came about: total, chemical, strength, bias, uncertainty with every term,
// and what is allowed.
func (b *bench) reckon(f *found, uses []use, j judgement) []reckoning.Reckoning {
	chem, total := b.volumes(f)
	out := []reckoning.Reckoning{b.totalOf(f)}
	for i := range b.chemicals() {
		c := b.chemicalOf(f, i, chem[i])
		wanted := b.wantedShare(i)
		strength := share("strength", b.letter(i), chem[i]/total)
		strength.By = &reckoning.Reckoning{
			Rule: "strength", Puts: []reckoning.Figure{c.Result, out[0].Result}, Result: share("strength", b.letter(i), chem[i]/total),
		}
		bias := chem[i]/total/b.f[i] - 1
		if f.form != formViaJug && f.form != formViaPour {
			bias = b.exactBias(f, i)
		}
		out = append(out, c, *strength.By, reckoning.Reckoning{
			Rule: "bias", Puts: []reckoning.Figure{bare(strength), wanted}, Result: share("bias", b.letter(i), bias),
		}, b.uncertaintyOf(uses, i))
	}
	return append(out, reckoning.Reckoning{
		Rule: "allowed",
		Puts: []reckoning.Figure{share("bias", "", j.bias), share("uncertainty", "", j.u), {
			Name: "tolerance", Value: b.p.Tolerance, Unit: reckoning.Share, Origin: reckoning.Asked,
		}},
		Result: share("farthest", "", j.e),
	})
}

// bare returns a figure without how it came about, where that stands beside it already.
func bare(f reckoning.Figure) reckoning.Figure {
	f.By = nil
	return f
}

func share(name, of string, value float64) reckoning.Figure {
	return reckoning.Figure{Name: name, Of: of, Value: value, Unit: reckoning.Share}
}

// letter names a chemical where there are two.
func (b *bench) letter(i int) string {
	switch {
	case !b.two:
		return ""
	case i == 0:
		return "A"
	}
	return "B"
}

// wantedShare returns what the label asks for.
func (b *bench) wantedShare(i int) reckoning.Figure {
	d := b.p.Dilution
	label := func(name, of string, r quantity.Ratio) reckoning.Figure {
		return reckoning.Figure{Name: name, Of: of, Value: r.Float(), Origin: reckoning.Label}
	}
	puts := make([]reckoning.Figure, 0, 3)
	for k, c := range d.Chemicals {
		puts = append(puts, label("chemical_parts", b.letter(k), c))
	}
	puts = append(puts, label("water_parts", "", d.Water))
	return reckoning.Reckoning{Rule: "parts", Puts: puts, Result: share("wanted_strength", b.letter(i), b.f[i])}.Figure()
}

// readAt returns the figure of a reading and how often it is done.
func (b *bench) readAt(at int32, times int) []reckoning.Figure {
	r := &b.all[at]
	v := &b.p.Vessels[r.vessel]
	f := reckoning.Figure{Name: "reading", Of: v.Name, Value: r.ml, Unit: reckoning.ML, Origin: reckoning.Measured}
	if v.Kind == Balance {
		rho := float64(b.p.Density)
		by := reckoning.Reckoning{Rule: "volume_of_weight", Puts: []reckoning.Figure{
			{Name: "weight", Of: v.Name, Value: r.ml * rho, Unit: reckoning.G, Origin: reckoning.Measured},
			{Name: "density", Value: rho, Unit: reckoning.GPerML, Origin: reckoning.Label},
		}, Result: f}
		by.Result.Origin = reckoning.Computed
		f.Origin, f.By = reckoning.Computed, &by
	}
	if times == 1 {
		return []reckoning.Figure{f}
	}
	return []reckoning.Figure{f, {Name: "times", Value: float64(times), Origin: reckoning.Computed}}
}

// totalOf reckons the total from the marks.
func (b *bench) totalOf(f *found) reckoning.Reckoning {
	var puts []reckoning.Figure
	if f.form != formNeat {
		puts = append(puts, b.readAt(f.fill.a, int(f.fill.na))...)
		if f.fill.b != none {
			puts = append(puts, b.readAt(f.fill.b, int(f.fill.nb))...)
		}
	}
	rule := "total_of_fills"
	if f.apart() {
		rule = "total_of_all"
		for i := range b.chemicals() {
			for _, d := range b.doses(&f.chem[i]) {
				puts = append(puts, b.readAt(d.at, d.times)...)
			}
		}
	}
	return reckoning.Reckoning{Rule: rule, Puts: puts, Result: reckoning.Figure{
		Name: "total", Value: f.total.ML(), Unit: reckoning.ML,
	}}
}

// chemicalOf reckons chemical i's volume from the marks.
func (b *bench) chemicalOf(f *found, i int, ml float64) reckoning.Reckoning {
	r := reckoning.Reckoning{Rule: "chemical_of_pours", Result: reckoning.Figure{
		Name: "chemical", Of: b.letter(i), Value: ml, Unit: reckoning.ML,
	}}
	n := f.rounds()
	switch {
	case f.form == formViaJug || f.form == formViaPour:
		r.Rule = "chemical_of_intermediate"
		r.Puts = append(b.readAt(f.r, 1), b.readAt(f.q, 1)...)
	case f.inJug() && i == 1:
		r.Rule = "chemical_up_to_mark"
		r.Puts = b.readAt(f.chem[0].a, n)
	}
	for _, d := range b.doses(&f.chem[i]) {
		r.Puts = append(r.Puts, b.readAt(d.at, d.times*n)...)
	}
	return r
}

// uncertaintyOf reckons U of chemical i's share: u² is a third of the sum of the squares of all terms, U = 2u.
func (b *bench) uncertaintyOf(uses []use, i int) reckoning.Reckoning {
	r := reckoning.Reckoning{Rule: "uncertainty"}
	for j, u := range uses {
		v := b.all[u.at].vessel
		first := true
		for _, w := range uses[:j] {
			first = first && b.all[w.at].vessel != v
		}
		if first {
			r.Puts = append(r.Puts, b.vesselTerm(uses, i, v))
		}
	}
	for _, u := range uses {
		r.Puts = append(r.Puts, b.settingTerm(u, i))
	}
	r.Puts = append(r.Puts, reckoning.Figure{
		Name: "coverage", Value: 2, Origin: reckoning.Standard, Source: SourceGUM,
	})
	r.Result = share("uncertainty", b.letter(i), expanded(b.square(uses, i)))
	return r
}

// vesselTerm reckons how far the permissible error of a vessel moves chemical i's share: over its readings, the sum
// of relative error × weight × times, because a vessel errs the same way each time.
func (b *bench) vesselTerm(uses []use, i int, vessel uint8) reckoning.Figure {
	v := &b.p.Vessels[vessel]
	by := reckoning.Reckoning{Rule: "vessel_error"}
	var sum float64
	for _, u := range uses {
		r := &b.all[u.at]
		if r.vessel != vessel {
			continue
		}
		weight := u.by[i] * r.ml
		sum += float64(u.times) * weight * r.t / r.ml
		by.Puts = append(by.Puts, b.permissible(r), weightFigure(weight), timesFigure(int(u.times)))
	}
	by.Result = share("vessel_error", v.Name, math.Abs(sum))
	return by.Figure()
}

func weightFigure(w float64) reckoning.Figure {
	return reckoning.Figure{Name: "weight_in_share", Value: w}
}

func timesFigure(n int) reckoning.Figure { return reckoning.Figure{Name: "times", Value: float64(n)} }

// permissible reckons a reading's relative permissible error.
func (b *bench) permissible(r *reading) reckoning.Figure {
	v := &b.p.Vessels[r.vessel]
	limit, scale, unit := v.Limit(int(r.scale)), 1.0, reckoning.ML
	if v.Kind == Balance {
		scale, unit = float64(b.p.Density), reckoning.G
	}
	at := r.ml * scale
	origin, source := limit.From(at)
	from := func(name string, value float64, u reckoning.Unit) reckoning.Figure {
		return reckoning.Figure{Name: name, Of: v.Name, Value: value, Unit: u, Origin: origin, Source: source}
	}
	by := reckoning.Reckoning{Rule: "permissible_error"}
	switch {
	case at < limit.Below:
		by.Rule = "permissible_error_low"
		by.Puts = append(by.Puts, from("permissible_fixed", limit.LowAbs, unit), from("permissible_part", limit.LowRel, reckoning.Share))
	case limit.Rel*at > limit.Abs:
		by.Puts = append(by.Puts, from("permissible_part", limit.Rel, reckoning.Share))
	default:
		by.Puts = append(by.Puts, from("permissible_fixed", limit.Abs, unit))
	}
	by.Puts = append(by.Puts, reckoning.Figure{
		Name: "reading", Of: v.Name, Value: at, Unit: unit, Origin: reckoning.Measured,
	})
	by.Result = share("permissible_error", v.Name, r.t/r.ml)
	return by.Figure()
}

// settingTerm reckons how far setting to a mark moves chemical i's share: relative error × weight × √times, because each
// time errs its own way.
func (b *bench) settingTerm(u use, i int) reckoning.Figure {
	r := &b.all[u.at]
	v := &b.p.Vessels[r.vessel]
	weight := u.by[i] * r.ml
	by := reckoning.Reckoning{
		Rule: "setting_error", Puts: []reckoning.Figure{b.setting(r), weightFigure(weight), timesFigure(int(u.times))},
	}
	by.Result = share("setting_error", v.Name, math.Sqrt(float64(u.times))*math.Abs(weight)*r.h/r.ml)
	return by.Figure()
}

// setting reckons a reading's relative setting error.
func (b *bench) setting(r *reading) reckoning.Figure {
	v := &b.p.Vessels[r.vessel]
	unit, at := reckoning.ML, r.ml
	if v.Kind == Balance {
		unit, at = reckoning.G, r.ml*float64(b.p.Density)
	}
	origin := v.settingOrigin(r.between)
	by := reckoning.Reckoning{Rule: "setting_by_division", Puts: []reckoning.Figure{
		{Name: "setting_part", Of: v.Name, Value: v.settingPart(r.between), Origin: origin},
		{Name: "division", Of: v.Name, Value: v.step(int(r.scale)), Unit: unit, Origin: reckoning.Measured},
	}}
	if v.InnerWidth > 0 && v.Kind != Balance {
		by = reckoning.Reckoning{Rule: "setting_by_width", Puts: []reckoning.Figure{
			{Name: "level", Value: 1, Unit: reckoning.MM, Origin: reckoning.FromMemory},
			{Name: "inner_width", Of: v.Name, Value: float64(v.InnerWidth), Unit: reckoning.MM, Origin: reckoning.Measured},
		}}
	}
	by.Puts = append(by.Puts, reckoning.Figure{Name: "reading", Of: v.Name, Value: at, Unit: unit, Origin: reckoning.Measured})
	by.Result = share("setting", v.Name, r.h/r.ml)
	return by.Figure()
}
