package foam_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

// Where the test plate stands for IFD25 and IFD65.
const shallow, deep = 0.25, 0.65

// Generators of valid input, wider than any foam sold.

func genCurve(t *rapid.T, name string) foam.Curve {
	i := rapid.Float64Range(0.2, 900).Draw(t, name+" ifd25")
	s := rapid.Float64Range(1.0001, 6).Draw(t, name+" support")
	return foam.Curve{IFD25: foam.IFD25(i), IFD65: foam.IFD65(i * s)}
}

func genStack(t *rapid.T) foam.Stack {
	n := rapid.IntRange(1, 5).Draw(t, "layers")
	s := make(foam.Stack, n)
	for i := range s {
		s[i] = foam.Layer{
			Thickness: unit.Length(rapid.IntRange(1, 300).Draw(t, "thickness")) * unit.Millimetre,
			Curve:     genCurve(t, "layer"),
		}
	}
	return s
}

func genStrain(t *rapid.T, name string) unit.Ratio {
	return unit.Ratio(rapid.Float64Range(0, deep).Draw(t, name))
}

func TestCurveLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genCurve(t, "c")
		a, b := genStrain(t, "a"), genStrain(t, "b")
		if a > b {
			a, b = b, a
		}
		fa, err := c.Force(a)
		require.NoError(t, err)
		fb, err := c.Force(b)
		require.NoError(t, err)
		assert.LessOrEqual(t, fa, fb, "monotone")
		assert.GreaterOrEqual(t, float64(fa), 0.0)

		back, err := c.Strain(fa)
		require.NoError(t, err)
		// Where the curve is nearly flat a force tells the depth less sharply.
		assert.InDelta(t, float64(a), float64(back), 1e-11/math.Log(float64(c.IFD65/foam.IFD65(c.IFD25)))+1e-12, "inverse")

		f25, err := c.Force(shallow)
		require.NoError(t, err)
		assert.Equal(t, c.IFD25.Force(), f25, "through the first test point")
		f65, err := c.Force(deep)
		require.NoError(t, err)
		assert.Equal(t, c.IFD65.Force(), f65, "through the second")

		// Energy is positive and, force rising with depth, grows between the
		// rectangles below and above the curve.
		ea, err := c.Energy(a)
		require.NoError(t, err)
		eb, err := c.Energy(b)
		require.NoError(t, err)
		pa, err := c.Pressure(a)
		require.NoError(t, err)
		pb, err := c.Pressure(b)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, float64(ea), 0.0)
		if a > 1e-6 {
			assert.Positive(t, float64(ea))
		}
		slack := 1e-12*float64(eb) + 1e-9*float64(pb)
		assert.GreaterOrEqual(t, float64(eb-ea), float64(pa)*float64(b-a)-slack)
		assert.LessOrEqual(t, float64(eb-ea), float64(pb)*float64(b-a)+slack)
	})
}

func TestStackLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genStack(t)
		p := unit.Pressure(rapid.Float64Range(0, 60_000).Draw(t, "pressure"))
		got, err := s.Under(p)
		require.NoError(t, err)

		// The stack sinks by a share between those of its layers.
		lo, hi := unit.Ratio(1), unit.Ratio(0)
		var sink unit.Length
		for _, l := range got.Layers {
			lo, hi = min(lo, l.Strain), max(hi, l.Strain)
			sink += l.Sink
			assert.LessOrEqual(t, l.Strain, foam.DeepestStrain)
			assert.Equal(t, l.Strain == foam.DeepestStrain, l.Bottomed)
			assert.Positive(t, int64(l.Remaining))
		}
		assert.GreaterOrEqual(t, float64(got.Strain), float64(lo)-1e-12)
		assert.LessOrEqual(t, float64(got.Strain), float64(hi)+1e-12)
		assert.Equal(t, sink, got.Sink)
		assert.Equal(t, s.Thickness(), got.Sink+got.Remaining)

		// The order of the layers does not matter.
		turned := slices.Clone(s)
		slices.Reverse(turned)
		other, err := turned.Under(p)
		require.NoError(t, err)
		assert.Equal(t, got.Sink, other.Sink)

		// More load never sinks less.
		more, err := s.Under(p * 1.1)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, more.Sink, got.Sink)

		// A softer foam in one place never sinks less.
		soft := slices.Clone(s)
		soft[0].Curve.IFD25 *= 0.8
		soft[0].Curve.IFD65 *= 0.8
		deeper, err := soft.Under(p)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, deeper.Sink, got.Sink)
		assert.GreaterOrEqual(t, deeper.Layers[0].Strain, got.Layers[0].Strain)

		// A layer cut in two is the same cushion.
		cut := append(foam.Stack{{Thickness: s[0].Thickness / 4, Curve: s[0].Curve}, {Thickness: s[0].Thickness - s[0].Thickness/4, Curve: s[0].Curve}}, s[1:]...)
		same, err := cut.Under(p)
		require.NoError(t, err)
		assert.InDelta(t, float64(got.Strain), float64(same.Strain), 1e-12)

		// The numeric solution finds the load that makes this sink.
		if !got.Bottomed && !got.Sink.Forgotten() {
			again, err := s.AtSink(got.Sink)
			require.NoError(t, err)
			assert.InDelta(t, float64(got.Sink), float64(again.Sink), 5*float64(unit.Micrometre))
		}

		// The first to bottom is the one with the lowest force at 65 %.
		first, err := s.FirstBottoms()
		require.NoError(t, err)
		assert.Equal(t, p.Pascals()*foam.Plate.SquareMetres() >= first.Pascals()*foam.Plate.SquareMetres(), got.Bottomed)
	})
}

// The shared load found by Stack must be the state of least energy, found here
// with nothing but the energies of the layers: sink is handed from layer to
// layer as long as that saves energy.
func TestStackAgainstLeastEnergy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 4).Draw(t, "layers")
		s := make(foam.Stack, n)
		for i := range s {
			s[i] = foam.Layer{
				Thickness: unit.Length(rapid.IntRange(20, 100).Draw(t, "mm")) * unit.Millimetre,
				Curve: foam.Curve{
					IFD25: foam.IFD25(rapid.Float64Range(40, 300).Draw(t, "ifd25")),
				},
			}
			s[i].Curve.IFD65 = foam.IFD65(float64(s[i].Curve.IFD25) * rapid.Float64Range(1.6, 3.5).Draw(t, "support"))
		}
		strain := rapid.Float64Range(0.02, 0.45).Draw(t, "strain")
		sink := unit.Length(strain * float64(s.Thickness()))
		got, err := s.AtSink(sink)
		require.NoError(t, err)
		if got.Bottomed {
			t.Skip("the end of a curve has no energy beyond")
		}
		e := leastEnergy(t, s, strain)
		for i := range s {
			assert.InDelta(t, e[i], float64(got.Layers[i].Strain), 2e-4, "layer %d of %v at %v", i, s, strain)
		}
	})
}

func leastEnergy(t *rapid.T, s foam.Stack, strain float64) []float64 {
	energy := func(i int, e float64) float64 {
		w, err := s[i].Curve.Energy(unit.Ratio(e))
		require.NoError(t, err)
		return float64(w) * s[i].Thickness.Metres()
	}
	e := make([]float64, len(s))
	for i := range e {
		e[i] = strain
	}
	const golden = 0.6180339887498949
	for range 400 {
		moved := 0.0
		for i := range s {
			for j := i + 1; j < len(s); j++ {
				ti, tj := s[i].Thickness.Metres(), s[j].Thickness.Metres()
				// d is the sink taken from j and given to i.
				lo := math.Max(-e[i]*ti, -(deep-e[j])*tj)
				hi := math.Min((deep-e[i])*ti, e[j]*tj)
				cost := func(d float64) float64 {
					return energy(i, min(deep, max(0, e[i]+d/ti))) + energy(j, min(deep, max(0, e[j]-d/tj)))
				}
				a, b := lo, hi
				for range 60 {
					c, d := b-golden*(b-a), a+golden*(b-a)
					if cost(c) < cost(d) {
						b = d
					} else {
						a = c
					}
				}
				d := (a + b) / 2
				if cost(d) < cost(0) {
					e[i] = min(deep, max(0, e[i]+d/ti))
					e[j] = min(deep, max(0, e[j]-d/tj))
					moved = math.Max(moved, math.Abs(d))
				}
			}
		}
		if moved < 1e-10 {
			break
		}
	}
	return e
}

