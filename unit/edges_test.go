package unit_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/unit"
)

func TestDefinitions(t *testing.T) {
	assert.Equal(t, unit.Length(25_400_000), unit.Inch)
	assert.Equal(t, unit.Length(914_400_000), unit.Yard)
	assert.Equal(t, unit.Length(396_875), unit.Inch/64)
	assert.Zero(t, unit.Inch%64, "every 64th of an inch is exact")
	assert.Equal(t, unit.Inch/64, unit.LeatherOunce)
	assert.Equal(t, unit.Area(645_160_000), unit.SquareInch)
	assert.Equal(t, 1296*unit.SquareInch, unit.SquareYard)
	assert.Equal(t, unit.Volume(16_387_064), unit.CubicInch)
	assert.Equal(t, 46656*unit.CubicInch, unit.CubicYard)
	assert.Equal(t, 12*unit.BoardFoot, unit.CubicFoot)
	assert.Equal(t, unit.Mass(453_592_370), unit.Pound)
	assert.Equal(t, unit.Duration(3_600_000), unit.Hour)
}

func TestZeroValues(t *testing.T) {
	var l unit.Length
	assert.False(t, l.Forgotten())
	a, err := l.By(unit.Inch)
	require.NoError(t, err)
	assert.Zero(t, a)
	n, rest, err := l.Fits(unit.Inch)
	require.NoError(t, err)
	assert.Zero(t, n)
	assert.Zero(t, rest)
	var r unit.Rounding
	assert.Equal(t, unit.Nearest, r)
	var d unit.Denominator
	assert.Equal(t, 1, d.Parts())
	var m unit.Mass
	assert.Zero(t, m.Weight())
	_, err = m.Over(0)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = unit.SquareInch.Over(0, unit.Nearest)
	require.ErrorContains(t, err, "a width that is not zero")
	_, err = unit.Force(1).Over(0)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = unit.Inch.Per(0)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = unit.SquareInch.Per(0)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = unit.CubicInch.Per(0)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	_, err = unit.Pound.Per(0)
	require.ErrorIs(t, err, unit.ErrDivideByZero)
	var ld unit.LinearDensity
	for _, f := range []func() (float64, error){ld.MetricCount, ld.CottonCount, ld.YardsPerPound} {
		_, err = f()
		require.ErrorIs(t, err, unit.ErrRange)
	}
	_, err = ld.Length(unit.Gram)
	require.ErrorIs(t, err, unit.ErrRange)
	for _, f := range []func(float64) (unit.LinearDensity, error){unit.MetricCountOf, unit.CottonCountOf, unit.YardsPerPoundOf} {
		for _, x := range []float64{0, -1} {
			_, err = f(x)
			require.ErrorIs(t, err, unit.ErrRange)
		}
	}
	total, err := unit.SumLengths()
	require.NoError(t, err)
	assert.Zero(t, total)
}

func TestStepsMustBeAboveZero(t *testing.T) {
	for _, step := range []int64{0, -1, math.MinInt64} {
		_, err := unit.Inch.RoundTo(unit.Length(step), unit.Up)
		require.ErrorIs(t, err, unit.ErrRange)
		_, err = unit.SquareInch.RoundTo(unit.Area(step), unit.Up)
		require.ErrorIs(t, err, unit.ErrRange)
		_, err = unit.CubicInch.RoundTo(unit.Volume(step), unit.Up)
		require.ErrorIs(t, err, unit.ErrRange)
		_, err = unit.Pound.RoundTo(unit.Mass(step), unit.Up)
		require.ErrorIs(t, err, unit.ErrRange)
		_, err = unit.Hour.RoundTo(unit.Duration(step), unit.Up)
		require.ErrorIs(t, err, unit.ErrRange)
	}
}

