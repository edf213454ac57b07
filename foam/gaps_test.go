package foam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/foam"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Foam that is weighed and taped without an error is known exactly, with either
// error it is an estimate.
func TestWeighedWithoutAnErrorIsExact(t *testing.T) {
	w := foam.Weighing{Block: foam.Block{Length: 20 * unit.Inch, Width: 20 * unit.Inch, Thickness: 4 * unit.Inch}, Mass: 2 * unit.Pound}
	kind := func(tape unit.Length, scale unit.Mass) cite.Kind {
		w.TapeError, w.ScaleError = tape, scale
		d, err := foam.WeighedDensity(w)
		require.NoError(t, err)
		return d.Kind
	}
	assert.Equal(t, cite.Exact, kind(0, 0))
	assert.Equal(t, cite.Estimate, kind(unit.Millimetre, 0))
	assert.Equal(t, cite.Estimate, kind(0, unit.Gram))
}

// A bench test counts from 5 % of the thickness on, a thickness is that of the test
// within a quarter of an inch.
func TestBordersOfFoam(t *testing.T) {
	_, err := foam.IdentifyIFD25(bench(5 * unit.Millimetre))
	assert.NoError(t, err)
	_, err = foam.IdentifyIFD25(bench(5*unit.Millimetre - 1))
	assert.ErrorIs(t, err, unit.ErrRange)
	quarter := unit.Inch / 4
	for thick, note := range map[unit.Length]bool{
		4 * unit.Inch: false, 4*unit.Inch + quarter: false, 4*unit.Inch - quarter: false, 4*unit.Inch + quarter + 1: true, 4*unit.Inch - quarter - 1: true,
	} {
		_, got := foam.ThicknessNote(thick)
		assert.Equal(t, note, got, thick)
	}
}

// The load of a sitter is the share of the weight, three quarters where none is given.
func TestLoadIsTheShareOfTheWeight(t *testing.T) {
	s := foam.Stack{{Thickness: 4 * unit.Inch, Curve: foam.Curve{IFD25: lbfIFD(35), IFD65: foam.IFD65(lbfIFD(80))}}}
	for share, want := range map[unit.Ratio]float64{0: 0.75, 0.6: 0.6, 1: 1} {
		got, err := foam.Sit(s, foam.Sitter{Mass: 60 * unit.Kilogram, Share: share})
		require.NoError(t, err)
		assert.InEpsilon(t, want*60*9.80665, float64(got.Load), 1e-12)
	}
}

// The area under the pressure curve, by the integral: e²/(2·0.25) up to a
// quarter, then 0.125 and a straight line for a flat curve, or with S = e to the
// power of 0.4 the integral of the exponential, S^x less 1.
func TestEnergyIsTheAreaUnderTheCurve(t *testing.T) {
	p25, err := foam.IFD25(100).Force().Over(foam.Plate)
	require.NoError(t, err)
	for _, c := range []struct {
		support, strain, area float64
	}{
		{1, 0.25, 0.125}, {1, 0.5, 0.375}, {1, 0.65, 0.525}, {2, 0.1, 0.02}, {2, 0.25, 0.125},
		{math.Exp(0.4), 0.5, 0.125 + math.Expm1(0.25)}, {math.Exp(0.4), 0.65, 0.125 + math.Expm1(0.4)},
	} {
		got, err := foam.Curve{IFD25: 100, IFD65: foam.IFD65(100 * c.support)}.Energy(unit.Ratio(c.strain))
		require.NoError(t, err)
		assert.InEpsilon(t, c.area*float64(p25), float64(got), 1e-12, c)
	}
}

// A flat curve says how far less than its force presses in.
func TestFlatCurveBelowItsForce(t *testing.T) {
	e, err := foam.Curve{IFD25: 100, IFD65: 100}.Strain(50)
	require.NoError(t, err)
	assert.InDelta(t, 0.125, float64(e), 1e-12)
}

