package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// patterned is a rectangle with a point on a motif, in quarters of an inch.
type patterned struct {
	w, h  unit.Length
	x, y  unit.Length
	count int
	axes  Axes
	also  []shape.Point // further points, in inches
}

func (c patterned) piece(t require.TestingT) Piece {
	p, err := RectPiece("", c.w*in/4, c.h*in/4, c.count)
	require.NoError(t, err)
	p.Phase = OnMotif(shape.Point{X: c.x * in / 4, Y: c.y * in / 4})
	p.Phase.Axes = c.axes
	for _, a := range c.also {
		p.Phase.Spots = append(p.Phase.Spots, Spot{Point: a})
	}
	return p
}

// patternedJob is a worked job with an optimum that complete search has proved;
// lengths are in quarters of an inch. The start of the bolt is free unless known.
type patternedJob struct {
	name                 string
	width, across, along unit.Length
	first                unit.Length // motif from the left edge
	known                bool        // a motif lies at the end
	drop                 material.Drop
	up                   material.Up
	pieces               []patterned
	optimum              unit.Length
}

func backs(n int) []patterned { return []patterned{{w: 88, h: 96, x: 44, y: 48, count: n}} }
func seats(n int) []patterned { return []patterned{{w: 68, h: 68, x: 34, y: 34, count: n}} }

// The panels of a chair whose pattern flows from inside back to seat cushion,
// boxing, border and skirt: their phases are worked out by hand. On the middle
// line of each panel the motif lies 21 in up the back, and 14, 18, 25 1/2 and 33 1/2
// in further up the panels after it.
var chairFront = []patterned{
	{w: 104, h: 128, x: 52, y: 84, count: 1},              // inside back 26 x 32
	{w: 100, h: 100, x: 50, y: 84 + 56 - 108, count: 1},   // cushion 25 x 25: 35 less 27
	{w: 100, h: 20, x: 50, y: 84 + 72 - 108, count: 1},    // boxing 25 x 5
	{w: 108, h: 36, x: 54, y: 84 + 102 - 108, count: 1},   // border 27 x 9
	{w: 108, h: 36, x: 54, y: 84 + 134 - 2*108, count: 1}, // skirt 27 x 9
}

