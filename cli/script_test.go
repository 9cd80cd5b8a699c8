package cli_test

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/rogpeppe/go-internal/testscript"

	"wetside/ahead"
	"wetside/book"
	"wetside/cli"
	"wetside/darkroom"
	"wetside/darkroom/example"
	"wetside/draw/label"
	"wetside/internal/clibook"
	"wetside/internal/doors"
	"wetside/internal/upkeep"
	"wetside/plan"
	"wetside/sheet"
	"wetside/words"
)

// clock is the moment at which all scripts run.
func clock() time.Time { return time.Date(2027, 2, 18, 15, 0, 0, 0, time.UTC) }

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"wetside": func() {
		os.Exit(cli.Run(context.Background(), cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}, os.Args[1:], cli.Parts{
			Completing: os.Getenv("COMP_LINE") != "",
			Version:    "test", Now: clock, DataDir: "data", Sheet: drawSheet, OpenBook: openBook, OpenDoors: openDoors,
			Baths: drawBaths, Tapes: drawTapes, WasteSheet: drawWaste, WasteTable: sheet.WasteCSV, Labels: drawLabels, Cards: drawCards, Calendar: writeCalendar, Upkeep: upkeep.Keeper{Now: clock, Told: upkeep.Telling(os.Stderr)},
		}))
	}, "mixed": func() {
		if err := mixed(context.Background(), os.Args[1:]); err != nil {
			_, _ = os.Stderr.WriteString(err.Error() + "\n")
			os.Exit(1)
		}
	}, "held": func() {
		os.Exit(held(context.Background(), os.Args[1:]))
	}, "spoil": func() {
		if err := spoil(os.Args[1], os.Args[2], os.Args[3]); err != nil {
			_, _ = os.Stderr.WriteString(err.Error() + "\n")
			os.Exit(1)
		}
	}, "washed": func() {
		if err := washed(context.Background(), os.Args[1:]); err != nil {
			_, _ = os.Stderr.WriteString(err.Error() + "\n")
			os.Exit(1)
		}
	}})
}

// doorsOf are the doors of a book that is closed with them.
type doorsOf struct {
	*doors.Doors
	book clibook.Book
}

func (d doorsOf) Close() error { return d.book.Close() }

func openDoors(ctx context.Context, at cli.Where) (cli.Keyholders, error) {
	b, err := clibook.OpenAt(ctx, at, clock, uuid.NewString)
	if err != nil {
		return nil, err
	}
	stolen, err := doors.OpenStolen(at.Stolen)
	if err != nil {
		return nil, errors.Join(err, b.Close())
	}
	return doorsOf{doors.New(doors.Config{Store: b.Store, Room: b.Room, Now: clock, NewID: uuid.NewString, Stolen: stolen}), b}, nil
}

// mixed writes into the book that a bath was mixed, as the pages do: moment, id, product, dilution, volume, tray, place, and how
// well the moment is known.
func mixed(ctx context.Context, args []string) error {
	at, err := time.Parse("2006-01-02 15:04", args[0])
	if err != nil {
		return err
	}
	b, err := clibook.Open(ctx, "data", clock, uuid.NewString)
	if err != nil {
		return err
	}
	state, err := b.State(ctx)
	if err != nil {
		return err
	}
	f, ids := state.File(nil)
	body := &book.Mixed{Bath: args[1], Dilution: args[3], Volume: args[4], Ounce: book.USOunce, Place: darkroom.Bath(args[6])}
	if len(args) > 7 {
		body.Made = book.Made(args[7])
	}
	for i, p := range f.Shelf.Products {
		if p.Name == args[2] {
			body.Product = ids.Products[i]
		}
	}
	for i, t := range f.Bench.Trays {
		if t.Name == args[5] {
			body.Tray = ids.Trays[i]
		}
	}
	_, err = b.Write(ctx, at, state.Position(), body)
	return errors.Join(err, b.Close())
}

func openBook(ctx context.Context, at cli.Where) (cli.Book, error) {
	b, err := clibook.OpenPassing(ctx, at, clock, uuid.NewString, upkeep.Telling(os.Stderr))
	if err != nil {
		return nil, err
	}
	return b, nil
}

func drawSheet(w io.Writer, p plan.Plan, f darkroom.File) error {
	v, err := drawVoice(f)
	if err != nil {
		return err
	}
	return sheet.Mix(w, v, p, f)
}

func drawBaths(w io.Writer, r ahead.Report, f darkroom.File) error {
	v, err := drawVoice(f)
	if err != nil {
		return err
	}
	return sheet.Baths(w, v, r, f)
}

func drawTapes(w io.Writer, r ahead.Report, f darkroom.File) error {
	v, err := drawVoice(f)
	if err != nil {
		return err
	}
	return sheet.Tapes(w, v, r, f, nil)
}

func drawCards(w io.Writer, p plan.Plan, r ahead.Report, f darkroom.File) error {
	v, err := drawVoice(f)
	if err != nil {
		return err
	}
	return sheet.Cards(w, v, p, r, f)
}

func writeCalendar(w io.Writer, all []plan.Dated, r ahead.Report, f darkroom.File) error {
	v, err := drawVoice(f)
	if err != nil {
		return err
	}
	return sheet.Calendar(w, v, all, r, f)
}

func drawLabels(w io.Writer, all []label.Label, on label.Stock, start int) error {
	return sheet.Labels(w, all, on, start, clock())
}

func drawWaste(w io.Writer, y ahead.WasteYear, f darkroom.File) error {
	v, err := drawVoice(f)
	if err != nil {
		return err
	}
	return sheet.Waste(w, v, y, f)
}

func drawVoice(f darkroom.File) (*words.Voice, error) {
	return words.New(f.Darkroom.Language, f.Darkroom.Units, f.Darkroom.Ounce, words.Zone(time.UTC))
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script", RequireExplicitExec: true, RequireUniqueNames: true,
		UpdateScripts: os.Getenv("UPDATE") != "",
		Setup: func(e *testscript.Env) error {
			return os.WriteFile(filepath.Join(e.WorkDir, "example.yaml"), example.YAML(clock()), 0o600)
		},
	})
}
