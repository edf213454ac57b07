package geom

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The parts of a segment lie on it, meet, and are together as long.
func TestSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(label string) int64 { return rapid.Int64Range(-1e9, 1e9).Draw(t, label) }
		p := func(label string) Point { return Point{n(label + " x"), n(label + " y")} }
		from := p("from")
		to := from.Add(Point{rapid.Int64Range(1e6, 1e9).Draw(t, "width"), n("height")})
		s := rapid.SampledFrom([]Segment{
			LineTo(from, to), ArcTo(from, to, float64(rapid.IntRange(-300, 300).Draw(t, "bulge"))/200),
			QuadraticTo(from, p("c"), to), CubicTo(from, p("c1"), p("c2"), to),
			EllipticArcTo(Vec{}, Vec{2e8, 1e8}, Vec{-1e8, 3e8}, 0.3, 2.9),
		}).Draw(t, "segment")
		if rapid.Bool().Draw(t, "reversed") {
			s = s.Reverse()
		}
		at := float64(rapid.IntRange(1, 99).Draw(t, "at")) / 100
		a, b := s.Split(at)
		if a.From != s.From || b.To != s.To || a.To != b.From || a.To != s.At(at) {
			t.Fatalf("%v and %v do not join to %v", a, b, s)
		}
		if sum := a.Length() + b.Length(); math.Abs(sum-s.Length()) > 10+s.Length()*1e-8 {
			t.Fatalf("parts of %g are %g long", s.Length(), sum)
		}
		for _, f := range []float64{0.25, 0.5, 0.75} {
			if d := Distance(a.At(f), s.At(at*f)); d > 10 {
				t.Fatalf("before: %g nm off at %g", d, f)
			}
			if d := Distance(b.At(f), s.At(at+(1-at)*f)); d > 10 {
				t.Fatalf("after: %g nm off at %g", d, f)
			}
		}
	})
}
