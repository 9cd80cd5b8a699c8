package book

import "strings"

// A plain reads JSON as books mostly hold it: one object of texts without escapes, whole numbers, true and false and lists
// of texts. Loads are by far the most entries, and encoding/json takes most of the time that a fold needs. Whatever is not
// plain is left to it.
type plain struct {
	rest string
	odd  bool // it is not plain
}

// readPlain reads the body of a load and reports whether it could; where not, the load is as before.
func (b *Worked) readPlain(text string) bool {
	p := plain{rest: text}
	load := Worked{}
	p.want('{')
	for !p.odd {
		p.field(&load)
		if p.next('}') {
			break
		}
		p.want(',')
	}
	if p.odd || p.rest != "" {
		return false
	}
	*b = load
	return true
}

// field reads one field of a load. A name that is not written as we write it is odd.
func (p *plain) field(b *Worked) {
	name := p.text()
	p.want(':')
	switch name {
	case "baths":
		b.Baths = p.texts()
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
	case "drain":
		b.Drain = p.text()
	case "how":
		b.How = p.text()
	case "estimated":
		b.Estimated = p.yes()
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

// text reads "...": printable ASCII without escapes.
func (p *plain) text() string {
	p.want('"')
	for i := range len(p.rest) {
		switch c := p.rest[i]; {
		case c == '"':
			text := p.rest[:i]
			p.rest = p.rest[i+1:]
			return text
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