// What is left of each layer and what it sinks are the layer, and the cushion is
// the sum of its layers.
func TestLayersAddUp(t *testing.T) {
	s := foam.Stack{
		{Thickness: unit.Inch, Curve: foam.Curve{IFD25: lbfIFD(15), IFD65: foam.IFD65(lbfIFD(30))}},
		{Thickness: 4 * unit.Inch, Curve: foam.Curve{IFD25: lbfIFD(35), IFD65: foam.IFD65(lbfIFD(80))}},
	}
	p, err := s.Under(4 * unit.Kilopascal)
	require.NoError(t, err)
	var sink, left unit.Length
	for i, l := range p.Layers {
		assert.Positive(t, l.Sink)
		assert.Equal(t, s[i].Thickness, l.Sink+l.Remaining)
		sink, left = sink+l.Sink, left+l.Remaining
	}
	assert.Equal(t, sink, p.Sink)
	assert.Equal(t, left, p.Remaining)
}

// At the very end of its curve a cushion does not bottom out yet.
func TestMarginOfOneIsEnough(t *testing.T) {
	assert.False(t, foam.Sitting{Margin: 1}.BottomsOut())
	assert.True(t, foam.Sitting{Margin: 0.999}.BottomsOut())
}

// A seat of 3 in lies half way between the figures for 2 in and for 4 in.
func TestSeatBetweenThicknessesIsBetween(t *testing.T) {
	at := func(l unit.Length) foam.Range[foam.IFD25] {
		s, err := foam.Select(foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: l})
		require.NoError(t, err)
		return s.IFD
	}
	thin, mid, thick := at(2*unit.Inch), at(3*unit.Inch), at(4*unit.Inch)
	assert.NotEqual(t, thin, thick)
	assert.InEpsilon(t, float64(thin.Low+thick.Low)/2, float64(mid.Low), 1e-12)
	assert.InEpsilon(t, float64(thin.High+thick.High)/2, float64(mid.High), 1e-12)
}

// Of grades equally firm the one whose density is nearer to what is asked comes
// first, whether it is too heavy or too light, and its support factor is the one
// of its own two figures.
func TestRankByDensity(t *testing.T) {
	r := foam.Request{Use: foam.Seat, Duty: foam.NormalDuty, Base: foam.Webbing, Thickness: 4 * unit.Inch}
	s, err := foam.Select(r)
	require.NoError(t, err)
	grade := func(name string, d unit.Density) foam.Grade {
		return foam.Grade{Name: name, Density: d, IFD25: s.Target, IFD65: foam.IFD65(4 * float64(s.Target))}
	}
	r.Stock = []foam.Grade{
		grade("half more", 1.5*s.Density.High), grade("lightest", 0.8*s.Density.Low), grade("a tenth more", 1.1*s.Density.High),
		grade("light", 0.95*s.Density.Low), grade("right", s.Density.Middle()),
	}
	s, err = foam.Select(r)
	require.NoError(t, err)
	var order []string
	for _, g := range s.Grades {
		order = append(order, g.Grade.Name)
		kinds := map[foam.ReasonKind]unit.Ratio{}
		for _, why := range g.Reasons {
			kinds[why.Kind] = why.Ratio
		}
		assert.InDelta(t, 4, float64(kinds[foam.SupportOutside]), 1e-12, g.Grade.Name)
		assert.NotContains(t, kinds, foam.SupportUnknown)
	}
	assert.Equal(t, []string{"right", "a tenth more", "half more", "light", "lightest"}, order, "too light does not fit")
	// Shares of density and firmness weigh the same.
	softer := func(g foam.Grade) foam.Grade {
		g.IFD25 *= 0.9
		return g
	}
	r.Stock = []foam.Grade{
		softer(grade("a twentieth more, a tenth softer", 1.05*s.Density.High)), grade("a tenth more", 1.1*s.Density.High),
		softer(grade("a tenth lighter and softer", 0.9*s.Density.Low)), grade("0.15 lighter", 0.85*s.Density.Low),
	}
	s, err = foam.Select(r)
	require.NoError(t, err)
	for i, name := range []string{"a tenth more", "a twentieth more, a tenth softer", "0.15 lighter", "a tenth lighter and softer"} {
		assert.Equal(t, name, s.Grades[i].Grade.Name)
	}
	_, assumed, err := foam.Grade{}.Curve()
	require.Error(t, err)
	assert.False(t, assumed)
}

