package sink

import (
	"slices"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/process"
)

// keptOvernight is how long a bath must keep to be worth pouring back.
const keptOvernight = 24 * time.Hour

// Closing returns what is done at the end, in order: prints, baths, what they stood in, the room.
func (r *Room) Closing() []Item {
	var all []Item
	if r.Place != darkroom.Home {
		all = append(all, Item{Key: "last-sheet", Kind: ItemLast, Count: lastMinutes})
	}
	if n := len(r.Sink.Tags); n > 0 {
		all = append(all, Item{Key: "prints", Kind: ItemPrints, Count: n})
	}
	for i := range r.Sink.Batches {
		b := &r.Sink.Batches[i]
		kind := ItemHeld
		if b.Wash != nil {
			kind = ItemWashed
		}
		all = append(all, Item{Key: string(kind) + "-" + b.ID, Kind: kind, Count: sheets(b)})
	}
	all = append(all, Item{Key: "counts", Kind: ItemCounts})
	all = append(all, r.baths()...)
	all = append(all, r.toWash()...)
	if taken := r.taken(); len(taken) > 0 {
		all = append(all, Item{Key: "shelf", Kind: ItemShelf, Taken: taken})
	}
	all = append(all, Item{Key: "bottles", Kind: ItemBottles}, Item{Key: "sink", Kind: ItemSink},
		Item{Key: "taps", Kind: ItemTaps}, Item{Key: "lights", Kind: ItemLights})
	if r.Place != darkroom.Home {
		all = append(all, Item{Key: "locked", Kind: ItemLocked})
	}
	return r.ticked(all, book.ClosingList)
}

// baths are what becomes of each bath: those that stand open, and those that went or were bottled since the evening began.
func (r *Room) baths() (all []Item) {
	for i := range r.Report.Baths {
		o := &r.Report.Baths[i]
		if standsOpen(&o.Bath) {
			kind := r.after(o)
			all = append(all, Item{Key: string(kind) + "-" + o.Bath.ID, Kind: kind, Bath: &o.Bath, Outlook: o})
		}
		if whose := o.Bath.Whose; whose != "" { // own chemistry is carried home (common practice)
			all = append(all, Item{Key: "home-" + o.Bath.ID, Kind: ItemHome, Bath: &o.Bath, Names: []string{r.People.Name(whose)}})
		}
	}
	if r.State == nil || r.Sink.Evening.ID == "" {
		return all
	}
	since := r.Sink.Evening.Opened.At
	baths := r.State.Baths()
	for i := range baths {
		b := &baths[i]
		if when, who, ok := dealtWith(b, since); ok {
			product, _ := r.State.Product(b.Mixed.Product)
			one := Item{Key: "went-" + b.ID, Kind: ItemWent, Was: b, How: howGone(b), Names: []string{product.Name, ""}}
			if one.How == WentCan {
				one.Names[1] = r.canName(b.Gone.Can)
			}
			one.Done = &book.Tick{Done: true, Said: book.Said{Entry: who.Entry, By: who.By, At: when}}
			all = append(all, one)
		}
	}
	return all
}

// howGone says how a bath that is dealt with went.
func howGone(b *book.Bath) How {
	switch {
	case b.Gone == nil:
		return WentBottle
	case b.Gone.Can != "":
		return WentCan
	case b.Gone.To == book.ToCollected:
		return WentCollected
	case b.Gone.To == toDrain:
		return WentDrain
	}
	return WentElse
}

// toDrain is where the pages say that a bath went that was poured down the drain.
const toDrain = "drain"

// canName is a can's own name, as it is or was.
func (r *Room) canName(id string) string {
	for _, c := range r.State.Waste() {
		if c.ID == id {
			return c.Can.Name
		}
	}
	return ""
}

