package outline

import (
	"strconv"
	"strings"
	"unicode"
)

// YAML writes a mapping as a document, with a blank line between the fields of the root.
func (n *Node) YAML() []byte {
	var w writer
	for i, f := range n.Fields {
		if i > 0 {
			w.WriteByte('\n')
		}
		w.field(f, 0)
	}
	return []byte(w.String())
}

type writer struct{ strings.Builder }

// field writes one key and its value; the cursor stands where the key goes.
func (w *writer) field(f Field, indent int) {
	w.WriteString(scalar(Node{Text: f.Key}, true))
	w.WriteByte(':')
	v := f.Value
	if v.inline() {
		w.WriteByte(' ')
		w.flow(v, false)
		w.WriteByte('\n')
		return
	}
	w.WriteByte('\n')
	w.block(v, indent+2)
}

// inline reports whether a node stands behind its key or dash on the same line.
func (n *Node) inline() bool {
	return n.Kind == Empty || n.Kind == Scalar || n.Flow || len(n.Items)+len(n.Fields) == 0
}

func (w *writer) block(n *Node, indent int) {
	pad := strings.Repeat(" ", indent)
	for _, f := range n.Fields {
		w.WriteString(pad)
		w.field(f, indent)
	}
	for _, item := range n.Items {
		w.WriteString(pad)
		w.WriteString("- ")
		switch {
		case item.inline():
			w.flow(item, false)
			w.WriteByte('\n')
		case item.Kind == Mapping:
			w.field(item.Fields[0], indent+2)
			w.block(&Node{Fields: item.Fields[1:]}, indent+2)
		default:
			w.WriteByte('\n')
			w.block(item, indent+2)
		}
	}
}

// flow writes a node on one line.
func (w *writer) flow(n *Node, inside bool) {
	switch n.Kind {
	case Scalar:
		w.WriteString(scalar(*n, inside))
	case List:
		w.WriteByte('[')
		for i, item := range n.Items {
			w.comma(i)
			w.flow(item, true)
		}
		w.WriteByte(']')
	case Mapping:
		w.WriteByte('{')
		for i, f := range n.Fields {
			w.comma(i)
			w.WriteString(scalar(Node{Text: f.Key}, true))
			w.WriteString(": ")
			w.flow(f.Value, true)
		}
		w.WriteByte('}')
	default:
		w.WriteString(`null`)
	}
}

func (w *writer) comma(i int) {
	if i > 0 {
		w.WriteString(", ")
	}
}

// scalar writes a scalar plain where that is safe, else in double quotes. Inside brackets and in keys a colon
// is not safe.
func scalar(n Node, inside bool) string {
	if plain(n.Text, inside) && (!n.Words || !looksTyped(n.Text)) {
		return n.Text
	}
	return quote(n.Text)
}

// plain reports whether text is the same scalar without quotes. It allows less than YAML does.
func plain(text string, inside bool) bool {
	if text == "" || strings.TrimSpace(text) != text || strings.Contains(text, "  ") || isNull(text) {
		return false
	}
	for i, c := range text {
		switch {
		case unicode.IsLetter(c), c >= '0' && c <= '9', c == '½', c == '¼', c == '¾':
		case i > 0 && strings.ContainsRune(" .+-/°%×()_'", c):
		case i > 0 && c == ':' && !inside && clock(text, i):
		default:
			return false
		}
	}
	return true
}

// clock reports whether the colon at i stands between two digits, as in 18:30.
func clock(text string, i int) bool {
	return i+1 < len(text) && isDigit(text[i-1]) && isDigit(text[i+1])
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isNull(text string) bool { return strings.EqualFold(text, "null") || text == "~" }

// looksTyped reports whether some reader of YAML would take plain text for something other than text: a yes, a
// number or a date.
func looksTyped(text string) bool {
	switch strings.ToLower(text) {
	case "y", "n", "yes", "no", "true", "false", "on", "off", ".inf", ".nan":
		return true
	}
	return isDigit(text[0]) && strings.Trim(text, "0123456789+-.:_xoabcdefABCDEFTZ ") == ""
}

// quote writes text in double quotes with YAML's escapes.
func quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range text {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case unicode.IsPrint(c):
			b.WriteRune(c)
		case c <= 0xffff:
			b.WriteString(`\u`)
			b.WriteString(hex(c, 4))
		default:
			b.WriteString(`\U`)
			b.WriteString(hex(c, 8))
		}
	}
	b.WriteByte('"')
	return b.String()
}

func hex(c rune, digits int) string {
	s := strconv.FormatInt(int64(c), 16)
	return strings.Repeat("0", max(digits-len(s), 0)) + s
}
