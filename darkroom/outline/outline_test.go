package outline_test

import (
	"encoding/json"
	"os/exec"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"wetside/darkroom/outline"
	"wetside/internal/outside"
)

// shape compares nodes without their places and styles.
func shape() cmp.Options {
	return cmp.Options{
		cmpopts.IgnoreFields(outline.Node{}, "Place", "Flow", "Words", "Loose"),
		cmpopts.IgnoreFields(outline.Field{}, "Place"), cmpopts.EquateEmpty(),
	}
}

func hard() *rapid.Generator[string] {
	return rapid.OneOf(
		rapid.StringN(1, 20, 60),
		rapid.SampledFrom([]string{
			"null", "~", "Null", "yes", "1_000", "0x10", "1:30", "2026-03-01", "- a", "a: b", "a #b", "#", "a:", ":", "{", "]", "|", ">",
			"&a", "*a", "!a", "%a", "@a", "`", "'", `"`, `\`, " a", "a ", "a  b", "a\nb", "\n", "\t", "---", "...", "<<", "?", "-", "=", ".", "½",
			"\u2028", "\u0085", "\ufeff", "😀", "\u200b", "1e3", "+1", ".5", ".inf", "0o7", "a, b", "[a]", "é\u0301", "1+9", "10 %", "°C",
		}),
		rapid.StringMatching(`[a-z0-9:#,\-\[\]{} '"]{1,12}`),
	)
}

// tree draws a node as a writer would make it.
func tree(depth int) *rapid.Generator[*outline.Node] {
	return rapid.Custom(func(t *rapid.T) *outline.Node {
		kind := rapid.IntRange(0, 3).Draw(t, "kind")
		n := &outline.Node{Flow: rapid.Bool().Draw(t, "flow"), Words: rapid.Bool().Draw(t, "words")}
		switch {
		case depth == 0 || kind < 2:
			n.Kind, n.Text = outline.Scalar, hard().Draw(t, "text")
		case kind == 2:
			n.Kind = outline.List
			n.Items = rapid.SliceOfN(tree(depth-1), 1, 4).Draw(t, "items")
		default:
			fill(t, n, depth-1)
		}
		return n
	})
}

func fill(t *rapid.T, n *outline.Node, depth int) {
	n.Kind = outline.Mapping
	for _, key := range rapid.SliceOfNDistinct(hard(), 1, 4, rapid.ID).Draw(t, "keys") {
		n.Set(key, tree(depth).Draw(t, "value"))
	}
}

func root() *rapid.Generator[*outline.Node] {
	return rapid.Custom(func(t *rapid.T) *outline.Node {
		n := &outline.Node{}
		fill(t, n, 3)
		return n
	})
}

// TestYAMLRoundTrip holds that every tree comes back from its YAML, whatever its texts.
func TestYAMLRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := root().Draw(t, "root")
		src := n.YAML()
		back, faults := outline.Parse(src)
		if len(faults) > 0 {
			t.Fatalf("Parse(%q): %v", src, faults)
		}
		if d := cmp.Diff(n, back, shape()); d != "" {
			t.Fatalf("%s\n%s", src, d)
		}
	})
}

// TestJSONRoundTrip holds the same of JSON, and that it is JSON to the standard library.
func TestJSONRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := root().Draw(t, "root")
		src := n.JSON()
		if !json.Valid(src) {
			t.Fatalf("not JSON: %q", src)
		}
		back, err := outline.FromJSON(src)
		if err != nil {
			t.Fatalf("FromJSON(%q): %v", src, err)
		}
		if d := cmp.Diff(n, back, shape()); d != "" {
			t.Fatalf("%s\n%s", src, d)
		}
	})
}

// TestPlaces holds the places of scalars against the text, columns counted in characters.
func TestPlaces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := root().Draw(t, "root")
		src := string(n.YAML())
		if rapid.Bool().Draw(t, "crlf") {
			src = strings.ReplaceAll(src, "\n", "\r\n")
		}
		back, faults := outline.Parse([]byte(src))
		if len(faults) > 0 {
			t.Fatalf("Parse(%q): %v", src, faults)
		}
		look(t, back, strings.Split(src, "\n"))
	})
}

func look(t *rapid.T, n *outline.Node, lines []string) {
	if n.Kind == outline.Scalar {
		at(t, n.Text, n.Place, lines)
	}
	for _, f := range n.Fields {
		at(t, f.Key, f.Place, lines)
		look(t, f.Value, lines)
	}
	for _, item := range n.Items {
		look(t, item, lines)
	}
}

// at holds that text, plain or in double quotes, begins at a place.
func at(t *rapid.T, text string, p outline.Place, lines []string) {
	if p.Line < 1 || p.Line > len(lines) {
		t.Fatalf("%q: no line %d", text, p.Line)
	}
	line := []rune(lines[p.Line-1])
	if p.Column < 1 || p.Column > len(line) {
		t.Fatalf("%q: no column %d in %q", text, p.Column, string(line))
	}
	if rest := string(line[p.Column-1:]); rest[0] != '"' && !strings.HasPrefix(rest, text) {
		t.Fatalf("%q is not at %v in %q", text, p, string(line))
	}
}

// TestAgainstPyYAML reads what is written with another reader of YAML, PyYAML's BaseLoader, which takes every
// scalar as text.
func TestAgainstPyYAML(t *testing.T) {
	interpreter := outside.Python(t, "yaml")
	gen := root()
	var sources []string
	var want []any
	for seed := range 300 {
		n := gen.Example(seed)
		var v any
		if err := json.Unmarshal(n.JSON(), &v); err != nil {
			t.Fatal(err)
		}
		sources, want = append(sources, string(n.YAML())), append(want, v)
	}
	in, err := json.Marshal(sources)
	if err != nil {
		t.Fatal(err)
	}
	const script = "import json,sys,yaml\nprint(json.dumps([yaml.load(s,Loader=yaml.BaseLoader) for s in json.load(sys.stdin)]))"
	python := exec.CommandContext(t.Context(), interpreter, "-c", script)
	python.Stdin = strings.NewReader(string(in))
	out, err := python.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	var got []any
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if len(got) != len(want) {
		t.Fatalf("%d read, want %d", len(got), len(want))
	}
	for i := range want {
		if d := cmp.Diff(want[i], got[i]); d != "" {
			t.Errorf("%s\n%s", sources[i], d)
		}
	}
}
