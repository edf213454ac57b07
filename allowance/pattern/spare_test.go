package pattern

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// What is left out is straight: every corner of every line, every notch and mark is
// on paper, a rule has enough of the line on both sheets to lie on, and the ruled
// length is whole steps, never short, with its tick on the line on the other sheet.
func TestGapsAreStraight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		tiling, err := p.Tile(anySheet(t))
		require.NoError(t, err)
		at := map[string]Tile{}
		for _, q := range tiling.Tiles {
			at[q.Label] = q
		}
		shown := func(points ...shape.Point) bool {
			for _, q := range tiling.Tiles {
				if q.Own.holds(points[:1]) {
					return true
				}
			}
			return false
		}
		for _, l := range p.Lines() {
			for i, q := range l.Points {
				switch {
				case l.Kind == NotchLine || l.Kind == MarkLine:
					require.True(t, shown(q), "a %v is on paper", l.Kind)
				case l.Closed:
					n := len(l.Points)
					if before, after := l.Points[(i+n-1)%n], l.Points[(i+1)%n]; distance(q, before, after) > 1e4 {
						require.True(t, shown(q), "a corner is on paper")
					}
				}
			}
		}
		u := rapid.SampledFrom([]Units{Inches, Metric}).Draw(t, "units")
		for _, g := range tiling.Gaps {
			require.Contains(t, at, g.Off)
			require.Contains(t, at, g.On)
			require.NotEqual(t, g.Off, g.On)
			far, tick, err := g.Rule(u)
			require.NoError(t, err)
			long := distance(g.From, g.To, g.To)
			require.GreaterOrEqual(t, float64(far)+1, long)
			require.Less(t, float64(far), long+float64(u.step()))
			require.Zero(t, far%u.step())
			if g.Kind != CutLine {
				continue
			}
			require.True(t, at[g.On].Window.holds([]shape.Point{tick}))
			for _, end := range []struct {
				on   string
				at   shape.Point
				from shape.Point
			}{{g.Off, g.From, g.To}, {g.On, g.To, g.From}} {
				back := moved(end.at, direction(end.from, end.at), float64(leastRun)-1e3)
				onLine := false
				for i, a := range p.Cut.Outer {
					onLine = onLine || distance(back, a, p.Cut.Outer[(i+1)%len(p.Cut.Outer)]) < 1e4
				}
				require.True(t, onLine && shown(back), "a rule lies on %s", end.on)
			}
		}
	})
}

// What is written lies on the sheets that there are, and says how to go on at both
// ends of every gap.
func TestLetteringOnPaper(t *testing.T) {
	o, err := shape.Rectangle(40*unit.Inch, 44*unit.Inch)
	require.NoError(t, err)
	c, err := allowance.Panel{Name: "seat", Outline: o}.Cut()
	require.NoError(t, err)
	p := Of(c)
	tiling, err := p.Tile(A4())
	require.NoError(t, err)
	assert.Len(t, tiling.Tiles, 4, "a sheet for each corner")
	letters, err := tiling.Lettering(p, Inches)
	require.NoError(t, err)
	texts := map[string]int{}
	for _, l := range letters {
		texts[l.Text]++
		a, b := l.ends()
		on := 0
		for _, q := range tiling.Tiles {
			if q.Own.holds([]shape.Point{a, b}) {
				on++
			}
		}
		assert.Equal(t, 1, on, l.Text)
	}
	for _, g := range tiling.Gaps {
		if g.Kind != CutLine {
			continue
		}
		far, _, err := g.Rule(Inches)
		require.NoError(t, err)
		assert.Positive(t, texts["rule "+far.String()+" on to "+g.On])
		assert.Positive(t, texts["rule "+far.String()+" on to "+g.Off])
	}
	for _, e := range p.Edges {
		assert.Equal(t, 1, texts[e.Name+": plain seam"])
	}
	every := A4()
	every.Every = true
	all, err := p.Tile(every)
	require.NoError(t, err)
	assert.Greater(t, len(all.Tiles), 20)
	assert.Empty(t, all.Gaps)
	_, err = tiling.Lettering(p, Units(9))
	require.ErrorIs(t, err, unit.ErrUnknown)
}

// Paper from a roll is cut where the piece ends.
func TestRollIsAsLongAsThePiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPattern(t)
		tiling, err := p.Tile(RollOf(length(200, 1500).Draw(t, "width")))
		require.NoError(t, err)
		b := p.Bounds()
		assert.Equal(t, 1, tiling.Rows)
		assert.LessOrEqual(t, tiling.Sheet.Height, b.High.Y-b.Low.Y+40*unit.Millimetre)
		assert.Len(t, tiling.Tiles, tiling.Columns)
	})
	long, err := Strip(unit.Metre, 12*unit.Metre)
	require.NoError(t, err)
	tiling, err := long.Tile(RollOf(36 * unit.Inch))
	require.NoError(t, err)
	assert.Equal(t, 3, tiling.Rows)
	assert.Less(t, tiling.Sheet.Height, 41*unit.Metre/10, "alike")
}
