package web

import (
	"slices"

	"wetside/book"
	"wetside/draw"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/trade/reckoning"
	"wetside/words"
)

// trays are the stations of paper, one under another, and all of the film's in one: a tank stands where it stands.
func (l *sinkLook) trays(tags []tagView) []trayView {
	var all []trayView
	tank := -1
	for i := range l.Stations {
		s := &l.Stations[i]
		if s.Film && tank >= 0 {
			continue
		}
		t := trayView{Key: s.Key, Name: l.name(s), Where: s.Tray, Missing: s.Role != process.NoRole && s.Bath == "", Film: s.Film}
		if s.Film {
			tank, t.Key, t.Name, t.Missing = i, "film", l.say.Label("sink_film"), false
		}
		t.Foot = draw.Tray{Name: s.Tray, Colour: s.Colour, Pattern: draw.PatternAt(s.Place), Label: t.Name}.Foot(l.form())
		for n := range tags {
			if at := l.Tags[n].Station; at == i || s.Film && at >= 0 && l.Stations[at].Film {
				t.Tags = append(t.Tags, tags[n])
			}
		}
		t.Batches = l.batchesAt(i)
		all = append(all, t)
	}
	for _, w := range l.starts() {
		at := l.Stations[l.Ways[l.wayAt(w.Key)].Stops[0].Station]
		for i := range all {
			if all[i].Key == at.Key || at.Film && all[i].Film {
				all[i].Starts = append(all[i].Starts, w)
			}
		}
	}
	return all
}

func (l *sinkLook) batchesAt(station int) []batchView {
	var all []batchView
	for i := range l.Batches {
		b := &l.Batches[i]
		if b.Station != station {
			continue
		}
		v := batchView{ID: b.ID}
		v.Do, v.Key = l.withBatch(b)
		n := 0
		for _, p := range b.Prints {
			n += p.Said.Sheets + p.Said.Strips + p.Said.Rolls
		}
		v.Says = l.say.SinkLine("since", "Count", l.say.SinkCount("prints", n), "When", l.say.Clock(b.Since))
		if !b.Due.IsZero() {
			left := b.Due.Sub(l.now)
			v.Left, v.Over = words.Countdown(left), left < 0
		}
		all = append(all, v)
	}
	return all
}

// What is done with a batch, in the value of its key.
const (
	batchAid  = "aid" // all its prints go into the washing aid
	batchWash = string(book.WashStarted)
	batchDone = string(book.WashDone)
)

// withBatch is what is done next with a batch, and its key's words.
func (l *sinkLook) withBatch(b *sink.Batch) (do, key string) {
	switch {
	case b.Wash != nil:
		return batchDone, l.say.Label("sink_wash_ends")
	case b.Next >= 0 && l.Stations[b.Next].Step == process.WashAid:
		return batchAid, capital(l.say.SinkInto(process.WashAid, 0, false))
	default:
		return batchWash, l.say.Label("sink_wash_starts")
	}
}

func (l *sinkLook) wayAt(key string) int {
	return slices.IndexFunc(l.Ways, func(w sink.Way) bool { return w.Key == key })
}

// starts are the keys with which a sheet, a strip or a film begins its way.
func (l *sinkLook) starts() []startView {
	var all []startView
	for i := range l.Ways {
		w := &l.Ways[i]
		v := startView{Key: w.Key, Text: l.say.Size(w.Size), Small: l.say.Material(w.Material)}
		if w.Material == material.Film {
			v.Text = l.say.Count("rolls", max(w.Rolls, 1))
			v.Small = l.say.Size(w.Size)
		} else if i == l.current() {
			v.Strip = l.say.Label("sink_strip")
		}
		all = append(all, v)
	}
	return all
}

