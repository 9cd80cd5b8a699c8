package store_test

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/store"
)

// The five main flows, written as the pages write them: begin with the example, mix baths, work and test them, an evening with
// prints, collect and close. Ids are the same in every run, so that all of it can be sent again.

// A flow is somebody at work. It does not stop at what is refused, as phones don't.
type flow struct {
	store *store.Store
	ids   map[string]string // of what the example brings, by kind and name
	made  int
	did   func(stored []book.Entry, err error)
	broke error // of the flow itself
}

// runFlows does all five. did hears what became of each step.
func runFlows(ctx context.Context, s *store.Store, did func([]book.Entry, error)) error {
	f := &flow{store: s, did: did}
	for _, one := range []func(context.Context){f.begin, f.mix, f.work, f.evening, f.close} {
		one(ctx)
	}
	return f.broke
}

func (f *flow) author(prefix string) *book.Author {
	n := 0
	return &book.Author{By: "ines", Device: "phone-1", Now: evening, NewID: func() string { n++; return fmt.Sprintf("%s-%03d", prefix, n) }}
}

// says makes an entry that says body.
func (f *flow) says(body book.Body) book.Entry {
	f.made++
	a := f.author(fmt.Sprintf("flow-%02d", f.made))
	a.Now = evening.Add(time.Duration(f.made) * time.Minute)
	e, err := a.Write(body)
	f.broke = errors.Join(f.broke, err)
	return e
}

// fact writes facts, all or none.
func (f *flow) fact(ctx context.Context, bodies ...book.Body) {
	var all []book.Entry
	for _, b := range bodies {
		all = append(all, f.says(b))
	}
	f.did(f.store.Append(ctx, "room", all, nil))
}

// taps writes facts, each by itself.
func (f *flow) taps(ctx context.Context, bodies ...book.Body) {
	var all []book.Entry
	for _, b := range bodies {
		all = append(all, f.says(b))
	}
	out, err := f.store.Each(ctx, "room", all)
	if err != nil {
		f.did(nil, err)
	}
	for _, o := range out {
		if o.Err != nil {
			f.did(nil, o.Err)
			continue
		}
		f.did([]book.Entry{o.Entry}, nil)
	}
}

// decides writes a decision on the book as it stands.
func (f *flow) decides(ctx context.Context, e book.Entry) {
	head, err := f.store.Head(ctx, "room")
	if err != nil {
		f.did(nil, err)
		return
	}
	f.did(f.store.Append(ctx, "room", []book.Entry{e}, &head.Position))
}

// beside writes a fact and what stands beside the book, both or neither, where it is not there yet.
func (f *flow) beside(ctx context.Context, body book.Body, put func(*store.Tx) error) {
	e := f.says(body)
	if _, err := f.store.Find(ctx, "room", e.ID); err == nil {
		return
	}
	var stored []book.Entry
	err := f.store.Write(ctx, func(tx *store.Tx) (err error) {
		if err := put(tx); err != nil {
			return err
		}
		stored, err = tx.Append(ctx, "room", []book.Entry{e}, nil)
		return err
	})
	if err != nil {
		stored = nil
	}
	f.did(stored, err)
}

// begin begins with the example.
func (f *flow) begin(ctx context.Context) {
	file, err := example.File(evening)
	if err != nil {
		f.broke = err
		return
	}
	im, err := book.Import(book.New("room", book.Upcasters()), book.People{}, file, f.author("example"), book.ImportOptions{})
	f.broke = errors.Join(f.broke, err)
	f.ids = map[string]string{}
	for _, e := range im.Entries {
		var body struct {
			ID, Lot string
			As      struct{ Name, Role, Product string }
		}
		f.broke = errors.Join(f.broke, json.Unmarshal([]byte(e.Body), &body))
		f.ids[string(e.Kind)+" "+body.As.Name+body.As.Product] = body.ID + body.Lot
		f.ids[string(e.Kind)+" "+body.As.Role] = body.ID
		f.ids[string(e.Kind)] = body.ID + body.Lot
	}
	f.did(nil, f.store.Create(ctx, "room"))
	if _, err := f.store.Find(ctx, "room", im.Entries[0].ID); err == nil {
		return // it was begun
	}
	done, err := f.store.Import(ctx, "room", file, f.author("example"), book.ImportOptions{})
	f.did(done.Entries, err)
}

// mix mixes what an evening needs.
func (f *flow) mix(ctx context.Context) {
	for _, m := range []*book.Mixed{
		{Bath: "dev", Product: f.ids["product.set developer"], Dilution: "1+9", Volume: "2 L"},
		{Bath: "stop", Product: f.ids["product.set stop bath"], Dilution: "1+19", Volume: "2 L"},
		{Bath: "fix", Product: f.ids["product.set fixer"], Dilution: "1+4", Volume: "2 L"},
		{Bath: "hold", Volume: "4 L", Use: book.Holding},
	} {
		m.Tray = f.ids["tray.set"]
		if m.Product != "" {
			m.From = []book.Draw{{Lot: f.ids["lot.received"], Amount: "100 mL"}}
		}
		f.fact(ctx, m)
	}
}

