package draw

import (
	"fmt"
	"math"
	"strconv"
)

// A Size is what a picture of a bath is drawn for: how wide it is, and how large its letters are.
type Size uint8

// The sizes, in the units of a scene.
const (
	Phone Size = iota // 358 wide, at the sink
	Desk              // 640 wide
	Wall              // 340 wide, a quarter of a page that is read from four metres, with letters to match
	Sheet             // 640 wide, meant for 170 mm of paper, where the smallest letters are 3 mm high
)

// SheetMM is how wide a picture of size Sheet is meant to stand on paper, in millimetres.
const SheetMM = 170.0

// width returns how wide a picture is.
func (s Size) width() float64 {
	switch s {
	case Desk, Sheet:
		return 640
	case Wall:
		return 340
	case Phone:
	}
	return 358
}

// letter returns the size of small letters.
func (s Size) letter() float64 {
	switch s {
	case Wall:
		return 19
	case Desk, Sheet:
		return 13
	case Phone:
	}
	return 12
}

// number returns the size of a number at a mark.
func (s Size) number() float64 { return s.letter() * 1.4 }

// stroke widens a line where the picture is seen from afar.
func (s Size) stroke(width float64) float64 {
	if s == Wall {
		return width * 1.5
	}
	return width
}

// A Sample is one point of a line: so many sheets or minutes, and how much there is then.
type Sample struct{ At, Amount float64 }

// A Forecast is what is to be expected after so many sheets: in eight baths of ten the amount lies between P10 and P90.
type Forecast struct{ At, P10, P50, P90 float64 }

// Ends are the two ends of a bath, counted from its first sheet on: nine baths in ten reach Safe; half of them Likely.
type Ends struct{ Safe, Likely float64 }

// finite refuses figures that are none, or below zero where they count something.
func finite(what string, counts ...float64) error {
	for _, c := range counts {
		if math.IsNaN(c) || math.IsInf(c, 0) || c < 0 {
			return fmt.Errorf("%w: %s of %g", ErrModel, what, c)
		}
	}
	return nil
}

// rising refuses samples that are no figures or go backwards.
func rising(what string, line []Sample) error {
	for i, s := range line {
		if math.IsNaN(s.Amount) || math.IsInf(s.Amount, 0) {
			return fmt.Errorf("%w: %s of %g", ErrModel, what, s.Amount)
		}
		if err := finite(what, s.At); err != nil {
			return err
		}
		if i > 0 && s.At < line[i-1].At {
			return fmt.Errorf("%w: %s goes backwards at %g", ErrModel, what, s.At)
		}
	}
	return nil
}

// whole writes a count of sheets: whole, rounded down, since part of a sheet is no sheet. What is nearer to the next
// whole number than the error of reckoning is that number.
func wholeSheets(count float64) string {
	return strconv.FormatFloat(math.Floor(count+1e-9), 'f', 0, 64)
}

// figure writes a tick's number with its places.
func figure(v float64, places int) string { return strconv.FormatFloat(v+0, 'f', places, 64) }

// amountAt reads a line at a place, straight between its samples; beyond its ends it goes on level.
func amountAt(line []Sample, at float64) float64 {
	for i, s := range line {
		switch {
		case s.At < at:
			continue
		case i == 0 || s.At == line[i-1].At:
			return s.Amount
		}
		before := line[i-1]
		return before.Amount + (s.Amount-before.Amount)*(at-before.At)/(s.At-before.At)
	}
	return line[len(line)-1].Amount
}

// upTo cuts a line off at a place.
func upTo(line []Sample, end float64) []Sample {
	for i, s := range line {
		if s.At > end {
			if i == 0 {
				return nil
			}
			return append(line[:i:i], Sample{end, amountAt(line, end)})
		}
	}
	return line
}
