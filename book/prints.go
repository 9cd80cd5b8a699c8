package book

import (
	"fmt"

	"wetside/trade/material"
	"wetside/trade/quantity"
)

// Prints is what goes through baths or water together: one material, one size.
type Prints struct {
	Material  string `json:"material"` // RC paper, FB paper, film
	Size      string `json:"size"`     // as written: 8x10 in, 24x30 cm, 135-36
	Sheets    int    `json:"sheets,omitempty"`
	Strips    int    `json:"strips,omitempty"` // test strips, each Strip of a sheet
	Strip     string `json:"strip,omitempty"`  // 1/4; empty: the part that the room says
	Rolls     int    `json:"rolls,omitempty"`
	Estimated bool   `json:"estimated,omitempty"` // nobody counted
	How       string `json:"how,omitempty"`       // how the estimate was made: "12 people, 3 h"
}

// maxPrints bounds how many sheets, strips or rolls one entry says: more than a darkroom prints in a year.
const maxPrints = 100_000

// A Pass is prints as they were read: what went through once, for whoever reckons.
type Pass struct {
	Said      Prints // in the words of the entry
	Material  material.Material
	Size      material.Size
	Strip     quantity.Ratio // a strip's part of a sheet, from the entry or the room; 0 where neither says
	Area      quantity.Area  // m² of sheets, rolls, and of strips where their part is known
	Estimated bool

	one quantity.Area // of one sheet or roll
}

// check reports what is wrong with prints, as *FieldError. none says that no sheets at all will do.
func (p *Prints) check(none bool) error {
	for _, n := range []struct {
		field string
		count int
	}{{"sheets", p.Sheets}, {"strips", p.Strips}, {"rolls", p.Rolls}} {
		switch {
		case n.count < 0:
			return &FieldError{Field: n.field, Found: fmt.Sprint(n.count), Why: FieldBelowZero, Want: []string{"0"}}
		case n.count > maxPrints:
			return &FieldError{Field: n.field, Found: fmt.Sprint(n.count), Why: FieldTooMuch, Want: []string{fmt.Sprint(maxPrints)}}
		}
	}
	if !none && p.Sheets+p.Strips+p.Rolls == 0 {
		return &FieldError{Field: "sheets", Found: "0", Why: FieldNothing, Want: []string{"1"}}
	}
	return nil
}

// readPass reads prints; the error is a *FieldError.
func readPass(p *Prints) (Pass, error) {
	pass := Pass{Said: *p, Estimated: p.Estimated}
	var err error
	if pass.Material, err = material.Read(p.Material); err != nil {
		return pass, &FieldError{
			Field: "material", Found: quantity.Shown(p.Material), Why: FieldNoWord,
			Want: []string{material.RC.String(), material.FB.String(), material.Film.String()}, Cause: err,
		}
	}
	if pass.Size, err = material.ReadSize(p.Size); err != nil {
		return pass, &FieldError{
			Field: "size", Found: quantity.Shown(p.Size), Why: FieldUnreadable,
			Want: []string{"8x10 in", "24x30 cm", material.Roll135x36.String()}, Cause: err,
		}
	}
	pass.one, _ = pass.Size.Area()
	roll := pass.Size.Roll != material.NoRoll
	switch {
	case roll && p.Sheets+p.Strips > 0, !roll && p.Rolls > 0, roll && pass.Material != material.Film:
		return pass, &FieldError{Field: "size", Found: p.Size, Why: FieldClashes, Want: []string{clashing(p, roll)}}
	case p.Strip == "":
		return pass, nil
	}
	if pass.Strip, err = quantity.ReadRatio(p.Strip); err != nil || pass.Strip.Sign() <= 0 || pass.Strip.Cmp(quantity.Int(1)) > 0 {
		return pass, &FieldError{
			Field: "strip", Found: quantity.Shown(p.Strip), Why: FieldUnreadable, Want: []string{"1/4", "1/2", "1"}, Cause: err,
		}
	}
	return pass, nil
}

// clashing names the field that a size can't stand beside.
func clashing(p *Prints, roll bool) string {
	switch {
	case !roll:
		return "rolls"
	case p.Sheets > 0:
		return "sheets"
	case p.Strips > 0:
		return "strips"
	}
	return "material"
}

// measured returns the pass with its strips' part, the room's where the entry has none, and its area.
func (p Pass) measured(room quantity.Ratio) Pass {
	if p.Strip.Sign() == 0 {
		p.Strip = room
	}
	p.Area = p.one * quantity.Area(float64(p.Said.Sheets+p.Said.Rolls)+float64(p.Said.Strips)*p.Strip.Float())
	return p
}

// roomStrip returns what part of a sheet a test strip is in this room now; 0 where the room does not say.
func (s *State) roomStrip() quantity.Ratio {
	if r := s.room.now(&s.corrections); r != nil && r.value.Strip.Given() {
		return r.value.Strip.Value
	}
	return quantity.Ratio{}
}
