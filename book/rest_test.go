package book_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/process"
)

// A years is a book of some years with few entries, as random as books may be: late facts, corrections, corrections of corrections,
// baths that nobody mixed, prints that went astray.
type years struct {
	t   *rapid.T
	n   int
	now time.Time
	ids []string
}

func (y *years) one(of ...string) string { return rapid.SampledFrom(of).Draw(y.t, "one") }
func (y *years) of(prefix string, n int) string {
	return prefix + fmt.Sprint(rapid.IntRange(0, n-1).Draw(y.t, prefix))
}

// entry draws what is written next.
func (y *years) entry() book.Entry {
	y.n++
	y.now = y.now.Add(time.Duration(rapid.IntRange(1, 20).Draw(y.t, "days")) * 12 * time.Hour)
	a := &book.Author{By: y.of("by", 2), Device: y.of("d", 2), Now: y.now, NewID: func() string { return fmt.Sprintf("e%d", y.n) }}
	if rapid.IntRange(0, 9).Draw(y.t, "late") == 0 {
		a.Now = a.Now.AddDate(0, 0, -rapid.IntRange(1, 300).Draw(y.t, "by days"))
	}
	var e book.Entry
	var err error
	if len(y.ids) > 3 && rapid.IntRange(0, 7).Draw(y.t, "correct") == 0 {
		e, err = a.TakeBack(rapid.SampledFrom(y.ids).Draw(y.t, "taken back"), "")
	} else {
		e, err = a.Write(y.body())
	}
	if err != nil {
		y.t.Fatal(err)
	}
	return e
}

func (y *years) bath() string { return y.of("bath", 6) }

func (y *years) body() book.Body {
	where := book.At{Step: y.one("develop", "fix", "wash", "hold"), For: y.one("", "90 s")}
	switch where.Step {
	case "wash":
		where.Batch = y.of("batch", 3)
	case "hold":
		where.Batch, where.Bath = y.of("batch", 3), y.one("", y.bath())
	default:
		where.Bath = y.bath()
	}
	prints := book.Prints{Material: y.one("RC paper", "film"), Size: "8x10 in", Sheets: 2}
	leaving := book.Leaving{To: y.one("drain", book.ToCollected), Can: y.one("", "can0"), Volume: y.one("", "1 L")}
	switch rapid.IntRange(0, 19).Draw(y.t, "kind") {
	case 0, 1:
		return y.mixed()
	case 2, 3, 4:
		all := []string{y.bath(), y.bath(), y.bath()}
		return &book.Worked{Baths: all[:rapid.IntRange(1, 3).Draw(y.t, "through")], Prints: prints}
	case 5:
		return &book.Moved{First: y.bath(), Second: y.bath(), Leaving: leaving}
	case 6, 7, 8:
		return &book.Disposed{Bath: y.bath(), Leaving: leaving}
	case 9:
		return &book.PrintStarted{Print: y.of("print", 4), Session: y.one("", "evening0"), Prints: prints, At: where}
	case 10:
		return &book.PrintMoved{Print: y.of("print", 4), At: where}
	case 11:
		return &book.PrintLeft{Print: y.of("print", 4)}
	case 12:
		return &book.Tested{Batch: y.one("", y.of("batch", 3)), Bath: y.bath(), Test: book.HypoDrop, Result: y.one("passed", "failed")}
	case 13:
		return &book.ProbeRead{Probe: y.of("probe", 2), Bath: y.bath(), Reads: "20 °C"}
	case 14:
		return &book.ProbeRead{Probe: y.of("probe", 2), Place: book.InRoom, Reads: y.one("19 °C", "21 °C")}
	case 15:
		return &book.FaultFound{Sign: "streaks", Bath: y.bath()}
	case 16:
		return y.ofLot()
	case 17:
		return y.ofWaste()
	default:
		return y.ofEvening()
	}
}

func (y *years) mixed() book.Body {
	b := &book.Mixed{Bath: y.bath(), Product: y.one("fix", "dev"), Dilution: "1+4", Volume: "2 L", Place: darkroom.Bath(y.one("", "", "first", "second"))}
	b.From = []book.Draw{{Lot: y.of("lot", 3), Amount: y.one("30 mL", "all")}}
	if pair := y.one("", "", y.bath()); pair != b.Bath {
		b.Pair = pair
	}
	return b
}

