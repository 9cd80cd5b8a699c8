package sink_test

import (
	"slices"
	"testing"

	"wetside/ahead"
	"wetside/book"
	"wetside/darkroom"
	"wetside/sink"
	"wetside/trade/material"
)

// lists is what the lists of the room are made from, so many seconds into the evening.
func (r *room) lists(seconds int, place darkroom.Place) *sink.Room {
	r.t.Helper()
	s := r.look(seconds)
	sc := ahead.FromBook(r.state, material.None, r.author.Now)
	sc.Draws = 200
	report, err := ahead.Look(sc)
	if err != nil {
		r.t.Fatal(err)
	}
	return &sink.Room{Sink: s, Report: report, Plan: r.plan, Place: place}
}

func itemKeys(all []sink.Item) (keys []string) {
	for _, x := range all {
		keys = append(keys, x.Key)
	}
	return keys
}

func kinds(all []sink.Item, kind sink.ItemKind) (out []sink.Item) {
	for _, x := range all {
		if x.Kind == kind {
			out = append(out, x)
		}
	}
	return out
}

// The opening list asks for every bath of the evening until it stands there, for a test that is due, and for tongs at each
// tray: one tong per bath is the rule of every shared room.
func TestOpening(t *testing.T) {
	r := newRoom(t)
	before := r.lists(1, darkroom.Home).Opening()
	if n := len(kinds(before, sink.ItemMix)); n < 4 {
		t.Fatalf("with nothing mixed %d baths are to be mixed: %v", n, itemKeys(before))
	}
	if n := len(kinds(before, sink.ItemWarmth)); n != 0 {
		t.Errorf("a thermometer goes into %d developers that do not stand there", n)
	}
	r.pour("developer", "")
	r.pour("fixer", darkroom.BathFirst)
	after := r.lists(2, darkroom.Home).Opening()
	if a, b := len(kinds(before, sink.ItemMix)), len(kinds(after, sink.ItemMix)); b != a-2 {
		t.Errorf("two baths were poured, and of %d to be mixed %d are left: %v", a, b, itemKeys(after))
	}
	trays := 0
	for _, s := range r.look(2).Stations {
		if !s.Film && s.Tray != "" && s.Product != "" {
			trays++
		}
	}
	if tongs := kinds(after, sink.ItemTongs); len(tongs) != trays || trays < 4 {
		t.Errorf("tongs at %d of %d trays", len(tongs), trays)
	}
	for _, all := range [][]sink.Item{before, after} {
		keys := itemKeys(all)
		slices.Sort(keys)
		if n := len(slices.Compact(slices.Clone(keys))); n != len(keys) || len(kinds(all, sink.ItemAir)) != 1 {
			t.Errorf("keys stand twice, or the air is forgotten: %v", keys)
		}
	}
	b := r.look(2).Stations[slices.IndexFunc(r.look(2).Stations, func(s sink.Station) bool { return s.Bath == "b-fixer" })].Bath
	r.say(30, &book.PouredBack{Bath: b, Into: darkroom.FullBottle})
	again := r.lists(40, darkroom.Home).Opening()
	if out := kinds(again, sink.ItemPourOut); len(out) != 1 || out[0].Bath.ID != b {
		t.Errorf("a good fixer waits in its bottle, and the list says %v", itemKeys(again))
	}
}

// The closing list is made of what is really there: prints, batches, each open bath. A fixer that failed its test goes into
// the can; what is good goes back into its bottle.
func TestClosing(t *testing.T) {
	r := newRoom(t)
	for id, place := range map[string]darkroom.Bath{"developer": "", "fixer": darkroom.BathFirst, "fixer-second": darkroom.BathSecond} {
		r.pour(id, place)
	}
	s := r.look(5)
	w := paper(t, s, material.RC)
	r.start(10, "p", "", w, s)
	r.start(20, "q", "", w, s)
	r.say(30, &book.PrintMoved{Print: "q", At: book.At{Step: "wash", Batch: "b1"}})
	r.say(40, &book.Tested{Bath: "b-fixer", Test: book.DropTest, Result: "failed"})
	home, shared := r.lists(50, darkroom.Home).Closing(), r.lists(50, darkroom.Community).Closing()
	for kind, want := range map[sink.ItemKind]int{
		sink.ItemPrints: 1, sink.ItemWashed: 1, sink.ItemHeld: 0, sink.ItemToCan: 1, sink.ItemTrays: 1, sink.ItemLocked: 0, sink.ItemLast: 0,
	} {
		if got := len(kinds(home, kind)); got != want {
			t.Errorf("%s stands %d times, want %d: %v", kind, got, want, itemKeys(home))
		}
	}
	if can := kinds(home, sink.ItemToCan); len(can) == 1 && can[0].Bath.ID != "b-fixer" {
		t.Errorf("%s goes into the can", can[0].Bath.ID)
	}
	back := kinds(home, sink.ItemBack)
	if !slices.ContainsFunc(back, func(x sink.Item) bool { return x.Bath.ID == "b-fixer-second" }) {
		t.Errorf("the good second fixer is not poured back: %v", itemKeys(home))
	}
	if len(kinds(shared, sink.ItemLocked)) != 1 || len(kinds(shared, sink.ItemLast)) != 1 {
		t.Errorf("a shared room is not locked, or nobody stops in time: %v", itemKeys(shared))
	}
}

// A tick stands until it is undone, says who made it, and is no tick of the other list.
func TestTicks(t *testing.T) {
	r := newRoom(t)
	done := func(list book.List, key string) *book.Tick {
		t.Helper()
		all, ok := r.lists(100, darkroom.Home).List(list)
		i := slices.IndexFunc(all, func(x sink.Item) bool { return x.Key == key })
		if !ok || i < 0 {
			t.Fatalf("no %s on the list %s: %v", key, list, itemKeys(all))
		}
		return all[i].Done
	}
	r.author.By = "mo"
	r.say(60, &book.Ticked{Session: "s1", List: book.OpeningList, Item: "towels"})
	if d := done(book.OpeningList, "towels"); d == nil || d.By != "mo" {
		t.Errorf("ticked by %+v, want mo", d)
	}
	r.say(65, &book.Ticked{Session: "s1", List: book.ClosingList, Item: "towels"})
	r.say(70, &book.Ticked{Session: "s1", List: book.OpeningList, Item: "towels", Undone: true})
	if d := done(book.OpeningList, "towels"); d != nil {
		t.Errorf("it was undone, and stands as %+v", d)
	}
	if _, ok := r.lists(100, darkroom.Home).List("tea"); ok {
		t.Error("there is a list for tea")
	}
}
