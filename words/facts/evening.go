package facts

import (
	"time"

	"wetside/book"
	"wetside/sink"
	"wetside/trade/process"
)

// Session is one evening of work.
type Session struct {
	Session  string   `json:"session"`   // its id
	OpenedAt *string  `json:"opened_at"` // null where nobody said so: something was said of it all the same
	ClosedAt *string  `json:"closed_at"` // null while it goes on
	Shared   bool     `json:"shared"`    // others may join
	People   []string `json:"person_ids"`
	Prints   int      `json:"prints"` // that were started in it
	Notes    int      `json:"notes"`  // that were left for whoever comes next
}

// Sessions are the evenings, the earliest first.
type Sessions struct {
	Running  *string   `json:"running"` // the id of the one that goes on
	Sessions []Session `json:"sessions"`
}

// OfEvening takes an evening apart.
func OfEvening(e book.Evening, prints int) Session {
	out := Session{
		Session: e.ID, OpenedAt: moment(e.Opened.At), Shared: e.Shared, People: []string{}, Prints: prints, Notes: len(e.Notes),
	}
	if e.Closed != nil {
		out.ClosedAt = moment(e.Closed.At)
	}
	for _, j := range e.Joined {
		out.People = append(out.People, j.Person)
	}
	return out
}

// Timers are the prints and batches that lie in the sink, in the order in which they came, with the ends of their times.
type Timers struct {
	At      string  `json:"at"`
	Session *string `json:"session"` // the id of the evening that goes on
	Next    *string `json:"next"`    // the id of the print that is moved next
	Timers  []Timer `json:"timers"`
}

// Timer is a print on its way, or a batch in holding, in the washing aid or in the wash.
type Timer struct {
	ID       string   `json:"id"`        // of the print or the batch
	Of       string   `json:"of"`        // print or batch
	Number   *int     `json:"number"`    // of the evening's prints, from 1
	Person   *string  `json:"person_id"` // whose it is
	Material string   `json:"material"`
	Size     *string  `json:"size"` // of a print
	Sheets   int      `json:"sheets"`
	Strips   int      `json:"strips"`
	Rolls    int      `json:"rolls"`
	Step     string   `json:"step"`    // where it is: develop, stop, fix, hold, wash, ...
	Bath     *string  `json:"bath_id"` // what it lies in, where the book knows it
	Since    string   `json:"since"`
	LiftAt   *string  `json:"lift_at"` // when it is lifted to drain, or poured out
	DueAt    *string  `json:"due_at"`  // when it goes on; null where no time was set
	Left     *float64 `json:"left_s"`  // seconds until then, at the moment that is asked about; below 0: it is over
}

// OfSink takes apart what lies in the sink at a moment.
func OfSink(s *sink.Sink, now time.Time) Timers {
	out := Timers{At: instant(now), Session: some(s.Evening.ID), Timers: []Timer{}}
	if s.Next >= 0 {
		out.Next = some(s.Tags[s.Next].Print.ID)
	}
	for i := range s.Tags {
		out.Timers = append(out.Timers, ofTag(&s.Tags[i], now))
	}
	for i := range s.Batches {
		out.Timers = append(out.Timers, ofBatch(s, &s.Batches[i], now))
	}
	return out
}

func ofTag(t *sink.Tag, now time.Time) Timer {
	p, at := &t.Print, t.Print.Now()
	out := Timer{
		ID: p.ID, Of: "print", Person: some(p.Of), Material: p.What.Material.String(), Size: some(p.What.Size.String()),
		Sheets: p.What.Said.Sheets, Strips: p.What.Said.Strips, Rolls: p.What.Said.Rolls, Step: at.Step.String(), Bath: some(at.Bath),
		Since: instant(at.Since), LiftAt: moment(t.Lift), DueAt: moment(t.Due),
	}
	if t.Number > 0 {
		out.Number = &t.Number
	}
	out.Left = left(t.Due, now)
	return out
}

func ofBatch(s *sink.Sink, b *sink.Batch, now time.Time) Timer {
	step := process.Hold
	switch {
	case b.Station >= 0:
		step = s.Stations[b.Station].Step
	case b.Wash != nil:
		step = process.Wash
	}
	out := Timer{
		ID: b.ID, Of: "batch", Material: b.Material.String(), Step: step.String(), Since: instant(b.Since), DueAt: moment(b.Due),
		Left: left(b.Due, now),
	}
	if step == process.Hold {
		out.Bath = some(b.Bath)
	}
	for i := range b.Prints {
		said := &b.Prints[i].Said
		out.Sheets, out.Strips, out.Rolls = out.Sheets+said.Sheets, out.Strips+said.Strips, out.Rolls+said.Rolls
	}
	return out
}

// left is how many seconds are left until a moment, to the millisecond; nil for none.
func left(until, now time.Time) *float64 {
	if until.IsZero() {
		return nil
	}
	s := float64(until.Sub(now).Milliseconds()) / 1000
	return &s
}
