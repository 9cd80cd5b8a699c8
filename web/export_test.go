package web

import (
	"maps"
	"slices"

	"wetside/access"
)

// Surface returns the patterns of every page, form and stream.
func Surface() []string {
	s := &server{Config: Config{Parts: true}}
	return slices.Sorted(maps.Keys(s.surface()))
}

// Making is what says who makes a page.
type Making struct{ recent recent }

// Make is recent.make.
func (m *Making) Make(key string) (made <-chan struct{}, done func()) { return m.recent.make(key) }

// OpenTo reports whether a pattern is open for a role.
func OpenTo(pattern string, r access.Role) bool { return openTo(pattern).has(r) }

// Events are what is told the log of who came in and who did not.
func Events() (all []string) {
	for _, e := range events() {
		all = append(all, string(e))
	}
	return all
}
