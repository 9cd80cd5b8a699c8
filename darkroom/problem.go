package darkroom

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"wetside/darkroom/outline"
)

// A Problem is one mistake in a file or a form: where it stands, what was found, what was expected, and the
// nearest right word. It holds findings; Message says them in plain English, package words in the reader's
// language, by Kind.
type Problem struct {
	Path         string // session.to_make[1].sheets, from 0; in a form the input's name
	Line, Column int    // from 1, the column in characters; 0 where there is no file
	Kind         ProblemKind
	Found        string // the user's own words, cut to 80 characters
	Expected     Expected
	Suggestion   string // the nearest right word, or empty
}

// Expected is what would have been right.
type Expected struct {
	What      string   // what is read here: "volume", "count", "material", ...
	Words     []string // the words to choose from
	Low, High string   // the ends of what is allowed, ready to print
	Other     string   // the other thing that the rule speaks of: a path, a name, a figure
}

// Problems are all mistakes of a file or form, in the order of their places. It is the error of Read.
//
//nolint:errname // it is a list of findings first, and an error where Read returns it
type Problems []Problem

// Error says the first problem, and how many more there are.
func (p Problems) Error() string {
	switch len(p) {
	case 0:
		return "no problems"
	case 1:
		return p[0].String()
	}
	return p[0].String() + " (and " + strconv.Itoa(len(p)-1) + " more)"
}

// String says a problem in one line, its place at the end:
// session.to_make[1].sheets: must be a whole number above 0, got -3 (line 41, column 15).
func (p Problem) String() string {
	s := p.Message()
	if p.Path != "" {
		s = p.Path + ": " + s
	}
	if p.Line > 0 {
		s += " (line " + strconv.Itoa(p.Line) + ", column " + strconv.Itoa(p.Column) + ")"
	}
	return s
}

// At returns the problems of one path and what is below it.
func (p Problems) At(path string) Problems {
	var out Problems
	for _, one := range p {
		if below(one.Path, path) {
			out = append(out, one)
		}
	}
	return out
}

// below reports whether path is top or lies below it.
func below(path, top string) bool {
	rest, ok := strings.CutPrefix(path, top)
	return ok && (rest == "" || top == "" || rest[0] == '.' || rest[0] == '[')
}

// maxProblems is how many mistakes are told of one file; what follows is rarely another mistake.
const maxProblems = 500

// sorted puts problems in the order of their places, and keeps the first maxProblems.
func (p Problems) sorted() Problems {
	slices.SortStableFunc(p, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return p[:min(len(p), maxProblems)]
}

// ofFaults turns what was refused whole into problems.
func ofFaults(faults []outline.Fault) Problems {
	var out Problems
	for _, f := range faults {
		p := Problem{Line: f.Place.Line, Column: f.Place.Column, Kind: ProblemKind(f.Kind), Found: cut(f.Found)}
		if f.Kind == outline.DuplicateKey {
			p.Path, p.Expected.Other = f.Path, "line "+strconv.Itoa(f.First.Line)
		}
		out = append(out, p)
	}
	return out.sorted()
}

// cut keeps the first 80 characters, on one line.
func cut(text string) string {
	const most = 80
	r := []rune(strings.ToValidUTF8(text, "\ufffd"))
	if len(r) > most {
		r = append(r[:most-1], '…')
	}
	return strings.Join(strings.Fields(string(r)), " ")
}