func (y *years) ofLot() book.Body {
	lot := y.of("lot", 3)
	switch y.one("came", "drawn", "away", "counted") {
	case "came":
		return &book.LotReceived{Lot: lot, Product: "fix", As: []byte(`{"product":"rapid fixer","holds":"1 L"}`)}
	case "drawn":
		return &book.LotDrawn{Draw: book.Draw{Lot: lot, Amount: y.one("30 mL", "20 g", "all")}}
	case "away":
		return &book.LotDiscarded{Lot: lot}
	}
	return &book.LotCounted{Lot: lot, Left: y.one("310 mL", "0 mL")}
}

func (y *years) ofWaste() book.Body {
	switch y.one("in", "taken", "put by") {
	case "in":
		return &book.WasteIn{Can: "can0", What: process.Fixer.String(), Volume: "1 L"}
	case "taken":
		return &book.TakenAway{Can: "can0", Volume: y.one("", "1 L")}
	}
	return &book.WasteIn{Can: "can0", PutBy: true}
}

func (y *years) ofEvening() book.Body {
	session := y.of("evening", 3)
	switch y.one("opened", "closed", "closed", "joined", "ticked", "told") {
	case "opened":
		return &book.EveningOpened{Session: session}
	case "closed":
		return &book.EveningClosed{Session: session}
	case "joined":
		return &book.EveningJoined{Session: session, Person: y.of("by", 2)}
	case "ticked":
		return &book.Ticked{Session: session, List: book.OpeningList, Item: "gloves"}
	}
	return &book.Told{Session: y.one("", session), Note: "note"}
}

// A sleeper is a state that is put to rest now and then, and the book that it is of.
type sleeper struct {
	t       failing
	state   *book.State
	entries []book.Entry
	rested  int
	woken   int
}

func (z *sleeper) find(id string) (book.Entry, error) { return among(z.entries)(id) }

// wake wakes what is needed.
func (z *sleeper) wake(s *book.State, needs func(*book.State) book.Waking) {
	z.t.Helper()
	for range 10 {
		w := needs(s)
		if w.None() {
			return
		}
		var all []book.Entry
		for _, at := range w.Positions() {
			all = append(all, z.entries[at-1])
		}
		if err := s.Wake(w, all); err != nil {
			z.t.Fatal(err)
		}
		z.woken++
	}
	z.t.Fatal("never awake")
}

func (z *sleeper) needs(e book.Entry) func(*book.State) book.Waking {
	return func(s *book.State) book.Waking {
		w, err := s.Needs([]book.Entry{e}, z.find)
		if err != nil {
			z.t.Fatal(err)
		}
		return w
	}
}

// resumed is the state out of its snapshot.
func (z *sleeper) resumed() *book.State {
	z.t.Helper()
	r, err := book.Resume("room", book.Upcasters(), z.state.Snapshot())
	if err != nil {
		z.t.Fatal(err)
	}
	if err := r.Ranges(func(from, to int64) error {
		for _, e := range z.entries[from-1 : to] {
			r.Tell(e)
		}
		return nil
	}); err != nil {
		z.t.Fatal(err)
	}
	s, err := r.End()
	if err != nil {
		z.t.Fatal(err)
	}
	return s
}

// whole is all that a state shows, and of its prints and evenings, too.
type whole struct {
	Look     look
	Prints   []book.Print
	Of       map[string][]book.Print
	Each     map[string]book.Print
	Evenings []book.Evening
	Notes    []book.NoteSaid
}

func wholeOf(s *book.State) whole {
	w := whole{
		Look: lookAt(s, nil), Prints: s.Prints(), Evenings: s.Evenings(), Notes: s.Notes(),
		Of: map[string][]book.Print{}, Each: map[string]book.Print{},
	}
	for _, session := range []string{"", "evening0"} {
		w.Of[session] = s.PrintsOf(session)
	}
	for i := range 4 {
		id := fmt.Sprint("print", i)
		if p, ok := s.Print(id); ok {
			w.Each[id] = p
		}
	}
	return w
}

// asked is what a state must answer alike whatever of it rests.
type asked struct {
	Waste    []book.WasteCan
	Count    []int
	Mixers   map[string]time.Time
	Products map[string]string
	Faults   []book.Event
	Prints   []book.Print
	Room     book.Reading
	Probes   []book.Reading
	Running  book.Evening
	There    []book.Lot
}

