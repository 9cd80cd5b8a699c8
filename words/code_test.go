package words_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// Sentences stand in the message files: the code of this package has none, but for what an error says to a
// programmer.
func TestNoSentenceStandsInTheCode(t *testing.T) {
	words := regexp.MustCompile(`[A-Za-z]{2,} [a-z]{2,}`)
	literals := 0
	for _, name := range goFiles(t, ".") {
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok {
				if fun, ok := call.Fun.(*ast.SelectorExpr); ok && fun.Sel.Name == "Errorf" {
					return false
				}
			}
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				literals++
				if words.MatchString(lit.Value) {
					t.Errorf("%s: %s is a sentence", name, lit.Value)
				}
			}
			return true
		})
	}
	if literals < 100 {
		t.Fatalf("only %d texts were looked at", literals)
	}
}

// The rooms at the front ask for their words by key; each key they write out has its message.
func TestFrontRoomsFindTheirWords(t *testing.T) {
	english := messages(t, "active.en.toml")
	asks := 0
	for _, room := range []string{"../cli", "../web", "../sheet", "../draw", "../cmd"} {
		err := filepath.WalkDir(room, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
			if err != nil {
				return nil //nolint:nilerr // half-written code is its own package's trouble
			}
			ast.Inspect(f, func(n ast.Node) bool {
				for _, key := range asked(n) {
					asks++
					if english[key] == nil {
						t.Errorf("%s: no message %s", name, key)
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if asks == 0 {
		t.Fatal("no room asked for anything")
	}
}

// asked returns the keys that a call of a voice's Label, Tell or TellN writes out.
func asked(n ast.Node) []string {
	call, ok := n.(*ast.CallExpr)
	if !ok || len(call.Args) == 0 {
		return nil
	}
	fun, ok := call.Fun.(*ast.SelectorExpr)
	if !ok || text(call.Args[0]) == "" {
		return nil
	}
	switch fun.Sel.Name {
	case "Label":
		return []string{"label." + text(call.Args[0])}
	case "Tell", "TellN":
		return []string{"tell." + text(call.Args[0])}
	}
	return nil
}
