package schema

import (
	"reflect"

	"github.com/coverwright/coverwright/cost/bench"
	"github.com/coverwright/coverwright/cost/job"
)

// joined are the lists of a shop file whose entries a job adds to, by the type of
// the entry and the field that it must have. Entries of the price list must be whole.
var joined = map[reflect.Type]string{
	reflect.TypeFor[job.GoodsSpec](): "id", reflect.TypeFor[bench.Piece](): "name",
	reflect.TypeFor[bench.Extra](): "name", reflect.TypeFor[bench.Goods](): "name", reflect.TypeFor[bench.Errand](): "task",
}

// partsOf gives the types of a shop file that need not be whole there, each with the
// field that it must have nevertheless: what stands below the root but for lists
// that a job replaces.
func partsOf(root reflect.Type) map[reflect.Type]string {
	if root != reflect.TypeFor[job.Shop]() {
		return nil
	}
	out := map[reflect.Type]string{}
	var add func(t reflect.Type)
	add = func(t reflect.Type) {
		for t.Kind() == reflect.Pointer || t.Kind() == reflect.Map || t.Kind() == reflect.Slice && joined[t.Elem()] != "" {
			t = t.Elem()
		}
		if _, seen := out[t]; seen || t.Kind() != reflect.Struct {
			return
		}
		if t != root {
			out[t] = joined[t]
		}
		for i := range t.NumField() {
			if f := t.Field(i); f.IsExported() && f.Type != priceList {
				add(f.Type)
			}
		}
	}
	add(root)
	return out
}
