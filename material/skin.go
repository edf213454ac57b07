package material

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// Skin is one skin on the table, measured or of a usual shape: its border,
// holes, marks, grades and stretch. The zero value is refused.
//
// Axes are those of package allowance: Y runs along the backbone towards the
// neck, X across. The grain side is up, as the cutter sees it. Holes, marks, zones
// and regions are placed in the same axes; one that lies wholly off the skin is
// refused, since its place was surely forgotten.
type Skin struct {
	ID   string   `json:"id,omitempty"`
	Kind SkinKind `json:"kind,omitzero"`
	// Outline is the border as measured. Without one the skin takes the usual
	// shape of its Kind, scaled to Area.
	Outline shape.Outline `json:"outline,omitzero"`
	// Backbone is where the backbone runs: the line along Y at this X, on the skin. It
	// is measured beside an outline; nil where nobody found it, and then nothing is
	// said of it. It moves no piece.
	Backbone *unit.Length `json:"backbone,omitempty"`
	// Area is the area the skin is sold by, as marked on it: zero takes that
	// inside the outline. From 0.5 sq ft to 120 sq ft, and within 10 % of the area
	// inside the outline where there is one: marks are rounded, and skins shrink,
	// but more is a mistake of one of the two.
	Area      unit.Area   `json:"area,omitzero"`
	Thickness unit.Length `json:"thickness,omitzero"` // from 0.3 mm to 6 mm; zero when not known
	// Border is a rim that is not used, all round; from zero to 300 mm.
	Border  unit.Length     `json:"border,omitzero"`
	Holes   []shape.Outline `json:"holes,omitempty"`
	Defects []Defect        `json:"defects,omitempty"`
	// Grade is the grade outside every zone; the zero value is prime.
	Grade Grade         `json:"grade,omitzero"`
	Zones []QualityZone `json:"zones,omitempty"` // where zones overlap, the poorer counts
	// Stretch says which way the leather gives most, region by region; empty
	// when it is not known.
	Stretch []StretchRegion `json:"stretch,omitempty"`
	// PriceFactor is the price by area against that of the other skins; zero
	// counts as 1. Between plans on equally many skins the cheaper counts.
	// From 0.01 to 100.
	PriceFactor unit.Ratio `json:"price_factor,omitzero"`
}

// QualityZone is a region of a grade of its own.
type QualityZone struct {
	Name    string        `json:"name,omitempty"`
	Grade   Grade         `json:"grade"`
	Outline shape.Outline `json:"outline"`
}

// StretchRegion is a region with the direction in which the leather gives most.
type StretchRegion struct {
	// Outline bounds the region; the region without one is the rest of the skin.
	Outline shape.Outline `json:"outline,omitzero"`
	// Direction is that of most stretch, anticlockwise from across; 0 is
	// across the backbone, 90 degrees along it. Turned by 180 degrees it is
	// the same.
	Direction unit.Angle `json:"direction"`
}

// Border area limits: from a small rabbit to a large bull.
const (
	leastSkin = unit.SquareFoot / 2
	mostSkin  = 120 * unit.SquareFoot
)

// Shape gives the border of the skin: as measured, or the usual shape of its
// kind at its area. Errors are those of Check.
func (s Skin) Shape() (shape.Outline, error) {
	if !s.Outline.IsZero() {
		return s.Outline, nil
	}
	return NaturalShape(s.Kind, s.Area)
}

// SoldArea gives the area the skin is bought by: the marked one, or that inside
// the outline.
func (s Skin) SoldArea() unit.Area {
	if s.Area != 0 {
		return s.Area
	}
	return s.Outline.Area()
}
