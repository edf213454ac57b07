package made_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

// Sewn up, the pieces close the ring exactly; none is longer than the goods
// allow; and the joins lie the same on both sides of the back.
func TestBoxingClosesTheRing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := made.Boxing{
			Perimeter: drawLength(unit.Metre, 10*unit.Metre).Draw(t, "perimeter"),
			Depth:     drawLength(unit.Centimetre, 30*unit.Centimetre).Draw(t, "depth"),
		}
		s := unit.Inch / 2
		if rapid.Bool().Draw(t, "own seam") {
			s = drawLength(unit.Millimetre, 3*unit.Centimetre).Draw(t, "seam")
			b.Seam = allowance.Exactly(s)
		}
		if rapid.Bool().Draw(t, "limited") {
			b.Longest = drawLength(20*unit.Centimetre, 3*unit.Metre).Draw(t, "longest")
		}
		zip := rapid.Bool().Draw(t, "zip")
		if zip {
			b.Zip.Back = drawLength(10*unit.Centimetre, b.Perimeter/2).Draw(t, "back")
		}
		c, err := b.Cut()
		require.NoError(t, err)

		var sewn, cut unit.Length
		n := 0
		for _, p := range c.Pieces {
			if p.Use == "zip" {
				continue
			}
			require.Equal(t, b.Depth+2*s, p.Width)
			if b.Longest > 0 {
				require.LessOrEqual(t, p.Length, b.Longest)
			}
			cut += p.Length * unit.Length(p.Count)
			sewn += (p.Length - 2*s) * unit.Length(p.Count)
			n += p.Count
		}
		if zip {
			sewn += c.ZipLength - 2*s
			n++
			require.InDelta(t, float64(b.Depth+2*s), float64(2*(c.ZipWidth-3*unit.Inch/4)), 2, "the halves close over the zip")
		}
		require.Equal(t, b.Perimeter, sewn)
		require.Equal(t, cut, c.Length)
		require.Len(t, c.Joins, n)
		require.IsIncreasing(t, append([]unit.Length{-1}, c.Joins...))

		// mirror image about the middle of the back
		for _, j := range c.Joins {
			mirror := (b.Perimeter - j) % b.Perimeter
			require.True(t, slices.ContainsFunc(c.Joins, func(k unit.Length) bool {
				d := (mirror - k + b.Perimeter) % b.Perimeter
				return min(d, b.Perimeter-d) <= unit.Length(2*n)
			}), "join at %v has no mirror image in %v", j, c.Joins)
		}
	})
}

func TestBoxingRefuses(t *testing.T) {
	const in = unit.Inch
	ok := made.Boxing{Perimeter: 80 * in, Depth: 4 * in}
	for field, change := range map[string]func(*made.Boxing){
		"perimeter":  func(b *made.Boxing) { b.Perimeter = 0 },
		"depth":      func(b *made.Boxing) { b.Depth = 0 },
		"seam":       func(b *made.Boxing) { b.Seam = allowance.Exactly(-in) },
		"longest":    func(b *made.Boxing) { b.Longest = in },
		"zip.back":   func(b *made.Boxing) { b.Zip.Back = 90 * in },
		"zip.length": func(b *made.Boxing) { b.Zip.Back = 79 * in },
		"zip.wrap":   func(b *made.Boxing) { b.Zip = made.ZipStrip{Back: 20 * in, Wrap: allowance.Exactly(-in)} },
	} {
		b := ok
		change(&b)
		_, err := b.Cut()
		var e *unit.InputError
		require.ErrorAs(t, err, &e, field)
		assert.Equal(t, field, string(e.Field))
	}
}

// Whatever the strips, joined up they make the welt.
func TestWeltRunJoinsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := made.WeltRun{
			Runs:    rapid.SliceOfN(drawLength(unit.Centimetre, 10*unit.Metre), 1, 5).Draw(t, "runs"),
			Width:   drawLength(2*unit.Centimetre, 10*unit.Centimetre).Draw(t, "width"),
			Longest: drawLength(50*unit.Centimetre, 3*unit.Metre).Draw(t, "longest"),
			Join:    rapid.SampledFrom([]made.Join{made.DiagonalJoin, made.StraightJoin}).Draw(t, "join"),
		}
		c, err := w.Cut()
		require.NoError(t, err)
		lost := w.Width
		if w.Join == made.StraightJoin {
			lost = unit.Inch
		}
		var cut unit.Length
		n := 0
		for _, s := range c.Strips {
			require.LessOrEqual(t, s.Length, w.Longest)
			require.Greater(t, s.Length, unit.Length(0))
			cut += s.Length * unit.Length(s.Count)
			n += s.Count
		}
		require.Equal(t, n-1, c.Joins)
		require.Equal(t, c.Length, cut)
		require.Equal(t, c.Welt, cut-lost*unit.Length(c.Joins))

		if n > 1 { // one strip fewer would not reach
			fewer := unit.Length(n-1)*w.Longest - unit.Length(n-2)*lost
			require.Less(t, fewer, c.Welt)
		}
	})
}

func TestWeltRefuses(t *testing.T) {
	const in = unit.Inch
	_, err := made.WeltStrip{}.Width()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = made.WeltStrip{Cord: in / 4, Step: -in}.Width()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = made.WeltRun{Width: in}.Cut()
	require.ErrorIs(t, err, unit.ErrRequired)
	_, err = made.WeltRun{Runs: []unit.Length{10 * in, 0}, Width: in}.Cut()
	require.ErrorContains(t, err, "runs[1]")
	_, err = made.WeltRun{Runs: []unit.Length{10 * in}, Width: 2 * in, Longest: in}.Cut()
	require.ErrorContains(t, err, "longest")
	_, err = made.WeltRun{Runs: []unit.Length{1000 * unit.Metre}, Width: in, Longest: in + 2*unit.Millimetre}.Cut()
	require.ErrorContains(t, err, "longest")
	_, err = made.WeltRun{Runs: []unit.Length{10 * in}, Width: in, Join: 9}.Cut()
	require.ErrorIs(t, err, unit.ErrUnknown)
}
