package main

import (
	"context"
	"fmt"
	"time"

	"wetside/book"
	"wetside/darkroom"
	"wetside/internal/webbook"
	"wetside/plan"
	"wetside/trade/process"
)

// play mixes the evening's baths and puts prints of three invented people into the sink.
func play(ctx context.Context, b webbook.Book, now time.Time) error {
	a := &book.Author{Device: "picture", Now: now.Add(-time.Hour), NewID: b.NewID}
	bodies, baths, err := mixing(ctx, b, now)
	if err != nil {
		return err
	}
	people := []string{"Mo", "Lu", "Ada"}
	for i, name := range people {
		if err := b.Store.PutPerson(ctx, b.Room, book.Person{ID: fmt.Sprint("p", i), Name: name}); err != nil {
			return err
		}
	}
	bodies = append(bodies, &book.EveningOpened{Session: "s1"})
	if err := write(ctx, b, a, bodies...); err != nil {
		return err
	}
	for i, way := range []struct {
		of    int
		began time.Duration
		at    string
		since time.Duration
		lasts string
	}{
		{2, 170 * time.Second, "second_fix", 28 * time.Second, "60 s"},
		{1, 110 * time.Second, "fix", 46 * time.Second, "60 s"},
		{0, 21 * time.Second, "develop", 21 * time.Second, "120 s"},
	} {
		id := fmt.Sprint("print", i)
		a.Now = now.Add(-way.began)
		start := &book.PrintStarted{
			Print: id, Of: fmt.Sprint("p", way.of), Session: "s1",
			Prints: book.Prints{Material: "FB paper", Size: "11x14 in", Sheets: 1},
			At:     book.At{Step: "develop", Bath: baths["develop"], For: "120 s", Drain: "10 s"},
		}
		if err := write(ctx, b, a, start); err != nil {
			return err
		}
		if way.at == "develop" {
			continue
		}
		a.Now = now.Add(-way.since)
		if err := write(ctx, b, a, &book.PrintMoved{Print: id, At: book.At{Step: way.at, Bath: baths[way.at], For: way.lasts, Drain: "10 s"}}); err != nil {
			return err
		}
	}
	return nil
}

func write(ctx context.Context, b webbook.Book, a *book.Author, bodies ...book.Body) error {
	var entries []book.Entry
	for _, body := range bodies {
		e, err := a.Write(body)
		if err != nil {
			return err
		}
		entries = append(entries, e)
	}
	return b.Append(ctx, entries, nil)
}

// mixing is what mixes every bath of the plan, and the baths of the paper by their steps.
func mixing(ctx context.Context, b webbook.Book, now time.Time) (bodies []book.Body, baths map[string]string, err error) {
	state, err := b.State(ctx)
	if err != nil {
		return nil, nil, err
	}
	f, ids := state.File(nil)
	p, err := plan.Make(ctx, plan.Request{File: f, Now: now})
	if err != nil {
		return nil, nil, err
	}
	baths = map[string]string{}
	for _, x := range p.Baths {
		m := &book.Mixed{Bath: b.NewID(), Dilution: x.Words, Volume: x.Volume.String()}
		for i, product := range f.Shelf.Products {
			if product.Name == x.Product {
				m.Product = ids.Products[i]
			}
		}
		for i, tray := range f.Bench.Trays {
			if tray.Name == x.Tray {
				m.Tray = ids.Trays[i]
			}
		}
		for i, tank := range f.Bench.Tanks {
			if tank.Name == x.Tank {
				m.Tank = ids.Tanks[i]
			}
		}
		switch {
		case x.Tank != "":
			m.For = book.ServesFilm
		case x.Step == process.Fix:
			m.Place = darkroom.BathFirst
		case x.Step == process.SecondFix:
			m.Place, m.Pair = darkroom.BathSecond, baths["fix"]
		}
		if m.Product == "" {
			continue
		}
		if m.For == book.ServesAny {
			baths[x.Step.String()] = m.Bath
		}
		bodies = append(bodies, m)
	}
	return bodies, baths, nil
}
