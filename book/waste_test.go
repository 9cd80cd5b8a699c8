package book_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"wetside/book"
	"wetside/trade/process"
)

// wasteFact draws what can be done with waste cans and said of drains.
func wasteFact(t *rapid.T, volume string) book.Body {
	can := rapid.SampledFrom([]string{"can1", "can2"}).Draw(t, "can")
	switch rapid.IntRange(0, 4).Draw(t, "waste fact") {
	case 0:
		return &book.WasteIn{Can: can, What: "fixer", Volume: volume, Ounce: book.USOunce}
	case 1:
		return &book.WasteIn{Can: can, PutBy: true}
	case 2:
		return &book.TakenAway{Can: can, By: "the depot", Document: "N 17"}
	case 3:
		return &book.TakenAway{Can: rapid.SampledFrom([]string{"", can}).Draw(t, "or none"), Volume: volume, Ounce: book.USOunce}
	default:
		return &book.Answered{Place: "home", Drain: "sewer", What: "developer", Answer: book.AuthorityIf, Words: "well thinned"}
	}
}

// can is one can as a test compares it.
type can struct {
	ID, Level string
	Parts     []string
	There     bool
}

func cans(s *book.State) []can {
	var all []can
	for _, c := range s.Waste() {
		one := can{ID: c.ID, Level: fmt.Sprintf("%.0f mL", c.Level().ML()), There: c.There}
		for i := range c.Now {
			p := &c.Now[i]
			one.Parts = append(one.Parts, fmt.Sprintf("%s%s %.0f", p.Of, p.Bath, p.Left().ML()))
		}
		all = append(all, one)
	}
	return all
}

// wasteJournal has a fixer, a developer, three baths of each and a can.
func wasteJournal(t *testing.T) *journal {
	t.Helper()
	j := newJournal(t)
	j.write(&book.Set{Part: book.RoomPart, As: []byte(`{"name":"x"}`)})
	j.write(&book.Set{Part: book.ProductPart, ID: "fix", As: []byte(`{"name":"fix","role":"fixer","form":"liquid"}`)})
	j.write(&book.Set{Part: book.ProductPart, ID: "dev", As: []byte(`{"name":"dev","role":"developer","form":"liquid"}`)})
	for i := range 3 {
		j.write(&book.Mixed{Bath: fmt.Sprint("f", i), Product: "fix", Dilution: "1+4", Volume: "2 L"})
	}
	j.write(&book.Mixed{Bath: "d0", Product: "dev", Dilution: "1+9", Volume: "1 L"})
	return j
}

func (j *journal) later(hours int) { j.author.Now = j.author.Now.Add(time.Duration(hours) * time.Hour) }

func (j *journal) away(bath, can, volume string) string {
	j.later(1)
	return j.write(&book.Disposed{Bath: bath, Leaving: book.Leaving{To: book.ToCollected, Can: can, Volume: volume}})
}

// A bath goes into a can, an old entry that names none is put by apart until somebody says where, and who fetches takes all
// or a part. All of it can be taken back.
func TestWasteCan(t *testing.T) {
	j := wasteJournal(t)
	if got := cans(j.state); len(got) > 0 {
		t.Errorf("with no can: %+v", got)
	}
	old := j.away("f0", "", "") // as books until now say it
	want := []can{{"", "2000 mL", []string{"fixerf0 2000"}, false}}
	check := func(when string) {
		t.Helper()
		if d := cmp.Diff(want, cans(j.state)); d != "" {
			t.Errorf("%s (-want +got):\n%s", when, d)
		}
	}
	check("put by before there was a can")
	j.write(&book.Set{Part: book.CanPart, ID: "can1", As: []byte(`{"name":"grey can","holds":"25 L","takes":"fixer"}`)})
	want = append(want, can{"can1", "0 mL", nil, true})
	check("a can stands there")
	j.later(1)
	named := j.write(&book.WasteIn{Can: "can1", PutBy: true})
	want = []can{{"can1", "2000 mL", []string{"fixerf0 2000"}, true}}
	check("it was in that can")
	j.away("f1", "can1", "1.5 L")
	j.later(1)
	j.write(&book.WasteIn{Can: "can1", What: "fixer", Volume: "500 mL"})
	want[0] = can{"can1", "4000 mL", []string{"fixerf0 2000", "fixerf1 1500", "fixer 500"}, true}
	check("three parts")
	j.later(1)
	part := j.write(&book.TakenAway{Can: "can1", Volume: "1 L"})
	want[0] = can{"can1", "3000 mL", []string{"fixerf0 1500", "fixerf1 1125", "fixer 375"}, true}
	check("a quarter of it was taken away")
	j.later(1)
	all := j.write(&book.TakenAway{Can: "can1", By: "the depot", Document: "N 17"})
	want[0] = can{"can1", "0 mL", nil, true}
	check("all was taken away")
	moves := j.state.Waste()[0].Moves
	if last := moves[len(moves)-1]; last.Taken == nil || last.Taken.Document != "N 17" || len(last.With) != 3 || last.With[0].Share != 0.75 {
		t.Errorf("the last fetching is %+v", last)
	}
	for _, entry := range []string{all, part, named} {
		if _, err := j.takeBack(entry); err != nil {
			t.Fatal(err)
		}
	}
	want = []can{{"", "2000 mL", []string{"fixerf0 2000"}, false}, {"can1", "2000 mL", []string{"fixerf1 1500", "fixer 500"}, true}}
	check("all that was taken back")
	if _, err := j.takeBack(old); err != nil {
		t.Fatal(err)
	}
	want = want[1:]
	check("it never went")
	j.write(&book.Removed{Part: book.CanPart, ID: "can1"})
	want[0].There = false
	check("the can is gone, and what is told of it stays")
	if got := j.state.Waste()[0].Can; got.Name != "grey can" || got.Takes != process.Fixer {
		t.Errorf("a can that is gone is %+v", got)
	}
}

// What goes against sense is written down all the same: a developer among fixers, more taken than there was.
func TestWasteIsNeverRefused(t *testing.T) {
	j := wasteJournal(t)
	j.away("d0", "can9", "")
	j.later(1)
	j.write(&book.TakenAway{Can: "can9", Volume: "3 L"})
	got := j.state.Waste()
	if len(got) != 1 || !got[0].Spilt || got[0].Level() != 0 || got[0].Moves[0].In.Of != process.Developer {
		t.Errorf("the can is %+v", got)
	}
}

func TestAnswersAreKept(t *testing.T) {
	j := wasteJournal(t)
	j.write(&book.Answered{Place: "home", Drain: "sewer", What: "developer", Answer: book.AuthorityIf, Words: "well thinned", Office: "water office"})
	j.later(1)
	no := j.write(&book.Answered{Place: "home", Drain: "septic", What: "stop bath", Answer: book.AuthorityNo})
	if got := j.state.Answers(); len(got) != 2 || got[0].Of != process.Developer || got[0].Words.Words != "well thinned" || got[1].Of != process.StopBath {
		t.Errorf("the answers are %+v", got)
	}
	if _, err := j.takeBack(no); err != nil {
		t.Fatal(err)
	}
	if got := j.state.Answers(); len(got) != 1 {
		t.Errorf("with one taken back: %+v", got)
	}
}
