package rules

import (
	"fmt"
	"go/token"
	"go/types"
	"path/filepath"
	"strings"
	"sync"

	"github.com/coverwright/coverwright/internal/dev/compiled"
)

// Floats lists where the public API of p has a bare float64 or float32: in
// parameters, results, exported fields, methods, variables and typed
// constants. A defined type such as unit.Force is not bare. A method without
// parameters that gives a defined number in the unit of its own name, the way
// unit.Force.Newtons does, is the edge where numbers leave, and fine; so is a
// function XOf that makes a defined number of its package from one float, as
// unit.CottonCountOf does, where they enter.
func Floats(p Package) ([]string, error) {
	pkg, err := imported(p)
	if err != nil {
		return nil, err
	}
	w := &floatWalker{pkg: pkg, path: p.Path()}
	for _, name := range pkg.Scope().Names() {
		if obj := pkg.Scope().Lookup(name); obj.Exported() {
			w.object(obj)
		}
	}
	return w.faults, nil
}

// badPackage breaks the rules on purpose.
const badPackage = Module + "/internal/dev/rules/internal/bad"

// files are where imported packages declare what they export.
var files = token.NewFileSet()

// importer gives the public packages and the bad one.
var importer = sync.OnceValues(func() (types.Importer, error) {
	all, err := Load()
	if err != nil {
		return nil, err
	}
	paths := []string{badPackage}
	for path, p := range all {
		if p.Public() {
			paths = append(paths, path)
		}
	}
	return compiled.Importer(files, paths...)
})

// imported gives p as the compiler exports it.
func imported(p Package) (*types.Package, error) {
	imp, err := importer()
	if err != nil {
		return nil, err
	}
	return imp.Import(p.ImportPath)
}

// edges are functions where a plain number enters or leaves by intent.
var edges = map[string]string{
	"thread.CountSystem.Of": "a yarn count is a number that its system gives a meaning",
	"thread.CountSystem.In": "a yarn count is a number that its system gives a meaning",
}

type floatWalker struct {
	pkg    *types.Package
	path   string
	faults []string
}

func (w *floatWalker) object(obj types.Object) {
	tn, ok := obj.(*types.TypeName)
	if !ok {
		if !w.takesNumber(obj) {
			w.report(obj, obj.Name(), obj.Type())
		}
		return
	}
	named, ok := tn.Type().(*types.Named)
	if !ok { // an alias
		w.report(obj, obj.Name(), obj.Type())
		return
	}
	number := false
	switch u := named.Underlying().(type) {
	case *types.Basic: // a defined number: that is the point of a unit
		number = true
	case *types.Struct:
		w.fields(obj.Name(), u)
	default:
		w.report(obj, obj.Name(), u)
	}
	for m := range named.Methods() {
		if m.Exported() && !(number && givesNumber(m)) {
			w.report(m, obj.Name()+"."+m.Name(), m.Type())
		}
	}
}

// givesNumber tells whether m is func() float64.
func givesNumber(m *types.Func) bool {
	s := m.Signature()
	return s.Params().Len() == 0 && s.Results().Len() == 1 && types.Identical(s.Results().At(0).Type(), types.Typ[types.Float64])
}

// takesNumber tells whether obj is func XOf(float64) D or (D, error), with D
// a defined number of the same package.
func (w *floatWalker) takesNumber(obj types.Object) bool {
	f, ok := obj.(*types.Func)
	if !ok || !strings.HasSuffix(f.Name(), "Of") {
		return false
	}
	s := f.Signature()
	if s.Params().Len() != 1 || !types.Identical(s.Params().At(0).Type(), types.Typ[types.Float64]) || s.Results().Len() == 0 {
		return false
	}
	d, ok := s.Results().At(0).Type().(*types.Named)
	if !ok || d.Obj().Pkg() != w.pkg {
		return false
	}
	_, number := d.Underlying().(*types.Basic)
	return number
}

func (w *floatWalker) fields(name string, s *types.Struct) {
	for f := range s.Fields() {
		if f.Exported() {
			w.report(f, name+"."+f.Name(), f.Type())
		}
	}
}

func (w *floatWalker) report(obj types.Object, name string, t types.Type) {
	if _, known := edges[w.path+"."+name]; !known && bare(t) {
		pos := files.Position(obj.Pos())
		w.faults = append(w.faults, fmt.Sprintf("%s/%s:%d: %s has a bare float: %s", w.path, filepath.Base(pos.Filename), pos.Line, name,
			types.TypeString(t, types.RelativeTo(w.pkg))))
	}
}

// bare tells whether a float without a name stands in t. Named types are
// looked at where they are declared.
func bare(t types.Type) bool {
	switch t := t.(type) {
	case *types.Basic:
		return t.Kind() == types.Float64 || t.Kind() == types.Float32 || t.Kind() == types.Complex64 || t.Kind() == types.Complex128
	case *types.Alias:
		return bare(types.Unalias(t))
	case *types.Named:
		for arg := range t.TypeArgs().Types() {
			if bare(arg) {
				return true
			}
		}
	case *types.Pointer:
		return bare(t.Elem())
	case *types.Slice:
		return bare(t.Elem())
	case *types.Array:
		return bare(t.Elem())
	case *types.Chan:
		return bare(t.Elem())
	case *types.Map:
		return bare(t.Key()) || bare(t.Elem())
	case *types.Signature:
		return bare(t.Params()) || bare(t.Results())
	case *types.Tuple:
		for v := range t.Variables() {
			if bare(v.Type()) {
				return true
			}
		}
	case *types.Struct:
		for f := range t.Fields() {
			if f.Exported() && bare(f.Type()) {
				return true
			}
		}
	case *types.Interface:
		for m := range t.ExplicitMethods() {
			if m.Exported() && bare(m.Type()) {
				return true
			}
		}
	}
	return false
}
