package outline

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// Parse reads one YAML document whose root is a mapping. The node is nil where the text is refused whole; it is
// there, with the faults, where keys stand twice.
func Parse(src []byte) (*Node, []Fault) {
	if len(src) > MaxBytes {
		return nil, []Fault{{Kind: TooLarge, Found: strconv.Itoa(len(src))}}
	}
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	if faults := scanBytes(src); len(faults) > 0 {
		return nil, faults
	}
	if n := signs(src); n > MaxSigns {
		return nil, []Fault{{Kind: TooManySigns, Place: Place{1, 1}, Found: strconv.Itoa(n)}}
	}
	tokens := lexer.Tokenize(string(src))
	if faults := guard(tokens); len(faults) > 0 {
		return nil, faults
	}
	file, fault := parse(tokens)
	if fault != nil {
		return nil, []Fault{*fault}
	}
	return build(file)
}

// signs counts what YAML parts a text by.
func signs(src []byte) int {
	n := 0
	for _, c := range src {
		switch c {
		case '[', ']', '{', '}', ',', ':', '-', '?':
			n++
		}
	}
	return n
}

// scanBytes finds what no text file holds, and tabs that indent.
func scanBytes(src []byte) []Fault {
	at, indent := Place{1, 1}, true
	for rest := src; len(rest) > 0; {
		c, size := utf8.DecodeRune(rest)
		switch {
		case c == utf8.RuneError && size == 1:
			return []Fault{{Kind: NotUTF8, Place: at, Found: fmt.Sprintf("0x%02X", rest[0])}}
		case c < ' ' && c != '\n' && c != '\t' && c != '\r', c == 0x7f:
			return []Fault{{Kind: ControlChar, Place: at, Found: fmt.Sprintf("0x%02X", c)}}
		case c == '\t' && indent:
			return []Fault{{Kind: TabIndent, Place: at}}
		}
		indent = indent && c == ' '
		at.Column++
		if c == '\n' {
			at, indent = Place{at.Line + 1, 1}, true
		}
		rest = rest[size:]
	}
	return nil
}

// parse calls the YAML parser, whose own panics are the text's fault here, never ours to pass on.
func parse(tokens token.Tokens) (file *ast.File, fault *Fault) {
	defer func() {
		if recover() != nil {
			file, fault = nil, &Fault{Kind: Syntax}
		}
	}()
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err == nil {
		return file, nil
	}
	fault = &Fault{Kind: Syntax}
	if syntax, ok := errors.AsType[*yaml.SyntaxError](err); ok {
		fault.Found = syntax.GetMessage()
		if t := syntax.GetToken(); t != nil {
			fault.Place = placeOf(t)
		}
	}
	return nil, fault
}

func placeOf(t *token.Token) Place {
	if t == nil || t.Position == nil {
		return Place{}
	}
	return Place{t.Position.Line, t.Position.Column}
}
