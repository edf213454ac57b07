package nest

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/geom"
)

// One long piece among free-turning ones says how short the strip can be: a
// bar of 3000 by 400 just fits across 2000 at 33.77 degrees, where
// 3000 sin t + 400 cos t = 2000, and is then 3000 cos t + 400 sin t = 2716.2 long.
func TestTurningBound(t *testing.T) {
	bar := rect(3000, 400)
	for _, c := range []struct {
		name  string
		width int64
		piece Piece
		lower int64
	}{
		{"at a slant", 2000, Piece{Ring: bar, Turn: TurnAny()}, 2714},
		{"across", 3100, Piece{Ring: bar, Turn: TurnAny()}, 399},
		{"with the grain", 2000, Piece{Ring: bar, Turn: TurnAround(5*Degree, 0)}, 2999},
		{"a tolerance that helps", 2000, Piece{Ring: bar, Turn: TurnAround(15*Degree, 15*Degree)}, 2797},
	} {
		out, err := Strip(context.Background(), StripJob{Width: c.width, Pieces: []Piece{c.piece}, Options: Options{Effort: 5}})
		require.NoError(t, err, c.name)
		assert.InDelta(t, c.lower, out.LowerBound, 1, c.name)
		assert.LessOrEqual(t, out.LowerBound, out.Length, c.name)
	}
}

// No position that is allowed and fits is shorter.
func TestShortest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := garment(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 4)), 1)[0].Ring.Tidy()
		width := rapid.SampledFrom([]int64{500, 900, 1500, 4000}).Draw(t, "width")
		mirror := Mirroring(rapid.IntRange(0, 2).Draw(t, "mirror"))
		tol := Angle(rapid.Int64Range(0, int64(30*Degree)).Draw(t, "tol")) * Angle(rapid.IntRange(0, 1).Draw(t, "loose"))
		base := []Angle{0, 90 * Degree, Angle(rapid.Int64Range(0, int64(fullTurn)).Draw(t, "base"))}
		turn := TurnAround(tol, base[rapid.IntRange(0, 2).Draw(t, "which")])
		if rapid.Bool().Draw(t, "any") {
			turn = TurnAny()
		}
		least := int64(math.MaxInt64)
		for _, m := range mirrors(mirror) {
			for k := range 200 {
				a := Angle(int64(fullTurn) / 200 * int64(k))
				if !turn.any {
					a = turn.list()[0] + turn.tol*Angle(k-100)/100
				}
				if b := turned(r, a, m).Bounds(); b.Height() <= width {
					least = min(least, b.Width())
				}
			}
		}
		bound := shortest(r, turn, mirror, width)
		require.LessOrEqual(t, bound, least)
		// On a wide roll it is no more below than the angles between those tried allow.
		if turn.any && width == 4000 {
			d := geom.Distance(r.Bounds().Min, r.Bounds().Max)
			require.InDelta(t, least, bound, d*math.Pi/100+2)
		}
	})
}
