package cli

import (
	"strings"

	"wetside/book"
	"wetside/trade/material"
)

type testCmd struct {
	Bath     string `arg:"" help:"The bath's name, as \"wetside baths\" tells it, or its id."`
	Result   string `arg:"" help:"The test and what it showed: \"silver strip 1 g/L\", \"pH paper 5.5\", \"clearing time 50 s against 30 s\", \"indicator turned\"."`
	Material string `help:"What the print or film of the test is made of." placeholder:"MATERIAL"`
	At       string `help:"When, if not now: 2026-12-03 19:40." placeholder:"MOMENT"`
	whereFlags
	JSON bool `name:"json" help:"Answer as JSON."`
}

// Run writes down what a test showed, and says what the bath still does by it.
func (c *testCmd) Run(s *session) error {
	return s.onBench(&c.whereFlags, c.JSON, func(b *bench) error {
		m := material.None
		if c.Material != "" {
			var err error
			if m, err = material.Read(c.Material); err != nil {
				return bad(c.JSON, "--material %s", explained(b.v, err))
			}
		}
		body, err := b.readTest(c.Result)
		if err != nil {
			return err
		}
		body.Material = m.String()
		if body.Bath, err = b.tested(c.Bath); err != nil {
			return err
		}
		at, err := b.moment(c.At)
		if err != nil {
			return err
		}
		return b.record(at, []string{body.Bath}, m, body)
	})
}

// tested returns the id of the one bath that was tested.
func (b *bench) tested(name string) (string, error) {
	scene := b.scene(material.None)
	return b.one(&scene, name)
}

// readTest reads which test it was and what it showed.
func (b *bench) readTest(text string) (*book.Tested, error) {
	said := strings.Join(strings.Fields(text), " ")
	names := make([]string, 0, len(book.Tests()))
	for _, t := range book.Tests() {
		names = append(names, string(t))
		if len(said) < len(t) || !strings.EqualFold(said[:len(t)], string(t)) {
			continue
		}
		body := &book.Tested{
			Test: t, Result: strings.TrimSpace(said[len(t):]), Ounce: book.OunceOf(b.file.Darkroom.Ounce),
		}
		if t == book.SilverStrip {
			body.Steps = b.file.Darkroom.SilverStrip
		}
		if _, err := book.ReadTestResult(t, body.Result, body.Ounce); err != nil {
			return nil, bad(b.json, "%s: %s", t, explained(b.v, err))
		}
		return body, nil
	}
	return nil, bad(b.json, "%s", b.v.Tell("cli.no_test", "Found", said, "Names", strings.Join(names, ", ")).Text())
}
