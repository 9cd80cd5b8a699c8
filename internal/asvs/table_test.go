package asvs_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"wetside/internal/asvs"
)

const root = "../.."

// wanted are the numbers of OWASP ASVS 5.0.0 (its CSV of the release, column L): all of level 1, and of level 2 those of the chapters 5 to 8,
// 11, 13 and 16.
func wanted(t *testing.T) map[string]int {
	t.Helper()
	all := map[string]int{}
	add := func(level int, section string, numbers ...int) {
		for _, n := range numbers {
			all[fmt.Sprintf("%s.%d", section, n)] = level
		}
	}
	for _, s := range []struct {
		section string
		one     []int
		two     []int
	}{
		{"1.2", []int{1, 2, 3, 4, 5}, nil},
		{"1.3", []int{1, 2}, nil},
		{"1.5", []int{1}, nil},
		{"2.1", []int{1}, nil},
		{"2.2", []int{1, 2}, nil},
		{"2.3", []int{1}, nil},
		{"3.2", []int{1, 2}, nil},
		{"3.3", []int{1}, nil},
		{"3.4", []int{1, 2}, nil},
		{"3.5", []int{1, 2, 3}, nil},
		{"4.1", []int{1}, nil},
		{"4.4", []int{1}, nil},
		{"5.1", nil, []int{1}},
		{"5.2", []int{1, 2}, []int{3}},
		{"5.3", []int{1, 2}, nil},
		{"5.4", nil, []int{1, 2, 3}},
		{"6.1", []int{1}, []int{2, 3}},
		{"6.2", []int{1, 2, 3, 4, 5, 6, 7, 8}, []int{9, 10, 11, 12}},
		{"6.3", []int{1, 2}, []int{3, 4}},
		{"6.4", []int{1, 2}, []int{3, 4}},
		{"6.5", nil, []int{1, 2, 3, 4, 5}},
		{"6.6", nil, []int{1, 2, 3}},
		{"6.8", nil, []int{1, 2, 3, 4}},
		{"7.1", nil, []int{1, 2, 3}},
		{"7.2", []int{1, 2, 3, 4}, nil},
		{"7.3", nil, []int{1, 2}},
		{"7.4", []int{1, 2}, []int{3, 4, 5}},
		{"7.5", nil, []int{1, 2}},
		{"7.6", nil, []int{1, 2}},
		{"8.1", []int{1}, []int{2}},
		{"8.2", []int{1, 2}, []int{3}},
		{"8.3", []int{1}, nil},
		{"8.4", nil, []int{1}},
		{"9.1", []int{1, 2, 3}, nil},
		{"9.2", []int{1}, nil},
		{"10.4", []int{1, 2, 3, 4, 5}, nil},
		{"11.1", nil, []int{1, 2}},
		{"11.2", nil, []int{1, 2, 3}},
		{"11.3", []int{1, 2}, []int{3}},
		{"11.4", []int{1}, []int{2, 3, 4}},
		{"11.5", nil, []int{1}},
		{"11.6", nil, []int{1}},
		{"12.1", []int{1}, nil},
		{"12.2", []int{1, 2}, nil},
		{"13.1", nil, []int{1}},
		{"13.2", nil, []int{1, 2, 3, 4, 5}},
		{"13.3", nil, []int{1, 2}},
		{"13.4", []int{1}, []int{2, 3, 4, 5}},
		{"14.2", []int{1}, nil},
		{"14.3", []int{1}, nil},
		{"15.1", []int{1}, nil},
		{"15.2", []int{1}, nil},
		{"15.3", []int{1}, nil},
		{"16.1", nil, []int{1}},
		{"16.2", nil, []int{1, 2, 3, 4, 5}},
		{"16.3", nil, []int{1, 2, 3, 4}},
		{"16.4", nil, []int{1, 2, 3}},
		{"16.5", nil, []int{1, 2, 3}},
	} {
		add(1, s.section, s.one...)
		add(2, s.section, s.two...)
	}
	first := 0
	for _, level := range all {
		if level == 1 {
			first++
		}
	}
	if first != 70 { // the standard's own figure for level 1
		t.Fatalf("%d items of level 1, want 70", first)
	}
	return all
}

// tests are all tests of the source, as folder.Name.
func tests(t *testing.T) map[string]bool {
	t.Helper()
	known := map[string]bool{}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		folder, _ := filepath.Rel(root, filepath.Dir(path))
		for _, decl := range f.Decls {
			if fn, ok := decl.(*ast.FuncDecl); ok && fn.Recv == nil && (strings.HasPrefix(fn.Name.Name, "Test") || strings.HasPrefix(fn.Name.Name, "Fuzz")) {
				known[filepath.ToSlash(folder)+"."+fn.Name.Name] = true
			}
		}
		return nil
	})
	if err != nil || len(known) < 400 {
		t.Fatalf("%d tests were found: %v", len(known), err)
	}
	return known
}

