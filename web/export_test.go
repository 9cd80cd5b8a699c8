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

// OpenTo reports whether a pattern is open for a role.
func OpenTo(pattern string, r access.Role) bool { return openTo(pattern).has(r) }
