package book_test

import (
	"errors"
	"testing"

	"wetside/book"
)

// TestTakingBack goes through what can be taken back and what can't, with the reason and what stands in the way.
func TestTakingBack(t *testing.T) {
	j := newJournal(t)
	room := j.write(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"Ropewalk Darkroom"}`)})
	stop := j.write(&book.Set{Part: book.ProductPart, ID: "stop", As: stopBath("print stop")})
	jug := j.write(&book.Set{Part: book.VesselPart, ID: "jug", As: []byte(
		`{"name":"jug","kind":"jug","keep_for":"print stop","scales":[{"unit":"mL","from":"100","to":"1000","step":"50"}]}`)})
	lot := j.write(&book.LotReceived{Lot: "lot1", Product: "stop", As: []byte(`{"product":"print stop","holds":"1 L"}`)})
	unused := j.write(&book.LotReceived{Lot: "lot2", Product: "stop", As: []byte(`{"product":"print stop","holds":"1 L"}`)})
	mixed := j.write(&book.Mixed{
		Bath: "b1", Product: "stop", Dilution: "1+31", Volume: "1 L",
		From: []book.Draw{{Lot: "lot1", Amount: "30 mL"}},
	})
	renamed := j.write(&book.Set{Part: book.ProductPart, ID: "stop", As: stopBath("odourless stop")})

	wantRefused(t, j, "nothing", book.NoSuchEntry, "", "")
	wantRefused(t, j, room, book.RoomStays, "", "")
	wantRefused(t, j, lot, book.LotDrawnSince, "lot1", mixed)
	wantRefused(t, j, stop, book.ChangedSince, "", renamed)
	for _, id := range []string{unused, mixed, renamed, jug} {
		if err := j.state.CanTakeBack(id, among(j.entries)); err != nil {
			t.Errorf("taking back %s: %v, want it to be possible", id, err)
		}
	}

	undo := mustTakeBack(t, j, mixed)
	wantRefused(t, j, mixed, book.AlreadyUndone, "", undo)
	if l, _ := j.state.Lot("lot1"); l.Lot.Left.Given() || len(j.state.Baths()) != 0 {
		t.Errorf("after taking the mix back: left %q, baths %v", l.Lot.Left.Text, j.state.Baths())
	}
	gone := mustTakeBack(t, j, lot)
	wantRefused(t, j, undo, book.LotDrawnSince, "lot1", mixed) // the mix would draw from a lot that never came
	mustTakeBack(t, j, gone)
	mustTakeBack(t, j, undo)
	if l, _ := j.state.Lot("lot1"); l.Lot.Left.Text != "0.97 L" || len(j.state.Baths()) != 1 {
		t.Errorf("with the mix back in place: left %q, baths %v", l.Lot.Left.Text, j.state.Baths())
	}

	unname := mustTakeBack(t, j, renamed)
	if f := j.file(); f.Shelf.Products[0].Name != "print stop" || f.Bench.Vessels[0].KeepFor != "print stop" {
		t.Errorf("the product is %q again", f.Shelf.Products[0].Name)
	}
	wantRefused(t, j, stop, book.ProductHasLots, "stop", lot)
	j.write(&book.Set{Part: book.ProductPart, ID: "other", As: stopBath("odourless stop")})
	wantRefused(t, j, unname, book.NameTaken, "other", "")
}

func mustTakeBack(t *testing.T, j *journal, id string) string {
	t.Helper()
	c, err := j.takeBack(id)
	if err != nil {
		t.Fatalf("taking back %s: %v", id, err)
	}
	return c
}

func wantRefused(t *testing.T, j *journal, id string, want book.Reason, subject, because string) {
	t.Helper()
	before := len(j.entries)
	_, err := j.takeBack(id)
	refused, ok := errors.AsType[*book.RefusedError](err)
	if !ok || refused.Reason != want || refused.Entry != id || subject != "" && refused.Subject != subject ||
		refused.Because != because || book.KindOf(err) != book.Refused {
		t.Errorf("taking back %s: got %v, want %s (subject %q, because of %q)", id, err, want, subject, because)
	}
	asked, ok := errors.AsType[*book.RefusedError](j.state.CanTakeBack(id, among(j.entries)))
	if !ok || asked.Reason != want || len(j.entries) != before {
		t.Errorf("asked about taking back %s: got %v, want %s", id, asked, want)
	}
}

// TestDecisionsRefused are decisions that would leave a darkroom that no file can describe.
func TestDecisionsRefused(t *testing.T) {
	j := newJournal(t)
	j.write(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"Ropewalk Darkroom"}`)})
	j.write(&book.Set{Part: book.ProductPart, ID: "stop", As: stopBath("print stop")})
	j.write(&book.Set{Part: book.ProductPart, ID: "spare", As: stopBath("spare stop")})
	j.write(&book.LotReceived{Lot: "lot1", Product: "stop", As: []byte(`{"product":"print stop","holds":"1 L"}`)})
	j.write(&book.Set{Part: book.TrayPart, ID: "red", As: []byte(`{"name":"red"}`)})
	j.write(&book.Set{Part: book.SessionPart, As: []byte(`{"to_make":[{"material":"RC paper","sheets":"3"}]}`)})
	for name, c := range map[string]struct {
		body book.Body
		want book.Reason
	}{
		"a product with lots":       {&book.Removed{Part: book.ProductPart, ID: "stop"}, book.ProductHasLots},
		"what is not there":         {&book.Removed{Part: book.TrayPart, ID: "blue"}, book.ThingNotThere},
		"a lot that is not there":   {&book.LotDiscarded{Lot: "lot9"}, book.LotNotThere},
		"a name twice":              {&book.Set{Part: book.TrayPart, ID: "two", As: []byte(`{"name":"Red"}`)}, book.NameTaken},
		"a name of another product": {&book.Set{Part: book.ProductPart, ID: "spare", As: stopBath("print stop")}, book.NameTaken},
		"kept for nothing": {&book.Set{Part: book.VesselPart, ID: "v", As: []byte(
			`{"name":"v","kind":"jug","keep_for":"tea","scales":[{"unit":"mL","from":"1","to":"10","step":"1"}]}`)}, book.ProductNamed},
		"a session's developer that is none": {&book.Set{Part: book.SessionPart, As: []byte(
			`{"to_make":[{"material":"RC paper","sheets":"3","product":"print stop"}]}`)}, book.WouldNotHold},
	} {
		e, err := j.author.Write(c.body)
		if err != nil {
			t.Fatal(err)
		}
		err = j.try(e)
		if refused, ok := errors.AsType[*book.RefusedError](err); !ok || refused.Reason != c.want || refused.Entry != e.ID {
			t.Errorf("%s: got %v, want %s", name, err, c.want)
		}
	}
	j.write(&book.Removed{Part: book.ProductPart, ID: "spare"})
	j.write(&book.LotDiscarded{Lot: "lot1"})
	j.write(&book.Removed{Part: book.ProductPart, ID: "stop"})
	if f := j.file(); len(f.Shelf.Products)+len(f.Shelf.Lots) != 0 {
		t.Errorf("the shelf has %+v, want nothing", f.Shelf)
	}
}

