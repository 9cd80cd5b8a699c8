package web

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/draw"
	"wetside/draw/scene"
	"wetside/sink"
	"wetside/trade/material"
	"wetside/trade/process"
	"wetside/words"
)

type bathPage struct {
	frame
	ID       string
	Label    string // where its label is; empty: it is gone
	Position int64
	Name     string
	About    string // what was mixed
	Made     words.Phrase
	Whose    string       // empty: the room's
	Gone     words.Phrase // how it went; empty: it stands
	Reads    words.Phrase // the temperature last read in it; empty: none today
	Lead     words.Phrase
	End      words.Phrase
	Pictures []twoSizes // tape and curve
	Beside   []words.Phrase
	Bad      bool // it is not to be used any more: what comes next stands at the head
	Helps    []words.Phrase
	Out      []words.Phrase // what is done when it is out
	Learned  *scene.Scene
	// How is how its figures are known.
	How      []ahead.Outlook
	Did      *doneView // what was written just now
	Tally    tallyView
	Cards    []cardView
	Other    *otherTest
	Acts     actsView
	History  []happened
	Compared *compared
	Ifs      []ifLink
	IfFields ifForm
}

// doneView says what was written just now, and how to take it back.
type doneView struct {
	Text words.Phrase
	Odd  []words.Phrase
	Undo string
	Back string // where taking it back leads
	Move bool   // the second moved forward: a fresh one is wanted in its place
}

// bathOf finds the bath of an address with its outlook, which is nil where it is gone.
func (v *visit) bathOf(r *http.Request) (b book.Bath, s ahead.Scene, report ahead.Report, o *ahead.Outlook, err error) {
	b, there := v.state.Bath(r.PathValue("id"))
	if !there {
		return b, s, report, nil, errNotFound
	}
	if b.Gone != nil {
		return b, v.scene(v.askedOf(r)), report, nil, nil
	}
	if s, report, err = v.outlook(r.Context(), looking{asked: v.askedOf(r), deep: true}); err != nil {
		return b, s, report, nil, err
	}
	i := slices.IndexFunc(report.Baths, func(x ahead.Outlook) bool { return x.Bath.ID == b.ID })
	if i < 0 {
		return b, s, report, nil, nil
	}
	return b, s, report, &report.Baths[i], nil
}

// askedOf is the material that a page is asked about first, where its address says one.
func (v *visit) askedOf(r *http.Request) material.Material {
	if m, err := material.Read(r.URL.Query().Get("material")); err == nil {
		return m
	}
	return material.None
}

// bath is the page of one bath.
func (s *server) bath(r *http.Request, v *visit) error {
	p, err := v.bathPage(r)
	if err != nil {
		return err
	}
	return v.show(http.StatusOK, "bath", p)
}

func (v *visit) bathPage(r *http.Request) (*bathPage, error) {
	b, sc, report, o, err := v.bathOf(r)
	if err != nil {
		return nil, err
	}
	p := &bathPage{frame: v.frame(r, "baths"), ID: b.ID, Position: v.state.Position(), History: v.history(&b)}
	p.about(v, &b)
	p.Did = v.written(r, &b, p.History)
	if o == nil {
		return p, nil
	}
	p.Name, p.Made = capital(v.say.BathCalled(o.Bath)), v.say.Since(o.Bath, v.called(o.Bath.MadeBy))
	p.Title = p.Name
	p.outlook(v, o)
	p.learned(v, o, report)
	p.Out = v.whenOut(o)
	p.Label = labelsOf(b.ID)
	p.Reads = v.reads(sink.LastRead(v.state, b.ID, v.s.Now()))
	p.Bad = o.OutOfUse()
	p.Tally = v.tally(r, o, &sc)
	p.Cards = v.cards(o)
	p.Other = v.otherTest()
	p.Acts = v.acts(&b)
	p.Ifs, p.IfFields = v.ifs(o, r)
	return p, p.compare(v, r, sc, o)
}