// Layers that all stay on the straight part follow the closed form exactly.
func TestStackClosedForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genStack(t)
		least := math.Inf(1)
		for _, l := range s {
			least = min(least, float64(l.Curve.IFD25))
		}
		f := least * rapid.Float64Range(0, 1).Draw(t, "load")
		p, err := unit.Force(f).Over(foam.Plate)
		require.NoError(t, err)
		got, err := s.Under(p)
		require.NoError(t, err)
		h, err := s.HarmonicIFD25()
		require.NoError(t, err)
		assert.InDelta(t, shallow*f/float64(h), float64(got.Strain), 1e-12)

		// Past the straight part the curves only soften or hold, or not: the
		// equivalent lies between the softest and the firmest layer either way.
		eq, err := s.EquivalentIFD25()
		require.NoError(t, err)
		lo, hi := math.Inf(1), 0.0
		for _, l := range s {
			lo, hi = min(lo, float64(l.Curve.IFD25)), max(hi, float64(l.Curve.IFD25))
		}
		assert.GreaterOrEqual(t, float64(eq), lo*(1-1e-9))
		assert.LessOrEqual(t, float64(eq), hi*(1+1e-9))
	})
}

func TestSittingLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := genStack(t)
		kg := rapid.IntRange(10, 240).Draw(t, "kg")
		got, err := foam.Sit(s, foam.Sitter{Mass: unit.Mass(kg) * unit.Kilogram})
		require.NoError(t, err)
		assert.LessOrEqual(t, got.Sink.Low, got.Sink.Value)
		assert.LessOrEqual(t, got.Sink.Value, got.Sink.High)
		assert.LessOrEqual(t, got.Remaining.Low, got.Remaining.Value)
		assert.LessOrEqual(t, got.Remaining.Value, got.Remaining.High)
		assert.Equal(t, s.Thickness(), got.Sink.Value+got.Remaining.Value)
		assert.Positive(t, int64(got.Remaining.Low))
		if got.Margin < 0.999 {
			assert.True(t, got.Pressed.Bottomed)
		}
		if got.Margin > 1.001 {
			assert.False(t, got.Pressed.Bottomed)
		}
		heavier, err := foam.Sit(s, foam.Sitter{Mass: unit.Mass(kg+10) * unit.Kilogram})
		require.NoError(t, err)
		assert.GreaterOrEqual(t, heavier.Sink.Value, got.Sink.Value)
		assert.Less(t, heavier.Margin, got.Margin)
		below, err := got.BelowCover(s.Thickness())
		require.NoError(t, err)
		assert.Equal(t, got.Sink.Value, below)
	})
}

func genLength(t *rapid.T, name string) unit.Length {
	return unit.Length(rapid.IntRange(1, 3000).Draw(t, name)) * unit.Millimetre
}

func TestShapeLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b, c := genLength(t, "a"), genLength(t, "b"), genLength(t, "c")
		part := func(l unit.Length, name string) unit.Length {
			return max(unit.Millimetre/10, unit.Length(rapid.Float64Range(0, 1).Draw(t, name)*float64(l)))
		}
		shapes := []foam.Shape{
			foam.Block{a, b, c},
			foam.Wedge{Length: a, Width: b, Front: c, Rear: part(c, "rear")},
			foam.Cylinder{Diameter: a, Length: b},
			foam.Rounded{Block: foam.Block{a, b, c}, Radius: part(min(a, b)/2, "radius"), Corners: rapid.IntRange(1, 4).Draw(t, "corners")},
			foam.Tee{Width: a, Stem: part(a, "stem"), Depth: b, Ear: part(b, "ear"), Thickness: c},
		}
		for _, s := range shapes {
			v, err := s.Volume()
			require.NoError(t, err)
			x, err := foam.SupplyOf(s, 30)
			require.NoError(t, err)
			assert.Positive(t, int64(v))
			assert.LessOrEqual(t, x.Finished, x.Bought, "%+v", s)
			assert.GreaterOrEqual(t, float64(x.Waste), 0.0)
			assert.Less(t, float64(x.Waste), 1.0)
		}
		block, err := shapes[0].Volume()
		require.NoError(t, err)
		for _, s := range []foam.Shape{foam.Wedge{Length: a, Width: b, Front: c, Rear: c}, foam.Tee{Width: a, Stem: a, Depth: b, Ear: b, Thickness: c}} {
			v, err := s.Volume()
			require.NoError(t, err)
			assert.InDelta(t, float64(block), float64(v), 2, "a wedge or T without its shape is a block: %+v", s)
		}
		// A wedge and its turned twin make the block they were sawn from.
		rear := part(c, "r")
		w, err := foam.Wedge{Length: a, Width: b, Front: c, Rear: rear}.Volume()
		require.NoError(t, err)
		both, err := foam.Block{a, b, c + rear}.Volume()
		require.NoError(t, err)
		assert.InDelta(t, float64(both), 2*float64(w), 3)
	})
}

func TestWeighingFindsTheDensity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := foam.Block{genLength(t, "l") + unit.Centimetre, genLength(t, "w") + unit.Centimetre, genLength(t, "t") + unit.Centimetre}
		d := unit.Density(rapid.Float64Range(8, 35).Draw(t, "density"))
		m, err := foam.MassOf(b, d)
		require.NoError(t, err)
		got, err := foam.WeighedDensity(foam.Weighing{Block: b, Mass: m, TapeError: unit.Millimetre, ScaleError: max(m/100, unit.Milligram)})
		require.NoError(t, err)
		assert.InEpsilon(t, float64(d), float64(got.Value), 1e-4)
		assert.Less(t, got.Low, got.Value)
		assert.Greater(t, got.High, got.Value)
	})
}

// A disc of known weight on known foam must give the foam back.
func TestBenchFindsTheFoam(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := foam.Curve{IFD25: foam.IFD25(rapid.Float64Range(50, 400).Draw(t, "ifd25"))}
		s := rapid.Float64Range(1.8, 3.5).Draw(t, "support")
		c.IFD65 = foam.IFD65(float64(c.IFD25) * s)
		strain := rapid.Float64Range(0.06, 0.64).Draw(t, "strain")
		f, err := c.Force(unit.Ratio(strain))
		require.NoError(t, err)
		disc := foam.PlateDiameter()
		b := foam.BenchTest{
			Disc: disc, Weight: unit.Mass(f.Newtons() / unit.StandardGravity * float64(unit.Kilogram)),
			Thickness: 100 * unit.Millimetre, Sink: unit.Length(strain * float64(100*unit.Millimetre)),
			SinkError: unit.Millimetre,
		}
		got, err := foam.IdentifyIFD25(b)
		require.NoError(t, err)
		assert.LessOrEqual(t, got.Low, c.IFD25, "the bars hold the truth whatever the support factor")
		assert.GreaterOrEqual(t, got.High, c.IFD25)
		b.Support = unit.Ratio(s)
		got, err = foam.IdentifyIFD25(b)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(c.IFD25), float64(got.Value), 1e-4)
		assert.Less(t, got.Low, got.Value)
		assert.Greater(t, got.High, got.Value)
	})
}

