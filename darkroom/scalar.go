package darkroom

import (
	"cmp"
	"errors"
	"slices"
	"strings"
	"unicode"

	"wetside/darkroom/outline"
	"wetside/trade/dilution"
	"wetside/trade/quantity"
)

// A scalar says how one text is read. The problem is nil where it could be read; it holds what is particular to
// it, the rest is filled in where it is noted.
type scalar[T any] struct {
	what   string // the key of Expected.What
	parse  func(*reader, string) (T, *Problem)
	schema func() *shape
}

// as makes the kind of a value that is kept with the words in which it was written.
func as[T any](s scalar[T]) kind[As[T]] {
	return kind[As[T]]{
		read: func(r *reader, n *outline.Node) As[T] {
			v, text := readScalar(r, n, s)
			return As[T]{v, text}
		},
		write: func(a As[T]) *outline.Node {
			if !a.Given() {
				return nil
			}
			return outline.Text(a.Text)
		},
		schema: s.schema,
	}
}

// bare makes the kind of a value whose words are not kept: say writes it, and says nothing of the zero value.
func bare[T comparable](s scalar[T], say func(T) string) kind[T] {
	return kind[T]{
		read: func(r *reader, n *outline.Node) T {
			v, _ := readScalar(r, n, s)
			return v
		},
		write: func(v T) *outline.Node {
			if text := say(v); text != "" {
				return outline.Text(text)
			}
			return nil
		},
		schema: s.schema,
	}
}

// readScalar reads a text; the text is empty where nothing was given or it could not be read.
func readScalar[T any](r *reader, n *outline.Node, s scalar[T]) (T, string) {
	var none T
	text, ok := r.text(n)
	if !ok {
		return none, ""
	}
	v, p := s.parse(r, text)
	if p == nil {
		return v, text
	}
	p.Expected.What = cmp.Or(p.Expected.What, s.what)
	r.bad(n, *p)
	return none, ""
}

// quantityOf makes the scalar of a quantity from its reader in package trade.
func quantityOf[T any](what string, read func(string) (T, error)) scalar[T] {
	return scalar[T]{
		what: what,
		parse: func(_ *reader, text string) (T, *Problem) {
			v, err := read(text)
			return v, ofError(err)
		},
		schema: schemaOfText,
	}
}

// withOunce is quantityOf for a reader that asks what an ounce is.
func withOunce[T any](what string, read func(string, quantity.Ounce) (T, error)) scalar[T] {
	return scalar[T]{
		what: what,
		parse: func(r *reader, text string) (T, *Problem) {
			v, err := read(text, r.ounce)
			return v, ofError(err)
		},
		schema: schemaOfText,
	}
}

// ofError turns a reader's error into a problem, nil for none.
func ofError(err error) *Problem {
	if err == nil {
		return nil
	}
	if read, ok := errors.AsType[*quantity.ReadError](err); ok {
		return &Problem{Kind: ProblemKind(read.Why), Suggestion: read.Near}
	}
	if label, ok := errors.AsType[*dilution.Error](err); ok {
		return &Problem{Kind: ProblemKind(label.Reason)}
	}
	return &Problem{Kind: ProblemUnreadable}
}

// within narrows a scalar to low..high, ends included; the texts say them.
func within[T cmp.Ordered](s scalar[T], low, high T, lowText, highText string) scalar[T] {
	parse := s.parse
	s.parse = func(r *reader, text string) (T, *Problem) {
		v, p := parse(r, text)
		if p == nil && (v < low || v > high) {
			p = &Problem{Kind: ProblemOutOfBounds, Expected: Expected{Low: lowText, High: highText}}
		}
		return v, p
	}
	return s
}

// above narrows a scalar to what is more than 0 and at most high.
func above[T cmp.Ordered](s scalar[T], high T, highText string) scalar[T] {
	parse := s.parse
	s.parse = func(r *reader, text string) (T, *Problem) {
		var zero T
		v, p := parse(r, text)
		switch {
		case p != nil:
		case v <= zero:
			p = &Problem{Kind: ProblemNotPositive, Expected: Expected{High: highText}}
		case v > high:
			p = &Problem{Kind: ProblemOutOfBounds, Expected: Expected{High: highText}}
		}
		return v, p
	}
	return s
}

