package cli

import (
	"time"

	"wetside/draw"
	"wetside/trade/wash"
	"wetside/words"
)

// told is a wash that was asked about, with its answer, the answer by the table alone, and the test between them.
type told struct {
	asked      wash.Request
	now, table wash.Answer
	own        own
}

// tell prints every way of washing, the cheapest and the fastest, and what is left against time.
func tellWash(p *printer, v *words.Voice, load string, t told) error {
	a := t.now
	p.wrap(v.WashBest(a).Text())
	t.own.tell(p, v, t.table, a)
	p.head(load)
	p.wrap(v.WashLimit(a).Text())
	p.gap()
	for _, w := range a.Ways {
		p.item(sayWay(v, w))
		tellWashNotes(p, v, w.Findings)
	}
	p.gap()
	tellWashNotes(p, v, a.Findings)
	left, ok := draw.LeftOf(v, t.asked, a)
	if !ok {
		return nil
	}
	text, err := left.Text(draw.TextOptions{})
	if err != nil {
		return err
	}
	p.picture(text)
	return nil
}

// sayWay says one way: its minutes, changes and litres.
func sayWay(v *words.Voice, w wash.Result) string {
	name, left := v.WashWay(w.Way), v.WashLeft(w)
	if w.Status != wash.Reached {
		return v.Tell("wash.way_out_of_reach", "Way", name, "Left", left).Text()
	}
	likely := ""
	if w.SafeTime() > w.Time {
		likely = v.WashTime(w.Time)
	}
	pairs := []string{
		"Way", name, "Time", v.WashTime(w.SafeTime()), "Litres", v.WashWater(w.Water), "Left", left,
		"Contact", v.Time(w.Contact.Round(time.Second)), "Likely", likely,
	}
	if w.Way == wash.Running {
		return v.Tell("wash.way_running", pairs...).Text()
	}
	return v.TellN("wash.way_changes", w.Changes, pairs...).Text()
}

func tellWashNotes(p *printer, v *words.Voice, fs []wash.Finding) {
	for _, note := range v.WashNotes(fs) {
		p.put("  ╷ ", "    ", note.Text())
	}
}
