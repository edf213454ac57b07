package thread

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// StitchRange is a recommended stitch density.
type StitchRange struct {
	From  StitchesPerInch `json:"from"` // longest stitch
	To    StitchesPerInch `json:"to"`   // shortest stitch
	Basis cite.Basis      `json:"basis"`
}

// Lengths gives the stitch lengths of the range, shortest first.
func (r StitchRange) Lengths() (shortest, longest unit.Length, err error) {
	if shortest, err = r.To.StitchLength(); err != nil {
		return 0, 0, err
	}
	longest, err = r.From.StitchLength()
	return shortest, longest, err
}

// densityLine adds the length a recommendation starts from.
type densityLine struct {
	StitchRange
	usual unit.Length
}

// densities are the stitch densities for seams, by goods.
var densities = [...]densityLine{
	LightWoven - 1: {StitchRange{10, 12, published("TM-10-8400-201", "clothing repair, types 301 and 401, Table 3-1")}, 2300 * unit.Micrometre},
	Woven - 1:      {StitchRange{6, 8, practice("")}, 3500 * unit.Micrometre},
	Canvas - 1:     {StitchRange{5, 7, published("TM-10-8340-224", "tent canvas, types 301 and 401, para 5-6")}, 4 * unit.Millimetre},
	Vinyl - 1:      {StitchRange{5, 6, practice("more than 6 perforates the goods")}, 4500 * unit.Micrometre},
	Leather - 1:    {StitchRange{5, 6, practice("")}, 4500 * unit.Micrometre},
	HeavyLeather - 1: {StitchRange{4, 5, practice("coarse work")},
		5500 * unit.Micrometre},
}

// DensityFor gives the stitch density recommended for seams in goods. It wraps
// unit.ErrUnknown for no goods.
func DensityFor(g Goods) (StitchRange, error) {
	if err := g.check("goods"); err != nil {
		return StitchRange{}, err
	}
	return densities[g-1].StitchRange, nil
}
