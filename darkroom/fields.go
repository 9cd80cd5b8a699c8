package darkroom

import (
	"slices"
	"strconv"
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

func formFields(s *shape, group, text string, counts map[string]int) []FormField {
	var out []FormField
	for _, p := range *s.Properties {
		name := p.name
		if group != "" {
			name = group + "." + p.name
		}
		one := FormField{Name: name, Key: p.name, Group: group, Text: p.of.Description, Must: slices.Contains(s.Required, p.name)}
		if one.Text == "" {
			one.Text = text
		}
		switch v := p.of; {
		case v.Properties != nil && len(*v.Properties) > 0:
			out = append(out, formFields(v, name, one.Text, counts)...)
		case v.Items != nil && v.Items.Properties != nil && len(*v.Items.Properties) > 0:
			for i := range max(counts[p.name], 1) {
				out = append(out, formFields(v.Items, name+"["+strconv.Itoa(i)+"]", one.Text, counts)...)
			}
		default:
			one.Words = wordsOf(v)
			out = append(out, one)
		}
	}
	return out
}

// wordsOf returns the words that a scalar may have.
func wordsOf(s *shape) []string {
	var out []string
	for _, e := range s.Enum {
		if w, ok := e.(string); ok {
			out = append(out, w)
		}
	}
	return out
}
