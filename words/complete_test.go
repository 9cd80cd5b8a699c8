package words_test

import (
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"

	"wetside/trade/chem"
)

// english returns the messages of a file, flat: "finding.depth_low" to its forms by name.
func messages(t *testing.T, name string) map[string]map[string]string {
	t.Helper()
	var tree map[string]any
	if _, err := toml.DecodeFile(name, &tree); err != nil {
		t.Fatal(err)
	}
	out := map[string]map[string]string{}
	flatten(out, "", tree)
	if len(out) < 300 {
		t.Fatalf("%s: %d messages, the file was not read", name, len(out))
	}
	return out
}

func flatten(out map[string]map[string]string, path string, tree map[string]any) {
	for key, value := range tree {
		at := strings.TrimPrefix(path+"."+key, ".")
		switch value := value.(type) {
		case string:
			out[at] = map[string]string{"other": value}
		case map[string]any:
			if other, ok := value["other"].(string); ok {
				out[at] = map[string]string{"other": other}
				for form, text := range value {
					out[at][form], _ = text.(string)
				}
				continue
			}
			flatten(out, at, value)
		}
	}
}

var places = regexp.MustCompile(`\.[A-Za-z_][A-Za-z_0-9]*`)

// placesOf returns the names of the places in all forms of a message.
func placesOf(forms map[string]string) []string {
	found := map[string]bool{}
	for _, text := range forms {
		for _, action := range regexp.MustCompile(`{{.*?}}`).FindAllString(text, -1) {
			for _, place := range places.FindAllString(action, -1) {
				found[place] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(found))
}

func TestEveryLanguageIsComplete(t *testing.T) {
	files, err := filepath.Glob("active.*.toml")
	if err != nil || len(files) == 0 {
		t.Fatalf("message files: %v, %v", files, err)
	}
	english := messages(t, "active.en.toml")
	for _, name := range files {
		other := messages(t, name)
		for key, forms := range english {
			theirs, ok := other[key]
			switch {
			case !ok:
				t.Errorf("%s: %s is missing", name, key)
			case !slices.Equal(placesOf(forms), placesOf(theirs)):
				t.Errorf("%s: %s has the places %v, want %v", name, key, placesOf(theirs), placesOf(forms))
			case len(forms) > 1 != (len(theirs) > 1) && !strings.Contains(name, ".ja."):
				t.Errorf("%s: %s has %d plural forms, English has %d", name, key, len(theirs), len(forms))
			}
		}
		for key := range other {
			if _, ok := english[key]; !ok {
				t.Errorf("%s: %s is no key of the English file", name, key)
			}
		}
	}
}

// constants returns the values of every constant of a type, found in the source, so that no list has to be kept by
// hand: a kind that is added without a message fails here.
func constants(t *testing.T, dir, typeName string) map[string]constant.Value {
	t.Helper()
	pkg := source(t, dir)
	out := map[string]constant.Value{}
	for _, name := range pkg.Scope().Names() {
		c, ok := pkg.Scope().Lookup(name).(*types.Const)
		if !ok {
			continue
		}
		if named, ok := c.Type().(*types.Named); ok && named.Obj().Name() == typeName {
			out[name] = c.Val()
		}
	}
	if len(out) == 0 {
		t.Fatalf("%s: no constants of type %s", dir, typeName)
	}
	return out
}

// source type-checks a package's own files as far as that goes without its imports.
func source(t *testing.T, dir string) *types.Package {
	t.Helper()
	fset := token.NewFileSet()
	var parsed []*ast.File
	for _, name := range goFiles(t, dir) {
		f, err := parser.ParseFile(fset, name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, f)
	}
	config := types.Config{Error: func(error) {}, Importer: nobody{}}
	pkg, _ := config.Check(dir, fset, parsed, nil)
	return pkg
}

type nobody struct{}

func (nobody) Import(path string) (*types.Package, error) { return nil, fs.ErrNotExist }

func goFiles(t *testing.T, dir string) []string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil || len(all) == 0 {
		t.Fatalf("%s: no source: %v", dir, err)
	}
	return slices.DeleteFunc(all, func(name string) bool { return strings.HasSuffix(name, "_test.go") })
}

func TestEveryKindOfTextHasItsMessage(t *testing.T) {
	english := messages(t, "active.en.toml")
	for _, kind := range []struct{ dir, typeName, table string }{
		{"../plan", "FindingKind", "finding"},
		{"../plan", "CautionKind", "caution"},
		{"../plan", "MissingKind", "missing"},
		{"../trade/hazard/ghs", "Harm", "harm"},
		{"../trade/quantity", "Why", "problem"},
		{"../trade/dilution", "Reason", "problem"},
		{"../darkroom", "ProblemKind", "problem"},
		{"../darkroom/outline", "FaultKind", "problem"},
		{"../ahead", "FindingKind", "outlook"},
		{"../ahead", "HelpKind", "help_way"},
		{"../ahead", "DueKind", "due"},
		{"../ahead", "By", "spent_by"},
		{"../book", "Test", "test"},
		{"../book", "PrintOddKind", "print_odd"},
		{"../sink", "ItemKind", "list_item"},
	} {
		for name, value := range constants(t, kind.dir, kind.typeName) {
			word := strings.ReplaceAll(strings.ToLower(constant.StringVal(value)), " ", "_")
			if key := kind.table + "." + word; english[key] == nil && english["together."+word] == nil {
				t.Errorf("%s.%s: no message %s", kind.dir, name, key)
			}
		}
	}
}

// literals returns the strings in the source of the packages that match.
func literals(t *testing.T, dirs []string, match func(ast.Node) []string) map[string]string {
	t.Helper()
	out := map[string]string{}
	for _, dir := range dirs {
		for _, name := range goFiles(t, dir) {
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(f, func(n ast.Node) bool {
				for _, text := range match(n) {
					out[text] = name
				}
				return true
			})
		}
	}
	return out
}

func text(e ast.Expr) string {
	if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
		return strings.Trim(lit.Value, `"`)
	}
	return ""
}

