package made_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// The band has the length of both edges and the area of the mean times the
// slant, and its flat pattern has them too.
func TestFrustumDevelops(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := made.ConeFrustum{
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
	s, err := made.ConeFrustum{Large: 10 * unit.Inch, Small: 10 * unit.Inch, Height: 4 * unit.Inch}.Develop()
	require.NoError(t, err)
	assert.True(t, s.Straight)
	assert.Equal(t, s.OuterArc, s.InnerArc)
	assert.Equal(t, 4*unit.Inch, s.Slant)
	box, err := s.BoxWidth.By(s.BoxHeight)
	require.NoError(t, err)
	assert.InDelta(t, float64(box), float64(s.Area), 1000)

	_, err = made.ConeFrustum{Large: 10 * unit.Inch, Small: 10*unit.Inch - 1, Height: 4 * unit.Inch}.Develop()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = made.ConeFrustum{Large: 10 * unit.Inch, Small: 11 * unit.Inch, Height: unit.Inch}.Develop()
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = made.ConeFrustum{}.Develop()
	require.ErrorIs(t, err, unit.ErrRange)
}

// With no margins the cut band is the seam band.
func TestTubBandWithoutMargins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := made.ConeFrustum{
			Large:  drawLength(10*unit.Centimetre, unit.Metre).Draw(t, "large"),
			Height: drawLength(unit.Centimetre, unit.Metre).Draw(t, "height"),
		}
		f.Small = rapid.SampledFrom([]unit.Length{f.Large, f.Large / 2, f.Large / 3}).Draw(t, "small")
		raw := allowance.Edge{Finish: allowance.Raw}
		c, err := made.TubBand{Shape: f, Wide: raw, Narrow: raw, Ends: raw}.Cut()
		require.NoError(t, err)
		require.Equal(t, c.Seam.Slant, c.CutSlant)
		require.InEpsilon(t, float64(c.Seam.Area), float64(c.Area), 1e-7)

		more, err := made.TubBand{Shape: f, Narrow: raw}.Cut()
		require.NoError(t, err)
		require.Greater(t, more.Area, c.Area)
	})
}

func TestTubBandRefuses(t *testing.T) {
	cone := made.ConeFrustum{Large: 10 * unit.Inch, Height: 10 * unit.Inch}
	_, err := made.TubBand{Shape: cone}.Cut()
	require.ErrorContains(t, err, "narrow")
}

// The gores of the arc form make up the sphere, zone by zone; the chord form
// is smaller.
func TestGoresMakeTheSphere(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := made.Dome{
			Radius: drawLength(unit.Centimetre, unit.Metre).Draw(t, "radius"),
			Gores:  rapid.IntRange(3, 60).Draw(t, "gores"),
			Rim:    unit.Angle(rapid.Float64Range(-90, 80).Draw(t, "rim")),
		}
		g, err := d.Gore()
		require.NoError(t, err)
		rise := 1 - math.Sin(d.Rim.Radians())
		surface, err := shape.SphericalCapArea(d.Radius, unit.Length(float64(d.Radius)*rise))
		require.NoError(t, err)
		require.InEpsilon(t, float64(surface), float64(g.TotalArea), 1e-5)
		require.InDelta(t, float64(g.TotalArea), float64(g.Area)*float64(g.Count), float64(g.Count))

		// at every level the gores go once round
		for _, s := range g.Stations {
			round := 2 * math.Pi * float64(d.Radius) * math.Cos(s.Latitude.Radians())
			require.InDelta(t, round, 2*float64(s.HalfWidth)*float64(d.Gores), float64(d.Gores)+1)
		}

		chord := d
		chord.Form = made.ChordForm
		c, err := chord.Gore()
		require.NoError(t, err)
		require.Less(t, c.Area, g.Area)
		require.Equal(t, g.Length, c.Length)
	})
}

// The area inside a gore is that between its stations, by Simpson's rule.
func TestGoreStationsHoldTheArea(t *testing.T) {
	g, err := made.Dome{Radius: 9 * unit.Inch, Gores: 6, Intervals: 200}.Gore()
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
	ok := made.Dome{Radius: 9 * unit.Inch, Gores: 6}
	for field, change := range map[string]func(*made.Dome){
		"radius":    func(d *made.Dome) { d.Radius = 0 },
		"gores":     func(d *made.Dome) { d.Gores = 2 },
		"rim":       func(d *made.Dome) { d.Rim = 90 },
		"form":      func(d *made.Dome) { d.Form = 5 },
		"intervals": func(d *made.Dome) { d.Intervals = 1 },
		"seam":      func(d *made.Dome) { d.Seam = allowance.Exactly(-1) },
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
			"circle area":     func() error { _, err := shape.CircleArea(l); return err },
			"circumference":   func() error { _, err := shape.CircleCircumference(l); return err },
			"ellipse area":    func() error { _, err := shape.EllipseArea(l, unit.Inch); return err },
			"ellipse":         func() error { _, err := shape.EllipsePerimeter(unit.Inch, l); return err },
			"ramanujan 1":     func() error { _, err := shape.EllipsePerimeterRamanujan1(unit.Inch, l); return err },
			"ramanujan 2":     func() error { _, err := shape.EllipsePerimeterRamanujan2(l, unit.Inch); return err },
			"stadium":         func() error { _, err := shape.StadiumArea(l, unit.Inch); return err },
			"rounded":         func() error { _, err := shape.RoundedRectangleArea(l, unit.Inch, 0); return err },
			"trapezoid":       func() error { _, err := shape.TrapezoidArea(unit.Inch, unit.Inch, l); return err },
			"polygon":         func() error { _, err := shape.RegularPolygonArea(6, l); return err },
			"chord":           func() error { _, err := shape.ArcFromChord(l, unit.Inch); return err },
			"rise":            func() error { _, err := shape.ArcFromChord(unit.Inch, l); return err },
			"arc length":      func() error { _, err := shape.ArcFromLength(unit.Inch, l); return err },
			"steiner":         func() error { _, err := shape.SteinerPerimeter(l, unit.Inch); return err },
			"cap":             func() error { _, err := shape.SphericalCapArea(l, unit.Inch); return err },
			"frustum":         func() error { _, err := made.ConeFrustum{Large: l, Height: unit.Inch}.Develop(); return err },
			"dome":            func() error { _, err := made.Dome{Radius: l, Gores: 6}.Gore(); return err },
			"bias":            func() error { _, err := made.LongestBias(l); return err },
			"channel":         func() error { _, err := made.ChannelCover(0, l, unit.Inch); return err },
			"channel ellipse": func() error { _, err := made.ChannelCover(1, unit.Inch, l); return err },
		} {
			var in *unit.InputError
			require.ErrorAs(t, f(), &in, "%s of %v", name, l)
			assert.NotEmpty(t, in.Field, name)
		}
	}
}
