package draw

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"wetside/trade/measure"
	"wetside/trade/quantity"
)

// ErrModel is wrapped by every error about a model that makes no picture: a mark that is not on the scale, layers
// that do not rise, a tray without size.
var ErrModel = errors.New("cannot be drawn")

// A Content is what is in a vessel.
type Content uint8

// The contents. Only Concentrate is hatched.
const (
	Water Content = iota
	Concentrate
	MadeUp
)

// ContentOf returns how what a step handles is drawn.
func ContentOf(w measure.What) Content {
	switch w {
	case measure.Chemical, measure.PartA, measure.PartB:
		return Concentrate
	case measure.Made, measure.Mix:
		return MadeUp
	case measure.Water:
	}
	return Water
}

// A Layer is what stands in a vessel, up to a level.
type Layer struct {
	What Content
	To   quantity.Volume
}

// A Reading is the picture of one act of measuring: a vessel, what is in it, and the mark to pour to.
type Reading struct {
	Vessel measure.Vessel
	Scale  int            // the scale in use
	Mark   quantity.Ratio // where to stop, in that scale's unit; on a balance grams
	Half   bool           // Mark lies half-way between two marks
	Before []Layer        // what is in it already, from the bottom up
	Pour   Content        // what is poured now
	// About is a level that no mark rules, "about three quarters"; where it is set, Mark and Half mean nothing.
	About quantity.Volume
	Say   ReadingWords
}

// ReadingWords are the words in the picture of a reading.
type ReadingWords struct {
	Label string   // the picture in words, for those who do not see it
	Units []string // of each scale, as printed on it: "mL", "fl oz"
	Stop  string   // beside the mark: "stop here"; for a level without a mark "about 3/4"
	// Number writes a mark's number; nil: decimal, at most three places.
	Number func(quantity.Ratio) string
}

func (w ReadingWords) number(r quantity.Ratio) string {
	if w.Number != nil {
		return w.Number(r)
	}
	text := strconv.FormatFloat(r.Float(), 'f', 3, 64)
	return strings.TrimRight(strings.TrimRight(text, "0"), ".")
}

func (w ReadingWords) unit(scale int) string {
	if scale < len(w.Units) {
		return w.Units[scale]
	}
	return ""
}

// check refuses what makes no picture.
func (r Reading) check() error {
	switch {
	case r.Scale < 0 || r.Scale >= len(r.Vessel.Scales):
		return fmt.Errorf("%w: %s has no scale %d", ErrModel, r.Vessel.Name, r.Scale)
	case r.Vessel.Kind == measure.Balance && r.Mark.Sign() <= 0:
		return fmt.Errorf("%w: nothing to weigh on %s", ErrModel, r.Vessel.Name)
	case r.Vessel.Kind == measure.Balance:
		return nil
	}
	var below quantity.Volume
	for _, l := range r.Before {
		if l.To <= below {
			return fmt.Errorf("%w: layers in %s do not rise", ErrModel, r.Vessel.Name)
		}
		below = l.To
	}
	return nil
}

// level returns where this pour ends, in mL.
func (r Reading) level() float64 {
	if r.About > 0 {
		return r.About.ML()
	}
	return r.Mark.Float() * r.Vessel.Scales[r.Scale].Unit.Volume().ML()
}

// layers returns what is in the vessel after this pour, from the bottom up, as levels in mL.
func (r Reading) layers() []layer {
	var all []layer
	from, end := 0.0, r.level()
	for _, l := range r.Before {
		to := min(l.To.ML(), end)
		all = append(all, layer{l.What, from, to})
		from = to
	}
	return append(all, layer{r.Pour, from, end})
}

// A layer lies between two levels in mL.
type layer struct {
	what     Content
	from, to float64
}
