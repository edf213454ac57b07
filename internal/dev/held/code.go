package main

import (
	"fmt"
	"go/ast"
	"go/token"
	"go/types"
	"math/rand/v2"
	"path"
	"slices"
)

// mutant is one place of the code that can be made different.
type mutant struct {
	file     int
	from, to token.Pos
	what     []string // what is done to it: the first by the id, the second by the next
	text     func(id int, old func(from, to token.Pos) string) string
}

// comparisons and sums name the function that does the same, and otherwise
// when it is chosen.
var comparisons = map[token.Token]string{token.LSS: "heldLess", token.GTR: "heldMore", token.LEQ: "heldNoMore", token.GEQ: "heldNoLess",
	token.EQL: "heldSame", token.NEQ: "heldOther"}

var sums = map[token.Token]string{token.ADD: "heldAdd", token.SUB: "heldSub", token.MUL: "heldMul", token.QUO: "heldQuo"}

// mutants finds the places in the functions of a package: comparisons,
// arithmetic, and and or, errors that are given back, truths that are.
func mutants(s *source) []mutant {
	var found []mutant
	for i, f := range s.files {
		add := func(n ast.Node, text func(id int, old func(from, to token.Pos) string) string, what ...string) {
			found = append(found, mutant{i, n.Pos(), n.End(), what, text})
		}
		for _, d := range f.tree.Decls {
			fn, ok := d.(*ast.FuncDecl)
			if !ok || fn.Body == nil {
				continue
			}
			ast.Inspect(fn.Body, func(n ast.Node) bool {
				if e, ok := n.(ast.Expr); ok && s.info.Types[e].Value != nil && s.info.Types[e].Value.String() != "true" && s.info.Types[e].Value.String() != "false" {
					return false
				}
				switch n := n.(type) {
				case *ast.IfStmt:
					if s.refuses(n) {
						add(n.Cond, func(id int, old func(from, to token.Pos) string) string {
							return fmt.Sprintf("heldIf(%d, %s)", id, old(n.Cond.Pos(), n.Cond.End()))
						}, "the error is not given back")
					}
				case *ast.BinaryExpr:
					s.operation(n, add)
				case *ast.ReturnStmt:
					for _, e := range n.Results {
						if id, ok := e.(*ast.Ident); ok && (id.Name == "true" || id.Name == "false") {
							add(e, func(n int, _ func(from, to token.Pos) string) string {
								return fmt.Sprintf("heldBool(%d, %s)", n, id.Name)
							}, "not "+id.Name)
						}
					}
				}
				return true
			})
		}
	}
	return found
}

// refuses tells whether a condition does nothing but give an error back.
func (s *source) refuses(n *ast.IfStmt) bool {
	if n.Else != nil || len(n.Body.List) != 1 {
		return false
	}
	r, ok := n.Body.List[0].(*ast.ReturnStmt)
	if !ok || len(r.Results) == 0 {
		return false
	}
	last := s.info.Types[r.Results[len(r.Results)-1]]
	obj := types.Universe.Lookup("error")
	return last.Type != nil && !last.IsNil() && types.AssignableTo(last.Type, obj.Type())
}

func (s *source) operation(n *ast.BinaryExpr, add func(ast.Node, func(int, func(from, to token.Pos) string) string, ...string)) {
	x, y := s.info.Types[n.X], s.info.Types[n.Y]
	call := func(name string) func(int, func(from, to token.Pos) string) string {
		return func(id int, old func(from, to token.Pos) string) string {
			return fmt.Sprintf("%s(%d, %s, %s)", name, id, old(n.X.Pos(), n.X.End()), old(n.Y.Pos(), n.Y.End()))
		}
	}
	if n.Op == token.LAND || n.Op == token.LOR {
		name := map[token.Token]string{token.LAND: "heldAnd", token.LOR: "heldOr"}[n.Op]
		add(n, func(id int, old func(from, to token.Pos) string) string {
			return fmt.Sprintf("%s(%d, %s, func() bool { return %s })", name, id, old(n.X.Pos(), n.X.End()), old(n.Y.Pos(), n.Y.End()))
		}, "and for or, or for and")
		return
	}
	basic, ok := x.Type.Underlying().(*types.Basic)
	if _, param := x.Type.(*types.TypeParam); param || !ok || !types.Identical(x.Type, y.Type) || x.Value != nil && y.Value != nil {
		return
	}
	numeric := basic.Info()&(types.IsInteger|types.IsFloat) != 0
	switch name := comparisons[n.Op]; {
	case (n.Op == token.EQL || n.Op == token.NEQ) && basic.Info()&types.IsUntyped == 0:
		add(n, call(name), n.Op.String()+" the other way")
	case name != "" && numeric:
		add(n, call(name), n.Op.String()+" with the border on the other side", n.Op.String()+" the other way")
	case sums[n.Op] != "" && numeric:
		add(n, call(sums[n.Op]), n.Op.String()+" the other way")
	}
}

// sampled takes n mutants of a package, always the same.
func sampled(s *source, n int, seed uint64) []change {
	found := mutants(s)
	all := make([]int, len(found))
	for i := range all {
		all[i] = i
	}
	r := rand.New(rand.NewPCG(seed, uint64(len(s.path))))
	r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	if n < len(all) {
		all = all[:n]
	}
	slices.Sort(all) // as they stand: a condition before what it is made of, or its edit is lost in theirs
	var out []change
	for _, i := range all {
		m, which := &found[i], r.IntN(len(found[i].what))
		at := s.fset.Position(m.from)
		out = append(out, change{src: s, mutant: m, second: which, what: fmt.Sprintf("%s:%d:%d: %s", path.Join(s.path, s.files[m.file].name), at.Line, at.Column, m.what[which])})
	}
	return out
}

// codeEdits gives the edits of each file for the mutants among the changes.
func codeEdits(s *source, all []change) map[int][]edit {
	edits := map[int][]edit{}
	for _, c := range all {
		if c.src == s && c.mutant != nil {
			m, id := c.mutant, c.id-c.second
			edits[m.file] = append(edits[m.file], edit{m.from, m.to, func(old func(from, to token.Pos) string) string { return m.text(id, old) }})
		}
	}
	return edits
}
