package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"log"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/goccy/go-yaml"

	"wetside/api"
)

func main() {
	root := ".." // go generate runs in api
	if len(os.Args) > 1 {
		root = os.Args[1]
	}
	if err := describe(root); err != nil {
		log.Fatal(err)
	}
}

// describe writes the description of the API: for the server on one line, for people with line breaks.
func describe(root string) error {
	doc, err := made(root)
	if err != nil {
		return err
	}
	for _, f := range files() {
		text, err := written(doc, f.indent)
		if err != nil {
			return err
		}
		if err := os.WriteFile(filepath.Join(root, f.name), text, 0o644); err != nil { //nolint:gosec // it is handed out
			return err
		}
	}
	return nil
}

// A file is where the description is kept, and how it is indented there.
type file struct{ name, indent string }

func files() []file { return []file{{"api/openapi.json", ""}, {"docs/openapi.json", "  "}} }

// made makes the description of the source under root.
func made(root string) (object, error) {
	text, err := os.ReadFile(filepath.Join(root, "api/openapi.yaml"))
	if err != nil {
		return nil, err
	}
	var doc object
	if err := yaml.Unmarshal(text, &doc); err != nil {
		return nil, err
	}
	schemas, err := schemasOf(root)
	if err != nil {
		return nil, err
	}
	delete(doc, "x-answers")
	doc["components"].(object)["schemas"] = schemas
	return doc, nil
}

func written(doc object, indent string) ([]byte, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	e.SetIndent("", indent)
	err := e.Encode(doc)
	return b.Bytes(), err
}

// schemasOf makes the schemas: of what the API answers, of what it takes, and of each kind's body.
func schemasOf(root string) (object, error) {
	m := &maker{sources: map[string]*source{}, schemas: object{}, from: map[string]string{}}
	for _, dir := range []string{"words/facts", "api", "book"} {
		s, err := readSource(filepath.Join(root, dir))
		if err != nil {
			return nil, err
		}
		m.sources[dir] = s
	}
	for _, name := range []string{"State", "Baths", "BathLife", "Sessions", "Session", "Timers", "Readings", "Entries", "Entry", "Reading"} {
		if _, err := m.schema("words/facts", name); err != nil {
			return nil, err
		}
	}
	for _, name := range []string{"Append", "Temperature", "Read", "Problem", "Mistake"} {
		if _, err := m.schema("api", name); err != nil {
			return nil, err
		}
	}
	return m.schemas, m.bodies()
}

// bodies makes the schema of each kind's body and ties it to the kind of an entry that is sent.
func (m *maker) bodies() error {
	s := m.sources["book"]
	byKind := map[string]string{}
	for of, name := range s.kinds {
		byKind[s.values[name]] = of
	}
	var words, bodies []string
	sentAs := map[string][]string{} // by the body's type
	for _, kind := range s.words["Kind"] {
		of := byKind[kind]
		switch {
		case strings.HasSuffix(kind, ".set"):
			of = "Set"
		case strings.HasSuffix(kind, ".removed"):
			of = "Removed"
		case of == "":
			return fmt.Errorf("the kind %s has no body", kind)
		}
		names := api.NamesOf(kind)
		if len(names) > 0 && sentAs[of] == nil {
			bodies = append(bodies, of)
		}
		sentAs[of] = append(sentAs[of], names...)
		words = append(words, names...)
	}
	var ties []object
	for _, of := range bodies {
		ref, err := m.schema("book", of)
		if err != nil {
			return err
		}
		ties = append(ties, object{
			"if":   object{"properties": object{"kind": object{"enum": sentAs[of]}}, "required": []string{"kind"}},
			"then": object{"properties": object{"body": ref}},
		})
	}
	slices.Sort(words)
	sent := m.schemas["Append"].(object)
	kind := maps.Clone(sent["properties"].(object)["kind"].(object))
	kind["enum"] = words
	sent["properties"].(object)["kind"] = kind
	sent["allOf"] = ties
	return nil
}
