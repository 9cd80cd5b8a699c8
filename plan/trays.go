package plan

import (
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Much liquid in a large tray: the offer of a smaller one is made from this volume on, where the sheet's
// usual tray would take at most four fifths of it (common practice).
const (
	muchLiquid    = 3 * quantity.Litre
	smallerAtMost = 0.8
)

// giveTrays finds a tray for every bath from the first on that has neither tray nor tank yet.
func (m *maker) giveTrays(first int) {
	for i := first; i < len(m.plan.Baths); i++ {
		b := m.bath(i)
		if b.Tray != "" || b.Tank != "" {
			continue
		}
		sheet, ok := m.largest(b.Materials)
		if !ok {
			continue
		}
		t, shared := m.tray(b, sheet)
		if t == nil {
			m.lackTray(b, sheet)
			continue
		}
		m.taken[t.Name] = true
		m.fill(b, *t, sheet)
		if shared {
			b.Findings = append(b.Findings, Finding{Kind: TrayShared, Subject: t.Name})
		}
	}
}

// lackTray says that no tray takes a sheet for a bath: once for a size of sheet, with all the baths that lack one.
func (m *maker) lackTray(b *Bath, sheet material.Size) {
	for i := range m.plan.Missing {
		x := &m.plan.Missing[i]
		if x.Kind == NoTray && x.Product == sheet.String() && (x.Material == material.Film) == m.film(b) {
			x.Steps = append(x.Steps, b.Step)
			return
		}
	}
	x := Missing{
		Kind: NoTray, Role: b.Role, Bath: b.ID, Product: sheet.String(), Steps: []process.Step{b.Step}, Material: b.Materials[0],
	}
	if near, _, found := process.TrayFor(sheet, tongs()); found {
		x.Near = near.String()
	}
	m.lack(x)
}

func tongs() process.Clearance {
	c, _ := process.TongsRoom()
	return c
}

// tray returns the smallest free tray of the bath's role that takes the sheet; a tray in turn (shared) where the
// free ones are used up.
func (m *maker) tray(b *Bath, sheet material.Size) (best *darkroom.Tray, shared bool) {
	for _, inTurn := range []bool{false, true} {
		for i := range m.file.Bench.Trays {
			t := &m.file.Bench.Trays[i]
			if m.taken[t.Name] != inTurn || !isFor(*t, b) || !holds(*t, sheet) {
				continue
			}
			if best == nil || floor(*t) < floor(*best) {
				best = t
			}
		}
		if best != nil {
			return best, inTurn
		}
	}
	return nil, false
}

// isFor reports whether a tray may hold a bath. A tray of no purpose takes any.
func isFor(t darkroom.Tray, b *Bath) bool {
	switch b.Step { //nolint:exhaustive // all other steps go by their role
	case process.Hold:
		return t.For.Holding
	case process.Wash:
		return t.For.Wash
	}
	return t.For.Role == b.Role || t.For == darkroom.For{}
}

// holds reports whether a sheet lies flat in a tray; a tray of unknown size is trusted to.
func holds(t darkroom.Tray, sheet material.Size) bool {
	f, err := process.FitOf(geometry(t), sheet)
	return err != nil || f.Fits
}

func floor(t darkroom.Tray) quantity.Area {
	a, _, err := geometry(t).Floor()
	if err != nil {
		return 0
	}
	return a
}

// geometry returns a tray as package process sees it.
func geometry(t darkroom.Tray) process.Tray {
	return process.Tray{
		Width: t.Inside.Value.Width, Height: t.Inside.Value.Height, Depth: t.Depth.Value,
		LitreDepth: t.LitreDepth.Value, Fill: t.Fill.Value,
	}
}

// fill gives a bath its tray: the window of useful volume, how many sheets are in it at once, and what a smaller
// tray would save.
func (m *maker) fill(b *Bath, t darkroom.Tray, sheet material.Size) {
	g := geometry(t)
	b.Tray, b.Colour = t.Name, t.Colour
	w, fig, err := g.Window(m.file.Bench.FillDepth.Value)
	if err != nil {
		m.lack(Missing{Kind: NoTraySize, Bath: b.ID, Near: t.Name})
		return
	}
	b.Window, b.WindowFigure, b.Volume = w, fig, w.Want
	if b.Product == "" { // water is not measured that closely
		b.Volume = max(w.Min, (w.Want+tenth/2)/tenth*tenth)
	}
	m.together(b, g, sheet)
	m.smaller(b, sheet)
}

// together says how many sheets of the largest size are in the tray at once.
func (m *maker) together(b *Bath, g process.Tray, sheet material.Size) {
	if b.Role == process.NoRole {
		return
	}
	held, err := process.Shuffled(g, sheet)
	if b.Step == process.Develop {
		held, err = process.InDeveloper(g, sheet, tongs())
	}
	if err != nil || held.Usual == 0 {
		return
	}
	b.Together = Together{Usual: held.Usual, Most: held.Most}
	b.Findings = append(b.Findings, Finding{Kind: SheetsTogether, Subject: sheet.String(), Figures: []reckoning.Figure{
		{Name: "usual", Value: float64(held.Usual)}, held.Figure,
	}})
}

// smaller offers a smaller tray where much liquid would stand in a large one.
func (m *maker) smaller(b *Bath, sheet material.Size) {
	if b.Product == "" || b.Window.Min < muchLiquid {
		return
	}
	w, err := usual(sheet, m.file.Bench.FillDepth.Value)
	if err != nil || float64(w.Want) > smallerAtMost*float64(b.Window.Want) {
		return
	}
	b.Findings = append(b.Findings, Finding{Kind: SmallerTray, Subject: sheet.String(), Other: b.Tray, Figures: []reckoning.Figure{
		{Name: "volume", Value: b.Window.Min.ML(), Unit: reckoning.ML},
		{Name: "smaller_volume", Value: w.Min.ML(), Unit: reckoning.ML},
	}})
}

// usual returns the volumes that are right for the tray that is sold for a sheet.
func usual(sheet material.Size, depth quantity.Length) (quantity.Window, error) {
	w, _, err := process.NominalTray(sheet).Window(depth)
	return w, err
}

// tenth of a litre.
const tenth = quantity.Litre / 10
