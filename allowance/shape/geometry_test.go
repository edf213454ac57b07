package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// series gives the perimeter of an ellipse by the series in h, another road
// than the arithmetic-geometric mean (Perimeter of an ellipse, series).
func series(a, b float64) float64 {
	h := (a - b) / (a + b)
	h *= h
	sum, term, coeff := 0.0, 1.0, 1.0
	for n := range 400 {
		sum += coeff * coeff * term
		coeff *= (0.5 - float64(n)) / float64(n+1)
		term *= h
	}
	return math.Pi * (a + b) * sum
}

func TestEllipsePerimeterAgreesWithTheSeries(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "a")
		b := drawLength(a/4+1, 2*a).Draw(t, "b")
		p, err := shape.EllipsePerimeter(a, b)
		require.NoError(t, err)
		require.InDelta(t, series(float64(a), float64(b)), float64(p), 1+1e-14*float64(p))

		turned, err := shape.EllipsePerimeter(b, a)
		require.NoError(t, err)
		require.Equal(t, p, turned)
	})
}

// The perimeter lies between 4 × the hypotenuse of the quadrant and the box,
// and both approximations fall short of it, the second by less.
func TestEllipsePerimeterBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "a")
		b := drawLength(unit.Millimetre, 10*unit.Metre).Draw(t, "b")
		p, err := shape.EllipsePerimeter(a, b)
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(p)+1, 4*math.Hypot(float64(a), float64(b)))
		require.LessOrEqual(t, p, 4*(a+b))
		r1, err := shape.EllipsePerimeterRamanujan1(a, b)
		require.NoError(t, err)
		r2, err := shape.EllipsePerimeterRamanujan2(a, b)
		require.NoError(t, err)
		require.LessOrEqual(t, r1, p+1)
		require.LessOrEqual(t, r2, p+1)
		require.LessOrEqual(t, float64(p-r1), 0.0042*float64(p)+1)
		require.LessOrEqual(t, float64(p-r2), 0.00041*float64(p)+1)
		require.LessOrEqual(t, r1, r2+1)
	})
}

func TestEllipseOfEqualAxesIsACircle(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawLength(unit.Millimetre, 10*unit.Metre).Draw(t, "r")
		p, err := shape.EllipsePerimeter(r, r)
		require.NoError(t, err)
		c, err := shape.CircleCircumference(2 * r)
		require.NoError(t, err)
		require.InDelta(t, float64(c), float64(p), 1)
	})
}

// A rounded rectangle runs from the plain rectangle to the stadium.
func TestRoundedRectangleLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawLength(unit.Millimetre, unit.Metre).Draw(t, "r")
		a := drawLength(unit.Millimetre, unit.Metre).Draw(t, "straight")
		l, w := a+2*r, 2*r
		area, err := shape.RoundedRectangleArea(l, w, r)
		require.NoError(t, err)
		stadium, err := shape.StadiumArea(r, a)
		require.NoError(t, err)
		require.InDelta(t, float64(stadium), float64(area), 2)
		p, err := shape.RoundedRectanglePerimeter(l, w, r)
		require.NoError(t, err)
		q, err := shape.StadiumPerimeter(r, a)
		require.NoError(t, err)
		require.InDelta(t, float64(q), float64(p), 2)

		plain, err := shape.RoundedRectangleArea(l, w, 0)
		require.NoError(t, err)
		box, err := l.By(w)
		require.NoError(t, err)
		require.InDelta(t, float64(box), float64(plain), 1+1e-15*float64(box))
	})
}

// A trapezoid of equal sides is a rectangle; its area is between those of the
// rectangles on its sides.
func TestTrapezoid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := drawLength(unit.Millimetre, unit.Metre).Draw(t, "a")
		b := drawLength(unit.Millimetre, unit.Metre).Draw(t, "b")
		h := drawLength(unit.Millimetre, unit.Metre).Draw(t, "h")
		area, err := shape.TrapezoidArea(a, b, h)
		require.NoError(t, err)
		lo, err := min(a, b).By(h)
		require.NoError(t, err)
		hi, err := max(a, b).By(h)
		require.NoError(t, err)
		require.True(t, lo <= area+1 && area <= hi+1)
		side, err := shape.TrapezoidSide(a, b, h)
		require.NoError(t, err)
		require.GreaterOrEqual(t, side, h)
		p, err := shape.TrapezoidPerimeter(a, b, h)
		require.NoError(t, err)
		require.InDelta(t, float64(a+b+2*side), float64(p), 2)
	})
}

