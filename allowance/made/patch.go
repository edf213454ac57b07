package made

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// PatchLap gives how far a patch laps over each side of the hole it covers:
//
//	lap = larger / 2 - fold
//
// where the patch is cut larger than the hole in both directions and its
// edges are folded under. TM 10-1670-292-23&P: 2 1/2 in larger with 1/2 in
// folds laps 3/4 in. Larger is above zero; fold is from zero to half of it.
func PatchLap(larger, fold unit.Length) (unit.Length, error) {
	if err := check.Positive("larger", larger); err != nil {
		return 0, err
	}
	side, err := larger.MulDiv(1, 2, unit.Down)
	if err != nil {
		return 0, err
	}
	if err := check.Length("fold", fold, 0, side); err != nil {
		return 0, err
	}
	return side - fold, nil
}