// reckoners are the packages that hand out reckonings.
func reckoners(t *testing.T) []string {
	t.Helper()
	dirs := []string{"../plan"}
	all, err := os.ReadDir("../trade")
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range all {
		if d.IsDir() {
			dirs = append(dirs, "../trade/"+d.Name())
		}
	}
	return append(dirs, "../trade/hazard/ghs", "../trade/hazard/meet", "../trade/hazard/substance")
}

var sourceKey = regexp.MustCompile(`^[A-Z][A-Za-z]*[A-Za-z0-9.]*(-[A-Za-z0-9.]+)*$`)

// fields returns the texts that stand beside a field's name in the composite literals of a node.
func fields(n ast.Node, name string) []string {
	kv, ok := n.(*ast.KeyValueExpr)
	if !ok {
		return nil
	}
	if id, ok := kv.Key.(*ast.Ident); !ok || id.Name != name {
		return nil
	}
	if s := text(kv.Value); s != "" {
		return []string{s}
	}
	return nil
}

func TestEveryRuleAndFigureInTheSourceHasItsName(t *testing.T) {
	english := messages(t, "active.en.toml")
	rules := literals(t, reckoners(t), func(n ast.Node) []string {
		return append(fields(n, "Rule"), append(called(n, 0, "said"), called(n, 3, "reckoned")...)...)
	})
	if len(rules) < 3 {
		t.Fatalf("rules found: %v", rules)
	}
	for rule, at := range rules {
		if english["rule."+rule] == nil {
			t.Errorf("%s: no message rule.%s", at, rule)
		}
	}
	figures := literals(t, reckoners(t), func(n ast.Node) []string {
		return append(figureNames(n), called(n, 0, "ml", "celsius", "density", "enthalpy", "mm", "reckoned", "held", "factor", "figure")...)
	})
	if len(figures) < 20 {
		t.Fatalf("figures found: %v", figures)
	}
	for figure, at := range figures {
		if english["figure."+figure] == nil {
			t.Errorf("%s: no message figure.%s", at, figure)
		}
	}
}

// called finds the text that is argument arg of a call of one of the functions with which the packages make their
// figures.
func called(n ast.Node, arg int, names ...string) []string {
	call, ok := n.(*ast.CallExpr)
	if !ok || len(call.Args) <= arg {
		return nil
	}
	id, ok := call.Fun.(*ast.Ident)
	if !ok || !slices.Contains(names, id.Name) || text(call.Args[arg]) == "" {
		return nil
	}
	return []string{text(call.Args[arg])}
}

// figureNames finds the names of reckoning.Figure literals.
func figureNames(n ast.Node) []string {
	lit, ok := n.(*ast.CompositeLit)
	if !ok {
		return nil
	}
	var names []string
	figure := false
	for _, e := range lit.Elts {
		names = append(names, fields(e, "Name")...)
		if kv, ok := e.(*ast.KeyValueExpr); ok {
			if id, ok := kv.Key.(*ast.Ident); ok && (id.Name == "Value" || id.Name == "Origin") {
				figure = true
			}
		}
	}
	if !figure {
		return nil
	}
	return names
}

func TestEveryWantHasItsExample(t *testing.T) {
	english := messages(t, "active.en.toml")
	wants := literals(t, []string{"../trade/quantity", "../trade/material", "../trade/process"}, func(n ast.Node) []string {
		return append(append(called(n, 1, "read", "UnknownWord"), called(n, 2, "NewReadError")...), fields(n, "Want")...)
	})
	maps.Copy(wants, literals(t, []string{"../darkroom"}, func(n ast.Node) []string {
		return append(fields(n, "what"), append(fields(n, "What"), fields(n, "Want")...)...)
	}))
	maps.Copy(wants, literals(t, []string{"../darkroom"}, func(n ast.Node) []string {
		return called(n, 0, "quantityOf", "withOunce")
	}))
	if len(wants) < 15 {
		t.Fatalf("wants found: %v", wants)
	}
	for want, at := range wants {
		if key := "want." + strings.ReplaceAll(want, " ", "_"); english[key] == nil {
			t.Errorf("%s: no message %s", at, key)
		}
	}
}

func TestEverySourceHasItsTitle(t *testing.T) {
	var titles map[string]string
	if _, err := toml.DecodeFile("sources.toml", &titles); err != nil {
		t.Fatal(err)
	}
	hazard := regexp.MustCompile(`^((EU)?H[0-9]{3}[A-Za-z]*|P[0-9]{3}|GHS[0-9]{2})$`)
	keys := literals(t, reckoners(t), func(n ast.Node) []string {
		lit, ok := n.(*ast.BasicLit)
		if !ok {
			return nil
		}
		s := text(lit)
		if _, err := chem.ParseFormula(s); err == nil {
			return nil // a substance, no source
		}
		if !sourceKey.MatchString(s) || !strings.ContainsAny(s, "0123456789-") || hazard.MatchString(s) {
			return nil
		}
		return []string{s}
	})
	if len(keys) < 10 {
		t.Fatalf("sources found: %v", keys)
	}
	for key, at := range keys {
		if titles[key] == "" {
			t.Errorf("%s: no title of %s", at, key)
		}
	}
}
