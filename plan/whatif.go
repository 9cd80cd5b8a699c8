package plan

import (
	"context"
	"slices"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// A Change is one thing that an evening would do otherwise. Fields that are not given change nothing.
type Change struct {
	Standard process.Standard // for all papers
	Fixing   process.Fixing   // for all papers
	Material material.Material
	Of       material.Material // what Material stands in for; None: every paper
	Role     process.Role      // whose Dilution is changed
	Dilution darkroom.As[dilution.Dilution]
	Trays    darkroom.As[quantity.Volume] // what every tray of a chemical takes
	More     int                          // sheets of the first load, beside what is wanted; may be less than nothing
}

// A WhatIf is an evening as it is wanted and as it would be.
type WhatIf struct {
	Now, Then           Plan
	AheadNow, AheadThen ahead.Report
	Baths               []Compared
}

// Compared is one bath in both: how often it is made, how much of it, and what it does.
type Compared struct {
	ID                        string
	Of                        material.Material // that the counts are of
	MakingsNow, MakingsThen   int               // 0: there is no such bath
	VolumeNow, VolumeThen     quantity.Volume
	LeftNow, LeftThen         *bath.Counts // of a fresh bath, sheets of 8×10
	ChemicalNow, ChemicalThen quantity.Volume
}

// If plans an evening twice, as it is wanted and with a change, and puts both side by side. The error is that of Make, or
// of ahead.Look.
func If(ctx context.Context, r Request, c Change) (WhatIf, error) {
	var w WhatIf
	var err error
	then := r
	then.File = c.apply(r.File)
	if w.Now, w.AheadNow, err = both(ctx, r); err != nil {
		return w, err
	}
	if w.Then, w.AheadThen, err = both(ctx, then); err != nil {
		return w, err
	}
	w.compare()
	return w, nil
}

func both(ctx context.Context, r Request) (Plan, ahead.Report, error) {
	p, err := Make(ctx, r)
	if err != nil {
		return p, ahead.Report{}, err
	}
	s := p.scene(&r, material.None, len(p.Loads))
	s.Draws = 1000
	report, err := ahead.Look(s)
	return p, report, err
}

// apply returns the file with the change; the given one stays as it is.
func (c *Change) apply(f darkroom.File) darkroom.File {
	f.Session.ToMake = slices.Clone(f.Session.ToMake)
	for i := range f.Session.ToMake {
		l := &f.Session.ToMake[i]
		if !l.Material.Paper() {
			continue
		}
		if c.Material.Paper() && (c.Of == material.None || c.Of == l.Material) {
			l.Material = c.Material
		}
		if c.Standard != process.StandardUnsaid {
			l.Wanted.Standard = c.Standard
		}
		if c.Fixing != process.FixingUnsaid {
			l.Wanted.Fixing = c.Fixing
		}
	}
	if c.More != 0 && len(f.Session.ToMake) > 0 {
		l := &f.Session.ToMake[0]
		if l.Rolls > 0 {
			l.Rolls = max(1, l.Rolls+c.More)
		} else {
			l.Sheets = max(1, l.Sheets+c.More)
		}
	}
	c.dilute(&f)
	if c.Trays.Given() {
		f.Bench.Trays = slices.Clone(f.Bench.Trays)
		for i := range f.Bench.Trays {
			if f.Bench.Trays[i].For.Role != process.NoRole {
				f.Bench.Trays[i].Fill = c.Trays
			}
		}
	}
	return f
}

func (c *Change) dilute(f *darkroom.File) {
	if !c.Dilution.Given() {
		return
	}
	f.Shelf.Products = slices.Clone(f.Shelf.Products)
	for i := range f.Shelf.Products {
		p := &f.Shelf.Products[i]
		if p.Role != c.Role {
			continue
		}
		changed := map[material.Material]darkroom.As[dilution.Dilution]{}
		for m := range p.Dilutions {
			changed[m] = c.Dilution
		}
		p.Dilutions = changed
	}
}

func (w *WhatIf) compare() {
	at := func(id string) *Compared {
		for i := range w.Baths {
			if w.Baths[i].ID == id {
				return &w.Baths[i]
			}
		}
		w.Baths = append(w.Baths, Compared{ID: id})
		return &w.Baths[len(w.Baths)-1]
	}
	for _, b := range w.Now.Baths {
		x := at(b.ID)
		x.MakingsNow, x.VolumeNow, x.ChemicalNow = b.Makings, b.Volume, b.chemical()
	}
	for _, b := range w.Then.Baths {
		x := at(b.ID)
		x.MakingsThen, x.VolumeThen, x.ChemicalThen = b.Makings, b.Volume, b.chemical()
	}
	for _, o := range w.AheadNow.Baths {
		x := at(o.Bath.ID)
		x.Of, x.LeftNow = o.Chain.Material, o.Left
	}
	for _, o := range w.AheadThen.Baths {
		x := at(o.Bath.ID)
		x.Of, x.LeftThen = o.Chain.Material, o.Left
	}
}

// chemical returns what all makings of a bath take of it.
func (b *Bath) chemical() quantity.Volume {
	if b.Mix.Status != measure.Optimal || len(b.Mix.Choices) == 0 {
		return 0
	}
	return sum(b.Mix.Choices[0].ChemicalUsed).Times(max(1, b.Makings))
}

// Same reports whether nothing changes for the bath.
func (c *Compared) Same() bool {
	left := c.LeftNow == c.LeftThen || c.LeftNow != nil && c.LeftThen != nil && *c.LeftNow == *c.LeftThen
	return left && c.MakingsNow == c.MakingsThen && c.VolumeNow == c.VolumeThen && c.ChemicalNow == c.ChemicalThen
}
