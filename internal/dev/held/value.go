package main

import (
	"fmt"
	"go/ast"
	"go/constant"
	"go/token"
	"go/types"
	"strconv"
)

// changes says which literals have another value.
type changes map[*ast.BasicLit]constant.Value

// value works a constant expression out, with some of its literals changed, and
// those of the constants of its package that it names. Nothing is rounded on
// the way.
func (s *source) value(e ast.Expr, c changes) (constant.Value, error) {
	switch e := e.(type) {
	case *ast.BasicLit:
		if v, ok := c[e]; ok {
			return v, nil
		}
		if e.Kind == token.INT || e.Kind == token.FLOAT {
			return constant.MakeFromLiteral(e.Value, e.Kind, 0), nil
		}
	case *ast.ParenExpr:
		return s.value(e.X, c)
	case *ast.UnaryExpr:
		v, err := s.value(e.X, c)
		if err == nil && (e.Op == token.SUB || e.Op == token.ADD) {
			return constant.UnaryOp(e.Op, v, 0), nil
		}
	case *ast.BinaryExpr:
		return s.binary(e, c)
	case *ast.CallExpr:
		if len(e.Args) == 1 && s.info.Types[e.Fun].IsType() {
			return s.value(e.Args[0], c)
		}
	case *ast.Ident:
		return s.named(e, c)
	case *ast.SelectorExpr:
		return s.named(e.Sel, c)
	}
	return nil, fmt.Errorf("%s: a constant that cannot be worked out", s.fset.Position(e.Pos()))
}

func (s *source) binary(e *ast.BinaryExpr, c changes) (constant.Value, error) {
	x, err := s.value(e.X, c)
	if err != nil {
		return nil, err
	}
	y, err := s.value(e.Y, c)
	if err != nil {
		return nil, err
	}
	switch e.Op {
	case token.QUO:
		if constant.Sign(y) == 0 {
			break
		}
		fallthrough
	case token.ADD, token.SUB, token.MUL:
		return constant.BinaryOp(constant.ToFloat(x), e.Op, constant.ToFloat(y)), nil
	case token.SHL:
		if n, ok := constant.Uint64Val(constant.ToInt(y)); ok && n < 128 {
			return constant.Shift(constant.ToInt(x), token.SHL, uint(n)), nil
		}
	}
	return nil, fmt.Errorf("%s: a constant that cannot be worked out", s.fset.Position(e.Pos()))
}

func (s *source) named(id *ast.Ident, c changes) (constant.Value, error) {
	obj, ok := s.info.Uses[id].(*types.Const)
	if !ok {
		return nil, fmt.Errorf("%s: no constant", id.Name)
	}
	if e := s.initial(obj); e != nil {
		return s.value(e, c)
	}
	return obj.Val(), nil
}

// initial is the expression that a constant of this package is declared with,
// nil where it counts on from another.
func (s *source) initial(obj *types.Const) ast.Expr {
	for _, f := range s.files {
		if obj.Pkg() != s.pkg || obj.Pos() < f.tree.FileStart || obj.Pos() > f.tree.FileEnd {
			continue
		}
		var found ast.Expr
		ast.Inspect(f.tree, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok || found != nil {
				return found == nil
			}
			for i, name := range spec.Names {
				if name.Pos() == obj.Pos() && i < len(spec.Values) && !counts(spec.Values[i]) {
					found = spec.Values[i]
				}
			}
			return true
		})
		return found
	}
	return nil
}

// counts tells whether an expression counts the lines of its declaration.
func counts(e ast.Expr) bool {
	found := false
	ast.Inspect(e, func(n ast.Node) bool {
		id, ok := n.(*ast.Ident)
		found = found || ok && id.Name == "iota"
		return !found
	})
	return found
}

// written gives a value as Go writes it for a variable of type t, which is nil
// where it does not fit.
func written(v constant.Value, t types.Type, now constant.Value) string {
	basic, ok := t.Underlying().(*types.Basic)
	switch {
	case !ok:
		return ""
	case basic.Info()&types.IsFloat != 0:
		f, _ := constant.Float64Val(v)
		g, _ := constant.Float64Val(now)
		if f == g {
			return ""
		}
		return strconv.FormatFloat(f, 'g', -1, 64)
	case basic.Info()&types.IsInteger != 0:
		half := constant.MakeFromLiteral("0.5", token.FLOAT, 0)
		n := floor(constant.BinaryOp(constant.ToFloat(v), token.ADD, half))
		if constant.Compare(n, token.EQL, constant.ToInt(now)) {
			// Too small a number for so small a change.
			step := int64(1)
			if constant.Compare(constant.ToFloat(v), token.LSS, constant.ToFloat(now)) {
				step = -1
			}
			n = constant.BinaryOp(n, token.ADD, constant.MakeInt64(step))
		}
		if !fits(n, basic) {
			return ""
		}
		return n.ExactString()
	}
	return ""
}

// floor gives the largest whole number that is no more than v.
func floor(v constant.Value) constant.Value {
	num, den := constant.Num(v), constant.Denom(v)
	if num.Kind() != constant.Int || den.Kind() != constant.Int {
		f, _ := constant.Float64Val(v)
		return constant.ToInt(constant.MakeInt64(int64(f)))
	}
	q := constant.BinaryOp(num, token.QUO_ASSIGN, den)
	if constant.Sign(num) < 0 && !constant.Compare(constant.BinaryOp(q, token.MUL, den), token.EQL, num) {
		q = constant.BinaryOp(q, token.SUB, constant.MakeInt64(1))
	}
	return q
}

func fits(n constant.Value, basic *types.Basic) bool {
	bits := map[types.BasicKind]uint{types.Int8: 7, types.Uint8: 8, types.Int16: 15, types.Uint16: 16, types.Int32: 31, types.Uint32: 32,
		types.Uint64: 64, types.Uint: 64}[basic.Kind()]
	if bits == 0 {
		bits = 63
	}
	if basic.Info()&types.IsUnsigned != 0 && constant.Sign(n) < 0 {
		return false
	}
	return constant.BitLen(n) <= int(bits)
}
