package book

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
)

// An Upcast lifts a body from one version of its kind to the next. It is pure, and what it makes is never stored.
type Upcast func(body string) (string, error)

// Upcasts holds, for each kind, the upcasts from version 1 to 2, from 2 to 3, and so on. The kind's version of today is
// one more than there are upcasts.
type Upcasts map[Kind][]Upcast

// Upcasters returns the upcasts that books written until today need. No kind's body has changed yet.
func Upcasters() Upcasts { return nil }

// Version returns the version that is written today.
func (u Upcasts) Version(k Kind) int { return len(u[k]) + 1 }

// errNewer is why an entry of a newer version or an unknown kind is not read.
var errNewer = errors.New("written by a newer program")

// Read returns an entry's body in today's version. An unknown kind or a version from the future is an *Error of kind
// Newer; a body that is not what its kind says is one of kind BadInput.
func (u Upcasts) Read(e Entry) (Body, error) {
	b := e.Kind.blank()
	if b == nil || e.Version > u.Version(e.Kind) {
		return nil, &Error{Kind: Newer, Key: "entry_newer", Cause: errNewer}
	}
	text := e.Body
	if e.Version < 1 {
		return nil, badEntry("version")
	}
	for _, up := range u[e.Kind][e.Version-1:] {
		var err error
		if text, err = up(text); err != nil {
			return nil, badBody(e, err)
		}
	}
	if many, ok := b.(plainBody); ok {
		if readPlain(many, text) {
			return b, nil
		}
		b = e.Kind.blank() // what was read of it counts for nothing
	}
	if err := json.Unmarshal([]byte(text), b); err != nil {
		return nil, badBody(e, err)
	}
	return b, nil
}

func badBody(e Entry, err error) error {
	return &Error{Kind: BadInput, Key: "entry_bad_body", Cause: fmt.Errorf("%s version %d: %w", e.Kind, e.Version, err)}
}

// strict reports fields that the kind's body does not have: what is written today must be understood in full.
func strict(k Kind, body string) error {
	dec := json.NewDecoder(bytes.NewReader([]byte(body)))
	dec.DisallowUnknownFields()
	return dec.Decode(k.blank())
}
