package allowance_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// A finish of a half outline is that of both halves unless the other is named.
func TestFinishOfBothHalves(t *testing.T) {
	o, err := shape.Half(shape.TraceFrom(shape.Point{}).Edge("bottom").Line(corner(10, 0)).Edge("side").Line(corner(8, 20)).Edge("top").Line(corner(0, 20)))
	require.NoError(t, err)
	p := allowance.Panel{Outline: o, Edges: map[string]allowance.Edge{"side": {Finish: allowance.PullOver, Allowance: allowance.Exactly(3 * unit.Inch)}}}
	finishes := func() map[string]allowance.Finish {
		cut, err := p.Cut()
		require.NoError(t, err)
		out := map[string]allowance.Finish{}
		for _, e := range cut.Edges {
			out[e.Name] = e.Finish
		}
		return out
	}
	assert.Equal(t, map[string]allowance.Finish{"bottom": allowance.PlainSeam, "side": allowance.PullOver, "top": allowance.PlainSeam, "side mirrored": allowance.PullOver}, finishes())
	p.AllEdges = allowance.Edge{Finish: allowance.SingleHem}
	delete(p.Edges, "side")
	assert.Equal(t, map[string]allowance.Finish{"bottom": allowance.SingleHem, "side": allowance.SingleHem, "top": allowance.SingleHem, "side mirrored": allowance.SingleHem}, finishes())
	p.AllEdges = allowance.Edge{}
	p.Edges["side mirrored"] = allowance.Edge{Finish: allowance.WeltedSeam}
	assert.Equal(t, allowance.WeltedSeam, finishes()["side mirrored"])
	p.Edges = map[string]allowance.Edge{"side": {Finish: allowance.PullOver, Handling: -1 * unit.Inch}}
	_, err = p.Cut()
	var in *unit.InputError
	require.ErrorAs(t, err, &in)
	assert.Equal(t, unit.Path("edges.side.handling"), in.Field)
}

// A notch of a half outline is on both halves, unless one is named on the other
// or it is kept to one.
func TestNotchOfBothHalves(t *testing.T) {
	o, err := shape.Half(shape.TraceFrom(shape.Point{}).Edge("bottom").Line(corner(10, 0)).Edge("side").Line(corner(10, 20)).Edge("top").Line(corner(0, 20)))
	require.NoError(t, err)
	marks := func(ns ...allowance.Notch) map[shape.Point]bool {
		cut, err := allowance.Panel{Outline: o, Notches: ns}.Cut()
		require.NoError(t, err)
		out := map[shape.Point]bool{}
		for _, n := range cut.Notches {
			out[n.Seam] = true
		}
		return out
	}
	side := allowance.Notch{Edge: "side", At: 5 * unit.Inch}
	right, left := corner(10, 5), corner(-10, 5)
	assert.Equal(t, map[shape.Point]bool{right: true, left: true}, marks(side))
	assert.Equal(t, map[shape.Point]bool{right: true, corner(-10, 12): true}, marks(side, allowance.Notch{Edge: "side mirrored", At: 8 * unit.Inch}))
	side.OneHalf = true
	assert.Equal(t, map[shape.Point]bool{right: true}, marks(side))
}
