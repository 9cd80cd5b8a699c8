package web

import (
	"net/http"
	"slices"

	"wetside/book"
	"wetside/words"
)

// happened is one thing in a bath's life.
type happened struct {
	Entry, When, Who, Undo string
	Back                   string // where taking it back leads
	Text                   words.Phrase
}

// history is what happened to a bath, the latest first.
func (v *visit) history(b *book.Bath) []happened {
	var out []happened
	for _, e := range slices.Backward(b.Events) {
		text := v.deed(b, e.Did)
		if len(text) == 0 {
			continue
		}
		out = append(out, happened{
			Entry: e.Entry, When: v.say.DateTime(e.At), Who: v.called(e.By), Undo: "/undo/" + e.Entry, Back: bathPath(b.ID), Text: text,
		})
	}
	made := v.say.Tell("did_mixed", "What", joined(b.Mixed.Dilution, v.say.Volume(b.Volume)))
	return append(out, happened{
		Entry: b.Entry, When: v.say.DateTime(b.MixedAt), Who: v.called(b.By), Undo: "/undo/" + b.Entry, Back: "/baths", Text: made,
	})
}

// deed says what was done.
func (v *visit) deed(b *book.Bath, did book.Did) words.Phrase {
	switch d := did.(type) {
	case book.Load:
		return v.loadSaid(d)
	case book.TestMade:
		return v.say.Tell("did_test", "Test", capitalTest(v.say.TestName(d.Result.Test)), "Result", v.resultSaid(d))
	case book.TopUp:
		key := "did_top_up"
		if d.With == book.WithWater {
			key = "did_water"
		}
		return v.say.Tell(key, "Volume", v.say.Volume(d.Volume))
	case book.Move:
		if d.First == b.ID {
			return v.say.Tell("did_went")
		}
		return v.say.Tell("did_forward")
	case book.PourBack:
		return v.say.Tell("did_back", "Into", v.word("", string(d.Into)))
	case book.PourOut:
		where := nameOf(v.ids.Trays, d.Tray, v.trayNames()) + nameOf(v.ids.Tanks, d.Tank, v.tankNames())
		return v.say.Tell("did_out", "Where", where)
	case book.FaultSeen:
		return v.say.Found(d)
	case book.Disposal:
		to := v.wentTo(d.To)
		if name := v.canName(d.Can); name != "" {
			to = v.say.Tell("gone_into", "Can", name).Text()
		}
		return v.say.Tell("did_gone", "To", to)
	default:
		return nil
	}
}

// resultSaid is a test's result, a verdict in the reader's words.
func (v *visit) resultSaid(d book.TestMade) string {
	for _, t := range v.card(d.Result.Test).Taps {
		if read, err := book.ReadTestResult(d.Result.Test, t.Value, book.Ounce("")); err == nil && read == d.Result {
			if d.Result.Verdict == book.NoVerdict {
				return t.Value
			}
			return t.Text
		}
	}
	return d.Said
}

func (v *visit) loadSaid(d book.Load) words.Phrase {
	var counts []string
	for _, n := range []struct {
		noun string
		n    int
	}{{"sheets", d.Said.Sheets}, {"strips", d.Said.Strips}, {"rolls", d.Said.Rolls}} {
		if n.n > 0 {
			counts = append(counts, v.say.Count(n.noun, n.n))
		}
	}
	pairs := []string{"Count", joined(counts...), "Size", v.say.Size(d.Size), "Material", v.say.Material(d.Material)}
	if d.Estimated {
		return v.say.Tell("did_load_guess", append(pairs, "How", d.Said.How)...)
	}
	return v.say.Tell("did_load", pairs...)
}

// written says what was written just now, by the address that the page was reached at.
func (v *visit) written(r *http.Request, b *book.Bath, all []happened) *doneView {
	id := r.URL.Query().Get("did")
	i := slices.IndexFunc(all, func(h happened) bool { return h.Entry == id })
	if id == "" || i < 0 {
		return nil
	}
	d := &doneView{Text: all[i].Text, Undo: all[i].Undo, Back: all[i].Back}
	for _, e := range b.Events {
		if _, moved := e.Did.(book.Move); moved && e.Entry == id {
			d.Move = true
		}
	}
	for _, f := range b.Findings {
		if f.Entry == id {
			d.Odd = append(d.Odd, v.say.Tell("odd."+string(f.Kind)))
		}
	}
	if r.URL.Query().Get("spent") != "" {
		d.Odd = append(d.Odd, v.say.Tell("worked_spent"))
	}
	return d
}
