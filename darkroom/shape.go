package darkroom

import (
	"bytes"
	"encoding/json"
)

// A shape is what JSON Schema (draft 2020-12) says of a value: as many of its keywords as the file needs. Its fields stand in
// the order in which they are written.
type shape struct {
	Version     string      `json:"$schema,omitempty"`
	AnyOf       []*shape    `json:"anyOf,omitempty"`
	Items       *shape      `json:"items,omitempty"`
	Properties  *properties `json:"properties,omitempty"`
	Closed      *never      `json:"additionalProperties,omitempty"` // no other properties
	Type        string      `json:"type,omitempty"`
	Enum        []any       `json:"enum,omitempty"`
	Const       any         `json:"const,omitempty"`
	Maximum     *int        `json:"maximum,omitempty"`
	Minimum     *int        `json:"minimum,omitempty"`
	Required    []string    `json:"required,omitempty"`
	Title       string      `json:"title,omitempty"`
	Description string      `json:"description,omitempty"`
}

// draft is the edition of JSON Schema.
const draft = "https://json-schema.org/draft/2020-12/schema"

// never is the schema that nothing meets.
type never struct{}

// MarshalJSON writes false.
func (never) MarshalJSON() ([]byte, error) { return []byte("false"), nil }

// properties are named shapes in order.
type properties []property

type property struct {
	name string
	of   *shape
}

// MarshalJSON writes an object with the properties in their order.
func (p properties) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, x := range p {
		if i > 0 {
			b.WriteByte(',')
		}
		for _, part := range []any{x.name, x.of} {
			text, err := json.Marshal(part)
			if err != nil {
				return nil, err
			}
			b.Write(text)
			if part == any(x.name) {
				b.WriteByte(':')
			}
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// object returns the shape of a mapping with these properties and no others.
func object(all properties) *shape {
	return &shape{Type: "object", Properties: &all, Closed: &never{}}
}
