package draw

import (
	"math"

	"wetside/draw/scene"
)

// A textPlot is a plot in characters: columns for the foot, rows for the upright axis.
type textPlot struct {
	g    grid
	x, y ruler
	left int // columns before the axis
}

// Rows and columns of a plot in a terminal.
const (
	plotRows = 13
	plotCols = 60
)

func newTextPlot(x, y ruler, ticks []float64, numbers []string, title string, right int) *textPlot {
	p := &textPlot{x: x, y: y}
	for _, n := range numbers {
		p.left = max(p.left, len([]rune(n))+1)
	}
	p.x.a, p.x.b = float64(p.left+1), float64(plotCols-1-right)
	p.y.a, p.y.b = plotRows, 1
	p.g.put(0, 0, clip(title, plotCols))
	for r := 1; r <= plotRows; r++ {
		p.g.put(r, p.left, "│")
	}
	p.g.fill(plotRows+1, p.left+1, plotCols-1-right-p.left, '─')
	p.g.put(plotRows+1, p.left, "└")
	last := plotRows + 9
	for i, t := range ticks {
		r := int(math.Round(p.y.at(t)))
		if last-r < 2 {
			continue
		}
		last = r
		p.g.putEnd(r, p.left, numbers[i])
		p.g.put(r, p.left, "┤")
	}
	return p
}

func (p *textPlot) at(at, amount float64) (row, col int) {
	return int(math.Round(p.y.at(amount))), int(math.Round(p.x.at(at)))
}

// line writes a line of samples as one character a column, from its first to its last.
func (p *textPlot) line(line []Sample, r rune) {
	if len(line) == 0 {
		return
	}
	_, from := p.at(line[0].At, 0)
	_, to := p.at(line[len(line)-1].At, 0)
	for col := from; col <= to; col++ {
		row, _ := p.at(0, amountAt(line, p.count(col, line)))
		p.g.put(row, col, string(r))
	}
}

// count returns what stands at a column, held within a line's own ends.
func (p *textPlot) count(col int, line []Sample) float64 {
	at := p.x.from + (float64(col)-p.x.a)/(p.x.b-p.x.a)*(p.x.to-p.x.from)
	return min(max(at, line[0].At), line[len(line)-1].At)
}

// foot writes the numbers under the foot, and what they are of.
func (p *textPlot) foot(tags []tag, title string) {
	for _, v := range []float64{p.x.from, p.x.to, (p.x.from + p.x.to) / 2} {
		if math.Abs(v-math.Round(v)) < 1e-6 {
			tags = append(tags, tag{mark: p.x.at(v), number: figure(v, 0), spare: true})
		}
	}
	p.g.tags(plotRows+2, tags)
	p.g.putEnd(plotRows+3, plotCols, clip(title, plotCols))
}

// Text returns the curve for a terminal: what was as dots, what is to be expected as rings with its band, the limit as a
// line. The error wraps ErrModel.
func (c Curve) Text(o TextOptions) (string, error) {
	if err := c.check(); err != nil {
		return "", err
	}
	x, y, step, seen := c.rulers()
	ticks := steps(y.from, y.to, step)
	var numbers []string
	for _, t := range ticks {
		numbers = append(numbers, c.Say.figure(t, places(step)))
	}
	p := newTextPlot(x, y, ticks, numbers, c.Say.Amount, 0)
	seen.textBand(p)
	tags := seen.textMarks(p)
	p.line(seen.Limit, '─')
	p.line(seen.quantile(mid), '○')
	p.line(seen.Done, '●')
	if c.Say.Limit != "" && len(c.Limit) > 0 {
		p.g.putEnd(0, plotCols, "─ "+clip(c.Say.Limit, plotCols-6-len([]rune(c.Say.Amount))))
	}
	p.foot(tags, c.Say.Sheets)
	return p.g.text(o), nil
}

func (c Curve) textBand(p *textPlot) {
	lows, highs := c.quantile(low), c.quantile(high)
	if len(lows) == 0 {
		return
	}
	_, from := p.at(lows[0].At, 0)
	_, to := p.at(lows[len(lows)-1].At, 0)
	for col := from; col <= to; col++ {
		at := p.count(col, lows)
		top, _ := p.at(0, amountAt(highs, at))
		foot, _ := p.at(0, amountAt(lows, at))
		for row := top; row <= foot; row++ {
			p.g.put(row, col, "░")
		}
	}
}

// textMarks draws the marks as the scene has them.
func (c Curve) textMarks(p *textPlot) []tag {
	shadow := plot{x: p.x, y: p.y}
	var tags []tag
	for _, t := range c.uprights(&shadow) {
		tags = append(tags, tag{mark: t.mark, number: join(t.number, t.word)})
	}
	for _, it := range shadow.out.Items {
		l, ok := it.(scene.Line)
		if !ok {
			continue
		}
		r := '│'
		if l.Stroke == scene.Accent {
			r = '┃'
		}
		for row := int(math.Round(l.A.Y)); row <= plotRows; row++ {
			p.g.put(row, int(math.Round(l.A.X)), string(r))
		}
	}
	return tags
}