// TestAbsurdWords are bodies that are wrong by themselves, facts among them.
func TestAbsurdWords(t *testing.T) {
	j := newJournal(t)
	for _, e := range shelf() {
		if err := j.try(e); err != nil {
			t.Fatal(err)
		}
	}
	j.write(&book.LotReceived{Lot: "lot1", Product: "fix", As: []byte(`{"product":"rapid fixer","holds":"1 L","received":"2026-11-01"}`)})
	for name, body := range map[string]book.Body{
		"more than it holds":      &book.LotCounted{Lot: "lot1", Left: "1.2 L"},
		"opened before it came":   &book.LotOpened{Lot: "lot1", Opened: "2026-10-01"},
		"no such day":             &book.LotOpened{Lot: "lot1", Opened: "2026-02-30"},
		"a bare ounce":            &book.LotCounted{Lot: "lot1", Left: "10 fl oz"},
		"no unit":                 &book.LotCounted{Lot: "lot1", Left: "10"},
		"less than nothing":       &book.LotCounted{Lot: "lot1", Left: "-10 mL"},
		"packets of a liquid":     &book.LotReceived{Lot: "l", Product: "fix", As: []byte(`{"product":"rapid fixer","holds":"2 packets"}`)},
		"litres of a powder":      &book.LotReceived{Lot: "l", Product: "dev", As: []byte(`{"product":"film developer","holds":"1 L"}`)},
		"no lot":                  &book.LotCounted{Left: "10 mL"},
		"no such ounce":           &book.LotReceived{Lot: "l", Product: "fix", As: []byte(`{"product":"rapid fixer"}`), Ounce: "troy"},
		"a field that is none":    &book.LotReceived{Lot: "l", Product: "fix", As: []byte(`{"product":"rapid fixer","age":"3"}`)},
		"a tray without a name":   &book.Set{Part: book.TrayPart, ID: "t", As: []byte(`{}`)},
		"a room with an id":       &book.Set{Part: book.RoomPart, ID: "r", As: []byte(`{"name":"x"}`)},
		"a tray without an id":    &book.Set{Part: book.TrayPart, As: []byte(`{"name":"x"}`)},
		"drawn a million times":   &book.LotDrawn{Draw: book.Draw{Lot: "lot1", Amount: "1 mL", Times: 1_000_000}},
		"a bath without an id":    &book.Mixed{Product: "fix", Dilution: "1+4", Volume: "1 L"},
		"a dilution that is none": &book.Mixed{Bath: "b", Product: "fix", Dilution: "1+0+", Volume: "1 L"},
		"a bath of no volume":     &book.Mixed{Bath: "b", Product: "fix", Dilution: "1+4", Volume: "much"},
	} {
		e, err := j.author.Write(body)
		if err != nil {
			t.Fatal(err)
		}
		if err := j.try(e); book.KindOf(err) != book.BadInput || book.KeyOf(err) != "entry_bad_body" {
			t.Errorf("%s: got %v, want a bad body", name, err)
		}
	}
}

