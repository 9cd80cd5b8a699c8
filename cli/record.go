package cli

import (
	"slices"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/trade/material"
	"wetside/words/facts"
)

// record writes what happened to baths, warns of what is odd about it, and says what the baths do now. Nothing that
// happened is refused.
func (b *bench) record(at time.Time, ids []string, m material.Material, body book.Body) error {
	before, err := b.look(ids, m)
	if err != nil {
		return err
	}
	entry, err := b.write(at, body)
	if err != nil {
		return err
	}
	var warnings []facts.Warning
	if body.Kind() == book.BathWorked {
		warnings = b.spent(before)
	}
	warnings = append(warnings, b.odd(entry)...)
	now, err := b.look(ids, m)
	if err != nil {
		return err
	}
	if b.json {
		sentence := func(o ahead.Outlook) string { return b.v.Outlook(o).Text() }
		writeJSON(b.s.io.Out, facts.OfRecorded(entry, ids, warnings, now, sentence))
		return nil
	}
	for _, w := range warnings {
		say(b.s.io.Err, "wetside: %s\n", w.Message)
	}
	p := newPrinter(b.s.io.Out)
	p.wrap(b.v.Tell("cli.recorded").Text())
	for i := range now {
		p.item(b.bathNow(&now[i], b.v.Outlook(now[i]).Text()))
	}
	return nil
}

func (b *bench) bathNow(o *ahead.Outlook, sentence string) string {
	return b.v.Tell("cli.bath_now", "Bath", upper(b.v.BathCalled(o.Bath)), "Sentence", sentence).Text()
}

// spent warns of baths that were not to be used any more when a load went through.
func (b *bench) spent(before []ahead.Outlook) []facts.Warning {
	var all []facts.Warning
	for i := range before {
		switch o := &before[i]; o.Lead.Kind {
		case ahead.Spent, ahead.PastDate, ahead.FailedTest, ahead.ForFilmAlone, ahead.PourOut:
			all = append(all, facts.Warning{Kind: string(o.Lead.Kind), Message: b.bathNow(o, b.v.Lead(*o).Text())})
		default:
		}
	}
	return all
}

// odd warns of what the book found odd about an entry: a bath that was gone, or not yet made.
func (b *bench) odd(entry string) []facts.Warning {
	var all []facts.Warning
	for _, f := range b.state.Findings() {
		same := func(w facts.Warning) bool { return w.Kind == string(f.Kind) }
		if f.Entry == entry && !slices.ContainsFunc(all, same) {
			all = append(all, facts.Warning{Kind: string(f.Kind), Message: b.v.Tell("odd." + string(f.Kind)).Text()})
		}
	}
	return all
}
