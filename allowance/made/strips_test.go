package made_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/unit"
)

func TestBoxingRefuses(t *testing.T) {
	const in = unit.Inch
	ok := made.Boxing{Perimeter: 80 * in, Depth: 4 * in, Zip: true}
	for field, change := range map[string]func(*made.Boxing) made.Goods{
		"perimeter":  func(b *made.Boxing) made.Goods { b.Perimeter = 0; return made.Goods{} },
		"depth":      func(b *made.Boxing) made.Goods { b.Depth = 0; return made.Goods{} },
		"seam":       func(b *made.Boxing) made.Goods { b.Seam = allowance.Exactly(-in); return made.Goods{} },
		"zip_seam":   func(b *made.Boxing) made.Goods { b.ZipSeam = allowance.Exactly(-in); return made.Goods{} },
		"least":      func(b *made.Boxing) made.Goods { b.Least = allowance.Exactly(-in); return made.Goods{} },
		"zip_length": func(b *made.Boxing) made.Goods { b.ZipLength = 90 * in; return made.Goods{} },
		"pocket":     func(b *made.Boxing) made.Goods { b.Zip, b.Pocket = false, in; return made.Goods{} },
		"corners[1].at": func(b *made.Boxing) made.Goods {
			b.Corners = []made.RingCorner{{At: in}, {At: in}}
			return made.Goods{}
		},
		"front[1]": func(b *made.Boxing) made.Goods { b.Front = [2]unit.Length{in, 0}; return made.Goods{} },
		"goods":    func(*made.Boxing) made.Goods { return made.Goods{Across: 3 * in, Directed: true} },
	} {
		b := ok
		g := change(&b)
		_, err := b.Cut(g)
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
		if n > 1 {
			require.GreaterOrEqual(t, c.Strips[len(c.Strips)-1].Length, 6*unit.Inch, "no sliver")
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