// TestCorrectionsInACircle folds what no store lets in: corrections of themselves, of later ones, and of what is not there.
// Only a later correction counts.
func TestCorrectionsInACircle(t *testing.T) {
	all := shelf()
	for _, c := range [][2]string{{"c1", "c2"}, {"c2", "c1"}, {"c3", "c3"}, {"c4", "nothing"}, {"c5", "s0002"}, {"c6", "c7"}, {"c7", "c5"}} {
		all = append(all, book.Entry{
			ID: c[0], Kind: book.Correction, Version: 1, HappenedAt: evening, TakesBack: c[1], Body: "{}",
		})
	}
	s := fold(t, all)
	if f, _ := s.File(nil); len(f.Shelf.Products) != 2 {
		t.Errorf("%d products, want 2: c7 takes back c5, which took one of them back", len(f.Shelf.Products))
	}
	for id, want := range map[string]book.Reason{"c1": book.AlreadyUndone, "c5": book.AlreadyUndone, "c2": "", "c7": ""} {
		refused, _ := errors.AsType[*book.RefusedError](s.CanTakeBack(id, among(all)))
		if got := reasonOf(refused); got != want {
			t.Errorf("taking back %s: got %q, want %q", id, got, want)
		}
	}
}

func reasonOf(e *book.RefusedError) book.Reason {
	if e == nil {
		return ""
	}
	return e.Reason
}

func asRefused(err error) *book.RefusedError {
	refused, _ := errors.AsType[*book.RefusedError](err)
	return refused
}
