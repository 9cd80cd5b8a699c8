package book

import (
	"maps"
	"slices"
)

// A setting is one entry's say about a thing: its whole description, or that it is gone.
type setting[T any] struct {
	entry   string
	removed bool
	value   T
	ounce   Ounce
}

// A history is all that decisions said about one thing, in the order of their positions. What holds is the last
// that was not taken back.
type history[T any] struct {
	id   string
	said []setting[T]
}

// now returns what holds, nil where the thing was never there, is removed, or all was taken back.
func (h *history[T]) now(c *corrections) *setting[T] {
	for i := len(h.said) - 1; i >= 0; i-- {
		if s := &h.said[i]; c.stands(s.entry) {
			if s.removed {
				return nil
			}
			return s
		}
	}
	return nil
}

// after returns the id of a standing entry that came after the given one and so hides it; empty: none.
func (h *history[T]) after(entry string, c *corrections) string {
	for i := len(h.said) - 1; i >= 0 && h.said[i].entry != entry; i-- {
		if c.stands(h.said[i].entry) {
			return h.said[i].entry
		}
	}
	return ""
}

// things are all things of one kind, in the order in which they first came.
type things[T any] struct {
	at  map[string]int
	all []history[T]
}

func newThings[T any]() things[T] { return things[T]{at: map[string]int{}} }

// say adds one entry's say.
func (t *things[T]) say(id string, s setting[T]) {
	i, there := t.at[id]
	if !there {
		i = len(t.all)
		t.at[id] = i
		t.all = append(t.all, history[T]{id: id})
	}
	t.all[i].said = append(t.all[i].said, s)
}

// find returns the history of a thing, nil where there is none.
func (t *things[T]) find(id string) *history[T] {
	if i, there := t.at[id]; there {
		return &t.all[i]
	}
	return nil
}

// now returns what holds of a thing, nil where it is not there.
func (t *things[T]) now(id string, c *corrections) *setting[T] {
	if h := t.find(id); h != nil {
		return h.now(c)
	}
	return nil
}

// after is history.after of the thing of an id.
func (t *things[T]) after(id, entry string, c *corrections) string {
	if h := t.find(id); h != nil {
		return h.after(entry, c)
	}
	return ""
}

// clone returns a copy that can be told more without the original noticing.
func (t *things[T]) clone() things[T] {
	c := things[T]{at: maps.Clone(t.at), all: slices.Clone(t.all)}
	for i := range c.all {
		c.all[i].said = slices.Clip(c.all[i].said)
	}
	return c
}
