package dilution_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/trade/dilution"
	"wetside/trade/quantity"
)

func read(t *testing.T, words string) dilution.Dilution {
	t.Helper()
	d, err := dilution.Read(words, dilution.Options{Ounce: quantity.OunceUS})
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func ratio(num, den int64) quantity.Ratio {
	r, err := quantity.NewRatio(num, den)
	if err != nil {
		panic(err) // a mistake in the test
	}
	return r
}

// The whole value, not only its text.
func TestReadWhole(t *testing.T) {
	one, parts := quantity.Int(1), func(c ...quantity.Ratio) []quantity.Ratio { return c }
	for words, want := range map[string]dilution.Dilution{
		"1+9":                     {Chemicals: parts(one), Water: ratio(9, 1)},
		"½+4½":                    {Chemicals: parts(ratio(1, 2)), Water: ratio(9, 2)},
		"1:9":                     {Chemicals: parts(one), Water: ratio(9, 1), Note: dilution.ColonRead, Other: ratio(8, 1)},
		"100 mL : 900 mL":         {Chemicals: parts(one), Water: ratio(9, 1), Note: dilution.ColonRead, Other: ratio(8, 1)},
		"1:1:10":                  {Chemicals: parts(one, one), Water: ratio(10, 1), Note: dilution.ColonRead, Other: ratio(8, 1)},
		"stock":                   {Chemicals: parts(one), FromStock: true},
		"undiluted":               {Chemicals: parts(one)},
		"1+1 from stock":          {Chemicals: parts(one), Water: one, FromStock: true},
		"16 mL per litre":         {Chemicals: parts(one), Water: ratio(123, 2), Note: dilution.MadeUpTo},
		"16 mL to 1 L of water":   {Chemicals: parts(one), Water: ratio(125, 2), Note: dilution.AddedTo},
		"1 US fl oz per litre":    {Chemicals: parts(one), Water: ratio(15526823527, 473176473), Note: dilution.MadeUpTo},
		"1 A + 2 B + 100 water":   {Chemicals: parts(one, ratio(2, 1)), Water: ratio(100, 1)},
		"100 mL made up to 1.5 L": {Chemicals: parts(one), Water: ratio(14, 1)},
	} {
		if diff := cmp.Diff(want, read(t, words)); diff != "" {
			t.Errorf("%q: got other than wanted (-want +got):\n%s", words, diff)
		}
	}
}

// Why the notation matters: how much stronger one in n is than one and n. Common practice, worked: n+1 over n.
func TestStronger(t *testing.T) {
	for words, want := range map[string]quantity.Ratio{
		"1:9":       ratio(1, 9),
		"1:3":       ratio(1, 3),
		"1:4":       ratio(1, 4),
		"1:19":      ratio(1, 19),
		"1:31":      ratio(1, 31),
		"1 to 100":  ratio(1, 100),
		"2:18":      ratio(1, 9),
		"1:1:10":    ratio(1, 5),
		"1:1":       {}, // one in one is no dilution
		"1+9":       {},
		"1 in 32":   {},
		"25 mL/L":   {},
		"undiluted": {},
	} {
		if got := read(t, words).Stronger(); got != want {
			t.Errorf("%q: got %v, want %v", words, got, want)
		}
	}
}

func TestStrength(t *testing.T) {
	for words, want := range map[string]quantity.Ratio{
		"1+9":                       ratio(1, 10),
		"1 in 32":                   ratio(1, 32),
		"16 mL per litre":           ratio(16, 1000),
		"16 mL to 1 litre of water": ratio(16, 1016),
		"1/2 fl oz per quart":       ratio(1, 64),
		"3 %":                       ratio(3, 100),
		"stock":                     ratio(1, 1),
		"1+1+10":                    ratio(1, 12),
	} {
		got, err := read(t, words).Strength(0)
		if got != want || err != nil {
			t.Errorf("%q: got %v, %v, want %v", words, got, err, want)
		}
	}
}

func TestSame(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"1+9", "2+18", true},
		{"1+9", "½+4½", true},
		{"1+9", "1 in 10", true},
		{"1+9", "10 %", true},
		{"1+9", "1 in 9", false},
		{"1+1+10", "2+2+20", true},
		{"1+1+10", "1+11", false},
		{"1+1+10", "1+2+9", false},
		{"stock", "undiluted", true}, // as strong; of what is another question
	} {
		if got := read(t, c.a).Same(read(t, c.b)); got != c.want {
			t.Errorf("%q and %q: got %v", c.a, c.b, got)
		}
	}
}

