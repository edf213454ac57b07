//go:build simplefeatures

package allowance_test

import (
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
)

func engineOf(t require.TestingT, c shape.Contour) sf.Polygon {
	ring := func(ps []shape.Point) sf.LineString {
		var f []float64
		for i := 0; i <= len(ps); i++ {
			p := ps[i%len(ps)]
			f = append(f, p.X.Millimetres(), p.Y.Millimetres())
		}
		return sf.NewLineString(sf.NewSequence(f, sf.DimXY))
	}
	rs := []sf.LineString{ring(c.Outer)}
	for _, h := range c.Holes {
		rs = append(rs, ring(h))
	}
	return sf.NewPolygon(rs)
}

// The lines of every cut are valid to another engine, each around the one
// before, their areas those it finds, and the grain arrow lies on the panel.
func TestEngineCuts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawAnyPanel(t)
		c, err := p.Cut()
		require.NoError(t, err)
		seam, trim, cut := engineOf(t, c.SeamLine), engineOf(t, c.TrimLine), engineOf(t, c.CutLine)
		for _, g := range []sf.Polygon{seam, trim, cut} {
			require.NoError(t, g.Validate())
		}
		tol := c.Tolerance.Millimetres()
		perimeter := p.Outline.Perimeter().Millimetres()
		require.InDelta(t, seam.Area(), c.SeamArea.SquareMillimetres(), tol*perimeter)
		require.InDelta(t, cut.Area()-seam.Area(), (c.Area - c.SeamArea).SquareMillimetres(), 1e-3)
		require.InDelta(t, trim.Area()-seam.Area(), (c.TrimArea - c.SeamArea).SquareMillimetres(), 1e-3)
		for _, pair := range [][2]sf.Polygon{{seam, trim}, {trim, cut}} {
			d, err := sf.Difference(pair[0].AsGeometry(), pair[1].AsGeometry())
			if err == nil { // the other engine gives up on some contacts
				// Arcs of different extent have their chords at different
				// places.
				slack := 1e-3
				if p.Corner == shape.RoundCorner {
					slack += tol * 100
				}
				require.Less(t, d.Area(), slack, "an inner line sticks out")
			}
		}
		for _, q := range []shape.Point{c.Grain.Foot, c.Grain.Head} {
			in, err := sf.Contains(seam.AsGeometry(), sf.NewPoint(sf.Coordinates{XY: sf.XY{X: q.X.Millimetres(), Y: q.Y.Millimetres()}}).AsGeometry())
			require.NoError(t, err)
			require.True(t, in, "the grain arrow lies on the panel")
		}
	})
}
