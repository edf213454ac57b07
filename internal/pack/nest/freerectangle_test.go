package nest

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/internal/geom"
)

// A ring seen from a level line has each point of the line where it was; and the
// cells of a grid are those of their definition.
func TestCellsOfTheirDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := garment(rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 6)), 1)[0].Ring
		k := rapid.Int64Range(1, 200).Draw(t, "coarse") // corners on a level line with points
		for i, p := range r {
			r[i] = geom.Pt(p.X/k, p.Y/k)
		}
		b := r.Bounds()
		p := geom.Pt(rapid.Int64Range(b.Min.X-1, b.Max.X+1).Draw(t, "x"), rapid.Int64Range(b.Min.Y-1, b.Max.Y+1).Draw(t, "y"))
		require.Equal(t, r.Locate(p), seenFrom(r, p.Y).Locate(p))

		c := cellGrid{at: p, cell: rapid.Int64Range(1, 50).Draw(t, "cell"), nx: 9, ny: 7, free: make([]bool, 63)}
		c.inside(r, true)
		inside := append([]bool{}, c.free...)
		for i := range c.free {
			c.free[i] = true
		}
		c.strike(r)
		for y := range c.ny {
			for x := range c.nx {
				low := c.corner(x, y)
				require.Equal(t, r.Locate(geom.Pt(low.X+c.cell/2, low.Y+c.cell/2)) == geom.Inside, inside[y*c.nx+x])
				require.Equal(t, !meets(rect(c.cell, c.cell).Translate(low), r), c.free[y*c.nx+x])
			}
		}
	})
}
