package darkroom_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"

	"wetside/darkroom"
	"wetside/internal/outside"
)

const schemaPath = "../docs/darkroom.schema.json"

// TestSchema holds the committed schema current.
func TestSchema(t *testing.T) {
	got, err := darkroom.Schema()
	if err != nil {
		t.Fatal(err)
	}
	golden(t, schemaPath, got)
}

// TestSchemaAgainstFiles validates files by the schema with python-jsonschema, an independent validator: the sample
// and the example pass; a misspelt field, a word that is none, and a missing name do not.
func TestSchemaAgainstFiles(t *testing.T) {
	python := outside.Python(t, "yaml", "jsonschema")
	tests := []struct {
		file  string
		valid bool
	}{
		{"testdata/contract.yaml", true},
		{"../docs/example.yaml", true},
		{"testdata/bad/unknown-field.yaml", false},
		{"testdata/bad/place-word.yaml", false},
		{"testdata/bad/no-name.yaml", false},
		{"testdata/bad/load-sheets-negative.yaml", false},
		{"testdata/bad/scale-no-step.yaml", false},
		{"testdata/bad/all-at-once.yaml", false},
	}
	// YAML 1.2 has no yes, no and dates; PyYAML's loader is told so.
	const script = `
import json, sys, yaml, jsonschema
class Loader(yaml.SafeLoader): pass
Loader.yaml_implicit_resolvers = {k: [r for r in v if r[0] not in ("tag:yaml.org,2002:timestamp", "tag:yaml.org,2002:bool")]
    for k, v in yaml.SafeLoader.yaml_implicit_resolvers.items()}
schema = json.load(open(sys.argv[1]))
jsonschema.Draft202012Validator.check_schema(schema)
def text_keys(v):
    if isinstance(v, dict): return {str(k): text_keys(x) for k, x in v.items()}
    return [text_keys(x) for x in v] if isinstance(v, list) else v
for path in sys.argv[2:]:
    errors = jsonschema.Draft202012Validator(schema).iter_errors(text_keys(yaml.load(open(path), Loader=Loader)))
    print(json.dumps([e.json_path + ": " + e.message for e in errors]))
`
	args := []string{"-c", script, schemaPath}
	for _, tt := range tests {
		args = append(args, tt.file)
	}
	out, err := exec.CommandContext(t.Context(), python, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(tests) {
		t.Fatalf("%d answers for %d files", len(lines), len(tests))
	}
	for i, tt := range tests {
		if valid := lines[i] == "[]"; valid != tt.valid {
			t.Errorf("%s: valid %v, want %v\n%s", tt.file, valid, tt.valid, lines[i])
		}
	}
}

// TestSchemaKnowsEveryField holds the schema's shape against the sample without any other program: every field of
// the sample is a property, and nothing else would be let in.
func TestSchemaKnowsEveryField(t *testing.T) {
	src, err := os.ReadFile(schemaPath)
	if err != nil {
		t.Fatal(err)
	}
	var schema map[string]any
	if err := json.Unmarshal(src, &schema); err != nil {
		t.Fatal(err)
	}
	f := contract(t)
	known := 0
	for path := range darkroom.FormOf(f.Shelf) {
		known += propertyAt(t, schema, "shelf."+path)
	}
	for path := range darkroom.FormOf(f.Bench) {
		known += propertyAt(t, schema, "bench."+path)
	}
	for path := range darkroom.FormOf(f.Darkroom) {
		known += propertyAt(t, schema, "darkroom."+path)
	}
	for path := range darkroom.FormOf(f.Session) {
		known += propertyAt(t, schema, "session."+path)
	}
	if known < 150 {
		t.Errorf("%d fields looked up, want the sample's", known)
	}
}

// propertyAt walks the schema along a path, and returns 1.
func propertyAt(t *testing.T, s map[string]any, path string) int {
	t.Helper()
	for part := range strings.SplitSeq(path, ".") {
		key, index, isItem := strings.Cut(part, "[")
		if s["additionalProperties"] != false {
			t.Errorf("%s: %s lets other fields in", path, key)
		}
		properties, _ := s["properties"].(map[string]any)
		next, ok := properties[key].(map[string]any)
		if !ok {
			t.Errorf("%s: the schema does not know %s", path, key)
			return 0
		}
		s = next
		if isItem && index != "" {
			s, _ = s["items"].(map[string]any)
		}
	}
	return 1
}
