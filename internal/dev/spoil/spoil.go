// Package spoil makes the numbers of a value wrong, one at a time, for tests of
// what must be refused.
package spoil

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

// Each makes every number below the pointer v one that no measure is: less than
// nothing, and what is no number where it may be a fraction. It calls f with the
// field's path in the words of its files and then puts the number back.
func Each(v any, f func(path unit.Path)) { each(reflect.ValueOf(v).Elem(), "", f) }

// Named calls a calculator with each number of what it takes made wrong: it must
// name that number.
func Named[In any](t *testing.T, name string, in In, call func(In) error) {
	t.Helper()
	require.NoError(t, call(in), name)
	Each(&in, func(path unit.Path) {
		err := call(in)
		var e *unit.InputError
		if assert.ErrorAs(t, err, &e, "%s: %s", name, path) {
			assert.Equal(t, path, e.Field, name)
		}
	})
}

func each(v reflect.Value, at unit.Path, f func(unit.Path)) {
	switch v.Kind() {
	case reflect.Int, reflect.Int64:
		spoilt(v, at, f, reflect.ValueOf(int64(-1)))
	case reflect.Float64:
		for _, x := range []float64{-1, math.NaN(), math.Inf(1)} {
			spoilt(v, at, f, reflect.ValueOf(x))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			each(v.Index(i), at.At(i), f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			field := v.Type().Field(i)
			if !field.IsExported() {
				continue
			}
			name, _, _ := strings.Cut(field.Tag.Get("json"), ",")
			switch {
			case field.Anonymous:
				each(v.Field(i), at, f)
			case at == "":
				each(v.Field(i), unit.Path(name), f)
			default:
				each(v.Field(i), at.Dot(unit.Path(name)), f)
			}
		}
	}
}

func spoilt(v reflect.Value, at unit.Path, f func(unit.Path), wrong reflect.Value) {
	old := reflect.ValueOf(v.Interface())
	v.Set(wrong.Convert(v.Type()))
	f(at)
	v.Set(old)
}
