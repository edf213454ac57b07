package pattern

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Every piece that fits lies whole on one sheet, at full size, between the white
// edges and apart from the others; no sheet is empty.
func TestShare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		on := anySheet(t)
		if rapid.Bool().Draw(t, "roll") {
			on = RollOf(length(200, 1500).Draw(t, "width of the roll"))
		}
		var pieces []Pattern
		for range rapid.IntRange(0, 12).Draw(t, "pieces") {
			pieces = append(pieces, Pattern{Cut: shape.Contour{Outer: star(t)}})
		}
		sheets, over, err := Share(pieces, on)
		require.NoError(t, err)
		seen := map[int]bool{}
		for _, i := range over {
			seen[i] = true
			b := pieces[i].Bounds()
			w, h := b.High.X-b.Low.X+2*inset, b.High.Y-b.Low.Y+2*inset
			fits := w <= on.window().X && h <= on.window().Y || h <= on.window().X && w <= on.window().Y
			require.False(t, fits)
		}
		for _, s := range sheets {
			require.NotEmpty(t, s.Places)
			require.NoError(t, s.Sheet.Check())
			printed := Box{shape.Point{X: s.Sheet.Margin, Y: s.Sheet.Margin + s.Sheet.Foot}, shape.Point{X: s.Sheet.Width - s.Sheet.Margin, Y: s.Sheet.Height - s.Sheet.Margin}}
			var boxes []Box
			for _, p := range s.Places {
				require.False(t, seen[p.Of], "a piece twice")
				seen[p.Of] = true
				line := pieces[p.Of].Cut.Outer
				var placed []shape.Point
				var ring, was []spot
				for _, q := range line {
					at := p.On(q)
					placed = append(placed, at)
					ring, was = append(ring, spot{at.X.Millimetres(), at.Y.Millimetres()}), append(was, spot{q.X.Millimetres(), q.Y.Millimetres()})
				}
				require.InDelta(t, roundOf(line), roundOf(placed), 1e-6)
				require.InDelta(t, shoelace(was), shoelace(ring), 1e-2, "not turned over")
				b := boxOf(placed)
				require.True(t, printed.holds(placed))
				for _, o := range boxes {
					require.False(t, o.overlaps(b))
				}
				boxes = append(boxes, b)
			}
			if on.Roll {
				require.LessOrEqual(t, s.Sheet.Height, on.Height)
			} else {
				require.Equal(t, on.Height, s.Sheet.Height)
			}
		}
		require.Len(t, seen, len(pieces))
	})
	_, _, err := Share([]Pattern{{}}, A4())
	var input *unit.InputError
	require.ErrorAs(t, err, &input)
	assert.Equal(t, unit.Path("patterns[0].cut"), input.Field)
	_, _, err = Share(nil, Sheet{})
	require.ErrorAs(t, err, &input)
	assert.Equal(t, unit.Path("sheet.width"), input.Field)
}
