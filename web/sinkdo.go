package web

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"wetside/book"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// moveAtSink takes what a page without scripts sends: one key was pressed. What it says is written, and the page comes again.
func (s *server) moveAtSink(r *http.Request, v *visit) error {
	l, err := v.lookAtSink(r)
	if err != nil {
		return err
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	if r.PostForm.Has("undo") {
		return l.undoTap(r, r.PostForm.Get("undo"))
	}
	bodies, err := l.said(r.PostForm)
	if err != nil {
		return err
	}
	if len(bodies) == 0 { // somebody else was quicker
		return v.to(r, "/sink")
	}
	a := v.author(r)
	a.Now = l.after(a.Now, bodies)
	var entries []book.Entry
	for _, b := range bodies {
		e, err := a.Write(b)
		if err != nil {
			return err
		}
		entries = append(entries, e)
	}
	err = s.Book.Append(r.Context(), entries, nil)
	if bath := r.PostForm.Get("read"); bath != "" && book.KindOf(err) == book.BadInput {
		return l.misread(r, bath, err)
	}
	if err != nil {
		return err
	}
	return v.to(r, "/sink?"+url.Values{"did": {entries[len(entries)-1].ID}}.Encode())
}

// after returns a moment after what was last said of the prints: a tap goes on from what the page shows, even where
// another device's clock is ahead.
func (l *sinkLook) after(now time.Time, bodies []book.Body) time.Time {
	for _, b := range bodies {
		id := ""
		switch b := b.(type) {
		case *book.PrintMoved:
			id = b.Print
		case *book.PrintLeft:
			id = b.Print
		}
		if p, ok := l.state.Print(id); ok && !now.After(p.Last.At) {
			now = p.Last.At.Add(time.Microsecond)
		}
	}
	return now
}

// misread shows the page again with what is wrong with a temperature.
func (l *sinkLook) misread(r *http.Request, bath string, err error) error {
	p := l.page(r)
	for i := range p.Reads {
		if f := &p.Reads[i]; f.Name == bath {
			f.Value, f.Problem, p.Misread = r.PostForm.Get("celsius "+bath), l.unreadable(err), true
		}
	}
	return l.show(http.StatusUnprocessableEntity, "sink", p)
}

// undoTap takes the last tap back, where there is one.
func (l *sinkLook) undoTap(r *http.Request, id string) error {
	if id == "" {
		return l.to(r, "/sink")
	}
	if err := l.s.Book.CanTakeBack(r.Context(), id); err != nil {
		return err
	}
	a := l.author(r)
	e, err := a.TakeBack(id, "")
	if err != nil {
		return err
	}
	at := l.state.Position()
	if err := l.s.Book.Append(r.Context(), []book.Entry{e}, &at); err != nil {
		return err
	}
	return l.to(r, "/sink")
}

// errNoKey is for a form that no key of the page sends.
var errNoKey = &book.Error{Kind: book.BadInput, Key: "bad_form", Cause: errors.New("no key of the sink page")}

// said are the bodies that a key of the page stands for.
func (l *sinkLook) said(form url.Values) ([]book.Body, error) {
	first, second, _ := strings.Cut(form.Get("on")+form.Get("start")+form.Get("count")+form.Get("wash"), " ")
	switch {
	case form.Has("on"):
		return l.moveOn(first, second), nil
	case form.Has("abandon"):
		return []book.Body{&book.PrintLeft{Print: form.Get("abandon"), Abandoned: true}}, nil
	case form.Has("start"):
		return l.start(first, second == "strip", form.Get("of"))
	case form.Has("count"):
		return l.count(first, second)
	case form.Has("wash"):
		return l.washed(first, second), nil
	case form.Has("read"):
		text := strings.TrimSpace(form.Get("celsius " + form.Get("read")))
		if _, err := strconv.ParseFloat(text, 64); err == nil {
			text += " " + l.degree()
		}
		return []book.Body{&book.Tested{Bath: form.Get("read"), Test: book.Thermometer, Result: text}}, nil
	}
	return nil, errNoKey
}

// degree is what a bare number on a thermometer means in this room.
func (l *sinkLook) degree() string {
	if l.say.System() == quantity.US {
		return "°F"
	}
	return "°C"
}

// moveOn moves a print on from a station; nothing where it lies there no more.
func (l *sinkLook) moveOn(id, from string) []book.Body {
	i := slices.IndexFunc(l.Tags, func(t sink.Tag) bool { return t.Print.ID == id })
	if i < 0 {
		return nil
	}
	t := &l.Tags[i]
	if at := ""; from != "" {
		if t.Station >= 0 {
			at = l.Stations[t.Station].Key
		}
		if at != from {
			return nil
		}
	}
	if t.Next < 0 {
		return []book.Body{&book.PrintLeft{Print: id}}
	}
	return []book.Body{&book.PrintMoved{Print: id, At: l.placeAt(t.Way, t.Next, t.Print.What.Material)}}
}

// placeAt is a place on a way, with its time and, where a batch lies, the batch.
func (l *sinkLook) placeAt(way, station int, m material.Material) book.At {
	s := &l.Stations[station]
	at := book.At{Step: s.Step.String(), Bath: s.Bath}
	for _, stop := range l.Ways[way].Stops {
		if stop.Station == station && stop.Time > 0 {
			at.For, at.Drain = inSeconds(stop.Time), inSeconds(stop.Drain)
		}
	}
	if s.Step == process.Hold || s.Step == process.Wash {
		at.Batch = l.openBatch(m, station)
	}
	return at
}

func inSeconds(d time.Duration) string {
	if d <= 0 {
		return ""
	}
	return fmt.Sprintf("%d s", int64(d/time.Second))
}

// openBatch is the batch that takes one print more: the last of its material that lies at the station; else a new one.
func (l *sinkLook) openBatch(m material.Material, station int) string {
	for _, b := range slices.Backward(l.Batches) {
		if b.Material == m && b.Station == station {
			return b.ID
		}
	}
	return l.s.NewID()
}

// start begins the way of a sheet, a strip or what a tank holds. The evening begins with the first.
func (l *sinkLook) start(key string, strip bool, of string) ([]book.Body, error) {
	i := l.wayAt(key)
	if i < 0 {
		return nil, errNoKey
	}
	w := &l.Ways[i]
	var all []book.Body
	evening := l.Evening.ID
	if evening == "" && l.keeps() { // who joined opens none: their print is of no evening
		evening = l.s.NewID()
		all = append(all, &book.EveningOpened{Session: evening})
	}
	p := book.Prints{Material: w.Material.String(), Size: w.Size.String()}
	switch {
	case w.Material == material.Film:
		p.Rolls = max(w.Rolls, 1)
	case strip:
		p.Strips = 1
	default:
		p.Sheets = 1
	}
	return append(all, &book.PrintStarted{
		Print: l.s.NewID(), Of: of, Session: evening, Prints: p, At: l.placeAt(i, w.Stops[0].Station, w.Material),
	}), nil
}

// count says that a sheet or a strip went through all baths of a way.
func (l *sinkLook) count(key, what string) ([]book.Body, error) {
	i := l.wayAt(key)
	if i < 0 {
		return nil, errNoKey
	}
	w := &l.Ways[i]
	p := book.Prints{Material: w.Material.String(), Size: w.Size.String(), Sheets: 1}
	what, size, other := strings.Cut(what, " ")
	if other {
		p.Size = size
	}
	if what == "strip" {
		p.Sheets, p.Strips = 0, 1
	}
	return []book.Body{&book.Worked{Baths: l.baths(w), Prints: p}}, nil
}

// washed says how it goes on with a batch: into the washing aid print by print, so that each counts there; the wash as a
// whole. When that is done its prints leave the sink.
func (l *sinkLook) washed(batch, do string) []book.Body {
	i := slices.IndexFunc(l.Batches, func(b sink.Batch) bool { return b.ID == batch })
	if i < 0 {
		return nil
	}
	b := &l.Batches[i]
	if now, _ := l.withBatch(b); now != do {
		return nil // somebody else was quicker
	}
	var all []book.Body
	for _, p := range l.state.Prints() {
		switch {
		case p.Now().Batch != batch:
		case do == batchDone:
			all = append(all, &book.PrintLeft{Print: p.ID})
		case do == batchAid:
			at := l.placeAt(l.wayOf(b.Material), b.Next, b.Material)
			at.Batch = batch
			all = append(all, &book.PrintMoved{Print: p.ID, At: at})
		}
	}
	if do == batchAid {
		return all
	}
	return append(all, &book.Washed{Batch: batch, Step: book.WashStep(do)})
}

// wayOf is the first way of a material.
func (l *sinkLook) wayOf(m material.Material) int {
	return slices.IndexFunc(l.Ways, func(w sink.Way) bool { return w.Material == m })
}