// current is the way on which something was started last, else the first of paper; -1: none.
func (l *sinkLook) current() int {
	for i := range slices.Backward(l.Tags) {
		if w := l.Tags[i].Way; w >= 0 && l.Ways[w].Material != material.Film {
			return w
		}
	}
	return slices.IndexFunc(l.Ways, func(w sink.Way) bool { return w.Material != material.Film })
}

// counts are the keys that count without a timer, the current way's first.
func (l *sinkLook) counts() []tap {
	var all []tap
	add := func(i int) {
		w := &l.Ways[i]
		if w.Material == material.Film || len(l.baths(w)) == 0 {
			return
		}
		small := joined(l.say.Size(w.Size), l.say.Material(w.Material))
		all = append(all, tap{l.say.Label("sink_sheet"), w.Key + " sheet", small}, tap{l.say.Label("sink_add_strip"), w.Key + " strip", small})
	}
	now := l.current()
	if now >= 0 {
		add(now)
	}
	for i := range l.Ways {
		if i != now {
			add(i)
		}
	}
	return all
}

// sizes are the keys that count one sheet of any other usual size, for each material of the evening.
func (l *sinkLook) sizes() []sizesView {
	var all []sizesView
	var seen []material.Material
	for i := range l.Ways {
		w := &l.Ways[i]
		if w.Material == material.Film || slices.Contains(seen, w.Material) || len(l.baths(w)) == 0 {
			continue
		}
		seen = append(seen, w.Material)
		v := sizesView{Material: l.say.Material(w.Material)}
		for _, size := range material.Usual() {
			if !slices.ContainsFunc(l.Ways, func(o sink.Way) bool { return o.Material == w.Material && o.Size == size }) {
				v.Taps = append(v.Taps, tap{Text: l.say.Size(size), Value: w.Key + " sheet " + size.String()})
			}
		}
		all = append(all, v)
	}
	return all
}

// baths are the baths of a way that the book knows, in order, but what it lies in to wait.
func (l *sinkLook) baths(w *sink.Way) []string {
	var ids []string
	for _, stop := range w.Stops {
		s := &l.Stations[stop.Station]
		if s.Bath != "" && s.Step != process.Hold && !slices.Contains(ids, s.Bath) {
			ids = append(ids, s.Bath)
		}
	}
	return ids
}

// whose are the people to whom a print can belong: those who came in tonight.
func (l *sinkLook) whose(me string) []pick {
	if len(l.Evening.Joined) == 0 {
		return nil
	}
	all := []pick{{option{"", l.say.Label("sink_anyone")}, me == ""}}
	for _, j := range l.Evening.Joined {
		all = append(all, pick{option{j.Person, l.called(j.Person)}, j.Person == me})
	}
	return all
}

// reads are the fields for what a thermometer shows, one for each bath whose time depends on it.
func (l *sinkLook) reads() []field {
	var all []field
	for i := range l.Stations {
		s := &l.Stations[i]
		if s.Bath == "" || s.Role != process.Developer && s.Role != process.Fixer {
			continue
		}
		f := field{Name: s.Bath, Label: l.name(s), Example: l.say.Temperature(20)}
		f.Hint = l.visit.reads(s.Reading).Text()
		all = append(all, f)
	}
	return all
}

// times tells how the times of each way come about.
func (l *sinkLook) times() []timesView {
	var all []timesView
	for i := range l.Ways {
		w := &l.Ways[i]
		for _, stop := range w.Stops {
			if stop.Time == 0 {
				continue
			}
			t := timesView{Name: joined(l.name(&l.Stations[stop.Station]), l.say.Size(w.Size), l.say.Material(w.Material), l.say.Time(stop.Time))}
			for _, f := range stop.Figures {
				t.Rows = append(t.Rows, l.say.FigureRows(named(f))...)
			}
			all = append(all, t)
		}
	}
	return all
}

// named gives a figure that has no name of its own that of a time.
func named(f reckoning.Figure) reckoning.Figure {
	if f.Name == "" {
		f.Name = "time_at"
	}
	return f
}