func table(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile(root + "/docs/asvs.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// Each item of the standard stands in the table once, met by tests that there are, or with the reason why not; and what is told of their
// number is so.
func TestEveryItemIsTold(t *testing.T) {
	text := table(t)
	all, faults := asvs.Read(text)
	faults = append(faults, asvs.Missing(all, wanted(t))...)
	faults = append(faults, asvs.Absent(all, tests(t))...)
	for _, f := range faults {
		t.Error(f)
	}
	count := map[string]int{}
	for _, i := range all {
		count[fmt.Sprint(i.Level, " ", i.State)]++
	}
	for level, said := range map[int]string{1: "Level 1", 2: "Level 2 of those chapters"} {
		want := fmt.Sprintf("%s: %d met, %d not applicable, %d not met.", said,
			count[fmt.Sprint(level, " ", asvs.Met)], count[fmt.Sprint(level, " ", asvs.NotApplicable)], count[fmt.Sprint(level, " ", asvs.NotMet)])
		if !strings.Contains(text, want) {
			t.Errorf("the table does not say: %s", want)
		}
	}
}

// A table with a fault is told by it: a number that is left out or stands twice, a test that there is not, an empty reason, a state that is none.
func TestFaultsOfATableAreFound(t *testing.T) {
	want := map[string]int{"6.2.1": 1, "6.2.2": 1, "6.3.3": 2}
	known := map[string]bool{"web.TestThere": true}
	good := "| 6.2.1 | 1 | eight characters | met | `web.TestThere` |\n| 6.2.2 | 1 | can be changed | not applicable | Nobody has any to change here. |\n" +
		"| 6.3.3 | 2 | a second factor | not met | There is none yet, it would need one. |\n"
	for name, c := range map[string]struct{ from, to, says string }{
		"good":          {"", "", ""},
		"left out":      {"| 6.2.1 |", "| 6.2.3 |", "6.2.1 is missing"},
		"twice":         {"| 6.2.2 |", "| 6.2.1 |", "6.2.1 stands twice"},
		"no such test":  {"TestThere", "TestElsewhere", "6.2.1 names web.TestElsewhere, which there is not"},
		"no test":       {"`web.TestThere`", "it is so", "6.2.1 is met by no test"},
		"no reason":     {"Nobody has any to change here.", "", "6.2.2 is not applicable without a reason"},
		"not met, why":  {"There is none yet, it would need one.", "No.", "6.3.3 is not met without a reason"},
		"another state": {"| met |", "| mostly |", `6.2.1 is in no state that there is: "mostly"`},
		"level":         {"| 6.3.3 | 2 |", "| 6.3.3 | 1 |", "6.3.3 is of level 2, not 1"},
		"no row":        {"| 6.2.1 | 1 |", "| 6.2.1 |", "a row that can't be read"},
	} {
		all, faults := asvs.Read(strings.Replace(good, c.from, c.to, 1))
		faults = append(append(faults, asvs.Missing(all, want)...), asvs.Absent(all, known)...)
		if c.says == "" && len(faults) > 0 || c.says != "" && !slices.ContainsFunc(faults, func(f string) bool { return strings.HasPrefix(f, c.says) }) {
			t.Errorf("%s: %q, want %q", name, faults, c.says)
		}
	}
}

// The tests that docs/threats.md names are there, in the package that it says; pages' where it says none.
func TestThreatsNameTests(t *testing.T) {
	text, err := os.ReadFile(root + "/docs/threats.md")
	if err != nil {
		t.Fatal(err)
	}
	known, named := tests(t), 0
	for line := range strings.Lines(string(text)) {
		cells := strings.Split(strings.Trim(line, "|\n "), " | ")
		if len(cells) != 3 || !strings.Contains(cells[2], "`Test") {
			continue
		}
		for _, m := range regexp.MustCompile("`(Test[A-Za-z0-9]+)`").FindAllStringSubmatch(cells[2], -1) {
			named++
			in := regexp.MustCompile(`\(([a-z/]+)\)`).FindAllStringSubmatch(cells[2], -1)
			there := known["web."+m[1]]
			for _, p := range in {
				there = there || known[p[1]+"."+m[1]]
			}
			if !there {
				t.Errorf("%s: there is no %s", cells[0], m[1])
			}
		}
	}
	if named < 40 {
		t.Errorf("only %d tests were found", named)
	}
}

// Where the table leads to a document, the document has that heading.
func TestDocumentsAreThere(t *testing.T) {
	links := regexp.MustCompile(`\]\(([a-z-]+\.md)(?:#([a-z0-9-]+))?\)`).FindAllStringSubmatch(table(t), -1)
	if len(links) < 15 {
		t.Fatalf("only %d links were found", len(links))
	}
	for _, l := range links {
		text, err := os.ReadFile(root + "/docs/" + l[1])
		if err != nil {
			t.Error(err)
			continue
		}
		headings := map[string]bool{"": true}
		for _, h := range regexp.MustCompile(`(?m)^#+ (.+)$`).FindAllStringSubmatch(string(text), -1) {
			plain := regexp.MustCompile(`[^a-z0-9 -]`).ReplaceAllString(strings.ToLower(h[1]), "")
			headings[strings.ReplaceAll(plain, " ", "-")] = true
		}
		if !headings[l[2]] {
			t.Errorf("%s has no heading %q", l[1], l[2])
		}
	}
}
