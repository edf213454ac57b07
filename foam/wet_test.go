package foam_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// Where foam gets wet, no ordinary foam is recommended in silence: a grade fits
// only when it drains.
func TestWetFoamDrains(t *testing.T) {
	r := foam.Request{Use: foam.Seat, Duty: foam.HeavyDuty, Base: foam.Board, Thickness: 4 * unit.Inch}
	dry, err := foam.Select(r)
	require.NoError(t, err)
	r.Wet = true
	wet, err := foam.Select(r)
	require.NoError(t, err)
	kinds := func(list []foam.Reason) (out []foam.ReasonKind) {
		for _, x := range list {
			out = append(out, x.Kind)
		}
		return out
	}
	assert.NotContains(t, kinds(dry.Reasons), foam.DrainsUsual)
	assert.Contains(t, kinds(wet.Reasons), foam.DrainsUsual)
	assert.Equal(t, dry.Target, wet.Target)
	fitted := false
	for _, g := range dry.Grades {
		fitted = fitted || g.Fits
	}
	require.True(t, fitted)
	for _, g := range wet.Grades {
		assert.False(t, g.Fits, g.Grade.Name)
		assert.Contains(t, kinds(g.Reasons), foam.GradeHoldsWater)
	}
	r.Stock = []foam.Grade{{Name: "ordinary", Density: wet.Density.Low, IFD25: wet.Target}, {Name: "drain", Density: wet.Density.Low, IFD25: wet.Target, Drains: true}}
	wet, err = foam.Select(r)
	require.NoError(t, err)
	assert.Equal(t, "drain", wet.Grades[0].Grade.Name)
	assert.True(t, wet.Grades[0].Fits)
	assert.False(t, wet.Grades[1].Fits)
}

// One layer of what a selection asks for is the sitting of the selection.
func TestLayerSitsAsItsSelection(t *testing.T) {
	who := 90 * unit.Kilogram
	s, err := foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Sitter: who})
	require.NoError(t, err)
	x, err := foam.Sit(foam.Stack{s.Layer("", 4*unit.Inch)}, foam.Sitter{Mass: who})
	require.NoError(t, err)
	assert.Equal(t, s.Sitting.Pressed, x.Pressed)
	assert.Equal(t, s.Sitting.Sink, x.Sink)
	for _, u := range foam.Uses() {
		s, err := foam.Select(foam.Request{Use: u, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Sitter: who})
		require.NoError(t, err)
		assert.Equal(t, u.Carries(), s.Sitting != nil, u)
	}
}
