package words_test

import (
	"maps"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"

	"wetside/words"
)

// Every message file is read as a reader of TOML reads it: each key, each form, each text.
func TestFilesAreReadAsTOML(t *testing.T) {
	files, err := filepath.Glob("active.*.toml")
	if err != nil || len(files) < 4 {
		t.Fatalf("message files: %v, %v", files, err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		got, err := words.ReadMessages(string(text))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if diff := cmp.Diff(messages(t, name), got); diff != "" {
			t.Errorf("%s (-TOML +ours):\n%s", name, diff)
		}
	}
}

func TestWhatIsNoMessageFile(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"no text":         {"a = \"x\"\nb", "line 2"},
		"no quotes":       {"a = x", "line 1"},
		"other quotes":    {"a = 'x'", "line 1"},
		"not closed":      {"a = \"x", "line 1"},
		"more behind":     {"a = \"x\" y", "line 1"},
		"a key of two":    {"a b = \"x\"", "line 1"},
		"a table open":    {"# so\n\n[a", "line 3"},
		"a table of none": {"[]", "line 1"},
		"an empty part":   {"[a..b]", "line 1"},
		"a bad escape":    {`a = "\q"`, "line 1"},
		"a table of both": {"[a]\none = \"x\"\nb = \"y\"", "[a] has"},
		"no form other":   {"[a]\none = \"x\"", "[a] has"},
	} {
		if got, err := words.ReadMessages(c.text); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v, %v; want %s", name, got, err, c.want)
		}
	}
}

// What both read, both read alike.
func FuzzReadMessages(f *testing.F) {
	english, err := os.ReadFile("active.en.toml")
	if err != nil {
		f.Fatal(err)
	}
	for part := range strings.SplitSeq(string(english[:20_000]), "\n\n") {
		f.Add(part)
	}
	f.Add("[a.b]\none = \"{{.N}} cat\" # so\nother = \"\\u00a0\\\"\"\n[c]\n\"x+y\" = \"\"")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := words.ReadMessages(text)
		if err != nil {
			return
		}
		var tree map[string]any
		if _, err := toml.Decode(text, &tree); err != nil {
			return // stricter: a key twice, an escape of Go's
		}
		want := map[string]map[string]string{}
		flatten(want, "", tree)
		for key, forms := range want {
			maps.DeleteFunc(forms, func(form, text string) bool { return form != "other" && text == "" })
			if diff := cmp.Diff(forms, got[key]); diff != "" && forms["other"] != "" {
				t.Errorf("%s (-TOML +ours):\n%s", key, diff)
			}
		}
	})
}
