package draw

import (
	"math"
)

// tapeCols is how many columns a tape's scale takes in a terminal.
const tapeCols = 58

// Text returns the tape for a terminal: a stroke a sheet (or as many as the line under it says), the fifth aslant,
// estimated ones as colons, part of one as a dot. The error wraps ErrModel.
func (t Tape) Text(o TextOptions) (string, error) {
	to, err := t.check()
	if err != nil {
		return "", err
	}
	n := roundStep(to, tapeCols)
	if n < 1 {
		n = 1
	}
	v := textTape{t: t, to: to, n: n}
	v.over()
	v.tape()
	v.under()
	return v.g.text(o), nil
}

type textTape struct {
	t   Tape
	g   grid
	to  float64
	n   float64 // sheets in a column
	row int
}

// col returns the column in which a count ends.
func (v *textTape) col(count float64) int {
	return min(max(int(math.Ceil(min(count, v.to)/v.n-1e-9)), 0), v.last())
}

func (v *textTape) last() int { return int(math.Ceil(v.to/v.n - 1e-9)) }

func (v *textTape) tape() {
	rest := '─'
	if v.t.Ends == nil {
		rest = '┄'
	}
	v.g.fill(v.row, 0, v.last()+1, rest)
	for _, s := range v.t.tallies(v.n) {
		v.g.put(v.row, s.nth, s.rune())
	}
	if v.t.Ends == nil {
		v.row++
		return
	}
	if v.t.Ends.Likely > v.to {
		v.g.put(v.row, v.last(), "→")
	} else {
		v.g.put(v.row, v.col(v.t.Ends.Likely), "┼")
	}
	if v.t.Ends.Safe <= v.to {
		v.g.put(v.row, v.col(v.t.Ends.Safe), "┃")
	}
	v.row++
}

func (s tally) rune() string {
	switch {
	case s.part < 1:
		return "."
	case s.estimated:
		return ":"
	case s.nth%5 == 4:
		return "/"
	}
	return "|"
}

// over writes the label's capacity and the test that is due over the tape.
func (v *textTape) over() {
	var tags []tag
	add := func(count *float64, word string) {
		if count != nil {
			tags = append(tags, tag{mark: float64(v.col(*count)), number: join(word, v.t.Say.number(*count))})
		}
	}
	add(v.t.Label, v.t.Say.Label)
	add(v.t.Test, v.t.Say.Test)
	if v.t.past() && v.t.Say.Past != "" {
		tags = append(tags, tag{mark: float64(v.col(v.t.done())), number: v.t.Say.Past})
	}
	if len(tags) == 0 {
		return
	}
	v.g.tags(v.row, tags)
	for _, t := range tags {
		v.g.put(v.row+1, int(t.mark), "┆")
	}
	v.row += 2
}

// under writes the ends, and how many sheets a stroke is where it is not one.
func (v *textTape) under() {
	var tags []tag
	if e := v.t.Ends; e != nil {
		tags = append(tags, tag{mark: float64(v.col(e.Safe)), number: join(v.t.Say.number(e.Safe), v.t.Say.Safe)})
		if n := v.t.Say.number(e.Likely); n != v.t.Say.number(e.Safe) {
			tags = append(tags, tag{mark: float64(v.col(e.Likely)), number: join(n, v.t.Say.Likely)})
		}
		tags = append(tags, tag{mark: float64(v.last()), number: v.t.Say.number(v.to), spare: true})
	} else if v.t.Say.Unknown != "" {
		tags = append(tags, tag{mark: float64(v.col(v.t.done())), number: v.t.Say.Unknown})
	}
	v.g.tags(v.row, tags)
	if v.n > 1 {
		v.g.put(v.row+1, 0, "| "+v.t.Say.bundle(v.n))
	}
}

// join sets two words beside each other, either of which may be empty.
func join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

// tags writes tags along a row of the grid.
func (g *grid) tags(row int, tags []tag) {
	for i := range tags {
		tags[i].wide = float64(len([]rune(tags[i].number)))
	}
	placed, _ := settle(tags, 0, tapeCols+2, 1)
	free := 0
	for _, t := range placed {
		text := []rune(t.number)
		start := max(free, int(math.Round(t.at-float64(len(text))/2)))
		room := max(0, min(len(text), tapeCols+2-start))
		g.put(row, start, string(text[:room]))
		free = start + room + 1
	}
}
