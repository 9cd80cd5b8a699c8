package api

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"
)

// maxDepth is how deep a value may be nested; no body of ours goes deeper than five.
const maxDepth = 32

// A value is a JSON value with its text, and for an object its fields in their order.
type value struct {
	raw    []byte
	fields []field
	items  []value
}

// A field is one member of an object.
type field struct {
	name  string
	value value
}

// is returns what a value is: '{', '[', '"', 't' for true and false, 'n' for null, '0' for a number.
func (v *value) is() byte {
	switch c := v.raw[0]; c {
	case 't', 'f':
		return 't'
	case '{', '[', '"', 'n':
		return c
	default:
		return '0'
	}
}

// get returns a field of an object, nil where it has none of the name.
func (v *value) get(name string) *value {
	for i := range v.fields {
		if v.fields[i].name == name {
			return &v.fields[i].value
		}
	}
	return nil
}

// Why a text is no JSON that is taken.
var (
	errNoUTF8  = errors.New("it is no UTF-8")
	errEmpty   = errors.New("it is empty")
	errSeveral = errors.New("it is more than one value")
	errTooDeep = fmt.Errorf("it is nested more than %d deep", maxDepth)
)

// A syntaxError says where a text stops being JSON: lines and columns count from 1, columns in characters.
type syntaxError struct {
	line, column int
	cause        error
}

func (e *syntaxError) Error() string {
	return fmt.Sprintf("line %d, column %d: %v", e.line, e.column, e.cause)
}

func (e *syntaxError) Unwrap() error { return e.cause }

func syntaxAt(text []byte, offset int, cause error) error {
	before := string(text[:min(max(offset, 0), len(text))])
	line := before[strings.LastIndexByte(before, '\n')+1:]
	return &syntaxError{1 + strings.Count(before, "\n"), 1 + utf8.RuneCountInString(line), cause}
}

// readValue reads one JSON value (RFC 8259). The error is a *syntaxError.
func readValue(text []byte) (value, error) {
	if !utf8.Valid(text) {
		return value{}, syntaxAt(text, 0, errNoUTF8)
	}
	s := scanner{text: text}
	if s.space(); s.at == len(text) {
		return value{}, syntaxAt(text, 0, errEmpty)
	}
	var all json.RawMessage
	if err := json.Unmarshal(text, &all); err != nil {
		at, cause := len(text), err
		if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
			at = int(syntax.Offset) - 1
		}
		var first json.RawMessage
		switch again := json.NewDecoder(bytes.NewReader(text)).Decode(&first); {
		case again == nil:
			cause = errSeveral
		case errors.Is(again, io.ErrUnexpectedEOF):
			at = len(text)
		}
		return value{}, syntaxAt(text, at, cause)
	}
	return s.value(0)
}

// A scanner takes valid JSON apart.
type scanner struct {
	text []byte
	at   int
}

func (s *scanner) space() {
	for s.at < len(s.text) && strings.IndexByte(" \t\r\n", s.text[s.at]) >= 0 {
		s.at++
	}
}

// next skips white space and one sign.
func (s *scanner) next() {
	s.space()
	s.at++
	s.space()
}

func (s *scanner) value(depth int) (v value, err error) {
	if depth > maxDepth {
		return v, syntaxAt(s.text, s.at, errTooDeep)
	}
	s.space()
	begin := s.at
	switch s.text[s.at] {
	case '{':
		err = s.object(&v, depth)
	case '[':
		err = s.list(&v, depth)
	case '"':
		s.word()
	default:
		for s.at < len(s.text) && strings.IndexByte(" \t\r\n,]}", s.text[s.at]) < 0 {
			s.at++
		}
	}
	v.raw = s.text[begin:s.at]
	return v, err
}

// word skips a string.
func (s *scanner) word() {
	for s.at++; s.text[s.at] != '"'; s.at++ {
		if s.text[s.at] == '\\' {
			s.at++
		}
	}
	s.at++
}

func (s *scanner) object(v *value, depth int) error {
	for s.next(); s.text[s.at] != '}'; {
		begin := s.at
		s.word()
		var name string
		if err := json.Unmarshal(s.text[begin:s.at], &name); err != nil {
			return syntaxAt(s.text, begin, err)
		}
		s.next() // the colon
		one, err := s.value(depth + 1)
		if err != nil {
			return err
		}
		v.fields = append(v.fields, field{name, one})
		if s.space(); s.text[s.at] == ',' {
			s.next()
		}
	}
	s.at++
	return nil
}

func (s *scanner) list(v *value, depth int) error {
	for s.next(); s.text[s.at] != ']'; {
		one, err := s.value(depth + 1)
		if err != nil {
			return err
		}
		v.items = append(v.items, one)
		if s.space(); s.text[s.at] == ',' {
			s.next()
		}
	}
	s.at++
	return nil
}

// A pointer is where a value stands in a body: a JSON pointer (RFC 6901) as a fragment, as in RFC 9457.
type pointer string

const root pointer = "#"

func (p pointer) field(name string) pointer {
	return p + "/" + pointer(strings.NewReplacer("~", "~0", "/", "~1").Replace(name))
}

func (p pointer) item(i int) pointer { return p + "/" + pointer(strconv.Itoa(i)) }

// path is the pointer of a field of an entry's body as package book writes it: before[0].size.
func (p pointer) path(field string) pointer {
	for _, part := range strings.FieldsFunc(field, func(r rune) bool { return strings.ContainsRune(".[]", r) }) {
		p = p.field(part)
	}
	return p
}