// about says what was mixed, of a bath that is gone too.
func (p *bathPage) about(v *visit, b *book.Bath) {
	product, _ := v.state.Product(b.Mixed.Product)
	p.Name = capital(v.say.Role(product.Role))
	if product.Role == process.NoRole {
		p.Name = v.say.Label("bath")
	}
	p.About = joined(product.Name, b.Mixed.Dilution, v.say.Volume(b.Volume))
	p.Made = v.say.Tell("bath_made", "When", v.say.DateTime(b.MixedAt), "By", v.called(b.By))
	p.Title = p.Name
	if b.Mixed.Whose != "" {
		p.Whose = v.ofWhom(b.Mixed.Whose)
	}
	if b.Gone == nil {
		return
	}
	p.Gone = v.say.Tell("bath_gone", "When", v.say.DateTime(b.Gone.At), "To", v.wentTo(b.Gone.To))
}

// reads says what was read in a bath and when; nothing for nil.
func (v *visit) reads(r *sink.Reading) words.Phrase {
	if r == nil {
		return nil
	}
	ago := max(v.s.Now().Sub(r.At).Round(time.Minute), time.Minute)
	return v.say.Tell("bath_reads", "Temperature", v.say.TemperatureRead(r.Celsius), "Ago", v.say.Time(ago), "When", v.say.Clock(r.At), "Probe", r.Probe)
}

// wentTo says where a bath went; a word of the room's own is left as it is.
func (v *visit) wentTo(to string) string { return v.labelOr(to, "gone_"+key(to)) }

// outlook sets the sentence, its pictures and what belongs to it.
func (p *bathPage) outlook(v *visit, o *ahead.Outlook) {
	p.Lead, p.End, p.Beside = v.say.Lead(*o), v.say.LeadEnd(*o), v.say.Beside(*o)
	if len(o.Reckoning) > 0 {
		p.How = []ahead.Outlook{*o}
	}
	scale := v.tapeScale([]ahead.Outlook{*o})
	p.picture(func(size draw.Size) *scene.Scene { return v.tape(o, scale, size) })
	if c, ok := draw.CurveOf(v.say, o); ok {
		p.picture(func(size draw.Size) *scene.Scene {
			c.Size = size
			return drawn(c.Scene(v.form()))
		})
	}
	if o.Lead.Kind != ahead.UseFor { // nothing helps a bath that is spent
		return
	}
	for _, h := range o.Helps {
		p.Helps = append(p.Helps, v.say.Help(*o, h))
	}
}

// twoSizes is a picture for a phone and for a desk; the page shows one of them.
type twoSizes struct{ Phone, Desk scene.Scene }

// picture adds a picture in both sizes, where it can be drawn.
func (p *bathPage) picture(of func(size draw.Size) *scene.Scene) {
	phone, desk := of(draw.Phone), of(draw.Desk)
	if phone != nil && desk != nil {
		p.Pictures = append(p.Pictures, twoSizes{*phone, *desk})
	}
}

// learned draws what the room's tests taught of the bath's material.
func (p *bathPage) learned(v *visit, o *ahead.Outlook, r ahead.Report) {
	for _, l := range r.Learned {
		if l.Chain.Material == o.Chain.Material && l.Tests > 0 {
			p.Learned = drawn(draw.LearnedOf(v.say, l).Scene(v.form()))
			return
		}
	}
}

// whenOut says what is done with a bath that is out. What goes down which drain is the place's own law, so that only what
// must never is said.
func (v *visit) whenOut(o *ahead.Outlook) []words.Phrase {
	var out []words.Phrase
	switch {
	case o.Bath.Role != process.Fixer:
		out = append(out, v.say.Tell("out_other"))
	case v.file.Darkroom.Drain == darkroom.Septic:
		out = append(out, v.say.Tell("out_fixer"), v.say.Tell("out_septic"))
	default:
		out = append(out, v.say.Tell("out_fixer"))
	}
	return out
}

// joined sets what is said between commas.
func joined(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), ", ")
}
