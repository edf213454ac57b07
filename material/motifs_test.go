package material_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// onMotif tells whether a motif lies at a point of the roll.
func onMotif(m material.Motifs, x, y unit.Length) bool {
	x, y = x-m.First.X, y-m.First.Y
	return x%m.Across == 0 && (y-m.Rise(int(x/m.Across)))%m.Along == 0
}

// A drop that is refused changes nothing of goods that run sideways: the repeats
// change places, and the drop stays as it is, to be told.
func TestRefusedDropSideways(t *testing.T) {
	for _, d := range []material.Drop{{}, {Num: -1, Den: 2}, {Num: 0, Den: 2}, {Num: 2, Den: 2}, {Num: 3, Den: 2}, {Num: 1, Den: 65}} {
		r := material.Roll{Width: 54 * unit.Inch, Repeat: 12 * unit.Inch, Across: 9 * unit.Inch, Drop: d, Up: material.UpToLeft}
		assert.Equal(t, material.Motifs{Across: 12 * unit.Inch, Along: 9 * unit.Inch, Drop: d}, r.Motifs(), d)
	}
}

// On goods that run sideways the motifs are those of goods up the roll, turned:
// seen with the pattern upright, column i lies at i H, i times the drop lower.
func TestMotifsOfSidewaysGoods(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		den := rapid.IntRange(1, 12).Draw(t, "parts")
		r := material.Roll{Width: 54 * unit.Inch, Repeat: unit.Length(den*rapid.IntRange(1, 30).Draw(t, "R")) * unit.Millimetre,
			Across: unit.Length(rapid.IntRange(1, 300).Draw(t, "H")) * unit.Millimetre}
		if den > 1 {
			r.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
		}
		require.NoError(t, r.Check())
		seen := func(i, j int) (x, y unit.Length) {
			y = unit.Length(j) * r.Repeat
			if den > 1 {
				y -= unit.Length(i*r.Drop.Num) * r.Repeat / unit.Length(den)
			}
			return unit.Length(i) * r.Across, y
		}
		i, j := rapid.IntRange(-9, 9).Draw(t, "i"), rapid.IntRange(-9, 9).Draw(t, "j")
		x, y := seen(i, j)
		assert.True(t, onMotif(r.Motifs(), x, y), "up the roll")
		r.Up = material.UpToLeft
		assert.True(t, onMotif(r.Motifs(), -y, x), "a quarter turn anticlockwise")
		r.Up = material.UpToRight
		m := r.Motifs()
		assert.True(t, onMotif(m, y, -x), "a quarter turn clockwise")
		// As many motifs as before, so no others.
		assert.Equal(t, int64(r.Across)*int64(r.Repeat), int64(m.Across)*int64(m.Along))
	})
}

func TestColumnsByTheNextMotifAtTheSameHeight(t *testing.T) {
	r := material.Roll{Width: 54 * unit.Inch, Repeat: 9 * unit.Inch, AcrossLevel: 27 * unit.Inch, Drop: material.Drop{Num: 1, Den: 2}}
	require.NoError(t, r.Check())
	assert.Equal(t, 27*unit.Inch/2, r.Columns())
	assert.True(t, onMotif(r.Motifs(), 27*unit.Inch, 0))
	assert.False(t, onMotif(r.Motifs(), 27*unit.Inch/2, 0))
	r.AcrossLevel, r.Drop.Den = 20*unit.Inch, 3 // 6.666... in
	assert.Equal(t, 169_333_375*unit.Nanometre, r.Columns(), "to the nearest eighth of a micrometre")
}

func TestPatternRefuses(t *testing.T) {
	ok := material.Roll{Width: 54 * unit.Inch, Repeat: 9 * unit.Inch, Across: 9 * unit.Inch, Drop: material.Drop{Num: 1, Den: 2}}
	require.NoError(t, ok.Check())
	for field, spoil := range map[string]func(*material.Roll){
		"roll.across_level": func(r *material.Roll) { r.AcrossLevel = 18 * unit.Inch },
		"roll.drop":         func(r *material.Roll) { r.Across = 0 },
		"roll.first":        func(r *material.Roll) { r.First = shape.Point{Y: unit.Inch}; r.UnknownStart = true },
		"roll.up":           func(r *material.Roll) { r.Up = 3 },
		"roll.shrinkage":    func(r *material.Roll) { r.Shrinkage = 0.51 },
		"roll.repeat":       func(r *material.Roll) { r.Repeat = -unit.Inch },
		"roll.across":       func(r *material.Roll) { r.Across = 4 * unit.Metre },
		"roll.increment":    func(r *material.Roll) { r.Increment = 11 * unit.Metre },
		"roll.drop.den":     func(r *material.Roll) { r.Drop = material.Drop{Num: 1, Den: 1} },
		"roll.drop.num":     func(r *material.Roll) { r.Drop = material.Drop{Num: 2, Den: 2} },
	} {
		r := ok
		spoil(&r)
		var in *unit.InputError
		require.ErrorAs(t, r.Check(), &in, field)
		assert.Equal(t, field, string(in.Field))
	}
	forgotten := ok
	forgotten.Across, forgotten.AcrossLevel = 0, 5
	require.ErrorIs(t, forgotten.Check(), unit.ErrForgottenUnit)
	for _, way := range []struct{ nap, one bool }{{}, {true, false}, {false, true}, {true, true}} {
		require.Equal(t, way.nap || way.one, material.Roll{Nap: way.nap, OneWay: way.one}.Directed())
	}
	ok.First.X = -unit.Inch
	require.ErrorIs(t, ok.Check(), unit.ErrRange)
	level := material.Roll{Width: 54 * unit.Inch, Repeat: 9 * unit.Inch, AcrossLevel: 9 * unit.Inch}
	require.ErrorIs(t, level.Check(), unit.ErrRange, "without a drop it is the same as across")
}

