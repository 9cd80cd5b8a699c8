package darkroom_test

import (
	"errors"
	"maps"
	"testing"

	"github.com/google/go-cmp/cmp"

	"wetside/darkroom"
	"wetside/trade/measure"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// lines gives each problem of an error in one line.
func lines(t *testing.T, err error) []string {
	t.Helper()
	if err == nil {
		return nil
	}
	problems, ok := errors.AsType[darkroom.Problems](err)
	if !ok {
		t.Fatalf("error %v, want Problems", err)
	}
	var out []string
	for _, p := range problems {
		out = append(out, p.String())
	}
	return out
}

// TestReadFormProblems holds what a form is told, by the names of its inputs.
func TestReadFormProblems(t *testing.T) {
	f := contract(t)
	jug := map[string]string{
		"name": "beaker", "kind": "beaker", "scales[0].unit": "mL", "scales[0].from": "100", "scales[0].to": "1000", "scales[0].step": "50",
	}
	with := func(pairs ...string) map[string]string {
		form := maps.Clone(jug)
		for i := 0; i < len(pairs); i += 2 {
			form[pairs[i]] = pairs[i+1]
		}
		return form
	}
	tests := []struct {
		name string
		at   int
		form map[string]string
		want []string
	}{
		{"right", darkroom.New, jug, nil},
		{"blank rows and fields", darkroom.New, with("class", " ", "scales[1].unit", "", "scales[1].from", ""), nil},
		{"the same name on itself", 0, with("name", "litre jug"), nil},
		{
			"another's name", darkroom.New, with("name", "Litre Jug"),
			[]string{`name: no two may have the same name, and vessels[0] is called that, too, got "Litre Jug"`},
		},
		{"all at once, in the contract's order", darkroom.New, with("kind", "mugg", "inner_width", "13", "scales[0].step", "70", "name", ""), []string{
			`kind: must be jug, beaker, cylinder, syringe, pipette or balance, got "mugg"`,
			"inner_width: must be a length, such as 15 mm, 8 cm or 1/2 in, got 13, which has no unit",
			"scales[0].step: steps of 70 do not lead from the mark 100 to the mark 1000",
			"name: must be given",
		}},
		{
			"a rule on a row after a blank one", darkroom.New,
			with("scales[2].unit", "g", "scales[2].from", "0", "scales[2].to", "10", "scales[2].step", "1"),
			[]string{`scales[2].unit: "g" cannot stand with kind: beaker: change one or leave it out`},
		},
		{"no such field", darkroom.New, with("volume", "1 L"), []string{"volume: there is no such field here, but name, kind, class, keep_for, permissible_error, inner_width, half_marks, setting, setting_between and scales"}},
		{"no path", darkroom.New, with("scales[x]", "1 L"), []string{"scales[x]: there is no such field here"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			v, err := darkroom.ReadForm[darkroom.Vessel](f, tt.at, tt.form)
			if d := cmp.Diff(tt.want, lines(t, err)); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
			if err == nil && v.Kind != measure.Beaker || err != nil && v.Name != "" {
				t.Errorf("got %+v with error %v", v, err)
			}
		})
	}
}

// TestReadFormOfLists holds that a list of words may be one text, by commas or lines.
func TestReadFormOfLists(t *testing.T) {
	f := contract(t)
	_, err := darkroom.ReadForm[darkroom.Product](f, darkroom.New, map[string]string{
		"name": "lith developer", "role": "developer", "form": "liquid", "for": "RC paper, fb", "hazards": "H317, H319\nH351",
		"packs[0].holds": "1 L", "packs[0].price": "12,5", "dilutions.RC paper": "1+1+10",
	})
	if d := cmp.Diff([]string{`hazards: must be a hazard statement, such as H314, got "H317, H319"`}, lines(t, err)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	p, err := darkroom.ReadForm[darkroom.Product](f, darkroom.New, map[string]string{
		"name": "lith developer", "role": "developer", "form": "liquid", "for": "RC paper, fb", "hazards": "H317, H319,",
		"packs[0].holds": "1 L", "packs[0].price": "12,5", "dilutions.RC paper": "1+1+10",
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.For) != 2 || len(p.Hazards) != 2 || p.Packs[0].Price.Value != 1250 {
		t.Errorf("got %+v", p)
	}
}

// TestReadFormOfSection holds that a section's form leaves its lists alone, and that what it breaks elsewhere is told
// by its whole path.
func TestReadFormOfSection(t *testing.T) {
	f := contract(t)
	bench, err := darkroom.ReadForm[darkroom.Bench](f, 0, map[string]string{"fill_depth": "20 mm"})
	if err != nil {
		t.Fatal(err)
	}
	if bench.FillDepth.Value != 20 || len(bench.Vessels) != 4 || bench.Dry != nil {
		t.Errorf("got %+v", bench)
	}
	room := darkroom.FormOf(f.Darkroom)
	room["ounce"] = ""
	_, err = darkroom.ReadForm[darkroom.Room](f, 0, room)
	want := []string{`bench.vessels[0].scales[1].unit: which ounce, pint, quart or gallon? Set darkroom.ounce to us or imperial, or put US or imperial before it, got "fl oz"`}
	if d := cmp.Diff(want, lines(t, err)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// TestReadFormInARoomNotNamedYet holds that what was wrong before is not the form's fault.
func TestReadFormInARoomNotNamedYet(t *testing.T) {
	tray, err := darkroom.ReadForm[darkroom.Tray](darkroom.File{}, darkroom.New, map[string]string{"name": "white", "fill": "2 L"})
	if err != nil || tray.Fill.Value != 2*quantity.Litre {
		t.Errorf("got %+v, %v", tray, err)
	}
}

func TestReadFormOfNoItem(t *testing.T) {
	for _, i := range []int{-2, 99} {
		if _, err := darkroom.ReadForm[darkroom.Tray](contract(t), i, nil); !errors.Is(err, darkroom.ErrNoItem) {
			t.Errorf("item %d: %v, want ErrNoItem", i, err)
		}
	}
}

// TestWith holds that what is put into a file leaves the file that was given alone, and that names follow a product.
func TestWith(t *testing.T) {
	f, before := contract(t), contract(t)
	f.Bench.Vessels[2].KeepFor, before.Bench.Vessels[2].KeepFor = "rapid fixer", "rapid fixer"
	i := darkroom.IndexOf[darkroom.Product](f, "rapid fixer")
	form := darkroom.FormOf(f.Shelf.Products[i])
	form["name"] = "fixer, rapid"
	p, err := darkroom.ReadForm[darkroom.Product](f, i, form)
	if err != nil {
		t.Fatal(err)
	}
	g := darkroom.With(f, i, p)
	if len(g.Shelf.LotsOf("fixer, rapid")) != 1 || g.Bench.Vessels[2].KeepFor != "fixer, rapid" {
		t.Errorf("lots or vessel did not follow: %+v", g.Shelf.Lots)
	}
	if err := darkroom.Check(g); err != nil {
		t.Error(err)
	}
	g = darkroom.With(g, darkroom.New, darkroom.Tray{Name: "green"})
	g = darkroom.With(g, 0, darkroom.Room{Name: "Attic"})
	g = darkroom.Without[darkroom.Lot](g, 0)
	if len(g.Bench.Trays) != 6 || g.Darkroom.Name != "Attic" || len(g.Shelf.Lots) != 4 {
		t.Errorf("%d trays, name %q, %d lots", len(g.Bench.Trays), g.Darkroom.Name, len(g.Shelf.Lots))
	}
	if d := cmp.Diff(before, f, exact()); d != "" {
		t.Errorf("the file that was given changed:\n%s", d)
	}
}

// TestCheck holds that a file put together by a program is held to the same rules.
func TestCheck(t *testing.T) {
	f := darkroom.Without[darkroom.Product](contract(t), 1)
	want := []string{`shelf.lots[1].product: no product of the shelf has this name, got "print stop"`}
	if d := cmp.Diff(want, lines(t, darkroom.Check(f))); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if d := cmp.Diff([]string{"darkroom.name: must be given"}, lines(t, darkroom.Check(darkroom.File{}))); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// TestForMeasure holds which vessels serve which product: MODEL 3, "a vessel kept for one product is used for no
// other, and that product in no other vessel where its own exists".
func TestForMeasure(t *testing.T) {
	f := contract(t)
	fixer, _ := f.Shelf.Product("rapid fixer")
	stop, _ := f.Shelf.Product("print stop")
	tests := []struct {
		vessel                string
		product               darkroom.Product
		notChemical, notWater bool
	}{
		{"two-litre jug", fixer, false, false},
		{"two-litre jug", stop, true, true},
		{"litre jug", stop, false, false},
		{"litre jug", fixer, true, true},
		{"pocket balance", fixer, false, false},
		{"litre jug", darkroom.Product{Name: "of no role"}, false, false},
	}
	for _, tt := range tests {
		v, ok := f.Bench.Vessel(tt.vessel)
		if !ok {
			t.Fatal(tt.vessel)
		}
		got := v.ForMeasure(tt.product, f.Bench)
		if got.NotForChemical != tt.notChemical || got.NotForWater != tt.notWater {
			t.Errorf("%s for %s: not for chemical %v, not for water %v", tt.vessel, tt.product.Name, got.NotForChemical, got.NotForWater)
		}
	}
	jug, _ := f.Bench.Vessel("two-litre jug")
	got := jug.ForMeasure(fixer, f.Bench)
	want := measure.Vessel{
		Name: "two-litre jug", Kind: measure.Jug, Own: &measure.Permissible{Rel: 0.02}, InnerWidth: 130,
		Setting: measure.Setting{OnMark: 0.25},
		Scales: []measure.Scale{{
			Unit: quantity.UnitML, From: quantity.Int(200), To: quantity.Int(2000), Step: quantity.Int(100), Numbered: quantity.Int(200),
		}},
	}
	if d := cmp.Diff(want, got, exact()); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	cylinder := darkroom.Vessel{Name: "c", Kind: measure.Cylinder}
	if got := cylinder.ForMeasure(fixer, darkroom.Bench{}).Class; got != measure.ClassB {
		t.Errorf("a cylinder without a class is %v, want B", got)
	}
}

func TestLookups(t *testing.T) {
	f := contract(t)
	if got := f.Bench.TraysFor(process.Fixer); len(got) != 2 || got[0].Name != "grey" {
		t.Errorf("TraysFor: %+v", got)
	}
	if _, ok := f.Shelf.Product(""); ok {
		t.Error("a product of no name was found")
	}
	if got := darkroom.IndexOf[darkroom.Vessel](f, "pocket balance"); got != 3 {
		t.Errorf("IndexOf %d, want 3", got)
	}
	if got := darkroom.IndexOf[darkroom.Lot](f, "rapid fixer"); got != darkroom.New {
		t.Errorf("IndexOf a lot %d, want New", got)
	}
}

// TestFormFields holds that the inputs of a form are the fields that ReadForm knows, with their words and musts.
func TestFormFields(t *testing.T) {
	fields := darkroom.FormFields[darkroom.Vessel](map[string]int{"scales": 2})
	form := map[string]string{}
	var names, musts []string
	for _, f := range fields {
		names = append(names, f.Name)
		if f.Must {
			musts = append(musts, f.Name)
		}
		if f.Text == "" {
			t.Errorf("%s says nothing", f.Name)
		}
		if len(f.Words) > 0 {
			form[f.Name] = f.Words[0]
		}
	}
	want := []string{
		"name", "kind", "class", "keep_for", "permissible_error", "inner_width", "half_marks", "setting", "setting_between",
		"scales[0].unit", "scales[0].from", "scales[0].to", "scales[0].step", "scales[0].numbered",
		"scales[1].unit", "scales[1].from", "scales[1].to", "scales[1].step", "scales[1].numbered",
	}
	if d := cmp.Diff(want, names); d != "" {
		t.Errorf("names (-want +got):\n%s", d)
	}
	want = []string{"name", "kind", "scales[0].unit", "scales[0].from", "scales[0].to", "scales[0].step"}
	if d := cmp.Diff(want, musts[:min(len(musts), 6)]); d != "" {
		t.Errorf("musts (-want +got):\n%s", d)
	}
	if d := cmp.Diff(map[string]string{"kind": "jug", "class": "A", "half_marks": "yes"}, form); d != "" {
		t.Errorf("words (-want +got):\n%s", d)
	}
}
