package darkroom

import (
	"slices"
	"strings"

	"wetside/darkroom/outline"
)

type node = outline.Node

// A kind says of one kind of value how it is read, written and described. The file's reader, its writer, its
// schema and the forms of pages all come from the same kinds, so they cannot part.
type kind[T any] struct {
	// read reads a node; what is wrong is noted with the reader and leaves the zero value.
	read func(*reader, *outline.Node) T
	// write returns the node, nil for what was not given.
	write func(T) *outline.Node
	// schema describes it.
	schema func() *shape
}

// A field is one field of a T.
type field[T any] struct {
	name   string
	must   bool
	always bool // read also where it is left out, so that what is missing below it is told
	read   func(*reader, *outline.Node, *T)
	write  func(*T) *outline.Node
	schema func() *shape
}

// at makes a field of the value that of points to. The text says what it is, for the schema.
func at[T, V any](name, text string, of func(*T) *V, k kind[V]) field[T] {
	return via(name, text, func(t *T) V { return *of(t) }, func(t *T, v V) { *of(t) = v }, k)
}

// via makes a field of a value that is got and set.
func via[T, V any](name, text string, get func(*T) V, set func(*T, V), k kind[V]) field[T] {
	return field[T]{
		name:  name,
		read:  func(r *reader, n *outline.Node, t *T) { set(t, k.read(r, n)) },
		write: func(t *T) *outline.Node { return k.write(get(t)) },
		schema: func() *shape {
			s := k.schema()
			s.Description = text
			return s
		},
	}
}

// must marks a field that has to be given.
func must[T any](f field[T]) field[T] {
	f.must = true
	return f
}

// A rule looks at a thing that was read, and its node, for what its fields say together. It runs whether or not
// the fields could be read, so it asks first whether they were.
type rule[T any] func(*reader, *outline.Node, *T)

// thing makes the kind of a struct from its fields, written as a block.
func thing[T any](fields []field[T], rules ...rule[T]) kind[T] {
	return kind[T]{
		read:   func(r *reader, n *outline.Node) T { return readThing(r, n, fields, rules) },
		write:  func(t T) *outline.Node { return writeThing(&t, fields) },
		schema: func() *shape { return schemaOfThing(fields) },
	}
}

func readThing[T any](r *reader, n *outline.Node, fields []field[T], rules []rule[T]) T {
	var t T
	if n.Kind != outline.Mapping && !blank(n) {
		r.bad(n, Problem{Kind: ProblemNotMapping, Expected: Expected{Words: namesOf(fields)}})
		return t
	}
	for _, f := range inOrder(n, fields) {
		i := slices.IndexFunc(fields, func(m field[T]) bool { return m.name == f.Key })
		r.in(f.Key, func() {
			if i < 0 {
				r.unknown(f, namesOf(fields))
				return
			}
			fields[i].read(r, f.Value, &t)
		})
	}
	for _, f := range fields {
		switch v := n.Get(f.name); {
		case f.must && (blank(v) || v.Kind == outline.List && len(v.Items) == 0):
			r.badField(n, f.name, Problem{Kind: ProblemMissing})
		case f.always && v.Kind == outline.Empty:
			r.in(f.name, func() { f.read(r, &outline.Node{Place: n.Place}, &t) })
		}
	}
	for _, look := range rules {
		look(r, n, &t)
	}
	return t
}

// inOrder returns the fields of a node in the order of the file; those of a form in the order of the contract.
func inOrder[T any](n *outline.Node, fields []field[T]) []outline.Field {
	if !n.Loose {
		return n.Fields
	}
	place := func(f outline.Field) int {
		return slices.IndexFunc(fields, func(m field[T]) bool { return m.name == f.Key })
	}
	return slices.SortedStableFunc(slices.Values(n.Fields), func(a, b outline.Field) int {
		return place(a) - place(b)
	})
}

// unknown notes a field that nothing reads.
func (r *reader) unknown(f outline.Field, names []string) {
	r.bad(&outline.Node{Place: f.Place}, Problem{
		Kind: ProblemUnknownField, Found: f.Key, Suggestion: nearest(f.Key, names),
		Expected: Expected{Words: names},
	})
}

func writeThing[T any](t *T, fields []field[T]) *outline.Node {
	n := &outline.Node{Kind: outline.Mapping}
	for _, f := range fields {
		if v := f.write(t); v != nil {
			n.Set(f.name, v)
		}
	}
	if len(n.Fields) == 0 {
		return nil
	}
	return n
}

func namesOf[T any](fields []field[T]) []string {
	var names []string
	for _, f := range fields {
		names = append(names, f.name)
	}
	return names
}

// line writes a kind on one line.
func line[T any](k kind[T]) kind[T] {
	write := k.write
	k.write = func(t T) *outline.Node {
		n := write(t)
		if n != nil {
			n.Flow = true
		}
		return n
	}
	return k
}

// list makes the kind of a list. Its items keep their places in the list even where one could not be read.
func list[T any](k kind[T]) kind[[]T] {
	return kind[[]T]{
		read: func(r *reader, n *outline.Node) []T { return readList(r, n, k) },
		write: func(all []T) *outline.Node {
			n := &outline.Node{Kind: outline.List}
			for _, t := range all {
				v := k.write(t)
				if v == nil {
					v = &outline.Node{Kind: outline.Mapping}
				}
				n.Items = append(n.Items, v)
			}
			n.Flow = !slices.ContainsFunc(n.Items, func(v *node) bool { return v.Kind != outline.Scalar })
			if len(n.Items) == 0 {
				return nil
			}
			return n
		},
		schema: func() *shape { return &shape{Type: "array", Items: k.schema()} },
	}
}

func readList[T any](r *reader, n *outline.Node, k kind[T]) []T {
	var all []T
	items := n.Items
	switch {
	case blank(n):
		return nil
	case n.Kind == outline.Scalar && n.Loose:
		for _, v := range parted(n) {
			all = append(all, k.read(r, v)) // all of one input, so at the path of the list
		}
		return all
	case n.Kind != outline.List:
		r.bad(n, Problem{Kind: ProblemNotList})
		return nil
	}
	for i, v := range items {
		if n.Loose && blank(v) {
			continue
		}
		r.in(item(i), func() {
			var t T
			if blank(v) {
				r.bad(v, Problem{Kind: ProblemBlankItem})
			} else {
				t = k.read(r, v)
			}
			all = append(all, t)
		})
	}
	return all
}

// parted makes a list of one text of a form: a line each, or parts between commas where it is one line.
func parted(n *outline.Node) []*outline.Node {
	by := ","
	if strings.Contains(n.Text, "\n") {
		by = "\n"
	}
	var items []*outline.Node
	for part := range strings.SplitSeq(n.Text, by) {
		if strings.TrimSpace(part) != "" {
			items = append(items, &outline.Node{Kind: outline.Scalar, Text: part, Place: n.Place, Loose: true})
		}
	}
	return items
}
