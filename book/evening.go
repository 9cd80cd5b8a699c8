package book

import (
	"slices"
	"strings"
	"time"
)

// An Evening is one session of work from its opening to its close. Its lists and maps are not to be changed.
type Evening struct {
	ID     string
	Opened Said // zero where nobody said so: something was said of it all the same
	Shared bool // others may join
	Closed *Said
	Joined []Joining // in order
	Ticks  map[List]map[string]Tick
	Notes  []NoteSaid // in order
}

// A Joining is somebody coming in.
type Joining struct {
	Person string
	Said
}

// A Tick is what was last said of an item of a list.
type Tick struct {
	Done bool
	Said
}

// A NoteSaid is that a note was left; its words stand in the erasable record.
type NoteSaid struct {
	Note string
	Said
}

// saidOfEvening is one entry about an evening.
type saidOfEvening struct {
	moment
	said Said
	body Body
}

// noSession is where notes stand that belong to no evening.
const noSession = ""

// tellEvening takes in what was said of an evening.
func (s *State) tellEvening(e Entry, body Body) error {
	session, err := readEvening(body)
	if err != nil {
		return badBody(e, err)
	}
	said := saidOfEvening{moment: momentOf(e), said: saidBy(e), body: body}
	_, said.begins = body.(*EveningOpened)
	s.evenings[session] = inserted(s.evenings[session], said, func(a, b saidOfEvening) int { return a.compare(&b.moment) })
	return nil
}

// readEvening checks a body about an evening and returns the evening's id; the error is a *FieldError.
func readEvening(body Body) (session string, err error) {
	switch b := body.(type) {
	case *EveningOpened:
		return b.Session, wantID("session", b.Session)
	case *EveningClosed:
		return b.Session, wantID("session", b.Session)
	case *EveningJoined:
		return b.Session, first(wantID("session", b.Session), wantID("person", b.Person))
	case *Ticked:
		return b.Session, first(
			wantID("session", b.Session), mustBe("list", b.List, OpeningList, ClosingList), wantID("item", b.Item))
	case *Told:
		return b.Session, first(mayID("session", b.Session), wantID("note", b.Note))
	default:
		return "", &FieldError{Field: "session", Why: FieldMissing}
	}
}

// Evenings returns the evenings by when the first word was said of them, then by id.
func (s *State) Evenings() []Evening {
	all := make([]Evening, 0, len(s.evenings))
	begun := map[string]time.Time{}
	for id, said := range s.evenings {
		e, at := s.evening(id, said)
		if !at.IsZero() && id != noSession {
			all, begun[id] = append(all, e), at
		}
	}
	slices.SortStableFunc(all, func(a, b Evening) int {
		if c := begun[a.ID].Compare(begun[b.ID]); c != 0 {
			return c
		}
		return strings.Compare(a.ID, b.ID)
	})
	return all
}

// Evening returns one evening; ok is false where nothing that stands was said of it.
func (s *State) Evening(id string) (e Evening, ok bool) {
	e, at := s.evening(id, s.evenings[id])
	return e, !at.IsZero()
}

// Running returns the evening that goes on: the one opened last that nobody closed.
func (s *State) Running() (e Evening, ok bool) {
	for _, open := range s.Evenings() {
		if open.Closed == nil && open.Opened.Entry != "" && (!ok || !open.Opened.At.Before(e.Opened.At)) {
			e, ok = open, true
		}
	}
	return e, ok
}

// Notes returns the notes that were left outside of any evening and those of all evenings, in order.
func (s *State) Notes() []NoteSaid {
	var all []NoteSaid
	for id, said := range s.evenings {
		e, _ := s.evening(id, said)
		all = append(all, e.Notes...)
	}
	slices.SortStableFunc(all, func(a, b NoteSaid) int {
		if c := a.At.Compare(b.At); c != 0 {
			return c
		}
		return strings.Compare(a.Entry, b.Entry)
	})
	return all
}

// evening tells an evening from what stands of what was said; first is when the first of it was said.
func (s *State) evening(id string, said []saidOfEvening) (e Evening, first time.Time) {
	e = Evening{ID: id, Ticks: map[List]map[string]Tick{}}
	for i := range said {
		a := &said[i]
		if !s.corrections.stands(a.entry) {
			continue
		}
		if first.IsZero() {
			first = a.said.At
		}
		e.take(a.body, a.said)
	}
	return e, first
}

func (e *Evening) take(body Body, said Said) {
	switch b := body.(type) {
	case *EveningOpened:
		if e.Opened.Entry == "" {
			e.Opened = said
		}
		e.Shared = e.Shared || b.Shared
	case *EveningJoined:
		if !slices.ContainsFunc(e.Joined, func(j Joining) bool { return j.Person == b.Person }) {
			e.Joined = append(e.Joined, Joining{b.Person, said})
		}
	case *EveningClosed:
		e.Closed = &said
	case *Ticked:
		if e.Ticks[b.List] == nil {
			e.Ticks[b.List] = map[string]Tick{}
		}
		e.Ticks[b.List][b.Item] = Tick{Done: !b.Undone, Said: said}
	case *Told:
		e.Notes = append(e.Notes, NoteSaid{b.Note, said})
	}
}
