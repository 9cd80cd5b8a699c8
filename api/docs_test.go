package api_test

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"wetside/access"
	"wetside/internal/outside"
	"wetside/words/facts"
)

// theDocument is what others read.
func theDocument(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../docs/api.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// inShell runs a command line in a directory with the variables that the document names.
func (h *house) inShell(t *testing.T, dir, line string, more ...string) string {
	t.Helper()
	c := exec.CommandContext(t.Context(), "sh", "-c", line)
	c.Dir, c.Env = dir, append(os.Environ(), append([]string{"WETSIDE=" + h.URL, "DEVELOPER=dev1", "ONCE=1"}, more...)...)
	out, err := c.Output()
	if exit, ok := errors.AsType[*exec.ExitError](err); ok && len(exit.Stderr) > 0 {
		t.Errorf("%s\n%s", line, exit.Stderr)
	}
	return string(out)
}

// Each example of the document is run by a shell against a real server, one after the other, and answers what the document
// shows; … stands for anything.
func TestDocumentedExamples(t *testing.T) {
	outside.Program(t, "curl", "curl")
	h := serve(t)
	h.pour("dev1", "paper developer", "1+9", trayOf(h, 0))
	blocks := regexp.MustCompile("(?s)```console\n(.*?)```").FindAllStringSubmatch(theDocument(t), -1)
	dir, before, ran := t.TempDir(), "", 0
	for _, block := range blocks {
		for _, example := range strings.Split("\n"+block[1], "\n$ ")[1:] {
			line, want, _ := strings.Cut(example, "\n")
			if regexp.MustCompile(`^[A-Z]+=`).MatchString(line) { // for what comes
				before = kept(t, dir, before+line+"\n", h)
				continue
			}
			ran++
			got := h.inShell(t, dir, before+line)
			parts := strings.Split(strings.TrimSuffix(want, "\n"), "…")
			for i := range parts {
				parts[i] = regexp.QuoteMeta(parts[i])
			}
			if !regexp.MustCompile(`(?s)^` + strings.Join(parts, ".*") + `\n?$`).MatchString(got) {
				t.Errorf("$ %s\nanswers\n%s\nthe document says\n%s", line, got, want)
			}
		}
	}
	if ran < 18 {
		t.Errorf("%d examples ran", ran)
	}
}

// kept sets what was set before to what it was found to be, so that an id that is made stays the same.
func kept(t *testing.T, dir, before string, h *house) string {
	t.Helper()
	names := regexp.MustCompile(`(?m)^([A-Z]+)=`).FindAllStringSubmatch(before, -1)
	all := ""
	for _, name := range names {
		value := h.inShell(t, dir, before+`printf %s "$`+name[1]+`"`)
		all += name[1] + "='" + value + "'\n"
	}
	return all
}

// The script for a board, as the document has it, sends what the kernel's file of a thermometer says; with a key where one is asked for.
func TestDocumentedProbe(t *testing.T) {
	outside.Program(t, "curl", "curl")
	h := serve(t)
	tray := trayOf(h, 0)
	h.pour("dev1", "paper developer", "1+9", tray)
	_, script, found := strings.Cut(theDocument(t), "```sh\n")
	script, _, closed := strings.Cut(script, "```")
	if !found || !closed {
		t.Fatal("the document has no script")
	}
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o700); err != nil {
			t.Fatal(err)
		}
		return path
	}
	probe, file := write("probe.sh", script), write("temperature", "20437\n")
	line := fmt.Sprintf("%s %s '%s'", probe, file, tray)
	h.inShell(t, dir, line)
	h.keyholder()
	sink := h.as(access.Sink, "")
	write("temperature", "21062\n")
	h.inShell(t, dir, line, "KEY="+sink.key, "PROBE=second")
	var all facts.Readings
	sink.get("/readings").into(&all)
	if len(all.Readings) != 1 || all.Readings[0].Celsius != 21.1 || all.Readings[0].Probe != "second" || *all.Readings[0].Bath != "dev1" {
		t.Errorf("%+v", all)
	}
	var entries facts.Entries
	sink.get("/entries?kinds=temperature.").into(&entries)
	if len(entries.Entries) != 2 || !strings.Contains(string(entries.Entries[0].Body), "20.4 °C") {
		t.Errorf("%+v", entries)
	}
}

// The document lists every sort of problem with its status, and every short word for a kind.
func TestDocumentedProblems(t *testing.T) {
	text := theDocument(t)
	told := map[string]string{}
	for _, m := range regexp.MustCompile("(?m)^\\| ([0-9]{3}) \\| `([a-z_]+)`").FindAllStringSubmatch(text, -1) {
		told[m[2]] = m[1]
	}
	source, err := os.ReadFile("problem.go")
	if err != nil {
		t.Fatal(err)
	}
	slugs := regexp.MustCompile(`(?m)^\tp[A-Z][A-Za-z]+ += "([a-z_]+)"`).FindAllStringSubmatch(string(source), -1)
	if len(slugs) < 15 || len(slugs) != len(told) {
		t.Errorf("%d sorts, %d told", len(slugs), len(told))
	}
	for _, m := range slugs {
		if told[m[1]] == "" {
			t.Errorf("%s is not told", m[1])
		}
	}
	d := described()
	for _, w := range d.in(d.all, "components", "schemas", "Append", "properties", "kind", "enum").([]any) {
		if word := w.(string); !strings.Contains(word, ".") && word != "correction" && !strings.Contains(text, "`"+word+"`") {
			t.Errorf("the word %s is not told", word)
		}
	}
}
