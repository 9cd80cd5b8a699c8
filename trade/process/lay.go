package process

import (
	"math"

	"wetside/trade/material"
	"wetside/trade/quantity"
	"wetside/trade/reckoning"
)

// Clearance is the room that sheets lying flat want, in mm.
type Clearance struct {
	Wall    quantity.Length // from a sheet to the wall, for tongs and fingers
	Between quantity.Length // from sheet to sheet
}

// TongsRoom returns the usual clearance, 10 mm to the wall and 10 mm between sheets, and its figures
// (from memory).
func TongsRoom() (Clearance, []reckoning.Figure) {
	c := Clearance{Wall: 10, Between: 10}
	return c, []reckoning.Figure{
		mm("clearance_wall", c.Wall, reckoning.FromMemory), mm("clearance_between", c.Between, reckoning.FromMemory),
	}
}

// A Layout is how sheets lie flat, side by side, all the same way round.
type Layout struct {
	Sheets       int
	Across, Down int  // along the tray's width and its height
	Turned       bool // the sheet's width lies along the tray's height
}

// SideBySide returns how many sheets lie flat in a tray, none over another, with the clearance c: the better of the
// two ways round, the sheet's own where they are equal. No sheet at all is an answer: Layout{}. ErrNoInside
// where the tray's inside is not known or the size is no sheet.
func SideBySide(t Tray, sheet material.Size, c Clearance) (Layout, error) {
	if err := flat(t, sheet); err != nil {
		return Layout{}, err
	}
	best := layout(t, sheet, c)
	if turned := layout(t, sheet.Turned(), c); turned.Sheets > best.Sheets {
		best = turned
		best.Turned = true
	}
	return best, nil
}

func layout(t Tray, s material.Size, c Clearance) Layout {
	l := Layout{Across: along(t.Width, s.Width, c), Down: along(t.Height, s.Height, c)}
	l.Sheets = l.Across * l.Down
	if l.Sheets == 0 {
		return Layout{}
	}
	return l
}

// sliver is how much longer than its tray a row may be, in mm, before it counts as too long.
const sliver = 1e-6

// along returns the largest n with n sheets, n-1 gaps and two walls' room in the inside.
func along(inside, side quantity.Length, c Clearance) int {
	n := math.Floor(float64((inside - 2*c.Wall + c.Between + sliver) / (side + c.Between)))
	return int(max(0, min(n, maxRow)))
}

// maxRow keeps a count whole for trays of any size.
const maxRow = 10_000

func flat(t Tray, sheet material.Size) error {
	if !positive(t.Width) || !positive(t.Height) || !positive(sheet.Width) || !positive(sheet.Height) {
		return ErrNoInside
	}
	return nil
}

// A Fit says whether one sheet lies flat in a tray at all, without any room to spare.
type Fit struct {
	Fits   bool
	Turned bool // in this way round: the sheet's width along the tray's height
	// LacksWidth and LacksHeight are by how much the tray is too small along its width and its height, in the way
	// round that lacks least; 0 where it is not.
	LacksWidth, LacksHeight quantity.Length
}

// FitOf returns whether and which way round a sheet lies flat in a tray. ErrNoInside as in SideBySide.
func FitOf(t Tray, sheet material.Size) (Fit, error) {
	if err := flat(t, sheet); err != nil {
		return Fit{}, err
	}
	a, b := fit(t, sheet), fit(t, sheet.Turned())
	b.Turned = true
	if max(b.LacksWidth, b.LacksHeight) < max(a.LacksWidth, a.LacksHeight) {
		return b, nil
	}
	return a, nil
}

func fit(t Tray, s material.Size) Fit {
	f := Fit{LacksWidth: lack(s.Width, t.Width), LacksHeight: lack(s.Height, t.Height)}
	f.Fits = f.LacksWidth == 0 && f.LacksHeight == 0
	return f
}