// dealtWith reports whether a bath went, or was poured into a bottle and is there still, since a moment, and by which entry.
func dealtWith(b *book.Bath, since time.Time) (at time.Time, e book.Event, ok bool) {
	for _, e := range slices.Backward(b.Events) {
		switch did := e.Did.(type) {
		case book.Disposal, book.PourBack:
		case book.Move:
			if did.First != b.ID {
				continue
			}
		case book.PourOut:
			return at, e, false
		default:
			continue
		}
		return e.At, e, e.At.After(since)
	}
	return at, e, false
}

// after says what becomes of an open bath at the end: a fixer that is spent goes to the can, another bath that is spent or
// will not keep until tomorrow goes away, what is good goes back.
func (r *Room) after(o *ahead.Outlook) ItemKind {
	over := Over(o, r.Report.At)
	switch {
	case over && o.Bath.Role == process.Fixer:
		return ItemToCan
	case over:
		return ItemAway
	}
	return ItemBack
}

// Over reports whether a bath is done with at the end of an evening: it is spent, was for once, or will not keep until tomorrow.
func Over(o *ahead.Outlook, now time.Time) bool {
	return o.OutOfUse() || o.Lead.Kind == ahead.OneShot || !keepsInTray(o, now) && o.End.By == ahead.ByTrayTime
}

// Stays reports whether a bath that is good may stay in its tray, covered, until tomorrow.
func Stays(o *ahead.Outlook, now time.Time) bool { return !Over(o, now) && keepsInTray(o, now) }

// keepsInTray reports whether no date ends it by tomorrow.
func keepsInTray(o *ahead.Outlook, now time.Time) bool {
	return o.End.Date.IsZero() || !o.End.Date.Before(now.Add(keptOvernight))
}

// toWash are the trays, in the order of the sink, and what was measured with: the developer's first, the fixer's last, so that
// what is left goes the way of the prints (common practice: the order of mixing, read the other way round).
func (r *Room) toWash() (all []Item) {
	var trays []string
	for i := range r.Sink.Stations {
		s := &r.Sink.Stations[i]
		if !s.Film && s.Tray != "" && !slices.Contains(trays, s.Tray) {
			trays = append(trays, s.Tray)
		}
	}
	if n := len(trays); n > 0 {
		all = append(all, Item{Key: "trays", Kind: ItemTrays, Count: n, Names: trays})
	}
	var open, apart []string
	for _, v := range r.used() {
		if v.KeepFor != "" {
			apart = append(apart, v.Name)
		} else {
			open = append(open, v.Name)
		}
	}
	if len(open) > 0 {
		all = append(all, Item{Key: "jugs", Kind: ItemJugs, Names: open})
	}
	if len(apart) > 0 {
		all = append(all, Item{Key: "jugs-apart", Kind: ItemApart, Names: apart})
	}
	return all
}

// used are the vessels that the evening's mix sheet measures with.
func (r *Room) used() (all []darkroom.Vessel) {
	names := map[string]bool{}
	for i := range r.Plan.Baths {
		b := &r.Plan.Baths[i]
		if len(b.Mix.Choices) == 0 {
			continue
		}
		for _, j := range b.Mix.Choices[0].Vessels {
			names[b.Vessels[j].Name] = true
		}
	}
	for _, v := range r.Bench.Vessels {
		if names[v.Name] {
			all = append(all, v)
		}
	}
	return all
}

// taken is what the evening's baths took from the shelf, with what is left in each lot, in the order of their mixing.
func (r *Room) taken() (all []Taken) {
	if r.State == nil || r.Sink.Evening.ID == "" {
		return nil
	}
	seen := map[string]bool{}
	for _, b := range r.State.Baths() {
		if b.MixedAt.Before(r.Sink.Evening.Opened.At) {
			continue
		}
		for _, d := range b.Mixed.From {
			l, known := r.State.Lot(d.Lot)
			if !known || seen[d.Lot] || l.Whose != "" { // what is somebody's they count themselves
				continue
			}
			seen[d.Lot] = true
			one := Taken{Product: l.Lot.Product}
			if !l.Lot.LeftUnknown && l.Lot.Left.Given() {
				one.Left = l.Lot.Left.Value
				one.Known = true
			}
			all = append(all, one)
		}
	}
	return all
}
