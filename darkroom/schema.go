package darkroom

import (
	"encoding/json"

	"github.com/invopop/jsonschema"
)

// Schema returns the JSON Schema (draft 2020-12) of the darkroom file, from the tables that read it. It says the
// shape; what fields say together, and how quantities are written, only Read knows.
func Schema() ([]byte, error) {
	s := fileKind().schema()
	s.Version = jsonschema.Version
	s.Title = "Darkroom file"
	s.Description = "One darkroom and one session: bench, shelf, products as on their labels, loads to make."
	s.Required = []string{"darkroom"}
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return nil, err
	}
	return append(out, '\n'), nil
}

func schemaOfThing[T any](fields []field[T]) *jsonschema.Schema {
	s := &jsonschema.Schema{
		Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema,
	}
	for _, f := range fields {
		s.Properties.Set(f.name, f.schema())
		if f.must {
			s.Required = append(s.Required, f.name)
		}
	}
	return s
}

func schemaOfTable[K comparable, V any](keys []choice[K], k kind[V]) *jsonschema.Schema {
	s := &jsonschema.Schema{
		Type: "object", Properties: jsonschema.NewProperties(), AdditionalProperties: jsonschema.FalseSchema,
	}
	for _, c := range keys {
		s.Properties.Set(c.word, k.schema())
	}
	return s
}

func schemaOfWords(words []string) *jsonschema.Schema {
	s := &jsonschema.Schema{Type: "string"}
	for _, w := range words {
		s.Enum = append(s.Enum, w)
	}
	return s
}

func schemaOfText() *jsonschema.Schema { return &jsonschema.Schema{Type: "string"} }

// schemaOfNumber is a figure without a unit: 0.25 or 1/4.
func schemaOfNumber() *jsonschema.Schema {
	return &jsonschema.Schema{AnyOf: []*jsonschema.Schema{{Type: "number"}, {Type: "string"}}}
}

func schemaOfCount(low, high int) *jsonschema.Schema {
	number := func(n int) json.Number {
		b, _ := json.Marshal(n)
		return json.Number(b)
	}
	return &jsonschema.Schema{Type: "integer", Minimum: number(low), Maximum: number(high)}
}
