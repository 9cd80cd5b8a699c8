package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
)

// A source is what the Go files of one package say of types.
type source struct {
	types  map[string]*ast.TypeSpec
	docs   map[string]string   // of types
	words  map[string][]string // the values of a type's constants, in order
	values map[string]string   // constants by name
	kinds  map[string]string   // the name of the constant that a type's method Kind returns
}

// readSource reads the files of a package, without its tests.
func readSource(dir string) (*source, error) {
	names, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	s := &source{map[string]*ast.TypeSpec{}, map[string]string{}, map[string][]string{}, map[string]string{}, map[string]string{}}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.GenDecl:
				s.declared(d)
			case *ast.FuncDecl:
				s.method(d)
			}
		}
	}
	if len(s.types) == 0 {
		return nil, fmt.Errorf("no types in %s", dir)
	}
	return s, nil
}

func (s *source) declared(d *ast.GenDecl) {
	for _, spec := range d.Specs {
		switch x := spec.(type) {
		case *ast.TypeSpec:
			doc := x.Doc
			if doc == nil {
				doc = d.Doc
			}
			s.types[x.Name.Name], s.docs[x.Name.Name] = x, said(doc)
		case *ast.ValueSpec:
			if d.Tok == token.CONST {
				s.constant(x)
			}
		}
	}
}

// constant keeps a constant text of a named type.
func (s *source) constant(x *ast.ValueSpec) {
	of, named := x.Type.(*ast.Ident)
	for i, name := range x.Names {
		if i >= len(x.Values) {
			continue
		}
		lit, ok := x.Values[i].(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			continue
		}
		text, err := strconv.Unquote(lit.Value)
		if err != nil {
			continue
		}
		s.values[name.Name] = text
		if named && text != "" {
			s.words[of.Name] = append(s.words[of.Name], text)
		}
	}
}

// method keeps which constant a type's method Kind returns.
func (s *source) method(d *ast.FuncDecl) {
	if d.Name.Name != "Kind" || d.Recv == nil || len(d.Body.List) != 1 {
		return
	}
	star, ok := d.Recv.List[0].Type.(*ast.StarExpr)
	if !ok {
		return
	}
	back, ok := d.Body.List[0].(*ast.ReturnStmt)
	if !ok {
		return
	}
	of, isType := star.X.(*ast.Ident)
	if name, isConst := back.Results[0].(*ast.Ident); isType && isConst {
		s.kinds[of.Name] = name.Name
	}
}

// said is a comment on one line.
func said(c ...*ast.CommentGroup) string {
	var all []string
	for _, g := range c {
		if g != nil {
			all = append(all, strings.Fields(g.Text())...)
		}
	}
	return strings.Join(all, " ")
}
