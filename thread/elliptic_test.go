package thread_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/thread"
	"github.com/coverwright/coverwright/unit"
)

// halfPerimeter walks half an ellipse with semi-axes a and b in small chords.
func halfPerimeter(a, b float64) float64 {
	const chords = 4000
	sum, x, y := 0.0, a, 0.0
	for i := 1; i <= chords; i++ {
		s, c := math.Sincos(math.Pi * float64(i) / chords)
		sum += math.Hypot(a*c-x, b*s-y)
		x, y = a*c, b*s
	}
	return sum
}

// Each thread of a lockstitch runs along half an ellipse: half a stitch to each
// side, and as deep as its share of the goods with half the thread.
func TestEllipticPathIsHalfAnEllipse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(2, 8)
		l, deep := unit.Length(mm.Draw(t, "stitch")*1e6), unit.Length(mm.Draw(t, "thickness")*1e6)
		s := thread.Seam{Length: l, StitchLength: l, Thickness: deep, Stitch: thread.Lockstitch301, Model: thread.EllipticPath,
			Balance: unit.Ratio(rapid.Float64Range(0.3, 0.7).Draw(t, "balance"))}
		across := 0.0
		if rapid.Bool().Draw(t, "with thread") {
			s.Thread = drawSize(t)
			row, err := thread.Thread{Fibre: thread.Nylon, Size: s.Thread}.Row()
			require.NoError(t, err)
			d, _ := row.Diameter.Value()
			across = float64(d)
		}
		use, err := thread.Consume(s)
		require.NoError(t, err)
		needle := halfPerimeter(float64(l)/2, float64(s.Balance)*float64(deep)+across/2)
		under := halfPerimeter(float64(l)/2, (1-float64(s.Balance))*float64(deep)+across/2)
		assert.InEpsilon(t, needle, float64(use.Needle), 1e-5)
		assert.InEpsilon(t, under, float64(use.Under), 1e-5)
	})
}
