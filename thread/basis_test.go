package thread_test

import (
	"encoding/json"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit/cite"
)

// tables are all tables of the package.
func tables(t *testing.T) map[string]any {
	t.Helper()
	var properties []thread.Properties
	for _, f := range thread.Fibres() {
		p, err := f.Properties()
		require.NoError(t, err)
		properties = append(properties, p)
	}
	var needles []thread.NeedleRange
	var densities []thread.StitchRange
	var picks []thread.Advice
	for _, g := range thread.AllGoods() {
		d, err := thread.StitchDensityFor(g)
		require.NoError(t, err)
		densities = append(densities, d)
		a, err := thread.Recommend(thread.Need{Goods: g, Layers: 2})
		require.NoError(t, err)
		picks = append(picks, a)
		for _, s := range thread.Sizes() {
			n, err := thread.NeedlesFor(s, g)
			require.NoError(t, err)
			needles = append(needles, n)
		}
	}
	var made []cite.Basis
	for _, n := range thread.Needles() {
		made = append(made, n.Basis())
	}
	return map[string]any{
		"sizes": thread.Table(), "specifications": thread.Specifications(), "needle numbers": made,
		"needles": needles, "published needles": thread.PublishedNeedles(), "needle views": thread.NeedleViews(), "densities by goods": densities,
		"densities": thread.StitchDensities(), "back-tacks": thread.BackTacks(), "spacings": thread.RowSpacings(),
		"stitch types": thread.StitchTypes(), "ratios": thread.UsageRatios(), "loop factors": thread.LoopFactors(),
		"windings": thread.WoundDensities(), "properties": properties, "weather losses": thread.WeatherLosses(),
		"recommendations": picks, "influences": thread.Influences(), "model fits": thread.ModelFits(),
	}
}

// Every figure of every table has a basis whose source can be looked up, or is
// a gap that says why. Common practice and memory carry no source.
func TestEveryFigureHasABasis(t *testing.T) {
	for name, table := range tables(t) {
		t.Run(name, func(t *testing.T) {
			count := 0
			walk(reflect.ValueOf(table), func(v reflect.Value) {
				count++
				b := v.Interface().(cite.Basis)
				switch b.Status {
				case cite.Published, cite.Standard:
					_, ok := cite.Lookup(b.Source)
					assert.True(t, ok, "source %q", b.Source)
				case 0:
					assert.NotEmpty(t, b.Note, "a gap says why")
					assert.Empty(t, b.Source)
				default:
					assert.Empty(t, b.Source, "%v carries no source", b.Status)
				}
			})
			assert.NotZero(t, count)
		})
	}
}

// walk calls visit for every basis inside v, those of cells included.
func walk(v reflect.Value, visit func(reflect.Value)) {
	basis := reflect.TypeFor[cite.Basis]()
	if v.Type() == basis {
		visit(v)
		return
	}
	if m := v.MethodByName("Basis"); m.IsValid() && m.Type().NumIn() == 0 && m.Type().Out(0) == basis {
		visit(m.Call(nil)[0])
		return
	}
	switch v.Kind() {
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			walk(v.Index(i), visit)
		}
	case reflect.Struct:
		if a, ok := v.Interface().(thread.Advice); ok {
			for _, p := range a.All() {
				walk(reflect.ValueOf(p), visit)
			}
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				walk(v.Field(i), visit)
			}
		}
	}
}

// Every table can be written as JSON and comes back the same.
func TestTablesRoundTripJSON(t *testing.T) {
	for name, table := range tables(t) {
		t.Run(name, func(t *testing.T) {
			data, err := json.Marshal(table)
			require.NoError(t, err)
			back := reflect.New(reflect.TypeOf(table))
			require.NoError(t, json.Unmarshal(data, back.Interface()), "%.300s", data)
			assert.Equal(t, table, back.Elem().Interface())
		})
	}
}

// A caller cannot change a table through what it was handed.
func TestTablesAreCopies(t *testing.T) {
	thread.Table()[0] = thread.TableRow{}
	thread.Specifications()[0] = thread.Specified{}
	thread.UsageRatios()[0] = thread.UsageRatio{}
	thread.LoopFactors()[0] = thread.LoopFactor{}
	thread.WeatherLosses()[0] = thread.WeatherLoss{}
	thread.BackTacks()[0] = thread.BackTack{}
	thread.RowSpacings()[0] = thread.RowSpacing{}
	thread.StitchTypes()[0] = thread.StitchType{}
	thread.WoundDensities()[0] = thread.WoundDensity{}
	d := thread.StitchDensities()
	d[0].Stitches[0] = 0
	assert.NotZero(t, thread.Table()[0])
	assert.NotZero(t, thread.Specifications()[0])
	assert.NotZero(t, thread.UsageRatios()[0])
	assert.NotZero(t, thread.LoopFactors()[0])
	assert.NotZero(t, thread.WeatherLosses()[0])
	assert.NotZero(t, thread.BackTacks()[0])
	assert.NotZero(t, thread.RowSpacings()[0])
	assert.NotZero(t, thread.StitchTypes()[0])
	assert.NotZero(t, thread.WoundDensities()[0])
	assert.NotZero(t, thread.StitchDensities()[0].Stitches[0])
}
