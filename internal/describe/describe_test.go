package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// What is kept is what is made of the source now, for the server and for people.
func TestDescriptionIsCurrent(t *testing.T) {
	const root = "../.."
	doc, err := made(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files() {
		text, err := written(doc, f.indent)
		if err != nil {
			t.Fatal(err)
		}
		kept, err := os.ReadFile(filepath.Join(root, f.name))
		if err != nil {
			t.Fatal(err)
		}
		if string(kept) != string(text) {
			t.Errorf("%s is not what the source says: run go generate ./api", f.name)
		}
	}
}

// things is a package of our own with what a type can have. What its schemas must be follows from how encoding/json writes it
// (https://pkg.go.dev/encoding/json#Marshal: omitempty, embedded structs, nil pointers as null) and from JSON Schema 2020-12
// (enum: validation 6.1.2; required: 6.5.3; type as a list: 6.1.1).
const things = `package p

// Sort is how a
// thing is.
type Sort string

const (
	None  Sort = ""
	Round Sort = "round"
	Flat  Sort = "flat"
	other      = "no sort"
)

type Named struct {
	ID string ` + "`json:\"id\" format:\"uuid\"`" + `
}

// Thing is one of them.
type Thing struct {
	Named
	Sort   Sort     ` + "`json:\"sort\"`" + ` // how it is
	// May comes
	// before.
	May    Sort     ` + "`json:\"may,omitempty\"`" + `
	Count  *int64   ` + "`json:\"count\"`" + `
	Maybe  *float64 ` + "`json:\"maybe,omitempty\"`" + `
	Parts  []Thing  ` + "`json:\"parts\"`" + `
	Over   *Thing   ` + "`json:\"over\"`" + `
	Of     map[string]bool ` + "`json:\"of\"`" + `
	Hidden string   ` + "`json:\"-\"`" + `
	inside int
}
`

func TestSchema(t *testing.T) {
	m := makerOf(t, things)
	ref, err := m.schema("p", "Thing")
	if err != nil {
		t.Fatal(err)
	}
	const want = `{
		"type": "object", "description": "Thing is one of them.", "additionalProperties": false,
		"required": ["count", "id", "of", "over", "parts", "sort"],
		"properties": {
			"id": {"type": "string", "format": "uuid"},
			"sort": {"type": "string", "enum": ["round", "flat"], "description": "how it is"},
			"may": {"type": "string", "enum": ["round", "flat", ""], "description": "May comes before."},
			"count": {"type": ["integer", "null"], "format": "int64"},
			"maybe": {"type": "number"},
			"parts": {"type": "array", "items": {"$ref": "#/components/schemas/Thing"}},
			"over": {"anyOf": [{"$ref": "#/components/schemas/Thing"}, {"type": "null"}]},
			"of": {"type": "object", "additionalProperties": {"type": "boolean"}}
		}
	}`
	if diff := cmp.Diff(plain(t, want), plain(t, marshalled(t, m.schemas["Thing"]))); diff != "" {
		t.Errorf("-want +got:\n%s", diff)
	}
	if ref["$ref"] != "#/components/schemas/Thing" || len(m.schemas) != 1 {
		t.Errorf("%v and %d schemas", ref, len(m.schemas))
	}
}

// What can't be described is an error, not left out.
func TestSchemaRefuses(t *testing.T) {
	for name, src := range map[string]string{
		"a type that is not there": "package p\ntype Thing struct { A Other `json:\"a\"` }\n",
		"a channel":                "package p\ntype Thing struct { A chan int `json:\"a\"` }\n",
		"no struct":                "package p\ntype Thing string\n",
	} {
		if _, err := makerOf(t, src).schema("p", "Thing"); err == nil {
			t.Errorf("%s is described", name)
		}
	}
	m := makerOf(t, things)
	m.sources["q"] = m.sources["p"]
	if _, err := m.schema("p", "Thing"); err != nil {
		t.Fatal(err)
	}
	if _, err := m.schema("q", "Thing"); err == nil {
		t.Error("two types of one name share a schema")
	}
}

// makerOf returns a maker that knows a package p of one file.
func makerOf(t *testing.T, text string) *maker {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "p.go"), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := readSource(dir)
	if err != nil {
		t.Fatal(err)
	}
	return &maker{sources: map[string]*source{"p": s}, schemas: object{}, from: map[string]string{}}
}

func plain(t *testing.T, text string) (v any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	return v
}

func marshalled(t *testing.T, v any) string {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
