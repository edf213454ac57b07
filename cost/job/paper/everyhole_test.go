//go:build long

package paper_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/cost/job"
	"github.com/coverwright/coverwright/cost/job/paper"
	"github.com/coverwright/coverwright/cost/job/supplies"
)

func TestOrdersWithHolesInFull(t *testing.T) { rapid.Check(t, ordersWithHoles(t)) }

// An order of which one part, whichever, is lost gives papers and a list of
// supplies or errors. Of a list the first part, the last, and all are lost.
func TestOrderWithEveryHole(t *testing.T) {
	whole := demo(t)
	holes := 0
	try := func(o reflect.Value, at string) {
		holes++
		order := o.Interface().(job.WorkOrder)
		require.NotPanics(t, func() {
			_, _ = supplies.Of(order, supplies.Options{})
			_, _ = paper.Of(order, paper.Quotation, &whole)
			_, _ = paper.Of(whole, paper.Invoice, &order)
		}, at)
	}
	o := reflect.New(reflect.TypeFor[job.WorkOrder]()).Elem()
	o.Set(reflect.ValueOf(whole))
	everyHole(o, "order", func(at string) { try(o, at) })
	require.Greater(t, holes, 1000)
}

// everyHole calls try with v as it is but for one hole, each in turn. What is
// shared with another value is copied before it is changed.
func everyHole(v reflect.Value, at string, try func(at string)) {
	kept := reflect.New(v.Type()).Elem()
	kept.Set(v)
	defer v.Set(kept)
	if !v.IsZero() {
		v.SetZero()
		try(at)
		v.Set(kept)
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Type().Field(i); f.IsExported() {
				everyHole(v.Field(i), at+"."+f.Name, try)
			}
		}
	case reflect.Slice:
		n := v.Len()
		if n == 0 {
			return
		}
		for _, i := range []int{0, n - 1} {
			own := reflect.MakeSlice(v.Type(), 0, n)
			v.Set(reflect.AppendSlice(reflect.AppendSlice(own, kept.Slice(0, i)), kept.Slice(i+1, n)))
			try(at + "[out]")
		}
		own := reflect.MakeSlice(v.Type(), n, n)
		reflect.Copy(own, kept)
		v.Set(own)
		everyHole(v.Index(0), at+"[0]", try)
		if n > 1 {
			everyHole(v.Index(n-1), at+"[last]", try)
		}
	case reflect.Pointer:
		if kept.IsNil() {
			return
		}
		own := reflect.New(v.Type().Elem())
		own.Elem().Set(kept.Elem())
		v.Set(own)
		everyHole(own.Elem(), at, try)
	}
}
