package draw

import "slices"

// Text returns the picture for a terminal. The error wraps ErrModel.
func (t Tempering) Text(o TextOptions) (string, error) {
	levels, err := t.check()
	if err != nil {
		return "", err
	}
	g := &grid{}
	for _, p := range t.Pours {
		if p.To == 0 {
			g.put(0, temperingRight+3, clip(p.Number+" "+p.What, 24))
		}
	}
	g.walls(0)
	row := 1
	for i, level := range slices.Backward(levels) {
		line := '─'
		if i == len(levels)-1 {
			line = '━'
			g.put(row, temperingRight+4, clip(t.Say.Stop, 24))
		}
		g.fill(row, textWall-3, temperingWide+7, line)
		g.putEnd(row, textWall-4, level.Number+" "+t.Say.Unit)
		row = g.layer(row+1, rowsOf(levels, i), clip(level.What+" "+level.Degree, 24))
	}
	g.put(row, textWall, "└")
	g.fill(row, textWall+1, temperingWide, '─')
	g.put(row, temperingRight, "┘")
	if t.Say.Want != "" {
		g.put(row, temperingRight+3, "→ "+clip(t.Say.Want, 22))
	}
	return g.text(o), nil
}

// Columns of a tempering in a terminal.
const (
	temperingWide  = 18
	temperingRight = textWall + 1 + temperingWide
)

// rowsOf returns how many of nine rows a layer takes, at least one.
func rowsOf(levels []TemperingPour, i int) int {
	from := 0.0
	if i > 0 {
		from = levels[i-1].To.ML()
	}
	return max(1, int((levels[i].To.ML()-from)/levels[len(levels)-1].To.ML()*9+0.5))
}

func (g *grid) walls(row int) {
	g.put(row, textWall, "│")
	g.put(row, temperingRight, "│")
}

// layer fills n rows with water, says in their middle what it is, and returns the next row.
func (g *grid) layer(row, n int, what string) int {
	for r := range n {
		g.walls(row + r)
		g.fill(row+r, textWall+1, temperingWide, '░')
	}
	g.put(row+n/2, temperingRight+3, what)
	return row + n
}
