package fault_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"wetside/trade/fault"
	"wetside/trade/reckoning"
)

// constants returns the values of the constants of a type in the package's source, so that no list is kept by hand.
func constants(t *testing.T, typeName string) []string {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(f, func(n ast.Node) bool {
			if spec, ok := n.(*ast.ValueSpec); ok {
				if id, named := spec.Type.(*ast.Ident); named && id.Name == typeName {
					all = append(all, strings.Trim(spec.Values[0].(*ast.BasicLit).Value, `"`))
				}
			}
			return true
		})
	}
	if len(all) < 2 {
		t.Fatalf("constants of %s: %q", typeName, all)
	}
	return all
}

// Every sign stands in the tables once, with causes that are known, each once, and says where each link is from.
func TestTablesAreWhole(t *testing.T) {
	signs := fault.Signs()
	used := map[fault.Cause]bool{}
	for _, name := range constants(t, "Sign") {
		if n := len(slices.DeleteFunc(slices.Clone(signs), func(s fault.Sign) bool { return string(s) != name })); n != 1 {
			t.Errorf("sign %s stands in the tables %d times", name, n)
		}
	}
	for _, s := range signs {
		seen := map[fault.Cause]bool{}
		if !slices.Contains(fault.Places(), s.Where()) || len(s.Links()) == 0 {
			t.Errorf("%s: seen on %q, %d causes", s, s.Where(), len(s.Links()))
		}
		for _, l := range s.Links() {
			if !l.Cause.Known() || seen[l.Cause] {
				t.Errorf("%s: %s is not known, or stands twice", s, l.Cause)
			}
			if o, source := l.Origin(); (o == reckoning.Standard) != (source != "") {
				t.Errorf("%s: %s is from %d %q", s, l.Cause, o, source)
			}
			seen[l.Cause], used[l.Cause] = true, true
		}
	}
	for _, name := range constants(t, "Cause") {
		if c := fault.Cause(name); !used[c] || !c.Known() {
			t.Errorf("cause %s: used %t, known %t", c, used[c], c.Known())
		}
	}
	if len(used) != len(constants(t, "Cause")) {
		t.Errorf("%d causes are used, %d are named", len(used), len(constants(t, "Cause")))
	}
}

// The rows of the printers' table: its signs are all here; those with a sun, and they alone of them, look for light first.
func TestRowsOfThePrintersTable(t *testing.T) {
	rows := map[fault.Sign]bool{
		fault.FlatBlacks: false, fault.RushesUp: false, fault.NothingComes: false, fault.GreyVeil: true, fault.DullHighlights: true,
		fault.YellowStain: false, fault.BrownPatches: false, fault.FingerMarks: false, fault.WhiteSpecks: false,
		fault.RoundSpots: false, fault.Pinholes: false, fault.TongMarks: false, fault.ChalkFilm: false, fault.FixerCloudy: false,
		fault.DropCloud: false, fault.DarkensInLight: false, fault.StainFromBack: false, fault.Fades: false,
		fault.TestAlwaysFails: false, fault.PalesInFix: false, fault.EdgesLift: false, fault.EmulsionPeels: false,
		fault.StopTurned: false, fault.FilmMilky: false, fault.FilmBlank: false, fault.FilmThin: false, fault.SharpFumes: false,
	}
	if len(rows) != 27 {
		t.Errorf("%d rows, want 27", len(rows))
	}
	for s, sun := range rows {
		if !s.Known() || s.LightFirst() != sun {
			t.Errorf("%s: known %t, light first %t, want %t", s, s.Known(), s.LightFirst(), sun)
		}
	}
	for _, s := range fault.Signs() {
		lights := slices.DeleteFunc(slices.Clone(s.Links()), func(l fault.Link) bool { return l.Cause.Kind() != fault.Light })
		if s.LightFirst() && (len(lights) == 0 || s.Links()[0].Cause.Kind() != fault.Light) {
			t.Errorf("%s: light is to be ruled out first, and the list begins with %s", s, s.Links()[0].Cause)
		}
	}
}

// Every fact bears on a cause that some sign has, with one of the weights; every kind of cause occurs.
func TestFactsBear(t *testing.T) {
	kinds := map[fault.Kind]bool{}
	for _, name := range constants(t, "FactKind") {
		k := fault.FactKind(name)
		if k == fault.CheckYes || k == fault.CheckNo {
			continue
		}
		bearing := 0
		for _, c := range constants(t, "Cause") {
			by := k.Bears(fault.Cause(c))
			kinds[fault.Cause(c).Kind()] = true
			switch max(by, -by) {
			case 0:
				continue
			case fault.Hints, fault.Suggests, fault.Tells:
				bearing++
			default:
				t.Errorf("%s bears on %s by %d", k, c, by)
			}
		}
		if bearing == 0 {
			t.Errorf("%s says nothing of anything", k)
		}
	}
	want := []fault.Kind{fault.Chemistry, fault.Handling, fault.Light, fault.Material, fault.Water}
	if got := slices.Sorted(maps.Keys(kinds)); !slices.Equal(got, want) {
		t.Errorf("kinds of causes: %v, want %v", got, want)
	}
}
