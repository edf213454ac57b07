package cost

import (
	"math/big"
	"slices"
	"strconv"

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
	w := make([]*big.Rat, len(weights))
	for i := range weights {
		w[i] = ratInt(int64(weights[i]))
	}
	return allocate(whole, w)
}

// AllocateByShare splits a whole over ratios, such as 50 %, 30 % and 20 %. The
// ratios are weights: they need not add up to one. Errors are those of
// Allocate and unit.ErrNotFinite.
func AllocateByShare(whole Money, shares []unit.Ratio) ([]Money, error) {
	w := make([]*big.Rat, len(shares))
	for i := range shares {
		var err error
		if w[i], err = ratio(index("weights", i), shares[i]); err != nil {
			return nil, err
		}
	}
	return allocate(whole, w)
}

// AllocateByMoney splits a whole in proportion to amounts of one currency,
// such as a delivery over the pieces it carries. Errors are those of Allocate
// and ErrCurrency.
func AllocateByMoney(whole Money, weights []Money) ([]Money, error) {
	w := make([]*big.Rat, len(weights))
	for i := range weights {
		if _, err := common(weights[0], weights[i]); err != nil {
			return nil, unit.InField(index("weights", i), err)
		}
		w[i] = weights[i].rat()
	}
	return allocate(whole, w)
}

// Split splits a whole into n equal parts by largest remainder; the larger
// parts come first. Errors are those of Allocate.
func Split(whole Money, n int) ([]Money, error) {
	if n < 1 || n > mostParts {
		return nil, refuse("parts", strconv.Itoa(n), unit.ErrRange, "from 1 to 100000")
	}
	w := make([]*big.Rat, n)
	for i := range w {
		w[i] = ratInt(1)
	}
	return allocate(whole, w)
}

const mostParts = 100_000

func index(name string, i int) string { return name + "[" + strconv.Itoa(i) + "]" }

func allocate(whole Money, weights []*big.Rat) ([]Money, error) {
	if len(weights) == 0 {
		return nil, refuse("weights", "", unit.ErrRequired, "one weight for each part")
	}
	sum := new(big.Rat)
	for i, w := range weights {
		if w.Sign() < 0 {
			return nil, refuse(index("weights", i), w.RatString(), unit.ErrRange, "a weight that is not negative")
		}
		sum.Add(sum, w)
	}
	if sum.Sign() == 0 {
		return nil, refuse("weights", "0", unit.ErrRange, "at least one weight above zero")
	}
	digits, err := whole.currency.Digits()
	if err != nil {
		return nil, err
	}
	total := scaled(whole.rat(), digits)
	if !total.IsInt() {
		return nil, refuse("whole", whole.String(), ErrFraction, "whole minor units")
	}
	sign := big.NewInt(int64(total.Sign()))
	total.Abs(total)

	parts := make([]*big.Int, len(weights))
	fractions := make([]*big.Rat, len(weights))
	order := make([]int, len(weights))
	left := new(big.Int).Set(total.Num())
	for i, w := range weights {
		share := quo(mul(total, w), sum)
		parts[i] = Floor.whole(share)
		fractions[i] = sub(share, new(big.Rat).SetInt(parts[i]))
		order[i] = i
		left.Sub(left, parts[i])
	}
	slices.SortStableFunc(order, func(i, j int) int { return fractions[j].Cmp(fractions[i]) })
	for _, i := range order[:left.Int64()] { // fewer than there are parts
		parts[i].Add(parts[i], big.NewInt(1))
	}
	out := make([]Money, len(parts))
	for i, p := range parts {
		if out[i], err = fromMinor(p.Mul(p, sign), digits, whole.currency); err != nil {
			return nil, err
		}
	}
	return out, nil
}
