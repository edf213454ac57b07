package rules

import (
	"go/ast"
	"go/token"
	"maps"
	"slices"
	"strings"
)

// Floats lists where the public API of p has a bare float64 or float32: in
// parameters, results, exported fields, methods, variables and typed
// constants. A defined type such as unit.Force is not bare. A method without
// parameters that gives a defined number in the unit of its own name, the way
// unit.Force.Newtons does, is the edge where numbers leave, and fine; so is a
// function XOf that makes a defined number of its package from one float, as
// unit.CottonCountOf does, where they enter. A variable says its type, unless it
// is an error or a composite literal, so that all this can be read.
func Floats(p Package) ([]string, error) {
	m, err := written()
	if err != nil {
		return nil, err
	}
	w := &floatWalker{scopes: m.scopes, path: p.Path()}
	s := m.scopes[p.ImportPath]
	for _, name := range slices.Sorted(maps.Keys(s.names)) {
		if ast.IsExported(name) {
			w.declared(s.names[name])
		}
	}
	return w.faults, nil
}

// BadPackage breaks the rules on purpose.
const BadPackage = Module + "/internal/dev/rules/internal/bad"

// edges are functions where a plain number enters or leaves by intent.
var edges = map[string]string{
	"thread.CountSystem.Of": "a yarn count is a number that its system gives a meaning",
	"thread.CountSystem.In": "a yarn count is a number that its system gives a meaning",
}

type floatWalker struct {
	scopes
	path   string
	faults []string
}

func (w *floatWalker) declared(d *decl) {
	name := d.name.Name
	switch d.tok {
	case token.FUNC:
		if !w.takesNumber(d) {
			w.report(d, name, d.typ)
		}
	case token.CONST:
		t, of := w.constant(d)
		if t != nil && w.bare(of, t) {
			w.fault(d, name, "a bare float")
		}
	case token.VAR:
		w.variable(d)
	case token.TYPE:
		switch t := d.typ.(type) {
		case *ast.StructType:
			if !d.alias {
				w.fields(d, t)
				break
			}
			w.report(d, name, t)
		default: // a defined number is the point of a unit
			if d.alias || !w.number(d) {
				w.report(d, name, t)
			}
		}
		number := w.number(d)
		for _, m := range d.in.methods[name] {
			if m.name.IsExported() && !(number && givesNumber(m)) {
				w.report(m, name+"."+m.name.Name, m.typ)
			}
		}
	}
}

// variable looks at a variable of the package.
func (w *floatWalker) variable(d *decl) {
	t := d.typ
	if t == nil {
		v := d.value
		if at, ok := v.(*ast.UnaryExpr); ok && at.Op == token.AND {
			v = at.X
		}
		switch v := v.(type) {
		case *ast.CompositeLit:
			t = v.Type
		case *ast.CallExpr:
			if f, ok := v.Fun.(*ast.SelectorExpr); ok && importOf(d.file, f.X) == "errors" {
				return
			}
		}
	}
	if t == nil {
		w.fault(d, d.name.Name, "no written type")
		return
	}
	w.report(d, d.name.Name, t)
}

// number tells whether a type is a plain one of the language under its name.
func (w *floatWalker) number(d *decl) bool {
	if of := w.find(d, d.typ); of != nil {
		return of.tok == token.TYPE && w.number(of)
	}
	_, plain := d.typ.(*ast.Ident)
	return plain
}

// givesNumber tells whether m is func() float64.
func givesNumber(m *decl) bool {
	t, ok := m.typ.(*ast.FuncType)
	return ok && t.Params.NumFields() == 0 && t.Results.NumFields() == 1 && isName(t.Results.List[0].Type, "float64")
}

func isName(e ast.Expr, names ...string) bool {
	id, ok := e.(*ast.Ident)
	return ok && slices.Contains(names, id.Name)
}

// takesNumber tells whether d is func XOf(float64) D or (D, error), with D
// a defined number of the same package.
func (w *floatWalker) takesNumber(d *decl) bool {
	t, ok := d.typ.(*ast.FuncType)
	if !ok || !strings.HasSuffix(d.name.Name, "Of") || t.Params.NumFields() != 1 || t.Results.NumFields() == 0 || !isName(t.Params.List[0].Type, "float64") {
		return false
	}
	of := w.find(d, t.Results.List[0].Type)
	return of != nil && of.in == d.in && of.tok == token.TYPE && !of.alias && w.number(of)
}

func (w *floatWalker) fields(d *decl, s *ast.StructType) {
	for _, f := range s.Fields.List {
		for _, n := range fieldNames(f) {
			if n.IsExported() {
				w.report(&decl{in: d.in, file: d.file, name: n}, d.name.Name+"."+n.Name, f.Type)
			}
		}
	}
}

// fieldNames gives the names of a field; one that is embedded has that of its type.
func fieldNames(f *ast.Field) []*ast.Ident {
	if len(f.Names) > 0 {
		return f.Names
	}
	t := f.Type
	for {
		switch x := t.(type) {
		case *ast.StarExpr:
			t = x.X
		case *ast.IndexExpr:
			t = x.X
		case *ast.IndexListExpr:
			t = x.X
		case *ast.SelectorExpr:
			return []*ast.Ident{x.Sel}
		case *ast.Ident:
			return []*ast.Ident{x}
		default:
			return nil
		}
	}
}

func (w *floatWalker) report(d *decl, name string, t ast.Expr) {
	if w.bare(d, t) {
		w.fault(d, name, "a bare float")
	}
}

func (w *floatWalker) fault(d *decl, name, what string) {
	if _, known := edges[w.path+"."+name]; !known {
		w.faults = append(w.faults, d.place(w.path)+": "+name+" has "+what)
	}
}

// bare tells whether a float without a name stands in a type that is written in
// d. Named types are looked at where they are declared.
func (w *floatWalker) bare(d *decl, t ast.Expr) bool {
	switch t := t.(type) {
	case *ast.Ident, *ast.SelectorExpr:
		if of := w.find(d, t); of != nil {
			return of.alias && w.bare(of, of.typ)
		}
		return isName(t, "float64", "float32", "complex128", "complex64")
	case *ast.IndexExpr:
		return w.bare(d, t.Index)
	case *ast.IndexListExpr:
		return slices.ContainsFunc(t.Indices, func(arg ast.Expr) bool { return w.bare(d, arg) })
	case *ast.ParenExpr:
		return w.bare(d, t.X)
	case *ast.StarExpr:
		return w.bare(d, t.X)
	case *ast.Ellipsis:
		return w.bare(d, t.Elt)
	case *ast.ArrayType:
		return w.bare(d, t.Elt)
	case *ast.ChanType:
		return w.bare(d, t.Value)
	case *ast.MapType:
		return w.bare(d, t.Key) || w.bare(d, t.Value)
	case *ast.FuncType:
		return w.anyBare(d, t.Params, false) || w.anyBare(d, t.Results, false)
	case *ast.StructType:
		return w.anyBare(d, t.Fields, true)
	case *ast.InterfaceType:
		return w.anyBare(d, t.Methods, true)
	}
	return false
}

// anyBare tells whether one of the fields, or of those exported, is bare.
func (w *floatWalker) anyBare(d *decl, list *ast.FieldList, exported bool) bool {
	if list == nil {
		return false
	}
	return slices.ContainsFunc(list.List, func(f *ast.Field) bool {
		return w.bare(d, f.Type) && (!exported || slices.ContainsFunc(fieldNames(f), (*ast.Ident).IsExported))
	})
}
