package main

import (
	"go/ast"
	"go/types"
)

// accepted marks the constants in calls that check what is accepted.
func (f *finder) accepted(tree *ast.File) {
	ast.Inspect(tree, func(n ast.Node) bool {
		c, ok := n.(*ast.CallExpr)
		if !ok || !f.limits(c) {
			return true
		}
		for _, arg := range c.Args {
			ast.Inspect(arg, func(n ast.Node) bool {
				if id, ok := n.(*ast.Ident); ok {
					f.checked[f.src.info.Uses[id]] = true
				}
				return true
			})
		}
		return false
	})
}

// limits tells whether a call checks what is accepted. Its limits are no
// figures: they say how far a measure is credible, and the error tells them.
// The constants among them are such limits until they turn up elsewhere.
func (f *finder) limits(c *ast.CallExpr) bool {
	sel, ok := c.Fun.(*ast.SelectorExpr)
	if !ok {
		return false
	}
	id, ok := sel.X.(*ast.Ident)
	if !ok {
		return false
	}
	name, ok := f.src.info.Uses[id].(*types.PkgName)
	return ok && name.Imported().Path() == module+"internal/check"
}

// whole tells whether an expression is a lone number of a whole kind: the half
// of a length, a count. Such are code, which -code spoils.
func whole(e ast.Expr, basic *types.Basic) bool {
	_, ok := e.(*ast.BasicLit)
	return ok && basic.Info()&types.IsInteger != 0
}

// bare tells whether an expression is a 1 and nothing more.
func bare(e ast.Expr) bool {
	lit, ok := e.(*ast.BasicLit)
	return ok && (lit.Value == "1" || lit.Value == "1.0")
}
