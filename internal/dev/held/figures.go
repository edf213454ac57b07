package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"path"
)

// figure is one literal of a table, of a coefficient or of a constant.
type figure struct {
	src         *source
	file        string // below the module, such as foam/rank.go
	declaration string // the function, variable or constant that holds it
	n           int    // which of the figures there, from 1
	lit         *ast.BasicLit
	rebuild     bool // tests use the constant too: the package is built anew
	limit       bool // the constant only says what is accepted
}

func (f figure) String() string {
	return fmt.Sprintf("%s, %s, %d: %s", f.file, f.declaration, f.n, f.lit.Value)
}

// place is a constant expression where the program runs, with the figures that
// it stands on.
type place struct {
	file    int // of its source
	expr    ast.Expr
	of      types.Type
	figures []*figure
}

// finder collects the figures of a package and their places.
type finder struct {
	src     *source
	figures []*figure
	places  []place
	byLit   map[*ast.BasicLit]*figure
	count   map[string]int        // figures of a declaration
	checked map[types.Object]bool // constants that say what is accepted
	left    []string              // places whose value cannot be worked out
}

func find(s *source) *finder {
	f := &finder{src: s, byLit: map[*ast.BasicLit]*figure{}, count: map[string]int{}, checked: map[types.Object]bool{}}
	for _, file := range s.files {
		f.accepted(file.tree)
	}
	for _, file := range s.files {
		for _, d := range file.tree.Decls {
			if g, ok := d.(*ast.GenDecl); ok && g.Tok == token.CONST {
				f.constants(file, g)
			}
		}
	}
	for i, file := range s.files {
		for _, d := range file.tree.Decls {
			switch d := d.(type) {
			case *ast.FuncDecl:
				if d.Body != nil {
					f.in(i, nameOf(d), d.Body, false)
				}
			case *ast.GenDecl:
				for _, spec := range d.Specs {
					if v, ok := spec.(*ast.ValueSpec); ok && d.Tok == token.VAR {
						for _, e := range v.Values {
							f.in(i, v.Names[0].Name, e, true)
						}
					}
				}
			}
		}
	}
	return f
}

func nameOf(d *ast.FuncDecl) string {
	if d.Recv == nil || len(d.Recv.List) == 0 {
		return d.Name.Name
	}
	t := d.Recv.List[0].Type
	if star, ok := t.(*ast.StarExpr); ok {
		t = star.X
	}
	if x, ok := t.(*ast.IndexExpr); ok {
		t = x.X
	}
	if id, ok := t.(*ast.Ident); ok {
		return id.Name + "." + d.Name.Name
	}
	return d.Name.Name
}

// add gives the figure of a literal, nil for nothing and for a bare one.
func (f *finder) add(file, declaration string, lit *ast.BasicLit) *figure {
	v := changed(lit.Value, byFive)
	if constant.Sign(v) == 0 {
		return nil
	}
	if fig, ok := f.byLit[lit]; ok {
		return fig
	}
	key := file + declaration
	f.count[key]++
	fig := &figure{src: f.src, file: path.Join(f.src.path, file), declaration: declaration, n: f.count[key], lit: lit}
	f.byLit[lit] = fig
	f.figures = append(f.figures, fig)
	return fig
}

// constants takes the figures of constants that do not count lines. Those that
// other packages or tests of the same package name are changed in the text.
func (f *finder) constants(file file, g *ast.GenDecl) {
	for _, spec := range g.Specs {
		v, ok := spec.(*ast.ValueSpec)
		if !ok {
			continue
		}
		for i, e := range v.Values {
			obj, ok := f.src.info.Defs[v.Names[i]].(*types.Const)
			if !ok || counts(e) || obj.Val().Kind() != constant.Int && obj.Val().Kind() != constant.Float {
				continue
			}
			for _, lit := range literals(e) {
				if fig := f.add(file.name, v.Names[i].Name, lit); fig != nil {
					fig.rebuild = obj.Exported() || f.src.inTests[obj.Name()]
					fig.limit = f.checked[obj]
				}
			}
		}
	}
}

func literals(e ast.Expr) []*ast.BasicLit {
	var found []*ast.BasicLit
	ast.Inspect(e, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && (lit.Kind == token.INT || lit.Kind == token.FLOAT) {
			found = append(found, lit)
		}
		return true
	})
	return found
}