func TestThen(t *testing.T) {
	for _, c := range []struct{ first, second, want string }{
		{"1+9", "1+9", "1+99"},
		{"1+3", "1+1", "1+7"},
		{"stock", "1+1 from stock", "1+1 from stock"},
		{"1+3", "1+1 from stock", "1+7"}, // of the bottle again
		{"undiluted", "1+9", "1+9"},
		{"1+9", "undiluted", "1+9"},
		{"1+1+10", "1+1", "1+1+22"},
		{"16 mL per litre", "1 in 2", "1+124"},
	} {
		got, err := read(t, c.first).Then(read(t, c.second))
		if err != nil || got.String() != c.want {
			t.Errorf("%s, then %s: got %v, %v, want %s", c.first, c.second, got, err, c.want)
		}
	}
	if got, err := read(t, "1+9").Then(read(t, "1+1+10")); !errors.Is(err, dilution.ErrSerial) || got.Chemicals != nil {
		t.Errorf("then two chemicals: %v, %v", got, err)
	}
}

// Strength multiplies, exactly.
func TestThenMultipliesStrength(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, e := aDilution(2).Draw(t, "first"), aDilution(1).Draw(t, "second")
		both, err := d.Then(e)
		if err != nil {
			t.Fatal(err)
		}
		s2, err := e.Strength(0)
		if err != nil {
			t.Fatal(err)
		}
		for i := range d.Chemicals {
			s1, err1 := d.Strength(i)
			want, err2 := s1.Mul(s2)
			got, err3 := both.Strength(i)
			if err := errors.Join(err1, err2, err3); err != nil || got != want {
				t.Fatalf("%v then %v: chemical %d is %v, %v, want %v", d, e, i, got, err, want)
			}
		}
	})
}

// aDilution draws dilutions that people have, of at most so many chemicals.
func aDilution(most int) *rapid.Generator[dilution.Dilution] {
	part := rapid.Custom(func(t *rapid.T) quantity.Ratio {
		return ratio(rapid.Int64Range(1, 2000).Draw(t, "num"), rapid.SampledFrom([]int64{1, 2, 3, 4, 8, 10, 100}).Draw(t, "den"))
	})
	return rapid.Custom(func(t *rapid.T) dilution.Dilution {
		d, err := dilution.New(part.Draw(t, "water"), rapid.SliceOfN(part, 1, most).Draw(t, "chemicals")...)
		if err != nil {
			t.Fatal(err)
		}
		d.FromStock = rapid.Bool().Draw(t, "stock")
		return d
	})
}

func TestWrittenIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := aDilution(2).Draw(t, "d")
		got, err := dilution.Read(d.String(), dilution.Options{})
		if diff := cmp.Diff(d, got); err != nil || diff != "" {
			t.Fatalf("%s was read back otherwise, %v:\n%s", d, err, diff)
		}
	})
}

// What is measured is the total, and each chemical its share to the nearest unit of Volume.
func TestAmounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := aDilution(2).Draw(t, "d")
		total := quantity.Volume(rapid.Int64Range(0, int64(quantity.MaxVolume)).Draw(t, "total"))
		chemicals, water, err := d.Amounts(total)
		if err != nil {
			t.Fatal(err)
		}
		sum := water
		for i, v := range chemicals {
			sum += v
			s, err := d.Strength(i)
			if err != nil {
				t.Fatal(err)
			}
			if off := math.Abs(float64(v) - s.Float()*float64(total)); off > 0.5+1e-15*float64(total) {
				t.Fatalf("%v in %v: chemical %d is %v off", d, total, i, off)
			}
		}
		if sum != total {
			t.Fatalf("%v in %v: %v in all", d, total, sum)
		}
	})
	chemicals, water, err := read(t, "1+31").Amounts(32 * quantity.USOunce)
	if err != nil || chemicals[0] != quantity.USOunce || water != 31*quantity.USOunce {
		t.Errorf("1+31 in 32 US fl oz: %v and %v, %v", chemicals, water, err)
	}
}

