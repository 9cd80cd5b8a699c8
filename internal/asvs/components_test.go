package asvs_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the list of components")

// told is where the components stand, and what they are made by.
const told = "docs/components.md"

// golist asks the go command about this module.
func golist(t *testing.T, args ...string) []string {
	t.Helper()
	c := exec.CommandContext(t.Context(), "go", append([]string{"list"}, args...)...) //nolint:gosec // this test's own words
	c.Dir = root
	out, err := c.Output()
	if err != nil {
		t.Fatalf("go list %q: %v", args, err)
	}
	lines := strings.Fields(string(out))
	slices.Sort(lines)
	return slices.Compact(lines)
}

// components are the modules of which something is built into the program, as path@version.
func components(t *testing.T) []string {
	t.Helper()
	return golist(t, "-deps", "-tags", "nethttpomithttp2", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}@{{.Version}}{{end}}{{end}}", "./cmd/wetside")
}

// The list of components has what is built in, no more and no less, with the day of each version and the Go that releases are built by
// (ASVS 5.0, 15.1.1 and 15.2.1: whoever is to keep them current must see how old they are).
func TestComponentsAreTold(t *testing.T) {
	path := filepath.Join(root, filepath.FromSlash(told))
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		t.Fatal(err)
	}
	made := regexp.MustCompile(`(?m)^toolchain (go\S+)$`).FindSubmatch(mod)
	if made == nil {
		t.Fatal("go.mod names no toolchain, by which releases are built")
	}
	if *update {
		if err := os.WriteFile(path, written(t, string(made[1])), 0o644); err != nil { //nolint:gosec // read by all, as docs are
			t.Fatal(err)
		}
	}
	text, err := os.ReadFile(path) //nolint:gosec // the test's own constant
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, m := range regexp.MustCompile("(?m)^\\| `(\\S+)` \\| (\\S+) \\| \\d{4}-\\d{2}-\\d{2} \\|$").FindAllStringSubmatch(string(text), -1) {
		got = append(got, m[1]+"@"+m[2])
	}
	slices.Sort(got)
	if want := components(t); !slices.Equal(got, want) || len(want) < 10 {
		t.Errorf("%s has\n%q, built in are\n%q: go generate ./internal/asvs writes it", told, got, want)
	}
	if !bytes.Contains(text, []byte("`"+string(made[1])+"`")) {
		t.Errorf("%s does not name %s: go generate ./internal/asvs writes it", told, made[1])
	}
}

// written is the list as it stands today.
func written(t *testing.T, made string) []byte {
	t.Helper()
	var b bytes.Buffer
	fmt.Fprintf(&b, "# What the program is made of\n\nReleases are built by `%s`. `go version -m wetside` tells the same of a binary, `make vuln` holds it to what is known of faults,\n"+
		"and [updates](security.md#updates) says how soon they are mended. A test holds this list to what is built in; `go generate ./internal/asvs` writes it.\n\n"+
		"| module | version | of |\n|---|---|---|\n", made)
	for _, c := range components(t) {
		path, version, _ := strings.Cut(c, "@")
		day := golist(t, "-m", "-f", `{{.Time.Format "2006-01-02"}}`, c)
		fmt.Fprintf(&b, "| `%s` | %s | %s |\n", path, version, day[0])
	}
	return b.Bytes()
}
