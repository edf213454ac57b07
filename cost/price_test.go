package cost_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/cost"
	"github.com/coverwright/coverwright/internal/dev/nocompile"
	"github.com/coverwright/coverwright/unit"
)

func roundTrip[Q cost.Quantity](t *testing.T, in, want string) {
	t.Helper()
	p, err := cost.ParsePrice[Q](in)
	require.NoError(t, err, in)
	require.Equal(t, want, p.String())
	text, err := json.Marshal(p)
	require.NoError(t, err)
	var back cost.Price[Q]
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, p, back)
}

func TestPriceText(t *testing.T) {
	t.Parallel()
	roundTrip[unit.Length](t, "42 USD/yd", "42.00 USD/yd")
	roundTrip[unit.Length](t, "42.00 USD / 1 yard", "42.00 USD/yd")
	roundTrip[unit.Length](t, "38.50 EUR/m", "38.50 EUR/m")
	roundTrip[unit.Length](t, "12.925 USD/ft", "12.925 USD/ft")
	roundTrip[unit.Length](t, "9 USD/1.5 yd", "9.00 USD/54 in")
	roundTrip[unit.Area](t, "9.80 USD/sq ft", "9.80 USD/sq ft")
	roundTrip[unit.Area](t, "1.05 EUR/dm2", "1.05 EUR/dm2")
	roundTrip[unit.Area](t, "105 EUR/m2", "105.00 EUR/m2")
	roundTrip[unit.Volume](t, "5.40 USD/bd ft", "5.40 USD/bd ft")
	roundTrip[unit.Volume](t, "0.29 EUR/l", "0.29 EUR/l")
	roundTrip[unit.Mass](t, "18 USD/lb", "18.00 USD/lb")
	roundTrip[unit.Mass](t, "18 USD/5 lb", "18.00 USD/5 lb")
	roundTrip[unit.Duration](t, "64.55 USD/h", "64.55 USD/h")
	roundTrip[cost.Pieces](t, "3.20 USD/piece", "3.20 USD/piece")
	roundTrip[cost.Pieces](t, "25 USD/1000 pcs", "25.00 USD/1000 pieces")
	roundTrip[cost.Pieces](t, "0 USD/each", "0.00 USD/piece")
}

func TestPriceRefused(t *testing.T) {
	t.Parallel()
	for _, tc := range []struct {
		in  string
		err error
	}{
		{"", unit.ErrSyntax}, {"42.00 USD", unit.ErrSyntax}, {"42.00/yd", unit.ErrSyntax}, {"42.00 USD/", unit.ErrMissingUnit},
		{"42.00 USD/sq ft", unit.ErrUnknownUnit}, {"42.00 USD/0 yd", unit.ErrRange}, {"-1 USD/yd", unit.ErrRange},
		{"42,00 USD/yd", unit.ErrDecimalComma}, {"42.00 USD/-1 yd", unit.ErrSyntax}, {"42.00 QQQ/yd", unit.ErrUnknown},
		{"42.00 USD/5 nm", unit.ErrForgottenUnit},
	} {
		_, err := cost.ParsePrice[unit.Length](tc.in)
		require.Error(t, err, tc.in)
		if tc.in != "42.00 USD/-1 yd" && tc.in != "42.00 USD/" {
			require.ErrorIs(t, err, tc.err, tc.in)
		}
		var in *unit.InputError
		require.ErrorAs(t, err, &in, tc.in)
	}
	for _, s := range []string{"1.5 pieces", "-1 piece", "6 yards", "x", "99999999999999999999"} {
		var p cost.Pieces
		require.Error(t, p.UnmarshalText([]byte(s)), s)
	}
	_, err := cost.Per(cost.Money{}, unit.Yard)
	require.ErrorIs(t, err, cost.ErrNoCurrency)
	var zero cost.LengthPrice
	_, err = zero.Of(unit.Yard, cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrRequired)
	require.Equal(t, "no price", zero.String())
	p := price[unit.Length](t, "42.00 USD/yd")
	_, err = p.Of(-unit.Yard, cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrRange)
	_, err = p.Of(3, cost.HalfUp)
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	_, err = cost.Per(p.Amount(), unit.Mass(5))
	require.ErrorIs(t, err, unit.ErrForgottenUnit)
	for _, err := range []error{
		ofBare[unit.Area](t, "4.20 USD/sq ft", 67), ofBare[unit.Volume](t, "3.00 USD/bd ft", 16),
		ofBare[unit.Mass](t, "9.00 USD/lb", 3), ofBare[unit.Duration](t, "60.00 USD/h", 8),
	} {
		require.ErrorIs(t, err, unit.ErrForgottenUnit)
	}
	_, err = p.Of(unit.Yard, 99)
	require.ErrorIs(t, err, cost.ErrMode)
}

// ofBare prices a quantity whose unit was forgotten.
func ofBare[Q cost.Quantity](t *testing.T, text string, q Q) error {
	t.Helper()
	_, err := price[Q](t, text).Of(q, cost.HalfUp)
	return err
}

// A price is multiplied before it is divided: no third of a cent is lost.
func TestPriceIsExact(t *testing.T) {
	t.Parallel()
	p := price[unit.Length](t, "10.00 USD/yd")
	third := unit.Yard / 3 // a foot, exactly
	for _, tc := range []struct {
		l    unit.Length
		want string
	}{{third, "3.33 USD"}, {3 * third, "10.00 USD"}, {unit.Metre, "10.94 USD"}, {9144 * unit.Metre, "100000.00 USD"}, {0, "0.00 USD"}} {
		m, err := p.Of(tc.l, cost.HalfUp)
		require.NoError(t, err)
		require.Equal(t, tc.want, m.String())
	}
}

// Wrong pairings of quantity and price, and money made of floats, must not
// compile.
func TestWrongUnitsDoNotCompile(t *testing.T) {
	t.Parallel()
	faults, err := nocompile.Check("testdata/nocompile")
	require.NoError(t, err)
	for _, f := range faults {
		t.Error(f)
	}
}
