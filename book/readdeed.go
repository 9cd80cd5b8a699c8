package book

import (
	"fmt"
	"time"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/material"
	"wetside/trade/quantity"
)

// tellDeed takes in what happened to baths and batches.
func (s *State) tellDeed(e Entry, body Body) error {
	did, from, err := s.readDeed(body)
	if err != nil {
		return badBody(e, err)
	}
	if up, ok := body.(*ToppedUp); ok {
		if err := s.tellDraws(e, from, up.Ounce); err != nil {
			return err
		}
	}
	s.file(&deed{moment: momentOf(e), by: e.By, did: did})
	return nil
}

// readDeed reads a body about baths or batches; the error is a *FieldError.
func (s *State) readDeed(body Body) (did Did, from []Draw, err error) {
	switch b := body.(type) {
	case *Worked:
		did, err = s.readLoad(b)
	case *Tested:
		did, err = readTested(b)
	case *ToppedUp:
		from = b.From
		did, err = readToppedUp(b)
	case *Moved:
		did, err = readMoved(b)
	case *PouredBack:
		did, err = readPouredBack(b)
	case *PouredOut:
		did, err = readPouredOut(b)
	case *Disposed:
		did, err = readDisposed(b)
	case *Held:
		did, err = s.readHeld(b)
	case *Washed:
		did, err = s.readWashed(b)
	case *FaultFound:
		did, err = readFault(b)
	}
	return did, from, err
}

// passKey is what rules how prints are read.
type passKey struct{ material, size, strip string }

// pass reads prints, remembering words.
func (s *State) pass(p *Prints, none bool) (Pass, error) {
	if err := p.check(none); err != nil {
		return Pass{}, err
	}
	key := passKey{p.Material, p.Size, p.Strip}
	known, ok := s.passes[key]
	// Which counts go with which size is read anew where it is not the usual: sheets of a sheet's size.
	if ok && known.Size.Roll == material.NoRoll && p.Rolls == 0 {
		known.Said, known.Estimated = *p, p.Estimated
		return known, nil
	}
	pass, err := readPass(p)
	if err != nil {
		return pass, err
	}
	if len(s.passes) >= maxRead {
		clear(s.passes)
	}
	s.passes[key] = pass
	return pass, nil
}

func (s *State) readLoad(b *Worked) (Did, error) {
	if len(b.Baths) == 0 {
		return nil, &FieldError{Field: "baths", Why: FieldMissing}
	}
	if len(b.Baths) > maxThrough {
		return nil, &FieldError{Field: "baths", Found: fmt.Sprint(len(b.Baths)), Why: FieldTooMuch, Want: []string{fmt.Sprint(maxThrough)}}
	}
	for i, id := range b.Baths {
		if !ValidID(id) {
			return nil, wantID(fmt.Sprintf("baths[%d]", i), id)
		}
	}
	pass, err := s.pass(&b.Prints, false)
	if err != nil {
		return nil, err
	}
	load := Load{Through: b.Baths, Pass: pass}
	if b.Drain != "" {
		load.Drain, err = readDrain(b.Drain)
	}
	return load, err
}

// The bounds of a load: through how many baths, and how long it drains between them.
const (
	maxThrough = 50
	maxDrain   = time.Hour
)

func readDrain(words string) (time.Duration, error) {
	d, err := quantity.ReadDuration(words)
	bad := &FieldError{Field: "drain", Found: quantity.Shown(words), Why: FieldUnreadable, Want: []string{"10 s", "20 s"}, Cause: err}
	switch {
	case err != nil:
		return 0, bad
	case d > maxDrain:
		bad.Why, bad.Want = FieldTooMuch, []string{quantity.Duration(maxDrain)}
		return 0, bad
	case d == 0:
		bad.Why = FieldNothing
		return 0, bad
	}
	return d, nil
}

func readTested(b *Tested) (Did, error) {
	switch {
	case b.Batch == "":
		if err := wantID("bath", b.Bath); err != nil {
			return nil, err
		}
	case mayID("bath", b.Bath) != nil:
		return nil, mayID("bath", b.Bath)
	}
	if err := mayID("batch", b.Batch); err != nil {
		return nil, err
	}
	t := TestMade{Bath: b.Bath, Batch: b.Batch, Said: b.Result, Steps: b.Steps}
	for i, g := range b.Steps {
		if g <= 0 || i > 0 && g <= b.Steps[i-1] {
			return nil, &FieldError{
				Field: fmt.Sprintf("steps[%d]", i), Found: fmt.Sprint(g), Why: FieldUnreadable, Want: []string{"0.5", "1", "2"},
			}
		}
	}
	var err error
	if t.Result, err = ReadTestResult(b.Test, b.Result, b.Ounce); err != nil {
		return nil, err
	}
	if b.Test == SilverStrip && len(b.Steps) > 0 {
		if _, err = t.Result.Class(b.Steps); err != nil {
			return nil, err
		}
	}
	if b.Material != "" {
		if t.Material, err = material.Read(b.Material); err != nil {
			return nil, &FieldError{
				Field: "material", Found: quantity.Shown(b.Material), Why: FieldNoWord,
				Want: []string{material.RC.String(), material.FB.String(), material.Film.String()}, Cause: err,
			}
		}
	}
	return t, nil
}

