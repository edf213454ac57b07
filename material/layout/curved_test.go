package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

func cutOf(t testing.TB, o shape.Outline, err error) allowance.PanelCut {
	require.NoError(t, err)
	cut, err := allowance.Panel{Name: "seat", Outline: o}.Cut()
	require.NoError(t, err)
	return cut
}

// Four circles of 17 in with 1/2 in all round fill goods of 18 in: 2 yd, as
// boxes and as outlines.
func TestCurvedCutsFillTheWidth(t *testing.T) {
	round, err := shape.Circle(17 * unit.Inch)
	cut := cutOf(t, round, err)
	roll := material.Roll{Width: 18 * unit.Inch, Increment: unit.Yard / 8}
	boxes, err := onRoll(roll, pieces(cloth{width: cut.Width, length: cut.Height, count: 4}), Options{Effort: 0.01})
	require.NoError(t, err)
	assert.Equal(t, 2*unit.Yard, boxes.Need)
	assert.Equal(t, 2*unit.Yard, boxes.Order)
	p, err := PieceOf(cut, 4)
	require.NoError(t, err)
	plan, err := onRoll(roll, []Piece{p}, Options{Effort: 0.02})
	require.NoError(t, err)
	assert.Equal(t, 2*unit.Yard, plan.Need)
	assert.Equal(t, 2*unit.Yard, plan.Order)
}

// The outline of a curved cut has the box of the cut, although chords stand for
// its curves: no wider goods are asked for, and no narrower ones pass.
func TestCurvedCutsKeepTheirBox(t *testing.T) {
	for _, s := range []unit.Length{17 * unit.Inch, 401 * unit.Millimetre, 233 * unit.Millimetre} {
		for name, f := range map[string]func() (shape.Outline, error){
			"circle":  func() (shape.Outline, error) { return shape.Circle(s) },
			"ellipse": func() (shape.Outline, error) { return shape.Ellipse(s, 13*unit.Inch) },
			"stadium": func() (shape.Outline, error) { return shape.Stadium(2*s, s) },
			"crowned": func() (shape.Outline, error) { return shape.Crowned(s, s, unit.Inch) },
			"rounded": func() (shape.Outline, error) { return shape.RoundedRectangle(s, s, shape.SameRadii(unit.Inch)) },
		} {
			o, err := f()
			cut := cutOf(t, o, err)
			p, err := PieceOf(cut, 1)
			require.NoError(t, err)
			w, h := p.Outline.Size()
			assert.Equal(t, cut.Width, w, name)
			assert.Equal(t, cut.Height, h, name)
			_, err = onRoll(material.Roll{Width: cut.Width}, []Piece{p}, Options{Effort: 0.02})
			require.NoError(t, err, name)
			_, err = onRoll(material.Roll{Width: cut.Width - unit.Micrometre}, []Piece{p}, Options{Effort: 0.02})
			require.ErrorIs(t, err, ErrTooWide, name)
		}
	}
}