func patternedJobs() []patternedJob {
	half, third, quarter := material.Drop{Num: 1, Den: 2}, material.Drop{Num: 1, Den: 3}, material.Drop{Num: 1, Den: 4}
	tops := []patterned{{w: 100, h: 100, x: 50, y: 50, count: 3}, {w: 100, h: 20, x: 50, y: 66, count: 3}}
	arms := func(a, b unit.Length, n int) []patterned {
		return []patterned{{w: 104, h: 96, x: a, y: 52, count: n}, {w: 104, h: 96, x: b, y: 52, count: n}}
	}
	// A back of 83 in finished, joined: a full width in the centre and two equal
	// sides that go on with its pattern.
	joined := func(c, side, h, centre, right, left, y unit.Length) []patterned {
		return []patterned{{w: c, h: h, x: centre, y: y, count: 1}, {w: side, h: h, x: right, y: y, count: 1}, {w: side, h: h, x: left, y: y, count: 1}}
	}
	tall := joined(212, 66, 120, 53, 57, 9, 68)
	front := []patterned{{w: 92, h: 104, x: 46, y: 52, count: 1}, {w: 92, h: 96, x: 46, y: 48, count: 1}, {w: 92, h: 24, x: 46, y: 12, count: 1}, {w: 52, h: 80, x: 26, y: 40, count: 2}}
	striped := []patterned{{w: 88, h: 104, x: 44, count: 1}, {w: 88, h: 100, x: 44, count: 1}, {w: 88, h: 24, x: 44, count: 1}, {w: 52, h: 80, x: 26, count: 2}}
	strips := append(backs(2), patterned{w: 200, h: 12, count: 3, axes: Unbound})
	borders := []patterned{{w: 96, h: 104, x: 48, y: 56, count: 2}, {w: 96, h: 36, x: 48, y: 18, count: 4}}
	either := []patterned{borders[0], {w: 96, h: 36, x: 48, y: 18, count: 4, also: []shape.Point{{X: 12 * in, Y: 18 * in}}}}
	cushions := patterned{w: 100, h: 100, x: 50, y: 50, count: 3}
	return []patternedJob{
		{name: "four backs, motif inside", width: 212, across: 106, along: 108, first: 53, pieces: backs(4), optimum: 204},
		{name: "the same at a known start", width: 212, across: 106, along: 108, first: 53, known: true, pieces: backs(4), optimum: 264},
		{name: "four backs, motif at the edge", width: 212, across: 106, along: 108, pieces: backs(4), optimum: 420},
		{name: "at the edge and at a known start", width: 212, across: 106, along: 108, known: true, pieces: backs(4), optimum: 480},
		{name: "four backs, half drop", width: 212, across: 106, along: 108, first: 53, drop: half, pieces: backs(4), optimum: 258},
		{name: "four backs, third drop", width: 212, across: 106, along: 108, first: 53, drop: third, pieces: backs(4), optimum: 240},
		{name: "four backs, quarter drop", width: 212, across: 106, along: 108, first: 53, drop: quarter, pieces: backs(4), optimum: 231},
		{name: "six seats", width: 216, across: 72, along: 72, first: 36, pieces: seats(6), optimum: 140},
		{name: "six seats, half drop", width: 216, across: 72, along: 72, first: 36, drop: half, pieces: seats(6), optimum: 176},
		{name: "five seats, half drop", width: 216, across: 72, along: 72, first: 36, drop: half, pieces: seats(5), optimum: 140},
		{name: "six seats, third drop", width: 216, across: 72, along: 72, first: 36, drop: third, pieces: seats(6), optimum: 188},
		{name: "chair chain", width: 216, across: 108, along: 108, first: 54, pieces: chairFront[:4], optimum: 164},
		{name: "chair chain with skirt", width: 216, across: 108, along: 108, first: 54, pieces: chairFront, optimum: 226},
		{name: "three cushions with fronts", width: 216, across: 108, along: 108, first: 54, pieces: tops, optimum: 328},
		{name: "arms as a pair", width: 216, across: 108, along: 101, first: 54, pieces: arms(72, 32, 1), optimum: 197},
		{name: "two pairs of arms", width: 216, across: 108, along: 101, first: 54, pieces: arms(72, 32, 2), optimum: 399},
		{name: "centred arms", width: 216, across: 108, along: 101, first: 54, pieces: arms(52, 52, 1), optimum: 96},
		{name: "joined back, two motifs across", width: 212, across: 106, along: 108, first: 53, pieces: joined(212, 66, 104, 53, 57, 9, 56), optimum: 320},
		{name: "joined back, three motifs across", width: 216, across: 72, along: 108, first: 36, pieces: joined(216, 64, 104, 36, 40, 24, 56), optimum: 212},
		{name: "joined back, taller than the repeat", width: 212, across: 106, along: 108, first: 53, pieces: tall, optimum: 552},
		{name: "two backs and strips", width: 212, across: 106, along: 108, first: 53, pieces: strips, optimum: 132},
		{name: "backs with borders", width: 216, across: 108, along: 108, first: 54, pieces: borders, optimum: 252},
		{name: "borders on either motif", width: 216, across: 108, along: 108, first: 54, pieces: either, optimum: 228},
		{name: "stripe", width: 216, across: 24, first: 12, pieces: striped, optimum: 184},
		{name: "plaid", width: 216, across: 24, along: 32, first: 12, pieces: front, optimum: 188},
		{name: "sofa railroaded", width: 216, across: 108, along: 108, first: 54, up: material.UpToRight,
			pieces: []patterned{{w: 336, h: 104, x: 168, y: 56, count: 1}, cushions}, optimum: 336},
		{name: "sofa up the roll", width: 216, across: 108, along: 108, first: 54, pieces: append(joined(216, 64, 104, 54, 58, 6, 56), cushions), optimum: 422},
	}
}

