package web

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"wetside/ahead/evidence"
	"wetside/book"
	"wetside/draw/scene"
	"wetside/draw/signs"
	"wetside/trade/fault"
	"wetside/trade/material"
	"wetside/words"
)

// signView is a sign to be touched.
type signView struct {
	Name, Look, At string
	Picture        *scene.Scene
}

// signsAt are the signs of a place.
type signsAt struct {
	Title string
	Signs []signView
}

// foundView is what was found of late.
type foundView struct {
	Text words.Phrase
	When string
	Undo string
}

type wrongPage struct {
	frame
	Say    field // the words
	Bath   string
	About  string // the bath's name
	Asked  bool   // words were typed
	Meant  []signView
	Places []signsAt
	Lately []foundView
}

// wrongPath is where something that looks wrong begins.
const wrongPath = "/wrong"

// wrong shows the signs, or where to look for the cause of one of them.
func (s *server) wrong(r *http.Request, v *visit) error {
	q := r.URL.Query()
	if sign := q.Get("sign"); sign != "" {
		return v.whereToLook(r, fault.Sign(sign))
	}
	p := &wrongPage{frame: v.frame(r, "wrong"), Bath: v.aboutBath(q.Get("bath"))}
	p.About = v.bathNamed(p.Bath)
	said := strings.TrimSpace(q.Get("q"))
	p.Say = field{Name: "q", Label: v.say.Label("wrong_say"), Value: said, Example: v.say.Label("wrong_example")}
	if p.Asked = said != ""; p.Asked {
		for _, f := range v.say.FindSigns(said) {
			p.Meant = append(p.Meant, v.sign(f.Sign, p.Bath))
		}
	}
	for _, w := range fault.Places() {
		at := signsAt{Title: v.say.FaultPlace(w)}
		for _, sign := range fault.SignsAt(w) {
			at.Signs = append(at.Signs, v.sign(sign, p.Bath))
		}
		p.Places = append(p.Places, at)
	}
	p.Lately = v.foundLately()
	return v.show(http.StatusOK, "wrong", p)
}

// aboutBath returns the id of a bath that the book knows, else nothing.
func (v *visit) aboutBath(id string) string {
	if _, ok := v.state.Bath(id); ok {
		return id
	}
	return ""
}

// bathNamed names a bath of the book; an empty id has no name.
func (v *visit) bathNamed(id string) string {
	if id == "" {
		return ""
	}
	sc := v.scene(material.None)
	for i := range sc.Baths {
		if b := &sc.Baths[i]; b.ID == id && !b.Gone {
			return capital(v.say.BathCalled(*b))
		}
	}
	if b, ok := v.state.Bath(id); ok {
		return capital(v.calledInBook(&b))
	}
	return ""
}

func (v *visit) sign(s fault.Sign, bath string) signView {
	q := url.Values{"sign": {string(s)}}
	if bath != "" {
		q.Set("bath", bath)
	}
	// Its name stands beside it: the picture says how it looks.
	picture := signs.Picture{Sign: s, Label: v.say.SignLook(s)}
	return signView{Name: v.say.SignName(s), Look: v.say.SignLook(s), At: wrongPath + "?" + q.Encode(), Picture: drawn(picture.Scene(v.form()))}
}

// How much of what was found is shown, and for how long.
const (
	latelyFor  = 60 * 24 * time.Hour
	latelyMost = 8
)

// foundLately is what was found of late, the latest first.
func (v *visit) foundLately() (all []foundView) {
	for _, e := range slices.Backward(v.state.Faults()) {
		f, ok := e.Did.(book.FaultSeen)
		if !ok || v.s.Now().Sub(e.At) > latelyFor || len(all) == latelyMost {
			continue
		}
		when := v.say.DateTime(e.At)
		if by := v.called(e.By); by != "" {
			when += ", " + by
		}
		all = append(all, foundView{Text: v.say.Found(f), When: when, Undo: v.mayUndo(e)})
	}
	return all
}

// mayUndo is the address by which an entry is taken back; empty where it is not theirs to do.
func (v *visit) mayUndo(e book.Event) string {
	if !v.keeps() && !v.who.Wrote(e.By, e.Device) {
		return ""
	}
	return "/undo/" + e.Entry
}

// keepFound writes down what was found.
func (s *server) keepFound(r *http.Request, v *visit) error {
	sign := fault.Sign(r.PathValue("sign"))
	if !sign.Known() {
		return errNotFound
	}
	if err := r.ParseForm(); err != nil {
		return err
	}
	about := r.PostForm.Get("bath")
	if err := v.wake(r.Context(), func(s *book.State) book.Waking { return s.NeedsBaths(about) }); err != nil {
		return err
	}
	body := &book.FaultFound{Sign: string(sign), Cause: r.PostForm.Get("cause"), Bath: v.aboutBath(about)}
	if body.Cause != "" {
		known := slices.ContainsFunc(sign.Links(), func(l fault.Link) bool { return string(l.Cause) == body.Cause })
		if !known {
			return errNotFound
		}
		body.Done = book.FaultDone(r.PostForm.Get("done"))
	}
	e, err := v.author(r).Write(body)
	if err != nil {
		return err
	}
	if err := s.Book.Append(r.Context(), []book.Entry{e}, nil); err != nil {
		return err
	}
	q := url.Values{"sign": {string(sign)}, "did": {e.ID}}
	if body.Cause != "" {
		q.Set("yes", body.Cause)
	}
	if body.Bath != "" {
		q.Set("bath", body.Bath)
	}
	return v.to(r, wrongPath+"?"+q.Encode())
}

// known is what the book says that bears on a sign.
func (v *visit) known(ctx context.Context) ([]fault.Fact, error) {
	_, report, err := v.outlook(ctx, looking{few: true})
	if err != nil {
		return nil, err
	}
	since := report.At.Add(-evidence.LooksBack)
	if err := v.wake(ctx, func(s *book.State) book.Waking { return s.NeedsBatches(since) }); err != nil {
		return nil, err
	}
	return v.say.FactsCalled(evidence.Of(v.state, &report), &report), nil
}
