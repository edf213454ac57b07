package rules

import (
	"fmt"
	"go/ast"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
)

// scope is what the code of a package declares at its top level.
type scope struct {
	fset    *token.FileSet
	names   map[string]*decl
	methods map[string][]*decl // by the type they belong to
}

// scopes are the packages of the module, by import path.
type scopes map[string]*scope

// decl is one declared name.
type decl struct {
	in    *scope
	file  *ast.File
	name  *ast.Ident
	tok   token.Token // TYPE, FUNC, VAR or CONST
	alias bool
	typ   ast.Expr // of a type what it is, of a function its signature; nil when it is not written
	value ast.Expr // of a variable or constant

	recv   *ast.FieldList // of a method
	params *ast.FieldList // of a generic type
}

// scopeOf lists what files declare.
func scopeOf(fset *token.FileSet, files []*ast.File) *scope {
	s := &scope{fset: fset, names: map[string]*decl{}, methods: map[string][]*decl{}}
	for _, f := range files {
		for _, d := range f.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				m := &decl{in: s, file: f, name: d.Name, tok: token.FUNC, typ: d.Type, recv: d.Recv}
				if d.Recv == nil {
					s.names[d.Name.Name] = m
				} else {
					of := receiver(d.Recv)
					s.methods[of] = append(s.methods[of], m)
				}
			case *ast.GenDecl:
				s.add(f, d)
			}
		}
	}
	return s
}

func (s *scope) add(f *ast.File, d *ast.GenDecl) {
	var last *ast.ValueSpec // what a constant without a value repeats
	for _, spec := range d.Specs {
		switch x := spec.(type) {
		case *ast.TypeSpec:
			s.names[x.Name.Name] = &decl{in: s, file: f, name: x.Name, tok: token.TYPE, alias: x.Assign.IsValid(), typ: x.Type, params: x.TypeParams}
		case *ast.ValueSpec:
			from := x
			if d.Tok == token.CONST && x.Type == nil && len(x.Values) == 0 && last != nil {
				from = last
			}
			last = from
			for i, n := range x.Names {
				v := &decl{in: s, file: f, name: n, tok: d.Tok, typ: from.Type}
				if len(from.Values) > 0 {
					v.value = from.Values[min(i, len(from.Values)-1)]
				}
				s.names[n.Name] = v
			}
		}
	}
}

// place says where d stands, for a fault in a package at path.
func (d *decl) place(path string) string {
	pos := d.in.fset.Position(d.name.Pos())
	return fmt.Sprintf("%s/%s:%d", path, filepath.Base(pos.Filename), pos.Line)
}

// find gives what a name that stands in d declares; nil is a name of the language,
// of a type parameter or of another module.
func (all scopes) find(d *decl, e ast.Expr) *decl {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return all.find(d, e.X)
	case *ast.IndexExpr:
		return all.find(d, e.X)
	case *ast.IndexListExpr:
		return all.find(d, e.X)
	case *ast.Ident:
		return d.in.names[e.Name]
	case *ast.SelectorExpr:
		if s := all[importOf(d.file, e.X)]; s != nil {
			return s.names[e.Sel.Name]
		}
	}
	return nil
}

// importOf gives the path of the package that a name stands for in a file.
func importOf(f *ast.File, e ast.Expr) string {
	id, ok := e.(*ast.Ident)
	if !ok {
		return ""
	}
	for _, i := range f.Imports {
		path, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			continue
		}
		name := path[strings.LastIndexByte(path, '/')+1:]
		if i.Name != nil {
			name = i.Name.Name
		}
		if name == id.Name {
			return path
		}
	}
	return ""
}

// constant gives the type of a constant and the declaration it stands in; a
// constant without one has no type yet.
func (all scopes) constant(d *decl) (ast.Expr, *decl) {
	if d.typ != nil {
		return d.typ, d
	}
	return all.typeIn(d, d.value)
}

// typeIn gives the type of a constant expression.
func (all scopes) typeIn(d *decl, e ast.Expr) (ast.Expr, *decl) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return all.typeIn(d, e.X)
	case *ast.UnaryExpr:
		return all.typeIn(d, e.X)
	case *ast.BinaryExpr:
		t, of := all.typeIn(d, e.X)
		if t == nil && e.Op != token.SHL && e.Op != token.SHR {
			return all.typeIn(d, e.Y)
		}
		return t, of
	case *ast.CallExpr: // a conversion
		return e.Fun, d
	case *ast.Ident, *ast.SelectorExpr:
		if c := all.find(d, e); c != nil && c.tok == token.CONST {
			return all.constant(c)
		}
	}
	return nil, nil
}
