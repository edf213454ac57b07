package foam

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// SlabLimits are the sizes between which a sheet of slab foam may be
// delivered.
type SlabLimits struct {
	Length    Range[unit.Length] `json:"length"`
	Width     Range[unit.Length] `json:"width"`
	Thickness Range[unit.Length] `json:"thickness"`
	Basis     cite.Basis         `json:"basis"`
}

// jointSlab founds the size tolerances.
var jointSlab = cite.Basis{Status: cite.CommonPractice, Note: "voluntary guideline of the foam industry, 1994"}

// RollTolerance gives the limits for flat roll goods of 1/2 in to 1 in: length
// ± 0.5 %, width + 1/4 - 0 in, thickness ± 1/16 in.
func RollTolerance(ordered Block) (SlabLimits, error) {
	if err := ordered.Check(); err != nil {
		return SlabLimits{}, err
	}
	if err := check.Length("thickness", ordered.Thickness, unit.Inch/2, unit.Inch); err != nil {
		return SlabLimits{}, err
	}
	d, err := ordered.Length.MulDiv(5, 1000, unit.Nearest)
	return SlabLimits{
		Length:    Range[unit.Length]{Low: ordered.Length - d, High: ordered.Length + d},
		Width:     Range[unit.Length]{Low: ordered.Width, High: ordered.Width + unit.Inch/4},
		Thickness: Range[unit.Length]{Low: ordered.Thickness - unit.Inch/16, High: ordered.Thickness + unit.Inch/16},
		Basis:     jointSlab,
	}, err
}

// ConvolutedTolerance gives the limits for convoluted goods: length + 1 - 0 in,
// width + 1/4 - 0 in, and ± 1/8 in for the thickness, which may be that of the
// base, of the peaks or of the whole.
func ConvolutedTolerance(ordered Block) (SlabLimits, error) {
	if err := ordered.Check(); err != nil {
		return SlabLimits{}, err
	}
	if err := check.Length("thickness", ordered.Thickness, unit.Inch/4, check.Longest); err != nil {
		return SlabLimits{}, err
	}
	return SlabLimits{
		Length:    Range[unit.Length]{Low: ordered.Length, High: ordered.Length + unit.Inch},
		Width:     Range[unit.Length]{Low: ordered.Width, High: ordered.Width + unit.Inch/4},
		Thickness: Range[unit.Length]{Low: ordered.Thickness - unit.Inch/8, High: ordered.Thickness + unit.Inch/8},
		Basis:     jointSlab,
	}, nil
}

// BunHeightTolerance gives the limits for the height of a bun trimmed on top:
// + 1/2 - 0 in.
func BunHeightTolerance(ordered unit.Length) (Figure[unit.Length], error) {
	if err := check.Positive("ordered", ordered); err != nil {
		return Figure[unit.Length]{}, err
	}
	return Figure[unit.Length]{
		About: "height of a top-trimmed bun",
		Range: Range[unit.Length]{Low: ordered, High: ordered + unit.Inch/2},
		Basis: jointSlab,
	}, nil
}

// SlabTolerance gives the limits for slab goods at least 1 in thick: length
// + 1/2 - 0 in, width + 1/4 - 0 in, thickness ± 1/16 in. Foam shipped compressed
// rests 24 h before it is measured.
func SlabTolerance(ordered Block) (SlabLimits, error) {
	if err := ordered.Check(); err != nil {
		return SlabLimits{}, err
	}
	if err := check.Length("thickness", ordered.Thickness, unit.Inch, check.Longest); err != nil {
		return SlabLimits{}, err
	}
	return SlabLimits{
		Length:    Range[unit.Length]{Low: ordered.Length, High: ordered.Length + unit.Inch/2},
		Width:     Range[unit.Length]{Low: ordered.Width, High: ordered.Width + unit.Inch/4},
		Thickness: Range[unit.Length]{Low: ordered.Thickness - unit.Inch/16, High: ordered.Thickness + unit.Inch/16},
		Basis:     jointSlab,
	}, nil
}
