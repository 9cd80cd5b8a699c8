package plan

import (
	"slices"
	"time"

	"wetside/ahead"
	"wetside/darkroom"
)

// A Dated is something that falls on a day.
type Dated struct {
	Kind DatedKind
	Day  time.Time
	// ID is the same as long as it is about the same: of a bath or can its id, of a lot its product with the days it is known by.
	ID      string
	Bath    int    // index of Report.Baths, of what is about a bath
	Subject string // the product or the can
	Due     int    // index of Report.Due, of what is due
}

// DatedKind is a key of the message catalogue.
type DatedKind string

// What falls on a day.
const (
	BathGoesOff DatedKind = "bath_off" // a bath's keeping time ends
	LotGoesOff  DatedKind = "lot_off"  // a bottle's or a packet's ends by its label
	IsDue       DatedKind = "due"      // a test, a change
	CanIsFull   DatedKind = "can_full" // about: a waste can will be full, and is to be collected

	// NothingDated says that nothing falls on any day.
	NothingDated DatedKind = "nothing"
)

// Dates returns what falls on which day, the soonest first: what goes off, what is due, which waste can will be full. r is what is
// coming for the baths, f the room's file with its lots, cans are the waste cans: those that stand in the room count. What has no
// day is left out.
func Dates(r ahead.Report, f darkroom.File, cans []ahead.Can) []Dated {
	var all []Dated
	for i := range r.Baths {
		if o := &r.Baths[i]; !o.End.Date.IsZero() && !o.OutOfUse() {
			all = append(all, Dated{Kind: BathGoesOff, Day: o.End.Date, ID: o.Bath.ID, Bath: i})
		}
	}
	for i, d := range r.Due {
		if d.Kind != ahead.DueDate && !d.Day.IsZero() && d.Bath >= 0 && d.Bath < len(r.Baths) {
			all = append(all, Dated{Kind: IsDue, Day: d.Day, ID: r.Baths[d.Bath].Bath.ID + " " + string(d.Kind), Bath: d.Bath, Due: i})
		}
	}
	for _, l := range f.Shelf.Lots {
		p, known := f.Shelf.Product(l.Product)
		if !known || l.Whose != "" { // what is somebody's they see to themselves
			continue
		}
		if day, known := useBy(l, &p); known {
			id := l.Product + " " + l.Received.Text + " " + l.Opened.Text + " " + l.Made.Text
			all = append(all, Dated{Kind: LotGoesOff, Day: day, ID: id, Bath: -1, Subject: l.Product})
		}
	}
	for _, c := range cans {
		if c.There && !c.FullOn.IsZero() {
			all = append(all, Dated{Kind: CanIsFull, Day: c.FullOn, ID: c.ID, Bath: -1, Subject: c.Can.Name})
		}
	}
	slices.SortStableFunc(all, func(a, b Dated) int { return a.Day.Compare(b.Day) })
	return all
}
