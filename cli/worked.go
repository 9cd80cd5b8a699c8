package cli

import (
	"wetside/book"
	"wetside/trade/material"
)

type workedCmd struct {
	Bath     string `arg:"" help:"The bath's name, as \"wetside baths\" tells it, or its id; several between commas in order of use; all: the whole way."`
	Load     string `arg:"" help:"What went through: \"6 8x10 RC\", \"4 24x30 cm FB and 3 strips\", \"2 rolls 135-36\"."`
	Strips   count  `help:"Test strips of the same paper, too." default:"0" placeholder:"N"`
	Estimate bool   `help:"Nobody counted: it is a guess."`
	At       string `help:"When, if not now: 2026-12-03 19:40." placeholder:"MOMENT"`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run writes down that a load went through baths, and says what they still do.
func (c *workedCmd) Run(s *session) error {
	return s.onBench(&c.whereFlags, c.JSON, func(b *bench) error {
		p, err := c.prints(b)
		if err != nil {
			return err
		}
		m, err := material.Read(p.Material)
		if err != nil {
			return bad(c.JSON, "%s", explained(b.v, err))
		}
		ids, err := b.find(c.Bath, m)
		if err != nil {
			return err
		}
		at, err := b.moment(c.At)
		if err != nil {
			return err
		}
		return b.record(at, ids, m, &book.Worked{Baths: ids, Prints: p})
	})
}

func (c *workedCmd) prints(b *bench) (book.Prints, error) {
	p, err := book.ReadPrints(c.Load)
	if err != nil {
		return p, bad(c.JSON, "%s", explained(b.v, err))
	}
	if c.Strips < 0 {
		return p, bad(c.JSON, "--strips %s", explained(b.v, belowOne(int(c.Strips))))
	}
	p.Strips += int(c.Strips)
	p.Estimated = p.Estimated || c.Estimate
	return p, nil
}
