package web

import (
	"maps"

	"wetside/trade/material"
)

// withInches adds the unit to a size without one whose sides are those of a usual sheet in inches, either way round.
func withInches(text string) string {
	if _, unit, err := material.ReadUsual(text); err == nil && unit == "in" {
		return text + " in"
	}
	return text
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