func lack(side, inside quantity.Length) quantity.Length {
	if side <= inside+sliver {
		return 0
	}
	return side - inside
}

// Held is how many sheets can be worked with in one tray at a time.
type Held struct {
	Usual, Most int
	Figure      reckoning.Figure // of Most
}

// InDeveloper returns how many sheets are developed at a time: as many as lie side by side with room for
// tongs, and in a tray at least one size larger than the sheet two at the most, kept moving one over
// the other (from memory). A sheet that fits without room for tongs counts as one.
func InDeveloper(t Tray, sheet material.Size, c Clearance) (Held, error) {
	l, err := SideBySide(t, sheet, c)
	if err != nil {
		return Held{}, err
	}
	usual := l.Sheets
	if f, ferr := FitOf(t, sheet); ferr == nil && f.Fits {
		usual = max(usual, 1)
	}
	most := usual
	if usual > 0 && larger(t, sheet) {
		most = max(usual, 2)
	}
	return held("in_developer", usual, most), nil
}

// Shuffled returns how many sheets can be kept moving in a tray of stop bath or fixer, the lowest drawn out and
// laid on top: in a tray at least one size larger, four to six up to 8×10, three to four up to 12×16, two
// beyond; in a tray of the sheet's own size two; never fewer than lie side by side. All from memory.
// ErrNoInside as in SideBySide.
func Shuffled(t Tray, sheet material.Size) (Held, error) {
	c, _ := TongsRoom()
	l, err := SideBySide(t, sheet, c)
	if err != nil {
		return Held{}, err
	}
	f, err := FitOf(t, sheet)
	if err != nil || !f.Fits {
		return held("shuffled", 0, 0), err
	}
	var usual, most int
	switch units, _ := sheet.Units80(); {
	case !larger(t, sheet):
		usual, most = 1, 1+min(l.Sheets, 1)
	case units <= 1+sliver:
		usual, most = 4, 6
	case units <= 192.0/80+sliver:
		usual, most = 3, 4
	default:
		usual, most = 2, 2
	}
	return held("shuffled", max(usual, l.Sheets), max(most, l.Sheets)), nil
}

func held(name string, usual, most int) Held {
	return Held{usual, most, reckoning.Figure{Name: name, Value: float64(most), Origin: reckoning.FromMemory}}
}

// larger reports whether a tray is at least one size larger than the sheet: it takes the next usual
// inch format that is an inch or more larger each way (past the largest: 4 in larger).
func larger(t Tray, sheet material.Size) bool {
	f, err := FitOf(t, NextSize(sheet))
	return err == nil && f.Fits
}

const inch = 25.4 // mm

// NextSize returns the smallest usual inch format that is at least an inch larger than the sheet each way;
// past the largest, the sheet and 4 in each way.
func NextSize(sheet material.Size) material.Size {
	short, long := min(sheet.Width, sheet.Height), max(sheet.Width, sheet.Height)
	for _, s := range material.InchSizes() {
		if s.Width >= short+inch-sliver && s.Height >= long+inch-sliver {
			return s
		}
	}
	return material.Sheet(short+4*inch, long+4*inch)
}

// NominalTray returns the tray that is sold for a sheet: an inch larger inside each way (from memory), its
// depth unknown. For advice, where no tray of the bench serves.
func NominalTray(sheet material.Size) Tray {
	return Tray{Width: sheet.Width + inch, Height: sheet.Height + inch}
}

// TrayFor returns the usual inch format whose nominal tray is the smallest that takes the sheet flat with
// the clearance, and that tray; false where none does.
func TrayFor(sheet material.Size, c Clearance) (material.Size, Tray, bool) {
	for _, s := range material.InchSizes() {
		t := NominalTray(s)
		if l, err := SideBySide(t, sheet, c); err == nil && l.Sheets > 0 {
			return s, t, true
		}
	}
	return material.Size{}, Tray{}, false
}
