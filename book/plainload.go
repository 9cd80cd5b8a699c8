package book

import (
	"strings"
	"unicode/utf8"
)

// A plain reads JSON as books mostly hold it: one object of texts without escapes, whole numbers, true and false and lists
// of texts. Loads, prints and readings are by far the most entries, and encoding/json takes most of the time that a fold needs. Whatever is not
// plain is left to it.
type plain struct {
	rest string
	odd  bool // it is not plain
}

// A plainBody is a body whose fields a plain can read.
type plainBody interface {
	// plainField reads one field. A name that is not written as we write it is odd.
	plainField(name string, p *plain)
}

// readPlain reads the body of an entry of which there are many, and reports whether it could; where not, it is to be read otherwise, into
// an empty one.
func readPlain(b plainBody, text string) bool {
	p := plain{rest: text}
	p.want('{')
	for !p.odd {
		name := p.text()
		p.want(':')
		b.plainField(name, &p)
		if p.next('}') {
			break
		}
		p.want(',')
	}
	return !p.odd && p.rest == ""
}

func (b *Worked) plainField(name string, p *plain) {
	switch name {
	case "baths":
		b.Baths = p.texts()
	case "drain":
		b.Drain = p.text()
	default:
		b.Prints.plainField(name, p)
	}
}

func (b *Prints) plainField(name string, p *plain) {
	switch name {
	case "material":
		b.Material = p.text()
	case "size":
		b.Size = p.text()
	case "sheets":
		b.Sheets = p.whole()
	case "strips":
		b.Strips = p.whole()
	case "strip":
		b.Strip = p.text()
	case "rolls":
		b.Rolls = p.whole()
	case "how":
		b.How = p.text()
	case "estimated":
		b.Estimated = p.yes()
	default:
		p.odd = true
	}
}

func (a *At) plainField(name string, p *plain) {
	switch name {
	case "step":
		a.Step = p.text()
	case "bath":
		a.Bath = p.text()
	case "batch":
		a.Batch = p.text()
	case "for":
		a.For = p.text()
	case "drain":
		a.Drain = p.text()
	default:
		p.odd = true
	}
}

func (b *PrintStarted) plainField(name string, p *plain) {
	switch name {
	case "print":
		b.Print = p.text()
	case "of":
		b.Of = p.text()
	case "session":
		b.Session = p.text()
	case "step", "bath", "batch", "for", "drain":
		b.At.plainField(name, p)
	default:
		b.Prints.plainField(name, p)
	}
}

func (b *PrintMoved) plainField(name string, p *plain) {
	if name == "print" {
		b.Print = p.text()
		return
	}
	b.At.plainField(name, p)
}

func (b *PrintLeft) plainField(name string, p *plain) {
	switch name {
	case "print":
		b.Print = p.text()
	case "abandoned":
		b.Abandoned = p.yes()
	default:
		p.odd = true
	}
}

func (b *ProbeRead) plainField(name string, p *plain) {
	switch name {
	case "probe":
		b.Probe = p.text()
	case "bath":
		b.Bath = p.text()
	case "place":
		b.Place = ProbePlace(p.text())
	case "reads":
		b.Reads = p.text()
	default:
		p.odd = true
	}
}

// next takes c if it stands next.
func (p *plain) next(c byte) bool {
	if p.rest == "" || p.rest[0] != c {
		return false
	}
	p.rest = p.rest[1:]
	return true
}

func (p *plain) want(c byte) { p.odd = !p.next(c) || p.odd }

// text reads "...": UTF-8 without escapes.
func (p *plain) text() string {
	p.want('"')
	beyond := false // ASCII
	for i := range len(p.rest) {
		switch c := p.rest[i]; {
		case c == '"':
			text := p.rest[:i]
			p.rest = p.rest[i+1:]
			p.odd = p.odd || beyond && !utf8.ValidString(text)
			return text
		case c >= utf8.RuneSelf:
			beyond = true
		case c < ' ', c > '~', c == '\\':
			p.odd = true
			return ""
		}
	}
	p.odd = true
	return ""
}

// texts reads ["...","..."].
func (p *plain) texts() []string {
	p.want('[')
	all := make([]string, 0, 4)
	for !p.odd {
		all = append(all, p.text())
		if p.next(']') {
			return all
		}
		p.want(',')
	}
	return nil
}

// whole reads a number of up to nine digits.
func (p *plain) whole() int {
	n, i := 0, 0
	for i < len(p.rest) && i < 9 && p.rest[i] >= '0' && p.rest[i] <= '9' {
		n = 10*n + int(p.rest[i]-'0')
		i++
	}
	if i == 0 || p.rest[0] == '0' && i > 1 {
		p.odd = true
		return 0
	}
	p.rest = p.rest[i:] // what follows is looked at by whoever asked
	return n
}

// yes reads true or false.
func (p *plain) yes() bool {
	rest, yes := strings.CutPrefix(p.rest, "true")
	if !yes {
		var no bool
		rest, no = strings.CutPrefix(p.rest, "false")
		p.odd = p.odd || !no
	}
	p.rest = rest
	return yes
}
