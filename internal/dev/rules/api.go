package rules

import (
	"go/ast"
	"go/token"
	"go/types"
	"maps"
	"slices"
	"strings"
)

// API lists what p promises, one line for each exported name: constants with
// the value that is written, unless they are counted, variables, functions,
// types with their fields and their names in files, methods. Parameters keep
// their names, which say what each of two lengths is. What is written on several
// lines comes on one, so that only a change of the promise changes the list.
func API(p Package) ([]string, error) {
	m, err := written()
	if err != nil {
		return nil, err
	}
	s := m.scopes[p.ImportPath]
	byKind := map[token.Token][]string{}
	for _, name := range slices.Sorted(maps.Keys(s.names)) {
		if d := s.names[name]; d.name.IsExported() {
			byKind[d.tok] = append(byKind[d.tok], m.scopes.promised(d)...)
		}
	}
	return slices.Concat(byKind[token.CONST], byKind[token.VAR], byKind[token.FUNC], byKind[token.TYPE]), nil
}

// promised gives the lines of one name.
func (all scopes) promised(d *decl) []string {
	name := d.name.Name
	switch d.tok {
	case token.FUNC:
		return []string{"func " + name + signature(d)}
	case token.CONST:
		return []string{all.constantLine(d)}
	case token.VAR:
		return []string{"var " + name + " " + variableType(d)}
	default:
		out := typeLines(d)
		if of := all.find(d, d.typ); d.alias && of != nil && strings.Contains(all.path(of), "/internal/") {
			out = append(out, typeLines(of)...) // nobody can look it up where it is written
		}
		return out
	}
}

// path gives the package that a name is declared in.
func (all scopes) path(d *decl) string {
	for path, s := range all {
		if s == d.in {
			return path
		}
	}
	return ""
}

// constantLine gives a constant with its type and value. Of one that is counted
// by iota the number is no promise.
func (all scopes) constantLine(d *decl) string {
	line := "const " + d.name.Name
	counted := false
	ast.Inspect(d.value, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		counted = counted || ok && id.Name == "iota"
		return true
	})
	if t, _ := all.constant(d); t != nil && (d.typ != nil || counted) {
		line += " " + types.ExprString(t)
	}
	if counted {
		return line
	}
	return line + " = " + types.ExprString(d.value)
}

func variableType(d *decl) string {
	if d.typ != nil {
		return types.ExprString(d.typ)
	}
	star, v := "", d.value
	if at, ok := v.(*ast.UnaryExpr); ok && at.Op == token.AND {
		star, v = "*", at.X
	}
	if l, ok := v.(*ast.CompositeLit); ok {
		return star + types.ExprString(l.Type)
	}
	if c, ok := v.(*ast.CallExpr); ok && types.ExprString(c.Fun) == "errors.New" {
		return "error"
	}
	return "= " + types.ExprString(v)
}

// typeLines gives a type, its fields and its methods.
func typeLines(d *decl) []string {
	name := d.name.Name
	line := "type " + name + parameters(d.params)
	if d.alias {
		line += " ="
	}
	var out []string
	s, isStruct := d.typ.(*ast.StructType)
	if isStruct {
		out = append(out, line+" struct")
		for _, f := range s.Fields.List {
			out = append(out, fieldLines(name, f)...)
		}
	} else {
		out = append(out, line+" "+types.ExprString(d.typ))
	}
	var methods []string
	for _, m := range d.in.methods[name] {
		if m.name.IsExported() {
			methods = append(methods, "method "+name+"."+m.name.Name+signature(m))
		}
	}
	slices.Sort(methods)
	return append(out, methods...)
}

// fieldLines gives the exported names of a field of a struct, and an embedded
// one whatever its name: what it has becomes the struct's.
func fieldLines(of string, f *ast.Field) []string {
	rest := types.ExprString(f.Type)
	if f.Tag != nil {
		rest += " " + f.Tag.Value
	}
	if len(f.Names) == 0 {
		return []string{"embeds " + of + " " + rest}
	}
	var out []string
	for _, n := range f.Names {
		if n.IsExported() {
			out = append(out, "field "+of+"."+n.Name+" "+rest)
		}
	}
	return out
}

// signature gives parameters and results, of a method on a pointer with a word
// that says so.
func signature(d *decl) string {
	t, ok := d.typ.(*ast.FuncType)
	if !ok {
		return ""
	}
	text := parameters(t.TypeParams) + strings.TrimPrefix(types.ExprString(t), "func")
	if d.recv != nil {
		if _, pointer := d.recv.List[0].Type.(*ast.StarExpr); pointer {
			text += ", on a pointer"
		}
	}
	return text
}

// parameters gives those of a generic type or function.
func parameters(list *ast.FieldList) string {
	if list == nil {
		return ""
	}
	var out []string
	for _, f := range list.List {
		for _, n := range f.Names {
			out = append(out, n.Name+" "+types.ExprString(f.Type))
		}
	}
	return "[" + strings.Join(out, ", ") + "]"
}
