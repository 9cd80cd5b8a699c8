package cli

import (
	"io"
	"strings"
	"unicode/utf8"

	"wetside/words"
)

// width is how wide lines are set for people.
const width = 78

// A printer sets sentences on a terminal: wrapped, indented, with blank lines between things.
type printer struct {
	w     io.Writer
	blank bool // a blank line is owed before the next thing
}

func newPrinter(w io.Writer) *printer { return &printer{w: w} }

// gap owes a blank line before the next thing.
func (p *printer) gap() { p.blank = true }

// put prints one wrapped paragraph: first stands before its first line, rest before the others.
func (p *printer) put(first, rest, text string) {
	if text == "" {
		return
	}
	if p.blank {
		say(p.w, "\n")
		p.blank = false
	}
	for i, line := range wrap(text, width-utf8.RuneCountInString(rest)) {
		if i == 0 {
			say(p.w, "%s%s\n", first, line)
			continue
		}
		say(p.w, "%s%s\n", rest, line)
	}
}

func (p *printer) wrap(text string) { p.put("", "", text) }

// line prints a sentence on one line, however long: it has a path that somebody copies on.
func (p *printer) line(text string) { say(p.w, "%s\n", text) }

// head prints a heading with a rule of ticks under it: the graduation that holds the look together.
func (p *printer) head(text string) {
	p.gap()
	p.put("", "", text)
	say(p.w, "%s\n", strings.Repeat("╷", min(utf8.RuneCountInString(text), width)))
}

func (p *printer) item(text string)    { p.put("  ", "  ", text) }
func (p *printer) caution(text string) { p.put("  ! ", "    ", text) }

// lines prints the steps of a mix, the readings numbered.
func (p *printer) lines(lines []words.Line) {
	n := 0
	for _, l := range lines {
		mark := "     "
		if l.Kind == words.Reading || l.Kind == words.Action {
			n++
			mark = leftPad(n) + "  "
		}
		p.put(mark, "     ", l.Text())
	}
}

func leftPad(n int) string {
	s := "  " + string(rune('0'+n%10))
	if n >= 10 {
		s = " " + string(rune('0'+n/10)) + string(rune('0'+n%10))
	}
	return s
}

// picture prints a drawing as it is, indented.
func (p *printer) picture(text string) {
	if text == "" {
		return
	}
	p.gap()
	for line := range strings.Lines(text) {
		p.row("  " + strings.TrimRight(line, "\n"))
	}
	p.gap()
}

// row prints one line as it is.
func (p *printer) row(line string) {
	if p.blank {
		say(p.w, "\n")
		p.blank = false
	}
	say(p.w, "%s\n", strings.TrimRight(line, " "))
}

// wrap breaks a text at spaces into lines of at most n characters; a longer word stands alone. A non-breaking space
// does not break.
func wrap(text string, n int) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\n' }) {
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > n:
			lines = append(lines, line)
			line = word
		default:
			line += " " + word
		}
	}
	return append(lines, line)
}
