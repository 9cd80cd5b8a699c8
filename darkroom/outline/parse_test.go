package outline_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/darkroom/outline"
)

func TestParseKeepsCharacters(t *testing.T) {
	src := "\ufeffa: 1_000 # note\nb: 0x10\nc: {d: 11.20, e: 1:30, f: \"20 °C\", g: ~, h: }\ni: 2026-12-03 18:30\n135: [290 mL, .5, +3, yes, .inf]\n" +
		"k: |\n  two\n  lines\nl: plain\n  on two\nm: 'it''s'\nn:\n  -\n  - é: x\n"
	n, faults := outline.Parse([]byte(src))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	want := `{"a":"1_000","b":"0x10","c":{"d":"11.20","e":"1:30","f":"20 °C","g":null,"h":null},"i":"2026-12-03 18:30",` +
		`"135":["290 mL",".5","+3","yes",".inf"],"k":"two\nlines\n","l":"plain on two","m":"it's","n":[null,{"é":"x"}]}`
	if d := cmp.Diff(want, string(n.JSON())); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if got, want := n.Get("c").Get("f").Place, (outline.Place{Line: 3, Column: 27}); got != want {
		t.Errorf("place %v, want %v", got, want)
	}
}

func TestParseRefuses(t *testing.T) {
	tests := []struct {
		name, src string
		want      outline.FaultKind
		at        outline.Place
	}{
		{"large", strings.Repeat("#", outline.MaxBytes+1), outline.TooLarge, outline.Place{}},
		{"empty", "", outline.EmptyFile, outline.Place{Line: 1, Column: 1}},
		{"not UTF-8", "a: b\nc: \xe9", outline.NotUTF8, outline.Place{Line: 2, Column: 4}},
		{"NUL after a letter of two bytes", "é: \x00", outline.ControlChar, outline.Place{Line: 1, Column: 4}},
		{"tab", "a:\n \tb: c\n", outline.TabIndent, outline.Place{Line: 2, Column: 2}},
		{"second", "a: b\n---\nc: d\n", outline.SecondDocument, outline.Place{Line: 2, Column: 1}},
		{"empty second", "a: b\n---\n", outline.SecondDocument, outline.Place{Line: 2, Column: 1}},
		{"list", "- a\n", outline.RootNoMapping, outline.Place{Line: 1, Column: 1}},
		{"signs", "a: " + strings.Repeat("[", outline.MaxSigns+1), outline.TooManySigns, outline.Place{Line: 1, Column: 1}},
		{"bracket left open", "a: [b", outline.Syntax, outline.Place{Line: 1, Column: 4}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			n, faults := outline.Parse([]byte(tt.src))
			if n != nil || len(faults) != 1 || faults[0].Kind != tt.want || faults[0].Place != tt.at {
				t.Errorf("got %v, %+v; want %s at %v", n, faults, tt.want, tt.at)
			}
		})
	}
}

func TestParseAllows(t *testing.T) {
	tests := []struct{ name, src string }{
		{"32 levels", "a: " + strings.Repeat("[", 31) + strings.Repeat("]", 31)},
		{"one document's marks", "---\na: b\n...\n"},
		{"tab at a line's end", "a: b\t\n"},
		{"500 keys", strings.Repeat("a: 1\n", 1) + keys(outline.MaxKeys-1)},
		{"carriage returns", "a: b\r\nc:\r\n  - d\r\n"},
	}
	for _, tt := range tests {
		if _, faults := outline.Parse([]byte(tt.src)); len(faults) > 0 {
			t.Errorf("%s: %+v", tt.name, faults)
		}
	}
}

func keys(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat("k", i+1) + ": 1\n")
	}
	return b.String()
}

// TestDuplicates holds that a key that stands twice is told with both places, and the first value counts.
func TestDuplicates(t *testing.T) {
	n, faults := outline.Parse([]byte("a:\n  - {b: 1, c: 2, b: 3}\n"))
	want := []outline.Fault{{
		Kind: outline.DuplicateKey, Place: outline.Place{Line: 2, Column: 18}, Path: "a[0].b", Found: "b",
		First: outline.Place{Line: 2, Column: 6},
	}}
	if d := cmp.Diff(want, faults); d != "" {
		t.Error(d)
	}
	if got := string(n.JSON()); got != `{"a":[{"b":"1","c":"2"}]}` {
		t.Errorf("got %s", got)
	}
}

func TestForm(t *testing.T) {
	n, bad := outline.FromForm(map[string]string{
		"name": " jug ", "scales[0].unit": "mL", "scales[2].unit": "fl oz", "dilutions.RC paper": "1+9", "colour": "  ",
		"scales[0].unit.x": "1", "a[": "1", "": "1", "b[99999999]": "1", "c[-1]": "1",
	})
	if got, want := string(n.JSON()), `{"colour":null,"dilutions":{"RC paper":"1+9"},"name":"jug","scales":[{"unit":"mL"},null,{"unit":"fl oz"}]}`; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if d := cmp.Diff([]string{"", "a[", "b[99999999]", "c[-1]", "scales[0].unit.x"}, bad); d != "" {
		t.Errorf("bad names (-want +got):\n%s", d)
	}
	want := map[string]string{"name": "jug", "scales[0].unit": "mL", "scales[2].unit": "fl oz", "dilutions.RC paper": "1+9"}
	if d := cmp.Diff(want, n.Form()); d != "" {
		t.Errorf("Form (-want +got):\n%s", d)
	}
}

func TestFromJSONRefuses(t *testing.T) {
	for _, src := range []string{
		``, `[]`, `"a"`, `{`, `{"a":1}}`, `{"a":1,"a":2}`, `{"":1}`, strings.Repeat(`{"a":`, 40) + `1` + strings.Repeat(`}`, 40),
		strings.Repeat(" ", outline.MaxBytes) + `{}`,
	} {
		if n, err := outline.FromJSON([]byte(src)); err == nil {
			t.Errorf("FromJSON(%.40q) = %s", src, n.JSON())
		}
	}
}
