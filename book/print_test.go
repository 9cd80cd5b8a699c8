package book_test

import (
	"errors"
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/darkroom"
	"wetside/trade/process"
)

// after writes a body so many seconds after the evening's begin, by a device.
func (j *journal) after(seconds int, device string, b book.Body) string {
	j.author.Now, j.author.Device = evening.Add(time.Duration(seconds)*time.Second), device
	return j.write(b)
}

func started(id, of string) *book.PrintStarted {
	return &book.PrintStarted{
		Print: id, Of: of, Session: "s1", Prints: book.Prints{Material: "FB paper", Size: "8x10 in", Sheets: 1},
		At: book.At{Step: "develop", Bath: "dev", For: "2 min", Drain: "10 s"},
	}
}

func moved(id, step, bath string) *book.PrintMoved {
	return &book.PrintMoved{Print: id, At: book.At{Step: step, Bath: bath, For: "60 s", Drain: "10 s"}}
}

// TestWayOfAPrint follows one print: it counts once in every bath that it came into, as soon as it is there, and undo takes
// it out of the last.
func TestWayOfAPrint(t *testing.T) {
	j := sink(t)
	j.at(0, &book.Mixed{Bath: "dev", Product: "dev", Dilution: "1+9", Volume: "2 L", Tray: "white"})
	j.at(0, fixer("fix1", darkroom.BathOne, ""))
	j.after(10, "d1", started("p", "ada"))
	if got := mustBath(t, j, "dev").Totals; len(got) != 1 || got[0].Counted.Sheets != 1 {
		t.Fatalf("in the developer: %+v", got)
	}
	j.after(130, "d1", moved("p", "stop", ""))
	again := j.after(131, "d2", moved("p", "stop", "")) // somebody else taps it, too
	into := j.after(161, "d1", moved("p", "fix", "fix1"))
	p, ok := j.state.Print("p")
	if !ok || p.Of != "ada" || len(p.Stays) != 3 || p.Last.Entry != into || !p.Stays[1].Since.Equal(evening.Add(130*time.Second)) {
		t.Fatalf("the print is %+v", p)
	}
	lift, due, timed := p.Now().Due()
	if !timed || !due.Equal(evening.Add(221*time.Second)) || !lift.Equal(evening.Add(211*time.Second)) {
		t.Errorf("lift %v, due %v", lift, due)
	}
	fix := mustBath(t, j, "fix1")
	if len(fix.Events) != 1 || cmp.Diff([]string{"dev", "fix1"}, fix.Events[0].Did.Baths()) != "" || fix.Events[0].By != "ada" {
		t.Errorf("the fixer's life is %+v", fix.Events)
	}
	mustTakeBack(t, j, into)
	if got := mustBath(t, j, "fix1").Events; len(got) != 0 {
		t.Errorf("taken back out of the fixer: %+v", got)
	}
	mustTakeBack(t, j, again)
	if p, _ = j.state.Print("p"); p.Now().Step != process.Stop || len(j.state.Prints()) != 1 {
		t.Errorf("it lies in %v, want stop", p.Now().Step)
	}
	// A longer time is the same stay.
	j.after(170, "d1", &book.PrintMoved{Print: "p", At: book.At{Step: "stop", For: "90 s"}})
	if p, _ = j.state.Print("p"); len(p.Stays) != 2 || p.Now().For != 90*time.Second || !p.Now().Since.Equal(evening.Add(130*time.Second)) {
		t.Errorf("a longer stay: %+v", p.Now())
	}
	out := j.after(300, "d1", &book.PrintLeft{Print: "p", Abandoned: true})
	if p, _ = j.state.Print("p"); p.Left == nil || !p.Left.Abandoned || p.Left.Entry != out || len(j.state.Prints()) != 0 {
		t.Errorf("left: %+v", p)
	}
	if got := j.state.PrintsOf("s1"); len(got) != 1 {
		t.Errorf("of the evening: %+v", got)
	}
}

