package cli

import (
	"strings"

	"wetside/darkroom"
	"wetside/words"
)

// languageFlag is the same for every command that prints: what is printed speaks the reader's language.
type languageFlag struct {
	Language string `help:"The language of what is printed, as en, de, es or fr; else the room's own." placeholder:"TAG"`
}

// speak lets a room speak the language that was asked for.
func (l languageFlag) speak(s *session, f *darkroom.File, asJSON bool) error {
	if l.Language == "" {
		return nil
	}
	c, err := words.Open()
	if err != nil {
		return err
	}
	if !c.Speaks(l.Language) {
		v, err := voiceFor(s, *f, f.Darkroom.Ounce)
		if err != nil {
			return err
		}
		var all []string
		for _, tag := range c.Languages() {
			all = append(all, tag.String())
		}
		return bad(asJSON, "--language %s", v.Tell("cli.no_language", "Found", l.Language, "Names", strings.Join(all, ", ")).Text())
	}
	f.Darkroom.Language = l.Language
	return nil
}

// speak lets the book's room speak the language that was asked for.
func (b *bench) speak(l languageFlag) (err error) {
	if err := l.speak(b.s, &b.file, b.json); err != nil {
		return err
	}
	b.v, err = voiceFor(b.s, b.file, b.file.Darkroom.Ounce)
	return err
}
