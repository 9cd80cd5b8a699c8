package web

import (
	"net/http"
	"slices"

	"wetside/book"
	"wetside/trade/fault"
	"wetside/words"
)

// causeView is one cause with its check.
type causeView struct {
	words.CauseTold
	Key, Name, Kind, From string
	N                     int
	Open                  bool // it is the one to look at next
	In                    bool // its check said yes
	Speaks                []words.Phrase
	Standing              fault.Standing
}

type causePage struct {
	frame
	Sign   signView
	Key    string // the sign's
	Bath   string
	About  string
	First  words.Phrase // how light is told from chemistry
	Light  []causeView  // to be ruled out first
	Causes []causeView
	Out    []causeView
	No     []string // the causes that were ruled out, by their keys
	Begun  bool     // a check was answered
	None   bool     // nothing is left
	Kept   *foundView
}

// A shownCause is a cause with what its form carries on.
type shownCause struct {
	C    causeView
	Page *causePage
}

// Shown puts a cause together with its page, for its part of the template.
func (p *causePage) Shown(c causeView) shownCause { return shownCause{c, p} }

// whereToLook is where to look for the cause of a sign, in order.
func (v *visit) whereToLook(r *http.Request, sign fault.Sign) error {
	if !sign.Known() {
		return errNotFound
	}
	q := r.URL.Query()
	p := &causePage{frame: v.frame(r, "wrong"), Key: string(sign), Bath: v.aboutBath(q.Get("bath")), First: v.say.SignFirst(sign)}
	p.Sign, p.About = v.sign(sign, p.Bath), v.bathNamed(p.Bath)
	p.Title = p.Sign.Name
	ask := fault.Question{Sign: sign, Bath: p.Bath, No: causesOf(sign, q["no"]), Yes: causesOf(sign, q["yes"])}
	var err error
	if ask.Facts, err = v.known(r.Context()); err != nil {
		return err
	}
	g, err := fault.Look(ask)
	if err != nil {
		return err
	}
	for _, c := range ask.No {
		p.No = append(p.No, string(c))
	}
	p.Begun = len(ask.No)+len(ask.Yes) > 0
	p.causes(v, g)
	p.kept(v, q.Get("did"))
	return v.show(http.StatusOK, "cause", p)
}

// causesOf takes the causes of a sign out of what an address says.
func causesOf(sign fault.Sign, keys []string) (all []fault.Cause) {
	for _, l := range sign.Links() {
		if slices.Contains(keys, string(l.Cause)) {
			all = append(all, l.Cause)
		}
	}
	return all
}

// causes sets the causes in their groups; what was confirmed is open, else the first that is left.
func (p *causePage) causes(v *visit, g fault.Guide) {
	next := max(slices.IndexFunc(g.Causes, func(s fault.Standing) bool { return s.In }), 0)
	for i, s := range g.Causes {
		c := causeView{
			CauseTold: v.say.Cause(s.Cause), Key: string(s.Cause), Name: v.say.CauseName(s.Cause), Kind: v.say.FaultKind(s.Kind),
			From: v.say.CauseFrom(s.Link), N: i + 1, Open: i == next && !s.Out, In: s.In, Standing: s,
		}
		for _, x := range s.Speaks {
			if x.Kind != fault.CheckYes && x.Kind != fault.CheckNo {
				c.Speaks = append(c.Speaks, v.say.Spoken(x))
			}
		}
		switch {
		case s.Out:
			p.Out = append(p.Out, c)
		case i < g.LightFirst:
			p.Light = append(p.Light, c)
		default:
			p.Causes = append(p.Causes, c)
		}
	}
	p.None = len(p.Light)+len(p.Causes) == 0
}

// kept says what was written just now.
func (p *causePage) kept(v *visit, entry string) {
	for _, e := range v.state.Faults() {
		if f, ok := e.Did.(book.FaultSeen); ok && e.Entry == entry && entry != "" {
			p.Kept = &foundView{Text: v.say.Found(f), When: v.say.DateTime(e.At), Undo: v.mayUndo(e)}
		}
	}
}