func TestHardnessEstimateIsNoConversion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		i := foam.IFD25(rapid.Float64Range(1, 1000).Draw(t, "ifd25"))
		h, err := foam.EstimateHardnessA(i)
		require.NoError(t, err)
		back, err := foam.EstimateIFD25(h.Value)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(i), float64(back.Value), 1e-12)
		assert.Less(t, back.Low, i)
		assert.Greater(t, back.High, i)
		// Whatever the support factor that is called good, the bars hold what the curve gives.
		support := rapid.Float64Range(1.8, 3.5).Draw(t, "support")
		f, err := foam.Curve{IFD25: i, IFD65: foam.IFD65(float64(i) * support)}.Force(0.40)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, float64(f)*(1+1e-12), float64(h.Low))
		assert.LessOrEqual(t, float64(f)*(1-1e-12), float64(h.High))
	})
}

// Squeezing foam neither makes nor loses any.
func TestFillKeepsTheMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cut := foam.Block{genLength(t, "l") + unit.Centimetre, genLength(t, "w") + unit.Centimetre, genLength(t, "t") + unit.Centimetre}
		shrink := func(l unit.Length, name string) unit.Length {
			return unit.Length(float64(l) * rapid.Float64Range(0.4, 1.3).Draw(t, name))
		}
		f := foam.Fill{Cut: cut, Cover: foam.Block{shrink(cut.Length, "cl"), shrink(cut.Width, "cw"), shrink(cut.Thickness, "ct")},
			Curve: genCurve(t, "c"), Density: 30}
		got, err := foam.FillCover(f)
		require.NoError(t, err)
		held := foam.Block{min(cut.Length, f.Cover.Length), min(cut.Width, f.Cover.Width), min(cut.Thickness, f.Cover.Thickness)}
		hv, err := held.Volume()
		require.NoError(t, err)
		before, err := foam.MassOf(cut, f.Density)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(before), float64(got.Density)*hv.CubicMetres()*float64(unit.Kilogram), 1e-6)
		assert.Equal(t, got.Strain > 0, got.Pressure > 0)
		assert.Equal(t, got.Strain > 0, got.Loose.Thickness == 0 && cut.Thickness > f.Cover.Thickness)
	})
}

// The bars of a sitting are what it comes to on foam 10 % firmer under 70 % of
// the weight spread over 41 cm, and on foam 10 % softer under 80 % over 30 cm.
func TestSittingBarsAreSittings(t *testing.T) {
	kg := unit.Kilogram
	for _, s := range []foam.Stack{
		{{Thickness: 4 * unit.Inch, Curve: foam.Curve{IFD25: lbfIFD(35), IFD65: foam.IFD65(lbfIFD(80))}}},
		{{Thickness: 1 * unit.Inch, Curve: foam.Curve{IFD25: lbfIFD(20), IFD65: foam.IFD65(lbfIFD(60))}},
			{Thickness: 5 * unit.Inch, Curve: foam.Curve{IFD25: lbfIFD(50), IFD65: foam.IFD65(lbfIFD(120))}}},
	} {
		got, err := foam.Sit(s, foam.Sitter{Mass: 60 * kg})
		require.NoError(t, err)
		of := func(firmer float64, share unit.Ratio, disc unit.Length) foam.Sitting {
			other := slices.Clone(s)
			for i := range other {
				other[i].Curve.IFD25 *= foam.IFD25(firmer)
				other[i].Curve.IFD65 *= foam.IFD65(firmer)
			}
			sat, err := foam.Sit(other, foam.Sitter{Mass: 60 * kg, Share: share, Disc: disc})
			require.NoError(t, err)
			return sat
		}
		least, most := of(1.1, 0.7, 410*unit.Millimetre), of(0.9, 0.8, 300*unit.Millimetre)
		assert.InDelta(t, float64(least.Sink.Value), float64(got.Sink.Low), 2)
		assert.InDelta(t, float64(most.Sink.Value), float64(got.Sink.High), 2)
		assert.InDelta(t, float64(least.Remaining.Value), float64(got.Remaining.High), 2)
		assert.InDelta(t, float64(most.Remaining.Value), float64(got.Remaining.Low), 2)
		assert.False(t, most.BottomsOut(), "past the end of the curve firmness tells nothing")
	}
}
