package api

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"

	"wetside/ahead"
	"wetside/book"
	"wetside/plan"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/words/facts"
)

// mostLooks is how many answers are kept of one position and hour of the book.
const mostLooks = 8

// looks are the answers that take long, of the book as it stands: whoever asks again gets the same.
type looks struct {
	mu   sync.Mutex
	tag  string
	kept map[string][]byte
}

// get returns an answer that is kept under a tag, or makes it. Those who ask for the same at once wait for one making.
func (l *looks) get(tag, name string, render func() ([]byte, error)) ([]byte, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.tag != tag || len(l.kept) >= mostLooks {
		l.tag, l.kept = tag, map[string][]byte{}
	}
	if text := l.kept[name]; text != nil {
		return text, nil
	}
	text, err := render()
	if err == nil {
		l.kept[name] = text
	}
	return text, err
}

// tagged answers with what follows from a state of the book: nothing where the client has it already. The tag is the book's
// position and the hour: what a bath still does and until when follows the day, too.
func (c *call) tagged(of func(s *book.State) (any, error)) error {
	s, err := c.a.Book.State(c.ctx())
	if err != nil {
		return err
	}
	tag := fmt.Sprintf(`W/"%d-%s"`, s.Position(), c.a.Now().UTC().Format("2006010215"))
	c.w.Header().Set("ETag", tag)
	if asked := c.r.Header.Get("If-None-Match"); has(asked, tag) {
		c.w.WriteHeader(http.StatusNotModified)
		return nil
	}
	text, err := c.a.looks.get(tag, c.r.URL.Path+"?"+c.r.URL.RawQuery, func() ([]byte, error) {
		v, err := of(s)
		if err != nil {
			return nil, err
		}
		return encode(v)
	})
	if err != nil {
		c.w.Header().Del("ETag")
		return err
	}
	return c.sendText(http.StatusOK, kindJSON, text)
}

// has reports whether a list of tags has one (RFC 9110, 13.1.2: compared weakly).
func has(list, tag string) bool {
	return slices.ContainsFunc(strings.Split(list, ","), func(one string) bool {
		one = strings.TrimSpace(one)
		return one == "*" || strings.TrimPrefix(one, "W/") == strings.TrimPrefix(tag, "W/")
	})
}

// asked is the material that is asked about; none leaves it to what is to be made.
func (c *call) asked() (material.Material, error) {
	text := c.r.URL.Query().Get("material")
	if text == "" {
		return material.None, nil
	}
	m, err := material.Read(text)
	if err != nil {
		return m, invalid(mistake{param: "material", code: "no_word", found: short([]byte(text)), want: materials()})
	}
	return m, nil
}

func materials() []string {
	var all []string
	for _, m := range material.All() {
		all = append(all, m.String())
	}
	return all
}

// outlooks are what the baths of a state still do.
func (c *call) outlooks(s *book.State, asked material.Material) (facts.Baths, error) {
	v, err := c.a.voiceOf(s)
	if err != nil {
		return facts.Baths{}, err
	}
	r, err := ahead.Look(ahead.FromBook(s, asked, c.a.Now()))
	if err != nil {
		return facts.Baths{}, err
	}
	return facts.OfReport(r, func(o ahead.Outlook) string { return v.Outlook(o).Text() }), nil
}

func (c *call) state() error {
	return c.tagged(func(s *book.State) (any, error) {
		baths, err := c.outlooks(s, material.None)
		return facts.OfState(s, baths), err
	})
}

func (c *call) baths() error {
	asked, err := c.asked()
	if err != nil {
		return err
	}
	return c.tagged(func(s *book.State) (any, error) { return c.outlooks(s, asked) })
}

func (c *call) bath() error {
	asked, err := c.asked()
	if err != nil {
		return err
	}
	return c.tagged(func(s *book.State) (any, error) {
		id := c.r.PathValue("id")
		s, err := c.awake(s, func(s *book.State) book.Waking { return s.NeedsBaths(id) })
		if err != nil {
			return nil, err
		}
		b, there := s.Bath(id)
		if !there {
			return nil, c.noSuch("/baths")
		}
		if b.Gone != nil {
			return facts.OfBath(s, &b, nil), nil
		}
		all, err := c.outlooks(s, asked)
		if err != nil {
			return nil, err
		}
		i := slices.IndexFunc(all.Baths, func(o facts.Outlook) bool { return o.ID != nil && *o.ID == b.ID })
		if i < 0 {
			return facts.OfBath(s, &b, nil), nil
		}
		return facts.OfBath(s, &b, &all.Baths[i]), nil
	})
}

// noSuch is the failure where nothing has the id of the path; list is where what there is stands.
func (c *call) noSuch(list string) error {
	return &failure{slug: pNotFound, key: "not_found_id", args: []string{"Found", short([]byte(c.r.PathValue("id"))), "Want", Prefix + list}}
}

// awake returns a state with what is wanted of what is long finished.
func (c *call) awake(s *book.State, needs func(*book.State) book.Waking) (*book.State, error) {
	if w := needs(s); w.None() {
		return s, nil
	}
	return c.a.Book.Awake(c.ctx(), needs)
}

func (c *call) sessions() error {
	s, err := c.a.Book.Awake(c.ctx(), func(s *book.State) book.Waking { return s.NeedsEvenings() })
	if err != nil {
		return err
	}
	out := facts.Sessions{Sessions: []facts.Session{}}
	for _, e := range s.Evenings() {
		out.Sessions = append(out.Sessions, facts.OfEvening(e, s.CountOf(e.ID)))
	}
	if e, ok := s.Running(); ok {
		out.Running = &e.ID
	}
	return c.send(http.StatusOK, kindJSON, out)
}

func (c *call) session() error {
	id := c.r.PathValue("id")
	s, err := c.a.Book.Awake(c.ctx(), func(s *book.State) book.Waking { return s.NeedsEvenings(id) })
	if err != nil {
		return err
	}
	e, there := s.Evening(id)
	if !there {
		return c.noSuch("/sessions")
	}
	return c.send(http.StatusOK, kindJSON, facts.OfEvening(e, s.CountOf(e.ID)))
}

// timers tells what lies in the sink. The plan of the evening says how long a wash takes and what comes next.
func (c *call) timers() error {
	s, err := c.a.Book.State(c.ctx())
	if err != nil {
		return err
	}
	now := c.a.Now()
	f, _ := s.File(nil)
	p, err := plan.Make(c.ctx(), plan.Request{File: f, Now: now})
	if err != nil && !errors.Is(err, plan.ErrNoName) { // without a name nothing is planned, and something may lie there all the same
		return err
	}
	all := sink.Look(sink.Scene{State: s, Plan: p, Baths: ahead.FromBook(s, material.None, now), Now: now})
	return c.send(http.StatusOK, kindJSON, facts.OfSink(&all, now))
}

func (c *call) readings() error {
	s, err := c.a.Book.State(c.ctx())
	if err != nil {
		return err
	}
	return c.send(http.StatusOK, kindJSON, facts.OfReadings(s))
}

// describe answers with the description of the API.
func (c *call) describe() error {
	text, tag := description()
	h := c.w.Header()
	h.Set("Cache-Control", "no-cache")
	h.Set("ETag", tag)
	if has(c.r.Header.Get("If-None-Match"), tag) {
		c.w.WriteHeader(http.StatusNotModified)
		return nil
	}
	return c.sendText(http.StatusOK, "application/vnd.oai.openapi+json;version=3.1", text)
}
