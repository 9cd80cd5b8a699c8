package draw

import (
	"fmt"

	"wetside/trade/measure"
)

// Columns and rows of a reading in a terminal.
const (
	textWall    = 15 // column of the left wall
	textMarks   = 21 // marks shown at most; of a longer scale the piece round the stop
	textMost    = 60 // columns
	textOverrun = 3  // how far the heavy line goes beyond the right wall
)

// Text returns the picture for a terminal, at most 60 columns wide: the scale in use, one row a mark, and the one
// mark to stop at as a heavy line from its number through the vessel. The error wraps ErrModel.
func (r Reading) Text(o TextOptions) (string, error) {
	if err := r.check(); err != nil {
		return "", err
	}
	var t textView
	if r.Vessel.Kind == measure.Balance {
		t.weighing(r)
		return t.grid.text(o), nil
	}
	v, err := newView(r, 0)
	if err != nil {
		return "", err
	}
	t.v, t.wide = v, textWidth(r.Vessel.Kind)
	t.rows()
	t.draw()
	return t.grid.text(o), nil
}

// textWidth is how many columns there are between the walls.
func textWidth(k measure.Kind) int {
	switch k {
	case measure.Cylinder, measure.Syringe:
		return 13
	case measure.Pipette:
		return 10
	case measure.Jug, measure.Beaker, measure.Balance:
	}
	return 22
}

// A textView is a reading on its way to a terminal.
type textView struct {
	grid grid
	v    *view
	wide int
	list []textRow // from the top down
	cut  [2]bool   // the scale goes on above, below
}

// A textRow is one row of the scale.
type textRow struct {
	ml   float64
	mark *mark // nil: between two marks, or under the first
	stop bool
}

// rows lists the marks from the top down, with the stop among them.
func (t *textView) rows() {
	marks := t.v.used.marks
	first, last := 0, len(marks)-1
	if len(marks) > textMarks {
		p := pieceOf(marks, t.v.stop)
		first, last = p.first, p.last
	}
	t.cut = [2]bool{last < len(marks)-1, first > 0}
	level, placed := t.v.r.level(), false
	for i := last; i >= first; i-- {
		m := &marks[i]
		if !placed && m.ml <= level*(1+1e-9) {
			placed = true
			exact := level-m.ml < level*1e-9
			t.list = append(t.list, textRow{ml: level, stop: true})
			if exact {
				continue
			}
		}
		t.list = append(t.list, textRow{ml: m.ml, mark: m})
	}
	if !placed {
		t.list = append(t.list, textRow{ml: level, stop: true})
	}
	if !t.cut[1] {
		t.list = append(t.list, textRow{ml: min(level, marks[0].ml) / 2})
	}
}

func (t *textView) draw() {
	right := textWall + 1 + t.wide
	t.head(right)
	for i, line := range t.list {
		t.grid.put(i+1, textWall, "│")
		t.grid.put(i+1, right, "│")
		t.row(i+1, line)
	}
	t.foot(len(t.list)+1, right)
	t.handle(right)
}

// head draws the rim in the first row, or what says that the scale goes on.
func (t *textView) head(right int) {
	unit := t.v.used.unit
	if t.cut[0] {
		t.grid.put(0, textWall, "⋮")
		t.grid.put(0, textWall+4, unit)
		t.grid.put(0, right, "⋮")
		return
	}
	switch t.v.r.Vessel.Kind {
	case measure.Syringe:
		t.grid.put(0, textWall-2, "──┐")
		t.grid.put(0, right, "┌──")
	case measure.Pipette:
		t.grid.put(0, textWall, "│")
		t.grid.put(0, right, "│")
	case measure.Jug, measure.Beaker, measure.Cylinder, measure.Balance:
		t.grid.put(0, textWall-1, "╲")
		t.grid.put(0, right, "│")
	}
	t.grid.put(0, textWall+4, unit)
}

// row draws one row: liquid, mark and number, or the heavy line.
func (t *textView) row(row int, line textRow) {
	if line.stop {
		t.stop(row)
		return
	}
	if line.ml < t.v.r.level() {
		t.grid.fill(row, textWall+1, t.wide, liquidRune(t.v.r.layers(), line.ml))
	}
	switch {
	case line.mark == nil:
	case line.mark.numbered:
		t.grid.put(row, textWall, "├── "+t.v.r.Say.number(line.mark.number)+" ")
	default:
		t.grid.put(row, textWall, "├─")
	}
}

// liquidRune is how the liquid at a level is written.
func liquidRune(layers []layer, ml float64) rune {
	for _, l := range layers {
		if ml >= l.from && ml < l.to && l.what == Concentrate {
			return '╱'
		}
	}
	return '░'
}

func (t *textView) stop(row int) {
	say := t.v.r.Say
	n := t.wide + 2 + textOverrun
	if t.v.r.About > 0 {
		t.grid.fill(row, textWall, n, '┄')
		t.grid.put(row, textWall+n+1, clip(say.Stop, textMost-textWall-n-1))
		return
	}
	left := textWall - 3
	t.grid.fill(row, left, n+3, '━')
	t.grid.putEnd(row, left-1, fmt.Sprintf("%s %s", say.number(t.v.r.Mark), t.v.used.unit))
	t.grid.put(row, textWall+n+1, clip(say.Stop, textMost-textWall-n-1))
}

// foot draws the floor and what is under it, or what says that the scale goes on.
func (t *textView) foot(row, right int) {
	if t.cut[1] {
		t.grid.put(row, textWall, "⋮")
		t.grid.put(row, right, "⋮")
		return
	}
	t.grid.put(row, textWall, "└")
	t.grid.fill(row, textWall+1, t.wide, '─')
	t.grid.put(row, right, "┘")
	mid := textWall + 1 + t.wide/2
	switch t.v.r.Vessel.Kind {
	case measure.Cylinder:
		t.grid.put(row, textWall-3, "───┴")
		t.grid.put(row, right, "┴───")
	case measure.Syringe, measure.Pipette:
		t.grid.put(row, mid-1, "┐ ┌")
		t.grid.put(row+1, mid-1, "│ │")
	case measure.Jug, measure.Beaker, measure.Balance:
	}
}

// handle draws a jug's handle where the whole jug is in sight.
func (t *textView) handle(right int) {
	rows := len(t.list)
	if t.v.r.Vessel.Kind != measure.Jug || t.cut[0] || t.cut[1] || rows < 6 {
		return
	}
	from, to := 2, rows-2
	for row := from; row <= to; row++ {
		if t.list[row-1].stop {
			continue
		}
		piece := "  │"
		switch row {
		case from:
			piece = "──╮"
		case to:
			piece = "──╯"
		}
		t.grid.put(row, right+1, piece)
	}
}

// weighing writes a balance: its display, underlined heavily.
func (t *textView) weighing(r Reading) {
	shown := r.Say.number(r.Mark) + " " + r.Say.unit(r.Scale)
	const wide = 22
	n := len([]rune(shown))
	t.grid.put(0, 6, "──────┬────────┬──────")
	t.grid.put(1, 5, "┌──────┴────────┴──────┐")
	for row := 2; row <= 3; row++ {
		t.grid.put(row, 5, "│")
		t.grid.put(row, 6+wide, "│")
	}
	at := 6 + (wide-n)/2
	t.grid.put(2, at, shown)
	t.grid.fill(3, at-1, n+2, '━')
	t.grid.put(3, 6+wide+2, r.Say.Stop)
	t.grid.put(4, 5, "└──────────────────────┘")
}
