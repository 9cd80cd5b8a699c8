package book

import (
	"maps"
	"slices"
)

// A taking is one correction of an entry.
type taking struct {
	by string // the correction's own id
	at int64  // its position
}

// corrections knows which entries are taken back. A correction that is itself taken back counts for nothing.
type corrections struct {
	of     map[string][]taking // by the entry taken back
	target map[string]string   // by the correction
	at     map[string]int64    // the correction's position
}

func newCorrections() corrections {
	return corrections{of: map[string][]taking{}, target: map[string]string{}, at: map[string]int64{}}
}

func (c *corrections) add(e Entry) {
	c.of[e.TakesBack] = append(slices.Clip(c.of[e.TakesBack]), taking{by: e.ID, at: e.Position})
	c.target[e.ID], c.at[e.ID] = e.TakesBack, e.Position
}

// stands reports whether an entry still has its effect. Only later corrections can take one back, so that the
// search ends.
func (c *corrections) stands(entry string) bool {
	if len(c.of) == 0 {
		return true
	}
	return c.undoer(entry) == ""
}

// undoer returns the correction by which an entry is taken back, or empty.
func (c *corrections) undoer(entry string) string {
	for _, t := range c.of[entry] {
		if t.at > c.at[entry] && c.undoer(t.by) == "" {
			return t.by
		}
	}
	return ""
}

// root follows corrections of corrections down to the entry that all is about.
func (c *corrections) root(entry string) string {
	for {
		t, corrects := c.target[entry]
		if !corrects || c.at[t] >= c.at[entry] {
			return entry
		}
		entry = t
	}
}

func (c *corrections) clone() corrections {
	return corrections{of: maps.Clone(c.of), target: maps.Clone(c.target), at: maps.Clone(c.at)}
}