func TestEdgesOfInt64(t *testing.T) {
	const least, most = unit.Length(math.MinInt64), unit.Length(math.MaxInt64)
	for _, op := range []func() (unit.Length, error){
		func() (unit.Length, error) { return most.Plus(1) },
		func() (unit.Length, error) { return least.Plus(-1) },
		func() (unit.Length, error) { return least.Plus(least) },
		func() (unit.Length, error) { return unit.Length(0).Minus(least) },
		func() (unit.Length, error) { return least.Minus(1) },
		func() (unit.Length, error) { return least.Times(-1) },
		func() (unit.Length, error) { return least.Times(math.MinInt) },
		func() (unit.Length, error) { return least.MulDiv(1, -1, unit.Nearest) },
		func() (unit.Length, error) { return least.Scale(-1, unit.Nearest) },
		// Products of 2^64 and more, whose lower 64 bits are small.
		func() (unit.Length, error) { return unit.Length(1<<40).Scale(1<<24*10, unit.Nearest) },
		func() (unit.Length, error) { return unit.Length(1<<58).Scale(1600, unit.Nearest) },
		func() (unit.Length, error) { return unit.Length(1).Scale(1e19, unit.Nearest) },
		func() (unit.Length, error) { return unit.Length(1).Scale(1e20, unit.Nearest) },
		func() (unit.Length, error) { return most.RoundTo(2, unit.Up) },
		func() (unit.Length, error) { return least.RoundTo(3, unit.Down) },
		func() (unit.Length, error) { return unit.SumLengths(most, 1, -1) },
		func() (unit.Length, error) { return unit.Area(math.MinInt64).Over(-1, unit.Up) },
	} {
		l, err := op()
		assert.ErrorIs(t, err, unit.ErrOverflow)
		assert.Zero(t, l)
	}
	l, err := unit.Length(-1).Minus(least)
	require.NoError(t, err)
	assert.Equal(t, most, l)
	l, err = most.RoundTo(most, unit.Up)
	require.NoError(t, err)
	assert.Equal(t, most, l)
	l, err = least.Times(1)
	require.NoError(t, err)
	assert.Equal(t, least, l)
	l, err = least.MulDiv(math.MinInt, math.MinInt, unit.Nearest)
	require.NoError(t, err)
	assert.Equal(t, least, l)
	r, err := least.Per(least)
	require.NoError(t, err)
	assert.InDelta(t, 1, float64(r), 0)
	r, err = most.Per(least)
	require.NoError(t, err)
	assert.InDelta(t, -1, float64(r), 0)
	_, err = least.By(least)
	require.ErrorIs(t, err, unit.ErrOverflow)
	_, err = unit.Area(math.MinInt64).Deep(least)
	require.ErrorIs(t, err, unit.ErrOverflow)
	_, err = unit.SumAreas(math.MaxInt64, 1)
	require.ErrorIs(t, err, unit.ErrOverflow)
	_, err = unit.SumVolumes(math.MaxInt64, 1)
	require.ErrorIs(t, err, unit.ErrOverflow)
	_, err = unit.SumMasses(math.MaxInt64, 1)
	require.ErrorIs(t, err, unit.ErrOverflow)
	_, err = unit.Duration(math.MaxInt64).Std()
	require.ErrorIs(t, err, unit.ErrOverflow)
	std, err := (90 * unit.Second).Std()
	require.NoError(t, err)
	assert.Equal(t, "1m30s", std.String())
}

func TestForgottenUnit(t *testing.T) {
	for l, want := range map[unit.Length]bool{0: false, 1: true, -1: true, 22: true, 9999: true, -9999: true, 10000: false, -10000: false,
		math.MaxInt64: false, math.MinInt64: false, unit.Mil: false} {
		assert.Equal(t, want, l.Forgotten(), "%d", l)
	}
	for n, want := range map[int64]bool{0: false, 1: true, -1: true, 67: true, 9999: true, -9999: true, 10000: false, -10000: false,
		math.MaxInt64: false, math.MinInt64: false} {
		assert.Equal(t, want, unit.Area(n).Forgotten(), "%d", n)
		assert.Equal(t, want, unit.Volume(n).Forgotten(), "%d", n)
	}
	for m, want := range map[unit.Mass]bool{0: false, 1: true, -80: true, 999: true, unit.Milligram: false, -unit.Milligram: false, math.MinInt64: false} {
		assert.Equal(t, want, m.Forgotten(), "%d", m)
	}
	for d, want := range map[unit.Duration]bool{0: false, 1: true, -480: true, 999: true, unit.Second: false, -unit.Second: false, math.MinInt64: false} {
		assert.Equal(t, want, d.Forgotten(), "%d", d)
	}
}