func (c patternedJob) job(t require.TestingT) Job {
	roll := material.Roll{Width: c.width * in / 4, Across: c.across * in / 4, Repeat: c.along * in / 4, Drop: c.drop, Up: c.up,
		First: shape.Point{X: c.first * in / 4}, UnknownStart: !c.known}
	j := Job{Roll: &roll}
	for _, p := range c.pieces {
		j.Pieces = append(j.Pieces, p.piece(t))
	}
	return j
}

// Worked jobs reach the optimum that complete search has proved of them, and no
// bound says more.
func TestPatternedOptima(t *testing.T) {
	for _, c := range patternedJobs() {
		p, err := Solve(t.Context(), c.job(t), Options{Effort: 0.05})
		require.NoError(t, err, c.name)
		assert.Equal(t, c.optimum*in/4, p.Need, c.name)
		assert.LessOrEqual(t, p.Bound().Length, c.optimum*in/4, c.name)
		assert.True(t, p.Proved, c.name)
	}
}

// Four backs of 22 x 24 in with the motif in the middle, on cloth 53 in wide that
// repeats every 27 in and 26 1/2 in across. With motifs at 13 1/4 and 39 3/4 in,
// a back reaches 11 in to each side of one: from 2 1/4 to 24 1/4 and from 28 3/4 to
// 50 3/4, two abreast. Two rows, 27 in apart: 27 + 24 = 51 in, and 27 more for a
// bolt that starts anywhere: 78 in, 2 1/4 yd. With motifs cut through at the edge a
// back lies about the one at 26 1/2 in alone, and a known start, a motif at the
// end, wastes 15 in more: 15 + 3 x 27 + 24 = 120 in, 3 3/8 yd.
func TestFourBacks(t *testing.T) {
	p, err := RectPiece("back", 22*in, 24*in, 4)
	require.NoError(t, err)
	p.Phase = OnMotif(inches(11, 12))
	roll := material.Roll{Width: 53 * in, Repeat: 27 * in, Across: 53 * in / 2, Increment: unit.Yard / 8}
	before, err := onRoll(roll, []Piece{p}, light)
	require.NoError(t, err)
	assert.Equal(t, 120*in, before.Need)
	assert.Equal(t, 27*unit.Yard/8, before.Order)
	roll.First = shape.Point{X: 53 * in / 4, Y: 12 * in}
	known, err := onRoll(roll, []Piece{p}, light)
	require.NoError(t, err)
	assert.Equal(t, 51*in, known.Need)
	assert.Equal(t, 12*unit.Yard/8, known.Order, "under 2 yd")
	roll.First.Y, roll.UnknownStart = 0, true
	unknown, err := onRoll(roll, []Piece{p}, light)
	require.NoError(t, err)
	assert.Equal(t, 51*in, unknown.Need)
	assert.Equal(t, 27*in, unknown.Spare)
	assert.Equal(t, 18*unit.Yard/8, unknown.Order)
	assert.Equal(t, []shape.Point{{X: 53 * in / 4, Y: 12 * in}}, unknown.Motifs, "cut the bolt back to 12 in before a motif")
	assert.True(t, before.Proved && known.Proved && unknown.Proved)
}

// A drop of a third: the motif of the next column to the right lies 2/3 of a repeat
// further along the roll, that is a third lower. Its mirror image, a drop of 2/3,
// is another pattern.
func TestDropHasASide(t *testing.T) {
	// 12 in wide with the motif 11 in from its left side: on goods 20 in wide with
	// motifs at 5 and 15 in only the right column serves.
	p, err := RectPiece("", 12*in, 10*in, 1)
	require.NoError(t, err)
	p.Phase = OnMotif(inches(11, 4))
	roll := material.Roll{Width: 20 * in, Repeat: 27 * in, Across: 10 * in, First: inches(5, 3), Drop: material.Drop{Num: 1, Den: 3}}
	a, err := onRoll(roll, []Piece{p}, quick)
	require.NoError(t, err)
	assert.Equal(t, (3+18-4+10)*in, a.Need)
	assert.Equal(t, inches(4, 17), shape.Point{X: a.Places[0].X, Y: a.Places[0].Y})
	roll.Drop.Num = 2
	b, err := onRoll(roll, []Piece{p}, quick)
	require.NoError(t, err)
	assert.Equal(t, (3+9-4+10)*in, b.Need)
}
