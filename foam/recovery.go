package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Recovery gives the recovery ratio: the 25 % force on the way back from 65 %,
// divided by the 25 % force on the way in. The returning force must not be
// above the first.
func Recovery(in, back IFD25) (unit.Ratio, error) {
	if err := checkForce("in", in); err != nil {
		return 0, err
	}
	if err := check.Between("back", back, 0, in); err != nil {
		return 0, err
	}
	return unit.Ratio(float64(back) / float64(in)), nil
}

// HysteresisLoss gives 1 − recovery, the way American producers use the word;
// from memory. ISO 2439 method E means something else: the area inside the load
// and unload loop as a share of the area under the loading curve. Compare only
// figures of one method and one thickness.
func HysteresisLoss(in, back IFD25) (unit.Ratio, error) {
	r, err := Recovery(in, back)
	if err != nil {
		return 0, err
	}
	return 1 - r, nil
}

// HysteresisFigures gives losses said of foams of several densities; they change
// with thickness and method.
func HysteresisFigures() []Figure[unit.Ratio] {
	row := func(about string, lo, hi unit.Ratio) Figure[unit.Ratio] {
		return Figure[unit.Ratio]{About: about, Range: Range[unit.Ratio]{Low: lo, High: hi}, Basis: custom}
	}
	return []Figure[unit.Ratio]{
		row("1.25 lb/ft3", 0.35, 0.40),
		row("1.50 lb/ft3", 0.30, 0.35),
		row("heavy, reinforced", 0.21, 0.26),
	}
}

// CompressionSet gives the thickness lost for good as a share of the first:
// (t₀ − t) / t₀. A thickness after above the one before is refused.
func CompressionSet(before, after unit.Length) (unit.Ratio, error) {
	if err := check.Positive("before", before); err != nil {
		return 0, err
	}
	if err := check.Length("after", after, 0, before); err != nil {
		return 0, err
	}
	return (before - after).Per(before)
}

// HeightAt gives what is left of a sample's thickness when a share of it is
// pressed in: 3 in of 4 at 25 %.
func HeightAt(thickness unit.Length, strain unit.Ratio) (unit.Length, error) {
	if err := check.Positive("thickness", thickness); err != nil {
		return 0, err
	}
	if err := check.Ratio("strain", strain, 0, 1); err != nil {
		return 0, err
	}
	d, err := thickness.Scale(strain, unit.Nearest)
	if err != nil {
		return 0, err
	}
	return thickness - d, nil
}

// OneInchLeast is the least thickness for the quick test that presses the plate
// in by exactly 1 in (ASTM D5672): 75 mm. Thinner foam is refused by
// OneInchStrain.
const OneInchLeast = 75 * unit.Millimetre

// OneInchStrain gives the share of the thickness that 1 in of indentation
// makes: at 4 in it is the 25 % of the full test, at 3 in a third.
func OneInchStrain(thickness unit.Length) (unit.Ratio, error) {
	if err := check.Length("thickness", thickness, OneInchLeast, check.Longest); err != nil {
		return 0, err
	}
	return unit.Inch.Per(thickness)
}