func readToppedUp(b *ToppedUp) (Did, error) {
	err := first(
		wantID("bath", b.Bath), mustBe("with", b.With, WithFresh, WithWater, WithReplenisher), mayID("product", b.Product),
		mayID("load", b.Load), wantWords("volume", b.Volume, "500 mL"), readableDraws(b.From), readableDilution(b.Dilution, b.Ounce),
	)
	if err != nil {
		return nil, err
	}
	t := TopUp{Bath: b.Bath, With: b.With, Product: b.Product, Dilution: b.Dilution, Load: b.Load}
	t.Volume, err = readVolume(b.Volume, b.Times, b.Ounce)
	return t, err
}

func readMoved(b *Moved) (Did, error) {
	if err := first(wantID("first", b.First), wantID("second", b.Second)); err != nil {
		return nil, err
	}
	if b.First == b.Second {
		return nil, &FieldError{Field: "second", Found: b.Second, Why: FieldClashes, Want: []string{"first"}}
	}
	leave, err := readLeaving(&b.Leaving)
	return Move{First: b.First, Second: b.Second, Leave: leave}, err
}

func readLeaving(b *Leaving) (Leave, error) {
	if err := mayID("can", b.Can); err != nil {
		return Leave{}, err
	}
	v, err := readVolume(b.Volume, 1, b.Ounce)
	return Leave{Why: b.Why, To: b.To, Can: b.Can, Volume: v}, err
}

func readPouredBack(b *PouredBack) (Did, error) {
	err := first(wantID("bath", b.Bath), mustBe("into", b.Into, bottleStates()...))
	if err != nil {
		return nil, err
	}
	p := PourBack{Bath: b.Bath, Into: b.Into, Bottle: b.Bottle}
	p.Volume, err = readVolume(b.Volume, 1, b.Ounce)
	return p, err
}

// bottleStates returns the states of a bottle that a bath can stand in.
func bottleStates() []darkroom.State {
	return []darkroom.State{darkroom.FullBottle, darkroom.PartBottle, darkroom.FloatingLid}
}

func readPouredOut(b *PouredOut) (Did, error) {
	err := first(wantID("bath", b.Bath), mayID("tray", b.Tray), mayID("tank", b.Tank), notBoth("tray", b.Tray, "tank", b.Tank))
	if err != nil {
		return nil, err
	}
	p := PourOut{Bath: b.Bath, Tray: b.Tray, Tank: b.Tank}
	p.Volume, err = readVolume(b.Volume, 1, b.Ounce)
	return p, err
}

func readDisposed(b *Disposed) (Did, error) {
	if err := wantID("bath", b.Bath); err != nil {
		return nil, err
	}
	leave, err := readLeaving(&b.Leaving)
	return Disposal{Bath: b.Bath, Leave: leave}, err
}

func (s *State) readHeld(b *Held) (Did, error) {
	if err := first(wantID("batch", b.Batch), mayID("bath", b.Bath), mayID("tray", b.Tray)); err != nil {
		return nil, err
	}
	for i, id := range b.Loads {
		if err := wantID(fmt.Sprintf("loads[%d]", i), id); err != nil {
			return nil, err
		}
	}
	pass, err := s.pass(&b.Prints, false)
	return HoldingPut{Batch: b.Batch, Bath: b.Bath, Tray: b.Tray, Loads: b.Loads, Pass: pass}, err
}

func (s *State) readWashed(b *Washed) (Did, error) {
	err := first(wantID("batch", b.Batch), mustBe("step", b.Step, WashStarted, WashMore, WashDone, WashStopped))
	if err != nil {
		return nil, err
	}
	w := WashMoment{Batch: b.Batch, Step: b.Step, Way: b.Way, Changes: b.Changes}
	if b.Changes < 0 {
		return nil, &FieldError{Field: "changes", Found: fmt.Sprint(b.Changes), Why: FieldBelowZero, Want: []string{"0"}}
	}
	if b.Put != nil {
		put, err := s.pass(b.Put, false)
		if err != nil {
			return nil, within("put", err)
		}
		w.Put = &put
	}
	if b.Water == "" {
		return w, nil
	}
	c, err := quantity.ReadCelsius(b.Water)
	if err != nil || c < 0 || c > 100 {
		return nil, &FieldError{Field: "water", Found: quantity.Shown(b.Water), Why: FieldUnreadable, Want: []string{"12 °C", "54 °F"}, Cause: err}
	}
	w.Water = darkroom.As[quantity.Celsius]{Value: c, Text: b.Water}
	return w, nil
}

// first returns the first error.
func first(all ...error) error {
	for _, err := range all {
		if err != nil {
			return err
		}
	}
	return nil
}

func wantWords(field, words, example string) error {
	if words == "" {
		return &FieldError{Field: field, Why: FieldMissing, Want: []string{example}}
	}
	return nil
}

func notBoth(field, a, other, b string) error {
	if a != "" && b != "" {
		return &FieldError{Field: other, Found: quantity.Shown(b), Why: FieldClashes, Want: []string{field}}
	}
	return nil
}

func readableDilution(words string, o Ounce) error {
	if words == "" {
		return nil
	}
	if _, err := dilution.Read(words, dilution.Options{Ounce: o.Quantity()}); err != nil {
		return &FieldError{Field: "dilution", Found: quantity.Shown(words), Why: FieldUnreadable, Want: []string{"1+9", "1+4"}, Cause: err}
	}
	return nil
}

// readableDraws reports draws whose lot is no id.
func readableDraws(from []Draw) error {
	for i, d := range from {
		if err := mayID(fmt.Sprintf("from[%d].lot", i), d.Lot); err != nil {
			return err
		}
	}
	return nil
}