// work puts loads through the baths, and tests one.
func (f *flow) work(ctx context.Context) {
	through := []string{"dev", "stop", "fix", "hold"}
	f.fact(ctx, &book.Worked{Baths: through, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 4}})
	f.taps(ctx,
		&book.Worked{Baths: through, Prints: book.Prints{Material: "RC paper", Size: "5x7 in", Sheets: 2}},
		&book.Worked{Baths: through, Prints: book.Prints{Material: "FB paper", Size: "24x30 cm", Sheets: 1}},
		&book.Tested{Bath: "fix", Test: book.SilverStrip, Result: "1 g/L", Steps: []float64{0.5, 1, 1.5, 2, 3}},
		&book.ToppedUp{Bath: "dev", With: book.WithFresh, Volume: "200 mL"})
	wrong := f.says(&book.Worked{Baths: through, Prints: book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 40}})
	f.did(f.store.Append(ctx, "room", []book.Entry{wrong}, nil))
	if _, err := f.store.Find(ctx, "room", wrong.ID); err != nil {
		return // what is not there is not taken back
	}
	back, err := f.author("back").TakeBack(wrong.ID, "it was 4")
	f.broke = errors.Join(f.broke, err)
	f.decides(ctx, back)
}

// evening shares an evening, lets somebody join, and puts prints through.
func (f *flow) evening(ctx context.Context) {
	f.beside(ctx, &book.EveningOpened{Session: "s1", Shared: true}, func(tx *store.Tx) error {
		return tx.PutInvitation(ctx, "room", "s1", "RED-LAMP")
	})
	f.beside(ctx, &book.EveningJoined{Session: "s1", Person: "noor"}, func(tx *store.Tx) error {
		return errors.Join(tx.PutPerson(ctx, "room", book.Person{ID: "noor", Name: "Noor"}),
			tx.PutGuest(ctx, "room", "token-of-noor", store.Guest{Session: "s1", Person: "noor"}))
	})
	f.fact(ctx, &book.Ticked{Session: "s1", List: book.OpeningList, Item: "water"})
	paper := book.Prints{Material: "RC paper", Size: "8x10 in", Sheets: 1}
	f.taps(ctx,
		&book.PrintStarted{Print: "print1", Of: "noor", Session: "s1", Prints: paper, At: book.At{Step: "develop", Bath: "dev", For: "90 s"}},
		&book.PrintStarted{Print: "print2", Session: "s1", Prints: paper, At: book.At{Step: "develop", Bath: "dev", For: "90 s"}})
	f.taps(ctx, &book.PrintMoved{Print: "print1", At: book.At{Step: "stop", Bath: "stop", For: "30 s"}})
	f.taps(ctx, &book.PrintMoved{Print: "print1", At: book.At{Step: "fix", Bath: "fix", For: "60 s"}},
		&book.PrintLeft{Print: "print2", Abandoned: true})
	f.taps(ctx, &book.PrintMoved{Print: "print1", At: book.At{Step: "hold", Bath: "hold", Batch: "batch1"}})
	f.fact(ctx, &book.Washed{Batch: "batch1", Step: book.WashStarted}, &book.PrintLeft{Print: "print1"})
	f.beside(ctx, &book.Told{Session: "s1", Note: "note1"}, func(tx *store.Tx) error {
		return tx.PutNote(ctx, "room", "note1", "The fixer is nearly spent.")
	})
}

// close pours back, collects what is spent, and closes.
func (f *flow) close(ctx context.Context) {
	f.fact(ctx, &book.PouredBack{Bath: "stop", Into: darkroom.FullBottle, Volume: "1.9 L"})
	f.decides(ctx, f.says(&book.Disposed{Bath: "fix", Leaving: book.Leaving{To: "collected", Can: f.ids["can.set"], Volume: "1.8 L"}}))
	f.fact(ctx, &book.WasteIn{Can: f.ids["can.set"], What: "fixer", Volume: "500 mL"})
	f.decides(ctx, f.says(&book.EveningClosed{Session: "s1"}))
}

// tellFlows runs the flows in the child, and says what was acknowledged.
func tellFlows(ctx context.Context, s *store.Store) int {
	err := runFlows(ctx, s, func(stored []book.Entry, err error) {
		for _, e := range stored {
			fmt.Println("ack", e.ID, e.Position)
		}
		if err != nil {
			fmt.Println("failed", book.KeyOf(err))
		}
	})
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return 0
}
