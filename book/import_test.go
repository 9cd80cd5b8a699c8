package book_test

import (
	"cmp"
	"os"
	"slices"
	"strings"
	"testing"

	gocmp "github.com/google/go-cmp/cmp"

	"wetside/book"
	"wetside/darkroom"
)

func TestImportAndExport(t *testing.T) {
	f := contract(t)
	j, people := imported(t, f)
	got, ids := fold(t, j.entries).File(people)
	if d := gocmp.Diff(darkroom.Public(f), got, everything); d != "" {
		t.Errorf("exported file differs (-imported +exported):\n%s", d)
	}
	if len(ids.Vessels) != len(f.Bench.Vessels) || len(ids.Lots) != len(f.Shelf.Lots) || len(ids.People) != 1 {
		t.Errorf("ids %+v are not one for each thing", ids)
	}
	wantNothing(t, j, people, f)
}

// wantNothing imports a file again, with and without what it does not have.
func wantNothing(t failing, j *journal, people book.People, f darkroom.File) {
	t.Helper()
	for _, replace := range []bool{false, true} {
		again, err := book.Import(j.state, people, f, j.author, book.ImportOptions{Replace: replace})
		if err != nil || len(again.Entries)+len(again.People) > 0 {
			t.Fatalf("imported again (replace %v): got %+v, %v, want nothing written", replace, again, err)
		}
	}
}

// TestNoNamesInEntries looks for names and notes of people in everything that the chain covers.
func TestNoNamesInEntries(t *testing.T) {
	f := contract(t)
	j, people := imported(t, f)
	if got := people[personID(people, "Ines")].Notes; len(got) != 1 || got[0] != "sensitised to metol" {
		t.Fatalf("the record holds %q", got)
	}
	for _, e := range j.entries {
		for _, word := range []string{"Ines", "sensitised"} {
			if strings.Contains(e.Body+e.ID+e.By+e.Device, word) {
				t.Errorf("%s of %s: %s", word, e.Kind, e.Body)
			}
		}
	}
	e, err := j.author.Write(&book.Set{Part: book.PersonPart, ID: "x", As: []byte(`{"name":"Ines","does":["mixes"]}`)})
	if err != nil {
		t.Fatal(err)
	}
	if err := j.try(e); book.KindOf(err) != book.BadInput {
		t.Errorf("a name in an entry: got %v, want it refused", err)
	}
	if set := book.NewSet(book.PersonPart, "x", f.People[0], book.NoOunce); strings.Contains(string(set.As), "Ines") {
		t.Errorf("NewSet writes %s", set.As)
	}
}

func personID(p book.People, name string) string {
	for id, who := range p {
		if who.Name == name {
			return id
		}
	}
	return ""
}

func TestErasedPeople(t *testing.T) {
	f := contract(t)
	j, people := imported(t, f)
	delete(people, personID(people, "Ines"))
	if got := people.Name("anybody"); got != book.Somebody {
		t.Errorf("the name is %q, want %q", got, book.Somebody)
	}
	got, ids := j.state.File(people)
	if len(got.People) != 0 || len(ids.People) != 0 {
		t.Errorf("the file has %+v, want nobody", got.People)
	}
}

// TestImportWritesWhatDiffers changes one thing after the other in a file and counts what is written.
func TestImportWritesWhatDiffers(t *testing.T) {
	for name, c := range map[string]struct {
		from, to string
		want     []book.Kind
		replace  []book.Kind // written besides where the file replaces
	}{
		"the room": {"drain: sewer ", "drain: septic ", []book.Kind{book.RoomSet}, nil},
		"a vessel": {"inner_width: 13 cm", "inner_width: 12 cm", []book.Kind{book.VesselSet}, nil},
		"a vessel's name": {
			"name: small cylinder", "name: tall cylinder",
			[]book.Kind{book.VesselSet},
			[]book.Kind{book.VesselRemoved},
		},
		"a capital":    {"name: small cylinder", "name: Small cylinder", []book.Kind{book.VesselSet}, nil},
		"a tray":       {"name: blue, for: holding", "name: blue, for: wash", []book.Kind{book.TraySet}, nil},
		"a can":        {"holds: 25 L", "holds: 20 L", []book.Kind{book.CanSet}, nil},
		"a tank":       {"[290 mL, 500 mL]", "[300 mL, 500 mL]", []book.Kind{book.TankSet}, nil},
		"the bench":    {"fill_depth: 15 mm", "fill_depth: 16 mm", []book.Kind{book.BenchSet}, nil},
		"a product":    {"indicator: {from: yellow", "indicator: {from: orange", []book.Kind{book.ProductSet}, nil},
		"a person":     {"does: [mixes, teaches]", "does: [mixes]", []book.Kind{book.PersonSet}, nil},
		"the session":  {"lasts: 3 h", "lasts: 2 h", []book.Kind{book.SessionSet}, nil},
		"a lot's left": {"left: 310 mL", "left: 300 mL", []book.Kind{book.Counted}, nil},
		"left unknown": {"left: 4.2 L", "left: unknown", []book.Kind{book.Counted}, nil},
		"a lot's opening": {
			"left: 4.2 L, opened: 2026-11-02", "left: 4.2 L, opened: 2026-11-03",
			[]book.Kind{book.Opened},
			nil,
		},
		"packets": {"holds: 1 packet", "holds: 3 packets", []book.Kind{book.Counted}, nil},
		"another lot": {
			"holds: 5 L, left: 4.2 L", "holds: 2 L, left: 1.2 L",
			[]book.Kind{book.Received},
			[]book.Kind{book.Discarded},
		},
		"notes": {"[sensitised to metol]", "[]", nil, nil},
	} {
		t.Run(name, func(t *testing.T) {
			j, people := imported(t, contract(t))
			f := edited(t, c.from, c.to)
			for _, o := range []book.ImportOptions{{}, {Replace: true}} {
				want := c.want
				if o.Replace {
					want = slices.Concat(want, c.replace)
				}
				im, err := book.Import(j.state, people, f, j.author, o)
				if err != nil {
					t.Fatal(err)
				}
				var got []book.Kind
				for _, e := range im.Entries {
					got = append(got, e.Kind)
				}
				if d := gocmp.Diff(want, got); d != "" {
					t.Errorf("replace %v: kinds written (-want +got):\n%s", o.Replace, d)
				}
				after, err := j.state.Admit(im.Entries, among(j.entries))
				if err != nil {
					t.Fatal(err)
				}
				if again, err := book.Import(after, people, f, j.author, o); err != nil || len(again.Entries) > 0 {
					t.Errorf("replace %v: imported again: %+v, %v", o.Replace, again.Entries, err)
				}
				if got, _ := after.File(people); o.Replace {
					sameThings(t, darkroom.Public(f), got)
				}
			}
		})
	}
}

