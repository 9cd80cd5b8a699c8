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
type field[T any] struct{ plain }

// plain is a field whose thing's type is not said: what reads and writes things is compiled once, not once a type. Whatever it
// is handed is a pointer to the thing, and at and via have seen to its type.
type plain struct {
	name   string
	text   string // what it is, for the schema
	must   bool
	always bool // read also where it is left out, so that what is missing below it is told
	of     func(thing any) (value any)
	is     value
}

// value is a kind whose type is not said.
type value interface {
	into(r *reader, n *outline.Node, to any)
	from(of any) *outline.Node
	describe() *shape
}

func (k *kind[T]) into(r *reader, n *outline.Node, to any) { *to.(*T) = k.read(r, n) }
func (k *kind[T]) from(of any) *outline.Node               { return k.write(*of.(*T)) }
func (k *kind[T]) describe() *shape                        { return k.schema() }

// at makes a field of the value that of points to. The text says what it is, for the schema.
func at[T, V any](name, text string, of func(*T) *V, k kind[V]) field[T] {
	return field[T]{plain{name: name, text: text, of: func(t any) any { return of(t.(*T)) }, is: &k}}
}

// via makes a field of a value that is got and set.
func via[T, V any](name, text string, get func(*T) V, set func(*T, V), k kind[V]) field[T] {
	return field[T]{plain{name: name, text: text, of: func(t any) any { return t }, is: &passed[T, V]{k, get, set}}}
}

// passed is a kind of values that are got from a thing and set in it.
type passed[T, V any] struct {
	kind kind[V]
	get  func(*T) V
	set  func(*T, V)
}

func (p *passed[T, V]) into(r *reader, n *outline.Node, to any) { p.set(to.(*T), p.kind.read(r, n)) }

func (p *passed[T, V]) from(of any) *outline.Node { return p.kind.write(p.get(of.(*T))) }
func (p *passed[T, V]) describe() *shape          { return p.kind.schema() }

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
	all := make([]plain, len(fields))
	for i, f := range fields {
		all[i] = f.plain
	}
	return kind[T]{
		read: func(r *reader, n *outline.Node) (t T) {
			if readThing(r, n, &t, all) {
				for _, look := range rules {
					look(r, n, &t)
				}
			}
			return t
		},
		write:  func(t T) *outline.Node { return writeThing(&t, all) },
		schema: func() *shape { return schemaOfThing(all) },
	}
}

// readThing reads a node's fields into what t points to, and reports whether it has any.
func readThing(r *reader, n *outline.Node, t any, fields []plain) bool {
	if n.Kind != outline.Mapping && !blank(n) {
		r.bad(n, Problem{Kind: ProblemNotMapping, Expected: Expected{Words: namesOf(fields)}})
		return false
	}
	for _, f := range inOrder(n, fields) {
		i := placeOf(f, fields)
		r.in(f.Key, func() {
			if i < 0 {
				r.unknown(f, namesOf(fields))
				return
			}
			fields[i].is.into(r, f.Value, fields[i].of(t))
		})
	}
	for _, f := range fields {
		switch v := n.Get(f.name); {
		case f.must && (blank(v) || v.Kind == outline.List && len(v.Items) == 0):
			r.badField(n, f.name, Problem{Kind: ProblemMissing})
		case f.always && v.Kind == outline.Empty:
			r.in(f.name, func() { f.is.into(r, &outline.Node{Place: n.Place}, f.of(t)) })
		}
	}
	return true
}

// inOrder returns the fields of a node in the order of the file; those of a form in the order of the contract.
func inOrder(n *outline.Node, fields []plain) []outline.Field {
	if !n.Loose {
		return n.Fields
	}
	return slices.SortedStableFunc(slices.Values(n.Fields), func(a, b outline.Field) int {
		return placeOf(a, fields) - placeOf(b, fields)
	})
}

func placeOf(f outline.Field, fields []plain) int {
	return slices.IndexFunc(fields, func(m plain) bool { return m.name == f.Key })
}

// unknown notes a field that nothing reads.
func (r *reader) unknown(f outline.Field, names []string) {
	r.bad(&outline.Node{Place: f.Place}, Problem{
		Kind: ProblemUnknownField, Found: f.Key, Suggestion: nearest(f.Key, names),
		Expected: Expected{Words: names},
	})
}

func writeThing(t any, fields []plain) *outline.Node {
	n := &outline.Node{Kind: outline.Mapping}
	for _, f := range fields {
		if v := f.is.from(f.of(t)); v != nil {
			n.Set(f.name, v)
		}
	}
	if len(n.Fields) == 0 {
		return nil
	}
	return n
}

func namesOf(fields []plain) []string {
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
		read: func(r *reader, n *outline.Node) (all []T) {
			readList(r, n, func(v *outline.Node) {
				var t T
				if v != nil {
					t = k.read(r, v)
				}
				all = append(all, t)
			})
			return all
		},
		write: func(all []T) *outline.Node {
			return writeList(len(all), func(i int) *outline.Node { return k.write(all[i]) })
		},
		schema: func() *shape { return &shape{Type: "array", Items: k.schema()} },
	}
}

func writeList(count int, item func(i int) *outline.Node) *outline.Node {
	if count == 0 {
		return nil
	}
	n := &outline.Node{Kind: outline.List}
	for i := range count {
		v := item(i)
		if v == nil {
			v = &outline.Node{Kind: outline.Mapping}
		}
		n.Items = append(n.Items, v)
	}
	n.Flow = !slices.ContainsFunc(n.Items, func(v *node) bool { return v.Kind != outline.Scalar })
	return n
}

// readList hands on the nodes of a list's items, nil for one that is blank.
func readList(r *reader, n *outline.Node, take func(*outline.Node)) {
	switch {
	case blank(n):
		return
	case n.Kind == outline.Scalar && n.Loose:
		for _, v := range parted(n) {
			take(v) // all of one input, so at the path of the list
		}
		return
	case n.Kind != outline.List:
		r.bad(n, Problem{Kind: ProblemNotList})
		return
	}
	for i, v := range n.Items {
		if n.Loose && blank(v) {
			continue
		}
		r.in(item(i), func() {
			if blank(v) {
				r.bad(v, Problem{Kind: ProblemBlankItem})
				v = nil
			}
			take(v)
		})
	}
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
