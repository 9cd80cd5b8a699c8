package book_test

import (
	"fmt"
	"maps"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/darkroom"
)

// reread writes a file and reads it again.
func reread(t failing, f darkroom.File) darkroom.File {
	t.Helper()
	src := darkroom.Write(f)
	got, err := darkroom.Read(src)
	if err != nil {
		t.Fatalf("the book's file can't be read: %v\n%s", err, src)
	}
	return got
}

// TestAnyFileThroughTheBook imports generated files into an empty book, takes them out again, imports them a second
// time, and imports one over another.
func TestAnyFileThroughTheBook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, g := anyFile(t), anyFile(t)
		j, people := imported(t, f)
		got, _ := j.state.File(people)
		if d := cmp.Diff(darkroom.Public(f), got, everything); d != "" {
			t.Fatalf("through the book (-file +book):\n%s", d)
		}
		wantNothing(t, j, people, f)
		otherOunce(t, j.state, people, f)
		for _, o := range []book.ImportOptions{{}, {Replace: true}} {
			im, err := book.Import(j.state, people, g, j.author, o)
			if err != nil {
				t.Fatal(err)
			}
			after, err := j.state.Admit(im.Entries, among(j.entries))
			if err != nil {
				t.Fatalf("replace %v: %v", o.Replace, err)
			}
			record := maps.Clone(people)
			for _, p := range im.People {
				record[p.ID] = p
			}
			over, _ := after.File(record)
			reread(t, over)
			again, err := book.Import(after, record, g, j.author, o)
			if err != nil || len(again.Entries)+len(again.People) > 0 {
				t.Fatalf("replace %v: imported again: %+v, %v", o.Replace, again, err)
			}
			if o.Replace && len(over.Shelf.Lots) != len(g.Shelf.Lots) {
				t.Fatalf("replaced: %d lots, want %d", len(over.Shelf.Lots), len(g.Shelf.Lots))
			}
		}
	})
}

// anyFile makes a file out of words that a person might write.
func anyFile(t *rapid.T) darkroom.File {
	one := func(name string, words ...string) string { return rapid.SampledFrom(words).Draw(t, name) }
	some := func(name string, most int, line func(i int) string) string {
		var b strings.Builder
		for i := range rapid.IntRange(0, most).Draw(t, name) {
			b.WriteString("    - " + line(i) + "\n")
		}
		return b.String()
	}
	products := rapid.Permutation([]string{"dev", "stop", "fix", "powder"}).Draw(t, "products")
	products = products[:rapid.IntRange(0, 4).Draw(t, "how many")]
	var src strings.Builder
	fmt.Fprintf(&src, "darkroom: {name: %s, ounce: %s%s}\n", one("name", "Ropewalk", "Sail Loft", "'1 & <2>'"),
		one("ounce", "us", "imperial"), one("more", "", ", drain: septic", ", room: 19 °C, water: {cold: 8 °C, ice: no}"))
	src.WriteString("bench:\n  vessels:\n" + some("vessels", 3, func(i int) string {
		kept := append([]string{"", "", ", keep_for: fixer"}, products...)
		for k := range products {
			kept[3+k] = ", keep_for: " + products[k]
		}
		return fmt.Sprintf("{name: jug %d, kind: jug%s, scales: [{unit: %s, from: 1, to: 32, step: 1}]}", i,
			one("kept", kept...), one("unit", "fl oz", "mL", "US fl oz", "pint"))
	}) + "  trays:\n" + some("trays", 3, func(i int) string {
		return fmt.Sprintf("{name: tray %d%s}", i, one("tray", "", ", for: wash", ", fill: 2 quarts", ", fill: 1.50 L"))
	}) + "  tanks:\n" + some("tanks", 2, func(i int) string {
		return fmt.Sprintf("{name: tank %d%s}", i, one("tank", "", ", covers: {135: [10 fl oz, 20 fl oz]}", ", covers: {120: [500 mL]}"))
	}) + "  cans:\n" + some("cans", 2, func(i int) string {
		return fmt.Sprintf("{name: can %d, takes: fixer, holds: %s%s}", i, one("can", "25 L", "5 US gal", "2 gal"),
			one("full", "", ", full_at: 80 %", ", vented: yes"))
	}) + one("depth", "", "  fill_depth: 15 mm\n", "  fill_depth: 5/8 in\n  dry: {RC paper: 24}\n"))
	owners := []string{"", "", ", whose: somebody"}
	people := some("people", 2, func(i int) string {
		return fmt.Sprintf("{name: Person %d%s%s}", i, one("does", "", ", does: [mixes]"), one("notes", "", ", notes: [left-handed]"))
	})
	for i := range strings.Count(people, "name:") {
		owners = append(owners, fmt.Sprintf(", whose: Person %d", i))
	}
	src.WriteString("shelf:\n  products:\n")
	for _, p := range products {
		fmt.Fprintf(&src, "    - {name: %s%s%s}\n", p, label(one, p), one("its owner", owners...))
	}
	src.WriteString("  lots:\n")
	if len(products) > 0 {
		src.WriteString(some("lots", 6, func(int) string { return anyLot(one, one("product", products...), one("whose", owners...)) }))
	}
	src.WriteString("people:\n" + people)
	src.WriteString(one("session", "", "session: {people: 8}\n",
		"session:\n  lasts: 3 h\n  to_make:\n    - {material: film, rolls: 2, size: 135-36, dilution: 1 fl oz per quart}\n"))
	f, err := darkroom.Read([]byte(src.String()))
	if err != nil {
		t.Fatalf("the generator is wrong: %v\n%s", err, src.String())
	}
	return f
}

