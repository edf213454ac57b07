package rules

import (
	"go/types"
)

// MostNames is how many names a public package may export. One that grows past
// it is two ideas.
const MostNames = 120

// Names counts what p exports: types, functions, constants and variables.
// Methods are not counted, and the constants of a type of p, such as those of an
// enumeration or the units of a quantity, count together with it as one.
func Names(p Package) (int, error) {
	pkg, err := imported(p)
	if err != nil {
		return 0, err
	}
	n := 0
	for _, name := range pkg.Scope().Names() {
		obj := pkg.Scope().Lookup(name)
		if obj.Exported() && !ofOwnType(obj) {
			n++
		}
	}
	return n, nil
}

// ofOwnType tells whether obj is a constant of an exported type of its package.
func ofOwnType(obj types.Object) bool {
	c, ok := obj.(*types.Const)
	if !ok {
		return false
	}
	t, ok := c.Type().(*types.Named)
	return ok && t.Obj().Pkg() == obj.Pkg() && t.Obj().Exported()
}
