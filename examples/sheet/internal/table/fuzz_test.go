package table_test

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"github.com/coverwright/coverwright/examples/sheet/internal/table"
)

// Whatever a function is given, it gives finite figures or a fault with one of
// its codes, the same each time, and never a fault of its own. Three bits of
// kinds say what each argument is.
func FuzzCall(f *testing.F) {
	for i := range table.Functions() {
		fn := &table.Functions()[i]
		kinds, word := uint32(0), ""
		var x [8]float64
		for k, v := range fn.Example {
			switch v := v.(type) {
			case float64:
				x[k] = v
			case string:
				kinds, word = kinds|1<<(3*k), v
			case nil:
				kinds |= 2 << (3 * k)
			default:
				kinds |= 3 << (3 * k)
			}
		}
		f.Add(uint8(i), kinds, word, x[0], x[1], x[2], x[3], x[4], x[5], x[6], x[7]) //nolint:gosec // fewer than 256
	}
	f.Fuzz(func(t *testing.T, which uint8, kinds uint32, word string, a, b, c, d, e, g, h, i float64) {
		x := []float64{a, b, c, d, e, g, h, i}
		fn := &table.Functions()[int(which)%len(table.Functions())]
		values := make([]any, min(len(fn.Args), len(x)))
		for k := range values {
			switch kinds >> (3 * k) & 7 {
			case 1:
				values[k] = word
			case 2:
				values[k] = nil
			case 3:
				values[k] = [][]any{{a, b, 1.0}, {c, d, 2.0}, {nil, word, nil}}
			case 4:
				values[k] = [][]any{{a}, {x[k]}, {nil}}
			default:
				values[k] = x[k]
			}
		}
		r, bad := fn.Call(values)
		again, badToo := fn.Call(values)
		if !reflect.DeepEqual(r, again) || !reflect.DeepEqual(bad, badToo) {
			t.Fatalf("%s of %v gives %v %v, then %v %v", fn.Name(), values, r, bad, again, badToo)
		}
		faults := []*table.Fault{bad}
		figures := append([]float64{r.Number}, r.Column...)
		for _, line := range r.Grid {
			for _, cell := range line {
				switch v := cell.(type) {
				case float64:
					figures = append(figures, v)
				case *table.Fault:
					faults = append(faults, v)
				}
			}
		}
		for _, bad := range faults {
			if bad != nil && (bad.Internal || !slices.Contains(table.Codes(), bad.Code) || bad.Message == "") {
				t.Fatalf("%s of %v: %v", fn.Name(), values, bad)
			}
		}
		for _, v := range figures {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Fatalf("%s of %v gives %v", fn.Name(), values, r)
			}
		}
	})
}
