package job

import (
	"context"
	"encoding/json"
	"os"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/dev/roundtrip"
	"github.com/coverwright/coverwright/unit"
)

// Every exported struct type goes through JSON, empty and with the values of two
// jobs worked out. Options hold a function, a RollOffer and its result are no
// files, Fault is an error, and a Shop keeps the file that it was read from.
func TestEveryTypeIsJSON(t *testing.T) {
	var typical []any
	for text, of := range map[string]func() (WorkOrder, error){demo(t): demoOrder, second(t): secondOrder} {
		s, err := ReadSpec(strings.NewReader(text))
		require.NoError(t, err)
		o, err := of()
		require.NoError(t, err)
		typical = append(typical, inside(reflect.ValueOf(s))...)
		typical = append(typical, inside(reflect.ValueOf(o))...)
	}
	for _, name := range []string{"wing-chair", "bolster"} {
		s := anatomies(t)[name]
		d, err := prepare(context.Background(), s)
		require.NoError(t, err)
		typical = append(typical, inside(reflect.ValueOf(s))...)
		typical = append(typical, d.cut.assembly[0])
	}
	typical = append(typical, jobWith(t, sixSeats).Pieces[0].KindSpec, jobWith(t, sixSeats).Pieces[0],
		KindSpec{Measures: map[string]unit.Length{"a": unit.Inch}, GoodsFor: map[string]string{"a": "b"}, Without: []string{"c"}})
	price, err := cost.ParseMoney("7.50 USD")
	require.NoError(t, err)
	typical = append(typical, SeamFinish{Kind: allowance.WeltedJoin, Handling: unit.Inch}, CrossingSpec{Pattern: allowance.AlongOnly, Gap: unit.Inch},
		MotifSpec{On: "back", At: &shape.Point{X: unit.Inch}, Way: allowance.AcrossOnly, Alike: "backs"}, PatternFlow{Breaks: []PatternBreak{{Crossing: 1, Off: shape.Point{X: unit.Inch}}}},
		PatternBreak{Piece: 2, Off: shape.Point{Y: unit.Inch}},
		PullStrip{Panel: "back", Saved: unit.SquareInch}, CutLine{Part: "wing 1 and 2", Cuts: []int{0, 1}},
		PillowForm{Piece: "sofa", Part: "pillow", Count: 2, Width: unit.Foot, Depth: unit.Foot, Priced: true}, PillowFormSpec{Price: price},
		MarkupSpec{Foam: new(unit.Ratio)}, StretchSpec{Direction: 90 * unit.Degree}, StitchWish{StitchLength: 4 * unit.Millimetre})
	typical = append(typical, TakenOff{Photos: []string{"left.jpg"}, Notes: []string{"eased"}}, TakeOffSpec{Order: []string{"back"}},
		TakeOff{Piece: "chair", Order: []string{"back"}, Panels: []PanelRecord{{Panel: "back"}}}, PanelRecord{Panel: "back", TakenOff: TakenOff{Notes: []string{"eased"}}})
	typical = append(typical, usualTypes(t)...)
	typical = append(typical, DefaultsSpec{Least: new(unit.Length), Facing: true, PriceDays: 90})
	var x FillingSpec
	require.NoError(t, json.Unmarshal([]byte(allFilled), &x))
	typical = append(typical, inside(reflect.ValueOf(x))...)
	typical = append(typical, FoamSheets{Blocks: []int{0, 2}, Volume: unit.BoardFoot, Waste: 0.25}, FoamWrap{Sheets: 2, Area: unit.SquareFoot, TakesUp: true})
	faults, err := roundtrip.Faults(os.DirFS("."), typical, "Options", "RollOffer", "RollCost", "Progress", "Shop")
	require.NoError(t, err)
	require.Empty(t, faults)
}

// allFilled has every field of a filling that is a type of its own.
const allFilled = `{"use": "seat", "duty": "heavy", "base": "board", "price": "3.40 USD/bd ft", "sheet": {"length": "80 in", "width": "24 in"}, "wrap": {"loft": "3/4 in", "price": "4.00 USD/yd", "width": "48 in"},
	"layers": [{"name": "top", "thickness": "1 in", "use": "back", "price": "3.40 USD/bd ft"}],
	"wanted_firmness": {"press": {"disc": "8 in", "weight": "25 lb", "sink": "1 in", "thickness": "4 in"}}}`

// inside gives one value of each struct type of this package in v, v included.
func inside(v reflect.Value) []any {
	here := reflect.TypeFor[Spec]().PkgPath()
	var out []any
	seen := map[reflect.Type]bool{}
	var walk func(reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem())
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Map:
			for _, k := range v.MapKeys() {
				walk(v.MapIndex(k))
			}
		case reflect.Struct:
			if v.Type().PkgPath() != here {
				return
			}
			if !seen[v.Type()] && !v.IsZero() {
				seen[v.Type()] = true
				out = append(out, v.Interface())
			}
			for i := range v.NumField() {
				if v.Type().Field(i).IsExported() {
					walk(v.Field(i))
				}
			}
		}
	}
	walk(v)
	return out
}
