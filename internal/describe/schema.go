package main

import (
	"fmt"
	"go/ast"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// object is an object of the description.
type object = map[string]any

// A maker makes schemas of types.
type maker struct {
	sources map[string]*source // by package
	schemas object
	from    map[string]string // the package of each schema
}

// schema makes the schema of a struct, once, and returns a reference to it.
func (m *maker) schema(pkg, name string) (object, error) {
	ref := object{"$ref": "#/components/schemas/" + name}
	if _, made := m.schemas[name]; made {
		if m.from[name] != pkg {
			return nil, fmt.Errorf("%s and %s both have a type %s", pkg, m.from[name], name)
		}
		return ref, nil
	}
	m.from[name] = pkg
	m.schemas[name] = nil // a type that holds itself ends here
	props, required := object{}, []string{}
	if err := m.fields(pkg, name, props, &required); err != nil {
		return nil, err
	}
	slices.Sort(required)
	s := object{"type": "object", "properties": props, "additionalProperties": false}
	if len(required) > 0 {
		s["required"] = required
	}
	if doc := m.sources[pkg].docs[name]; doc != "" {
		s["description"] = doc
	}
	m.schemas[name] = s
	return ref, nil
}

// fields adds the fields of a struct, those of embedded ones among them.
func (m *maker) fields(pkg, name string, props object, required *[]string) error {
	spec := m.sources[pkg].types[name]
	if spec == nil {
		return fmt.Errorf("no type %s in %s", name, pkg)
	}
	st, ok := spec.Type.(*ast.StructType)
	if !ok {
		return fmt.Errorf("%s.%s is no struct", pkg, name)
	}
	for _, f := range st.Fields.List {
		if len(f.Names) == 0 {
			if err := m.fields(pkg, f.Type.(*ast.Ident).Name, props, required); err != nil {
				return err
			}
			continue
		}
		var tag, format string
		if f.Tag != nil {
			text, err := strconv.Unquote(f.Tag.Value)
			if err != nil {
				return err
			}
			tag, format = reflect.StructTag(text).Get("json"), reflect.StructTag(text).Get("format")
		}
		key, rest, _ := strings.Cut(tag, ",")
		if key == "" || key == "-" {
			continue
		}
		may := strings.Contains(rest, "omitempty")
		one, err := m.of(pkg, f.Type, may)
		if err != nil {
			return fmt.Errorf("%s.%s: %w", name, key, err)
		}
		if doc := said(f.Doc, f.Comment); doc != "" {
			one["description"] = doc
		}
		if format != "" {
			one["format"] = format
		}
		props[key] = one
		if !may {
			*required = append(*required, key)
		}
	}
	return nil
}

// of makes the schema of a field's type; may says that the field may be left out.
func (m *maker) of(pkg string, t ast.Expr, may bool) (object, error) {
	switch t := t.(type) {
	case *ast.StarExpr:
		inner, err := m.of(pkg, t.X, may)
		if err != nil || may {
			return inner, err
		}
		if sort, plain := inner["type"].(string); plain {
			inner["type"] = []string{sort, "null"}
			return inner, nil
		}
		return object{"anyOf": []object{inner, {"type": "null"}}}, nil
	case *ast.ArrayType:
		items, err := m.of(pkg, t.Elt, false)
		return object{"type": "array", "items": items}, err
	case *ast.MapType:
		values, err := m.of(pkg, t.Value, false)
		return object{"type": "object", "additionalProperties": values}, err
	case *ast.SelectorExpr: // of another package: json.RawMessage, or a word of the darkroom file
		if t.Sel.Name == "RawMessage" {
			return object{"type": "object"}, nil
		}
		if from, ok := t.X.(*ast.Ident); ok && from.Name == "facts" {
			return m.named("words/facts", t.Sel.Name, may)
		}
		return object{"type": "string"}, nil
	case *ast.Ident:
		return m.named(pkg, t.Name, may)
	}
	return nil, fmt.Errorf("no schema for %T", t)
}

func (m *maker) named(pkg, name string, may bool) (object, error) {
	switch name {
	case "string":
		return object{"type": "string"}, nil
	case "bool":
		return object{"type": "boolean"}, nil
	case "int":
		return object{"type": "integer"}, nil
	case "int64":
		return object{"type": "integer", "format": "int64"}, nil
	case "float64":
		return object{"type": "number"}, nil
	}
	s := m.sources[pkg]
	spec := s.types[name]
	if spec == nil {
		return nil, fmt.Errorf("no type %s in %s", name, pkg)
	}
	if _, isStruct := spec.Type.(*ast.StructType); isStruct {
		return m.schema(pkg, name)
	}
	words := slices.Clone(s.words[name])
	if may {
		words = append(words, "")
	}
	out := object{"type": "string"}
	if len(words) > 1 {
		out["enum"] = words
	}
	return out, nil
}
