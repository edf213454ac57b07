package table

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var (
	anyNumber = rapid.OneOf(
		rapid.SampledFrom([]float64{0, 1, 2, 0.5, -1, 4, 24, 54, 100, 19.99, 0.25, 1e-9, 1e9, 1e15, 1e300, -1e300, 5e-324}),
		rapid.Float64Range(0, 60), rapid.Float64())
	anyWord = rapid.SampledFrom([]string{"", "leather", "woven", "seat", "heavy", "board", "25 5/8 in", "652 mm", "2 kg", "25 %", "-5 %", "plain seam", "groove", "half-even", "nylon", "92",
		"up", "=1+1", "tex", "tenths", "JPY", "kwd", "whole hide", "3/4 oz", "box pleat", "BOARDFEET", "WHY"})
	anyCell = rapid.Custom(func(t *rapid.T) any {
		switch rapid.IntRange(0, 9).Draw(t, "cell") {
		case 0:
			return nil
		case 1, 2:
			return anyWord.Draw(t, "word")
		default:
			return anyNumber.Draw(t, "number")
		}
	})
)

// anyCall is a function with its example, of which some arguments are others.
func anyCall(t *rapid.T) (*Function, []any) {
	f := &Functions()[rapid.IntRange(0, len(Functions())-1).Draw(t, "function")]
	values := slices.Clone(f.Example)
	for len(values) < len(f.Args) && rapid.IntRange(0, 2).Draw(t, "more") == 0 {
		values = append(values, anyCell.Draw(t, "optional"))
	}
	for i := range values {
		switch rapid.IntRange(0, 5).Draw(t, "what") {
		case 0:
			values[i] = anyCell.Draw(t, "value")
		case 1:
			if f.Args[i].Kind == Range {
				values[i] = rapid.SliceOfN(rapid.SliceOfN(anyCell, 1, 4), 0, 4).Draw(t, "range")
			}
		case 2:
			// A column in place of one cell, now and then with others in it.
			column := make([][]any, 3)
			for k := range column {
				column[k] = []any{values[i]}
				if rapid.Bool().Draw(t, "other") {
					column[k][0] = anyCell.Draw(t, "in column")
				}
			}
			if f.Args[i].Kind != Range {
				values[i] = column
			}
		}
	}
	return f, values
}

func faults(r Result, bad *Fault) []*Fault {
	if bad != nil {
		return []*Fault{bad}
	}
	var out []*Fault
	for _, line := range r.Grid {
		for _, cell := range line {
			if bad, ok := cell.(*Fault); ok {
				out = append(out, bad)
			}
		}
	}
	return out
}

// Whatever comes in, a function gives a finite value or an error that its
// row names, and the same twice. It never panics.
func TestFunctionsKeepToTheirRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, values := anyCall(t)
		r, bad := f.Call(values)
		again, badAgain := f.Call(values)
		for _, bad := range faults(r, bad) {
			if bad.Internal {
				t.Fatalf("%s %v: %s", f.Name(), values, bad.Message)
			}
			if !slices.Contains(f.Codes(), bad.Code) {
				t.Fatalf("%s %v gives %v, which its row does not name", f.Name(), values, bad)
			}
		}
		if !assert.ObjectsAreEqual(r, again) || !assert.ObjectsAreEqual(bad, badAgain) {
			t.Fatalf("%s %v: %v %v, then %v %v", f.Name(), values, r, bad, again, badAgain)
		}
	})
}

// WHY is empty exactly when the call gives a value.
func TestWhyIsEmptyExactlyWhenThereIsAValue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, values := anyCall(t)
		if f.Method == whyMethod {
			t.Skip("takes no more arguments")
		}
		r, bad := f.Call(values)
		told, none := Call("why", append([]any{Prefix + "." + f.Name()}, values...))
		if none != nil {
			t.Fatalf("WHY %s %v has no value: %v", f.Name(), values, none)
		}
		fine := len(faults(r, bad)) == 0
		if fine != (told.Text == "") {
			t.Fatalf("%s %v: %v %v, and WHY says %q", f.Name(), values, r, bad, told.Text)
		}
		if bad != nil && told.Text != bad.Message {
			t.Fatalf("%s %v: %v, and WHY says %q", f.Name(), values, bad, told.Text)
		}
	})
}

// A column of arguments gives, cell by cell, what each of them gives.
func TestAColumnGivesWhatEachOfItsCellsGives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := &Functions()[rapid.IntRange(0, len(Functions())-1).Draw(t, "function")]
		if len(f.Example) == 0 || f.Result == Column || f.Result == Grid || f.Method == whyMethod {
			t.Skip("takes no column")
		}
		i := rapid.IntRange(0, len(f.Example)-1).Draw(t, "argument")
		if f.Args[i].Kind == Range {
			t.Skip("takes a range")
		}
		cells := rapid.SliceOfN(anyCell, 2, 5).Draw(t, "cells")
		across := rapid.Bool().Draw(t, "across")
		values := slices.Clone(f.Example)
		lines := [][]any{cells}
		if !across {
			lines = make([][]any, len(cells))
			for k := range cells {
				lines[k] = cells[k : k+1]
			}
		}
		values[i] = lines
		r, bad := f.Call(values)
		if bad != nil || r.Kind != Grid {
			t.Fatalf("%s %v: %v", f.Name(), values, bad)
		}
		for k, cell := range cells {
			got := r.Grid[0]
			if !across {
				got = r.Grid[k]
			}
			answer := got[min(k, len(got)-1)]
			if s, ok := cell.(string); cell == nil || ok && trimmed(s) == "" {
				if answer != nil {
					t.Fatalf("%s %v: a blank cell gives %v", f.Name(), values, answer)
				}
				continue
			}
			one := slices.Clone(f.Example)
			one[i] = cell
			want, bad := f.Call(one)
			var same bool
			switch x := answer.(type) {
			case *Fault:
				same = bad != nil && *bad == *x
			case string:
				same = bad == nil && want.Text == x
			case float64:
				same = bad == nil && want.Number == x
			}
			if !same {
				t.Fatalf("%s %v: %v in the column, alone %v %v", f.Name(), one, answer, want, bad)
			}
		}
	})
}

