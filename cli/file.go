package cli

import (
	"errors"
	"io"
	"os"

	"wetside/darkroom"
	"wetside/trade/quantity"
	"wetside/words"
)

// voiceFor returns the voice of a room: its language, its units, its ounce, its zone and currency.
func voiceFor(s *session, f darkroom.File, o quantity.Ounce) (*words.Voice, error) {
	return words.New(f.Darkroom.Language, f.Darkroom.Units, o,
		words.Zone(s.parts.Now().Location()), words.Currency(f.Darkroom.Currency))
}

// open opens a darkroom file; - is standard input.
func (s *session) open(name string, asJSON bool) (io.ReadCloser, error) {
	if name == "-" {
		return io.NopCloser(s.io.In), nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, bad(asJSON, "%w", err)
	}
	return f, nil
}

// readFile reads a darkroom file for a command that needs it whole: its mistakes are told on stderr.
func (s *session) readFile(name string, asJSON bool) (darkroom.File, error) {
	in, err := s.open(name, asJSON)
	if err != nil {
		return darkroom.File{}, err
	}
	defer func() { _ = in.Close() }()
	f, err := darkroom.ReadFrom(in)
	if problems, ok := errors.AsType[darkroom.Problems](err); ok {
		if asJSON {
			writeJSON(s.io.Err, checked(problems))
		} else {
			tellProblems(s.io.Err, name, problems)
		}
		return darkroom.File{}, &outcome{code: BadInput}
	}
	if err != nil {
		return darkroom.File{}, bad(asJSON, "%s: %w", name, err)
	}
	return f, nil
}

// problem is one mistake as `check --json` tells it.
type problem struct {
	Path       string `json:"path"`
	Line       int    `json:"line"`
	Column     int    `json:"column"`
	Message    string `json:"message"`
	Suggestion string `json:"suggestion"`
}

type problems struct {
	Problems []problem `json:"problems"`
}

func checked(ps darkroom.Problems) problems {
	out := problems{Problems: []problem{}}
	for _, p := range ps {
		out.Problems = append(out.Problems, problem{p.Path, p.Line, p.Column, p.Message(), p.Suggestion})
	}
	return out
}

// tellProblems prints mistakes the way compilers do, so that an editor can jump to them.
func tellProblems(w io.Writer, name string, ps darkroom.Problems) {
	for _, p := range ps {
		say(w, "%s:%d:%d: ", name, max(p.Line, 1), max(p.Column, 1))
		if p.Path != "" {
			say(w, "%s: ", p.Path)
		}
		say(w, "%s\n", p.Message())
	}
}

type checkCmd struct {
	File string `arg:"" help:"A darkroom file; - is standard input." predictor:"file"`
	JSON bool   `name:"json" help:"Answer as JSON."`
}

// Run tells every mistake in a file; they are the result, so they go to stdout.
func (c *checkCmd) Run(s *session) error {
	in, err := s.open(c.File, c.JSON)
	if err != nil {
		return err
	}
	defer func() { _ = in.Close() }()
	f, err := darkroom.ReadFrom(in)
	var found darkroom.Problems
	if err != nil && !errors.As(err, &found) {
		return bad(c.JSON, "%s: %w", c.File, err)
	}
	if c.JSON {
		writeJSON(s.io.Out, checked(found))
	} else if len(found) > 0 {
		tellProblems(s.io.Out, c.File, found)
	}
	if len(found) > 0 {
		return &outcome{code: BadInput}
	}
	if !c.JSON {
		v, err := voiceFor(s, f, f.Darkroom.Ounce)
		if err != nil {
			return err
		}
		say(s.io.Out, "%s\n", v.Tell("cli.check_good", "Name", f.Darkroom.Name).Text())
	}
	return nil
}
