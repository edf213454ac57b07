package foam_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
)

func only(x foam.IFD25) foam.Range[foam.IFD25] { return foam.Range[foam.IFD25]{Low: x, High: x} }

func lbfIFD(x float64) foam.IFD25 { return foam.IFD25(x * float64(unit.PoundForce)) }

// The firmness wanted takes the place of the usual one; the tolerance is that
// of an order unless another is given (JIFSG guideline: 3 lbf at 30 lbf, 10 %
// above).
func TestWantedFirmness(t *testing.T) {
	stock := []foam.Grade{
		{Name: "28", Density: 30, IFD25: lbfIFD(28)},
		{Name: "36", Density: 30, IFD25: lbfIFD(36)},
		{Name: "50", Density: 30, IFD25: lbfIFD(50)},
	}
	for _, c := range []struct {
		wanted foam.Wanted
		low    float64 // lbf
		high   float64
		first  string
		fits   bool
		usual  bool // within the figures of a 4 in seat, 25 to 40 lbf
	}{
		{foam.Wanted{IFD25: lbfIFD(30)}, 27, 33, "28", true, true},
		{foam.Wanted{IFD25: lbfIFD(35)}, 31.5, 38.5, "36", true, true},
		{foam.Wanted{IFD25: lbfIFD(42)}, 37.8, 46.2, "36", false, false},
		{foam.Wanted{IFD25: lbfIFD(42), Range: foam.Range[foam.IFD25]{lbfIFD(34), lbfIFD(50)}}, 34, 50, "36", true, false},
		{foam.Wanted{IFD25: lbfIFD(60)}, 54, 66, "50", false, false},
	} {
		t.Run(fmt.Sprint(c.wanted.IFD25), func(t *testing.T) {
			s, err := foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Wanted: c.wanted, Stock: stock})
			require.NoError(t, err)
			assert.Equal(t, c.wanted.IFD25, s.Target)
			assert.InDelta(t, c.low, s.Accepted.Range.Low.PoundsForce(), 1e-9)
			assert.InDelta(t, c.high, s.Accepted.Range.High.PoundsForce(), 1e-9)
			assert.Equal(t, c.first, s.Grades[0].Grade.Name)
			assert.Equal(t, c.fits, s.Grades[0].Fits)
			ordered := c.wanted.Range == foam.Range[foam.IFD25]{}
			assert.Equal(t, ordered, s.Accepted.Basis == s.Delivered.Basis, "the tolerance of an order, unless a range was given")
			kinds := map[foam.ReasonKind]bool{}
			for _, r := range s.Reasons {
				kinds[r.Kind] = true
			}
			assert.True(t, kinds[foam.FirmnessWanted])
			assert.Equal(t, !c.usual, kinds[foam.WantedIsUnusual])
			assert.Equal(t, !c.fits, kinds[foam.NoneFits])
			assert.Contains(t, s.Grades[0].Reasons, foam.Reason{Kind: foam.FirmnessOff, Firmness: only(s.Grades[0].Grade.IFD25), Wanted: only(c.wanted.IFD25)})
		})
	}
}

// genStock draws grades of one density that a 4 in seat takes.
func genStock(t *rapid.T) []foam.Grade {
	n := rapid.IntRange(1, 8).Draw(t, "grades")
	stock := make([]foam.Grade, n)
	for i := range stock {
		stock[i] = foam.Grade{Name: fmt.Sprint(i), Density: 30, IFD25: lbfIFD(rapid.Float64Range(8, 90).Draw(t, "ifd25"))}
	}
	return stock
}

func genWanted(t *rapid.T) foam.Wanted {
	w := foam.Wanted{IFD25: lbfIFD(rapid.Float64Range(8, 90).Draw(t, "wanted"))}
	if rapid.Bool().Draw(t, "with range") {
		w.Range = foam.Range[foam.IFD25]{
			Low:  w.IFD25 - lbfIFD(rapid.Float64Range(0, 7).Draw(t, "below")),
			High: w.IFD25 + lbfIFD(rapid.Float64Range(0, 7).Draw(t, "above")),
		}
	}
	return w
}