// area = perimeter × apothem / 2, and the circle lies between the two radii.
func TestRegularPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 1000).Draw(t, "n")
		s := drawLength(unit.Centimetre, unit.Metre).Draw(t, "side")
		area, err := shape.RegularPolygonArea(n, s)
		require.NoError(t, err)
		p, err := shape.RegularPolygonPerimeter(n, s)
		require.NoError(t, err)
		in, err := shape.RegularPolygonApothem(n, s)
		require.NoError(t, err)
		out, err := shape.RegularPolygonCircumradius(n, s)
		require.NoError(t, err)
		require.InEpsilon(t, float64(p)*float64(in)/2e6, float64(area), 1e-6)
		require.Less(t, in, out)
		inner, err := shape.CircleArea(2 * in)
		require.NoError(t, err)
		outer, err := shape.CircleArea(2 * out)
		require.NoError(t, err)
		require.True(t, inner <= area+1000 && area <= outer+1000)
	})
}

// An arc is longer than its chord, lies in its sagitta box, and comes back
// from its length.
func TestChordArc(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "chord")
		h := drawLength(c/1000+1, 2*c).Draw(t, "rise")
		a, err := shape.ArcFromChord(c, h)
		require.NoError(t, err)
		require.Greater(t, a.Length, c)
		require.GreaterOrEqual(t, a.Length+2, 2*h, "the arc climbs to the rise and back")
		// R² = (R - h)² + (c/2)²
		r, x := float64(a.Radius), float64(h)
		require.InEpsilon(t, math.Hypot(r-x, float64(c)/2), r, 1e-6)

		back, err := shape.ArcFromLength(c, a.Length)
		require.NoError(t, err)
		// a nanometre of length moves a shallow rise by 3 c/(16 h) of it
		require.InDelta(t, float64(h), float64(back.Rise), 4+float64(c)/float64(h))
	})
}

func TestChordArcHalfCircle(t *testing.T) {
	a, err := shape.ArcFromChord(20*unit.Inch, 10*unit.Inch)
	require.NoError(t, err)
	assert.Equal(t, 10*unit.Inch, a.Radius)
	assert.InDelta(t, 180, a.Angle.Degrees(), 1e-12)
	half, err := shape.CircleArea(20 * unit.Inch)
	require.NoError(t, err)
	assert.InDelta(t, float64(half)/2, float64(a.SegmentArea), 1)
}

// Offsetting by a and then by b is offsetting by a + b.
func TestSteinerAdds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "w")
		h := drawLength(unit.Centimetre, 10*unit.Metre).Draw(t, "h")
		a := drawLength(unit.Millimetre, unit.Metre).Draw(t, "a")
		b := drawLength(unit.Millimetre, unit.Metre).Draw(t, "b")
		area, err := w.By(h)
		require.NoError(t, err)
		p := 2 * (w + h)

		oneA, err := shape.SteinerArea(area, p, a)
		require.NoError(t, err)
		oneP, err := shape.SteinerPerimeter(p, a)
		require.NoError(t, err)
		twoA, err := shape.SteinerArea(oneA, oneP, b)
		require.NoError(t, err)
		twoP, err := shape.SteinerPerimeter(oneP, b)
		require.NoError(t, err)
		atOnceA, err := shape.SteinerArea(area, p, a+b)
		require.NoError(t, err)
		atOnceP, err := shape.SteinerPerimeter(p, a+b)
		require.NoError(t, err)
		require.InDelta(t, float64(atOnceP), float64(twoP), 2)
		require.InDelta(t, float64(atOnceA), float64(twoA), 2000) // a nanometre of perimeter over a metre

		mitred, err := shape.MitredOffsetArea(area, p, a, 4)
		require.NoError(t, err)
		box, err := (w + 2*a).By(h + 2*a)
		require.NoError(t, err)
		require.InDelta(t, float64(box), float64(mitred), 4)
		require.GreaterOrEqual(t, mitred, oneA, "a mitre lies outside the round corner")
	})
}

func TestMitreSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 200).Draw(t, "n")
		angles := make([]unit.Angle, n)
		for i := range angles {
			angles[i] = unit.Turn / unit.Angle(n)
		}
		sum, err := shape.MitreSum(angles...)
		require.NoError(t, err)
		require.InEpsilon(t, float64(n)*math.Tan(math.Pi/float64(n)), float64(sum), 1e-12)
		require.Greater(t, float64(sum), math.Pi)
	})
	_, err := shape.MitreSum(90, 90, 90)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = shape.MitreSum(200, 80, 80)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = shape.MitreSum(unit.Angle(math.NaN()), 180, 180)
	require.ErrorIs(t, err, unit.ErrNotFinite)
}

func BenchmarkEllipsePerimeter(b *testing.B) {
	for b.Loop() {
		if _, err := shape.EllipsePerimeter(12*unit.Inch, 8*unit.Inch); err != nil {
			b.Fatal(err)
		}
	}
}
