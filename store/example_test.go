package store_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/store"
)

// A darkroom's file goes into a new book, a bath is mixed from its stop bath, and the file comes out again.
func Example() {
	folder, err := os.MkdirTemp("", "wetside")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer func() { _ = os.RemoveAll(folder) }()
	ctx, evening := context.Background(), time.Date(2026, time.December, 3, 18, 30, 0, 0, time.UTC)
	s, err := store.Open(ctx, store.Config{
		Path: filepath.Join(folder, "wetside.db"), Now: func() time.Time { return evening },
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	defer func() { _ = s.Close() }()

	fmt.Println(ropewalk(ctx, s, evening))
	// Output:
	// 4 entries imported, 0 the second time
	// left: 0.97 L
	// <nil>
}

// ropewalk does the work of the example.
func ropewalk(ctx context.Context, s *store.Store, now time.Time) error {
	file, err := darkroom.Read([]byte(`
darkroom: {name: Ropewalk Darkroom}
bench: {trays: [{name: red, for: stop bath}]}
shelf:
  products: [{name: print stop, role: stop bath, form: liquid}]
  lots: [{product: print stop, holds: 1 L, opened: 2026-11-02}]
`))
	if err != nil {
		return err
	}
	if err := s.Create(ctx, "ropewalk"); err != nil {
		return err
	}
	a := &book.Author{By: "p1", Now: now, NewID: counter("entry-")}
	first, err := s.Import(ctx, "ropewalk", file, a, book.ImportOptions{})
	if err != nil {
		return err
	}
	second, err := s.Import(ctx, "ropewalk", file, a, book.ImportOptions{})
	if err != nil {
		return err
	}
	fmt.Printf("%d entries imported, %d the second time\n", len(first.Entries), len(second.Entries))

	state, err := s.State(ctx, "ropewalk")
	if err != nil {
		return err
	}
	_, ids := state.File(nil)
	mixed, err := a.Write(&book.Mixed{
		Bath: "bath-1", Product: ids.Products[0], Tray: ids.Trays[0], Dilution: "1+31", Volume: "1 L",
		From: []book.Draw{{Lot: ids.Lots[0], Amount: "30 mL"}},
	})
	if err != nil {
		return err
	}
	if _, err := s.Append(ctx, "ropewalk", []book.Entry{mixed}, nil); err != nil {
		return err
	}
	file, err = s.Export(ctx, "ropewalk")
	if err != nil {
		return err
	}
	fmt.Println("left:", file.Shelf.Lots[0].Left.Text)
	return nil
}
