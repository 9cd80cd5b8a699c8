package book

import (
	"maps"
	"slices"
	"strings"

	"wetside/darkroom"
	"wetside/trade/quantity"
)

// ProbePlace is where a probe hangs that hangs in no bath.
type ProbePlace string

// The places.
const (
	InRoom      ProbePlace = "room" // in the air
	InColdWater ProbePlace = "cold water"
	InHotWater  ProbePlace = "hot water"
)

// ProbeRead says what a thermometer that reads by itself showed, in a bath or in a place. What a person reads is a test of a
// bath (see Tested): it was stirred and looked at.
type ProbeRead struct {
	Probe string     `json:"probe"`           // the probe's id
	Bath  string     `json:"bath,omitempty"`  // the id of the bath that it hangs in
	Place ProbePlace `json:"place,omitempty"` // where else it hangs: one of the two must be there
	Reads string     `json:"reads"`           // 20.4 °C
}

// Kind returns TemperatureRead.
func (*ProbeRead) Kind() Kind { return TemperatureRead }

// A Reading is what a probe showed, as it was read.
type Reading struct {
	Said
	Probe string
	Bath  string // an id, or empty
	Place ProbePlace
	Reads darkroom.As[quantity.Celsius] // from 0 to 100 °C
}

// saidOfReading is one entry about a probe.
type saidOfReading struct {
	moment
	reading Reading
}

// where tells apart where probes hang: baths by their ids, places by their words after a space, which no id has.
func (r *Reading) where() string {
	if r.Bath != "" {
		return r.Bath
	}
	return " " + string(r.Place)
}

// ReadingOf returns what an entry says that a probe showed; the error is for an entry of another kind, or one that can't be read.
func ReadingOf(e Entry) (Reading, error) {
	body, err := Upcasters().Read(e)
	if err != nil {
		return Reading{}, err
	}
	b, ok := body.(*ProbeRead)
	if !ok {
		return Reading{}, badEntry("kind")
	}
	r, err := readProbe(b)
	r.Said = saidBy(e)
	return r, err
}

// tellReading takes in what a probe showed.
func (s *State) tellReading(e Entry, b *ProbeRead) error {
	r, err := readProbe(b)
	if err != nil {
		return badBody(e, err)
	}
	r.Said = saidBy(e)
	said := saidOfReading{momentOf(e), r}
	s.readings[r.where()] = inserted(s.readings[r.where()], said, func(a, b saidOfReading) int { return a.compare(&b.moment) })
	return nil
}

// readProbe reads a body; the error is a *FieldError.
func readProbe(b *ProbeRead) (Reading, error) {
	r := Reading{Probe: b.Probe, Bath: b.Bath, Place: b.Place}
	err := first(
		wantID("probe", b.Probe), mayID("bath", b.Bath), oneOf("place", b.Place, InRoom, InColdWater, InHotWater),
		notBoth("bath", b.Bath, "place", string(b.Place)),
	)
	switch {
	case err != nil:
		return r, err
	case b.Bath == "" && b.Place == "":
		return r, wantID("bath", "")
	}
	c, err := b.Celsius()
	r.Reads = darkroom.As[quantity.Celsius]{Value: c, Text: b.Reads}
	return r, err
}

// Celsius reads what the probe showed, from 0 to 100 °C; the error is a *FieldError.
func (b *ProbeRead) Celsius() (quantity.Celsius, error) {
	const example = "20.4 °C"
	if err := wantWords("reads", b.Reads, example); err != nil {
		return 0, err
	}
	c, err := quantity.ReadCelsius(b.Reads)
	switch {
	case err != nil:
		return 0, &FieldError{Field: "reads", Found: quantity.Shown(b.Reads), Why: FieldUnreadable, Want: []string{example, "68.7 °F"}, Cause: err}
	case c < 0 || c > 100:
		return 0, &FieldError{Field: "reads", Found: quantity.Shown(b.Reads), Why: FieldOutside, Want: []string{"0 °C", "100 °C"}}
	}
	return c, nil
}

// Reading returns what a probe showed last in a bath; ok is false where none did.
func (s *State) Reading(bath string) (r Reading, ok bool) { return s.lastReading(s.readings[bath]) }

// Readings returns what probes showed last, one for each bath and place: the places first, then the baths by their ids.
func (s *State) Readings() []Reading {
	var all []Reading
	for _, where := range slices.Sorted(maps.Keys(s.readings)) {
		if r, ok := s.lastReading(s.readings[where]); ok {
			all = append(all, r)
		}
	}
	return all
}

// ReadBy returns what a probe showed last, wherever it hung; ok is false for a probe that never showed anything.
func (s *State) ReadBy(probe string) (r Reading, ok bool) {
	var last *saidOfReading
	for _, list := range s.readings {
		for i := range slices.Backward(list) {
			said := &list[i]
			if said.reading.Probe != probe || !s.corrections.stands(said.entry) {
				continue
			}
			if last == nil || last.compare(&said.moment) < 0 || last.compare(&said.moment) == 0 && strings.Compare(last.entry, said.entry) < 0 {
				last = said
			}
			break
		}
	}
	if last == nil {
		return r, false
	}
	return last.reading, true
}

func (s *State) lastReading(list []saidOfReading) (r Reading, ok bool) {
	for i := range slices.Backward(list) {
		if s.corrections.stands(list[i].entry) {
			return list[i].reading, true
		}
	}
	return r, false
}
