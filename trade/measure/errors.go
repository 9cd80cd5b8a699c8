package measure

import "errors"

// ErrProblem is wrapped by every error about a malformed problem: no vessel, an empty window, a tolerance
// of nothing, a scale whose marks do not divide.
var ErrProblem = errors.New("malformed measuring problem")
