package cli

import (
	"errors"
	"slices"
	"strings"
	"time"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/words"
)

// A bench is what stands in the book's darkroom, for commands that write down what happened.
type bench struct {
	s     *session
	json  bool
	book  Book
	state *book.State
	file  darkroom.File
	ids   book.IDs
	v     *words.Voice
}

// onBench opens the book and runs f over what stands in it.
func (s *session) onBench(where *whereFlags, asJSON bool, f func(*bench) error) error {
	return s.withBook(where, asJSON, func(b Book) error {
		state, err := b.State(s.ctx)
		if err != nil {
			return err
		}
		file, ids := state.File(nil)
		v, err := voiceFor(s, file, file.Darkroom.Ounce)
		if err != nil {
			return err
		}
		return f(&bench{s: s, json: asJSON, book: b, state: state, file: file, ids: ids, v: v})
	})
}

// scene returns what stands there, asked about a material.
func (b *bench) scene(asked material.Material) ahead.Scene {
	return ahead.FromBook(b.state, asked, b.s.parts.Now())
}

// every is the word for all the baths that a material goes through.
const every = "all"

// find returns the ids of the baths that a text names, several between commas; "all" is the way of a material.
func (b *bench) find(text string, m material.Material) ([]string, error) {
	scene := b.scene(m)
	if strings.EqualFold(strings.TrimSpace(text), every) && m != material.None {
		for _, c := range scene.Chains {
			if c.Material == m {
				return idsOf(&scene, c.Baths), nil
			}
		}
		return nil, bad(b.json, "%s", b.v.Tell("cli.no_way", "Material", b.v.MaterialLong(m)).Text())
	}
	var ids []string
	names := strings.Split(text, ",")
	if _, err := b.one(&scene, text); err == nil { // a name may hold a comma itself
		names = []string{text}
	}
	for _, name := range names {
		id, err := b.one(&scene, name)
		if err != nil {
			return nil, err
		}
		ids = append(ids, id)
	}
	return ids, nil
}

func idsOf(scene *ahead.Scene, indexes []int) []string {
	ids := make([]string, 0, len(indexes))
	for _, i := range indexes {
		ids = append(ids, scene.Baths[i].ID)
	}
	return ids
}

// wake wakes what is wanted of what is long finished.
func (b *bench) wake(needs func(*book.State) book.Waking) (err error) {
	if w := needs(b.state); !w.None() {
		b.state, err = b.book.Awake(b.s.ctx, needs)
	}
	return err
}

// one returns the id of a bath by its name or id. A bath that is gone goes by its id alone.
func (b *bench) one(scene *ahead.Scene, name string) (string, error) {
	name = strings.Join(strings.Fields(name), " ")
	if err := b.wake(func(s *book.State) book.Waking { return s.NeedsBaths(name) }); err != nil {
		return "", err
	}
	if _, there := b.state.Bath(name); there {
		return name, nil
	}
	var names, ids []string
	for i := range scene.Baths {
		x := &scene.Baths[i]
		if x.Gone || x.Name == "" {
			continue
		}
		names = append(names, x.Name)
		plain := *x
		plain.Apart, plain.Nth = "", 0
		if strings.EqualFold(x.Name, name) || strings.EqualFold(b.v.BathCalled(plain), name) {
			ids = append(ids, x.ID)
		}
	}
	switch {
	case len(names) == 0:
		return "", bad(b.json, "%s", b.v.Tell("cli.no_baths").Text())
	case len(ids) == 0:
		return "", bad(b.json, "%s", b.noBath(name, names))
	case len(ids) > 1:
		return "", bad(b.json, "%s", b.v.Tell("cli.several_baths", "Found", name, "IDs", strings.Join(ids, ", ")).Text())
	}
	return ids[0], nil
}

func (b *bench) noBath(name string, names []string) string {
	text := b.v.Tell("cli.no_bath", "Found", name, "Names", strings.Join(names, ", ")).Text()
	if e, ok := errors.AsType[*quantity.ReadError](material.UnknownWord(name, "bath", names...)); ok && e.Near != "" {
		text += " " + b.v.Tell("cli.suggest", "Near", e.Near).Text()
	}
	return text
}

// moment reads when something happened; empty is now.
func (b *bench) moment(text string) (time.Time, error) {
	now := b.s.parts.Now()
	if text == "" {
		return now, nil
	}
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02T15:04", time.RFC3339} {
		if t, err := time.ParseInLocation(layout, strings.TrimSpace(text), now.Location()); err == nil {
			return t, nil
		}
	}
	return now, bad(b.json, "--at %s", b.v.Tell("cli.no_moment", "Found", text).Text())
}

// look says of the named baths what they still do.
func (b *bench) look(ids []string, m material.Material) ([]ahead.Outlook, error) {
	r, err := ahead.Look(b.scene(m))
	if err != nil {
		return nil, err
	}
	return slices.DeleteFunc(r.Baths, func(o ahead.Outlook) bool { return !slices.Contains(ids, o.Bath.ID) }), nil
}

// write writes what happened, takes the book as it is then, and returns the entry's id.
func (b *bench) write(at time.Time, body book.Body) (entry string, err error) {
	ids, err := b.book.Write(b.s.ctx, at, b.state.Position(), body)
	if err != nil {
		if book.KindOf(err) == book.BadInput {
			err = bad(b.json, "%s", explained(b.v, err))
		}
		return "", err
	}
	b.state, err = b.book.State(b.s.ctx)
	return ids[0], err
}
