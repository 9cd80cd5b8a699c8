package book

import (
	"slices"
	"time"

	"wetside/trade/process"
	"wetside/trade/quantity"
)

// A track is all that was said of a print, and what it comes to. It is replaced, never changed.
type track struct {
	said  []saidOfPrint // that it was started first, then in the order of the moments
	print Print
	deeds []*deed // what it did to baths and batches
}

// saidOfPrint is one entry about a print.
type saidOfPrint struct {
	moment
	started *startOfPrint
	stay    *Stay // of a start and of a move
	exit    *Exit
}

type startOfPrint struct {
	of, session string
	what        Pass
}

// maxStay bounds how long a print is told to stay in one place.
const maxStay = 24 * time.Hour

// tellPrint takes in what was said of a print.
func (s *State) tellPrint(e Entry, body Body) error {
	id, said, err := s.readPrint(e, body)
	if err != nil {
		return badBody(e, err)
	}
	said.moment = momentOf(e)
	var before []saidOfPrint
	if was := s.prints[id]; was != nil {
		before = slices.Clip(was.said)
	}
	s.trackOf[e.ID] = id
	s.track(id, inserted(before, said, func(a, b saidOfPrint) int { return a.compare(&b) }))
	return nil
}

// compare puts starts first, whatever the clock of whoever tapped them showed: nothing happens to a print before.
func (a *saidOfPrint) compare(b *saidOfPrint) int {
	switch {
	case a.started != nil && b.started == nil:
		return -1
	case a.started == nil && b.started != nil:
		return 1
	}
	return a.moment.compare(&b.moment)
}

// readPrint reads a body about a print; the error is a *FieldError.
func (s *State) readPrint(e Entry, body Body) (id string, said saidOfPrint, err error) {
	switch b := body.(type) {
	case *PrintStarted:
		if err = first(wantID("print", b.Print), mayID("of", b.Of), mayID("session", b.Session)); err != nil {
			return id, said, err
		}
		start := &startOfPrint{of: b.Of, session: b.Session}
		if start.what, err = s.pass(&b.Prints, false); err != nil {
			return id, said, err
		}
		said.started = start
		id = b.Print
		said.stay, err = b.read(e)
	case *PrintMoved:
		if err = wantID("print", b.Print); err != nil {
			return id, said, err
		}
		id = b.Print
		said.stay, err = b.read(e)
	case *PrintLeft:
		id, err = b.Print, wantID("print", b.Print)
		said.exit = &Exit{Said: saidBy(e), Abandoned: b.Abandoned}
	}
	return id, said, err
}

func saidBy(e Entry) Said { return Said{Entry: e.ID, By: e.By, Device: e.Device, At: e.HappenedAt} }

// read reads where a print was put; the error is a *FieldError.
func (a *At) read(e Entry) (*Stay, error) {
	if err := first(mayID("bath", a.Bath), mayID("batch", a.Batch)); err != nil {
		return nil, err
	}
	stay := &Stay{Bath: a.Bath, Batch: a.Batch, Since: e.HappenedAt, Said: saidBy(e)}
	var words []string
	for _, step := range process.Steps() {
		if step.String() == a.Step {
			stay.Step = step
		}
		words = append(words, step.String())
	}
	if stay.Step == process.NoStep {
		return nil, mustBe("step", a.Step, words...)
	}
	var err error
	if stay.For, err = readStay("for", a.For); err != nil {
		return nil, err
	}
	if stay.Drain, err = readStay("drain", a.Drain); err != nil {
		return nil, err
	}
	stay.Drain = min(stay.Drain, stay.For)
	return stay, nil
}

func readStay(field, words string) (time.Duration, error) {
	if words == "" {
		return 0, nil
	}
	d, err := quantity.ReadDuration(words)
	switch {
	case err != nil:
		return 0, &FieldError{Field: field, Found: quantity.Shown(words), Why: FieldUnreadable, Want: []string{"90 s", "2 min"}, Cause: err}
	case d > maxStay:
		return 0, &FieldError{Field: field, Found: quantity.Shown(words), Why: FieldTooMuch, Want: []string{quantity.Duration(maxStay)}}
	}
	return d, nil
}

