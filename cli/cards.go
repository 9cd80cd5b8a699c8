package cli

import (
	"io"

	"wetside/ahead"
	"wetside/darkroom"
	"wetside/plan"
	"wetside/trade/material"
)

type cardsCmd struct {
	File string `arg:"" optional:"" help:"A darkroom file; - is standard input. Without one: the darkroom of the book." predictor:"file"`
	whereFlags
	PDF   string `name:"pdf" required:"" help:"Write a card for each tray, the room's rules and lists, and a safety sheet, as PDF." placeholder:"OUT"`
	Force bool   `help:"Overwrite the PDF."`
	languageFlag
	JSON bool `name:"json" help:"Tell errors as JSON."`
}

// Run writes the cards of an evening.
func (c *cardsCmd) Run(s *session) error {
	b := bathsCmd{File: c.File, whereFlags: c.whereFlags, languageFlag: c.languageFlag, JSON: c.JSON}
	f, scene, err := b.scene(s, material.None)
	if err != nil {
		return err
	}
	p, err := plan.Make(s.ctx, plan.Request{File: f, Now: s.parts.Now()})
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	r, err := ahead.Look(scene)
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	return writeFile(c.PDF, c.Force, c.JSON, func(w io.Writer) error { return s.parts.Cards(w, p, r, f) })
}

type calendarCmd struct {
	File string `arg:"" optional:"" help:"A darkroom file; - is standard input. Without one: the darkroom of the book." predictor:"file"`
	whereFlags
	Out   string `help:"Write it to a file: darkroom.ics. Without one it goes to standard output." placeholder:"OUT"`
	Force bool   `help:"Overwrite the file."`
	languageFlag
	JSON bool `name:"json" help:"Tell errors as JSON."`
}

// Run writes what goes off, is due and will be full as a calendar.
func (c *calendarCmd) Run(s *session) error {
	b := bathsCmd{File: c.File, whereFlags: c.whereFlags, languageFlag: c.languageFlag, JSON: c.JSON}
	f, scene, err := b.scene(s, material.None)
	if err != nil {
		return err
	}
	r, err := ahead.Look(scene)
	if err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	cans, err := c.cans(s, f)
	if err != nil {
		return err
	}
	write := func(w io.Writer) error { return s.parts.Calendar(w, plan.Dates(r, f, cans), r, f) }
	if c.Out != "" {
		return writeFile(c.Out, c.Force, c.JSON, write)
	}
	if err := write(s.io.Out); err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	return nil
}

// cans are the book's waste cans with the day about which each is full; a file has none that anything went into.
func (c *calendarCmd) cans(s *session, f darkroom.File) (all []ahead.Can, err error) {
	if c.File != "" || len(f.Bench.Cans) == 0 {
		return nil, nil
	}
	err = s.onBench(&c.whereFlags, c.JSON, func(b *bench) error {
		all = ahead.Cans(b.state, s.parts.Now())
		return nil
	})
	return all, err
}
