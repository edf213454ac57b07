package table

import (
	"encoding"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/material/layout"
	"github.com/coverwright/coverwright/unit"
)

// MostRows and MostColumns bound a range.
const (
	MostRows    = 2000
	MostColumns = 8
)

// mostText bounds a text; a cell holds no more.
const mostText = 32767

// args reads the arguments of one call. The first fault is kept and makes the
// call fail, so that a function can read all its arguments in one expression.
type args struct {
	f      *Function
	values []any
	// lines are the rows of the last range that was read, blank ones left out,
	// as a sheet counts them.
	lines []int
	fault *Fault
}

func (a *args) fail(c Code, name, message string) {
	if a.fault == nil {
		a.fault = fault(c, name+": "+message)
	}
}

func (a *args) refuse(name string, err error) {
	if err != nil {
		a.fail(codeOf(err), name, strings.TrimPrefix(a.inWords(err), name+": "))
	}
}

// check tests number and kind of all arguments.
func (a *args) check() {
	for i, arg := range a.f.Args {
		var v any
		if i < len(a.values) {
			v = a.values[i]
		}
		switch x := v.(type) {
		case nil:
			if !arg.Optional() {
				a.fail(Value, arg.Name, "must be given")
			}
		case float64:
			switch {
			case math.IsNaN(x) || math.IsInf(x, 0):
				a.fail(Num, arg.Name, "not a finite number")
			case arg.Kind == Text && x != math.Trunc(x):
				a.fail(Value, arg.Name, "a text is wanted")
			}
		case string:
			switch {
			case !arg.TakesText():
				a.fail(Value, arg.Name, "a number is wanted, not a text")
			case len(x) > mostText:
				a.fail(Value, arg.Name, "text too long")
			}
		case [][]any:
			if arg.Kind != Range {
				a.fail(Value, arg.Name, "one cell is wanted, not a range")
			} else if len(x) > MostRows {
				a.fail(Value, arg.Name, "more than "+strconv.Itoa(MostRows)+" rows")
			}
		default:
			a.fail(Value, arg.Name, "a "+arg.Kind.String()+" is wanted")
		}
	}
}

// at gives an argument and what it was given.
func (a *args) at(key string) (any, Arg) {
	for i, arg := range a.f.Args {
		if arg.key == key {
			if i < len(a.values) {
				return a.values[i], arg
			}
			return nil, arg
		}
	}
	panic("no argument " + key)
}

func (a *args) value(key string) any {
	v, _ := a.at(key)
	return v
}

// said gives the fault of an error of the library.
func (a *args) said(err error) *Fault { return fault(codeOf(err), a.inWords(err)) }

var index = regexp.MustCompile(`^(\w+)\[(\d+)\]\.?`)

// inWords gives the message of an error; an index into a list is the row of its
// range.
func (a *args) inWords(err error) string {
	message := err.Error()
	m := index.FindStringSubmatch(message)
	if m == nil {
		return message
	}
	i, err := strconv.Atoi(m[2])
	if err != nil || i >= len(a.lines) {
		return message
	}
	rest := strings.TrimPrefix(message, m[0])
	if !strings.HasPrefix(rest, ":") {
		rest = ", " + rest
	}
	return m[1] + " in row " + strconv.Itoa(a.lines[i]) + rest
}

func (a *args) given(name string) bool { return a.value(name) != nil }

// number gives a number, or zero when it is left out.
func (a *args) number(name string) float64 {
	x, _ := a.value(name).(float64) //nolint:errcheck // kinds are checked, nil is zero
	return x
}

// count gives a whole number.
func (a *args) count(name string) int {
	x := a.number(name)
	if x != math.Trunc(x) || math.Abs(x) > 1e9 {
		a.fail(Num, name, "a whole number is wanted")
		return 0
	}
	return int(x)
}

