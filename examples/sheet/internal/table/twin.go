package table

import (
	"math"
	"slices"
	"strings"

	"github.com/coverwright/coverwright/unit"
)

// metric are the endings of arguments and what those of a twin end in, with
// how a number of the example is written there.
var metric = map[string]struct {
	ending string
	to     func(x float64) (float64, error)
}{
	"in":   {"mm", via(lengthUnits["in"], unit.Length.Millimetres)},
	"yd":   {"m", via(lengthUnits["yd"], unit.Length.Metres)},
	"sqft": {"sqdm", via(areaUnits["sqft"], unit.Area.SquareDecimetres)},
	"lb":   {"kg", via(massUnits["lb"], unit.Mass.Kilograms)},
	"oz":   {"g", via(massUnits["oz"], unit.Mass.Grams)},
	"lbf":  {"n", via(forceUnits["lbf"], unit.Force.Newtons)},
	"pcf":  {"kgm3", via(densityUnits["pcf"], unit.Density.KilogramsPerCubicMetre)},
}

// metricResults are the units of results, the endings of their functions, and
// what a twin has in their place.
var metricResults = map[string]struct{ ending, to, unit string }{
	"in":       {"In", "Mm", "mm"},
	"yd":       {"Yd", "M", "m"},
	"sq ft":    {"Sqft", "Sqdm", "sq dm"},
	"lb":       {"Lb", "Kg", "kg"},
	"lbf":      {"Lbf", "N", "N"},
	"lb/cu ft": {"Pcf", "Kgm3", "kg/m3"},
	"lbf/in":   {"LbfIn", "NCm", "N/cm"},
	"bd ft":    {"", "", "l"},
}

func via[Q any](read func(float64) (Q, error), write func(Q) float64) func(float64) (float64, error) {
	return func(x float64) (float64, error) {
		q, err := read(x)
		return math.Round(write(q)*1e6) / 1e6, err
	}
}

// withTwins puts the groups together, each function before its twin.
func withTwins(groups ...[]Function) []Function {
	var out []Function
	for _, f := range slices.Concat(groups...) {
		if slices.ContainsFunc(f.Args, func(a Arg) bool { return a.Kind == Amount }) {
			f.Args = append(slices.Clone(f.Args), currencyArg)
		}
		t, ok := f.twin()
		f.Twin = t.Method
		if out = append(out, f); ok {
			out = append(out, t)
		}
	}
	return out
}

// twin gives the function in metric units: its bare numbers and its result
// are metric, and it reads and reckons as f does.
func (f Function) twin() (Function, bool) {
	m, ok := metricResults[f.Unit]
	sized := slices.ContainsFunc(f.Args, func(a Arg) bool { return metric[a.ending()].ending != "" })
	switch {
	case f.alone || !ok && !sized:
		return Function{}, false
	case f.Twin != "":
	case ok:
		f.Twin = strings.TrimSuffix(f.Method, m.ending) + m.to
	default:
		f.Twin = f.Method + "Metric"
	}
	t := f
	t.Method, t.Of, t.Twin = f.Twin, f.Method, ""
	if ok {
		t.Unit = m.unit
	}
	t.Args = slices.Clone(f.Args)
	for i, a := range f.Args {
		if to, ok := metric[a.ending()]; ok {
			t.Args[i].Name = strings.TrimSuffix(a.Name, a.ending()) + to.ending
		}
	}
	t.Example = f.inMetric(f.Example)
	t.Bad = make([]Bad, len(f.Bad))
	for i, b := range f.Bad {
		t.Bad[i] = Bad{b.Code, f.inMetric(b.Args)}
	}
	return t, true
}

// ending gives the last part of the name of a number, range or amount.
func (a Arg) ending() string {
	if a.Kind == Amount {
		return last(a.Name)
	}
	return a.Unit()
}

// inMetric writes the numbers of a call as its twin takes them.
func (f *Function) inMetric(values []any) []any {
	out := slices.Clone(values)
	for i, v := range values {
		if i >= len(f.Args) {
			break
		}
		a := f.Args[i]
		to, ok := metric[a.ending()]
		if !ok || a.Kind == Amount {
			continue
		}
		convert := func(v any) any {
			if x, ok := v.(float64); ok {
				if y, err := to.to(x); err == nil {
					return y
				}
			}
			return v
		}
		out[i] = convert(v)
		lines, ok := v.([][]any)
		if !ok {
			continue
		}
		copied := make([][]any, len(lines))
		for k, line := range lines {
			copied[k] = slices.Clone(line)
			for c, cell := range line {
				if a.Sizes == 0 || c < a.Sizes {
					copied[k][c] = convert(cell)
				}
			}
		}
		out[i] = copied
	}
	return out
}
