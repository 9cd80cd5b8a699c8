package book_test

import (
	"testing"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/process"
	"wetside/trade/quantity"
)

// Used fixer that was put by: as it was measured, else as it was mixed; what moved forward in its pair, too; no developer, none
// that went down a drain, none that was taken back.
func TestCollected(t *testing.T) {
	j := newJournal(t)
	f, err := darkroom.Read([]byte(`darkroom: {name: x}
shelf:
  products:
    - {name: fix, role: fixer, form: liquid, acid: false, dilutions: {RC paper: 1+4}}
    - {name: dev, role: developer, form: liquid, dilutions: {RC paper: 1+9}}
`))
	if err != nil {
		t.Fatal(err)
	}
	im, err := book.Import(j.state, nil, f, j.author, book.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range im.Entries {
		if err := j.try(e); err != nil {
			t.Fatal(err)
		}
	}
	_, ids := j.state.File(nil)
	fix, dev := ids.Products[0], ids.Products[1]
	mix := func(id, product string) {
		j.write(&book.Mixed{Bath: id, Product: product, Dilution: "1+4", Volume: "2 L"})
	}
	away := func(id, to, volume string) string {
		j.author.Now = j.author.Now.Add(time.Hour)
		return j.write(&book.Disposed{Bath: id, Leaving: book.Leaving{To: to, Volume: volume}})
	}
	for _, id := range []string{"a", "b", "c", "d", "e", "g"} {
		mix(id, fix)
	}
	mix("h", dev)
	if v, since := putBy(j.state); v != 0 || !since.IsZero() {
		t.Errorf("with nothing put by: %v since %v", v, since)
	}
	away("a", book.ToCollected, "")
	first := j.author.Now
	away("b", book.ToCollected, "1500 mL")
	away("c", "drain", "")
	away("h", book.ToCollected, "")
	slip := away("d", book.ToCollected, "")
	if _, err := j.takeBack(slip); err != nil {
		t.Fatal(err)
	}
	j.write(&book.Moved{First: "e", Second: "g", Leaving: book.Leaving{To: book.ToCollected}})
	want, err := quantity.VolumeOfML(2000 + 1500 + 2000)
	if err != nil {
		t.Fatal(err)
	}
	if v, since := putBy(j.state); v != want || !since.Equal(first) {
		t.Errorf("put by: %v since %v, want %v since %v", v, since, want, first)
	}
}

// putBy is how much used fixer is put by, in all cans and in none, and since when.
func putBy(s *book.State) (total quantity.Volume, since time.Time) {
	for _, c := range s.Waste() {
		for i := range c.Now {
			p := &c.Now[i]
			if p.Of != process.Fixer {
				continue
			}
			total += p.Left()
			if since.IsZero() || p.At.Before(since) {
				since = p.At
			}
		}
	}
	return total, since
}
