package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRingBasics(t *testing.T) {
	square := Ring{{0, 0}, {2, 0}, {2, 2}, {0, 2}}
	require.Equal(t, Int128{0, 8}, square.TwiceArea())
	require.Equal(t, -1, square.Reverse().Orientation())
	require.True(t, square.Convex())
	require.True(t, square.Reverse().Convex())
	require.False(t, Ring{{0, 0}, {4, 0}, {4, 4}, {2, 1}}.Convex())
	require.False(t, Ring{{0, 0}, {4, 0}, {8, 0}}.Convex())
	// A pentagram turns one way all along but goes round twice.
	star := make(Ring, 5)
	for i := range star {
		a := 4 * math.Pi * float64(i) / 5
		star[i] = Point{int64(1000 * math.Cos(a)), int64(1000 * math.Sin(a))}
	}
	require.False(t, star.Convex())
	require.Equal(t, square, Ring{{0, 0}, {1, 0}, {2, 0}, {2, 0}, {2, 1}, {2, 2}, {0, 2}, {0, 1}, {0, 0}}.Clean())
	require.Equal(t, Ring{{0, 0}, {2, 0}, {2, 2}, {0, 2}}, Ring{{1, 0}, {2, 0}, {2, 2}, {0, 2}, {0, 0}}.Clean().Normal())
	for _, c := range []struct {
		p    Point
		want Location
	}{{Point{1, 1}, Inside}, {Point{0, 1}, OnBoundary}, {Point{2, 2}, OnBoundary}, {Point{1, 0}, OnBoundary}, {Point{3, 0}, Outside}, {Point{-1, 2}, Outside}} {
		require.Equal(t, c.want, square.Locate(c.p), "%v", c.p)
		require.Equal(t, c.want, square.Reverse().Locate(c.p), "%v", c.p)
	}
	// The largest ring in range: the area needs more than 64 bits.
	big := Ring{{-MaxCoord, -MaxCoord}, {MaxCoord, -MaxCoord}, {MaxCoord, MaxCoord}, {-MaxCoord, MaxCoord}}
	require.Equal(t, 8*float64(MaxCoord)*float64(MaxCoord), big.TwiceArea().Float64())
	x, y, ok := big.Translate(Point{}).Centroid()
	require.True(t, ok)
	require.Zero(t, x)
	require.Zero(t, y)
	for tr := Identity; tr <= AntiDiagonal; tr++ {
		p := Point{3, 5}
		require.Equal(t, p, tr.Inverse().Apply(tr.Apply(p)))
		require.Equal(t, square.Orientation(), square.Transform(tr).Orientation())
	}
	h, err := Hausdorff(square, square.Translate(Point{100, 0}), 1)
	require.NoError(t, err)
	require.InDelta(t, 100, h, 1)
	_, err = MaxDeviation(nil, square, 1)
	require.ErrorIs(t, err, ErrDegenerate)
	_, err = MaxDeviation(square, square, 0)
	require.ErrorIs(t, err, ErrParameter)
	d, err := MaxDeviation(big, big, 1)
	require.NoError(t, err)
	require.Zero(t, d)
}
