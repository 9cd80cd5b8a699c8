package draw

import (
	"math"
)

// Text returns the plot for a terminal: each way of washing as a letter, with the minute at which it reaches the limit
// beside its name. The error wraps ErrModel.
func (l Left) Text(o TextOptions) (string, error) {
	if err := l.check(); err != nil {
		return "", err
	}
	x, y := l.rulers()
	ticks := decades(y.from, y.to)
	var numbers []string
	for _, t := range ticks {
		numbers = append(numbers, l.Say.figure(t))
	}
	p := newTextPlot(x, y, ticks, numbers, l.Say.Amount, 0)
	limit := []Sample{{0, l.Limit}, {x.to, l.Limit}}
	p.line(limit, '━')
	var tags []tag
	for i, w := range l.Ways {
		p.line(logarithmic(seenOf(w.Points, y.from), y.from), wayRune(i))
		if w.Reaches != nil && *w.Reaches <= x.to {
			tags = append(tags, tag{mark: p.x.at(*w.Reaches), number: l.Say.minutes(*w.Reaches)})
		}
	}
	l.textFound(p)
	p.foot(tags, l.Say.Time)
	l.legend(&p.g)
	return p.g.text(o), nil
}

// logarithmic fills a line up with samples that lie on it as the scale draws it.
func logarithmic(line []Sample, least float64) []Sample {
	var all []Sample
	for i, s := range line {
		if i > 0 {
			before := line[i-1]
			a, b := max(before.Amount, least), max(s.Amount, least)
			for k := 1.0; k < 8; k++ {
				all = append(all, Sample{before.At + (s.At-before.At)*k/8, a * math.Pow(b/a, k/8)})
			}
		}
		all = append(all, s)
	}
	return all
}

func wayRune(n int) rune { return rune('a' + n) }

// legend writes what the letters are under the plot.
func (l Left) legend(g *grid) {
	row := plotRows + 4
	for i, w := range l.Ways {
		name := string(wayRune(i)) + "  " + w.Name
		if w.Reaches != nil {
			g.putEnd(row, plotCols, l.Say.minutes(*w.Reaches))
		} else {
			g.putEnd(row, plotCols, "-")
		}
		g.put(row, 0, clip(name, plotCols-12))
		row++
	}
	g.put(row, 0, "━  "+clip(l.Say.Limit, plotCols-4))
	if l.Found != nil {
		g.put(row+1, 0, string(foundRune)+"  "+clip(l.Found.Name, plotCols-12))
		g.putEnd(row+1, plotCols, l.Say.minutes(l.Found.At))
	}
}
