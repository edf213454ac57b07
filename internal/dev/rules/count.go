package rules

import (
	"go/ast"
	"go/token"
)

// MostNames is how many names a public package may export. One that grows past
// it is two ideas.
const MostNames = 120

// Names counts what p exports: types, functions, constants and variables.
// Methods are not counted, and the constants of a type of p, such as those of an
// enumeration or the units of a quantity, count together with it as one.
func Names(p Package) (int, error) {
	m, err := written()
	if err != nil {
		return 0, err
	}
	n := 0
	for name, d := range m.scopes[p.ImportPath].names {
		if ast.IsExported(name) && !m.scopes.ofOwnType(d) {
			n++
		}
	}
	return n, nil
}

// ofOwnType tells whether d is a constant of an exported type of its package.
func (all scopes) ofOwnType(d *decl) bool {
	if d.tok != token.CONST {
		return false
	}
	t, of := all.constant(d)
	if t == nil {
		return false
	}
	own := all.find(of, t)
	return own != nil && own.in == d.in && own.tok == token.TYPE && !own.alias && own.name.IsExported()
}
