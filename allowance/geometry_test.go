package allowance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
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
		p, err := allowance.EllipsePerimeter(a, b)
		require.NoError(t, err)
		require.InDelta(t, series(float64(a), float64(b)), float64(p), 1+1e-14*float64(p))

		turned, err := allowance.EllipsePerimeter(b, a)
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
		p, err := allowance.EllipsePerimeter(a, b)
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(p)+1, 4*math.Hypot(float64(a), float64(b)))
		require.LessOrEqual(t, p, 4*(a+b))
		r1, err := allowance.EllipsePerimeterRamanujan1(a, b)
		require.NoError(t, err)
		r2, err := allowance.EllipsePerimeterRamanujan2(a, b)
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
		p, err := allowance.EllipsePerimeter(r, r)
		require.NoError(t, err)
		c, err := allowance.CircleCircumference(2 * r)
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
		area, err := allowance.RoundedRectangleArea(l, w, r)
		require.NoError(t, err)
		stadium, err := allowance.StadiumArea(r, a)
		require.NoError(t, err)
		require.InDelta(t, float64(stadium), float64(area), 2)
		p, err := allowance.RoundedRectanglePerimeter(l, w, r)
		require.NoError(t, err)
		q, err := allowance.StadiumPerimeter(r, a)
		require.NoError(t, err)
		require.InDelta(t, float64(q), float64(p), 2)

		plain, err := allowance.RoundedRectangleArea(l, w, 0)
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
		area, err := allowance.TrapezoidArea(a, b, h)
		require.NoError(t, err)
		lo, err := min(a, b).By(h)
		require.NoError(t, err)
		hi, err := max(a, b).By(h)
		require.NoError(t, err)
		require.True(t, lo <= area+1 && area <= hi+1)
		side, err := allowance.TrapezoidSide(a, b, h)
		require.NoError(t, err)
		require.GreaterOrEqual(t, side, h)
		p, err := allowance.TrapezoidPerimeter(a, b, h)
		require.NoError(t, err)
		require.InDelta(t, float64(a+b+2*side), float64(p), 2)
	})
}

// area = perimeter × apothem / 2, and the circle lies between the two radii.
func TestRegularPolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 1000).Draw(t, "n")
		s := drawLength(unit.Centimetre, unit.Metre).Draw(t, "side")
		area, err := allowance.RegularPolygonArea(n, s)
		require.NoError(t, err)
		p, err := allowance.RegularPolygonPerimeter(n, s)
		require.NoError(t, err)
		in, err := allowance.RegularPolygonApothem(n, s)
		require.NoError(t, err)
		out, err := allowance.RegularPolygonCircumradius(n, s)
		require.NoError(t, err)
		require.InEpsilon(t, float64(p)*float64(in)/2e6, float64(area), 1e-6)
		require.Less(t, in, out)
		inner, err := allowance.CircleArea(2 * in)
		require.NoError(t, err)
		outer, err := allowance.CircleArea(2 * out)
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
		a, err := allowance.ArcFromChord(c, h)
		require.NoError(t, err)
		require.Greater(t, a.Length, c)
		require.GreaterOrEqual(t, a.Length+2, 2*h, "the arc climbs to the rise and back")
		// R² = (R - h)² + (c/2)²
		r, x := float64(a.Radius), float64(h)
		require.InEpsilon(t, math.Hypot(r-x, float64(c)/2), r, 1e-6)

		back, err := allowance.ArcFromLength(c, a.Length)
		require.NoError(t, err)
		// a nanometre of length moves a shallow rise by 3 c/(16 h) of it
		require.InDelta(t, float64(h), float64(back.Rise), 4+float64(c)/float64(h))
	})
}

func TestChordArcHalfCircle(t *testing.T) {
	a, err := allowance.ArcFromChord(20*unit.Inch, 10*unit.Inch)
	require.NoError(t, err)
	assert.Equal(t, 10*unit.Inch, a.Radius)
	assert.InDelta(t, 180, a.Angle.Degrees(), 1e-12)
	half, err := allowance.CircleArea(20 * unit.Inch)
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

		oneA, err := allowance.SteinerArea(area, p, a)
		require.NoError(t, err)
		oneP, err := allowance.SteinerPerimeter(p, a)
		require.NoError(t, err)
		twoA, err := allowance.SteinerArea(oneA, oneP, b)
		require.NoError(t, err)
		twoP, err := allowance.SteinerPerimeter(oneP, b)
		require.NoError(t, err)
		atOnceA, err := allowance.SteinerArea(area, p, a+b)
		require.NoError(t, err)
		atOnceP, err := allowance.SteinerPerimeter(p, a+b)
		require.NoError(t, err)
		require.InDelta(t, float64(atOnceP), float64(twoP), 2)
		require.InDelta(t, float64(atOnceA), float64(twoA), 2000) // a nanometre of perimeter over a metre

		mitred, err := allowance.MitredOffsetArea(area, p, a, 4)
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
		sum, err := allowance.MitreSum(angles...)
		require.NoError(t, err)
		require.InEpsilon(t, float64(n)*math.Tan(math.Pi/float64(n)), float64(sum), 1e-12)
		require.Greater(t, float64(sum), math.Pi)
	})
	_, err := allowance.MitreSum(90, 90, 90)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = allowance.MitreSum(200, 80, 80)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = allowance.MitreSum(unit.Angle(math.NaN()), 180, 180)
	require.ErrorIs(t, err, unit.ErrNotFinite)
}

