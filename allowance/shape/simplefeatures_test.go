//go:build simplefeatures

package shape_test

import (
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
	"github.com/stretchr/testify/require"
)

// The chords of every shape are a valid polygon to a geometry engine that
// shares nothing with this one, and have the area of the shape within their
// tolerance times its perimeter.
func TestEngineOutlines(t *testing.T) {
	for _, c := range everyShape() {
		t.Run(c.name, func(t *testing.T) {
			o := c.o(t)
			ps, err := o.Flatten(mm / 10)
			require.NoError(t, err)
			var f []float64
			for i := 0; i <= len(ps); i++ {
				p := ps[i%len(ps)]
				f = append(f, p.X.Millimetres(), p.Y.Millimetres())
			}
			g := sf.NewPolygon([]sf.LineString{sf.NewLineString(sf.NewSequence(f, sf.DimXY))})
			require.NoError(t, g.Validate())
			require.InDelta(t, o.Area().SquareMillimetres(), g.Area(), o.Perimeter().Millimetres()/10)
		})
	}
}
