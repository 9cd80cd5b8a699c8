package book

import (
	"fmt"

	"wetside/darkroom"
	"wetside/trade/dilution"
	"wetside/trade/quantity"
)

// tellMixed takes in that a bath was made.
func (s *State) tellMixed(e Entry, b *Mixed) error {
	m := making{moment: momentOf(e), bath: Bath{
		ID: b.Bath, Entry: e.ID, MixedAt: e.HappenedAt, By: e.By, Mixed: *b, Made: b.Made, Place: b.Place,
	}}
	m.begins = true
	if err := b.read(&m.bath); err != nil {
		return badBody(e, err)
	}
	for i := range b.Before {
		pass, err := s.pass(&b.Before[i], true)
		if err != nil {
			return badBody(e, within(fmt.Sprintf("before[%d]", i), err))
		}
		m.bath.Before = append(m.bath.Before, pass)
	}
	if err := s.tellDraws(e, b.From, b.Ounce); err != nil {
		return err
	}
	s.baths[b.Bath] = inserted(s.baths[b.Bath], m, func(a, b making) int { return a.compare(&b.moment) })
	return nil
}

// read reads the words of a mix into the bath; the error is a *FieldError.
func (b *Mixed) read(into *Bath) error {
	err := first(
		wantID("bath", b.Bath), mayID("product", b.Product), mayID("tray", b.Tray), mayID("tank", b.Tank), mayID("pair", b.Pair),
		mayID("whose", b.Whose),
		oneOf("made", b.Made, MadeEstimated, MadeUnknown), oneOf("use", b.Use, Rinse, Holding),
		oneOf("place", b.Place, darkroom.BathOne, darkroom.BathFirst, darkroom.BathSecond),
		oneOf("for", b.For, ServesPaper, ServesFilm), oneOf("into", b.Into, bottleStates()...),
		notBoth("tray", b.Tray, "into", string(b.Into)), notBoth("tank", b.Tank, "into", string(b.Into)),
		wantWords("volume", b.Volume, "1 L"), readableDraws(b.From), b.whatItIs(),
	)
	if err != nil {
		return err
	}
	if b.Dilution != "" {
		into.Dilution, err = dilution.Read(b.Dilution, dilution.Options{Ounce: b.Ounce.Quantity()})
		if err != nil {
			return readableDilution(b.Dilution, b.Ounce)
		}
	}
	into.Volume, err = readVolume(b.Volume, b.Times, b.Ounce)
	return err
}

// whatItIs reports a bath that is neither of a product, with its dilution, nor water, or is both.
func (b *Mixed) whatItIs() error {
	switch {
	case b.Use != NoUse:
		return first(notBoth("use", string(b.Use), "product", b.Product), notBoth("use", string(b.Use), "dilution", b.Dilution))
	case b.Product == "":
		return &FieldError{Field: "product", Why: FieldMissing}
	case b.Dilution == "":
		return &FieldError{Field: "dilution", Why: FieldMissing, Want: []string{"1+9", "1+4"}}
	case b.Pair == b.Bath:
		return &FieldError{Field: "pair", Found: quantity.Shown(b.Pair), Why: FieldClashes, Want: []string{"bath"}}
	}
	return nil
}
