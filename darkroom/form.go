package darkroom

import (
	"fmt"
	"slices"
	"strings"

	"wetside/darkroom/outline"
	"wetside/trade/quantity"
)

// FormOf returns a part's fields in the user's own words, by the names that ReadForm takes: name, scales[0].unit,
// dilutions.RC paper.
func FormOf[T Part](v T) map[string]string { return written(kindOf[T](), v).Form() }

// ReadForm reads a part of a file from a form, by the same rules and with the same problems as Read. A problem's
// Path is the form's own name for the field, and what was typed is still in the form; where the part does not go
// with another thing of the file, Path is that thing's whole path. Fields left blank were not given. A list of
// words may be one text: lines, or parts between commas. A field of a name that is none is a problem.
//
// The part stands for item i of its list in the file, or is added to it where i is New; i means nothing for the
// sections. A section's form may leave out its lists of things, which then stay as they are. The file is not
// changed: see With. What was wrong in the file before is not told. The error is of type Problems, or ErrNoItem.
func ReadForm[T Part](in File, i int, form map[string]string) (T, error) {
	var none T
	to := place{keys: keysOf[T](), item: i}
	if list := listOf[T](&in); list != nil {
		to.listed, to.count = true, len(*list)
		if i >= 0 && i < len(*list) {
			to.was = (*list)[i]
		}
	}
	f, i, err := readForm(in, to, form)
	switch {
	case err != nil:
		return none, err
	case to.listed:
		return (*listOf[T](&f))[i], nil
	}
	return *sectionOf[T](&f), nil
}

// A place is where a part stands in a file: item of so many in a list, or a section.
type place struct {
	keys   []string
	listed bool
	item   int
	count  int
	was    any // what stands there
}

// readForm returns the file with what the form says in its place, and which item that is.
func readForm(in File, to place, form map[string]string) (File, int, error) {
	n, bad := outline.FromForm(form)
	if to.listed {
		switch {
		case to.item == New:
			to.item = to.count
		case to.was == nil:
			return File{}, 0, ErrNoItem
		default:
			in = renamed(in, to.was, n.Get("name").Text)
		}
	}
	root := written(fileKind(), in)
	path := put(root, to, n)
	f, problems := readRoot(root)
	problems = problems.sorted().inForm(path, in)
	for _, name := range bad {
		problems = append(problems, Problem{Path: name, Kind: ProblemUnknownField, Found: name})
	}
	if len(problems) > 0 {
		return File{}, 0, problems
	}
	return f, to.item, nil
}

// inForm gives the problems below path the form's names, and leaves out what the file had before.
func (p Problems) inForm(path string, in File) Problems {
	var all Problems
	for _, one := range p {
		if below(one.Path, path) {
			one.Path = strings.TrimPrefix(one.Path[len(path):], ".")
		} else if hasProblem(in, one) {
			continue
		}
		all = append(all, one)
	}
	return all
}

func hasProblem(f File, p Problem) bool {
	_, had := readRoot(written(fileKind(), f))
	return slices.ContainsFunc(had, func(q Problem) bool { return q.Path == p.Path && q.Kind == p.Kind })
}

// Check returns the problems of a file that was put together by other means than Read: Problems with paths and
// no places, or nil.
func Check(f File) error {
	if _, problems := readRoot(written(fileKind(), f)); len(problems) > 0 {
		return problems.sorted()
	}
	return nil
}

// JSON returns a part as JSON: the fields of the contract in their order, every value a string in the user's own
// words.
func JSON[T Part](v T) []byte { return written(kindOf[T](), v).JSON() }

// ReadJSON reads what JSON wrote; o says what an ounce is in it. It looks at the part alone, not at the file it
// belongs to. The error is of type Problems, or the JSON's own.
func ReadJSON[T Part](src []byte, o quantity.Ounce) (T, error) {
	var none T
	n, err := outline.FromJSON(src)
	if err != nil {
		return none, fmt.Errorf("reading a part of a darkroom: %w", err)
	}
	r := &reader{ounce: o}
	v := kindOf[T]().read(r, n)
	if len(r.problems) > 0 {
		return none, r.problems.sorted()
	}
	return v, nil
}

// written returns the nodes of a value, an empty mapping where it says nothing.
func written[T any](k kind[T], v T) *node {
	if n := k.write(v); n != nil {
		return n
	}
	return &node{Kind: outline.Mapping}
}
