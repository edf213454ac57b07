package layout

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// Four backs of 22 x 24 in with the motif at (11, 12) have it there, however their
// goods run; both hands of a pair have it at the point of the drawn one.
func TestMotifOn(t *testing.T) {
	for name, roll := range map[string]material.Roll{
		"up the roll": {Width: 54 * in, Across: 53 * in / 2, Repeat: 27 * in, First: inches(13, 12)},
		"half drop":   {Width: 54 * in, Across: 53 * in / 2, Repeat: 27 * in, First: inches(13, 0), Drop: material.Drop{Num: 1, Den: 2}},
		"sideways":    {Width: 54 * in, Across: 27 * in, Repeat: 53 * in / 2, First: inches(13, 12), Up: material.UpToLeft},
		"the other":   {Width: 54 * in, Across: 27 * in, Repeat: 53 * in / 2, First: inches(13, 12), Up: material.UpToRight},
	} {
		back, err := RectPiece("back", 22*in, 24*in, 4)
		require.NoError(t, err)
		back.Hand, back.Phase = Paired, OnMotif(inches(9, 12))
		p, err := onRoll(roll, []Piece{back}, quick)
		require.NoError(t, err, name)
		mirrored := 0
		for _, q := range p.Places {
			at, way := p.MotifOn(q)
			assert.Equal(t, allowance.BothWays, way, name)
			assert.Equal(t, inches(9, 12), at, name)
			if q.Mirrored {
				mirrored++
			}
		}
		assert.Equal(t, 2, mirrored)
	}
	free, err := RectPiece("welt", 3*in, 4*in, 1)
	require.NoError(t, err)
	free.Phase.Axes = Unbound
	p, err := onRoll(material.Roll{Width: 54 * in, Repeat: 27 * in}, []Piece{free}, quick)
	require.NoError(t, err)
	_, way := p.MotifOn(p.Places[0])
	assert.Equal(t, allowance.NoPattern, way)
	_, way = p.MotifOn(Place{Piece: 5})
	assert.Equal(t, allowance.NoPattern, way)
}

// Whatever the pattern, the motif on a piece is one of those of the roll, in the ways
// it is bound, by the definition of where those lie; on a piece that lies on the motifs
// it is whole repeats from one of its points; and none is nearer to the middle.
func TestMotifOnLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, ok := drawCoarse(t, 6).solve(t)
		if !ok {
			return
		}
		for _, q := range p.Places {
			of, roll := p.Job.Pieces[q.Piece], *p.Job.Roll
			at, way := p.MotifOn(q)
			if way == allowance.NoPattern {
				continue
			}
			axes := map[allowance.PatternWay]Axes{allowance.BothWays: BothAxes, allowance.AcrossOnly: AcrossOnly, allowance.AlongOnly: AlongOnly}[way]
			first := p.motif(0)
			on := turnedPoint(at, int(q.Turned)/90)
			require.True(t, onPattern(roll, axes, q.X+on.X-first.X, q.Y+on.Y-first.Y))
			if of.Phase.Common == 0 {
				whole := false
				for _, s := range of.Phase.spots() {
					d := turnedPoint(shape.Point{X: at.X - s.Point.X, Y: at.Y - s.Point.Y}, int(q.Turned)/90)
					whole = whole || onPattern(roll, axes, d.X, d.Y)
				}
				require.True(t, whole)
			}
			low, high := of.Outline.Bounds()
			middle := shape.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
			far := func(z shape.Point) float64 { return geomFar(z, middle) }
			for k := range 25 {
				// Lattice points are the point with whole repeats added.
				i, j := unit.Length(k%5-2), unit.Length(k/5-2)
				d := shape.Point{X: i * roll.Across, Y: j * roll.Repeat}
				if roll.Drop.Den > 0 {
					d.Y -= i * unit.Length(roll.Drop.Num) * roll.Repeat / unit.Length(roll.Drop.Den)
				}
				if way != allowance.BothWays {
					continue
				}
				require.LessOrEqual(t, far(at), far(shape.Point{X: at.X + d.X, Y: at.Y + d.Y})+0.011)
			}
		}
	})
}

// geomFar gives how far a point is from another, in mm.
func geomFar(a, b shape.Point) float64 {
	return geom.Hypot((a.X - b.X).Millimetres(), (a.Y - b.Y).Millimetres())
}

// The picture of a roll rings the point of every piece that is put on a motif, tells
// where the first motif lies, and hatches what is bought to find it.
func TestRollPictureOfMotifs(t *testing.T) {
	roll := material.Roll{Width: 54 * in, Across: 53 * in / 2, Repeat: 27 * in, First: shape.Point{X: 53 * in / 4}, UnknownStart: true}
	back, err := RectPiece("back", 22*in, 24*in, 4)
	require.NoError(t, err)
	back.Phase = OnMotif(inches(11, 10))
	strip, err := RectPiece("strip", 40*in, 3*in, 1)
	require.NoError(t, err)
	strip.Phase.Axes = Unbound
	p, err := onRoll(roll, []Piece{back, strip}, quick)
	require.NoError(t, err)
	drawn, err := p.Draw(Picture{})
	require.NoError(t, err)
	all := ""
	for _, d := range drawn {
		all += d.SVG
	}
	assert.Equal(t, 4, strings.Count(all, `class="match"`))
	assert.Contains(t, all, ">13 1/4 in<")
	assert.Contains(t, all, ">"+pattern.Inches.Length(modulo(p.Motifs[0].Y, 27*in), unit.Nearest)+"<")
	assert.Contains(t, all, "up to 27 in")
	assert.Positive(t, strings.Count(all, `class="spare"`))

	roll.UnknownStart = false
	back.Phase.Spots[0].Point.Y = 40 * in // off the piece
	p, err = onRoll(roll, []Piece{back, strip}, quick)
	require.NoError(t, err)
	drawn, err = p.Draw(Picture{})
	require.NoError(t, err)
	assert.NotContains(t, drawn[0].SVG, `class="match"`)
	assert.NotContains(t, drawn[0].SVG, `class="spare"`)
}
