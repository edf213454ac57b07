package cost

import (
	"slices"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/exact"
	"github.com/coverwright/coverwright/unit"
)

// Largest remainder: of the whole T in minor units, part i gets first
// floor(T × w(i) / sum of w); the units left over go one by one to the parts
// with the largest fractions. Of equal fractions the first part comes first.
// A negative whole is split like its absolute value, then negated, so that a
// credit note mirrors its invoice.

// Weight is what a whole can be split by: plain numbers, or any exact quantity.
type Weight interface{ ~int | ~int64 }

// Allocate splits a whole over weights by largest remainder: the parts always
// add up to the whole, and each differs from its exact share by less than one
// minor unit. Weights must not be negative nor all be zero; the whole must be
// whole minor units. It wraps unit.ErrRequired, unit.ErrRange, ErrFraction or
// ErrNoCurrency.
func Allocate[W Weight](whole Money, weights []W) ([]Money, error) {
	w := make([]exact.Rat, len(weights))
	for i := range weights {
		w[i] = exact.Int(int64(weights[i]))
	}
	return allocate(whole, w)
}

// AllocateByShare splits a whole over ratios, such as 50 %, 30 % and 20 %. The
// ratios are weights: they need not add up to one. Errors are those of
// Allocate and unit.ErrNotFinite.
func AllocateByShare(whole Money, shares []unit.Ratio) ([]Money, error) {
	w := make([]exact.Rat, len(shares))
	for i := range shares {
		var err error
		if w[i], err = ratio(unit.Path("weights").At(i), shares[i]); err != nil {
			return nil, err
		}
	}
	return allocate(whole, w)
}

// AllocateByMoney splits a whole in proportion to amounts of one currency,
// such as a delivery over the pieces it carries. Errors are those of Allocate
// and ErrCurrency.
func AllocateByMoney(whole Money, weights []Money) ([]Money, error) {
	w := make([]exact.Rat, len(weights))
	for i := range weights {
		if _, err := common(weights[0], weights[i]); err != nil {
			return nil, unit.InField(unit.Path("weights").At(i), err)
		}
		w[i] = weights[i].amount
	}
	return allocate(whole, w)
}

// Split splits a whole into n equal parts by largest remainder; the larger
// parts come first. Errors are those of Allocate.
func Split(whole Money, n int) ([]Money, error) {
	if n < 1 || n > mostParts {
		return nil, check.Refuse("parts", strconv.Itoa(n), unit.ErrRange, "from 1 to 100000")
	}
	w := make([]exact.Rat, n)
	for i := range w {
		w[i] = exact.Int(1)
	}
	return allocate(whole, w)
}

const mostParts = 100_000

func allocate(whole Money, weights []exact.Rat) ([]Money, error) {
	if len(weights) == 0 {
		return nil, check.Refuse("weights", "", unit.ErrRequired, "one weight for each part")
	}
	var sum exact.Rat
	for i, w := range weights {
		if w.Sign() < 0 {
			return nil, check.Refuse(unit.Path("weights").At(i), exact.TrimZeros(w.FloatString(amountPlaces)), unit.ErrRange, "a weight that is not negative")
		}
		sum = sum.Add(w)
	}
	if sum.Sign() == 0 {
		return nil, check.Refuse("weights", "0", unit.ErrRange, "at least one weight above zero")
	}
	digits, err := whole.currency.Digits()
	if err != nil {
		return nil, err
	}
	left := scaled(whole.amount.Abs(), digits)
	if !left.IsInt() {
		return nil, check.Refuse("whole", whole.String(), ErrFraction, "whole minor units")
	}

	scale := left.Quo(sum)
	parts := make([]exact.Rat, len(weights))
	fractions := make([]exact.Rat, len(weights))
	order := make([]int, len(weights))
	for i, w := range weights {
		share := scale.Mul(w)
		parts[i] = share.Floor()
		fractions[i] = share.Sub(parts[i])
		order[i] = i
		left = left.Sub(parts[i])
	}
	slices.SortStableFunc(order, func(i, j int) int { return fractions[j].Cmp(fractions[i]) })
	over, _ := left.Int64() // fewer than there are parts
	for _, i := range order[:over] {
		parts[i] = parts[i].Add(exact.Int(1))
	}
	minor := exact.New(1, powers[digits])
	if whole.Sign() < 0 {
		minor = minor.Neg()
	}
	out := make([]Money, len(parts))
	for i, p := range parts {
		if out[i], err = newExact(p.Mul(minor), whole.currency); err != nil {
			return nil, err
		}
	}
	return out, nil
}
