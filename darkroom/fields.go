package darkroom

import (
	"slices"
	"strconv"

	"github.com/invopop/jsonschema"
)

// A FormField is one input of a form that ReadForm reads: its name, what the contract says of it, and the words to choose
// from, where there are any.
type FormField struct {
	Name  string
	Text  string   // what it is, a sentence; of a table's rows the table's own
	Key   string   // the last part of the name: "unit", "RC paper"
	Group string   // what it stands in: "scales[0]", "dilutions"; empty at the top
	Words []string // the words to choose from, empty where any are read
	Must  bool
}

// FormFields returns the inputs of a form for T, in the order of the file. counts says how many items each list of
// things in it shall have, by the list's name ("scales", "packs"); a list without a count has one.
func FormFields[T Part](counts map[string]int) []FormField {
	return formFields(kindOf[T]().schema(), "", "", counts)
}

func formFields(s *jsonschema.Schema, group, text string, counts map[string]int) []FormField {
	var out []FormField
	for p := s.Properties.Oldest(); p != nil; p = p.Next() {
		name := p.Key
		if group != "" {
			name = group + "." + p.Key
		}
		one := FormField{Name: name, Key: p.Key, Group: group, Text: p.Value.Description, Must: required(s, p.Key)}
		if one.Text == "" {
			one.Text = text
		}
		switch v := p.Value; {
		case v.Properties != nil && v.Properties.Len() > 0:
			out = append(out, formFields(v, name, one.Text, counts)...)
		case v.Items != nil && v.Items.Properties != nil && v.Items.Properties.Len() > 0:
			for i := range max(counts[p.Key], 1) {
				out = append(out, formFields(v.Items, name+"["+strconv.Itoa(i)+"]", one.Text, counts)...)
			}
		default:
			one.Words = wordsOf(v)
			out = append(out, one)
		}
	}
	return out
}

func required(s *jsonschema.Schema, name string) bool {
	return slices.Contains(s.Required, name)
}

// wordsOf returns the words that a scalar may have.
func wordsOf(s *jsonschema.Schema) []string {
	var out []string
	for _, e := range s.Enum {
		if w, ok := e.(string); ok {
			out = append(out, w)
		}
	}
	return out
}
