package main

import (
	"fmt"
	"go/types"
	"strings"
)

// The variable of the environment that says which change a program is to make.
const chosen = "HELD_CHANGE"

// switches is the file that is laid beside those of a package: what makes the
// chosen change, and names for the types of other packages.
type switches struct {
	pkg     *types.Package
	types   []types.Type
	imports []string
}

// name gives the name of a type in the files of the package.
func (w *switches) name(t types.Type) string {
	if p, ok := t.(*types.TypeParam); ok {
		return p.Obj().Name()
	}
	if n, ok := t.(*types.Named); ok && n.Obj().Pkg() == w.pkg {
		return n.Obj().Name()
	}
	for i, known := range w.types {
		if types.Identical(known, t) {
			return fmt.Sprintf("heldType%d", i)
		}
	}
	w.types = append(w.types, t)
	return fmt.Sprintf("heldType%d", len(w.types)-1)
}

func (w *switches) text() []byte {
	var names strings.Builder
	for i, t := range w.types {
		name := types.TypeString(t, func(p *types.Package) string {
			w.imports = append(w.imports, fmt.Sprintf("held%d %q", i, p.Path()))
			return fmt.Sprintf("held%d", i)
		})
		fmt.Fprintf(&names, "type heldType%d = %s\n", i, name)
	}
	return fmt.Appendf(nil, "package %s\n\nimport (\n\"os\"\n\"strconv\"\n\"cmp\"\n%s\n)\n\n%s%s", w.pkg.Name(), strings.Join(w.imports, "\n"), names.String(), machine)
}

// machine chooses: each of its functions makes one kind of change.
const machine = `
var heldNow = func() int {
	n, err := strconv.Atoi(os.Getenv("` + chosen + `"))
	if err != nil {
		return -1
	}
	return n
}()

func heldFigure[T any](id int, other, now T) T {
	if heldNow == id {
		return other
	}
	return now
}

func heldIf(id int, now bool) bool { return now && heldNow != id }

func heldBool(id int, now bool) bool { return now != (heldNow == id) }

// Of each comparison: the border to the other side, and all the other way.
func heldLess[T cmp.Ordered](id int, a, b T) bool {
	switch heldNow {
	case id:
		return a <= b
	case id + 1:
		return a >= b
	}
	return a < b
}

func heldNoMore[T cmp.Ordered](id int, a, b T) bool {
	switch heldNow {
	case id:
		return a < b
	case id + 1:
		return a >= b
	}
	return a <= b
}

func heldMore[T cmp.Ordered](id int, a, b T) bool   { return heldLess(id, b, a) }
func heldNoLess[T cmp.Ordered](id int, a, b T) bool { return heldNoMore(id, b, a) }
func heldSame[T comparable](id int, a, b T) bool    { return (a == b) != (heldNow == id) }
func heldOther[T comparable](id int, a, b T) bool   { return (a != b) != (heldNow == id) }

func heldAnd(id int, a bool, b func() bool) bool {
	if heldNow == id {
		return a || b()
	}
	return a && b()
}

func heldOr(id int, a bool, b func() bool) bool {
	if heldNow == id {
		return a && b()
	}
	return a || b()
}

type heldNumber interface {
	~int | ~int8 | ~int16 | ~int32 | ~int64 | ~uint | ~uint8 | ~uint16 | ~uint32 | ~uint64 | ~float32 | ~float64
}

func heldAdd[T heldNumber](id int, a, b T) T {
	if heldNow == id {
		return a - b
	}
	return a + b
}

func heldSub[T heldNumber](id int, a, b T) T {
	if heldNow == id {
		return a + b
	}
	return a - b
}

func heldMul[T heldNumber](id int, a, b T) T {
	if heldNow == id {
		return a / b
	}
	return a * b
}

func heldQuo[T heldNumber](id int, a, b T) T {
	if heldNow == id {
		return a * b
	}
	return a / b
}
`
