package cli

import (
	"encoding/json"
	"fmt"
	"io"
)

// An outcome is how a command ended where that is not well: an exit status, and an error to tell unless all is told.
type outcome struct {
	code int
	json bool
	err  error
}

// Error makes an outcome an error.
func (o *outcome) Error() string {
	if o.err == nil {
		return "told already"
	}
	return o.err.Error()
}

// Unwrap returns the cause.
func (o *outcome) Unwrap() error { return o.err }

// print tells the error, as JSON where that was asked for.
func (o *outcome) print(w io.Writer) {
	if !o.json {
		say(w, "wetside: %s\n", o.err)
		return
	}
	kind := map[int]string{No: "no", BadInput: "bad_input", Broken: "broken", Usage: "usage"}[o.code]
	var told struct {
		Error struct {
			Kind    string `json:"kind"`
			Message string `json:"message"`
		} `json:"error"`
	}
	told.Error.Kind, told.Error.Message = kind, o.err.Error()
	writeJSON(w, told)
}

// bad is an outcome for words that can't be read.
func bad(asJSON bool, format string, args ...any) error {
	return &outcome{code: BadInput, json: asJSON, err: fmt.Errorf(format, args...)}
}

// no is the answer no, all told already.
func no() error { return &outcome{code: No} }

// say prints; a stream that is closed is nobody's business here.
func say(w io.Writer, format string, args ...any) { _, _ = fmt.Fprintf(w, format, args...) }

// writeJSON prints one object, indented for eyes.
func writeJSON(w io.Writer, v any) {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		say(w, "%q\n", err.Error())
	}
}