// The first grade is the nearest in firmness; a grade fits when it lies within
// what is accepted; and accepting more never makes a grade unfit.
func TestWantedLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch, Wanted: genWanted(t), Stock: genStock(t)}
		s, err := foam.Select(r)
		require.NoError(t, err)
		off := func(g foam.Grade) float64 { return math.Abs(float64(g.IFD25 - r.Wanted.IFD25)) }
		fits := map[string]bool{}
		for _, k := range s.Grades {
			fits[k.Grade.Name] = k.Fits
			assert.Equal(t, s.Accepted.Range.Has(k.Grade.IFD25), k.Fits)
			if k.Fits == s.Grades[0].Fits {
				assert.LessOrEqual(t, off(s.Grades[0].Grade), off(k.Grade)*(1+1e-6)+1e-6)
			}
		}
		r.Wanted.Range = foam.Range[foam.IFD25]{
			Low:  s.Accepted.Range.Low * foam.IFD25(rapid.Float64Range(0.5, 1).Draw(t, "lower")),
			High: s.Accepted.Range.High * foam.IFD25(rapid.Float64Range(1, 2).Draw(t, "higher")),
		}
		wider, err := foam.Select(r)
		require.NoError(t, err)
		for _, k := range wider.Grades {
			assert.True(t, k.Fits || !fits[k.Grade.Name], "accepting more keeps what fitted")
		}
	})
}

// Wanting exactly what is usual, within what is usual, changes no verdict.
func TestWantingTheUsual(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := foam.Request{
			Use: rapid.SampledFrom(foam.Uses()).Draw(t, "use"), Duty: rapid.SampledFrom(foam.Duties()).Draw(t, "duty"),
			Base: rapid.SampledFrom(foam.Bases()).Draw(t, "base"), Thickness: 4 * unit.Inch, Sitter: 80 * unit.Kilogram, Stock: genStock(t),
		}
		usual, err := foam.Select(r)
		require.NoError(t, err)
		r.Wanted = foam.Wanted{IFD25: usual.Target, Range: usual.IFD}
		wanted, err := foam.Select(r)
		require.NoError(t, err)
		for i, k := range wanted.Grades {
			assert.Equal(t, usual.Grades[i].Grade, k.Grade)
			assert.Equal(t, usual.Grades[i].Fits, k.Fits)
		}
	})
}

// Foam cut from a grade of the stock, tested on the bench, is found again.
func TestBenchTestFindsTheGrade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stock := foam.ExampleGrades()
		for i := range stock {
			stock[i].Density = 30
			stock[i].IFD65 = foam.IFD65(float64(stock[i].IFD25) * 2.2)
		}
		g := stock[rapid.IntRange(0, len(stock)-1).Draw(t, "grade")]
		test := foam.BenchTest{Disc: foam.PlateDiameter(), Thickness: 100 * unit.Millimetre, Support: 2.2,
			Weight: unit.Mass(rapid.IntRange(6, 43).Draw(t, "twentieths of IFD25")) * unit.Mass(g.IFD25.Force().KilogramsForce()/20*float64(unit.Kilogram))}
		c, _, err := g.Curve()
		require.NoError(t, err)
		e, err := c.Strain(test.Weight.Weight())
		require.NoError(t, err)
		test.Sink = unit.Length(float64(e) * float64(test.Thickness))
		found, err := foam.IdentifyIFD25(test)
		require.NoError(t, err)
		s, err := foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Board, Thickness: 4 * unit.Inch, Stock: stock,
			Wanted: foam.Wanted{IFD25: found.Value, Range: found.Range()}})
		require.NoError(t, err)
		assert.True(t, s.Grades[0].Fits)
		assert.InEpsilon(t, float64(g.IFD25), float64(s.Grades[0].Grade.IFD25), 1e-3)
	})
}
