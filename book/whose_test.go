package book_test

import (
	"strings"
	"testing"

	"wetside/book"
	"wetside/darkroom"
)

// ownShelf is a room's shelf with bottles of the room's, of Ines' and of somebody whose name is gone.
const ownShelf = `darkroom: {name: Ropewalk Darkroom}
shelf:
  products:
    - {name: paper developer, role: developer, form: liquid, dilutions: {RC paper: 1+9}}
    - {name: warm developer, role: developer, form: liquid, dilutions: {FB paper: 1+7}, whose: Ines}
  lots:
    - {product: paper developer, holds: 1 L, left: 400 mL}
    - {product: paper developer, holds: 1 L, left: 400 mL, whose: Ines}
    - {product: warm developer, holds: 500 mL, whose: Ines}
    - {product: paper developer, holds: 250 mL, whose: somebody}
people:
  - {name: Ines, does: [mixes]}
`

func withOwners(t *testing.T) (*journal, book.People, book.IDs) {
	t.Helper()
	f, err := darkroom.Read([]byte(ownShelf))
	if err != nil {
		t.Fatal(err)
	}
	j, people := imported(t, f)
	_, ids := j.state.File(people)
	return j, people, ids
}

// Whose a bottle and a product is goes into the book as an id and comes out of it as a name; no name stands in an entry, so that it
// can be erased (GDPR, art. 17): what was hers is then somebody's, and still not the room's.
func TestWhose(t *testing.T) {
	j, people, ids := withOwners(t)
	ines := ids.People[0]
	for i, want := range []string{"", ines, ines} {
		if whose, known := j.state.LotOwner(ids.Lots[i]); whose != want || !known {
			t.Errorf("lot %d is %q's, want %q's", i, whose, want)
		}
	}
	if whose, _ := j.state.ProductOwner(ids.Products[1]); whose != ines {
		t.Errorf("the warm developer is %q's", whose)
	}
	if p, _ := j.state.Product(ids.Products[1]); p.Whose != "" {
		t.Errorf("a product out of the state names %q as its owner", p.Whose)
	}
	for _, e := range j.entries {
		if strings.Contains(e.Body, "Ines") {
			t.Errorf("a name in an entry: %s", e.Body)
		}
	}
	whoses := func() string {
		f, _ := j.state.File(people)
		var all []string
		for _, l := range f.Shelf.Lots {
			all = append(all, l.Whose)
		}
		wantNothing(t, j, people, reread(t, f))
		return strings.Join(all, "|") + " " + f.Shelf.Products[1].Whose
	}
	if got := whoses(); got != "|Ines|Ines|somebody Ines" {
		t.Errorf("in the file: %q", got)
	}
	delete(people, ines)
	if got := whoses(); got != "|somebody|somebody|somebody somebody" {
		t.Errorf("after her name was erased: %q", got)
	}
}

// A bottle changes hands by being received again; what was drawn and counted before stays.
func TestBottleChangesHands(t *testing.T) {
	j, people, ids := withOwners(t)
	f, _ := j.state.File(people)
	f.Shelf.Lots[1].Whose = ""
	im, err := book.Import(j.state, people, f, j.author, book.ImportOptions{Replace: true})
	if err != nil || len(im.Entries) != 1 || im.Entries[0].Kind != book.Received {
		t.Fatalf("%v, %v", im.Entries, err)
	}
	if err := j.try(im.Entries[0]); err != nil {
		t.Fatal(err)
	}
	l, _ := j.state.Lot(ids.Lots[1])
	if l.Whose != "" || l.Lot.Left.Text != "400 mL" {
		t.Errorf("the bottle is %q's and has %q left", l.Whose, l.Lot.Left.Text)
	}
	if _, err := j.takeBack(im.Entries[0].ID); err != nil {
		t.Fatal(err)
	}
	if whose, _ := j.state.LotOwner(ids.Lots[1]); whose != ids.People[0] {
		t.Errorf("after taking that back it is %q's", whose)
	}
}

