package allowance_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

func drawLength(lo, hi unit.Length) *rapid.Generator[unit.Length] {
	return rapid.Map(rapid.Int64Range(int64(lo), int64(hi)), func(n int64) unit.Length { return unit.Length(n) })
}

func drawEdge() *rapid.Generator[allowance.Edge] {
	return rapid.Custom(func(t *rapid.T) allowance.Edge {
		e := allowance.Edge{Finish: rapid.SampledFrom(allowance.Finishes()).Draw(t, "finish")}
		if e.Finish == allowance.Fold {
			return e
		}
		if rapid.Bool().Draw(t, "override") {
			e.Allowance = allowance.Exactly(drawLength(unit.Millimetre, unit.Metre).Draw(t, "allowance"))
		}
		if rapid.Bool().Draw(t, "handled") {
			e.Handling = drawLength(unit.Millimetre, unit.Metre).Draw(t, "handling")
		}
		return e
	})
}

func drawPanel() *rapid.Generator[allowance.RectPanel] {
	return rapid.Custom(func(t *rapid.T) allowance.RectPanel {
		return allowance.RectPanel{
			Width:  drawLength(unit.Millimetre, 10*unit.Metre).Draw(t, "width"),
			Height: drawLength(unit.Millimetre, 10*unit.Metre).Draw(t, "height"),
			Top:    drawEdge().Draw(t, "top"), Right: drawEdge().Draw(t, "right"),
			Bottom: drawEdge().Draw(t, "bottom"), Left: drawEdge().Draw(t, "left"),
		}
	})
}

// Without stretch, what lies outside the finished line is exactly the margins.
func TestRectPanelAddsMarginsOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPanel().Draw(t, "panel")
		c, err := p.Cut()
		require.NoError(t, err)
		require.Equal(t, c.Width-p.Width, c.Left.Total()+c.Right.Total())
		require.Equal(t, c.Height-p.Height, c.Top.Total()+c.Bottom.Total())
		require.Equal(t, p.Width, c.SeamWidth)
		require.Equal(t, p.Height, c.SeamHeight)
		require.GreaterOrEqual(t, c.Width, c.TrimWidth)
		require.GreaterOrEqual(t, c.TrimWidth, c.SeamWidth)
		require.GreaterOrEqual(t, c.Area, c.FinishedArea)
		require.Equal(t, c.SeamArea, c.FinishedArea)
	})
}

// A panel turned a quarter is cut to the same piece, turned a quarter.
func TestRectPanelTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPanel().Draw(t, "panel")
		q := p
		q.Width, q.Height = p.Height, p.Width
		q.Right, q.Bottom, q.Left, q.Top = p.Top, p.Right, p.Bottom, p.Left
		q.Across, q.Along = p.Along, p.Across
		c, err := p.Cut()
		require.NoError(t, err)
		d, err := q.Cut()
		require.NoError(t, err)
		require.Equal(t, [3]unit.Length{c.Width, c.TrimWidth, c.SeamWidth}, [3]unit.Length{d.Height, d.TrimHeight, d.SeamHeight})
		require.Equal(t, c.Area, d.Area)
		require.Equal(t, c.SewnLength(), d.SewnLength())
	})
}

// Every sewn edge is counted under exactly one finish.
func TestRectPanelSeamLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := drawPanel().Draw(t, "panel").Cut()
		require.NoError(t, err)
		var sewn, all unit.Length
		for _, f := range allowance.Finishes() {
			all += c.SeamLength(f)
			if f.Sewn() {
				sewn += c.SeamLength(f)
			}
		}
		require.Equal(t, sewn, c.SewnLength())
		require.Equal(t, 2*(c.SeamWidth+c.SeamHeight), all)
	})
}

func TestRectPanelRefuses(t *testing.T) {
	ok := allowance.RectPanel{Width: 20 * unit.Inch, Height: 18 * unit.Inch}
	for field, change := range map[string]func(*allowance.RectPanel){
		"width":           func(p *allowance.RectPanel) { p.Width = 0 },
		"height":          func(p *allowance.RectPanel) { p.Height = -1 * unit.Inch },
		"top.handling":    func(p *allowance.RectPanel) { p.Top.Handling = 3 * unit.Metre },
		"right.allowance": func(p *allowance.RectPanel) { p.Right.Allowance = allowance.Exactly(-1) },
		"bottom.finish":   func(p *allowance.RectPanel) { p.Bottom.Finish = 77 },
		"left.allowance":  func(p *allowance.RectPanel) { p.Left.Allowance = allowance.Exactly(5) },
		"across.take_out": func(p *allowance.RectPanel) { p.Across.TakeOut = 2 },
		"along.shrinkage": func(p *allowance.RectPanel) { p.Along.Shrinkage = -1 },
	} {
		t.Run(field, func(t *testing.T) {
			p := ok
			change(&p)
			_, err := p.Cut()
			var in *unit.InputError
			require.True(t, errors.As(err, &in), "%v", err)
			assert.Equal(t, field, string(in.Field))
		})
	}
	_, err := allowance.RectPanel{}.Cut()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = allowance.RectPanel{Width: 3, Height: 4}.Cut()
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
}

func TestFinishedFromCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPanel().Draw(t, "panel")
		c, err := p.Cut()
		require.NoError(t, err)
		back, err := allowance.FinishedFromCut(c.TrimWidth, c.Left.Allowance, c.Right.Allowance)
		require.NoError(t, err)
		require.Equal(t, p.Width, back)
	})
	_, err := allowance.FinishedFromCut(unit.Inch, unit.Inch/2, unit.Inch/2)
	require.ErrorIs(t, err, unit.ErrRange)
	left, err := allowance.FinishedFromCut(unit.Inch, unit.Inch/2, unit.Inch/4)
	require.NoError(t, err)
	require.Equal(t, unit.Inch/4, left)
	for field, sizes := range map[string][3]unit.Length{"cut": {2000 * unit.Metre, 0, 0}, "first": {unit.Inch, -unit.Inch, 0}, "second": {unit.Inch, 0, -unit.Inch}} {
		_, err := allowance.FinishedFromCut(sizes[0], sizes[1], sizes[2])
		var bad *unit.InputError
		require.ErrorAs(t, err, &bad)
		require.Equal(t, field, string(bad.Field))
	}
}

func BenchmarkRectPanelCut(b *testing.B) {
	p := allowance.RectPanel{Width: 20 * unit.Inch, Height: 18 * unit.Inch}
	for b.Loop() {
		if _, err := p.Cut(); err != nil {
			b.Fatal(err)
		}
	}
}
