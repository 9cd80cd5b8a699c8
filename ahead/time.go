package ahead

import (
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/keep"
	"wetside/trade/quantity"
)

// open reports whether a bath stands in the open air.
func (b *Bath) open() bool { return b.Container == darkroom.InTray }

// time finds the day a bath's keeping time ends, by its label or else by a default for its kind.
func (l *looker) time(o *Outlook) {
	b := &o.Bath
	if b.Known == book.MadeUnknown {
		return
	}
	kept := keep.Kept{
		Product:   keep.Product{Role: b.Role, Form: keep.Working, Label: b.keeping()},
		State:     stateOf(b.Container),
		Since:     keep.Moment{Time: b.Made},
		TraySince: keep.Moment{Time: later(b.Made, b.Since)},
		InTray:    b.InTray,
		Now:       l.scene.Now,
	}
	a, err := keep.Until(kept)
	if err != nil || a.Status == keep.Unknown {
		return
	}
	o.End.Date, o.End.DateOf = a.Binds.Until, a.Binds.Keeps
	if o.End.Date.IsZero() { // the whole of the day is good
		y, m, d := a.Binds.Day.Date()
		o.End.Date = time.Date(y, m, d+1, 0, 0, 0, 0, l.scene.Now.Location()).Add(-time.Second)
	}
}

// keeping returns the label's keeping times.
func (b *Bath) keeping() map[keep.State]quantity.Period {
	if b.Product == nil {
		return nil
	}
	label := map[keep.State]quantity.Period{}
	for state, period := range b.Product.Keeps {
		if period.Given() {
			label[stateOf(state)] = period.Value
		}
	}
	return label
}

func stateOf(s darkroom.State) keep.State {
	switch s {
	case darkroom.Unopened:
		return keep.Unopened
	case darkroom.Opened:
		return keep.Opened
	case darkroom.FullBottle:
		return keep.FullBottle
	case darkroom.PartBottle:
		return keep.PartBottle
	case darkroom.FloatingLid:
		return keep.FloatingLid
	case darkroom.InTray:
		return keep.Tray
	}
	return keep.NoState
}

// dayFirst lets the day end a bath where it comes before the safe count at the pace of the days until now.
func (l *looker) dayFirst(o *Outlook) {
	b, now := &o.Bath, l.scene.Now
	if o.End.Date.IsZero() || o.Left == nil || b.Made.IsZero() || b.Known == book.MadeUnknown {
		return
	}
	if !l.scene.Ends.IsZero() && !o.End.Date.After(l.scene.Ends) {
		o.End.By = timed(b)
		return
	}
	days := now.Sub(b.Made).Hours() / 24
	if days < 1 || o.Done <= 0 {
		return
	}
	last := now.Add(time.Duration(float64(o.Left.P10) / (o.Done / days) * 24 * float64(time.Hour)))
	if o.End.Date.Before(last) {
		o.End.By = timed(b)
	}
}
