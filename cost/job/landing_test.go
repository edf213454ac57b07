package job

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Four backs have their motif where it was asked for; their goods run up the roll or
// to its left edge.
func TestMotifsOnCuts(t *testing.T) {
	for name, goods := range map[string]string{
		"up":   `"repeat": "27 in", "repeat_across": "26 1/2 in", "first_motif": "13 1/4 in, 12 in"`,
		"left": `"repeat": "26 1/2 in", "repeat_across": "27 in", "first_motif": "39 3/4 in, 11 in", "up": "to the left edge"`,
	} {
		o, err := Read(t.Context(), strings.NewReader(fourBacks(goods, "9 in, 12 in")), quick)
		require.NoError(t, err, name)
		assert.Equal(t, []CutMotif{{Count: 4, At: shape.Point{X: 9 * unit.Inch, Y: 12 * unit.Inch}, Way: allowance.BothWays}}, o.Cuts[0].Motifs, name)
	}
}

// Panels that only share the pattern lie on it as serves the layout; what they show is
// where the layout moved it to, by the numbers of the plan: the point of the piece that
// stands for all, with the way from what they go by to the motifs.
func TestMotifsOfPiecesThatShareThePattern(t *testing.T) {
	o, err := Read(t.Context(), strings.NewReader(flowJob(`"repeat": "9 in", "repeat_across": "12 in", "first_motif": "1 in, 2 in"`,
		`{"name": "chair", "panels": [{"name": "seat", "goods": "cloth", "width": "20 in", "length": "18 in"}, {"name": "front", "goods": "cloth", "width": "20 in", "length": "6 in"}],
		"meets": [{"meet": "seat.bottom", "to": "front.top", "pattern": "both"}]}`)), quick)
	require.NoError(t, err)
	plan := o.Purchases[0].Plan
	repeat := material.Motifs{Across: 12 * unit.Inch, Along: 9 * unit.Inch}
	require.Len(t, o.Cuts, 2)
	for i, c := range o.Cuts {
		phase := plan.Job.Pieces[i].Phase
		require.Equal(t, 1, phase.Common)
		require.Len(t, c.Motifs, 1)
		low, _ := plan.Job.Pieces[i].Outline.Bounds()
		spot, moved := phase.Spots[0].Point, plan.Motifs[phase.Common]
		true0 := shape.Point{X: spot.X + plan.Motifs[0].X - moved.X - low.X, Y: spot.Y + plan.Motifs[0].Y - moved.Y - low.Y}
		at := c.Motifs[0].At
		assert.Equal(t, shape.Point{}, repeat.Apart(shape.Point{X: at.X - true0.X, Y: at.Y - true0.Y}), c.Part)
	}
}
