package table

import (
	"encoding"
	"math"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/cost"
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
	fault  *Fault
}

func (a *args) fail(c Code, name, message string) {
	if a.fault == nil {
		a.fault = fault(c, name+": "+message)
	}
}

func (a *args) refuse(name string, err error) {
	if err != nil {
		a.fail(codeOf(err), name, err.Error())
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
			if arg.Kind != Text {
				a.fail(Value, arg.Name, "a number is wanted, not a text")
			} else if len(x) > mostText {
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

func (a *args) value(name string) any {
	for i := range a.f.Args {
		if a.f.Args[i].Name == name {
			if i < len(a.values) {
				return a.values[i]
			}
			return nil
		}
	}
	panic("no argument " + name)
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
		return strings.TrimSpace(x)
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

func (a *args) length(name string, u unit.Length) unit.Length {
	l, err := unit.LengthOf(a.number(name), u)
	a.refuse(name, err)
	return l
}

func (a *args) inches(name string) unit.Length { return a.length(name, unit.Inch) }

// override gives a length in inches that was set by hand, zero included.
func (a *args) override(name string) allowance.Override {
	if !a.given(name) {
		return allowance.Override{}
	}
	return allowance.Exactly(a.inches(name))
}

func (a *args) area(name string, u unit.Area) unit.Area {
	v, err := unit.AreaOf(a.number(name), u)
	a.refuse(name, err)
	return v
}

func (a *args) mass(name string, u unit.Mass) unit.Mass {
	v, err := unit.MassOf(a.number(name), u)
	a.refuse(name, err)
	return v
}

func (a *args) force(name string) unit.Force {
	v, err := unit.ForceOf(a.number(name), unit.PoundForce)
	a.refuse(name, err)
	return v
}

func (a *args) hours(name string) unit.Duration {
	v, err := unit.DurationOf(a.number(name), unit.Hour)
	a.refuse(name, err)
	return v
}

// percent gives a ratio. 57 is divided, not multiplied, so that it is the
// decimal 0.57.
func (a *args) percent(name string) unit.Ratio { return unit.Ratio(a.number(name) / 100) }

// carrier is the currency in which cents are reckoned. It never shows: any
// money with a hundredth as its minor unit works alike.
const carrier cost.Currency = "USD"

// cents gives whole cents.
func (a *args) cents(name string) cost.Money {
	x := a.number(name)
	if x != math.Trunc(x) || math.Abs(x) >= 1<<53 {
		a.fail(Num, name, "whole cents are wanted, under 2^53")
		return cost.Money{}
	}
	m, err := cost.MinorUnits(int64(x), carrier)
	a.refuse(name, err)
	return m
}

// grid gives the rows of a range that are not blank, each with the wanted
// number of columns; a missing or blank cell in such a row is zero.
func (a *args) grid(name string, columns int) [][]float64 {
	var in [][]any
	switch x := a.value(name).(type) {
	case float64:
		in = [][]any{{x}}
	case [][]any:
		in = x
	}
	out := make([][]float64, 0, len(in))
	for _, r := range in {
		if len(r) > MostColumns || len(r) > columns && !blank(r[columns:]) {
			a.fail(Value, name, "more than "+strconv.Itoa(columns)+" columns")
			return nil
		}
		if blank(r) {
			continue
		}
		line := make([]float64, columns)
		for i := range min(columns, len(r)) {
			switch x := r[i].(type) {
			case float64:
				if math.IsNaN(x) || math.IsInf(x, 0) {
					a.fail(Num, name, "not a finite number")
				}
				line[i] = x
			case nil:
			case string:
				if strings.TrimSpace(x) != "" {
					a.fail(Value, name, "text where a number is wanted")
				}
			default:
				a.fail(Value, name, "a number is wanted in every cell")
			}
		}
		out = append(out, line)
	}
	if len(out) == 0 {
		a.fail(Value, name, "no row has a number")
	}
	return out
}

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

// lengths gives a range of one column in inches.
func (a *args) lengths(name string) []unit.Length {
	g := a.grid(name, 1)
	out := make([]unit.Length, len(g))
	for i, r := range g {
		l, err := unit.LengthOf(r[0], unit.Inch)
		a.refuse(name, err)
		out[i] = l
	}
	return out
}

// cut is a row of a range of pieces.
type cut struct {
	width, length unit.Length
	count         int
}

// cuts gives a range with the columns width, length and count in inches.
func (a *args) cuts(name string) []cut {
	g := a.grid(name, 3)
	out := make([]cut, len(g))
	for i, r := range g {
		w, err := unit.LengthOf(r[0], unit.Inch)
		a.refuse(name, err)
		l, err := unit.LengthOf(r[1], unit.Inch)
		a.refuse(name, err)
		if r[2] != math.Trunc(r[2]) || r[2] < 0 || r[2] > 1e6 {
			a.fail(Num, name, "the count is a whole number")
			return nil
		}
		out[i] = cut{w, l, int(r[2])}
	}
	return out
}

// pieces gives the same range as pieces of a layout, and how many they are.
func (a *args) pieces(name string) ([]layout.Piece, int) {
	var out []layout.Piece
	n := 0
	for _, c := range a.cuts(name) {
		p, err := layout.RectPiece("", c.width, c.length, c.count)
		a.refuse(name, err)
		out = append(out, p)
		n += c.count
	}
	return out, n
}
