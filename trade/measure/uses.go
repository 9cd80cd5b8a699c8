package measure

// addTo adds the plan's readings, each done for n times over.
func (f *fillPlan) addTo(u []use, n int) []use {
	u = append(u, use{at: f.a, times: int32(int(f.na) * n)})
	if f.b != none {
		u = append(u, use{at: f.b, times: int32(int(f.nb) * n)})
	}
	return u
}

// addTo adds the plan's readings, each done for n times over.
func (p *pourPlan) addTo(u []use, n int) []use {
	u = append(u, use{at: p.a, times: int32(int(p.ka) * n)})
	if p.b != none {
		u = append(u, use{at: p.b, times: int32(int(p.kb) * n)})
	}
	return u
}

// chemicals returns the number of chemicals.
func (b *bench) chemicals() int {
	if b.two {
		return 2
	}
	return 1
}

// rounds returns how many jugfuls alike take the chemical.
func (f *found) rounds() int {
	switch f.form {
	case formInJug, formPoured:
		return int(f.fill.na)
	case formFirstInJug, formFirstPoured, formApart, formViaJug, formViaPour, formNeat:
	}
	return 1
}

// inJug reports whether the chemical is read in the vessel that is then filled up.
func (f *found) inJug() bool { return f.form == formInJug || f.form == formFirstInJug }

// apart reports whether the bath is measured apart, not made up to a mark.
func (f *found) apart() bool { return f.form == formApart || f.form == formNeat }

// volumes returns each chemical's volume in the total, and the total, in mL.
func (b *bench) volumes(f *found) (chem [2]float64, total float64) {
	n := float64(f.rounds())
	for i := range b.chemicals() {
		chem[i] = n * f.chem[i].vol.ML()
	}
	if f.inJug() && b.two {
		chem[1] = n * (f.chem[1].vol - f.chem[0].vol).ML()
	}
	if f.form == formViaJug || f.form == formViaPour {
		chem[0] *= b.all[f.r].ml / b.all[f.q].ml
	}
	return chem, f.total.ML()
}

// uses adds the readings of a choice in no special order, with what each does to the shares (JCGM 100, to first
// order).
func (b *bench) uses(f *found, u []use) []use {
	chem, total := b.volumes(f)
	n := f.rounds()
	if f.form == formViaJug || f.form == formViaPour {
		r, q := &b.all[f.r], &b.all[f.q]
		u = append(u, use{f.r, 1, [2]float64{1 / r.ml}}, use{f.q, 1, [2]float64{-1 / q.ml}})
		chem[0] = f.chem[0].ml
	}
	for i := range b.chemicals() {
		from := len(u)
		u = f.chem[i].addTo(u, n)
		for j := from; j < len(u); j++ {
			u[j].by[i] = 1 / chem[i]
			if f.inJug() && b.two && i == 0 {
				u[j].by[1] = -1 / chem[1]
			}
			for k := range b.chemicals() {
				if f.apart() {
					u[j].by[k] -= 1 / total
				}
			}
		}
	}
	if f.form == formNeat {
		return u
	}
	from := len(u)
	u = f.fill.addTo(u, 1)
	for j := from; j < len(u); j++ {
		u[j].by = [2]float64{-1 / total, -1 / total}
	}
	return u
}

// square returns the squared relative error of chemical i's share, before the third.
func (b *bench) square(uses []use, i int) float64 {
	var sum float64
	for j, u := range uses {
		r := &b.all[u.at]
		sum += float64(u.times) * u.by[i] * u.by[i] * r.h * r.h
		first := true
		for _, w := range uses[:j] {
			first = first && b.all[w.at].vessel != r.vessel
		}
		if !first {
			continue
		}
		var z float64
		for _, w := range uses[j:] {
			if o := &b.all[w.at]; o.vessel == r.vessel {
				z += float64(w.times) * w.by[i] * o.t
			}
		}
		sum += z * z
	}
	return sum
}

// A judgement is what a choice comes to.
type judgement struct {
	bias, u float64 // of the chemical with the larger |bias| + U
	stray   float64 // the largest |bias|
	e       float64 // the largest |bias| + U
}

// judge reckons bias and uncertainty of a choice from its readings.
func (b *bench) judge(f *found, uses []use) judgement {
	var j judgement
	chem, total := b.volumes(f)
	for i := range b.chemicals() {
		bias, u := chem[i]/total/b.f[i]-1, expanded(b.square(uses, i))
		if f.form != formViaJug && f.form != formViaPour {
			bias = b.exactBias(f, i)
		}
		size := max(bias, -bias)
		j.stray = max(j.stray, size)
		if i == 0 || size+u > j.e+Tie {
			j.bias, j.u = bias, u
		}
		j.e = max(j.e, size+u)
	}
	return j
}

// exactBias returns chemical i's bias from the exact volumes, nil where they are what was asked.
func (b *bench) exactBias(f *found, i int) float64 {
	v := f.chem[i].vol
	if f.inJug() && i == 1 {
		v -= f.chem[0].vol
	}
	return float64(v.Times(f.rounds()))/float64(f.total)/b.f[i] - 1
}
