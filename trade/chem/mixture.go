package chem

import (
	"math"

	"wetside/trade/quantity"
)

// A Mixture is a solution whose amounts may change, prepared so that its pH is found without allocation: the
// constants are taken at its temperature once, and each solution starts where the last one ended. It is not for
// use by several goroutines at once; Clone it for each.
type Mixture struct {
	at       quantity.Celsius
	slope    float64 // Debye-Hückel A
	kw       float64
	parts    []part
	families []member
	strong   float64 // net charge of the ions that take no proton, mol/kg
	inert    float64 // what they give to the ionic strength
	ions     float64 // their charges, signs left out

	gamma    float64 // activity coefficient of a single charge, at the ionic strength in hand
	x, ionic float64 // natural logarithm of the activity of H+, and ionic strength, where the last solution ended
	capacity float64 // of the last solution
}

// A part is one substance of a mixture.
type part struct {
	substance           Substance
	amount              float64
	strong, inert, ions float64 // per mole
	shares              [3]share
	members             [3]int
	kinds               int
}

// A member is one acid family in a mixture.
type member struct {
	of     family
	charge int // of the most protonated form
	steps  int
	total  float64
	k      [most]float64 // at the mixture's temperature, at infinite dilution
	ratio  [most]float64 // k × activity coefficients, at the ionic strength in hand
}

// Prepare returns a mixture of the given substances, all in the amount 0, at a temperature from Coldest to Warmest. The
// same substance may stand twice. A *RangeError for the temperature; ErrNoSubstance where one is the zero value.
func Prepare(at quantity.Celsius, substances ...Substance) (*Mixture, error) {
	if err := checkTemperature(at); err != nil {
		return nil, err
	}
	m := &Mixture{
		at: at, parts: make([]part, 0, len(substances)), families: make([]member, 0, len(substances)+1),
		slope: slopeAt(at), kw: math.Pow(10, -water().At(at)), x: -7 * math.Ln10,
	}
	for _, s := range substances {
		if s.entry == 0 {
			return nil, ErrNoSubstance
		}
		m.parts = append(m.parts, m.part(s))
	}
	return m, nil
}

// Mix returns a mixture of the given amounts at a temperature. Errors as for Prepare and Set.
func Mix(at quantity.Celsius, amounts ...Amount) (*Mixture, error) {
	substances := make([]Substance, len(amounts))
	for i, a := range amounts {
		substances[i] = a.Substance
	}
	m, err := Prepare(at, substances...)
	if err != nil {
		return nil, err
	}
	for i, a := range amounts {
		if err := m.Set(i, a.Molality); err != nil {
			return nil, err
		}
	}
	return m, nil
}

// part takes a substance apart, and its families into the mixture.
func (m *Mixture) part(s Substance) part {
	e := s.row()
	p := part{substance: s, kinds: len(e.acids)}
	for _, i := range e.ions {
		z := float64(i.charge)
		p.strong += i.n * z
		p.inert += i.n * z * z / 2
		p.ions += i.n * math.Abs(z)
	}
	for k, a := range e.acids {
		p.shares[k] = a
		p.members[k] = m.member(a.of)
	}
	return p
}

// member returns the place of a family in the mixture, where it is put if it is not there.
func (m *Mixture) member(f family) int {
	for i := range m.families {
		if m.families[i].of == f {
			return i
		}
	}
	a := &acids[f]
	n := member{of: f, charge: a.charge, steps: len(a.constants)}
	for i, c := range a.constants {
		n.k[i] = math.Pow(10, -c.At(m.at))
	}
	m.families = append(m.families, n)
	return len(m.families) - 1
}

// Clone returns a copy that shares nothing with m.
func (m *Mixture) Clone() *Mixture {
	c := *m
	c.parts = append([]part(nil), m.parts...)
	c.families = append([]member(nil), m.families...)
	return &c
}

// Temperature returns what the mixture was prepared for.
func (m *Mixture) Temperature() quantity.Celsius { return m.at }

// Len returns the number of substances.
func (m *Mixture) Len() int { return len(m.parts) }

// Amount returns the i-th substance and how much of it there is. It panics where i is not from 0 to Len() − 1.
func (m *Mixture) Amount(i int) Amount {
	return Amount{Substance: m.parts[i].substance, Molality: m.parts[i].amount}
}

// Set makes the amount of the i-th substance n mol per kg of water. A *RangeError for less than 0, more than MostAmount
// and NaN. It panics where i is not from 0 to Len() − 1.
func (m *Mixture) Set(i int, n float64) error {
	if !(n >= 0 && n <= MostAmount) {
		return &RangeError{Of: "amount", Value: n, Low: 0, High: MostAmount}
	}
	m.parts[i].amount = n
	return nil
}

// Add adds n mol per kg of water to the i-th substance; n may be below 0 as long as the amount stays in range.
// Errors and panics as for Set.
func (m *Mixture) Add(i int, n float64) error { return m.Set(i, m.parts[i].amount+n) }

// Replace puts the share s (0 to 1) of another liquid in the place of as much of this one: every amount becomes (1 − s)
// of itself, and s of carried, which holds mol per kg for each substance in order. It is what a print does to a
// bath that it leaves as wet as it came: s is its carry-over over the bath's volume. A *RangeError, and no change,
// where s or an amount is out of range, or where carried is not as long as the mixture.
func (m *Mixture) Replace(s float64, carried []float64) error {
	if !(s >= 0 && s <= 1) {
		return &RangeError{Of: "share", Value: s, Low: 0, High: 1}
	}
	if len(carried) != len(m.parts) {
		n := float64(len(m.parts))
		return &RangeError{Of: "substances", Value: float64(len(carried)), Low: n, High: n}
	}
	for _, c := range carried {
		if !(c >= 0 && c <= MostAmount) {
			return &RangeError{Of: "amount", Value: c, Low: 0, High: MostAmount}
		}
	}
	for i, c := range carried {
		m.parts[i].amount += s * (c - m.parts[i].amount)
	}
	return nil
}

// gather adds the amounts up to families and strong ions.
func (m *Mixture) gather() {
	m.strong, m.inert, m.ions = 0, 0, 0
	for i := range m.families {
		m.families[i].total = 0
	}
	for i := range m.parts {
		p := &m.parts[i]
		m.strong += p.amount * p.strong
		m.inert += p.amount * p.inert
		m.ions += p.amount * p.ions
		for k := range p.kinds {
			m.families[p.members[k]].total += p.amount * p.shares[k].n
		}
	}
}
