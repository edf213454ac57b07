package cost

import (
	"math/big"

	"github.com/shopspring/decimal"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Money is a decimal amount with its currency. Amounts come in as text or as
// whole minor units, never as a float, and are held exactly: a unit price may
// be finer than the minor unit (12.925 USD), what is charged may not.
//
// The zero value is no money in no currency; it adds to any amount as nothing,
// so that a sum can start from it. Amounts are compared with Equal and Cmp;
// == does not compile.
//
// Range: under 10^15 major units either way; beyond it every operation wraps
// unit.ErrOverflow. No operation panics.
type Money struct {
	_        [0]func() // leaves the form of an amount free: compare with Equal
	amount   exact.Rat // at most 12 places
	currency Currency
}

// NewMoney reads an amount such as "12.50". It takes a sign, digits and a
// decimal point, at most 12 places; it wraps unit.ErrSyntax,
// unit.ErrDecimalComma, unit.ErrOverflow, unit.ErrUnknown for the currency or
// unit.ErrRange for a code without a minor unit.
func NewMoney(amount string, c Currency) (Money, error) {
	x, err := parseAmount(amount)
	if err != nil {
		return Money{}, err
	}
	return newExact(x, c)
}

// MinorUnits gives n minor units: MinorUnits(1250, USD) is 12.50 USD and
// MinorUnits(1250, JPY) is 1250 JPY. Errors are those of NewMoney.
func MinorUnits(n int64, c Currency) (Money, error) {
	digits, err := c.Digits()
	if err != nil {
		return Money{}, err
	}
	return newExact(exact.New(n, powers[digits]), c)
}

// Zero gives an amount of nothing in a currency. Errors are those of NewMoney.
func Zero(c Currency) (Money, error) { return MinorUnits(0, c) }

// nothing gives no amount of a currency that has been checked.
func nothing(c Currency) Money { return Money{currency: c} }

// Decimal gives the amount as a decimal, without its currency.
func (m Money) Decimal() decimal.Decimal {
	p := m.amount.Places(amountPlaces)
	return decimal.NewFromBigInt(scaled(m.amount, p).Big().Num(), int32(-p)) // at most 12 places
}

// MoneyOf gives the amount d. It may have at most 12 places; errors are those
// of NewMoney.
func MoneyOf(d decimal.Decimal, c Currency) (Money, error) {
	const want = "an amount under 1000000000000000 with at most 12 digits after the point"
	if d.Exponent() < -maxText || d.Exponent() > mostDigits || d.NumDigits() > maxText { // bounds the work
		return Money{}, check.Refuse("amount", "", unit.ErrOverflow, want)
	}
	x := exact.Of(d.Rat())
	if !scaled(x, amountPlaces).IsInt() {
		return Money{}, check.Refuse("amount", d.String(), unit.ErrSyntax, want)
	}
	return newExact(x, c)
}

// Rat gives the exact amount as a fraction, for arithmetic of one's own;
// RoundMoney leads back.
func (m Money) Rat() *big.Rat { return m.amount.Big() }

// RoundMoney gives an exact fraction as an amount, rounded once to the minor
// unit. It wraps ErrMode, unit.ErrOverflow and what NewMoney wraps for the
// currency.
func RoundMoney(x *big.Rat, c Currency, mode Rounding) (Money, error) {
	return rounded(exact.Of(x), c, mode)
}

// newExact makes money of a fraction that is known to be a decimal of at most
// amountPlaces places.
func newExact(x exact.Rat, c Currency) (Money, error) {
	digits, err := c.Digits()
	if err != nil {
		return Money{}, err
	}
	if x.Abs().Cmp(exact.Int(powers[mostDigits])) >= 0 {
		return Money{}, check.Refuse("", x.FloatString(digits), unit.ErrOverflow, "an amount under 1000000000000000")
	}
	return Money{amount: x, currency: c}, nil
}

// rounded makes money of an exact fraction, rounded once to the minor unit.
func rounded(x exact.Rat, c Currency, mode Rounding) (Money, error) {
	if err := mode.check(); err != nil {
		return Money{}, err
	}
	digits, err := c.Digits()
	if err != nil {
		return Money{}, err
	}
	return newExact(mode.whole(scaled(x, digits)).Quo(exact.Int(powers[digits])), c)
}

// Currency gives the currency; the zero value has none.
func (m Money) Currency() Currency { return m.currency }

// Sign gives -1, 0 or 1.
func (m Money) Sign() int { return m.amount.Sign() }

// IsZero tells whether the amount is nothing, in whatever currency.
func (m Money) IsZero() bool { return m.amount.Sign() == 0 }

// Minor gives the amount in whole minor units. It wraps ErrFraction for an
// amount that is finer, ErrNoCurrency for the zero value and unit.ErrOverflow
// beyond an int64.
func (m Money) Minor() (int64, error) {
	digits, err := m.currency.Digits()
	if err != nil {
		return 0, err
	}
	x := scaled(m.amount, digits)
	if !x.IsInt() {
		return 0, check.Refuse("amount", m.String(), ErrFraction, "whole minor units")
	}
	n, ok := x.Int64()
	if !ok {
		return 0, check.Refuse("amount", m.String(), unit.ErrOverflow, "an amount that fits 63 bits of minor units")
	}
	return n, nil
}

// common gives the currency of both amounts; an amount without one takes the
// other's.
func common(a, b Money) (Currency, error) {
	switch {
	case a.currency == b.currency, b.currency == "" && b.IsZero():
		return a.currency, nil
	case a.currency == "" && a.IsZero():
		return b.currency, nil
	}
	return "", &unit.InputError{Value: b.String(), Err: &MismatchError{a.currency, b.currency}, Want: "one currency"}
}

// Cmp gives -1, 0 or 1 for m below, equal to or above b, or an error that
// wraps ErrCurrency.
func (m Money) Cmp(b Money) (int, error) {
	if _, err := common(m, b); err != nil {
		return 0, err
	}
	return m.amount.Cmp(b.amount), nil
}

// Equal tells whether both are the same amount of the same currency. The zero
// value equals only itself.
func (m Money) Equal(b Money) bool { return m.currency == b.currency && m.amount.Cmp(b.amount) == 0 }

// Plus gives m + b. It wraps ErrCurrency or unit.ErrOverflow.
func (m Money) Plus(b Money) (Money, error) {
	c, err := common(m, b)
	if err != nil || c == "" {
		return Money{}, err
	}
	return newExact(m.amount.Add(b.amount), c)
}

// Minus gives m - b. It wraps ErrCurrency or unit.ErrOverflow.
func (m Money) Minus(b Money) (Money, error) { return m.Plus(b.Neg()) }

// Neg gives -m.
func (m Money) Neg() Money { return Money{amount: m.amount.Neg(), currency: m.currency} }

// Abs gives |m|.
func (m Money) Abs() Money { return Money{amount: m.amount.Abs(), currency: m.currency} }

// Sum adds amounts. No amounts give the zero value. It wraps ErrCurrency or
// unit.ErrOverflow.
func Sum(ms ...Money) (Money, error) {
	var sum Money
	var err error
	for _, m := range ms {
		if sum, err = sum.Plus(m); err != nil {
			return Money{}, err
		}
	}
	return sum, nil
}

// Times gives n times m, exactly. It wraps unit.ErrOverflow.
func (m Money) Times(n int) (Money, error) {
	if m.currency == "" {
		return Money{}, nil
	}
	return newExact(m.amount.Mul(exact.Int(int64(n))), m.currency)
}

// Scale gives r times m, rounded once to the minor unit. The ratio counts as
// the decimal it was written as, to 12 places: 7.5 % of 4.95 is 0.37125 before
// rounding. It wraps ErrMode, ErrNoCurrency, unit.ErrNotFinite, unit.ErrRange
// or unit.ErrOverflow.
func (m Money) Scale(r unit.Ratio, mode Rounding) (Money, error) {
	x, err := ratio("ratio", r)
	if err != nil {
		return Money{}, err
	}
	return rounded(m.amount.Mul(x), m.currency, mode)
}

// MulDiv gives m × num / den, rounded once to the minor unit. It wraps
// unit.ErrDivideByZero, ErrMode, ErrNoCurrency or unit.ErrOverflow.
func (m Money) MulDiv(num, den int64, mode Rounding) (Money, error) {
	if den == 0 {
		return Money{}, check.Refuse("divisor", "0", unit.ErrDivideByZero, "a divisor that is not zero")
	}
	return rounded(m.amount.Mul(exact.Int(num)).Quo(exact.Int(den)), m.currency, mode)
}

// Per gives the ratio m / b, to float64 precision. It wraps ErrCurrency or
// unit.ErrDivideByZero.
func (m Money) Per(b Money) (unit.Ratio, error) {
	if _, err := common(m, b); err != nil {
		return 0, err
	}
	if b.IsZero() {
		return 0, check.Refuse("divisor", b.String(), unit.ErrDivideByZero, "an amount that is not zero")
	}
	return unit.Ratio(m.amount.Quo(b.amount).Float64()), nil
}

// Round gives m rounded to the minor unit of its currency. It wraps ErrMode
// or ErrNoCurrency.
func (m Money) Round(mode Rounding) (Money, error) { return rounded(m.amount, m.currency, mode) }

// RoundTo gives m rounded to a multiple of step, such as 0.05 CAD. The step
// must be above zero; it wraps unit.ErrRange, ErrCurrency, ErrMode or
// unit.ErrOverflow.
func (m Money) RoundTo(step Money, mode Rounding) (Money, error) {
	if err := mode.check(); err != nil {
		return Money{}, err
	}
	c, err := common(m, step)
	if err != nil {
		return Money{}, err
	}
	if step.Sign() <= 0 {
		return Money{}, check.Refuse("step", step.String(), unit.ErrRange, "a step above zero")
	}
	n := mode.whole(m.amount.Quo(step.amount))
	return newExact(n.Mul(step.amount), c)
}
