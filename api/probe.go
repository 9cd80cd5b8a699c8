package api

import (
	"encoding/json"
	"math"
	"net/http"
	"reflect"
	"strings"
	"time"

	"wetside/book"
	"wetside/words/facts"
)

// Temperature is what a probe reads, as it is sent: in a bath, in the bath that stands in a tray, or in a place.
type Temperature struct {
	ID    string `json:"id,omitempty" format:"uuid"` // a UUID made by the board, so that a reading that is sent twice is written once; left out: made here
	Reads string `json:"temperature"`                // 20.4 °C, 68.7 °F
	Bath  string `json:"bath,omitempty"`             // the bath's id
	Tray  string `json:"tray,omitempty"`             // or a tray's id or name: the bath that stands in it now
	Place string `json:"place,omitempty"`            // or room, cold water, hot water
	// ReadAt is when it was read, RFC 3339, by a clock that is set; left out: when it arrives.
	ReadAt string `json:"read_at,omitempty" format:"date-time"`
}

// Read is what became of a reading.
type Read struct {
	Kept    bool          `json:"kept"`    // false: it says no more than the one before
	Reading facts.Reading `json:"reading"` // the one that stands in the book
}

// What of a probe's readings is kept: a change of at least so many degrees, or one each so many minutes. A darkroom
// thermometer is read to a fifth of a degree; the rest is common practice.
const (
	leastChange = 0.2 // K
	keptEach    = 10 * time.Minute
)

// How far a board's clock may be off the book's: ahead, for two clocks that are set by hand; behind, for readings that waited for
// the network.
const (
	mostAhead  = 2 * time.Minute
	mostBehind = 24 * time.Hour
)

// mostProbe bounds a probe's name.
const mostProbe = 64

// read takes what a probe reads.
func (c *call) read() error {
	v, err := c.readJSON()
	if err != nil {
		return err
	}
	if err := c.mayWrite(book.Entry{Kind: book.TemperatureRead}); err != nil {
		return err
	}
	s, err := c.a.Book.State(c.ctx())
	if err != nil {
		return err
	}
	e, b, err := c.readingOf(&v, s)
	if err != nil {
		return err
	}
	c.a.probes.Lock()
	defer c.a.probes.Unlock()
	last, spare, err := c.spare(e, b, v.get("read_at") != nil)
	switch {
	case err != nil:
		return err
	case spare:
		return c.send(http.StatusOK, kindJSON, Read{Reading: facts.OfReading(last)})
	}
	stored, fresh, err := c.write(e, nil, v.get("read_at") == nil)
	if err != nil {
		return err
	}
	r, err := book.ReadingOf(stored)
	if err != nil {
		return err
	}
	return c.wrote(stored, fresh, Read{Kept: true, Reading: facts.OfReading(r)})
}

// spare reports whether a new reading says no more than the last of its probe, which it returns. One that a probe's own clock
// puts before the last is refused: such a clock stands still.
func (c *call) spare(e book.Entry, b *book.ProbeRead, ownClock bool) (last book.Reading, spare bool, err error) {
	if _, err := c.a.Book.Find(c.ctx(), e.ID); book.KindOf(err) != book.NotFound {
		return last, false, err // it is there, or nobody can say
	}
	s, err := c.a.Book.State(c.ctx())
	if err != nil {
		return last, false, err
	}
	last, ok := s.ReadBy(b.Probe)
	if ok && ownClock && !e.HappenedAt.After(last.At) {
		return last, false, invalid(mistake{
			at: root.field("read_at"), code: "clock_stuck", found: e.HappenedAt.Format(time.RFC3339), want: []string{last.At.Format(time.RFC3339)},
		})
	}
	return last, ok && saysNoMore(&last, b, e.HappenedAt), nil
}

// saysNoMore reports whether a reading is as good as the last of the same probe in the same place.
func saysNoMore(last *book.Reading, b *book.ProbeRead, at time.Time) bool {
	if last.Bath != b.Bath || last.Place != b.Place || at.Sub(last.At) >= keptEach {
		return false
	}
	c, err := b.Celsius()
	const hair = 1e-9 // of what tenths are off in binary
	return err == nil && math.Abs(float64(c-last.Reads.Value)) < leastChange-hair
}

