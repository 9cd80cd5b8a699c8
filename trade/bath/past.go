package bath

import (
	"math"
	"slices"

	"wetside/trade/material"
)

// A Past is what stands in a room and what went through it, oldest first.
type Past struct {
	Baths []Bath
	Steps []Step
	Prior Prior
}

// check returns an *Error for the first thing that cannot be reckoned with.
func (p *Past) check() error {
	for i, b := range p.Baths {
		if !(b.Made[Liquid] > 0) || math.IsInf(b.Made[Liquid], 0) {
			return &Error{NoVolume, -1, i}
		}
		if !b.Made.sound() {
			return &Error{BadAmount, -1, i}
		}
	}
	for i, s := range p.Steps {
		if err := p.checkStep(i, s); err != nil {
			return err
		}
	}
	return nil
}

func (p *Past) checkStep(at int, s Step) error {
	switch s := s.(type) {
	case Worked:
		if !sound(s.Sheets) {
			return &Error{BadAmount, at, -1}
		}
		return p.checkPath(at, s.Sheet, s.Through)
	case ToppedUp:
		if !s.With.sound() {
			return &Error{BadAmount, at, s.Bath}
		}
		return p.checkBath(at, s.Bath)
	case Taken:
		if !sound(s.Litres) {
			return &Error{BadAmount, at, s.Bath}
		}
		return p.checkBath(at, s.Bath)
	case Seen:
		if err := p.checkBath(at, s.Bath); err != nil {
			return err
		}
		if s.Test.needsTitration() && p.Baths[s.Bath].Titration == nil {
			return &Error{NoTitration, at, s.Bath}
		}
	}
	return nil
}

func (p *Past) checkPath(at int, s Sheet, path []int) error {
	if s.Of < material.RC || s.Of > material.Film {
		return &Error{NoMaterial, at, -1}
	}
	if !sound(s.Area) || !sound(s.Drained) {
		return &Error{BadAmount, at, -1}
	}
	for i, b := range path {
		if err := p.checkBath(at, b); err != nil {
			return err
		}
		if slices.Contains(path[:i], b) {
			return &Error{TwiceInPath, at, b}
		}
	}
	return nil
}

func (p *Past) checkBath(at, bath int) error {
	if bath < 0 || bath >= len(p.Baths) {
		return &Error{NoSuchBath, at, bath}
	}
	return nil
}

func (c Contents) sound() bool {
	for _, x := range c {
		if !sound(x) {
			return false
		}
	}
	return true
}

func sound(x float64) bool { return x >= 0 && !math.IsInf(x, 0) }

// fresh puts the baths as they were made into state.
func (p *Past) fresh(state []Contents) {
	for i, b := range p.Baths {
		state[i] = b.Made
	}
}

// fill tops the first bath of a path up to what was made, where the sheets would carry away more than half of that:
// nobody prints in an empty tray, so it was topped up and not told. put, if not nil, gathers what came in.
func (p *Past) fill(state []Contents, w *Worked, one passing, put *Contents) {
	b := w.Through[0]
	made := p.Baths[b].Made
	lacks := made[Liquid] + one.carry*w.Sheets - state[b][Liquid]
	if state[b][Liquid]-one.carry*w.Sheets >= made[Liquid]/2 || lacks <= 0 {
		return
	}
	var fresh Contents
	for a := range fresh {
		fresh[a] = made[a] * lacks / made[Liquid]
	}
	state[b].add(fresh)
	if put != nil {
		put.add(fresh)
	}
}

// work lets sheets go through one by one and follows every amount.
func (p *Past) work(room *Room, state []Contents, w Worked, left *Contents) {
	one := w.in(room, &p.Prior)
	whole, part := math.Modf(w.Sheets)
	for range int(whole) {
		left.add(one.through(state, p.Baths, w.Through))
	}
	if part > 0 {
		left.add(one.times(part).through(state, p.Baths, w.Through))
	}
}

// A Balance is what was put into the baths, what is in them and what left them.
type Balance struct {
	Put, Held, Left Contents
	Each            []Contents // what each bath holds
}

// Balance reckons one possible room and returns where everything went: for each amount Put equals Held and Left
// together. The error is an *Error.
func (p *Past) Balance(room Room) (Balance, error) {
	if err := p.check(); err != nil {
		return Balance{}, err
	}
	var b Balance
	state := make([]Contents, len(p.Baths))
	p.fresh(state)
	for i := range state {
		b.Put.add(state[i])
	}
	for _, s := range p.Steps {
		switch s := s.(type) {
		case Worked:
			if len(s.Through) == 0 {
				continue
			}
			p.fill(state, &s, s.in(&room, &p.Prior), &b.Put)
			b.Put.add(p.given(&room, s))
			p.work(&room, state, s, &b.Left)
		case ToppedUp:
			state[s.Bath].add(s.With)
			b.Put.add(s.With)
		case Taken:
			b.Left.add(state[s.Bath].out(s.Litres))
		case Seen:
		}
	}
	for i := range state {
		b.Held.add(state[i])
	}
	b.Each = state
	return b, nil
}

// given returns what the sheets themselves bring.
func (p *Past) given(room *Room, w Worked) Contents {
	one := w.in(room, &p.Prior)
	var c Contents
	developed, fixed := false, false
	for _, b := range w.Through {
		developed = developed || p.Baths[b].Kind == Developing
		fixed = fixed || p.Baths[b].Kind == Fixing
	}
	if developed {
		c[Bromide] = one.bromide * w.Sheets
	}
	if fixed {
		c[Silver] = one.silver * w.Sheets
	}
	return c
}
