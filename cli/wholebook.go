package cli

import (
	"io"

	"wetside/book/journal"
	"wetside/words/facts"
)

// bookCmd is the whole book as text.
type bookCmd struct {
	Export bookExportCmd `cmd:"" help:"Write every entry as text, one JSON object a line."`
	Import bookImportCmd `cmd:"" help:"Read such a text and write what the book does not have yet."`
}

type bookExportCmd struct {
	File  string `arg:"" optional:"" help:"The file to write; standard output without one. Never overwrites unless told." predictor:"file"`
	Names bool   `help:"With the names of people. Notes, codes and tokens are in no export."`
	whereFlags
	Force bool `help:"Overwrite the file."`
	JSON  bool `name:"json" help:"Tell errors as JSON; the export is JSON by itself."`
}

// Run writes the whole book.
func (c *bookExportCmd) Run(s *session) error {
	w, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	v, err := s.plain()
	if err != nil {
		return err
	}
	var head journal.Head
	write := func(out io.Writer) (err error) {
		head, err = s.parts.Upkeep.WriteOut(s.ctx, w, out, c.Names)
		return err
	}
	if c.File == "" {
		err = write(s.io.Out)
	} else {
		err = writeFile(c.File, c.Force, c.JSON, write)
	}
	if err != nil {
		return s.trouble(v, c.JSON, Broken, err)
	}
	if c.File != "" && !c.JSON {
		say(s.io.Out, "%s: %s\n", c.File, v.TellN("backup.entries", int(head.Entries)).Text())
	}
	return nil
}

type bookImportCmd struct {
	File    string `arg:"" help:"What “wetside book export” wrote; - is standard input." predictor:"file"`
	AsFarAs bool   `name:"as-far-as-whole" help:"Of a text that is cut short or damaged, take what is whole."`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run reads a whole book and writes what is new.
func (c *bookImportCmd) Run(s *session) error {
	w, err := c.where()
	if err != nil {
		return bad(c.JSON, "%w", err)
	}
	v, err := s.plain()
	if err != nil {
		return err
	}
	in, err := s.open(c.File, c.JSON)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }()
	t, err := s.parts.Upkeep.TakeOver(s.ctx, w, in, c.AsFarAs)
	if err != nil {
		return s.trouble(v, c.JSON, Broken, err)
	}
	stopped := ""
	if t.Stopped != nil {
		stopped = reasonText(v, t.Stopped)
	}
	if c.JSON {
		out := facts.TakenOver{Darkroom: t.Darkroom, Read: t.Read, Written: t.Written}
		if stopped != "" {
			out.Stopped = &stopped
		}
		writeJSON(s.io.Out, out)
		return nil
	}
	written := v.Tell("taken.none").Text()
	if t.Written > 0 {
		written = v.TellN("taken.written", int(t.Written)).Text()
	}
	p := newPrinter(s.io.Out)
	p.wrap(v.TellN("taken.read", int(t.Read)).Text() + " " + written)
	if stopped != "" {
		p.wrap(v.Tell("taken.stopped", "Why", stopped).Text())
	}
	return nil
}
