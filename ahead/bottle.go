package ahead

import (
	"math"
	"slices"

	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/reckoning"
)

// bottled reports whether a bath stands in a bottle.
func (b *Bath) bottled() bool {
	switch b.Container {
	case darkroom.FullBottle, darkroom.PartBottle, darkroom.Opened, darkroom.Unopened:
		return true
	case darkroom.FloatingLid, darkroom.InTray:
	}
	return false
}

// pouredOut leaves out of a way for paper what stands in a bottle: prints go through it only when somebody pours it out.
// Film's baths are poured from bottles into the tank and back, so they stay.
func pouredOut(baths []Bath, m material.Material, way []int) []int {
	if !m.Paper() {
		return way
	}
	return slices.DeleteFunc(way, func(i int) bool { return baths[i].bottled() })
}

// bottled says of a bath in a bottle that tonight does not count on it, and what it would do of tonight if it were poured
// out: of the sheets that nothing else of its kind takes.
func (l *looker) bottled(o *Outlook) {
	b := &o.Bath
	if !b.bottled() || o.Left == nil || o.Left.P10 == 0 {
		return
	}
	units := 0.0
	for i := range l.scene.Tonight {
		p := &l.scene.Tonight[i]
		if p.Material.Paper() == !b.Film && serves(b, p.Material) && !slices.ContainsFunc(p.Baths, func(x int) bool {
			return l.scene.Baths[x].Role == b.Role && l.scene.Baths[x].Place == b.Place
		}) {
			units += p.Units()
		}
	}
	if units == 0 {
		return
	}
	wants := math.Ceil(units - 1e-9)
	f := Finding{Kind: InBottle, Subject: b.name(), Figures: []reckoning.Figure{count("tonight", wants)}}
	if safe := float64(o.Left.P10); wants > safe {
		f.Figures = append(f.Figures, count("short", safe))
	}
	o.more(f)
}
