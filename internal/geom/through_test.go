package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Points of a circle give a circle, evenly spread or not, and so do three.
func TestThroughACircle(t *testing.T) {
	const r = 1e8
	for _, degrees := range [][]float64{{0, 45, 90}, {10, 50, 110, 130, 190}, {0, 80, 160, 240, 320}, {90, 40, -30}} {
		var ps []Point
		for _, a := range degrees {
			s, c := math.Sincos(a * math.Pi / 180)
			ps = append(ps, Point{int64(math.Round(r * c)), int64(math.Round(r * s))})
		}
		path, bad := Through(ps)
		require.Equal(t, -1, bad)
		require.Len(t, path, len(ps)-1)
		for i, s := range path {
			assert.Equal(t, ps[i], s.From)
			assert.Equal(t, ps[i+1], s.To)
			for k := range 21 {
				p := s.At(float64(k) / 20)
				assert.InDelta(t, r, math.Hypot(float64(p.X), float64(p.Y)), 3e-4*r, "%v", degrees)
			}
		}
	}
}

// The curve does not turn at the points between its ends.
func TestThroughIsSmooth(t *testing.T) {
	ps := []Point{{0, 0}, {4e7, 1e7}, {9e7, -1e7}, {12e7, 2e7}, {13e7, 6e7}}
	path, bad := Through(ps)
	require.Equal(t, -1, bad)
	for i := 1; i < len(path); i++ {
		a, b := path[i-1].Tangent(1), path[i].Tangent(0)
		assert.InDelta(t, 0, a.cross(b)/a.length()/b.length(), 1e-6)
		assert.Positive(t, a.dot(b))
	}
}

func TestThroughFewPoints(t *testing.T) {
	line, bad := Through([]Point{{1, 2}, {30, 4}})
	assert.Equal(t, -1, bad)
	assert.Equal(t, []Segment{LineTo(Point{1, 2}, Point{30, 4})}, line)
	straight, bad := Through([]Point{{0, 0}, {3000, 0}, {9000, 0}})
	assert.Equal(t, -1, bad)
	for _, s := range straight {
		assert.Zero(t, s.C1.Y)
		assert.Zero(t, s.C2.Y)
	}
	_, bad = Through([]Point{{0, 0}, {1000, 0}, {10, 10}, {-1000, 0}})
	assert.Equal(t, 0, bad, "doubled back")
	_, bad = Through([]Point{{0, 0}, {0, 0}, {10, 10}})
	assert.NotEqual(t, -1, bad, "one point twice")
}
