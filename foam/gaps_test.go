package foam_test

import (
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
