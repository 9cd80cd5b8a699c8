package darkroom

import (
	"encoding/json"
)

// Schema returns the JSON Schema (draft 2020-12) of the darkroom file, from the tables that read it. It says the
// shape; what fields say together, and how quantities are written, only Read knows.
func Schema() ([]byte, error) {
	s := fileKind().schema()
	s.Version = draft
	s.Title = "Darkroom file"
	s.Description = "One darkroom and one session: bench, shelf, products as on their labels, loads to make."
	s.Required = []string{"darkroom"}
	out, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return nil, err
	}
	return append(out, '\n'), nil
}

func schemaOfThing(fields []plain) *shape {
	var all properties
	var required []string
	for _, f := range fields {
		s := f.is.describe()
		s.Description = f.text
		all = append(all, property{f.name, s})
		if f.must {
			required = append(required, f.name)
		}
	}
	whole := object(all)
	whole.Required = required
	return whole
}

func schemaOfTable[K comparable, V any](keys []choice[K], k kind[V]) *shape {
	var all properties
	for _, c := range keys {
		all = append(all, property{c.word, k.schema()})
	}
	return object(all)
}

func schemaOfWords(words []string) *shape {
	s := &shape{Type: "string"}
	for _, w := range words {
		s.Enum = append(s.Enum, w)
	}
	return s
}

func schemaOfText() *shape { return &shape{Type: "string"} }

// schemaOfNumber is a figure without a unit: 0.25 or 1/4.
func schemaOfNumber() *shape {
	return &shape{AnyOf: []*shape{{Type: "number"}, {Type: "string"}}}
}

func schemaOfCount(low, high int) *shape {
	return &shape{Type: "integer", Minimum: &low, Maximum: &high}
}
