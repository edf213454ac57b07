package rules

import (
	"go/types"
	"strings"

	"github.com/coverwright/coverwright/internal/dev/typed"
)

// Evaluators is the package that works out the rows of the check table.
const Evaluators = "internal/dev/reference/evaluate"

// Calculators lists the exported functions and methods of the public packages
// that give a quantity, money or a plain number, alone or as a field of what they
// give, and tells of each whether an evaluator of the check table calls it itself:
// what is run only inside another is not held by a row of its own.
func Calculators() (map[string]bool, error) {
	root, err := typed.Root()
	if err != nil {
		return nil, err
	}
	compiled, err := typed.List(root, "./...")
	if err != nil {
		return nil, err
	}
	evaluators, err := compiled.Source(Module + "/" + Evaluators)
	if err != nil {
		return nil, err
	}
	called := map[string]bool{}
	for _, o := range evaluators.Info.Uses {
		if f, ok := o.(*types.Func); ok {
			called[f.Origin().FullName()] = true
		}
	}
	all, err := Load()
	if err != nil {
		return nil, err
	}
	out := map[string]bool{}
	for path, p := range all {
		if !p.Public() {
			continue
		}
		types, err := compiled.Import(path)
		if err != nil {
			return nil, err
		}
		for _, f := range exportedFuncs(types) {
			if gives(f) {
				out[nameOf(f)] = called[f.FullName()]
			}
		}
	}
	return out, nil
}

// exportedFuncs lists the exported functions of a package and the exported methods
// of its exported types.
func exportedFuncs(p *types.Package) []*types.Func {
	var out []*types.Func
	add := func(f *types.Func) {
		if f.Exported() {
			out = append(out, f)
		}
	}
	for _, name := range p.Scope().Names() {
		switch o := p.Scope().Lookup(name).(type) {
		case *types.Func:
			add(o)
		case *types.TypeName:
			if t, ok := o.Type().(*types.Named); ok && o.Exported() && !o.IsAlias() {
				for m := range t.Methods() {
					add(m)
				}
			}
		}
	}
	return out
}

// nameOf is how the list names a function: cost/rate.Learning.Total.
func nameOf(f *types.Func) string {
	return strings.NewReplacer(Module+"/", "", "(", "", ")", "", "*", "").Replace(f.FullName())
}

// gives tells whether a function gives a number, or something with one.
func gives(f *types.Func) bool {
	results := f.Signature().Results()
	for v := range results.Variables() {
		if numbers(v.Type(), 1) {
			return true
		}
	}
	return false
}

// numbers tells whether a type is a quantity, money, a plain number or several of
// them, or has one in a field, deep fields down.
func numbers(t types.Type, deep int) bool {
	switch t := types.Unalias(t).(type) {
	case *types.Pointer:
		return numbers(t.Elem(), deep)
	case *types.Slice:
		return numbers(t.Elem(), deep)
	case *types.Basic:
		return t.Kind() == types.Float64
	case *types.Named:
		for a := range t.TypeArgs().Types() {
			if numbers(a, deep) {
				return true
			}
		}
		return t.Obj().Pkg() != nil && strings.HasPrefix(t.Obj().Pkg().Path(), Module) && numbersOf(t, deep)
	}
	return false
}

func numbersOf(t *types.Named, deep int) bool {
	switch u := t.Underlying().(type) {
	case *types.Basic:
		return u.Info()&types.IsFloat != 0 || u.Kind() == types.Int64
	case *types.Struct:
		if t.Obj().Name() == "Money" {
			return true
		}
		for f := range u.Fields() {
			if deep > 0 && f.Exported() && numbers(f.Type(), deep-1) {
				return true
			}
		}
	}
	return false
}
