package made_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// A zip goes 3 in round a back corner of boxing up to 5 in deep, and half the
// depth and 1 in round deeper ones.
func TestZipGoesRoundTheCorner(t *testing.T) {
	for depth, turn := range map[unit.Length]unit.Length{
		3 * unit.Inch: 3 * unit.Inch, 5 * unit.Inch: 3 * unit.Inch,
		5*unit.Inch + unit.Inch/8: 3*unit.Inch + 9*unit.Inch/16, 6 * unit.Inch: 4 * unit.Inch,
	} {
		b := made.Boxing{Perimeter: 96 * unit.Inch, Depth: depth, Zip: true}
		for _, at := range []unit.Length{12, 36, 60, 84} {
			b.Corners = append(b.Corners, made.RingCorner{At: at * unit.Inch})
		}
		cut, err := b.Cut(made.Goods{})
		require.NoError(t, err)
		assert.Equal(t, turn, cut.Turn, depth)
		assert.Equal(t, 24*unit.Inch+2*turn, cut.Opening, depth)
	}
}

// Where the back runs round into the sides, the only corners are those of the front:
// the zip is half the girth and ends at the sides, 2 in off the front at least, and
// what has no zip is never joined in the front. Perimeter 76 in, front 22 in, corners 27 in from
// the middle of the back.
func TestRoundBackKeepsItsZipOffTheFront(t *testing.T) {
	in := func(n unit.Length) unit.Length { return n * unit.Inch }
	b := made.Boxing{Perimeter: in(76), Depth: in(4), Zip: true, Front: [2]unit.Length{in(27), in(49)}, Corners: []made.RingCorner{{At: in(27)}, {At: in(49)}}}
	for name, x := range map[string]struct {
		across, zip unit.Length
	}{"wide goods": {in(54), in(38)}, "narrow goods, one piece left": {in(37), in(40)}} {
		cut, err := b.Cut(made.Goods{Across: x.across, Directed: true})
		require.NoError(t, err, name)
		assert.Equal(t, x.zip, cut.Opening, name)
		require.Len(t, cut.Pieces, 1, name)
		for _, j := range cut.Joins {
			assert.False(t, j.Front, name)
		}
	}
	b.Zip = false
	for _, across := range []unit.Length{0, in(40)} {
		cut, err := b.Cut(made.Goods{Across: across, Directed: true})
		require.NoError(t, err)
		require.NotEmpty(t, cut.Joins)
		for _, j := range cut.Joins {
			assert.False(t, j.Front, "joined at %v", j.At)
			assert.True(t, j.Beyond == 0 || max(j.Beyond, -j.Beyond) >= in(2), "near a corner of the front: %v", j.Beyond)
		}
	}
}

// The zip of a round back stays 2 in off both corners of the front, also where it is
// made longer for one piece.
func TestRoundBackHasRoomForItsZip(t *testing.T) {
	in := func(n unit.Length) unit.Length { return n * unit.Inch }
	b := made.Boxing{Perimeter: in(76), Depth: in(4), Zip: true, Corners: []made.RingCorner{{At: in(20)}, {At: in(56)}}}
	cut, err := b.Cut(made.Goods{})
	require.NoError(t, err)
	assert.Equal(t, in(36), cut.Opening, "a back of 40 in")
	b.Corners = []made.RingCorner{{At: in(27)}, {At: in(49)}}
	cut, err = b.Cut(made.Goods{Across: in(27), Directed: true})
	require.NoError(t, err)
	assert.Equal(t, in(50), cut.Opening, "a back of 54 in")
	assert.Len(t, cut.Pieces, 1)
	cut, err = b.Cut(made.Goods{Across: in(27) - unit.Inch/16, Directed: true})
	require.NoError(t, err)
	assert.Greater(t, len(cut.Pieces), 1)
}

// A round core goes in through half the girth, or through its diameter and its
// depth, whichever is more: 10 in across and 8 in deep takes 18 in.
func TestRoundCoreGoesIn(t *testing.T) {
	ring := unit.Length(math.Round(math.Pi * 10 * float64(unit.Inch)))
	for depth, opening := range map[unit.Length]unit.Length{4 * unit.Inch: ring / 2, 8 * unit.Inch: 18 * unit.Inch, 14 * unit.Inch: ring / 2} {
		cut, err := made.Boxing{Perimeter: ring, Depth: depth, Zip: true}.Cut(made.Goods{})
		require.NoError(t, err)
		assert.InDelta(t, float64(opening), float64(cut.Opening), 1, depth)
	}
}