// Nothing hands out a NaN or an infinity, not even beside an error.
func TestNotFiniteIsRefused(t *testing.T) {
	refused := func(x float64, err error) {
		t.Helper()
		assert.ErrorIs(t, err, unit.ErrNotFinite)
		assert.Zero(t, x)
	}
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		l, err := unit.LengthOf(x, unit.Inch)
		refused(float64(l), err)
		l, err = unit.IronsOf(x)
		refused(float64(l), err)
		a, err := unit.AreaOf(x, unit.SquareInch)
		refused(float64(a), err)
		v, err := unit.VolumeOf(x, unit.CubicInch)
		refused(float64(v), err)
		m, err := unit.MassOf(x, unit.Pound)
		refused(float64(m), err)
		m, err = unit.OuncesOf(x)
		refused(float64(m), err)
		d, err := unit.DurationOf(x, unit.Hour)
		refused(float64(d), err)
		f, err := unit.ForceOf(x, unit.Newton)
		refused(float64(f), err)
		p, err := unit.PressureOf(x, unit.Pascal)
		refused(float64(p), err)
		rho, err := unit.DensityOf(x, unit.PoundPerCubicFoot)
		refused(float64(rho), err)
		ad, err := unit.AreaDensityOf(x, unit.GramPerSquareMetre)
		refused(float64(ad), err)
		an, err := unit.AngleOf(x, unit.Degree)
		refused(float64(an), err)
		for _, of := range []func(float64) (unit.LinearDensity, error){unit.MetricCountOf, unit.CottonCountOf, unit.YardsPerPoundOf} {
			ld, err := of(x)
			refused(float64(ld), err)
		}
		ld, err := unit.LinearDensityOf(x, unit.Tex)
		refused(float64(ld), err)
		m, err = unit.Density(x).Mass(unit.Litre)
		refused(float64(m), err)
		m, err = unit.AreaDensity(x).Mass(unit.SquareMetre)
		refused(float64(m), err)
		m, err = unit.LinearDensity(x).Mass(unit.Metre)
		refused(float64(m), err)
		l, err = unit.LinearDensity(x).Length(unit.Gram)
		refused(float64(l), err)
		p, err = unit.Force(x).Over(unit.SquareInch)
		refused(float64(p), err)
		f, err = unit.Pressure(x).On(unit.SquareInch)
		refused(float64(f), err)
	}
	f, err := unit.ForceOf(math.MaxFloat64, unit.Kilonewton)
	refused(float64(f), err)
	ld, err := unit.MetricCountOf(math.SmallestNonzeroFloat64)
	refused(float64(ld), err)
	p, err := unit.Force(math.MaxFloat64).Over(1)
	refused(float64(p), err)
	f, err = unit.Pressure(math.MaxFloat64).On(10 * unit.SquareMetre)
	refused(float64(f), err)
	count, err := unit.LinearDensity(math.SmallestNonzeroFloat64).MetricCount()
	refused(count, err)

	for _, op := range []func() error{
		func() error { _, err := unit.LengthOf(1e300, unit.Inch); return err },
		func() error { _, err := unit.MassOf(-1e300, unit.Pound); return err },
		func() error { _, err := unit.Density(1e300).Mass(unit.Litre); return err },
		func() error {
			_, err := unit.LinearDensity(math.SmallestNonzeroFloat64).Length(unit.Gram)
			return err
		},
	} {
		assert.ErrorIs(t, op(), unit.ErrOverflow)
	}
}
