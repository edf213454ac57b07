package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// Every made-up part gives pieces that hold its cloth: their area is that of
// its parts, or of the boxes around them.
func TestPiecesOf(t *testing.T) {
	of := func(pieces []Piece, err error) func(error) []Piece {
		require.NoError(t, err)
		return func(err error) []Piece {
			require.NoError(t, err)
			return pieces
		}
	}
	area := func(pieces []Piece) unit.Area {
		var sum unit.Area
		for _, p := range pieces {
			w, h := p.Outline.Size()
			a, err := w.By(h)
			require.NoError(t, err)
			sum += a * unit.Area(p.Count)
		}
		return sum
	}
	skirt, err := made.GatheredSkirt{Base: 80 * in, Drop: 12 * in, Fullness: 2, Longest: 54 * in}.Cut()
	assert.Equal(t, 3*skirt.Area, area(of(PiecesOf(skirt, 3))(err)))
	assert.NotEqual(t, Unbound, of(PiecesOf(skirt, 1))(nil)[0].Phase.Axes)
	boxing, err := made.Boxing{Perimeter: 84 * in, Depth: 4 * in, Zip: true, ZipLength: 30 * in}.Cut(made.Goods{Across: 54 * in})
	assert.Equal(t, boxing.Area, area(of(PiecesOf(boxing, 1))(err)))
	welt, err := made.WeltRun{Runs: []unit.Length{84 * in, 84 * in}, Width: 3 * in / 2, Longest: 54 * in}.Cut()
	assert.Equal(t, 2*welt.Area, area(of(PiecesOf(welt, 2))(err)))
	channels, err := made.Channels{Width: 24 * in, Height: 20 * in, Count: 6, Rise: in}.Cut()
	require.NoError(t, err)
	assert.Len(t, of(PiecesOf(channels, 1))(nil), len(channels.Pieces))
	assert.Positive(t, area(of(PiecesOf(channels, 1))(nil)))
	tufted, err := made.Tufting{Width: 30 * in, Height: 20 * in, Across: 4, Down: 3, Depth: in, Rule: made.TuftRules()[0]}.Plan()
	assert.Positive(t, area(of(PiecesOf(tufted, 1))(err)))
	var cuts made.BoxingCut
	assert.Empty(t, of(PiecesOf(cuts, 1))(nil))
}