// TestOddPrints goes through what should not happen, does, and is kept.
func TestOddPrints(t *testing.T) {
	odd := func(j *journal, id string) []book.PrintOddKind {
		p, _ := j.state.Print(id)
		var kinds []book.PrintOddKind
		for _, o := range p.Odd {
			kinds = append(kinds, o.Kind)
		}
		return kinds
	}
	for _, c := range []struct {
		name  string
		do    func(j *journal)
		want  []book.PrintOddKind
		loads int // through the developer
	}{
		{"moved, never started", func(j *journal) { j.after(5, "d1", moved("p", "stop", "")) }, []book.PrintOddKind{book.NeverStarted}, 0},
		{"moved before it was started, by a clock that is wrong", func(j *journal) {
			j.after(5, "d2", moved("p", "stop", ""))
			j.after(9, "d1", started("p", ""))
		}, nil, 1},
		{"back", func(j *journal) {
			j.after(5, "d1", started("p", ""))
			j.after(9, "d1", moved("p", "fix", "fix1"))
			j.after(12, "d1", moved("p", "stop", ""))
		}, []book.PrintOddKind{book.WentBack}, 1},
		{"moved after it left", func(j *journal) {
			j.after(5, "d1", started("p", ""))
			j.after(9, "d1", &book.PrintLeft{Print: "p"})
			j.after(12, "d1", moved("p", "stop", ""))
		}, []book.PrintOddKind{book.CameBack}, 1},
		{"started twice", func(j *journal) {
			j.after(5, "d1", started("p", ""))
			j.after(6, "d2", started("p", ""))
		}, []book.PrintOddKind{book.StartedTwice}, 1},
		{"the start taken back", func(j *journal) {
			id := j.after(5, "d1", started("p", ""))
			j.after(6, "d1", moved("p", "stop", ""))
			mustTakeBack(t, j, id)
		}, []book.PrintOddKind{book.NeverStarted}, 0},
		{"through a bath that is gone", func(j *journal) {
			j.after(4, "d1", &book.Disposed{Bath: "dev"})
			j.after(5, "d1", started("p", ""))
		}, nil, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := sink(t)
			j.at(0, &book.Mixed{Bath: "dev", Product: "dev", Dilution: "1+9", Volume: "2 L", Tray: "white"})
			c.do(j)
			if d := cmp.Diff(c.want, odd(j, "p")); d != "" {
				t.Errorf("odd (-want +got):\n%s", d)
			}
			if got := len(loadsOf(mustBath(t, j, "dev"))); got != c.loads {
				t.Errorf("%d loads through the developer, want %d", got, c.loads)
			}
		})
	}
}

func loadsOf(b book.Bath) []book.Load {
	var all []book.Load
	for _, e := range b.Events {
		if l, ok := e.Did.(book.Load); ok {
			all = append(all, l)
		}
	}
	return all
}

// TestPrintsOfABatch: prints that come together in holding are one batch, and the last one in starts its wash anew.
func TestPrintsOfABatch(t *testing.T) {
	j := sink(t)
	for i, id := range []string{"p", "q"} {
		j.after(10*i, "d1", started(id, ""))
		j.after(10*i+100, "d1", &book.PrintMoved{Print: id, At: book.At{Step: "hold", Batch: "b1"}})
	}
	j.after(400, "d1", &book.Washed{Batch: "b1", Step: book.WashStarted})
	j.after(500, "d1", started("r", ""))
	j.after(600, "d1", &book.PrintMoved{Print: "r", At: book.At{Step: "wash", Batch: "b1", For: "30 min"}})
	got := j.state.Batches()
	if len(got) != 1 || len(got[0].Prints) != 3 || got[0].Wash == nil || !got[0].Wash.Clock.Equal(evening.Add(600*time.Second)) ||
		!got[0].Wash.Started.Equal(evening.Add(400*time.Second)) || len(got[0].Findings) != 0 {
		t.Fatalf("batches %+v", got)
	}
	p, _ := j.state.Print("r")
	mustTakeBack(t, j, p.Last.Entry)
	if got = j.state.Batches(); len(got[0].Prints) != 2 || !got[0].Wash.Clock.Equal(evening.Add(400*time.Second)) {
		t.Errorf("the last one taken out again: %+v", got[0].Wash)
	}
}

// TestBadPrints: what can't be read is told at its field, and nothing is written.
func TestBadPrints(t *testing.T) {
	for _, c := range []struct {
		body  book.Body
		field string
		why   book.FieldWhy
	}{
		{&book.PrintMoved{At: book.At{Step: "stop"}}, "print", book.FieldMissing},
		{&book.PrintMoved{Print: "p"}, "step", book.FieldMissing},
		{&book.PrintMoved{Print: "p", At: book.At{Step: "bucket"}}, "step", book.FieldNoWord},
		{&book.PrintMoved{Print: "p", At: book.At{Step: "stop", For: "soon"}}, "for", book.FieldUnreadable},
		{&book.PrintMoved{Print: "p", At: book.At{Step: "stop", For: "40 h"}}, "for", book.FieldTooMuch},
		{&book.PrintMoved{Print: "p", At: book.At{Step: "stop", Bath: "a b"}}, "bath", book.FieldNoID},
		{&book.PrintStarted{Print: "p", At: book.At{Step: "develop"}, Prints: book.Prints{Material: "RC paper", Size: "8x10 in"}}, "sheets", book.FieldNothing},
		{&book.PrintLeft{}, "print", book.FieldMissing},
		{&book.EveningOpened{}, "session", book.FieldMissing},
		{&book.Ticked{Session: "s", List: "middle", Item: "fan"}, "list", book.FieldNoWord},
		{&book.EveningJoined{Session: "s"}, "person", book.FieldMissing},
	} {
		j := sink(t)
		e, err := j.author.Write(c.body)
		if err != nil {
			t.Fatal(err)
		}
		bad, ok := errors.AsType[*book.FieldError](j.try(e))
		if !ok || bad.Field != c.field || bad.Why != c.why {
			t.Errorf("%+v: %v, want %s at %s", c.body, bad, c.why, c.field)
		}
	}
}