// track tells a print's way and what it did to baths and batches, in place of what was told of it before.
func (s *State) track(id string, said []saidOfPrint) {
	t := &track{said: said, print: s.follow(id, said)}
	t.deeds = t.effects()
	if was := s.prints[id]; was != nil {
		for _, d := range was.deeds {
			s.withdraw(d)
		}
	}
	for _, d := range t.deeds {
		s.file(d)
	}
	s.prints[id] = t
	if delete(s.inSink, id); t.print.Left == nil && len(t.print.Stays) > 0 {
		s.inSink[id] = true
	}
}

// file puts a deed into the lives that it belongs to.
func (s *State) file(d *deed) {
	if _, isFault := d.did.(FaultSeen); isFault {
		s.looked = inserted(s.looked, d, compareDeeds)
	}
	for _, id := range d.did.Baths() {
		s.deeds[id] = inserted(s.deeds[id], d, compareDeeds)
	}
	if id := batchOf(d.did); id != "" {
		s.batches[id] = inserted(s.batches[id], d, compareDeeds)
	}
}

// withdraw takes a deed out of the lives that it was put into.
func (s *State) withdraw(d *deed) {
	for _, id := range d.did.Baths() {
		without(s.deeds, id, d)
	}
	if id := batchOf(d.did); id != "" {
		without(s.batches, id, d)
	}
}

func without(lists map[string][]*deed, id string, d *deed) {
	list := lists[id]
	at := slices.Index(list, d)
	switch {
	case at < 0:
	case len(list) == 1:
		delete(lists, id)
	default:
		lists[id] = slices.Concat(list[:at], list[at+1:])
	}
}

// follow tells a print's way from what stands of what was said.
func (s *State) follow(id string, said []saidOfPrint) Print {
	p := Print{ID: id}
	started := false
	for i := range said {
		a := &said[i]
		if !s.corrections.stands(a.entry) {
			continue
		}
		switch {
		case a.started != nil && started:
			p.odd(StartedTwice, a.entry)
		case a.started != nil:
			started = true
			p.Of, p.Session, p.What, p.Began = a.started.of, a.started.session, a.started.what, a.stay.Since
			p.put(a.stay)
		case a.exit != nil:
			p.Left, p.Last = a.exit, a.exit.Said
		default:
			p.put(a.stay)
		}
	}
	if !started {
		p.odd(NeverStarted, p.Last.Entry)
	}
	return p
}

func (p *Print) odd(kind PrintOddKind, entry string) { p.Odd = append(p.Odd, PrintOdd{kind, entry}) }

// put takes a print to its next place. The same place said again is the same stay, with the time that was set last.
func (p *Print) put(s *Stay) {
	p.Last = s.Said
	if p.Left != nil {
		p.odd(CameBack, s.Said.Entry)
		p.Left = nil
	}
	if n := len(p.Stays); n > 0 {
		now := &p.Stays[n-1]
		if now.Step == s.Step && now.Bath == s.Bath && now.Batch == s.Batch {
			if s.For > 0 {
				now.For, now.Drain = s.For, s.Drain
			}
			return
		}
		if s.Step.Before(now.Step) {
			p.odd(WentBack, s.Said.Entry)
		}
	}
	p.Stays = append(p.Stays, *s)
}

// Started reports whether somebody said, and did not take back, that the print was started.
func (p *Print) Started() bool { return !p.Began.IsZero() }

// Now returns where the print is, or was when it left; nil for one of which no place is known.
func (p *Print) Now() *Stay {
	if len(p.Stays) == 0 {
		return nil
	}
	return &p.Stays[len(p.Stays)-1]
}
