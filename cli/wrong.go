package cli

import (
	"errors"
	"slices"
	"strings"

	"wetside/ahead"
	"wetside/ahead/evidence"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/fault"
	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

type wrongCmd struct {
	Words   []string `arg:"" optional:"" help:"What is seen, in your own words; none lists all signs."`
	Sign    string   `help:"The sign by its key, as --json tells it, in place of words." placeholder:"SIGN"`
	Bath    string   `help:"The bath that it is about, as \"wetside baths\" tells it, or its id." placeholder:"BATH"`
	Not     []string `help:"Causes whose check said no, by their keys." placeholder:"CAUSE"`
	Found   string   `help:"Write down that this was the cause." placeholder:"CAUSE"`
	Done    string   `help:"What was done about it: remedied or later." enum:"remedied,later," default:"" placeholder:"DONE"`
	UseBook bool     `name:"book" help:"Ask the book what it knows of the baths." default:"true" negatable:""`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run tells what may be behind something that looks wrong.
func (c *wrongCmd) Run(s *session) error {
	if (c.Bath != "" || c.Found != "" || c.UseBook && c.booked()) && c.UseBook {
		return s.onBench(&c.whereFlags, c.JSON, func(b *bench) error { return c.tell(s, b.v, b) })
	}
	if c.Bath != "" || c.Found != "" {
		return bad(c.JSON, "--no-book leaves nothing to ask or to write: leave it out with --bath and --found")
	}
	v, err := voiceFor(s, darkroom.File{}, quantity.NoOunce)
	if err != nil {
		return err
	}
	return c.tell(s, v, nil)
}

// booked reports whether there is a book: none is made for a question.
func (c *wrongCmd) booked() bool { return c.Database != "" || c.DatabaseFile != "" || there(c.Data) }

// tell finds the sign, asks what is known, and answers. b is nil where no book is asked.
func (c *wrongCmd) tell(s *session, v *words.Voice, b *bench) error {
	found, err := c.signs(v)
	if err != nil {
		return err
	}
	out, p := facts.Wrong{Signs: facts.OfSigns(v, found)}, newPrinter(s.io.Out)
	if len(found) == 0 || c.listed() {
		return c.list(s, v, p, out)
	}
	q := fault.Question{Sign: found[0].Sign}
	if q.No, err = c.causes(v, q.Sign, "--not", c.Not...); err != nil {
		return err
	}
	if b != nil {
		if err := c.ask(b, &q); err != nil {
			return err
		}
	}
	g, err := fault.Look(q)
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	if c.Found != "" {
		if out.Entry, err = c.keep(b, &q); err != nil {
			return err
		}
	}
	if c.JSON {
		out.Guide = facts.OfGuide(v, g)
		writeJSON(s.io.Out, out)
		return nil
	}
	tellGuide(p, v, g, found[1:])
	if out.Entry != "" {
		p.gap()
		p.wrap(v.Label("wrong_kept") + " " + out.Entry)
	}
	return nil
}

// listed reports whether all signs are asked for.
func (c *wrongCmd) listed() bool {
	return c.Sign == "" && strings.TrimSpace(strings.Join(c.Words, " ")) == ""
}

// signs are those that are asked about: the named one, those that the words may mean, or all.
func (c *wrongCmd) signs(v *words.Voice) ([]words.SignFound, error) {
	switch {
	case c.Sign != "":
		sign := fault.Sign(c.Sign)
		if !sign.Known() {
			return nil, bad(c.JSON, "--sign %s", unknownKey(v, c.Sign, "sign", fault.Signs()))
		}
		return []words.SignFound{{Sign: sign}}, nil
	case c.listed():
		var all []words.SignFound
		for _, sign := range fault.Signs() {
			all = append(all, words.SignFound{Sign: sign})
		}
		return all, nil
	}
	return v.FindSigns(strings.Join(c.Words, " ")), nil
}

// causes reads keys of causes of a sign.
func (c *wrongCmd) causes(v *words.Voice, sign fault.Sign, flag string, keys ...string) (all []fault.Cause, err error) {
	var known []fault.Cause
	for _, l := range sign.Links() {
		known = append(known, l.Cause)
	}
	for _, key := range keys {
		if !slices.Contains(known, fault.Cause(key)) {
			return nil, bad(c.JSON, "%s %s", flag, unknownKey(v, key, "cause", known))
		}
		all = append(all, fault.Cause(key))
	}
	return all, nil
}

// unknownKey says that a key is none, which ones there are, and which is near.
func unknownKey[T ~string](v *words.Voice, found, what string, all []T) string {
	names := make([]string, 0, len(all))
	for _, k := range all {
		names = append(names, string(k))
	}
	text := v.Tell("cli.no_"+what, "Found", found, "Names", strings.Join(names, ", ")).Text()
	if e, ok := errors.AsType[*quantity.ReadError](material.UnknownWord(found, what, names...)); ok && e.Near != "" {
		text += " " + v.Tell("cli.suggest", "Near", e.Near).Text()
	}
	return text
}

// ask adds what the book knows.
func (c *wrongCmd) ask(b *bench, q *fault.Question) error {
	scene := b.scene(material.None)
	if c.Bath != "" {
		id, err := b.one(&scene, c.Bath)
		if err != nil {
			return err
		}
		q.Bath = id
	}
	r, err := ahead.Look(scene)
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	since := r.At.Add(-evidence.LooksBack)
	if err := b.wake(func(s *book.State) book.Waking { return s.NeedsBatches(since) }); err != nil {
		return err
	}
	q.Facts = b.v.FactsCalled(evidence.Of(b.state, &r), &r)
	return nil
}

// keep writes down what was found.
func (c *wrongCmd) keep(b *bench, q *fault.Question) (string, error) {
	if _, err := c.causes(b.v, q.Sign, "--found", c.Found); err != nil {
		return "", err
	}
	return b.write(b.s.parts.Now(), &book.FaultFound{Sign: string(q.Sign), Cause: c.Found, Done: book.FaultDone(c.Done), Bath: q.Bath})
}

// list tells all signs; with words that mean none of them the answer is no.
func (c *wrongCmd) list(s *session, v *words.Voice, p *printer, out facts.Wrong) error {
	none := !c.listed()
	if c.JSON {
		writeJSON(s.io.Out, out)
	} else {
		title := "wrong_all"
		if none {
			title = "wrong_none"
		}
		p.wrap(v.Label(title))
		for _, w := range fault.Places() {
			p.head(v.FaultPlace(w))
			for _, sign := range fault.SignsAt(w) {
				p.put("  ", "    ", v.SignName(sign)+" ["+string(sign)+"]")
			}
		}
	}
	if none {
		return no()
	}
	return nil
}

// tellGuide prints where to look, in order.
func tellGuide(p *printer, v *words.Voice, g fault.Guide, others []words.SignFound) {
	p.wrap(v.SignName(g.Sign) + ". " + v.SignLook(g.Sign))
	for i, s := range g.Causes {
		if i == 0 && g.LightFirst > 0 {
			p.head(v.Label("wrong_light"))
			p.wrap(v.SignFirst(g.Sign).Text())
		}
		if i == g.LightFirst && i > 0 {
			p.head(v.Label("wrong_rest"))
		}
		p.gap()
		tellCause(p, v, i+1, &s)
	}
	if len(others) == 0 {
		return
	}
	var names []string
	for _, f := range others {
		names = append(names, v.SignName(f.Sign)+" (--sign "+string(f.Sign)+")")
	}
	p.gap()
	p.wrap(v.Tell("cli.or_sign", "Signs", strings.Join(names, "; ")).Text())
}

// tellCause prints one cause: its check stands before its remedy.
func tellCause(p *printer, v *words.Voice, n int, s *fault.Standing) {
	title := v.CauseName(s.Cause) + " [" + string(s.Cause) + "] · " + v.FaultKind(s.Kind) + " · " + v.CauseFrom(s.Link)
	if s.Out {
		title = v.Titled(v.Label("wrong_out"), title)
	}
	p.put(leftPad(n)+"  ", "     ", title)
	for _, x := range s.Speaks {
		if x.Bath+x.Name != "" || len(x.Figures) > 0 || x.Kind != fault.CheckNo && x.Kind != fault.CheckYes {
			p.put("     ╷ ", "       ", v.Spoken(x).Text())
		}
	}
	told := v.Cause(s.Cause)
	p.put("     ", "     ", told.Why.Text())
	p.put("     ? ", "       ", v.Titled(v.Label("wrong_check"), told.Check.Text()))
	if !s.Out {
		p.put("     → ", "       ", v.Titled(v.Label("wrong_remedy"), told.Remedy.Text()))
	}
}