// TestAnyOrder sends the taps of three devices into the book in two orders, each device's own in order: the state is the
// same, whatever was moved, moved back, abandoned or taken back.
func TestAnyOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		devices := tapsOfDevices(t)
		one, two := interleaved(t, devices...), interleaved(t, devices...)
		a, b := fold(t, append(shelf(), one...)), fold(t, append(shelf(), two...))
		if d := cmp.Diff(sinkOf(a), sinkOf(b), everything); d != "" {
			t.Fatalf("two orders differ:\n%s", d)
		}
		for _, e := range sinkOf(a).Baths {
			for _, l := range loadsOf(e) {
				if len(l.Baths()) == 0 {
					t.Fatalf("a load through nothing in %s", e.ID)
				}
			}
		}
	})
}

// A sinkLook is what is the same in any order of arrival.
type sinkLook struct {
	Prints   []book.Print
	Of       []book.Print
	Baths    []book.Bath
	Batches  []book.Batch
	Evenings []book.Evening
}

func sinkOf(s *book.State) sinkLook {
	return sinkLook{s.Prints(), s.PrintsOf("s1"), s.Baths(), s.Batches(), s.Evenings()}
}

// tapsOfDevices draws what three devices tap, by clocks that are up to five minutes wrong; a correction takes back what
// the same device said before.
func tapsOfDevices(t *rapid.T) [][]book.Entry {
	all := make([][]book.Entry, 3)
	for d := range all {
		a := &book.Author{Device: fmt.Sprintf("d%d", d), NewID: counting(fmt.Sprintf("d%d-", d))}
		wrong := rapid.IntRange(-300, 300).Draw(t, "clock")
		at := 0
		for range rapid.IntRange(0, 9).Draw(t, "taps") {
			at += rapid.IntRange(0, 60).Draw(t, "wait")
			a.Now = evening.Add(time.Duration(at+wrong) * time.Second)
			if n := len(all[d]); n > 0 && rapid.IntRange(0, 5).Draw(t, "undo") == 0 {
				e, err := a.TakeBack(all[d][rapid.IntRange(0, n-1).Draw(t, "which")].ID, "")
				if err != nil {
					t.Fatal(err)
				}
				all[d] = append(all[d], e)
				continue
			}
			all[d] = append(all[d], written(a, anyTap(t)))
		}
	}
	return all
}

func anyTap(t *rapid.T) book.Body {
	id := rapid.SampledFrom([]string{"p", "q"}).Draw(t, "print")
	switch rapid.IntRange(0, 7).Draw(t, "tap") {
	case 0, 1:
		return started(id, "")
	case 2:
		return &book.PrintLeft{Print: id, Abandoned: rapid.Bool().Draw(t, "abandoned")}
	case 3:
		return &book.PrintMoved{Print: id, At: book.At{Step: "hold", Batch: rapid.SampledFrom([]string{"b1", "b2"}).Draw(t, "batch")}}
	case 4:
		return &book.EveningOpened{Session: "s1"}
	case 5:
		return &book.Ticked{Session: "s1", List: book.OpeningList, Item: "fan", Undone: rapid.Bool().Draw(t, "undone")}
	default:
		return moved(id, rapid.SampledFrom([]string{"stop", "fix"}).Draw(t, "step"), rapid.SampledFrom([]string{"", "fix1"}).Draw(t, "bath"))
	}
}

// TestOneInstant: what one device says within one instant stands in the order in which it was said, two prints among it.
func TestOneInstant(t *testing.T) {
	for range 20 { // the order of a map is another each time
		j := sink(t)
		j.after(10, "d1", started("b", ""))
		j.after(10, "d1", through(1, "RC paper", "dev"))
		j.after(10, "d1", started("a", ""))
		var order []string
		for _, e := range j.state.Events() {
			order = append(order, e.Did.(book.Load).Said.Material)
		}
		if d := cmp.Diff([]string{"FB paper", "RC paper", "FB paper"}, order); d != "" {
			t.Fatalf("(-want +got):\n%s", d)
		}
	}
}
