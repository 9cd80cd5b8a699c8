package api

import (
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// A mistake is one thing that is wrong with a request.
type mistake struct {
	at    pointer // in the body
	param string  // or a parameter of the address
	code  string  // of its sentence
	found string
	want  []string
}

// raw is the type of what is kept as it is.
var raw = reflect.TypeFor[json.RawMessage]() //nolint:gochecknoglobals // a constant that Go has no word for

// shape looks whether a value is what a Go type takes, and returns every mistake: names that the type does not have or that stand
// twice, values of another sort. Names count as they are written: Sheets is not sheets.
func shape(v *value, t reflect.Type, at pointer) []mistake {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t == raw {
		return sortOf(v, at, '{', "object", twice(v, at))
	}
	switch t.Kind() {
	case reflect.Struct:
		return sortOf(v, at, '{', "object", fieldsOf(v, t, at))
	case reflect.Slice:
		var all []mistake
		for i := range v.items {
			all = append(all, shape(&v.items[i], t.Elem(), at.item(i))...)
		}
		return sortOf(v, at, '[', "list", all)
	case reflect.String:
		return sortOf(v, at, '"', "text", nil)
	case reflect.Bool:
		return sortOf(v, at, 't', "bool", nil)
	case reflect.Float64:
		if _, err := strconv.ParseFloat(string(v.raw), 64); v.is() == '0' && err == nil {
			return nil
		}
		return sortOf(v, at, 0, "number", nil)
	default:
		if _, err := strconv.ParseInt(string(v.raw), 10, t.Bits()); err == nil {
			return nil
		}
		return sortOf(v, at, 0, "whole", nil)
	}
}

// sortOf returns what is wrong within a value that is of the right sort, else that it is not.
func sortOf(v *value, at pointer, want byte, word string, within []mistake) []mistake {
	if v.is() != want {
		return []mistake{{at: at, code: "not_" + word, found: short(v.raw)}}
	}
	return within
}

// short is a value as it is shown to whoever sent it.
func short(raw []byte) string {
	const most = 40
	text := []rune(string(raw))
	if len(text) > most {
		return string(text[:most]) + "…"
	}
	return string(text)
}

func fieldsOf(v *value, t reflect.Type, at pointer) []mistake {
	all := repeated(v, at)
	known := namesOf(t)
	for i := range v.fields {
		f := &v.fields[i]
		if of, ok := known[f.name]; ok {
			all = append(all, shape(&f.value, of, at.field(f.name))...)
			continue
		}
		var names []string
		for name := range known {
			names = append(names, name)
		}
		slices.Sort(names)
		all = append(all, mistake{at: at.field(f.name), code: "unknown", found: short([]byte(f.name)), want: names})
	}
	return all
}

// repeated returns the names that stand more than once.
func repeated(v *value, at pointer) (all []mistake) {
	seen := map[string]int{}
	for i := range v.fields {
		name := v.fields[i].name
		if seen[name]++; seen[name] == 2 {
			all = append(all, mistake{at: at.field(name), code: "twice", found: short([]byte(name))})
		}
	}
	return all
}

// twice returns the names that stand more than once anywhere within.
func twice(v *value, at pointer) []mistake {
	all := repeated(v, at)
	for i := range v.fields {
		all = append(all, twice(&v.fields[i].value, at.field(v.fields[i].name))...)
	}
	for i := range v.items {
		all = append(all, twice(&v.items[i], at.item(i))...)
	}
	return all
}

// namesOf returns the fields of a struct by their names in JSON, those of embedded structs among them.
func namesOf(t reflect.Type) map[string]reflect.Type {
	all := map[string]reflect.Type{}
	for f := range t.Fields() {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case name == "-":
		case name == "" && f.Anonymous:
			maps.Copy(all, namesOf(f.Type))
		case name != "":
			all[name] = f.Type
		}
	}
	return all
}
