package table

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Kind is what an argument or a result is.
type Kind uint8

// The kinds. Only results are columns and grids, only arguments are ranges.
const (
	Number Kind = iota + 1
	Text
	Range  // rows of numbers
	Column // numbers one below the other
	Share  // a fraction: 25 % is 0.25
	Amount // money in its major unit, such as dollars
	Any    // whatever another function takes
	Grid   // rows of texts and numbers
)

// String names the kind.
func (k Kind) String() string {
	return [...]string{"", "number", "text", "range", "column", "share", "amount", "anything", "grid"}[k]
}

// Arg is one argument. The name of a number ends in its unit, or has none.
type Arg struct {
	Name string
	Kind Kind
	Help string
	// Default is what an optional argument is when left out, in words; empty
	// for an argument that must be given.
	Default string
	// Sizes is how many of the first columns of a range are lengths; zero when
	// all are.
	Sizes int

	// key is the name by which the function reads the argument: that of the
	// function it is a twin of.
	key string
}

// Optional tells whether the argument may be left out.
func (a Arg) Optional() bool { return a.Default != "" }

// Unit gives the unit that the name ends in; empty where there is none.
func (a Arg) Unit() string {
	if a.Kind != Number && a.Kind != Range {
		return ""
	}
	if u := last(a.Name); unitNames[u] != "" {
		return u
	}
	return ""
}

// TakesText tells whether a text with a unit may stand for the number, such as
// 652 mm or 25 %.
func (a Arg) TakesText() bool {
	return a.Kind == Text || a.Kind == Any || a.Kind == Share || a.Unit() != ""
}

// last gives what stands behind the last underscore, or the whole name.
func last(name string) string { return name[strings.LastIndexByte(name, '_')+1:] }

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
	// Unit of the result; empty for a plain number or text.
	Unit string
	Help string
	// Example is a call that works.
	Example []any
	// Bad holds one call for every error the function can give.
	Bad []Bad

	// Twin is the function with the same arguments and result in metric units,
	// and Of that whose twin this one is. Empty without.
	Twin, Of string

	// alone marks a function that has no twin though it takes or gives sizes.
	alone bool

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

// Result is the answer of a function. Only the field of its kind is set: of a
// share and an amount, that is Number.
type Result struct {
	Kind   Kind
	Number float64
	Text   string
	Column []float64
	// Grid has rows of float64 and string; of a function that was given ranges
	// where it takes one cell, also *Fault, and nil where the cells are blank.
	Grid [][]any
}

// Functions gives the table, in the order of the reference. Callers must not
// change it.
func Functions() []Function { return all }

// Find gives the function of a name, in any letter case, with or without the
// prefix before it.
func Find(name string) (*Function, bool) {
	if f, ok := byName[name]; ok {
		return f, true
	}
	f, ok := byName[strings.TrimPrefix(strings.ToUpper(name), Prefix+".")]
	return f, ok
}

// Call works a function out. Arguments are float64, string, nil for one that
// is left out, or [][]any for a range of rows; a number stands for a range of
// one cell. The error is a *Fault.
func Call(name string, values []any) (Result, *Fault) {
	f, ok := Find(name)
	if !ok {
		return Result{}, fault(Name, "no function is called "+clip(name))
	}
	return f.Call(values)
}

// Call works the function out, as the function Call does. A function whose
// result is one cell may be given columns, or rows, of one length where it
// takes one cell: then it gives a grid with the answer for each of them.
func (f *Function) Call(values []any) (Result, *Fault) {
	if len(values) > len(f.Args) {
		return Result{}, fault(Value, "too many arguments: "+strconv.Itoa(len(f.Args))+" at most")
	}
	if f.Method == whyMethod {
		return why(values)
	}
	values, n, across, bad := f.lifted(values)
	switch {
	case bad != nil:
		return Result{}, bad
	case n > 0:
		return f.each(values, n, across), nil
	}
	return f.once(values)
}

// once works out one answer.
func (f *Function) once(values []any) (r Result, bad *Fault) {
	defer func() {
		if p := recover(); p != nil {
			r, bad = Result{}, &Fault{Code: Value, Message: fmt.Sprintf("internal fault in %s: %v", f.Name(), p), Internal: true}
		}
	}()
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
		return Result{}, a.said(err)
	}
	r.Kind = f.Result
	for _, x := range append(r.Column, r.Number) { //nolint:gocritic // a copy to range over
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return Result{}, fault(Num, "the result is not a finite number")
		}
	}
	return r, nil
}

func number(x float64) Result   { return Result{Number: x} }
func count(n int) Result        { return number(float64(n)) }
func text(s string) Result      { return Result{Text: s} }
func column(x []float64) Result { return Result{Column: x} }
func grid(rows [][]any) Result  { return Result{Grid: rows} }

// yes gives 1 or 0.
func yes(b bool) Result {
	if b {
		return number(1)
	}
	return number(0)
}

func num(name, help string) Arg    { return Arg{Name: name, Kind: Number, Help: help, key: name} }
func word(name, help string) Arg   { return Arg{Name: name, Kind: Text, Help: help, key: name} }
func rows(name, help string) Arg   { return Arg{Name: name, Kind: Range, Help: help, key: name} }
func share(name, help string) Arg  { return Arg{Name: name, Kind: Share, Help: help, key: name} }
func amount(name, help string) Arg { return Arg{Name: name, Kind: Amount, Help: help, key: name} }

// or makes an argument one that may be left out.
func (a Arg) or(otherwise string) Arg {
	a.Default = otherwise
	return a
}

func clip(s string) string {
	r := []rune(s)
	if len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

var all = withTwins(aboutFunctions, unitFunctions, allowanceFunctions, cushionFunctions, skirtFunctions, materialFunctions, findingFunctions, threadFunctions, foamFunctions, moneyFunctions, quoteFunctions)

var byName = func() map[string]*Function {
	m := make(map[string]*Function, len(all))
	for i := range all {
		m[all[i].Name()] = &all[i]
	}
	return m
}()
