package plan

import (
	"context"
	"slices"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/trade/bath"
	"wetside/trade/material"
	"wetside/trade/process"
)

// Ahead returns the scene of a request's baths as if each were made up when the session starts, before the session's own
// work, for the material that is asked about; material.None asks about the first that is to be made. The error is that of
// Make.
func Ahead(ctx context.Context, r Request, asked material.Material) (ahead.Scene, error) {
	wanted := len(r.File.Session.ToMake)
	r.File.Session.ToMake = slices.Clone(r.File.Session.ToMake)
	if asked == material.None {
		asked = material.RC
		if wanted > 0 {
			asked = r.File.Session.ToMake[0].Material
		}
	}
	isAsked := func(l darkroom.Load) bool { return l.Material == asked }
	if !slices.ContainsFunc(r.File.Session.ToMake, isAsked) {
		r.File.Session.ToMake = append(r.File.Session.ToMake, oneOf(asked))
	}
	r.Alternatives = 0
	p, err := Make(ctx, r)
	if err != nil {
		return ahead.Scene{}, err
	}
	return p.scene(&r, asked, wanted), nil
}

// oneOf is one sheet or roll, so that the baths of its material are planned.
func oneOf(m material.Material) darkroom.Load {
	size, text := material.Inches(8, 10), "8x10 in"
	if m == material.Film {
		size, text = material.Size{Roll: material.Roll135x36}, material.Roll135x36.String()
		return darkroom.Load{Material: m, Size: darkroom.As[material.Size]{Value: size, Text: text}, Rolls: 1}
	}
	return darkroom.Load{Material: m, Size: darkroom.As[material.Size]{Value: size, Text: text}, Sheets: 1}
}

// scene turns a plan's baths and its first loads into what package ahead looks at.
func (p *Plan) scene(r *Request, asked material.Material, wanted int) ahead.Scene {
	starts := p.Starts
	if starts.IsZero() {
		starts = r.Now
	}
	s := ahead.Scene{Room: r.File.Darkroom, Now: starts}
	if d := r.File.Session.Lasts; d.Given() {
		s.Ends = starts.Add(d.Value)
	}
	at := make([]int, len(p.Baths)) // of Scene.Baths, -1 for plain water and for what nothing holds
	for i := range p.Baths {
		at[i] = -1
		if b := &p.Baths[i]; b.Role != process.NoRole && b.Product != "" && b.litres() > 0 {
			at[i] = len(s.Baths)
			s.Baths = append(s.Baths, p.standing(i, &r.File, starts))
		}
	}
	ahead.Name(s.Baths)
	for i := range p.Loads {
		l := &p.Loads[i]
		way := l.way(at)
		if i < wanted {
			s.Tonight = append(s.Tonight, l.pass(way, r.File.Darkroom))
		}
		s.Chains = addChain(s.Chains, l, way, asked)
	}
	return s
}

// way returns the baths that a load goes through, as indexes of Scene.Baths.
func (l *Load) way(at []int) []int {
	var way []int
	for _, t := range l.Times {
		if t.Bath >= 0 && at[t.Bath] >= 0 && !slices.Contains(way, at[t.Bath]) {
			way = append(way, at[t.Bath])
		}
	}
	return way
}

// addChain adds a load's chain, the asked material's before all others, each material once.
func addChain(chains []ahead.Chain, l *Load, way []int, asked material.Material) []ahead.Chain {
	if len(way) == 0 || slices.ContainsFunc(chains, func(c ahead.Chain) bool { return c.Material == l.Material }) {
		return chains
	}
	c := ahead.Chain{Material: l.Material, Standard: l.Standard, Fixing: l.Fixing, WashAid: l.WashAid, Baths: way}
	if l.Material == asked {
		return slices.Insert(chains, 0, c)
	}
	return append(chains, c)
}

func (l *Load) pass(way []int, room darkroom.Room) ahead.Pass {
	one, _ := l.Size.Area()
	p := ahead.Pass{Material: l.Material, Area: float64(one), Baths: way, Sheets: float64(l.Sheets + l.Rolls)}
	if one > 0 {
		p.Sheets = float64(l.Area) / float64(one)
	}
	if room.DrainTime.Given() {
		p.Drained = room.DrainTime.Value
	}
	return p
}

// litres is how much of a bath there will be: what its marks come to, or what is wanted where nothing measures it; 0 where
// nobody knows what it stands in.
func (b *Bath) litres() float64 {
	if b.Volume > 0 {
		return b.Volume.ML() / 1000
	}
	return b.Window.Want.ML() / 1000
}

// standing is a bath as it stands when it was made up.
func (p *Plan) standing(i int, f *darkroom.File, made time.Time) ahead.Bath {
	b := &p.Baths[i]
	out := ahead.Bath{
		ID: b.ID, Role: b.Role, Place: bath.Alone, Dilution: b.Dilution, Words: b.Words,
		Litres: b.litres(), Tray: b.Tray, Tank: b.Tank, Colour: b.Colour, Made: made, Since: made,
		Film: has(b.Materials, material.Film), Container: darkroom.InTray,
	}
	out.Paper = !out.Film
	for j := range f.Shelf.Products {
		if f.Shelf.Products[j].Name == b.Product {
			out.Product = &f.Shelf.Products[j]
		}
	}
	switch {
	case b.Step == process.SecondFix:
		out.Place = bath.Second
	case b.Step == process.Fix && p.second(i):
		out.Place = bath.First
	}
	return out
}

// second reports whether there is a second bath to a fixer.
func (p *Plan) second(i int) bool {
	film := has(p.Baths[i].Materials, material.Film)
	return slices.ContainsFunc(p.Baths, func(o Bath) bool {
		return o.Step == process.SecondFix && has(o.Materials, material.Film) == film
	})
}
