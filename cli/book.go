package cli

import (
	"errors"
	"io"
	"os"
	"path/filepath"

	"wetside/darkroom"
	"wetside/words/facts"
)

type importCmd struct {
	File string `arg:"" help:"A darkroom file; - is standard input." predictor:"file"`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run writes what differs between a file and the book; a second time nothing differs.
func (c *importCmd) Run(s *session) error {
	f, err := s.readFile(c.File, c.JSON)
	if err != nil {
		return err
	}
	b, err := s.openBook(&c.whereFlags, c.JSON)
	if err != nil {
		return err
	}
	n, err := b.Import(s.ctx, f)
	if err = errors.Join(err, b.Close()); err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	if c.JSON {
		writeJSON(s.io.Out, facts.Imported{Entries: n})
		return nil
	}
	v, err := voiceFor(s, f, f.Darkroom.Ounce)
	if err != nil {
		return err
	}
	say(s.io.Out, "%s\n", v.TellN("cli.imported", n, "Name", f.Darkroom.Name).Text())
	return nil
}

type exportCmd struct {
	File string `arg:"" optional:"" help:"The file to write; standard output without one. Never overwrites unless told." predictor:"file"`
	whereFlags
	Force bool `help:"Overwrite the file."`
	JSON  bool `name:"json" help:"Tell errors as JSON; the file itself is YAML."`
}

// Run writes the darkroom as the book has it.
func (c *exportCmd) Run(s *session) error {
	b, err := s.openBook(&c.whereFlags, c.JSON)
	if err != nil {
		return err
	}
	f, err := b.Export(s.ctx)
	if err = errors.Join(err, b.Close()); err != nil {
		return &outcome{code: Broken, json: c.JSON, err: err}
	}
	text := darkroom.Write(darkroom.Public(f))
	if c.File == "" {
		_, err = s.io.Out.Write(text)
		return err
	}
	return writeFile(c.File, c.Force, c.JSON, func(w io.Writer) error {
		_, err := w.Write(text)
		return err
	})
}

// writeFile writes a file whole or not at all: beside its place first, then into it.
func writeFile(name string, force, asJSON bool, write func(io.Writer) error) error {
	if _, err := os.Stat(name); err == nil && !force {
		return bad(asJSON, "%s is there already; --force overwrites it", name)
	}
	tmp, err := os.CreateTemp(filepath.Dir(name), ".wetside-*")
	if err != nil {
		return bad(asJSON, "%w", err)
	}
	defer func() { _ = os.Remove(tmp.Name()) }()
	if err := errors.Join(write(tmp), tmp.Sync(), tmp.Chmod(0o644), tmp.Close()); err != nil {
		return &outcome{code: Broken, json: asJSON, err: err}
	}
	if err := os.Rename(tmp.Name(), name); err != nil {
		return &outcome{code: Broken, json: asJSON, err: err}
	}
	return nil
}
