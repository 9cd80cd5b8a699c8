package web

import (
	"net/http"
	"strconv"

	"wetside/access"
	"wetside/book"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/words"
)

// printing is somebody's prints in the sink.
type printing struct {
	Who   string
	Where []words.Phrase
}

// invitation is how others join: a code to be read by a camera, and the address in letters.
type invitation struct {
	Code     *scene.Scene
	Address  string
	Loopback words.Phrase // why no phone can come in by that address; empty: it can
}

type wallPage struct {
	frame
	Lead     words.Phrase
	When     string
	Baths    []standing
	Tapes    bool
	Due      []words.Phrase
	Lacks    words.Phrase
	Printing []printing
	Waste    []words.Phrase // how full each can is
	Join     *invitation
	Position int64  // of the book that is shown
	Script   string // keeps it as the book is
}

// wall is read from four metres, by all who are in the room; it writes nothing and follows the book.
func (s *server) wall(r *http.Request, v *visit) error {
	l, err := v.lookAround(r)
	if err != nil {
		return err
	}
	p := wallPage{frame: v.frame(r, "wall"), Position: v.state.Position(), Script: s.pages.wallScript, Lead: v.say.Together(l.Report), When: v.say.DateTime(l.Report.At)}
	p.Baths, p.Tapes = v.standings(&l.Report)
	if p.Lacks, err = v.notHere(r.Context()); err != nil {
		return err
	}
	for _, d := range l.Report.Due {
		p.Due = append(p.Due, v.say.Due(l.Report, d))
	}
	p.Printing = v.printing(&l.Sink)
	p.Waste = v.wasteNow()
	p.Join, err = v.invitation(r, &l.Sink.Evening, true)
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "wall", &p)
}

// printing tells whose prints are where.
func (v *visit) printing(s *sink.Sink) []printing {
	shares := s.Shares(v.state)
	all := make([]printing, 0, len(shares))
	for _, share := range shares {
		one := printing{Who: v.called(share.Person)}
		if share.Person == "" && len(shares) > 1 {
			one.Who = v.say.Label("somebody")
		}
		for _, p := range share.Places {
			m, times := material.RC, ""
			if p.Film {
				m = material.Film // some of its baths have names of their own
			}
			if p.Prints > 1 {
				times = strconv.Itoa(p.Prints)
			}
			one.Where = append(one.Where, v.say.Tell("wall_in", "Where", v.say.BathName(p.Step, m), "N", times))
		}
		all = append(all, one)
	}
	return all
}

// invitation is how the evening is joined; nil where it is not shared.
func (v *visit) invitation(r *http.Request, e *book.Evening, wall bool) (*invitation, error) {
	if e.ID == "" || !e.Shared || !v.keeps() && v.who.Role != access.Wall {
		return nil, nil //nolint:nilnil // nothing to join
	}
	code, err := v.s.Book.Invitation(r.Context(), e.ID)
	if book.KindOf(err) == book.NotFound {
		return nil, nil //nolint:nilnil // shared by another way in
	}
	if err != nil {
		return nil, err
	}
	in := invitation{Address: addressOf(r) + "/join/" + code}
	if access.Loopback(r.Host) {
		in.Loopback = v.say.Tell("join_loopback", "Host", r.Host)
	}
	in.Code = drawn(draw.QR{Text: in.Address, Say: v.say.Label("join_here"), Size: codeSize(wall)}.Scene(v.form()))
	return &in, nil
}

// addressOf is the address by which this server was asked.
func addressOf(r *http.Request) string {
	if access.Secure(r) {
		return "https://" + r.Host
	}
	return "http://" + r.Host
}