// A choice is a word and what it stands for; others are words that mean the same.
type choice[T any] struct {
	word   string
	value  T
	others []string
}

// word makes the scalar of a word out of a few. Capitals, hyphens and spaces are no matter.
func word[T comparable](what string, choices []choice[T]) scalar[T] {
	var words []string
	for _, c := range choices {
		words = append(words, c.word)
	}
	return scalar[T]{
		what: what,
		parse: func(_ *reader, text string) (T, *Problem) {
			if i := indexOf(choices, text); i >= 0 {
				return choices[i].value, nil
			}
			var none T
			return none, &Problem{
				Kind: ProblemNotAWord, Expected: Expected{Words: words},
				Suggestion: nearest(text, words),
			}
		},
		schema: func() *shape { return schemaOfWords(words) },
	}
}

// indexOf returns the index of the choice that text says, or -1.
func indexOf[T any](choices []choice[T], text string) int {
	if i := slices.IndexFunc(choices, func(c choice[T]) bool { return c.word == text }); i >= 0 {
		return i
	}
	text = squeeze(text)
	says := func(word string) bool { return squeeze(word) == text }
	return slices.IndexFunc(choices, func(c choice[T]) bool { return says(c.word) || slices.ContainsFunc(c.others, says) })
}

// squeeze makes words comparable: lower case, without spaces, hyphens and low lines.
func squeeze(text string) string {
	return strings.Map(func(c rune) rune {
		if c == ' ' || c == '-' || c == '_' {
			return -1
		}
		return unicode.ToLower(c)
	}, text)
}

// chosen makes the kind of a word whose zero value was not given.
func chosen[T comparable](what string, choices []choice[T]) kind[T] {
	return bare(word(what, choices), sayIn(choices))
}

func sayIn[T comparable](choices []choice[T]) func(T) string {
	return func(v T) string {
		for _, c := range choices {
			if c.value == v {
				return c.word
			}
		}
		return ""
	}
}

// named makes choices of values that say their own words.
func named[T interface{ String() string }](all []T) []choice[T] {
	var out []choice[T]
	for _, v := range all {
		out = append(out, choice[T]{word: v.String(), value: v})
	}
	return out
}

// same makes choices of words that stand for themselves.
func same[T ~string](words ...T) []choice[T] {
	var out []choice[T]
	for _, w := range words {
		out = append(out, choice[T]{word: string(w), value: w})
	}
	return out
}

// table makes the kind of a mapping whose keys are words out of a few, written on one line.
func table[K comparable, V any](what string, keys []choice[K], k kind[V]) kind[map[K]V] {
	return kind[map[K]V]{
		read: func(r *reader, n *outline.Node) map[K]V { return readTable(r, n, word(what, keys), k) },
		write: func(m map[K]V) *outline.Node {
			n := &outline.Node{Kind: outline.Mapping, Flow: true}
			for _, c := range keys {
				if v, given := m[c.value]; given {
					if node := k.write(v); node != nil {
						n.Set(c.word, node)
					}
				}
			}
			if len(n.Fields) == 0 {
				return nil
			}
			return n
		},
		schema: func() *shape { return schemaOfTable(keys, k) },
	}
}

func readTable[K comparable, V any](r *reader, n *outline.Node, key scalar[K], k kind[V]) map[K]V {
	if blank(n) {
		return nil
	}
	if n.Kind != outline.Mapping {
		r.bad(n, Problem{Kind: ProblemNotMapping, Expected: Expected{What: key.what}})
		return nil
	}
	m := map[K]V{}
	for _, f := range n.Fields {
		r.in(f.Key, func() {
			at := &outline.Node{Kind: outline.Scalar, Text: f.Key, Place: f.Place}
			c, text := readScalar(r, at, key)
			switch _, twice := m[c]; {
			case text == "":
			case twice:
				r.bad(at, Problem{Kind: ProblemDuplicateKey})
			case !blank(f.Value):
				if v := k.read(r, f.Value); k.write(v) != nil {
					m[c] = v
				}
			}
		})
	}
	if len(m) == 0 {
		return nil
	}
	return m
}
