package darkroom_test

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/darkroom"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares got with a file, or rewrites it.
func golden(t *testing.T, path string, got []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), string(got)); d != "" {
		t.Errorf("%s (-want +got):\n%s", path, d)
	}
}

// TestBad holds each fixture, which breaks one rule, against its exact messages.
func TestBad(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.yaml")
	if err != nil || len(files) < 60 {
		t.Fatalf("%d bad fixtures (%v), want at least 60", len(files), err)
	}
	seen := map[darkroom.ProblemKind]bool{}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			src, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			f, err := darkroom.Read(src)
			problems, ok := errors.AsType[darkroom.Problems](err)
			if !ok {
				t.Fatalf("Read(%q): error %v, want Problems", src, err)
			}
			if !reflect.DeepEqual(f, darkroom.File{}) {
				t.Errorf("Read gives a file beside its problems")
			}
			var out bytes.Buffer
			for _, p := range problems {
				out.WriteString(p.String() + "\n")
				checkProblem(t, src, p)
				seen[p.Kind] = true
			}
			golden(t, strings.TrimSuffix(file, ".yaml")+".txt", out.Bytes())
		})
	}
	everyKindSeen(t, seen)
}

// everyKindSeen holds that each reason that is this package's own, or outline's, has a fixture; the two left out
// need large files and have their tests in read_test.go.
func everyKindSeen(t *testing.T, seen map[darkroom.ProblemKind]bool) {
	t.Helper()
	for _, kind := range darkroom.ProblemKinds() {
		if !seen[kind] && kind != "file_too_large" && kind != "too_many_signs" {
			t.Errorf("no bad fixture for %s", kind)
		}
	}
}

// checkProblem holds what a problem says against the text it speaks of: the place is in the file, and what was
// found there does stand there, unless it is a figure about it.
func checkProblem(t *testing.T, src []byte, p darkroom.Problem) {
	t.Helper()
	if p.Kind == "" || p.Message() == "" || strings.Contains(p.Message(), "  ") {
		t.Errorf("%#v says %q", p, p.Message())
	}
	lines := strings.Split(string(src), "\n")
	if p.Line < 1 || p.Line > len(lines) || p.Column < 1 {
		t.Fatalf("%v: no such place", p)
	}
	figure := !strings.Contains(string(src), p.Found) || p.Path == ""
	if p.Found != "" && !figure && !standsThere(lines[p.Line-1], p.Column, p.Found) {
		t.Errorf("%v: %q does not stand there", p, p.Found)
	}
}

// standsThere reports whether the text at a place begins with what was found, within quotes or not.
func standsThere(line string, column int, found string) bool {
	r := []rune(line)
	return column <= len(r) && strings.HasPrefix(strings.Trim(string(r[column-1:]), `"`), found)
}
