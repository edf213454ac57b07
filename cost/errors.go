package cost

import "errors"

// What can be wrong with money, beside the sentinels of package unit. Match
// with errors.Is.
var (
	// ErrCurrency says two amounts of different currencies met.
	ErrCurrency = errors.New("different currencies")
	// ErrNoCurrency says an amount has no currency yet.
	ErrNoCurrency = errors.New("no currency")
	// ErrMode says a rounding mode is none of those there are.
	ErrMode = errors.New("unknown rounding mode")
	// ErrFraction says an amount is finer than the currency's minor unit.
	ErrFraction = errors.New("finer than the minor unit")
)

// MismatchError says which two currencies met. It wraps ErrCurrency.
type MismatchError struct {
	A, B Currency
}

// Error names both currencies.
func (e *MismatchError) Error() string {
	return ErrCurrency.Error() + ": " + string(e.A) + " and " + string(e.B)
}

// Unwrap gives ErrCurrency.
func (e *MismatchError) Unwrap() error { return ErrCurrency }
