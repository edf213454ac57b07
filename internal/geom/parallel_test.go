package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// gentleSegment draws a segment of any kind, half a metre large, that bends
// gently.
func gentleSegment(t *rapid.T) Segment {
	const most = 500 * mm
	at := func(l string) Point {
		return Point{rapid.Int64Range(-most, most).Draw(t, l+"x"), rapid.Int64Range(-most, most).Draw(t, l+"y")}
	}
	from, to := Point{}, Point{most, rapid.Int64Range(-most, most).Draw(t, "to")}
	switch rapid.IntRange(0, 4).Draw(t, "kind") {
	case 0:
		return LineTo(from, to)
	case 1:
		return ArcTo(from, to, rapid.Float64Range(-0.9, 0.9).Draw(t, "bulge"))
	case 2:
		return QuadraticTo(from, Point{most / 2, at("c").Y}, to)
	case 3:
		return CubicTo(from, Point{most / 3, at("c").Y}, Point{2 * most / 3, at("d").Y}, to)
	}
	return EllipticArcTo(Vec{}, Vec{X: most}, Vec{Y: rapid.Float64Range(100*mm, most).Draw(t, "b")}, 0, rapid.Float64Range(0.5, 3).Draw(t, "angle"))
}

// Every point of a parallel lies at its distance from the segment, square to it,
// and what is drawn lies on the parallel.
func TestParallel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := gentleSegment(t)
		p := Parallel{s, rapid.Float64Range(-20*mm, 20*mm).Draw(t, "by")}
		for i := range 33 {
			f := float64(i) / 32
			if p.Slack(f) <= 0.05 {
				t.Skip("it turns round")
			}
			far := Parallel{Segment: s}.At(f).sub(p.At(f)).length()
			require.InDelta(t, math.Abs(p.By), far, 1)
			require.InDelta(t, f, p.Nearest(p.At(f), -0.1, 1.1), 1e-6)
		}
		for _, piece := range p.Part(0, 1, p.At(0).Point(), p.At(1).Point(), 1000) {
			for i := range 9 {
				q := piece.At(float64(i) / 8).Vec()
				require.InDelta(t, 0, p.At(p.Nearest(q, 0, 1)).sub(q).length(), 2000)
			}
		}
	})
}

// Parallels of two edges of a right angle meet at the corner of both distances.
func TestParallelsMeet(t *testing.T) {
	a := Parallel{LineTo(Point{}, Point{100 * mm, 0}), 10 * mm}
	b := Parallel{ArcTo(Point{100 * mm, 0}, Point{100 * mm, 100 * mm}, 0.2), 20 * mm}
	s, u, ok := a.Meet(b, 1, 0)
	require.True(t, ok)
	require.InDelta(t, 0, a.At(s).sub(b.At(u)).length(), 1)
	_, _, ok = a.Meet(Parallel{LineTo(Point{0, 20 * mm}, Point{100 * mm, 20 * mm}), 0}, 1, 0)
	require.False(t, ok, "they never meet")
}