// text gives a text; a whole number in the cell, such as the thread size 92,
// counts as its digits.
func (a *args) text(name string) string {
	switch x := a.value(name).(type) {
	case string:
		return trimmed(x)
	case float64:
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	return ""
}

// into reads a text into a value, such as a trade name; its zero value stays
// when the text is left out.
func (a *args) into(name string, v encoding.TextUnmarshaler) {
	if a.given(name) {
		a.refuse(name, v.UnmarshalText([]byte(strings.ToLower(a.text(name)))))
	}
}

// override gives a length that was set by hand, zero included.
func (a *args) override(name string) allowance.Override {
	if !a.given(name) {
		return allowance.Override{}
	}
	return allowance.Exactly(a.length(name))
}

// grid gives the rows of a range that are not blank, each with the wanted
// number of columns: numbers, texts where one may stand, and nil for a missing
// or blank cell.
func (a *args) grid(key string, columns int) [][]any {
	v, arg := a.at(key)
	return a.table(arg, linesOf(v), columns)
}

// linesOf gives the rows of a range; a single value is one cell.
func linesOf(v any) [][]any {
	switch x := v.(type) {
	case [][]any:
		return x
	case nil:
		return nil
	default:
		return [][]any{{x}}
	}
}

func (a *args) table(arg Arg, in [][]any, columns int) [][]any {
	out := make([][]any, 0, len(in))
	a.lines = a.lines[:0]
	for i, r := range in {
		if len(r) > MostColumns || len(r) > columns && !blank(r[columns:]) {
			a.fail(Value, arg.Name, "more than "+strconv.Itoa(columns)+" columns")
			return nil
		}
		if blank(r) {
			continue
		}
		cells := make([]any, columns)
		a.lines = append(a.lines, i+1)
		for i := range min(columns, len(r)) {
			switch x := r[i].(type) {
			case float64:
				if math.IsNaN(x) || math.IsInf(x, 0) {
					a.fail(Num, arg.Name, "not a finite number")
				}
				cells[i] = x
			case nil:
			case string:
				switch {
				case trimmed(x) == "":
				case len(x) > mostText:
					a.fail(Value, arg.Name, "text too long")
				case arg.Unit() == "" || arg.Sizes > 0 && i >= arg.Sizes:
					a.fail(Value, arg.Name, "text where a number is wanted")
				default:
					cells[i] = x
				}
			default:
				a.fail(Value, arg.Name, "a number is wanted in every cell")
			}
		}
		out = append(out, cells)
	}
	if len(out) == 0 {
		a.fail(Value, arg.Name, "no row has a number")
	}
	return out
}

func trimmed(s string) string { return strings.TrimSpace(s) }

func blank(r []any) bool {
	for _, v := range r {
		switch x := v.(type) {
		case nil:
		case string:
			if strings.TrimSpace(x) != "" {
				return false
			}
		default:
			return false
		}
	}
	return true
}

// lengths gives a range of one column of lengths.
func (a *args) lengths(key string) []unit.Length {
	_, arg := a.at(key)
	g := a.grid(key, 1)
	out := make([]unit.Length, len(g))
	for i, r := range g {
		out[i] = reading(a, arg, r[0], lengthUnits, unit.ParseLength)
	}
	return out
}

// cut is a row of a range of pieces.
type cut struct {
	width, length unit.Length
	count         int
}

// cuts gives a range with the columns width, length and count, with or without
// the names of the pieces before them.
func (a *args) cuts(key string) []cut {
	v, arg := a.at(key)
	lines := linesOf(v)
	if len(lines) > 0 && !slices.ContainsFunc(lines, func(r []any) bool { return !blank(r) && len(r) != 4 }) {
		bare := make([][]any, len(lines))
		for i, r := range lines {
			if blank(r) {
				continue
			}
			if name, ok := r[0].(string); !ok && r[0] != nil || ok && len(name) > mostText {
				a.fail(Value, arg.Name, "of four columns the first has the names")
			}
			bare[i] = r[1:]
		}
		lines = bare
	}
	g := a.table(arg, lines, 3)
	out := make([]cut, len(g))
	for i, r := range g {
		n, _ := r[2].(float64) //nolint:errcheck // no text stands there, nil is zero
		if n != math.Trunc(n) || n < 0 || n > 1e6 {
			a.fail(Num, arg.Name, "the count is a whole number")
			return nil
		}
		out[i] = cut{reading(a, arg, r[0], lengthUnits, unit.ParseLength), reading(a, arg, r[1], lengthUnits, unit.ParseLength), int(n)}
	}
	return out
}

// mostOnRoll and mostOnHides bound what is laid out while a sheet waits.
const (
	mostOnRoll  = 200
	mostOnHides = 60
)

// pieces gives the same range as pieces of a layout.
func (a *args) pieces(key string, most int) []layout.Piece {
	_, arg := a.at(key)
	var out []layout.Piece
	n := 0
	for _, c := range a.cuts(key) {
		p, err := layout.RectPiece("", c.width, c.length, c.count)
		a.refuse(arg.Name, err)
		out = append(out, p)
		n += c.count
	}
	if n > most {
		a.fail(Num, arg.Name, strconv.Itoa(most)+" pieces at most: use a work order")
	}
	return out
}
