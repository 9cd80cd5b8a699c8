package upkeep

import (
	"fmt"
	"io"
	"strconv"

	"wetside/store"
	"wetside/trade/quantity"
	"wetside/words"
)

// Telling returns what tells a change of the books' form, a line each: first the backup that was made before, then each
// statement that is done.
func Telling(w io.Writer) func(store.Change) {
	var v *words.Voice
	return func(c store.Change) {
		if v == nil {
			var err error
			if v, err = words.New("en", quantity.Metric, quantity.OunceUS); err != nil {
				return
			}
			if c.Kept != "" {
				_, _ = fmt.Fprintf(w, "wetside: %s\n", v.Tell("change.kept", "Path", c.Kept).Text())
			}
		}
		if c.From == 0 {
			return // a new file
		}
		_, _ = fmt.Fprintf(w, "wetside: %s\n", v.Tell("change.step", "From", strconv.FormatInt(c.From, 10),
			"To", strconv.FormatInt(c.To, 10), "Done", strconv.Itoa(c.Done), "Of", strconv.Itoa(c.Of)).Text())
	}
}
