package words

import (
	"bytes"
	"embed"
	"fmt"
	"io/fs"
	"strings"
	"sync"

	"wetside/trade/quantity"

	"github.com/BurntSushi/toml"
	"github.com/nicksnyder/go-i18n/v2/i18n"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"
)

//go:embed active.*.toml sources.toml
var files embed.FS

// A Catalogue holds the messages of all languages and the titles of the sources. Opened once, it never changes.
type Catalogue struct {
	bundle *i18n.Bundle
	titles map[string]string
}

// Open reads the message files that are built in. An error is a mistake in one of them.
func Open() (*Catalogue, error) { return OpenFrom(files) }

// Opening begins to read the message files that are built in, and returns what waits for them: as Open, read once.
func Opening() func() (*Catalogue, error) {
	read := sync.OnceValues(Open)
	go func() { _, _ = read() }()
	return read
}

// OpenFrom reads the message files active.*.toml, one of them active.en.toml, and sources.toml of a file system.
func OpenFrom(files fs.FS) (*Catalogue, error) {
	c := &Catalogue{bundle: i18n.NewBundle(language.English)}
	c.bundle.RegisterUnmarshalFunc("toml", toml.Unmarshal)
	names, err := fs.Glob(files, "active.*.toml")
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		if err := c.read(files, name); err != nil {
			return nil, fmt.Errorf("message file %s: %w", name, err)
		}
	}
	if _, err := toml.DecodeFS(files, "sources.toml", &c.titles); err != nil {
		return nil, fmt.Errorf("titles of the sources: %w", err)
	}
	return c, nil
}

func (c *Catalogue) read(files fs.FS, name string) error {
	text, err := fs.ReadFile(files, name)
	if err != nil {
		return err
	}
	_, err = c.bundle.ParseMessageFileBytes(bytes.ReplaceAll(text, []byte("**"), []byte(string(turn))), name)
	return err
}

// Languages returns the languages that there is a file of, English first.
func (c *Catalogue) Languages() []language.Tag {
	return append([]language.Tag(nil), c.bundle.LanguageTags()...)
}

// A Voice speaks one language in one system of units. It never changes and is safe for concurrent use.
type Voice struct {
	catalogue *Catalogue
	says      *i18n.Localizer
	lang      language.Tag
	system    quantity.System
	ounce     quantity.Ounce
	setting
	point, group string // of a number
}

// New opens the catalogue and returns a voice: what [Open] and [Catalogue.Voice] do together.
func New(lang string, sys quantity.System, o quantity.Ounce, settings ...Setting) (*Voice, error) {
	c, err := Open()
	if err != nil {
		return nil, err
	}
	return c.Voice(lang, sys, o, settings...)
}

// Voice returns a voice in the language nearest to lang, a BCP 47 tag, that there is a file of; English where none
// is near or lang is empty. The error is for a tag that is none. sys is the reader's own system of units, o the
// room's ounce.
func (c *Catalogue) Voice(lang string, sys quantity.System, o quantity.Ounce, settings ...Setting) (*Voice, error) {
	want := language.English
	if lang != "" {
		tag, err := language.Parse(lang)
		if err != nil {
			return nil, fmt.Errorf("language %q: %w", lang, err)
		}
		want = tag
	}
	have := c.bundle.LanguageTags()
	_, i, _ := language.NewMatcher(have).Match(want)
	v := &Voice{catalogue: c, says: i18n.NewLocalizer(c.bundle, have[i].String()), lang: have[i], system: sys, ounce: o}
	for _, set := range settings {
		set(&v.setting)
	}
	v.point, v.group = signs(have[i])
	return v, nil
}

// Language returns the language that is spoken.
func (v *Voice) Language() language.Tag { return v.lang }

// System returns the reader's system of units.
func (v *Voice) System() quantity.System { return v.system }

// signs returns the decimal and the grouping sign of a language, after the Unicode CLDR.
func signs(tag language.Tag) (point, group string) {
	text := message.NewPrinter(tag).Sprint(number.Decimal(1_000_000.5, number.Scale(1)))
	digit := func(r rune) bool { return r >= '0' && r <= '9' }
	parts := strings.FieldsFunc(text, digit)
	if len(parts) < 2 {
		return ".", ""
	}
	return parts[len(parts)-1], parts[0]
}