// in finds the places below a node. In a table every number is a figure; in
// the code of a function the coefficients and the sizes are.
func (f *finder) in(file int, declaration string, root ast.Node, table bool) {
	name := f.src.files[file].name
	var walk func(n ast.Node, table bool)
	walk = func(n ast.Node, table bool) {
		ast.Inspect(n, func(c ast.Node) bool {
			switch c := c.(type) {
			case *ast.GenDecl:
				if c.Tok == token.CONST {
					f.constants(f.src.files[file], c)
					return false
				}
			case *ast.ArrayType, *ast.IndexExpr, *ast.SliceExpr, *ast.CaseClause:
				return f.within(c, table, walk)
			case *ast.CallExpr:
				if f.limits(c) {
					for _, arg := range c.Args {
						if f.src.info.Types[arg].Value == nil {
							walk(arg, table)
						}
					}
					return false
				}
			case *ast.FuncLit:
				table = false
			case *ast.CompositeLit:
				f.composite(c, table, walk)
				return false
			case ast.Expr:
				if tv := f.src.info.Types[c]; tv.Value != nil {
					f.place(file, name, declaration, c, tv, table)
					return false
				}
			}
			return true
		})
	}
	walk(root, table)
}

// within walks what may change of a node whose constants the language needs:
// the lengths of arrays, places in a list, the cases of a switch.
func (f *finder) within(n ast.Node, table bool, walk func(ast.Node, bool)) bool {
	switch n := n.(type) {
	case *ast.IndexExpr:
		walk(n.X, table)
		if f.src.info.Types[n.Index].Value == nil {
			walk(n.Index, false)
		}
	case *ast.SliceExpr:
		walk(n.X, table)
	case *ast.CaseClause:
		for _, e := range n.List {
			if f.src.info.Types[e].Value == nil {
				walk(e, table)
			}
		}
		for _, b := range n.Body {
			walk(b, table)
		}
	}
	return false
}

// composite walks the values of a literal of several parts, and the keys of a
// map. A list is a table wherever it stands.
func (f *finder) composite(c *ast.CompositeLit, table bool, walk func(ast.Node, bool)) {
	mapped := false
	switch f.src.info.Types[c].Type.Underlying().(type) {
	case *types.Map:
		mapped, table = true, true
	case *types.Array, *types.Slice:
		table = true
	}
	for _, e := range c.Elts {
		kv, ok := e.(*ast.KeyValueExpr)
		if !ok {
			walk(e, table)
			continue
		}
		if mapped {
			walk(kv.Key, table)
		}
		walk(kv.Value, table)
	}
}

func (f *finder) place(file int, name, declaration string, e ast.Expr, tv types.TypeAndValue, table bool) {
	if tv.Value.Kind() != constant.Int && tv.Value.Kind() != constant.Float {
		return
	}
	basic, ok := tv.Type.Underlying().(*types.Basic)
	if !ok || basic.Info()&types.IsUntyped != 0 {
		return
	}
	p := place{file: file, expr: e, of: tv.Type}
	f.constantsOf(e, &p)
	for _, fig := range p.figures {
		if fig != nil {
			fig.limit = false
		}
	}
	ownType := tv.Type != types.Typ[basic.Kind()] || basic.Info()&types.IsFloat != 0
	if table || ownType && !bare(e) {
		for _, lit := range literals(e) {
			if fig := f.add(name, declaration, lit); table || !whole(e, basic) {
				p.figures = append(p.figures, fig)
			}
		}
	}
	var known []*figure
	for _, fig := range p.figures {
		if fig != nil && !fig.rebuild {
			known = append(known, fig)
		}
	}
	if p.figures = known; len(known) == 0 {
		return
	}
	if v, err := f.src.value(e, nil); err != nil || written(v, tv.Type, tv.Value) != written(tv.Value, tv.Type, tv.Value) {
		f.left = append(f.left, f.src.fset.Position(e.Pos()).String())
		return
	}
	f.places = append(f.places, p)
}

// constantsOf adds the figures of the constants that an expression names.
func (f *finder) constantsOf(e ast.Expr, p *place) {
	ast.Inspect(e, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		if !ok {
			return true
		}
		obj, ok := f.src.info.Uses[id].(*types.Const)
		if !ok || obj.Pkg() != f.src.pkg {
			return true
		}
		if initial := f.src.initial(obj); initial != nil {
			for _, lit := range literals(initial) {
				p.figures = append(p.figures, f.byLit[lit])
			}
			f.constantsOf(initial, p)
		}
		return true
	})
}