func TestPublishedDilutions(t *testing.T) {
	// US Army subcourse SS0513, Photographic Quality Control (1988), page 24: 32 oz of 28 % acid from 99.5 %, parts =
	// amount × wanted % ÷ held %, printed as 9.0 oz of acid and 23 oz of water.
	d, err := dilution.New(ratio(715, 10), ratio(28, 1))
	if err != nil {
		t.Fatal(err)
	}
	acid, water, err := d.Amounts(32 * quantity.USOunce)
	if err != nil {
		t.Fatal(err)
	}
	if got := acid[0].InUnit(quantity.UnitUSOunce).Float(); math.Abs(got-9.005) > 0.0005 {
		t.Errorf("acid: %v oz, want 9.005", got)
	}
	if got := water.InUnit(quantity.UnitUSOunce).Float(); math.Abs(got-23) > 0.01 {
		t.Errorf("water: %v oz, want 23", got)
	}
	// US Navy NAVEDTRA 14209, Photography (Basic), mirror page 240: 3 oz of glacial acid and 8 oz of water are 11 oz of
	// acid of "28 %".
	s, err := read(t, "3 oz + 8 oz of water").Strength(0)
	if got := s.Float() * 99.5; err != nil || math.Abs(got-28) > 1 {
		t.Errorf("glacial acid: got %v %%, %v, want about 28", got, err)
	}
	total, err := read(t, "3 oz + 8 oz of water").Total()
	if total != quantity.Int(11) || err != nil {
		t.Errorf("glacial acid: %v oz in all, %v, want 11", total, err)
	}
	// The same subcourse: 2 oz of a 10 % solution hold 0.2 oz; the solution is made as 1 oz made up to 10 oz.
	ten := read(t, "1 oz made up to 10 oz")
	if !ten.Same(read(t, "10 %")) {
		t.Errorf("1 oz made up to 10 oz: %v", ten)
	}
	held, _, err := ten.Amounts(2 * quantity.USOunce)
	if got := held[0].InUnit(quantity.UnitUSOunce).Float(); err != nil || math.Abs(got-0.2) > 1e-10 {
		t.Errorf("in 2 oz of 10 %%: %v oz, %v, want 0.2", got, err)
	}
}

func TestNew(t *testing.T) {
	one, none := quantity.Int(1), quantity.Ratio{}
	if d, err := dilution.New(none, one); err != nil || d.String() != "undiluted" {
		t.Errorf("no water: %v, %v", d, err)
	}
	for name, c := range map[string]struct {
		water     quantity.Ratio
		chemicals []quantity.Ratio
	}{
		"no chemical":       {one, nil},
		"nothing of it":     {one, []quantity.Ratio{none}},
		"less than nothing": {one, []quantity.Ratio{ratio(-1, 1)}},
		"water below 0":     {ratio(-1, 2), []quantity.Ratio{one}},
		"two, no water":     {none, []quantity.Ratio{one, one}},
		"three":             {one, []quantity.Ratio{one, one, one}},
		"too much":          {ratio(math.MaxInt64, 1), []quantity.Ratio{one}},
	} {
		if d, err := dilution.New(c.water, c.chemicals...); !errors.Is(err, quantity.ErrRange) || d.Chemicals != nil {
			t.Errorf("%s: %v, %v", name, d, err)
		}
	}
}

