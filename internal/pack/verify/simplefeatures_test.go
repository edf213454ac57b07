//go:build simplefeatures

package verify_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/verify"
)

// Two engines: the referee and the polygon intersection of a general
// geometry library (pure Go).
func TestAgainstSimplefeatures(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	overlaps := 0
	for range 1500 {
		a := randomRing(r, 0, 0, 20)
		b := randomRing(r, r.Int64N(50)-25, r.Int64N(50)-25, 20)
		x, err := sf.Intersection(toGeom(t, a), toGeom(t, b))
		require.NoError(t, err)
		want := x.Area() > 1e-6
		got := verify.Overlap(a, b)
		require.Equal(t, want, got, fmt.Sprint(a, b, x.Area()))
		d, err := sf.Difference(toGeom(t, a), toGeom(t, b))
		require.NoError(t, err)
		require.Equal(t, d.Area() < 1e-6, verify.Inside(a, b), fmt.Sprint(a, b, d.Area()))
		if got {
			overlaps++
		}
	}
	require.Greater(t, overlaps, 200)
	require.Less(t, overlaps, 1300)
}

// A fault found is a fault there: moving one piece of a good layout by
// random amounts is judged like the general library judges it.
func TestMovedPiece(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	ps, cs, pl := goodLayout()
	for range 400 {
		dx, dy := r.Int64N(50)-10, r.Int64N(50)-10
		q := slices.Clone(pl)
		q[0].At = geom.Pt(dx, dy)
		q[0].Ring = square(dx, dy, 10)
		bad := func(a, b geom.Ring) bool {
			x, err := sf.Intersection(toGeom(t, a), toGeom(t, b))
			require.NoError(t, err)
			return x.Area() > 1e-6
		}
		want := dx < 0 || dy < 0 || dx > 30 || dy > 30 || bad(q[0].Ring, cs[0].Holes[0]) ||
			bad(q[0].Ring, cs[0].Zones[0].Ring) || bad(q[0].Ring, cs[0].Zones[1].Ring) ||
			bad(q[0].Ring, q[1].Ring) || bad(q[0].Ring, q[2].Ring) || bad(q[0].Ring, q[3].Ring)
		require.Equal(t, want, len(verify.Outlines(ps, cs, 0, true, q)) > 0, "%d %d", dx, dy)
	}
}

func toGeom(t require.TestingT, r geom.Ring) sf.Geometry {
	var c []float64
	for i := 0; i <= len(r); i++ {
		p := r[i%len(r)]
		c = append(c, float64(p.X), float64(p.Y))
	}
	g := sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(c, sf.DimXY))}).AsGeometry()
	require.NoError(t, g.Validate())
	return g
}