// The band has the length of both edges and the area of the mean times the
// slant, and its flat pattern has them too.
func TestFrustumDevelops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := allowance.ConeFrustum{
			Large:  drawLength(unit.Centimetre, unit.Metre).Draw(t, "large"),
			Height: drawLength(unit.Centimetre, unit.Metre).Draw(t, "height"),
			Wrap:   unit.Angle(rapid.Float64Range(10, 360).Draw(t, "wrap")),
		}
		f.Small = drawLength(10*unit.Micrometre, f.Large*9/10).Draw(t, "small")
		if rapid.Bool().Draw(t, "full cone") {
			f.Small = 0
		}
		s, err := f.Develop()
		require.NoError(t, err)
		require.False(t, s.Straight)
		turn := s.Angle.Radians()
		require.InDelta(t, float64(s.OuterArc), turn*float64(s.Outer), 20)
		require.InDelta(t, float64(s.InnerArc), turn*float64(s.Inner), 20)
		require.InDelta(t, float64(s.Slant), float64(s.Outer-s.Inner), 2)
		require.InEpsilon(t, float64(s.OuterArc+s.InnerArc)/2*float64(s.Slant)/1e6, float64(s.Area), 1e-6)
		require.Less(t, s.Angle, 360*unit.Degree)
		require.LessOrEqual(t, s.OuterChord, s.BoxWidth+1)
		box, err := s.BoxWidth.By(s.BoxHeight)
		require.NoError(t, err)
		require.GreaterOrEqual(t, box+1000, s.Area)
	})
}

func TestFrustumOfEqualRadiiIsARectangle(t *testing.T) {
	s, err := allowance.ConeFrustum{Large: 10 * unit.Inch, Small: 10 * unit.Inch, Height: 4 * unit.Inch}.Develop()
	require.NoError(t, err)
	assert.True(t, s.Straight)
	assert.Equal(t, s.OuterArc, s.InnerArc)
	assert.Equal(t, 4*unit.Inch, s.Slant)
	box, err := s.BoxWidth.By(s.BoxHeight)
	require.NoError(t, err)
	assert.InDelta(t, float64(box), float64(s.Area), 1000)

	_, err = allowance.ConeFrustum{Large: 10 * unit.Inch, Small: 10*unit.Inch - 1, Height: 4 * unit.Inch}.Develop()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = allowance.ConeFrustum{Large: 10 * unit.Inch, Small: 11 * unit.Inch, Height: unit.Inch}.Develop()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = allowance.ConeFrustum{}.Develop()
	require.ErrorIs(t, err, unit.ErrRange)
}

// With no margins the cut band is the seam band.
func TestTubBandWithoutMargins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := allowance.ConeFrustum{
			Large:  drawLength(10*unit.Centimetre, unit.Metre).Draw(t, "large"),
			Height: drawLength(unit.Centimetre, unit.Metre).Draw(t, "height"),
		}
		f.Small = rapid.SampledFrom([]unit.Length{f.Large, f.Large / 2, f.Large / 3}).Draw(t, "small")
		raw := allowance.Edge{Finish: allowance.Raw}
		c, err := allowance.TubBand{Shape: f, Wide: raw, Narrow: raw, Ends: raw}.Cut()
		require.NoError(t, err)
		require.Equal(t, c.Seam.Slant, c.CutSlant)
		require.InEpsilon(t, float64(c.Seam.Area), float64(c.Area), 1e-7)

		more, err := allowance.TubBand{Shape: f, Narrow: raw}.Cut()
		require.NoError(t, err)
		require.Greater(t, more.Area, c.Area)
	})
}

func TestTubBandRefuses(t *testing.T) {
	cone := allowance.ConeFrustum{Large: 10 * unit.Inch, Height: 10 * unit.Inch}
	_, err := allowance.TubBand{Shape: cone}.Cut()
	require.ErrorContains(t, err, "narrow")
}

// The gores of the arc form make up the sphere, zone by zone; the chord form
// is smaller.
func TestGoresMakeTheSphere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := allowance.Dome{
			Radius: drawLength(unit.Centimetre, unit.Metre).Draw(t, "radius"),
			Gores:  rapid.IntRange(3, 60).Draw(t, "gores"),
			Rim:    unit.Angle(rapid.Float64Range(-90, 80).Draw(t, "rim")),
		}
		g, err := d.Gore()
		require.NoError(t, err)
		rise := 1 - math.Sin(d.Rim.Radians())
		surface, err := allowance.SphericalCapArea(d.Radius, unit.Length(float64(d.Radius)*rise))
		require.NoError(t, err)
		require.InEpsilon(t, float64(surface), float64(g.TotalArea), 1e-5)
		require.InDelta(t, float64(g.TotalArea), float64(g.Area)*float64(g.Count), float64(g.Count))

		// at every level the gores go once round
		for _, s := range g.Stations {
			round := 2 * math.Pi * float64(d.Radius) * math.Cos(s.Latitude.Radians())
			require.InDelta(t, round, 2*float64(s.HalfWidth)*float64(d.Gores), float64(d.Gores)+1)
		}

		chord := d
		chord.Form = allowance.ChordForm
		c, err := chord.Gore()
		require.NoError(t, err)
		require.Less(t, c.Area, g.Area)
		require.Equal(t, g.Length, c.Length)
	})
}