// A member owns something without being among the people of the file; the file then lists them, and the book stays as it is.
func TestOwnersAreListed(t *testing.T) {
	j, people, _ := withOwners(t)
	people["mo"] = book.Person{ID: "mo", Name: "Mo"}
	f, _ := j.state.File(people)
	f.People = append(f.People, darkroom.Person{Name: "Mo"})
	f.Shelf.Lots = append(f.Shelf.Lots, darkroom.Lot{Product: "paper developer", LeftUnknown: true, Whose: "Mo"})
	im, err := book.Import(j.state, people, f, j.author, book.ImportOptions{Persons: map[string]string{"Mo": "mo"}})
	if err != nil || len(im.Entries) != 1 || len(im.People) != 0 || !strings.Contains(im.Entries[0].Body, `"whose":"mo"`) {
		t.Fatalf("%v, %v, %v", im.Entries, im.People, err)
	}
	if err := j.try(im.Entries[0]); err != nil {
		t.Fatal(err)
	}
	f, ids := j.state.File(people)
	if ids.People[1] != "mo" || f.People[1].Name != "Mo" {
		t.Errorf("people are %v", f.People)
	}
	wantNothing(t, j, people, reread(t, f))
	f.Shelf.Lots, f.People = f.Shelf.Lots[:4], f.People[:1]
	if im, err = book.Import(j.state, people, f, j.author, book.ImportOptions{Replace: true}); err != nil || len(im.Entries) != 1 {
		t.Errorf("taken away: %v, %v", im.Entries, err)
	}
}

// What can't be: a name within a mapping, an owner that is no id, an owner of what nobody can own.
func TestWhoseIsRefused(t *testing.T) {
	for name, b := range map[string]book.Body{
		"a name in a lot":     &book.LotReceived{Lot: "l9", Product: "p", As: []byte(`{"product":"-","holds":"1 L","whose":"Ines"}`)},
		"a name in a product": &book.Set{Part: book.ProductPart, ID: "p", As: []byte(`{"name":"x","role":"fixer","form":"liquid","whose":"Ines"}`)},
		"no id of a lot":      &book.LotReceived{Lot: "l9", Product: "p", As: []byte(`{"product":"-","holds":"1 L"}`), Whose: "\n"},
		"no id of a stock":    &book.Stock{Lot: "l9", Product: "p", As: []byte(`{"product":"-","holds":"1 L"}`), Whose: "\n"},
		"no id of a product":  &book.Set{Part: book.ProductPart, ID: "p", As: stopBath("x"), Whose: "\n"},
		"no id of a bath":     &book.Mixed{Bath: "b9", Product: "p", Dilution: "1+9", Volume: "1 L", Whose: "\n"},
		"a vessel's owner":    &book.Set{Part: book.TrayPart, ID: "t", As: []byte(`{"name":"white"}`), Whose: "ines"},
	} {
		j, _, _ := withOwners(t)
		if err := j.try(written(j.author, b)); book.KindOf(err) != book.BadInput {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// What is long used up or gone is not free for others either.
func TestOwnersAtRest(t *testing.T) {
	j, _, ids := withOwners(t)
	j.write(&book.Mixed{Bath: "hers", Product: ids.Products[1], Dilution: "1+7", Volume: "1 L", Whose: ids.People[0]})
	j.write(&book.Disposed{Bath: "hers"})
	j.write(&book.LotDiscarded{Lot: ids.Lots[2]})
	if book.RestKeeping(j.state, evening.AddDate(2, 0, 0), 0, 0) == 0 {
		t.Fatal("nothing rests")
	}
	if _, awake := j.state.Bath("hers"); awake {
		t.Fatal("the bath does not rest")
	}
	if whose, known := j.state.BathOwner("hers"); whose != "" || !known {
		t.Errorf("the bath is %q's, known %v", whose, known)
	}
	if whose, known := j.state.LotOwner(ids.Lots[2]); whose != "" || !known {
		t.Errorf("the bottle is %q's, known %v", whose, known)
	}
}

// Whose a bath is, and that an id which was used once is not free for others.
func TestBathOwner(t *testing.T) {
	j, _, ids := withOwners(t)
	mixed := j.write(&book.Mixed{Bath: "hers", Product: ids.Products[1], Dilution: "1+7", Volume: "1 L", Whose: ids.People[0]})
	j.write(&book.Mixed{Bath: "rooms", Product: ids.Products[0], Dilution: "1+9", Volume: "1 L"})
	wants := func(id, whose string, known bool) {
		t.Helper()
		if got, is := j.state.BathOwner(id); got != whose || is != known {
			t.Errorf("%s is %q's, known %v", id, got, is)
		}
	}
	wants("hers", ids.People[0], true)
	wants("rooms", "", true)
	wants("none", "", false)
	if _, err := j.takeBack(mixed); err != nil {
		t.Fatal(err)
	}
	wants("hers", "", true)
	if whose, known := j.state.LotOwner("none"); whose != "" || known {
		t.Error("a lot that never was is known")
	}
	if whose, known := j.state.ProductOwner("none"); whose != "" || known {
		t.Error("a product that never was is known")
	}
}
