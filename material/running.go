package material

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// RunningYard gives the area of one yard of goods of a width: width × 36 in.
// The width is above zero, at most 1 km; it wraps unit.ErrRange or
// unit.ErrForgottenUnit.
func RunningYard(width unit.Length) (unit.Area, error) {
	if err := check.Positive("width", width); err != nil {
		return 0, err
	}
	return width.By(unit.Yard)
}

// LeatherForCloth gives the leather that replaces a length of cloth, for a
// yield (the share of a hide that ends in the work):
//
//	area = length × width / yield
//
// At a width of 54 in and a yield of 0.75 that is the customary 18 sq ft for
// a yard (common practice). Yield is above 0, at most 1. It wraps
// unit.ErrRange, unit.ErrNotFinite, unit.ErrForgottenUnit or unit.ErrOverflow.
func LeatherForCloth(length, width unit.Length, yield unit.Ratio) (unit.Area, error) {
	if err := check.Positive("width", width); err != nil {
		return 0, err
	}
	if err := check.NotNegative("length", length); err != nil {
		return 0, err
	}
	if err := check.Above("yield", yield, 1); err != nil {
		return 0, err
	}
	net, err := length.By(width)
	if err != nil {
		return 0, err
	}
	return GrossArea(net, wasteOf(yield))
}

// wasteOf gives 1 - yield, kept to the digits a yield is written with.
func wasteOf(yield unit.Ratio) unit.Ratio {
	w := decimalRat(yield)
	f, _ := w.Sub(decimalRat(1), w).Float64()
	return unit.Ratio(f)
}

// RepeatLength gives the length to cut so that a matched pattern starts anew:
// ceil(need / repeat) × repeat. A repeat of zero is plain goods and gives
// need. It wraps unit.ErrRange, unit.ErrForgottenUnit or unit.ErrOverflow.
func RepeatLength(need, repeat unit.Length) (unit.Length, error) {
	if err := check.NotNegative("length", need); err != nil {
		return 0, err
	}
	if err := check.NotNegative("repeat", repeat); err != nil {
		return 0, err
	}
	if repeat == 0 {
		return need, nil
	}
	return need.RoundTo(repeat, unit.Up)
}
