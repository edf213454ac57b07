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
var jointSlab = cite.Basis{Status: cite.Standard, Source: "JIFSG-10"}

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
