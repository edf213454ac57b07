package table

import (
	"math"
	"slices"
	"strings"
)

// Kind is what an argument or a result is.
type Kind uint8

// The kinds. Only results are columns, only arguments are ranges.
const (
	Number Kind = iota + 1
	Text
	Range  // rows of numbers
	Column // numbers one below the other
)

// String names the kind.
func (k Kind) String() string {
	return [...]string{"", "number", "text", "range", "column"}[k]
}

// Arg is one argument. Its name ends in its unit.
type Arg struct {
	Name string
	Kind Kind
	Help string
	// Default is what an optional argument is when left out, in words; empty
	// for an argument that must be given.
	Default string
}

// Optional tells whether the argument may be left out.
func (a Arg) Optional() bool { return a.Default != "" }

// Bad is a call that must fail.
type Bad struct {
	Code Code
	Args []any
}

// Function is one row of the table.
type Function struct {
	// Method is the name in camel case; Name gives it as it stands in a cell.
	Method string
	Group  string
	Args   []Arg
	Result Kind
	// Unit of the result, for the reference; empty for a plain number or text.
	Unit string
	Help string
	// Example is a call that works.
	Example []any
	// Bad holds one call for every error the function can give.
	Bad []Bad

	call func(a *args) (Result, error)
}

// Name gives the name in capitals, without the prefix.
func (f *Function) Name() string { return strings.ToUpper(f.Method) }

// Codes lists the errors the function can give, in the order of Codes.
func (f *Function) Codes() []Code {
	var out []Code
	for _, c := range Codes() {
		if slices.ContainsFunc(f.Bad, func(b Bad) bool { return b.Code == c }) {
			out = append(out, c)
		}
	}
	return out
}

// Result is the answer of a function. Only the field of its kind is set.
type Result struct {
	Kind   Kind
	Number float64
	Text   string
	Column []float64
}

// Functions gives the table, in the order of the reference. Callers must not
// change it.
func Functions() []Function { return all }

// Find gives the function of a name, in any letter case.
func Find(name string) (*Function, bool) {
	if f, ok := byName[name]; ok {
		return f, true
	}
	f, ok := byName[strings.ToUpper(name)]
	return f, ok
}

// Call works a function out. Arguments are float64, string, nil for one that
// is left out, or [][]any for a range of rows; a number stands for a range of
// one cell. The error is a *Fault. A panic is a fault too.
func Call(name string, values []any) (Result, *Fault) {
	f, ok := Find(name)
	if !ok {
		return Result{}, fault(Name, "no function is called "+clip(name))
	}
	return f.Call(values)
}

// Call works the function out, as the function Call does.
func (f *Function) Call(values []any) (r Result, bad *Fault) {
	defer func() {
		if p := recover(); p != nil {
			r, bad = Result{}, fault(Value, "internal fault")
		}
	}()
	if len(values) > len(f.Args) {
		return Result{}, fault(Value, "too many arguments")
	}
	a := &args{f: f, values: values}
	a.check()
	if a.fault != nil {
		return Result{}, a.fault
	}
	r, err := f.call(a)
	switch {
	case a.fault != nil:
		return Result{}, a.fault
	case err != nil:
		return Result{}, fault(codeOf(err), err.Error())
	}
	for _, x := range append(r.Column, r.Number) { //nolint:gocritic // a copy to range over
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return Result{}, fault(Num, "the result is not a finite number")
		}
	}
	return r, nil
}

func number(x float64) Result   { return Result{Kind: Number, Number: x} }
func count(n int) Result        { return number(float64(n)) }
func text(s string) Result      { return Result{Kind: Text, Text: s} }
func column(x []float64) Result { return Result{Kind: Column, Column: x} }

// yes gives 1 or 0.
func yes(b bool) Result {
	if b {
		return number(1)
	}
	return number(0)
}

func num(name, help string) Arg { return Arg{Name: name, Kind: Number, Help: help} }
func numOr(name, help, otherwise string) Arg {
	return Arg{Name: name, Kind: Number, Help: help, Default: otherwise}
}
func word(name, help string) Arg { return Arg{Name: name, Kind: Text, Help: help} }
func wordOr(name, help, otherwise string) Arg {
	return Arg{Name: name, Kind: Text, Help: help, Default: otherwise}
}
func rows(name, help string) Arg { return Arg{Name: name, Kind: Range, Help: help} }

func clip(s string) string {
	r := []rune(s)
	if len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

var all = slices.Concat(aboutFunctions, unitFunctions, allowanceFunctions, materialFunctions, threadFunctions, foamFunctions, costFunctions)

var byName = func() map[string]*Function {
	m := make(map[string]*Function, len(all))
	for i := range all {
		m[all[i].Name()] = &all[i]
	}
	return m
}()
