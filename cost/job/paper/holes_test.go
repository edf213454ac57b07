package paper_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/cost/job/supplies"
	"github.com/coverwright/coverwright/internal/dev/few"
)

// An order that lost any of its parts gives a paper and a list of supplies or an error,
// and never a panic.
func TestOrdersWithHoles(t *testing.T) { few.Check(t, 25, ordersWithHoles(t)) }

func ordersWithHoles(t *testing.T) func(*rapid.T) {
	whole := demo(t)
	return func(t *rapid.T) {
		o := reflect.New(reflect.TypeFor[job.WorkOrder]()).Elem()
		o.Set(reflect.ValueOf(whole))
		for range rapid.IntRange(1, 3).Draw(t, "holes") {
			hole(t, o)
		}
		order := o.Interface().(job.WorkOrder)
		for _, k := range append(kinds, 0) {
			_, _ = paper.Of(order, k, &whole)
			_, _ = paper.Of(whole, k, &order)
		}
		_, _ = supplies.Of(order, supplies.Options{})
	}
}

// hole empties some field of v, or of what it holds. What is copied is not changed.
func hole(t *rapid.T, v reflect.Value) {
	for {
		switch v.Kind() {
		case reflect.Struct:
			var open []int
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					open = append(open, i)
				}
			}
			if len(open) == 0 {
				return
			}
			v = v.Field(rapid.SampledFrom(open).Draw(t, "field"))
			if rapid.IntRange(0, 2).Draw(t, "empty") == 0 {
				v.SetZero()
				return
			}
		case reflect.Slice:
			if v.Len() == 0 {
				return
			}
			own := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
			reflect.Copy(own, v)
			v.Set(own)
			i := rapid.IntRange(0, v.Len()-1).Draw(t, "at")
			if rapid.IntRange(0, 2).Draw(t, "out") == 0 {
				v.Set(reflect.AppendSlice(v.Slice3(0, i, i), v.Slice(i+1, v.Len())))
				return
			}
			v = v.Index(i)
		case reflect.Pointer:
			if v.IsNil() {
				return
			}
			own := reflect.New(v.Type().Elem())
			own.Elem().Set(v.Elem())
			v.Set(own)
			v = own.Elem()
		default:
			v.SetZero()
			return
		}
	}
}