func label(one func(string, ...string) string, product string) string {
	switch product {
	case "dev":
		return ", role: developer, form: liquid" + one("dilution", "", ", dilutions: {RC paper: 1+9}", ", dilutions: {film: 1/2 fl oz per quart}")
	case "stop":
		return ", role: stop bath, form: liquid" + one("stop", "", ", acid: yes", ", indicator: {from: yellow, to: purple}")
	case "powder":
		return ", role: developer, form: powder" + one("powder", "", ", makes: 1 gal", ", makes: 1 L, packs: [{holds: 1 packet, price: 7.50}]")
	default:
		return ", role: fixer, form: liquid" + one("fix", "", ", density: 1.25 g/mL", ", packs: [{holds: 5 L, price: 31.20}]")
	}
}

func anyLot(one func(string, ...string) string, product, whose string) string {
	holds := one("holds", "", ", holds: 1 L", ", holds: 1 L, left: 310 mL", ", holds: 1 quart, left: unknown", ", holds: 1 L, left: 0 mL")
	stock := ""
	if product == "powder" {
		if stock = one("stock", "", ", state: stock"); stock == "" {
			holds = one("packets", "", ", holds: 1 packet", ", holds: 3 packets")
		}
	}
	dates := one("dates", "", ", received: 2026-09-02", ", received: 2026-09-02, opened: 2026-10-14", ", opened: 2026-10-15")
	return "{product: " + product + stock + holds + dates + whose + "}"
}

// otherOunce changes what an ounce is in the room, and compares what the file then means with what it meant.
func otherOunce(t *rapid.T, s *book.State, people book.People, f darkroom.File) {
	room, ounce := f.Darkroom, book.USOunce
	if room.Ounce == ounce.Quantity() {
		ounce = book.ImperialOunce
	}
	room.Ounce = ounce.Quantity()
	a := &book.Author{Now: evening, NewID: counting("o")}
	after, err := s.Admit([]book.Entry{written(a, book.NewSet(book.RoomPart, "", room, ounce))}, nil)
	if err != nil {
		t.Fatal(err)
	}
	got, _ := after.File(people)
	got = reread(t, got)
	f.Darkroom = room
	words := cmp.FilterPath(func(p cmp.Path) bool { return p.Last().String() == ".Text" }, cmp.Ignore())
	if d := cmp.Diff(darkroom.Public(f), got, everything, words); d != "" {
		t.Fatalf("in other ounces (-before +after):\n%s", d)
	}
}
