package web

import (
	"net/http"
	"slices"
	"strconv"
	"time"

	"wetside/book"
	"wetside/draw/scene"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/words"
)

type sinkPage struct {
	frame
	Trays   []trayView
	Next    *tagView // what is moved next; nil: nothing is under way
	Starts  []startView
	Counts  []tap // without a timer
	More    []tap // the same for other ways
	Sizes   []sizesView
	People  []pick
	Undo    string         // the entry that can be taken back
	Nothing bool           // nothing is to be made tonight
	Yours   []words.Phrase // what is to be minded by whoever joined with this device
	Tags    []tagView
	Reads   []field // the baths whose temperature can be told
	Misread bool    // one of them can't be read
	Times   []timesView
	Strays  []tagView
	Script  string
}

// trayView is a tray, the wash or the tank with what lies in it.
type trayView struct {
	Key, Name, Where string
	Missing          bool // it takes a bath that nobody has mixed
	Foot             scene.Scene
	Tags             []tagView
	Batches          []batchView
	Starts           []startView // what begins its way here
	Film             bool
}

// tagView is a print in the sink.
type tagView struct {
	Print, At        string // ids: the print, and the station that it is moved from
	Who, Small, Left string
	Move             words.Phrase
	Ticks            []bool // of its time, from the beginning; true: still to come
	Next, Over       bool
}

type batchView struct {
	ID, Says, Left, Do, Key string
	Over                    bool
}

// sizesView are the sizes of a material that nobody said would be made tonight.
type sizesView struct {
	Material string
	Taps     []tap
}

type startView struct{ Key, Text, Small, Strip string }

type timesView struct {
	Name string
	Rows []words.Row
}

// sinkPage is the sink from above: what lies where, until when, and whose move is next.
func (s *server) sink(r *http.Request, v *visit) error {
	l, err := v.lookAtSink(r)
	if err != nil {
		return err
	}
	page := l.page(r)
	page.Yours = v.yoursAt(l.products...)
	return v.show(http.StatusOK, "sink", page)
}

// A sinkLook is the sink as it stands, with what it takes to say it.
type sinkLook struct {
	*visit
	sink.Sink
	now     time.Time
	doubled map[string]bool // people with more than one print under way
	// products are the names of what is in use.
	products []string
}

func (v *visit) lookAtSink(r *http.Request) (*sinkLook, error) {
	p, err := v.plan(r.Context())
	if err != nil {
		return nil, err
	}
	now := v.s.Now()
	l := &sinkLook{visit: v, now: now, doubled: map[string]bool{}, products: p.Products()}
	l.Sink = sink.Look(sink.Scene{State: v.state, Plan: p, Baths: v.scene(material.None), Now: now})
	seen := map[string]bool{}
	for i := range l.Tags {
		of := l.Tags[i].Print.Of
		l.doubled[of] = seen[of]
		seen[of] = true
	}
	return l, nil
}

func (l *sinkLook) page(r *http.Request) *sinkPage {
	p := &sinkPage{frame: l.frame(r, "the_sink"), Nothing: len(l.Ways) == 0, Undo: r.FormValue("did"), Script: l.s.pages.script}
	for i := range l.Tags {
		t := l.tag(i)
		p.Tags = append(p.Tags, t)
		if t.Next {
			p.Next = &p.Tags[i]
		}
	}
	p.Trays = l.trays(p.Tags)
	p.Starts, p.Counts = l.starts(), l.counts()
	if len(p.Counts) > 2 {
		p.Counts, p.More = p.Counts[:2], p.Counts[2:]
	}
	p.Sizes = l.sizes()
	p.People = l.whose(l.person(r))
	p.Reads, p.Times = l.reads(), l.times()
	for i := range l.Stray {
		x := &l.Stray[i]
		p.Strays = append(p.Strays, tagView{Print: x.ID, Who: l.who(x, 0), Small: l.what(x)})
	}
	return p
}

// fixers reports whether a material is fixed twice, so that its fixers carry numbers.
func (l *sinkLook) fixers(film bool) bool {
	return slices.ContainsFunc(l.Stations, func(s sink.Station) bool { return s.Film == film && s.Step == process.SecondFix })
}

// number is the number of a station among its kind, 0 where it is alone.
func (l *sinkLook) number(s *sink.Station) int {
	switch {
	case s.Step == process.SecondFix:
		return 2
	case s.Step == process.Fix && l.fixers(s.Film):
		return 1
	}
	return 0
}

func (l *sinkLook) name(s *sink.Station) string { return l.say.SinkPlace(s.Step, l.number(s)) }

// into says where a tag goes next.
func (l *sinkLook) into(t *sink.Tag) (step process.Step, number int) {
	if t.Next < 0 {
		return process.NoStep, 0
	}
	return l.Stations[t.Next].Step, l.number(&l.Stations[t.Next])
}

// who names a print by whose it is; its number stands with it where that alone is not enough.
func (l *sinkLook) who(p *book.Print, number int) string {
	if p.Of == "" {
		key := "print"
		if p.What.Material == material.Film {
			key = "film"
		}
		return capital(l.say.SinkLine(key, "N", strconv.Itoa(number)))
	}
	name := l.called(p.Of)
	if l.doubled[p.Of] && number > 0 {
		name += " " + strconv.Itoa(number)
	}
	return name
}

// what says what a print is: 8×10, a strip, two films.
func (l *sinkLook) what(p *book.Print) string {
	switch {
	case p.What.Said.Strips > 0:
		return l.say.Label("sink_strip")
	case p.What.Said.Rolls > 1:
		return l.say.Count("rolls", p.What.Said.Rolls)
	}
	return l.say.Size(p.What.Size)
}

func (l *sinkLook) tag(i int) tagView {
	t := &l.Tags[i]
	step, number := l.into(t)
	v := tagView{Print: t.Print.ID, Who: l.who(&t.Print, t.Number), Small: l.what(&t.Print), Next: i == l.Next}
	if t.Print.Of != "" && t.Number > 0 {
		v.Small = l.say.SinkLine("small", "N", strconv.Itoa(t.Number), "Size", v.Small)
	}
	if t.Station >= 0 {
		v.At = l.Stations[t.Station].Key
	}
	v.Move = l.say.SinkMove(v.Who, step, number, t.Print.What.Material == material.Film)
	if t.Timed() {
		left := t.Due.Sub(l.now)
		v.Left, v.Over = words.Countdown(left), left < 0
		v.Ticks = ticksOf(t.Print.Now().For, left)
		if !v.Over && !l.now.Before(t.Lift) {
			v.Small = l.say.SinkLine("lift")
		}
	}
	return v
}

// ticksOf are the ticks of a time, at most twelve: each is as long as a clock's own parts are.
func ticksOf(whole, left time.Duration) []bool {
	step := time.Duration(0)
	for _, step = range []time.Duration{
		5 * time.Second, 10 * time.Second, 15 * time.Second, 30 * time.Second, time.Minute, 2 * time.Minute, 5 * time.Minute, time.Hour,
	} {
		if whole <= 12*step {
			break
		}
	}
	n := min(int((whole+step-1)/step), 12)
	out := make([]bool, n)
	for i := range out {
		out[i] = left > time.Duration(n-1-i)*step
	}
	return out
}
