package facts

import (
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/quantity"
)

// State is what is there now.
type State struct {
	Position int64     `json:"position"` // of the book's last entry: what a decision made on this expects
	At       string    `json:"at"`
	Darkroom Room      `json:"darkroom"`
	Session  *string   `json:"session"` // the id of the evening that goes on
	Baths    []Outlook `json:"baths"`   // what each bath still does
	Shelf    []Lot     `json:"shelf"`
	Trays    []Tray    `json:"trays"`
	Readings []Reading `json:"readings"` // what probes showed last
}

// Room is the darkroom itself.
type Room struct {
	Name     string `json:"name"`     // empty: nobody gave it one yet
	Language string `json:"language"` // empty: English
	Units    string `json:"units"`    // metric, us or imperial
	Place    string `json:"place"`    // home, community, school, ...; empty: not said
}

// Lot is a bottle, a packet or a made-up stock on the shelf.
type Lot struct {
	Lot      string   `json:"lot_id"`
	Product  string   `json:"product_id"`
	Name     string   `json:"product"`
	Stock    bool     `json:"stock"`    // made up here
	Holds    *float64 `json:"holds_ml"` // as bought or made up
	Packets  *int     `json:"packets"`  // of a powder
	Left     *float64 `json:"left_ml"`  // null where nobody knows it, and for packets
	Received *string  `json:"received"` // days
	Opened   *string  `json:"opened"`
	Made     *string  `json:"made"`
	Whose    *string  `json:"whose"` // a person's id; null: the room's
}

// Tray is a tray of the bench with the bath that stands in it.
type Tray struct {
	Tray string  `json:"tray_id"`
	Name string  `json:"name"`
	Bath *string `json:"bath_id"`
}

// Reading is what a probe showed last, in a bath or in a place.
type Reading struct {
	Entry   string  `json:"entry"` // the id of the entry in the book
	Probe   string  `json:"probe"`
	Bath    *string `json:"bath_id"`
	Place   *string `json:"place"`         // room, cold water or hot water; null for a bath
	Celsius float64 `json:"temperature_c"` //
	Reads   string  `json:"temperature"`   // in the words of the probe
	ReadAt  string  `json:"read_at"`
}

// Readings are what probes showed last, one for each bath and place.
type Readings struct {
	Readings []Reading `json:"readings"`
}

// OfState takes apart what is there, beside its baths.
func OfState(s *book.State, baths Baths) State {
	f, ids := s.File(nil)
	out := State{
		Position: s.Position(), At: baths.At, Baths: baths.Baths, Shelf: []Lot{}, Trays: []Tray{}, Readings: OfReadings(s).Readings,
		Darkroom: Room{
			Name: f.Darkroom.Name, Language: f.Darkroom.Language, Units: units(f.Darkroom.Units), Place: string(f.Darkroom.Place),
		},
	}
	if e, ok := s.Running(); ok {
		out.Session = &e.ID
	}
	in := map[string]string{}
	for _, b := range s.Baths() {
		if now := b.In(); b.Gone == nil && now.Tray != "" {
			in[now.Tray] = b.ID
		}
	}
	for i, id := range ids.Trays {
		out.Trays = append(out.Trays, Tray{Tray: id, Name: f.Bench.Trays[i].Name, Bath: some(in[id])})
	}
	for i, id := range ids.Lots {
		l, _ := s.Lot(id)
		out.Shelf = append(out.Shelf, ofLot(&l, &f.Shelf.Lots[i]))
	}
	return out
}

func ofLot(is *book.Lot, l *darkroom.Lot) Lot {
	out := Lot{
		Lot: is.ID, Product: is.ProductID, Name: l.Product, Stock: l.Stock, Received: day(l.Received), Opened: day(l.Opened), Made: day(l.Made),
		Whose: some(is.Whose),
	}
	if l.Packets > 0 {
		out.Packets = &l.Packets
		return out
	}
	out.Holds = given(l.Holds)
	switch {
	case l.Left.Given():
		out.Left = given(l.Left)
	case !l.LeftUnknown && (!l.Opened.Given() || l.Stock):
		out.Left = out.Holds // nobody took anything yet
	}
	return out
}

// units is the word of the darkroom file.
func units(s quantity.System) string { return [...]string{"metric", "us", "imperial"}[s] }

func given(v darkroom.As[quantity.Volume]) *float64 {
	if !v.Given() {
		return nil
	}
	ml := millilitres(v.Value.ML() / 1000)
	return &ml
}

func day(t darkroom.As[time.Time]) *string {
	if !t.Given() {
		return nil
	}
	s := t.Value.Format(time.DateOnly)
	return &s
}

// OfReading takes a reading apart.
func OfReading(r book.Reading) Reading {
	return Reading{
		Entry: r.Entry, Probe: r.Probe, Bath: some(r.Bath), Place: some(string(r.Place)), Celsius: float64(r.Reads.Value),
		Reads: r.Reads.Text, ReadAt: instant(r.At),
	}
}

// OfReadings takes apart what probes showed last.
func OfReadings(s *book.State) Readings {
	out := Readings{Readings: []Reading{}}
	for _, r := range s.Readings() {
		out.Readings = append(out.Readings, OfReading(r))
	}
	return out
}

// BathLife is one bath: what was mixed, what it still does, what was read in it.
type BathLife struct {
	Bath     string   `json:"bath_id"`
	Product  *string  `json:"product_id"` // null for water
	Dilution string   `json:"dilution"`   // in the words of the label
	VolumeML float64  `json:"volume_ml"`  // as mixed
	MixedAt  string   `json:"mixed_at"`
	Whose    *string  `json:"whose"`   // a person's id; null: the room's
	GoneAt   *string  `json:"gone_at"` // null while it is there
	Outlook  *Outlook `json:"outlook"` // null of a bath that is gone
	Reading  *Reading `json:"reading"` // what a probe showed last
}

// OfBath takes a bath apart; outlook is nil where it is gone.
func OfBath(s *book.State, b *book.Bath, outlook *Outlook) BathLife {
	out := BathLife{
		Bath: b.ID, Product: some(b.Mixed.Product), Dilution: b.Mixed.Dilution, VolumeML: millilitres(b.Volume.ML() / 1000),
		MixedAt: instant(b.MixedAt), Whose: some(b.Mixed.Whose), Outlook: outlook,
	}
	if b.Gone != nil {
		out.GoneAt = moment(b.Gone.At)
	}
	if r, ok := s.Reading(b.ID); ok {
		one := OfReading(r)
		out.Reading = &one
	}
	return out
}
