package cli

import (
	mangokong "github.com/alecthomas/mango-kong"
	"github.com/muesli/roff"
)

type manCmd struct{}

// Run writes the manual page, from the same source as the help.
func (c *manCmd) Run(s *session) error {
	page := mangokong.NewManPage(1, s.parser.Model)
	say(s.io.Out, "%s\n", page.Build(roff.NewDocument()))
	return nil
}