// A twin gives for metric sizes what its function gives for the same ones.
func TestATwinGivesTheSameInMetric(t *testing.T) {
	twins := 0
	for i := range Functions() {
		f := &Functions()[i]
		if f.Twin == "" {
			continue
		}
		twins++
		twin, ok := Find(f.Twin)
		require.True(t, ok, f.Twin)
		assert.Equal(t, f.Method, twin.Of)
		a, bad := f.Call(f.Example)
		require.Nil(t, bad)
		b, bad := twin.Call(twin.Example)
		require.Nil(t, bad, "%s %v: %v", twin.Name(), twin.Example, bad)
		if f.Result == Amount { // the price of a metre in place of that of a yard, of 2 1/4 yd
			assert.InDelta(t, 2.0574*68, b.Number, 0.005, twin.Name())
			continue
		}
		same := func(x, y float64) {
			if k, ok := metricFactor[f.Unit]; ok {
				x *= k
			}
			assert.InEpsilon(t, 1+x, 1+y, 2e-5, "%s %v, %s %v", f.Name(), f.Example, twin.Name(), twin.Example)
		}
		assert.Equal(t, a.Text, b.Text)
		same(a.Number, b.Number)
		require.Len(t, b.Column, len(a.Column))
		for k := range a.Column {
			same(a.Column[k], b.Column[k])
		}
		require.Len(t, b.Grid, len(a.Grid), twin.Name())
		for k, line := range a.Grid {
			for c, cell := range line {
				x, ok := cell.(float64)
				if !ok || c == 3 { // the name and the count of a cut list
					assert.Equal(t, cell, b.Grid[k][c])
					continue
				}
				same(x, b.Grid[k][c].(float64)) //nolint:forcetypeassert // fails the test
			}
		}
	}
	assert.Positive(t, twins)
}

// What a cushion is cut from is a cut list as it stands.
func TestACutListHasNamesOrNot(t *testing.T) {
	cuts := call(t, "CUSHIONCUTSIN", 22.0, 20.0, 4.0, nil, 54.0).Grid
	bare := make([][]any, len(cuts))
	for i, r := range cuts {
		bare[i] = r[1:]
	}
	a := call(t, "YARDAGEYD", cuts, 54.0)
	assert.Positive(t, a.Number)
	assert.Equal(t, a, call(t, "YARDAGEYD", bare, 54.0))
	refused(t, Value, "the first has the names", "YARDAGEYD", [][]any{{1.0, 26.0, 31.0, 2.0}}, 54.0)
	refused(t, Value, "", "YARDAGEYD", [][]any{{"back", 26.0, 31.0, 2.0}, {26.0, 31.0, 2.0}}, 54.0)
}

// A number and the text of it with its unit are the same, whatever the
// function and wherever the argument.
func TestATextWithItsUnitIsTheNumber(t *testing.T) {
	sign := map[string]string{"in": " in", "mm": " mm", "yd": " yd", "m": " m", "sqft": " sq ft", "sqdm": " sq dm", "oz": " oz", "g": " g", "lb": " lb", "kg": " kg",
		"lbf": " lbf", "n": " N", "pcf": " lb/ft3", "kgm3": " kg/m3", "hours": " h"}
	seen := map[string]bool{}
	for i := range Functions() {
		f := &Functions()[i]
		want, bad := f.Call(f.Example)
		require.Nil(t, bad, f.Name())
		for k, v := range f.Example {
			unit := f.Args[k].Unit()
			if f.Args[k].Kind == Share {
				unit = "share"
			}
			written := func(v any) any {
				x, ok := v.(float64)
				switch {
				case !ok:
					return v
				case unit == "share":
					return strconv.FormatFloat(x*100, 'f', -1, 64) + " %"
				}
				return strconv.FormatFloat(x, 'f', -1, 64) + sign[unit]
			}
			values := slices.Clone(f.Example)
			switch {
			case unit == "":
				continue
			case f.Args[k].Kind == Range:
				lines := make([][]any, len(v.([][]any))) //nolint:forcetypeassert // fails the test
				for r, line := range v.([][]any) {       //nolint:forcetypeassert // fails the test
					lines[r] = slices.Clone(line)
					for c := range line {
						if f.Args[k].Sizes == 0 || c < f.Args[k].Sizes {
							lines[r][c] = written(line[c])
						}
					}
				}
				values[k] = lines
			default:
				values[k] = written(v)
			}
			seen[unit] = true
			got, bad := f.Call(values)
			if assert.Nil(t, bad, "%s %v: %v", f.Name(), values, bad) {
				// A force is a float64: read as text, the last bit may differ.
				assert.InDelta(t, want.Number, got.Number, 1e-14*max(1, want.Number), "%s %v", f.Name(), values)
				got.Number = want.Number
				assert.Equal(t, want, got, "%s %v", f.Name(), values)
			}
		}
	}
	for u := range sign {
		assert.True(t, seen[u], "no example has a number in %s", u)
	}
	assert.True(t, seen["share"])
}

var metricFactor = map[string]float64{
	"in": 25.4, "yd": 0.9144, "sq ft": 9.290304, "lb": 0.45359237, "lbf": 4.4482216152605, "lb/cu ft": 16.01846337,
	"lbf/in": 4.4482216152605 / 2.54, "bd ft": 2.359737216,
}