// Parts that nobody reads or makes with New do not fit, and every method says so.
func TestWhatDoesNotFitIsAnError(t *testing.T) {
	huge, one := quantity.Int(math.MaxInt64), quantity.Int(1)
	d := dilution.Dilution{Chemicals: []quantity.Ratio{huge}, Water: one}
	tiny := dilution.Dilution{Chemicals: []quantity.Ratio{ratio(1, math.MaxInt64)}, Water: one}
	_, errTotal := d.Total()
	_, errStrength := d.Strength(0)
	_, _, errAmounts := d.Amounts(quantity.Litre)
	_, _, errMore := dilution.Dilution{Chemicals: []quantity.Ratio{one}}.Amounts(quantity.MaxVolume + 1)
	_, errThen := d.Then(read(t, "1+9"))
	_, errTiny := read(t, "1+9").Then(tiny)
	_, errWater := read(t, "1+9").Then(dilution.Dilution{Chemicals: []quantity.Ratio{one}, Water: ratio(1, math.MaxInt64)})
	for name, err := range map[string]error{
		"total": errTotal, "strength": errStrength, "amounts": errAmounts, "more than the most": errMore, "then": errThen,
		"then a tiny one": errTiny, "then water that does not fit": errWater,
	} {
		if !errors.Is(err, quantity.ErrRange) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := json.Marshal(d); err == nil {
		t.Error("written as JSON")
	}
	if d.Same(d) {
		t.Error("the same as what does not fit")
	}
}

func TestPlain(t *testing.T) {
	for words, want := range map[string]struct {
		text  string
		exact bool
	}{
		"1+9":                  {"1+9", true},
		"⅓+3":                  {"1/3+3", true},
		"1+32⅓":                {"1+32 1/3", true},
		"16 mL per litre":      {"1+61.5", true},
		"1 US fl oz per litre": {"1+32.81", false},
		"1 imp oz per US gal":  {"1+132.2", false},
		"1 mL per imp pint":    {"1+567.3", false}, // 567.26125
		"1 mL per 2 US gal":    {"1+7570", false},  // 7569.823568
		"1+1 from stock":       {"1+1 from stock", true},
		"stock":                {"stock", true},
	} {
		got, exact := read(t, words).Plain()
		if got != want.text || exact != want.exact {
			t.Errorf("%q: got %q, %v, want %q, %v", words, got, exact, want.text, want.exact)
		}
	}
}

// The contract for scripts.
func TestJSON(t *testing.T) {
	for words, want := range map[string]string{
		"1+31":                 `{"read_as":"1+31","chemical_parts":"1","water_parts":"31","strength":0.03125,"note":null}`,
		"½+4½":                 `{"read_as":"0.5+4.5","chemical_parts":"0.5","water_parts":"4.5","strength":0.1,"note":null}`,
		"1:9":                  `{"read_as":"1+9","chemical_parts":"1","water_parts":"9","strength":0.1,"note":"colon_read","other_read_as":"1+8"}`,
		"1+1+10":               `{"read_as":"1+1+10","chemical_parts":"1+1","water_parts":"10","strength":0.16666666666666666,"note":null}`,
		"stock":                `{"read_as":"stock","chemical_parts":"1","water_parts":"0","strength":1,"note":null}`,
		"1:3 from stock":       `{"read_as":"1+3 from stock","chemical_parts":"1","water_parts":"3","strength":0.25,"note":"colon_read","other_read_as":"1+2 from stock"}`,
		"25 mL/L":              `{"read_as":"1+39","chemical_parts":"1","water_parts":"39","strength":0.025,"note":"made_up_to"}`,
		"1 US fl oz per litre": `{"read_as":"1+32.81","chemical_parts":"1","water_parts":"32.81","strength":0.0295735295625,"note":"made_up_to"}`,
	} {
		got, err := json.Marshal(read(t, words))
		if err != nil || string(got) != want {
			t.Errorf("%q: got %s, %v\nwant %s", words, got, err, want)
		}
	}
}

func TestKeysAreDistinct(t *testing.T) {
	seen := map[string]bool{}
	for _, n := range dilution.Notes() {
		if k := n.Key(); k == "" || seen[k] {
			t.Errorf("note %d has the key %q", n, k)
		}
		seen[n.Key()] = true
	}
	if k := dilution.NoNote.Key(); k != "" {
		t.Errorf("nothing to say has the key %q", k)
	}
	for _, r := range dilution.Reasons() {
		if seen[string(r)] {
			t.Errorf("%s twice", r)
		}
		seen[string(r)] = true
	}
}

// Each reason is given by one of the refusals.
func TestEveryReasonIsGiven(t *testing.T) {
	given := map[string]bool{}
	for _, list := range refusals {
		for _, c := range list {
			given[c.why] = true
		}
	}
	for _, r := range dilution.Reasons() {
		if !given[string(r)] {
			t.Errorf("no words are refused for %s", r)
		}
	}
	noted := map[dilution.Note]bool{}
	for _, list := range notations {
		for _, c := range list {
			noted[c.note] = true
		}
	}
	for _, n := range dilution.Notes() {
		if !noted[n] {
			t.Errorf("no words are read with %s", n.Key())
		}
	}
}
