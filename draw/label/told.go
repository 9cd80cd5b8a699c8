package label

import (
	"strconv"
	"strings"

	"wetside/draw/scene"
	"wetside/words"
)

// Small says that a label does not go on a stock, and which of those on its paper and off rolls take it.
func Small(v *words.Voice, l Label, on Stock, paper string) string {
	return v.Tell("on_label.small", "Label", l.Title, "Size", on.Name, "Fits", Names(l.Fits(StocksOn(paper)))).Text()
}

// Names lists the names of stocks.
func Names(all []Stock) string {
	names := make([]string, len(all))
	for i, s := range all {
		names[i] = s.Name
	}
	return strings.Join(names, ", ")
}

// Remarks says, before it is printed, what of a label had no room on a stock, which letters the printed face lacks, and
// whether the stock is smaller than the standard wants. It is nil for a label that does not fit.
func Remarks(v *words.Voice, l Label, on Stock) (out []string) {
	fitted, err := l.Printable().Fit(on.Label, scene.Light)
	if err != nil {
		return nil
	}
	tell := func(key string, pairs ...string) {
		out = append(out, v.Tell("on_label."+key, append(pairs, "Size", on.Name)...).Text())
	}
	if lacks := l.Lacks(); len(lacks) > 0 {
		tell("lacks", "Letters", strings.Join(strings.Split(string(lacks), ""), " "))
	}
	if fitted.Without > 0 {
		tell("without", "N", strconv.Itoa(fitted.Without))
	}
	if fitted.NoCode {
		tell("no_code")
	}
	if fitted.NoTally {
		tell("no_tally")
	}
	if l.Below(on.Label) {
		tell("below", "Wants", l.Wants.String())
	}
	return out
}
