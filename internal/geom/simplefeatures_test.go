//go:build simplefeatures

package geom

import (
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Checks against an independent planar geometry engine that works in float64
// (github.com/peterstace/simplefeatures). Coordinates go over in millimetres.

func sfRing(r Ring) sf.LineString {
	f := make([]float64, 0, 2*len(r)+2)
	for i := 0; i <= len(r); i++ {
		p := r[i%len(r)]
		f = append(f, float64(p.X)/mm, float64(p.Y)/mm)
	}
	return sf.NewLineString(sf.NewSequence(f, sf.DimXY))
}

func sfPolygon(p Polygon) sf.Polygon {
	rs := []sf.LineString{sfRing(p.Outer)}
	for _, h := range p.Holes {
		rs = append(rs, sfRing(h))
	}
	return sf.NewPolygon(rs)
}

func TestEngineArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawStar(t)
		p := sf.NewPolygon([]sf.LineString{sfRing(r)})
		require.NoError(t, p.Validate())
		require.InEpsilon(t, p.Area(), r.Area()/mm/mm, 1e-9)
		c, ok := p.Centroid().XY()
		require.True(t, ok)
		x, y, ok := r.Centroid()
		require.True(t, ok)
		require.InDelta(t, c.X, x/mm, 1e-6)
		require.InDelta(t, c.Y, y/mm, 1e-6)
		h, ok := p.ConvexHull().AsPolygon()
		require.True(t, ok)
		require.InEpsilon(t, h.Area(), Hull(r).Area()/mm/mm, 1e-9)
	})
}

// A ring is simple for both engines or for neither.
func TestEngineSelfIntersection(t *testing.T) {
	count := map[bool]int{}
	rapid.Check(t, func(t *rapid.T) {
		// A coarse grid, so that touching and overlapping edges are common.
		r := drawRing(t, rapid.SampledFrom([]int64{4, 12, 1000}).Draw(t, "size"), 10, "ring").Clean()
		if len(r) < 3 {
			t.Skip("no ring")
		}
		scaled := make(Ring, len(r))
		for i, p := range r {
			scaled[i] = Point{p.X * mm, p.Y * mm}
		}
		c, bad, err := scaled.FindSelfIntersection()
		require.NoError(t, err)
		require.Equal(t, sfRing(scaled).IsSimple(), !bad, "%v %v", r, c)
		count[bad]++
		if bad {
			require.Less(t, c.EdgeA, c.EdgeB)
			for _, e := range [2]int{c.EdgeA, c.EdgeB} {
				require.LessOrEqual(t, segmentDistance(c.At, scaled[e], scaled[(e+1)%len(r)]), 1.0)
			}
		}
	})
	require.Positive(t, count[true])
	require.Positive(t, count[false])
}

// The union of two outlines has the area the other engine finds, and is valid
// to it.
func TestEngineUnion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawStar(t)
		b := drawStar(t).Translate(Point{rapid.Int64Range(-500*mm, 500*mm).Draw(t, "dx"), rapid.Int64Range(-500*mm, 500*mm).Draw(t, "dy")})
		ps, err := Union([]Ring{a, b.Reverse()})
		require.NoError(t, err)
		want, err := sf.Union(sf.NewPolygon([]sf.LineString{sfRing(a)}).AsGeometry(), sf.NewPolygon([]sf.LineString{sfRing(b)}).AsGeometry())
		if err != nil {
			t.Skip("the other engine gave up")
		}
		var got float64
		for _, p := range ps {
			require.NoError(t, sfPolygon(p).Validate())
			got += sfPolygon(p).Area()
		}
		require.InDelta(t, want.Area(), got, 0.05) // mm2: a nanometre along the border
		require.InEpsilon(t, got, areaOf(ps)/mm/mm, 1e-9)
	})
}

// Offsets of every kind are valid polygons to the other engine, with the same
// area.
func TestEngineOffsetValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawStar(t)
		sg := rapid.SampledFrom([]int64{1, -1}).Draw(t, "sign")
		out, err := Offset(r, drawDistances(t, len(r), sg), OffsetOptions{Join: Join(rapid.IntRange(0, 3).Draw(t, "join"))})
		require.NoError(t, err)
		for _, p := range polygons(out) {
			s := sfPolygon(p)
			require.NoError(t, s.Validate())
			require.InDelta(t, s.Area(), p.TwiceArea().Float64()/2/mm/mm, 1e-6+1e-9*s.Area())
		}
	})
}
