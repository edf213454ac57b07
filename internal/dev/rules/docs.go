package rules

import (
	"fmt"
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
)

// Docs lists the exported names of p that have no doc comment: the package
// itself, constants, variables, functions, types, methods and the methods of
// interfaces. A comment on a group or behind the name counts.
func Docs(p Package) ([]string, error) {
	fset := token.NewFileSet()
	var faults []string
	packageDoc := false
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.ParseComments)
		if err != nil {
			return nil, err
		}
		packageDoc = packageDoc || said(f.Doc)
		for _, d := range f.Decls {
			for _, id := range undocumented(d) {
				pos := fset.Position(id.Pos())
				faults = append(faults, fmt.Sprintf("%s/%s:%d: %s has no doc comment", p.Path(), name, pos.Line, id.Name))
			}
		}
	}
	if !packageDoc {
		faults = append(faults, p.Path()+": no package comment")
	}
	return faults, nil
}

func said(groups ...*ast.CommentGroup) bool {
	for _, g := range groups {
		if strings.TrimSpace(g.Text()) != "" {
			return true
		}
	}
	return false
}

func undocumented(d ast.Decl) []*ast.Ident {
	var out []*ast.Ident
	miss := func(documented bool, names ...*ast.Ident) {
		for _, n := range names {
			if n.IsExported() && !documented {
				out = append(out, n)
			}
		}
	}
	switch d := d.(type) {
	case *ast.FuncDecl:
		if d.Recv == nil || ast.IsExported(receiver(d.Recv)) {
			miss(said(d.Doc), d.Name)
		}
	case *ast.GenDecl:
		for _, spec := range d.Specs {
			switch s := spec.(type) {
			case *ast.ValueSpec:
				miss(said(d.Doc, s.Doc, s.Comment), s.Names...)
			case *ast.TypeSpec:
				miss(said(d.Doc, s.Doc, s.Comment), s.Name)
				if i, ok := s.Type.(*ast.InterfaceType); ok && s.Name.IsExported() {
					for _, m := range i.Methods.List {
						miss(said(m.Doc, m.Comment), m.Names...)
					}
				}
			}
		}
	}
	return out
}

// Examples counts the runnable examples of p: those with an Output comment.
func Examples(p Package) (int, error) {
	fset := token.NewFileSet()
	var files []*ast.File
	for _, name := range append(append([]string{}, p.TestGoFiles...), p.XTestGoFiles...) {
		f, err := parser.ParseFile(fset, filepath.Join(p.Dir, name), nil, parser.ParseComments)
		if err != nil {
			return 0, err
		}
		files = append(files, f)
	}
	n := 0
	for _, e := range doc.Examples(files...) {
		if e.Output != "" || e.EmptyOutput {
			n++
		}
	}
	return n, nil
}
