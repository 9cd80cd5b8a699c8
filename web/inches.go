package web

import (
	"maps"
	"regexp"
	"slices"

	"wetside/trade/material"
)

var bareSize = regexp.MustCompile(`^\s*[0-9.½]+\s*[x×X*]\s*[0-9.½]+\s*$`)

// withInches adds the unit to a size without one whose sides are those of a usual sheet in inches, either way round.
func withInches(text string) string {
	if !bareSize.MatchString(text) {
		return text
	}
	size, err := material.ReadSize(text + " in")
	usual := func(s material.Size) bool { return s.String() == size.String() || s.Turned().String() == size.String() }
	if err != nil || !slices.ContainsFunc(material.InchSizes(), usual) {
		return text
	}
	return text + " in"
}

// readAsInches returns a form with the inches that its sizes were written without, and whether there were any.
func readAsInches(form map[string]string) (map[string]string, bool) {
	out, some := maps.Clone(form), false
	for _, name := range []string{"size", "inside"} {
		if text := out[name]; text != "" && withInches(text) != text {
			out[name], some = withInches(text), true
		}
	}
	return out, some
}
