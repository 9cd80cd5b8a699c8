package cli

import (
	"errors"
	"io"
	"slices"
	"unicode"
	"unicode/utf8"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/draw"
	"wetside/plan"
	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/words"
	"wetside/words/facts"
)

type bathsCmd struct {
	File     string `arg:"" optional:"" help:"A darkroom file: its baths as if made up when the session starts; - is standard input. Without one: the baths of the book." predictor:"file"`
	Material string `help:"What shall go through them: RC paper, FB paper, film; else what is to be made first." placeholder:"MATERIAL"`
	whereFlags
	PDF   string `name:"pdf" help:"Write the state of the baths on one page for the wall as PDF, too." placeholder:"OUT"`
	Tapes string `help:"Write a tape for each bath's bottle as PDF, too." placeholder:"OUT"`
	Force bool   `help:"Overwrite the PDF."`
	languageFlag
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run says of every bath what it still does.
func (c *bathsCmd) Run(s *session) error {
	asked, err := c.asked(s)
	if err != nil {
		return err
	}
	f, scene, err := c.scene(s, asked)
	if err != nil {
		return err
	}
	scene.Helps = !c.JSON
	r, err := ahead.Look(scene)
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	if err := c.papers(s, r, f); err != nil {
		return err
	}
	v, err := voiceFor(s, f, f.Darkroom.Ounce)
	if err != nil {
		return err
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.OfReport(r, func(o ahead.Outlook) string { return v.Outlook(o).Text() }))
	} else if err := tellBaths(newPrinter(s.io.Out), v, r); err != nil {
		return err
	}
	way := func(x ahead.Chain) bool { return x.Material == asked }
	if asked != material.None && !slices.ContainsFunc(scene.Chains, way) {
		say(s.io.Err, "wetside: %s\n", v.Tell("cli.no_way", "Material", v.MaterialLong(asked)).Text())
		return no()
	}
	if len(r.Baths) == 0 {
		return no()
	}
	return nil
}

// papers writes what is wanted as PDF.
func (c *bathsCmd) papers(s *session, r ahead.Report, f darkroom.File) error {
	for _, paper := range []struct {
		name string
		draw func(w io.Writer, r ahead.Report, f darkroom.File) error
	}{{c.PDF, s.parts.Baths}, {c.Tapes, s.parts.Tapes}} {
		if paper.name == "" {
			continue
		}
		if err := writeFile(paper.name, c.Force, c.JSON, func(w io.Writer) error { return paper.draw(w, r, f) }); err != nil {
			return err
		}
	}
	return nil
}

// asked reads the material that is asked about; none leaves it to what is to be made.
func (c *bathsCmd) asked(s *session) (material.Material, error) {
	if c.Material == "" {
		return material.None, nil
	}
	m, err := material.Read(c.Material)
	if err != nil {
		return m, misread(s, c.JSON, "--material ", err)
	}
	return m, nil
}

// scene takes the baths of a file, or those of the book where no file is named.
func (c *bathsCmd) scene(s *session, asked material.Material) (f darkroom.File, scene ahead.Scene, err error) {
	if c.File == "" {
		err = s.onBench(&c.whereFlags, c.JSON, func(b *bench) error {
			f, scene = b.file, b.scene(asked)
			return c.speak(s, &f, c.JSON)
		})
		return f, scene, err
	}
	if f, err = s.readFile(c.File, c.JSON); err != nil {
		return f, scene, err
	}
	if err = c.speak(s, &f, c.JSON); err != nil {
		return f, scene, err
	}
	scene, err = plan.Ahead(s.ctx, plan.Request{File: f, Now: s.parts.Now()}, asked)
	if err != nil {
		return f, scene, &outcome{code: Broken, json: c.JSON, err: err}
	}
	return f, scene, nil
}

// withBook opens the book for as long as f runs.
func (s *session) withBook(where *whereFlags, asJSON bool, f func(Book) error) error {
	b, err := s.openBook(where, asJSON)
	if err != nil {
		return err
	}
	err = f(b)
	if shut := b.Close(); shut != nil {
		err = errors.Join(err, shut)
	}
	if out, told := errors.AsType[*outcome](err); err == nil || told && out.code != 0 {
		return err
	}
	return &outcome{code: Broken, json: asJSON, err: err}
}

// misread is an outcome for words that a voice can explain; before stands in front of the sentence.
func misread(s *session, asJSON bool, before string, err error) error {
	v, verr := voiceFor(s, darkroom.File{}, quantity.NoOunce)
	if verr != nil {
		return verr
	}
	return bad(asJSON, "%s%s", before, explained(v, err))
}

// tellBaths prints the sentence of all, then each bath.
func tellBaths(p *printer, v *words.Voice, r ahead.Report) error {
	p.wrap(v.Together(r).Text())
	var all []draw.Tape
	for i := range r.Baths {
		if t, ok := draw.TapeOf(v, &r.Baths[i]); ok {
			all = append(all, t)
		}
	}
	scale := draw.TapeScale(all...)
	for i := range r.Baths {
		if err := tellBath(p, v, &r.Baths[i], scale); err != nil {
			return err
		}
	}
	return nil
}

func tellBath(p *printer, v *words.Voice, o *ahead.Outlook, scale float64) error {
	p.head(bathHead(v, &o.Bath))
	p.wrap(v.Outlook(*o).Text())
	if t, ok := draw.TapeOf(v, o); ok {
		t.To = scale
		text, err := t.Text(draw.TextOptions{})
		if err != nil {
			return err
		}
		p.picture(text)
	}
	for _, x := range v.Beside(*o) {
		p.put("  ╷ ", "    ", x.Text())
	}
	if o.Lead.Kind != ahead.UseFor { // nothing helps a bath that is spent
		return nil
	}
	for _, h := range o.Helps {
		p.put("  + ", "    ", v.Help(*o, h).Text())
	}
	return nil
}

// upper begins a word with a capital.
func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// bathHead names a bath with its product, where it stands and how much it is.
func bathHead(v *words.Voice, b *ahead.Bath) string {
	title := upper(v.BathCalled(*b))
	if b.Product != nil {
		title += ", " + b.Product.Name
	}
	if where := b.Tray + b.Tank; where != "" {
		title += " → " + where
	}
	if litres, err := quantity.VolumeOfML(1000 * b.Litres); err == nil && litres > 0 {
		title += ", " + v.Volume(litres)
	}
	return title
}