// Whole repeats do not show; what is left over is no longer than by any other
// column and row; both ways round it is the same length.
func TestApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(name string, from, to int) unit.Length {
			return unit.Length(rapid.IntRange(from, to).Draw(t, name)) * unit.Inch / 8
		}
		m := material.Motifs{Across: pick("across", 0, 200), Along: pick("along", 0, 200)}
		if den := rapid.IntRange(1, 5).Draw(t, "columns"); den > 1 && m.Across > 0 && m.Along > 0 {
			m.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
		}
		i, j := rapid.IntRange(-9, 9).Draw(t, "i"), rapid.IntRange(-9, 9).Draw(t, "j")
		whole := shape.Point{X: unit.Length(i) * m.Across, Y: unit.Length(j)*m.Along + m.Rise(i)}
		d := shape.Point{X: pick("x", -900, 900), Y: pick("y", -900, 900)}
		require.Zero(t, m.Apart(whole))
		got := m.Apart(d)
		size := func(p shape.Point) float64 { return math.Hypot(float64(p.X), float64(p.Y)) }
		further := m.Apart(shape.Point{X: d.X + whole.X, Y: d.Y + whole.Y})
		require.InDelta(t, size(got), size(further), 10) // a rise is to the nanometre
		other := shape.Point{X: d.X - whole.X, Y: d.Y - whole.Y}
		if m.Across == 0 {
			other.X = 0
		}
		if m.Along == 0 {
			other.Y = 0
		}
		require.LessOrEqual(t, size(got), size(other)+10)
	})
}

// A half drop of 26 in every 13 1/2 in across: 13 1/2 in across alone the pattern is
// half a repeat off, and with 13 in of height it is the same.
func TestApartAtAHalfDrop(t *testing.T) {
	m := material.Motifs{Across: 27 * unit.Inch / 2, Along: 26 * unit.Inch, Drop: material.Drop{Num: 1, Den: 2}}
	require.Equal(t, shape.Point{Y: 13 * unit.Inch}, m.Apart(shape.Point{X: 27 * unit.Inch / 2}))
	require.Zero(t, m.Apart(shape.Point{X: 27 * unit.Inch / 2, Y: 13 * unit.Inch}))
	require.Equal(t, shape.Point{X: unit.Inch}, m.Apart(shape.Point{X: 28 * unit.Inch}))
}

// The motif after a place is one, lies to the right of it and beyond it, and no
// other that does is lower, or as low and nearer.
func TestAfterIsTheFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(name string, from, to int) unit.Length {
			return unit.Length(rapid.IntRange(from, to).Draw(t, name)) * unit.Inch / 8
		}
		m := material.Motifs{Across: pick("across", 0, 60), Along: pick("along", 0, 60), First: shape.Point{X: pick("first x", 0, 80), Y: pick("first y", 0, 80)}}
		if den := rapid.IntRange(1, 5).Draw(t, "columns"); den > 1 && m.Across > 0 && m.Along > 0 {
			m.Drop = material.Drop{Num: rapid.IntRange(1, den-1).Draw(t, "drop"), Den: den}
		}
		x, y := pick("x", -200, 200), pick("y", -200, 200)
		got := m.After(x, y)
		const hair = 20 * unit.Micrometre // a rise is to the nanometre, and less than 10 micrometres count as none
		require.GreaterOrEqual(t, got.X, unit.Length(0))
		require.GreaterOrEqual(t, got.Y, unit.Length(0))
		off := m.Apart(shape.Point{X: x + got.X - m.First.X, Y: y + got.Y - m.First.Y})
		require.LessOrEqual(t, max(off.X, -off.X, off.Y, -off.Y), hair, "it is a motif")
		for i := -600; m.Across > 0 && i < 600; i++ {
			p := shape.Point{X: m.First.X + unit.Length(i)*m.Across - x}
			if p.X < 0 || p.X > 10*m.Across {
				continue
			}
			if m.Along > 0 {
				p.Y = (m.First.Y + m.Rise(i) - y) % m.Along
				p.Y += m.Along
				if p.Y -= p.Y / m.Along * m.Along; m.Along-p.Y < hair {
					continue // it lies on the place, but for the rounding of its rise
				}
			}
			require.Less(t, got.Y, p.Y+hair, "column %d is lower", i)
			if p.Y < got.Y+hair && p.Y > got.Y-hair {
				require.LessOrEqual(t, got.X, p.X, "column %d is nearer", i)
			}
		}
		if m.Across == 0 {
			require.Zero(t, got.X)
		}
		if m.Along == 0 {
			require.Zero(t, got.Y)
			require.Less(t, got.X, max(m.Across, 1))
		}
	})
}
