package words

import (
	"bytes"
	"compress/gzip"
	"embed"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"wetside/trade/quantity"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	"golang.org/x/text/language"
)

//go:generate go test -run=TestPacked$ -update

// English is spoken first and kept as it is; the other languages are packed, a third as large.
//
//go:embed active.en.toml sources.toml packed/*.gz
var files embed.FS

// A Catalogue holds the messages of all languages and the titles of the sources. Opened once, it never changes.
type Catalogue struct {
	tags    []language.Tag // English first
	nearest func() language.Matcher
	read    map[language.Tag]func() (*i18n.Bundle, error)
	titles  map[string]string
}

// Open reads the English messages that are built in; those of another language are read when it is first spoken. An error is
// a mistake in a file.
func Open() (*Catalogue, error) { return OpenFrom(files) }

// Opening begins to read the message files that are built in, and returns what waits for them: as Open, read once.
func Opening() func() (*Catalogue, error) {
	read := sync.OnceValues(Open)
	go func() { _, _ = read() }()
	return read
}

// OpenFrom is Open for the message files active.*.toml, one of them active.en.toml, and sources.toml of a file system. All but the
// English one may be packed instead, as packed/active.*.toml.gz.
func OpenFrom(files fs.FS) (*Catalogue, error) {
	c := &Catalogue{tags: []language.Tag{language.English}, read: map[language.Tag]func() (*i18n.Bundle, error){}, titles: map[string]string{}}
	names, err := fs.Glob(files, "active.*.toml")
	if err != nil {
		return nil, err
	}
	packed, err := fs.Glob(files, "packed/active.*.toml.gz")
	if err != nil {
		return nil, err
	}
	for _, name := range append(names, packed...) {
		short := strings.TrimPrefix(path.Base(name), "active.")
		tag, err := language.Parse(strings.TrimSuffix(strings.TrimSuffix(short, ".gz"), ".toml"))
		if err != nil {
			return nil, fmt.Errorf("message file %s: %w", name, err)
		}
		c.read[tag] = sync.OnceValues(func() (*i18n.Bundle, error) { return open(files, name, tag) })
		if tag != language.English {
			c.tags = append(c.tags, tag)
		}
	}
	if c.read[language.English] == nil {
		return nil, fmt.Errorf("message file active.en.toml: %w", fs.ErrNotExist)
	}
	if _, err := c.read[language.English](); err != nil {
		return nil, err
	}
	text, err := fs.ReadFile(files, "sources.toml")
	if err != nil {
		return nil, err
	}
	if err := read(string(text), func(_, key, title string) { c.titles[key] = title }); err != nil {
		return nil, fmt.Errorf("titles of the sources: %w", err)
	}
	c.nearest = sync.OnceValue(func() language.Matcher { return language.NewMatcher(c.tags) })
	return c, nil
}

func open(files fs.FS, name string, tag language.Tag) (*i18n.Bundle, error) {
	text, err := unpacked(files, name)
	if err != nil {
		return nil, fmt.Errorf("message file %s: %w", name, err)
	}
	all, err := readMessages(strings.ReplaceAll(string(text), "**", string(turn)))
	b := i18n.NewBundle(tag)
	if err == nil {
		err = b.AddMessages(tag, all...)
	}
	if err != nil {
		return nil, fmt.Errorf("message file %s: %w", name, err)
	}
	return b, nil
}

// unpacked reads a file, unpacked where its name says that it is packed.
func unpacked(files fs.FS, name string) ([]byte, error) {
	text, err := fs.ReadFile(files, name)
	if err != nil || path.Ext(name) != ".gz" {
		return text, err
	}
	r, err := gzip.NewReader(bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}

// Languages returns the languages that there is a file of, English first.
func (c *Catalogue) Languages() []language.Tag {
	return slices.Clone(c.tags)
}

// Speaks reports whether there is a file for a BCP 47 tag or for one near to it.
func (c *Catalogue) Speaks(tag string) bool {
	want, err := language.Parse(tag)
	if err != nil {
		return false
	}
	_, _, sure := c.nearest().Match(want)
	return sure != language.No
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

// Voice returns a voice in the language nearest to a BCP 47 tag that there is a file of; English where none is near or the
// tag is empty. The error is for a tag that is none, or a mistake in the language's file. sys is the reader's own system of
// units, o the room's ounce.
func (c *Catalogue) Voice(tag string, sys quantity.System, o quantity.Ounce, settings ...Setting) (*Voice, error) {
	want := language.English
	if tag != "" {
		parsed, err := language.Parse(tag)
		if err != nil {
			return nil, fmt.Errorf("language %q: %w", tag, err)
		}
		want = parsed
	}
	_, i, _ := c.nearest().Match(want)
	lang := c.tags[i]
	bundle, err := c.read[lang]()
	if err != nil {
		return nil, err
	}
	v := &Voice{catalogue: c, says: i18n.NewLocalizer(bundle, lang.String()), lang: lang, system: sys, ounce: o}
	for _, set := range settings {
		set(&v.setting)
	}
	v.point, v.group = v.say("sign.point", nil), v.say("sign.group", nil)
	return v, nil
}

// Language returns the language that is spoken.
func (v *Voice) Language() language.Tag { return v.lang }

// System returns the reader's system of units.
func (v *Voice) System() quantity.System { return v.system }
