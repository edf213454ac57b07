package sheet

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// ThicknessFor gives the sheet thickness for a boxing of the given height:
// over a whole inch by a quarter inch or less it is rounded down, by more it is
// rounded up. Common practice for foam sold in whole inches. The height must be
// at least 1 in and at most 24 in.
func ThicknessFor(boxing unit.Length) (unit.Length, error) {
	if err := check.Length("boxing", boxing, unit.Inch, 24*unit.Inch); err != nil {
		return 0, err
	}
	over := boxing % unit.Inch
	if over <= unit.Inch/4 {
		return boxing - over, nil
	}
	return boxing - over + unit.Inch, nil
}