// A cover larger than its foam is loose by the difference in each direction, and
// the foam keeps its density; one that is 1 in smaller each way packs it by the
// quotient of the volumes.
func TestFillByHand(t *testing.T) {
	const in = unit.Inch
	cut := foam.Block{Length: 24 * in, Width: 22 * in, Thickness: 4 * in}
	f, err := foam.FillCover(foam.Fill{Cut: cut, Cover: foam.Block{Length: 25 * in, Width: 24 * in, Thickness: 7 * in}, Curve: seat, Density: 30})
	require.NoError(t, err)
	assert.Equal(t, foam.Block{Length: in, Width: 2 * in, Thickness: 3 * in}, f.Loose)
	assert.InEpsilon(t, 30, float64(f.Density), 1e-9)
	f, err = foam.FillCover(foam.Fill{Cut: cut, Cover: foam.Block{Length: 23 * in, Width: 21 * in, Thickness: 3 * in}, Curve: seat, Density: 30})
	require.NoError(t, err)
	assert.Equal(t, foam.Block{}, f.Loose)
	assert.InEpsilon(t, 30*24*22*4./(23*21*3), float64(f.Density), 1e-9)
	assert.InDelta(t, 0.25, float64(f.Strain), 1e-12)
}

// The layer that bottoms out is named by its number, and a cushion of the
// thickness of the test has no caution of its thickness, however far it is pressed.
func TestNotesOfASitting(t *testing.T) {
	soft := foam.Curve{IFD25: lbfIFD(8), IFD65: foam.IFD65(lbfIFD(16))}
	firm := foam.Curve{IFD25: lbfIFD(60), IFD65: foam.IFD65(lbfIFD(150))}
	notes := func(s foam.Stack) map[foam.ReasonKind]int {
		x, err := foam.Sit(s, foam.Sitter{Mass: 100 * unit.Kilogram})
		require.NoError(t, err)
		out := map[foam.ReasonKind]int{}
		for _, n := range x.Notes {
			out[n.Kind] = n.Count
		}
		return out
	}
	got := notes(foam.Stack{{Thickness: 2 * unit.Inch, Curve: firm}, {Thickness: 2 * unit.Inch, Curve: soft}})
	assert.Equal(t, 2, got[foam.LayerBottomsOut])
	assert.NotContains(t, got, foam.ThinnerThanTest)
	assert.NotContains(t, got, foam.ThickerThanTest)
	assert.Contains(t, notes(foam.Stack{{Thickness: 6 * unit.Inch, Curve: firm}}), foam.ThickerThanTest)
	assert.Contains(t, notes(foam.Stack{{Thickness: 3 * unit.Inch, Curve: firm}}), foam.ThinnerThanTest)
}

// A family of foam is of letters, the first and the last of them too.
func TestLettersOfAFamily(t *testing.T) {
	for _, c := range "aAzZ" {
		g, err := foam.ParseGradeCode(foam.EuropeanBedding, string(c)+"2535")
		require.NoError(t, err)
		assert.Len(t, g.Family, 1)
	}
	for _, c := range "@[`{" {
		_, err := foam.ParseGradeCode(foam.EuropeanBedding, string(c)+"2535")
		require.ErrorIs(t, err, unit.ErrSyntax, string(c))
	}
	_, err := foam.DrawCurves(make([]foam.NamedCurve, 100)...)
	require.ErrorContains(t, err, "curves")
	require.ErrorIs(t, err, unit.ErrRange)
}