// sameThings compares files but for the order of their things.
func sameThings(t *testing.T, want, got darkroom.File) {
	t.Helper()
	for _, f := range []*darkroom.File{&want, &got} {
		sortBy(f.Bench.Vessels, func(v darkroom.Vessel) string { return v.Name })
		sortBy(f.Shelf.Lots, func(l darkroom.Lot) string { return string(darkroom.JSON(l)) })
	}
	if d := gocmp.Diff(want, got, everything); d != "" {
		t.Errorf("after replacing (-file +book):\n%s", d)
	}
}

func sortBy[T any](all []T, key func(T) string) {
	slices.SortFunc(all, func(a, b T) int { return cmp.Compare(key(a), key(b)) })
}

// edited returns the contract's sample with one passage changed.
func edited(t *testing.T, from, to string) darkroom.File {
	t.Helper()
	src, err := os.ReadFile("../darkroom/testdata/contract.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if strings.Count(string(src), from) != 1 {
		t.Fatalf("%q stands %d times in the sample", from, strings.Count(string(src), from))
	}
	f, err := darkroom.Read([]byte(strings.Replace(string(src), from, to, 1)))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestLotsArePairedWithTheLikest imports lots over lots that look alike, replacing.
func TestLotsArePairedWithTheLikest(t *testing.T) {
	file := func(lots string) darkroom.File {
		f, err := darkroom.Read([]byte("darkroom: {name: x}\nshelf:\n  products:\n" +
			"    - {name: fix, role: fixer, form: liquid}\n    - {name: dev, role: developer, form: powder}\n  lots: [" + lots + "]\n"))
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	const a, b, c = "{product: fix, holds: 1 L, left: 310 mL}", "{product: fix, holds: 1 L, left: 500 mL}", "{product: fix, holds: 1 L}"
	for name, x := range map[string]struct {
		has, wants string
		want       []string // kinds, and what was counted or opened
	}{
		"the first is gone":          {a + "," + b, b, []string{"lot.discarded"}},
		"the last is gone":           {a + "," + b, a, []string{"lot.discarded"}},
		"another order":              {a + "," + b, b + "," + a, nil},
		"one was counted":            {a + "," + b, "{product: fix, holds: 1 L, left: 300 mL}," + b, []string{"lot.counted 300 mL"}},
		"one more":                   {a, a + "," + a, []string{"lot.received"}},
		"opened, not another's":      {c + ",{product: fix, holds: 1 L, opened: 2026-11-02}", "{product: fix, holds: 1 L, opened: 2026-11-02},{product: fix, holds: 1 L, opened: 2026-12-01}", []string{"lot.opened 2026-12-01"}},
		"packets, not another's":     {"{product: dev, holds: 2 packets},{product: dev, holds: 3 packets}", "{product: dev, holds: 3 packets},{product: dev, holds: 1 packet}", []string{"lot.counted 1 packet"}},
		"packets or not, two things": {"{product: dev, holds: 2 packets}", "{product: dev}", []string{"lot.received", "lot.discarded"}},
		"of another product":         {a, "{product: dev}", []string{"lot.received", "lot.discarded"}},
	} {
		t.Run(name, func(t *testing.T) {
			j, people := imported(t, file(x.has))
			im, err := book.Import(j.state, people, file(x.wants), j.author, book.ImportOptions{Replace: true})
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, e := range im.Entries {
				body, err := book.Upcasters().Read(e)
				if err != nil {
					t.Fatal(err)
				}
				said := string(e.Kind)
				switch b := body.(type) {
				case *book.LotCounted:
					said += " " + b.Left
				case *book.LotOpened:
					said += " " + b.Opened
				}
				got = append(got, said)
			}
			if d := gocmp.Diff(x.want, got); d != "" {
				t.Errorf("written (-want +got):\n%s", d)
			}
		})
	}
}
