package web

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"wetside/darkroom"
)

// ID is the field's name as an id: lists of ids are parted by spaces, so that none may stand in one.
func (f field) ID() string { return strings.ReplaceAll(f.Name, " ", "-") }

// field makes one input.
func (v *visit) field(f darkroom.FormField, form map[string]string, problems darkroom.Problems) field {
	out := field{Name: f.Name, Label: v.fieldLabel(f), Value: valueOf(form, f.Name), Hint: v.hint(f)}
	if len(f.Words) > 0 {
		out.Options = v.wordOptions(f, out.Value)
	}
	if f.Key == "language" {
		out.Options = append([]option{{"", v.say.Label("not_said")}}, v.languageOptions(out.Value)...)
	}
	for _, p := range problems {
		if p.Path == f.Name || base(p.Path) == f.Name {
			p.Expected.Other = otherOf(p)
			out.Problem = v.say.Problem(p).Text()
			break
		}
	}
	return out
}

// otherOf is what a problem has to do with, in words that a form can say: the place in the file of what has the same name
// is none.
func otherOf(p darkroom.Problem) string {
	if p.Kind == darkroom.ProblemSameName {
		return ""
	}
	return p.Expected.Other
}

// wordOptions are the words to choose from. What was typed in their place (in a file, or by a form of somebody's own) is
// kept among them.
func (v *visit) wordOptions(f darkroom.FormField, value string) []option {
	out := []option{{"", v.say.Label("not_said")}}
	known := value == ""
	for _, w := range f.Words {
		out = append(out, option{w, v.word(f.Key, w)})
		known = known || w == value
	}
	if !known {
		out = append(out, option{value, value})
	}
	return out
}

// key makes a key of the catalogue of the file's own words.
func key(words string) string { return strings.ReplaceAll(strings.ToLower(words), " ", "_") }

// labelOr returns the catalogue's first word for these keys, else the file's own.
func (v *visit) labelOr(own string, keys ...string) string {
	for _, k := range keys {
		if v.say.HasLabel(k) {
			return v.say.Label(k)
		}
	}
	return strings.ReplaceAll(own, "_", " ")
}

// word says one of the file's words; some mean another thing in another field.
func (v *visit) word(field, w string) string {
	return v.labelOr(w, "word_"+key(w)+"_"+field, "word_"+key(w))
}

func (v *visit) fieldLabel(f darkroom.FormField) string {
	table, _, _ := strings.Cut(f.Group, ".")
	return v.labelOr(f.Key, "field_"+table+"_"+key(f.Key), "field_"+key(f.Key), key(f.Key))
}

// hint shows how a field is written, where its label does not tell: as all do in its table (how long something keeps,
// once opened, is no day), else as all of its name.
func (v *visit) hint(f darkroom.FormField) string {
	table, _, _ := strings.Cut(f.Group, ".")
	for _, k := range []string{"hint_" + table, "hint_" + key(f.Key)} {
		if v.say.HasLabel(k) {
			return v.say.Label(k)
		}
	}
	return ""
}

// groupLabel names what a field stands in: scales[0] is the first scale, silver_limits.film.archival that limit's film.
func (v *visit) groupLabel(group string) string {
	if group == "" {
		return ""
	}
	list, index, nth := strings.Cut(group, "[")
	if nth {
		digits, _, _ := strings.Cut(index, "]")
		n, err := strconv.Atoi(digits)
		if err != nil {
			return group
		}
		if first := "group_" + list + "_first"; n == 0 && v.say.HasLabel(first) {
			return v.say.Label(first)
		}
		thing := v.labelOr(list, "group_"+list)
		return capital(v.say.Tell("nth_thing", "Nth", v.say.Ordinal(n+1), "Thing", thing).Text())
	}
	table, rest, deeper := strings.Cut(group, ".")
	out := v.labelOr(table, "group_"+table)
	if !deeper {
		return out
	}
	var words []string
	for w := range strings.SplitSeq(rest, ".") {
		words = append(words, v.word("", w))
	}
	return v.say.Titled(out, strings.Join(words, ", "))
}

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// valueOf returns a field's words; a list of words is told in one, parted by commas.
func valueOf(form map[string]string, name string) string {
	if t, ok := form[name]; ok {
		return t
	}
	var all []string
	for i := 0; ; i++ {
		t, ok := form[name+"["+strconv.Itoa(i)+"]"]
		if !ok {
			return strings.Join(all, ", ")
		}
		all = append(all, t)
	}
}

// base is a path without its last index: for[1] is a word of for.
func base(path string) string {
	if i := strings.LastIndexByte(path, '['); i > 0 && strings.HasSuffix(path, "]") {
		return path[:i]
	}
	return path
}
