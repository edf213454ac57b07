package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var flatYield = material.YieldRange{From: 0.5, To: 0.7}

// Three answers beside the bound, and what the layout saves.
func TestCompareBuying(t *testing.T) {
	skins, err := UsualHides(material.WholeHide, 50*unit.SquareFoot, 3)
	require.NoError(t, err)
	panels := readingRoom(t)
	plan := onHides(t, skins, panels, Options{Effort: 0.02})
	c, err := CompareBuying(plan, material.WasteFactor{Waste: 0.6}, material.SkinSupply{Mean: 50 * unit.SquareFoot, Spread: 3 * unit.SquareFoot}, material.Yields(PieceSizeOf(panels))[0], 0.9)
	require.NoError(t, err)
	var kinds []cite.Kind
	for _, a := range c.Answers() {
		kinds = append(kinds, a.Kind)
		assert.NotEmpty(t, a.Text)
		assert.GreaterOrEqual(t, a.Skins, c.Bound.Skins, a.Text)
	}
	assert.Equal(t, []cite.Kind{cite.Bound, cite.RuleOfThumb, cite.Estimate, cite.Layout}, kinds)
	assert.Equal(t, len(plan.Used), c.Layout.Skins)
	assert.Equal(t, c.Thumb.Skins-c.Layout.Skins, c.SkinsSaved)
	assert.Equal(t, c.Thumb.Area-c.Layout.Area, c.AreaSaved)
	assert.Equal(t, plan.Areas.Placed, c.Net)
	assert.Contains(t, c.Expect.Text, "yield of 50 %;")

	more, err := CompareBuying(plan, material.WasteFactor{}, material.SkinSupply{Mean: 50 * unit.SquareFoot}, flatYield, 0.9)
	require.NoError(t, err)
	assert.Contains(t, more.Expect.Text, "yield of 50 % to 70 %;")

	scant, err := hidesOf(skins[0], append(panels, Piece{Outline: boxAt(t, 0, 0, 90, 90), Count: 1}), Options{Effort: 0.02})
	require.NoError(t, err)
	_, err = CompareBuying(scant, material.WasteFactor{}, material.SkinSupply{Mean: 50 * unit.SquareFoot}, flatYield, 0.9)
	require.ErrorIs(t, err, ErrNoLayout)
	_, err = CompareBuying(plan, material.WasteFactor{Waste: 2}, material.SkinSupply{Mean: 50 * unit.SquareFoot}, flatYield, 0.9)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = CompareBuying(plan, material.WasteFactor{}, material.SkinSupply{}, flatYield, 0.9)
	require.ErrorIs(t, err, unit.ErrRange)
}