// The area inside a gore is that between its stations, by Simpson's rule.
func TestGoreStationsHoldTheArea(t *testing.T) {
	g, err := allowance.Dome{Radius: 9 * unit.Inch, Gores: 6, Intervals: 200}.Gore()
	require.NoError(t, err)
	step := float64(g.Length) / 200
	var sum float64
	for i, s := range g.Stations {
		w := 2 * float64(s.HalfWidth)
		switch {
		case i == 0 || i == 200:
			sum += w
		case i%2 == 1:
			sum += 4 * w
		default:
			sum += 2 * w
		}
	}
	assert.InEpsilon(t, sum*step/3/1e6, float64(g.Area), 1e-7)
}

func TestDomeRefuses(t *testing.T) {
	ok := allowance.Dome{Radius: 9 * unit.Inch, Gores: 6}
	for field, change := range map[string]func(*allowance.Dome){
		"radius":    func(d *allowance.Dome) { d.Radius = 0 },
		"gores":     func(d *allowance.Dome) { d.Gores = 2 },
		"rim":       func(d *allowance.Dome) { d.Rim = 90 },
		"form":      func(d *allowance.Dome) { d.Form = 5 },
		"intervals": func(d *allowance.Dome) { d.Intervals = 1 },
		"seam":      func(d *allowance.Dome) { d.Seam = allowance.Exactly(-1) },
	} {
		d := ok
		change(&d)
		_, err := d.Gore()
		var in *unit.InputError
		require.ErrorAs(t, err, &in, field)
		assert.Equal(t, field, string(in.Field))
	}
	_, err := ok.HalfWidth(91)
	require.ErrorIs(t, err, unit.ErrRange)
}

// The zero and the forgotten unit are refused by every shape.
func TestShapesRefuse(t *testing.T) {
	for _, l := range []unit.Length{0, 3, -unit.Inch, 2000 * unit.Metre} {
		for name, f := range map[string]func() error{
			"circle area":     func() error { _, err := allowance.CircleArea(l); return err },
			"circumference":   func() error { _, err := allowance.CircleCircumference(l); return err },
			"ellipse area":    func() error { _, err := allowance.EllipseArea(l, unit.Inch); return err },
			"ellipse":         func() error { _, err := allowance.EllipsePerimeter(unit.Inch, l); return err },
			"ramanujan 1":     func() error { _, err := allowance.EllipsePerimeterRamanujan1(unit.Inch, l); return err },
			"ramanujan 2":     func() error { _, err := allowance.EllipsePerimeterRamanujan2(l, unit.Inch); return err },
			"stadium":         func() error { _, err := allowance.StadiumArea(l, unit.Inch); return err },
			"rounded":         func() error { _, err := allowance.RoundedRectangleArea(l, unit.Inch, 0); return err },
			"trapezoid":       func() error { _, err := allowance.TrapezoidArea(unit.Inch, unit.Inch, l); return err },
			"polygon":         func() error { _, err := allowance.RegularPolygonArea(6, l); return err },
			"chord":           func() error { _, err := allowance.ArcFromChord(l, unit.Inch); return err },
			"rise":            func() error { _, err := allowance.ArcFromChord(unit.Inch, l); return err },
			"arc length":      func() error { _, err := allowance.ArcFromLength(unit.Inch, l); return err },
			"steiner":         func() error { _, err := allowance.SteinerPerimeter(l, unit.Inch); return err },
			"cap":             func() error { _, err := allowance.SphericalCapArea(l, unit.Inch); return err },
			"frustum":         func() error { _, err := allowance.ConeFrustum{Large: l, Height: unit.Inch}.Develop(); return err },
			"dome":            func() error { _, err := allowance.Dome{Radius: l, Gores: 6}.Gore(); return err },
			"bias":            func() error { _, err := allowance.LongestBias(l); return err },
			"channel":         func() error { _, err := allowance.ChannelCover(0, l, unit.Inch); return err },
			"channel ellipse": func() error { _, err := allowance.ChannelCover(1, unit.Inch, l); return err },
		} {
			var in *unit.InputError
			require.ErrorAs(t, f(), &in, "%s of %v", name, l)
			assert.NotEmpty(t, in.Field, name)
		}
	}
}

func BenchmarkEllipsePerimeter(b *testing.B) {
	for b.Loop() {
		if _, err := allowance.EllipsePerimeter(12*unit.Inch, 8*unit.Inch); err != nil {
			b.Fatal(err)
		}
	}
}