func ask(s *book.State) asked {
	a := asked{
		Waste: s.Waste(), Count: []int{s.CountOf(""), s.CountOf("evening0")}, Mixers: s.FirstMixes(), Products: map[string]string{},
		Faults: s.Faults(), Prints: s.Prints(),
	}
	for i := range 6 {
		id := fmt.Sprint("bath", i)
		if p, ok := s.ProductOf(id); ok {
			a.Products[id] = p
		}
	}
	for i := range 2 {
		r, _ := s.ReadBy(fmt.Sprint("probe", i))
		a.Probes = append(a.Probes, r)
	}
	for _, r := range s.Readings() {
		if r.Place == book.InRoom {
			a.Room = r
		}
	}
	a.Running, _ = s.Running()
	for _, l := range s.Lots() {
		if l.Gone == book.There {
			a.There = append(a.There, l)
		}
	}
	return a
}

// TestRest holds a book that is put to rest, woken and taken out of its snapshot at random moments against one that never was:
// what it refuses, what it answers at once, each bath that is awake or woken by itself, and in the end all of it.
func TestRest(t *testing.T) {
	rested, woken, refused := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		z := &sleeper{t: t, state: book.New("room", book.Upcasters())}
		plain := book.New("room", book.Upcasters())
		y := &years{t: t, now: evening}
		next := func(e book.Entry) {
			e.Darkroom, e.Position = "room", int64(len(z.entries)+1)
			after, err := plain.Admit([]book.Entry{e}, z.find)
			z.wake(z.state, z.needs(e))
			slept, also := z.state.Admit([]book.Entry{e}, z.find)
			if fmt.Sprint(err) != fmt.Sprint(also) {
				t.Fatalf("%s %s: %v, put to rest %v", e.Kind, e.Body, err, also)
			}
			if err != nil {
				refused++
				return
			}
			plain, z.state = after, slept
			z.entries = append(z.entries, e)
			if e.ID[0] == 'e' {
				y.ids = append(y.ids, e.ID)
			}
		}
		for _, e := range shelf() {
			next(e)
		}
		for range rapid.IntRange(1, 120).Draw(t, "entries") {
			next(y.entry())
			switch rapid.IntRange(0, 12).Draw(t, "then") {
			case 0, 1:
				n := book.RestKeeping(z.state, y.now.AddDate(0, 0, -rapid.IntRange(20, 90).Draw(t, "rest")), 2, rapid.IntRange(1, 3).Draw(t, "latest"))
				z.rested += n
			case 2:
				z.state = z.resumed()
			case 3:
				kept := z.state
				z.state = kept.Clone()
				defer func(at int, was asked) {
					if d := cmp.Diff(was, ask(kept), everything); d != "" {
						t.Fatalf("a copy of position %d was changed by what its copy was told:\n%s", at, d)
					}
				}(len(z.entries), ask(kept))
			case 4:
				one := z.state.Clone()
				id := y.bath()
				z.wake(one, func(s *book.State) book.Waking { return s.NeedsBaths(id) })
				want, is := plain.Bath(id)
				got, also := one.Bath(id)
				if d := cmp.Diff(want, got, everything); d != "" || is != also {
					t.Fatalf("%s woken (-never at rest +woken):\n%s", id, d)
				}
				read, _ := plain.Reading(id)
				last, _ := one.Reading(id)
				if d := cmp.Diff(read, last, everything); d != "" && (is || also) {
					t.Fatalf("the last reading in %s (-never at rest +woken):\n%s", id, d)
				}
			}
			if d := cmp.Diff(ask(plain), ask(z.state), everything); d != "" {
				t.Fatalf("at %d (-never at rest +at rest):\n%s", len(z.entries), d)
			}
		}
		if d := plain.Differs(z.state); len(d) > 0 {
			t.Fatalf("told otherwise: %v", d)
		}
		for _, b := range z.state.Baths() {
			want, _ := plain.Bath(b.ID)
			if d := cmp.Diff(want, b, everything); d != "" {
				t.Fatalf("%s, never at rest (-) and awake (+):\n%s", b.ID, d)
			}
		}
		z.wake(z.state, (*book.State).NeedsAll)
		if d := cmp.Diff(wholeOf(plain), wholeOf(z.state), everything); d != "" {
			t.Fatalf("never at rest (-) and woken (+):\n%s", d)
		}
		rested, woken = rested+z.rested, woken+z.woken
	})
	if rested < 100 || woken < 100 || refused == 0 {
		t.Errorf("%d went to rest, %d woke, %d refused: the test compares little", rested, woken, refused)
	}
	t.Logf("%d went to rest, %d woke, %d refused", rested, woken, refused)
}
