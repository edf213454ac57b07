package job

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// What is sold in steps by custom, by the unit of its price.
func TestStepsOfPrices(t *testing.T) {
	for per, step := range map[string]cost.AnyQuantity{
		"yd": cost.AnyOf(9 * unit.Inch), "m": cost.AnyOf(100 * unit.Millimetre), "lb": cost.AnyOf(8 * unit.Pound / 16), "kg": cost.AnyOf(100 * unit.Gram),
		"gal": cost.AnyOf(unit.Volume(189_270_589)), "l": cost.AnyOf(unit.Litre / 10), "sq yd": cost.AnyOf(324 * unit.SquareInch), "m2": cost.AnyOf(10 * unit.SquareDecimetre),
		"ft": cost.AnyOf(unit.Foot), "1000 pieces": cost.AnyOf(cost.Pieces(1)),
	} {
		var p cost.AnyPrice
		require.NoError(t, p.UnmarshalText([]byte("1.80 USD/"+per)), per)
		assert.Equal(t, step, stepOf(p), per)
	}
	for priced, step := range map[unit.Length]unit.Length{0: 9 * unit.Inch / 2, unit.Yard: 9 * unit.Inch / 2, unit.Metre: 100 * unit.Millimetre} {
		assert.Equal(t, step, GoodsSpec{}.withIncrement(priced).Increment)
		assert.Equal(t, unit.Inch, GoodsSpec{Increment: unit.Inch}.withIncrement(priced).Increment)
	}
}

// A bolster rolled up of a sheet has the volume of the cylinder, a round front that
// of the box behind it and half a cylinder.
func TestVolumesOfRoundFoam(t *testing.T) {
	const in = unit.Inch
	volume := func(s foam.Shape) float64 {
		v, err := s.Volume()
		require.NoError(t, err)
		return float64(v)
	}
	sheet, err := rolled(40*in, 7*in, in)
	require.NoError(t, err)
	assert.InEpsilon(t, volume(foam.Cylinder{Diameter: 7 * in, Length: 40 * in}), volume(sheet), 1e-8)

	b := FoamBlock{Form: FoamRoundFront, Count: 1, Cut: foam.Block{Length: 24 * in, Width: 20 * in, Thickness: 4 * in}}
	require.NoError(t, b.measure())
	want := volume(foam.Block{Length: 24 * in, Width: 18 * in, Thickness: 4 * in}) + volume(foam.Cylinder{Diameter: 4 * in, Length: 24 * in})/2
	assert.InEpsilon(t, want, float64(b.Shaped), 1e-8)
}

// A wrap of half an inch takes the cover up, of one layer or of several.
func TestWrapThatTakesUp(t *testing.T) {
	half := unit.Inch / 2
	for _, c := range []struct {
		loft   unit.Length
		layers int
		want   bool
	}{
		{half, 0, true}, {half - 1, 0, false}, {half / 2, 2, true}, {half/2 - 1, 2, false}, {half / 4, 4, true}, {half/4 - 1, 4, false},
		{math.MaxInt64, math.MaxInt, true},
	} {
		assert.Equal(t, c.want, WrapSpec{Loft: c.loft, Layers: c.layers}.takesUp(), c)
	}
}