// readingOf makes an entry of what a probe reads; the error names all that is wrong with it.
func (c *call) readingOf(v *value, s *book.State) (e book.Entry, b *book.ProbeRead, err error) {
	if err := invalid(shape(v, reflect.TypeFor[Temperature](), root)...); err != nil {
		return e, nil, err
	}
	var sent Temperature
	if err := json.Unmarshal(v.raw, &sent); err != nil {
		return e, nil, &failure{slug: pNotJSON, args: []string{"Line", "1", "Column", "1"}, cause: err}
	}
	b = &book.ProbeRead{Probe: c.r.PathValue("probe"), Bath: sent.Bath, Place: book.ProbePlace(sent.Place), Reads: strings.TrimSpace(sent.Reads)}
	a := &book.Author{Device: "probe-" + b.Probe, Now: c.a.Now(), NewID: c.a.NewID}
	wrong := c.probeWrong(v, &sent, b, a, s)
	if len(wrong) > 0 {
		return e, nil, invalid(wrong...)
	}
	if e, err = a.Write(b); err != nil {
		return e, nil, err
	}
	if sent.ID != "" {
		e.ID = sent.ID
	}
	c.inTheNameOf(&e)
	return e, b, nil
}

// probeWrong reads what is sent into a body and its author, and returns what is wrong with it.
func (c *call) probeWrong(v *value, sent *Temperature, b *book.ProbeRead, a *book.Author, s *book.State) (wrong []mistake) {
	bad := func(at pointer, code, found string, want ...string) {
		wrong = append(wrong, mistake{at: at, code: code, found: short([]byte(found)), want: want})
	}
	if b.Probe == "" || len(b.Probe) > mostProbe || !book.ValidID(b.Probe) {
		wrong = append(wrong, mistake{param: "probe", code: "no_id", found: short([]byte(b.Probe))})
	}
	if v.get("id") != nil && !isUUID(sent.ID) {
		bad(root.field("id"), "no_uuid", sent.ID)
	}
	switch _, err := b.Celsius(); {
	case v.get("temperature") == nil:
		bad(root.field("temperature"), "missing", "")
	case err != nil:
		bad(root.field("temperature"), "no_temperature", sent.Reads)
	}
	switch where := given(sent.Bath, sent.Tray, sent.Place); {
	case where == 0:
		bad(root, "nowhere", "")
	case where > 1:
		bad(root, "two_places", "")
	case sent.Place != "" && !oneOf(sent.Place, book.InRoom, book.InColdWater, book.InHotWater):
		bad(root.field("place"), "no_word", sent.Place, string(book.InRoom), string(book.InColdWater), string(book.InHotWater))
	case sent.Tray != "":
		var there bool
		if b.Bath, there = bathIn(s, sent.Tray); !there {
			bad(root.field("tray"), "no_bath_in", sent.Tray)
		}
	case sent.Bath != "":
		if bath, known := s.Bath(sent.Bath); !known || bath.Gone != nil {
			bad(root.field("bath"), "no_bath", sent.Bath)
		}
	}
	if v.get("read_at") == nil {
		return wrong
	}
	at, err := time.Parse(time.RFC3339Nano, sent.ReadAt)
	switch ahead := at.Sub(a.Now); {
	case err != nil:
		bad(root.field("read_at"), "no_instant", sent.ReadAt)
	case ahead > mostAhead:
		bad(root.field("read_at"), "clock_ahead", sent.ReadAt, book.Instant(a.Now).Format(time.RFC3339))
	case ahead < -mostBehind:
		bad(root.field("read_at"), "clock_behind", sent.ReadAt, book.Instant(a.Now).Format(time.RFC3339))
	}
	a.Now = at
	return wrong
}

// given counts the texts that are not empty.
func given(all ...string) (n int) {
	for _, text := range all {
		if text != "" {
			n++
		}
	}
	return n
}

// bathIn returns the bath that stands in a tray, by the tray's id or its name.
func bathIn(s *book.State, tray string) (bath string, there bool) {
	f, ids := s.File(nil)
	for i, t := range f.Bench.Trays {
		if t.Name == tray {
			tray = ids.Trays[i]
		}
	}
	for _, b := range s.Baths() {
		if b.Gone == nil && b.In().Tray == tray {
			bath, there = b.ID, true // the one that was mixed last
		}
	}
	return bath, there
}
