package book

import (
	"slices"

	"wetside/darkroom"
	"wetside/trade/material"
)

// life tells a bath's life from its mix on.
func (s *State) life(m *making, pairs map[string]*Pair) Bath {
	b := m.bath
	b.Before = slices.Clone(b.Before)
	strip := s.roomStrip()
	sums := newSums()
	for i, p := range b.Before {
		b.Before[i] = p.measured(strip)
		sums.add(b.Before[i], true)
	}
	b.Stood = []Container{firstStand(&b)}
	b.Pair = pairs[b.ID]
	b.Events = make([]Event, 0, len(s.deeds[b.ID]))
	for _, d := range s.deeds[b.ID] {
		if !s.corrections.stands(d.entry) {
			continue
		}
		e := d.event(strip)
		b.Events = append(b.Events, e)
		b.take(e, sums)
	}
	b.Totals = sums.list()
	b.Findings = s.findingsOf(&b, m)
	return b
}

// firstStand returns what a bath was mixed in.
func firstStand(b *Bath) Container {
	c := Container{State: b.Mixed.Into, Tray: b.Mixed.Tray, Tank: b.Mixed.Tank, Since: b.MixedAt}
	if c.Tray != "" {
		c.State = darkroom.InTray
	}
	return c
}

// take follows one event.
func (b *Bath) take(e Event, sums *sums) {
	switch did := e.Did.(type) {
	case Load:
		sums.add(did.Pass, did.Estimated)
		b.stoodBeside(did.Through)
	case PourBack:
		b.stand(Container{State: did.Into, Bottle: did.Bottle, Since: e.At})
	case PourOut:
		c := Container{Tray: did.Tray, Tank: did.Tank, Since: e.At}
		if did.Tank == "" {
			c.State = darkroom.InTray
		}
		b.stand(c)
	case Move:
		if did.Second == b.ID {
			b.Place = darkroom.BathFirst
		} else {
			b.leave(e, true, did.Leave)
		}
	case Disposal:
		b.leave(e, false, did.Leave)
	default: // tests and top-ups are for whoever reckons
	}
}

func (b *Bath) stand(c Container) { b.Stood = append(b.Stood, c) }

// leave notes how a bath went; the first way counts.
func (b *Bath) leave(e Event, moved bool, l Leave) {
	if b.Gone == nil {
		b.Gone = &Departure{Entry: e.Entry, At: e.At, Moved: moved, Leave: l}
	}
}

// stoodBeside notes the neighbours in a load.
func (b *Bath) stoodBeside(through []string) {
	for i, id := range through {
		if id != b.ID {
			continue
		}
		if i > 0 {
			b.Comes = once(b.Comes, through[i-1], b.ID)
		}
		if i+1 < len(through) {
			b.Goes = once(b.Goes, through[i+1], b.ID)
		}
	}
}

func once(list []string, id, own string) []string {
	if id == own || slices.Contains(list, id) {
		return list
	}
	return append(list, id)
}

// sums adds up what went through, by material.
type sums [material.Film + 1]Total

func newSums() *sums { return &sums{} }

func (t *sums) add(p Pass, estimated bool) {
	sum := &t[p.Material].Counted
	if estimated {
		sum = &t[p.Material].Estimated
	}
	sum.Loads++
	sum.Sheets += p.Said.Sheets
	sum.Strips += p.Said.Strips
	sum.Rolls += p.Said.Rolls
	sum.Area += p.Area
	if p.Strip.Sign() == 0 {
		sum.Unsized += p.Said.Strips
	}
}

func (t *sums) list() []Total {
	var all []Total
	for _, m := range material.All() {
		if total := t[m]; total.Counted.Loads+total.Estimated.Loads > 0 {
			total.Material = m
			all = append(all, total)
		}
	}
	return all
}
