package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// GlueCaution goes on every order that has glue on it.
const GlueCaution = "Read the safety data sheet. Work in moving air, away from flames, pilot lights and sparks, " +
	"let solvents go before the cover is closed, and follow the rules for solvents where you are."

var (
	glueSpread = Figure[unit.Area]{"glue", "that a US gallon sprays on foam, one face", 250 * unit.SquareFoot, 200 * unit.SquareFoot, 300 * unit.SquareFoot, cite.Memory("the container's sheet wins")}

	glueAreas = []Figure[unit.Area]{
		glueSpread,
		{"glue", "that an aerosol of half a litre covers, one face", 0, 30 * unit.SquareFoot, 60 * unit.SquareFoot, cite.Memory("the container's sheet wins")},
	}
	glueVolumes = []Figure[unit.Volume]{
		one("glue", "aerosol", unit.Litre/2, cite.Practice("")),
		{"glue", "can", 0, unit.USGallon, 5 * unit.USGallon, cite.Practice("1 or 5 US gallons; cylinders of 17 to 22 lb")},
	}
)

// Glue is spray or contact adhesive. The zero value is refused.
type Glue struct {
	Area unit.Area `json:"area"` // to be glued, to 10 000 m²
	// Faces that are coated: 1 or 2; zero takes 2, as contact adhesive needs.
	Faces int `json:"faces,omitzero"`
	// Covers is the area that Container covers once, as its maker states; both
	// zero take 250 sq ft for a US gallon.
	Covers    unit.Area   `json:"covers,omitzero"`
	Container unit.Volume `json:"container,omitzero"`
}

// GlueOrder is the glue to buy.
type GlueOrder struct {
	Coated  unit.Area          `json:"coated"` // area × faces
	Volume  Steps[unit.Volume] `json:"volume"`
	Caution string             `json:"caution"` // always GlueCaution
	Basis   cite.Basis         `json:"basis"`
}

// Order gives the glue, bought by b; a pack of b is a container:
//
//	net = area × faces × container / covers, rounded up
//
// Errors are those of [Buying.Steps], and of fields area, faces, covers and
// container, and may wrap unit.ErrRequired.
func (g Glue) Order(b Buying[unit.Volume]) (GlueOrder, error) {
	if g.Faces == 0 {
		g.Faces = 2
	}
	if (g.Covers == 0) != (g.Container == 0) {
		return GlueOrder{}, check.Required("covers", "the area that a container covers, and the container, or neither")
	}
	var on founded
	g.Covers = or(&on, g.Covers, glueSpread)
	if g.Container == 0 {
		g.Container = unit.USGallon
	}
	if err := check.Count("faces", g.Faces, 1, 2); err != nil {
		return GlueOrder{}, err
	}
	if err := check.Between("area", g.Area, unit.SquareMillimetre, 10_000*unit.SquareMetre); err != nil {
		return GlueOrder{}, err
	}
	if err := check.Between("covers", g.Covers, unit.SquareDecimetre, 10_000*unit.SquareMetre); err != nil {
		return GlueOrder{}, err
	}
	if err := check.Between("container", g.Container, unit.CubicCentimetre, unit.CubicMetre); err != nil {
		return GlueOrder{}, err
	}
	o := GlueOrder{Coated: g.Area * unit.Area(g.Faces), Caution: GlueCaution, Basis: on.by("spread of the glue")}
	net, err := wholeShare(int64(o.Coated), int64(g.Container), int64(g.Covers))
	if err != nil {
		return GlueOrder{}, err
	}
	o.Volume, err = b.Steps(unit.Volume(net), 0)
	return o, err
}
