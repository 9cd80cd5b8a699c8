package cli_test

import (
	"context"
	"errors"
	"strconv"
	"time"

	"github.com/google/uuid"

	"wetside/book"
	"wetside/internal/clibook"
)

// washed writes into the book that a batch was washed and tested, as at the sink: moment, batch, so many 8×10, material,
// way, minutes, and what a drop for residual thiosulfate showed ten minutes later.
func washed(ctx context.Context, args []string) error {
	at, err := time.Parse("2006-01-02 15:04", args[0])
	if err != nil {
		return err
	}
	sheets, err := strconv.Atoi(args[2])
	if err != nil {
		return err
	}
	minutes, err := strconv.Atoi(args[5])
	if err != nil {
		return err
	}
	b, err := clibook.Open(ctx, "data", clock, uuid.NewString)
	if err != nil {
		return err
	}
	for _, x := range []struct {
		after int
		body  book.Body
	}{
		{0, &book.Washed{
			Batch: args[1], Step: book.WashStarted, Way: args[4],
			Put: &book.Prints{Material: args[3], Size: "8x10 in", Sheets: sheets},
		}},
		{minutes, &book.Washed{Batch: args[1], Step: book.WashDone}},
		{minutes + 10, &book.Tested{Batch: args[1], Test: book.HypoDrop, Result: args[6]}},
	} {
		state, err := b.State(ctx)
		if err != nil {
			return err
		}
		if _, err = b.Write(ctx, at.Add(time.Duration(x.after)*time.Minute), state.Position(), x.body); err != nil {
			return errors.Join(err, b.Close())
		}
	}
	return b.Close()
}
