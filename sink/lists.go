package sink

import (
	"slices"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// An Item is something to do at the start of an evening or at its end. What a room does then is common practice, gathered
// from the rules of shared rooms (see docs/sources.md).
type Item struct {
	Key     string // unique in its list, and the same as long as it is about the same
	Kind    ItemKind
	Bath    *ahead.Bath    // that it is about, or nil
	Planned *plan.Bath     // that nobody has mixed yet, or nil
	Tray    string         // its name, or empty
	Station *Station       // that tongs lie at, or nil
	Test    book.Test      // or empty
	Count   int            // of prints or trays; 0: it does not count
	Outlook *ahead.Outlook // of the bath, for the reason; nil where there is none
	Was     *book.Bath     // that went or was bottled tonight, or nil
	Names   []string       // trays, vessels, a bath's product and its can: the room's own words
	How     How            // a bath went
	Taken   []Taken        // from the shelf
	Done    *book.Tick     // who ticked it last, where that stands
}

// A Taken is a lot that the evening took from.
type Taken struct {
	Product string
	Left    quantity.Volume
	Known   bool // what is left
}

// How is how a bath went tonight, a key of the message catalogue.
type How string

// The ways.
const (
	WentCan       How = "can"
	WentCollected How = "collected"
	WentDrain     How = "drain"
	WentElse      How = "else"
	WentBottle    How = "bottle"
)

// ItemKind is a key of the message catalogue.
type ItemKind string

// What is on the lists.
const (
	ItemAir       ItemKind = "air"
	ItemSafelight ItemKind = "safelight"
	ItemMix       ItemKind = "mix"       // Planned
	ItemPourOut   ItemKind = "pour_out"  // Bath, from its bottle
	ItemRenew     ItemKind = "renew"     // Bath, which is not to be used any more
	ItemTest      ItemKind = "test"      // Bath, Test
	ItemWarmth    ItemKind = "warmth"    // Bath: a thermometer in the developer
	ItemTongs     ItemKind = "tongs"     // Station
	ItemTowels    ItemKind = "towels"    //
	ItemWashRuns  ItemKind = "wash_runs" //

	ItemLast    ItemKind = "last_sheet" // Count: minutes before the end
	ItemPrints  ItemKind = "prints"     // Count, still in the trays
	ItemHeld    ItemKind = "held"       // Count, waiting for their wash
	ItemWashed  ItemKind = "washed"     // Count, in the wash
	ItemCounts  ItemKind = "counts"     // what nobody counted
	ItemToCan   ItemKind = "to_can"     // Bath: a fixer that is spent
	ItemAway    ItemKind = "away"       // Bath
	ItemBack    ItemKind = "back"       // Bath, into its bottle
	ItemWent    ItemKind = "went"       // Was: done already
	ItemHome    ItemKind = "home"       // Bath, which is somebody's and is carried home; Names: theirs
	ItemTrays   ItemKind = "trays"      // Count; Names of the trays in the order in which they are washed
	ItemJugs    ItemKind = "jugs"       // Names of what was measured with
	ItemApart   ItemKind = "jugs_apart" // Names of vessels that are kept for one thing
	ItemShelf   ItemKind = "shelf"      // Taken
	ItemBottles ItemKind = "bottles"    //
	ItemSink    ItemKind = "sink"       //
	ItemTaps    ItemKind = "taps"       //
	ItemLights  ItemKind = "lights"     //
	ItemLocked  ItemKind = "locked"     // of a shared room
)

// lastMinutes is how long before the end the last sheet goes in: 15 to 30 min in shared rooms (common practice).
const lastMinutes = 20

// A Room is what the lists of an evening are made from.
type Room struct {
	Sink   Sink
	Report ahead.Report
	Plan   plan.Plan
	Place  darkroom.Place
	State  *book.State // of which the report is; nil where what went tonight is not asked
	Bench  darkroom.Bench
	People book.People // names of those whose a bath is
}

// Opening returns what is done before the first sheet, in order.
func (r *Room) Opening() []Item {
	all := []Item{{Key: "air", Kind: ItemAir}}
	if r.paper() {
		all = append(all, Item{Key: "safelight", Kind: ItemSafelight})
	}
	all = append(all, r.lacking()...)
	for i := range r.Report.Baths {
		if o := &r.Report.Baths[i]; o.OutOfUse() {
			all = append(all, Item{Key: "renew-" + o.Bath.ID, Kind: ItemRenew, Bath: &o.Bath})
		}
	}
	for _, d := range r.Report.Due {
		if d.Kind == ahead.DueTest && d.Bath >= 0 {
			b := &r.Report.Baths[d.Bath].Bath
			all = append(all, Item{Key: "test-" + b.ID, Kind: ItemTest, Bath: b, Test: d.Test})
		}
	}
	for i := range r.Report.Baths {
		if b := &r.Report.Baths[i].Bath; b.Role == process.Developer && standsOpen(b) && !b.Film {
			all = append(all, Item{Key: "warmth-" + b.ID, Kind: ItemWarmth, Bath: b})
		}
	}
	for i := range r.Sink.Stations {
		if s := &r.Sink.Stations[i]; tongsAt(s) {
			all = append(all, Item{Key: "tongs-" + s.Key, Kind: ItemTongs, Tray: s.Tray, Station: s})
		}
	}
	all = append(all, Item{Key: "towels", Kind: ItemTowels})
	if r.washes() {
		all = append(all, Item{Key: "wash-runs", Kind: ItemWashRuns})
	}
	return r.ticked(all, book.OpeningList)
}

// List returns the list of a name; ok is false for none of ours.
func (r *Room) List(name book.List) (all []Item, ok bool) {
	switch name {
	case book.OpeningList:
		return r.Opening(), true
	case book.ClosingList:
		return r.Closing(), true
	}
	return nil, false
}

// lacking are the stations whose bath does not stand there: one that waits in a bottle is poured out, else it is mixed.
func (r *Room) lacking() (all []Item) {
	for i := range r.Sink.Stations {
		s := &r.Sink.Stations[i]
		at := slices.IndexFunc(r.Plan.Baths, func(b plan.Bath) bool { return b.ID == s.Planned && s.Planned != "" })
		if s.Bath != "" || at < 0 || r.Plan.Baths[at].Product == "" {
			continue
		}
		b := &r.Plan.Baths[at]
		item := Item{Key: "mix-" + b.ID, Kind: ItemMix, Planned: b}
		if o := r.inBottle(b, s.Film); o != nil {
			item = Item{Key: "pour-out-" + o.ID, Kind: ItemPourOut, Bath: o, Tray: s.Tray}
		}
		if !slices.ContainsFunc(all, func(x Item) bool { return x.Key == item.Key }) {
			all = append(all, item)
		}
	}
	return all
}

// inBottle returns a good bath of the room's, of a planned one's role and product, that waits in a bottle, or nil.
func (r *Room) inBottle(planned *plan.Bath, film bool) *ahead.Bath {
	for i := range r.Report.Baths {
		o := &r.Report.Baths[i]
		b := &o.Bath
		if b.Role == planned.Role && b.Product != nil && b.Product.Name == planned.Product && b.Whose == "" && !standsOpen(b) && !o.OutOfUse() &&
			(b.Film == film || b.Film && b.Paper) {
			return b
		}
	}
	return nil
}

// standsOpen reports whether a bath is in a tray or tank.
func standsOpen(b *ahead.Bath) bool { return b.Tray != "" || b.Tank != "" }

func tongsAt(s *Station) bool { return !s.Film && s.Tray != "" && s.Role != process.NoRole }

func (r *Room) paper() bool {
	return slices.ContainsFunc(r.Sink.Ways, func(w Way) bool { return w.Material != material.Film })
}

func (r *Room) washes() bool {
	return slices.ContainsFunc(r.Sink.Stations, func(s Station) bool { return s.Step == process.Wash })
}

// sheets is how many sheets, strips and rolls a batch holds.
func sheets(b *Batch) (n int) {
	for i := range b.Prints {
		p := &b.Prints[i].Said
		n += p.Sheets + p.Strips + p.Rolls
	}
	return n
}

// ticked marks what was ticked in the evening that goes on.
func (r *Room) ticked(all []Item, list book.List) []Item {
	for i := range all {
		if t, ok := r.Sink.Evening.Ticks[list][all[i].Key]; ok && t.Done {
			all[i].Done = &t
		}
	}
	return all
}
