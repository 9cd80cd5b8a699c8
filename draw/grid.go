package draw

import "strings"

// TextOptions say how a picture for a terminal is written.
type TextOptions struct {
	// ASCII keeps to the characters of ASCII where a terminal or a font has no lines to draw with.
	ASCII bool
}

// A grid is a picture of characters.
type grid [][]rune

// put writes text at a row and a column; the grid grows as it must.
func (g *grid) put(row, col int, text string) {
	for len(*g) <= row {
		*g = append(*g, nil)
	}
	line := (*g)[row]
	runes := []rune(text)
	for len(line) < col+len(runes) {
		line = append(line, ' ')
	}
	copy(line[col:], runes)
	(*g)[row] = line
}

// putEnd writes text so that it ends before a column.
func (g *grid) putEnd(row, col int, text string) {
	g.put(row, max(0, col-len([]rune(text))), text)
}

// fill writes one rune n times.
func (g *grid) fill(row, col, n int, r rune) { g.put(row, col, strings.Repeat(string(r), max(0, n))) }

// text returns the grid as lines, without spaces at their ends.
func (g grid) text(o TextOptions) string {
	var b strings.Builder
	for _, line := range g {
		text := strings.TrimRight(string(line), " ")
		if o.ASCII {
			text = strings.Map(ascii, text)
		}
		b.WriteString(text)
		b.WriteByte('\n')
	}
	return b.String()
}

// ascii returns what stands for a drawn character in ASCII. A letter that has none becomes a question mark.
func ascii(r rune) rune {
	switch r {
	case '│', '┆':
		return '|'
	case '┃':
		return '#'
	case '─', '┄':
		return '-'
	case '━', '═':
		return '='
	case '…':
		return '~'
	case '├', '┤', '└', '┘', '┌', '┐', '╮', '╯', '╭', '╰', '┬', '┴', '┼', '╋', '┿':
		return '+'
	case '╲':
		return '\\'
	case '╱':
		return '/'
	case '░', '·':
		return '.'
	case '⋮':
		return ':'
	case '×':
		return 'x'
	case '°':
		return ' '
	case '→':
		return '>'
	case '²':
		return '2'
	case '○':
		return 'o'
	case '●':
		return '*'
	}
	if r > '~' {
		return '?'
	}
	return r
}
