package material

import (
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// SkinKind is a skin or a part of one, as leather is sold: [WholeHide], [Side],
// [Shoulder], [Bend], [Belly], [Calf], [Goat] or [Sheep]. The zero value,
// [MeasuredSkin], is a skin of no usual shape, known by its outline alone.
type SkinKind uint8

const (
	// MeasuredSkin has the outline that was measured.
	MeasuredSkin SkinKind = iota
	// WholeHide is a whole cattle hide.
	WholeHide
	// Side is half a cattle hide, cut along the backbone, which is its
	// straight edge on the left.
	Side
	// Shoulder is a double shoulder: both sides of the neck end.
	Shoulder
	// Bend is a single bend: the back of a side without belly and shoulder.
	Bend
	// Belly is a single belly with its shanks.
	Belly
	// Calf is a whole calf skin.
	Calf
	// Goat is a whole goat skin.
	Goat
	// Sheep is a whole sheep skin, without wool.
	Sheep
)

var skinKindNames = []string{"measured", "whole hide", "side", "shoulder", "bend", "belly", "calf", "goat", "sheep"}

// String gives the name.
func (k SkinKind) String() string { return enum.Name(k, "kind", skinKindNames) }

// MarshalText writes the name; an unknown kind wraps unit.ErrUnknown.
func (k SkinKind) MarshalText() ([]byte, error) { return enum.Text(k, "kind", skinKindNames) }

// UnmarshalText reads a name as String writes it.
func (k *SkinKind) UnmarshalText(text []byte) error { return enum.Read(k, text, "kind", skinKindNames) }

// SkinKinds lists the kinds that have a usual shape.
func SkinKinds() []SkinKind {
	return []SkinKind{WholeHide, Side, Shoulder, Bend, Belly, Calf, Goat, Sheep}
}

// AreaRange is what one skin of a kind usually measures.
type AreaRange struct {
	Kind  SkinKind   `json:"kind"`
	From  unit.Area  `json:"from"`
	To    unit.Area  `json:"to"`
	Basis cite.Basis `json:"basis"`
}

// ThicknessRange is the usual thickness of leather for a use.
type ThicknessRange struct {
	Use   string      `json:"use"`
	From  unit.Length `json:"from"`
	To    unit.Length `json:"to"`
	Basis cite.Basis  `json:"basis"`
}

const sqft = unit.SquareFoot

var areaRanges = []AreaRange{
	{WholeHide, 45 * sqft, 60 * sqft, cite.Practice("statements run from 45-50 to 50-60 sq ft")},
	{WholeHide, 35 * sqft, 70 * sqft, cite.Practice("extreme range; just under 50 sq ft is typical")},
	{Side, 20 * sqft, 26 * sqft, cite.Practice("halves of about 20, sides of 21 to 26, about 24 sq ft")},
	{Shoulder, 11 * sqft, 15 * sqft, cite.Practice("double shoulder; a single one is 7 to 12 sq ft")},
	{Bend, 11 * sqft, 15 * sqft, cite.Practice("single bend; a double one is 22 to 26 sq ft")},
	{Belly, 4 * sqft, 8 * sqft, cite.Memory("single belly; 23 % of a hide for both is published, 5.75 sq ft of 50")},
	{Calf, 25 * sqft, 30 * sqft, cite.Practice("upholstery trade")},
	{Calf, 9 * sqft, 16 * sqft, cite.Memory("small goods trade; contradicts the upholstery trade")},
	{Goat, 4 * sqft, 7 * sqft, cite.Memory("under 1 m² is common practice")},
	{Sheep, 6 * sqft, 9 * sqft, cite.Memory("under 1 m² is common practice")},
}

// UsualAreas gives the ranges of area in use for a kind, one for each
// statement, the usual one first; sources disagree. None for a kind without a
// usual shape.
func UsualAreas(k SkinKind) []AreaRange {
	var out []AreaRange
	for _, r := range areaRanges {
		if r.Kind == k {
			out = append(out, r)
		}
	}
	return out
}

const tenth = unit.Millimetre / 10

var thicknessRanges = []ThicknessRange{
	{"furniture and car seats, usual", 9 * tenth, 12 * tenth, cite.Practice("grain side leather")},
	{"furniture, wide range", 8 * tenth, 20 * tenth, cite.Practice("under 0.8 to over 2.0 mm are sold")},
	{"furniture hides, about 1/16 in", 15 * tenth, 16 * tenth, cite.Practice("printed as 1.5 mm; 1/16 in is 1.5875 mm")},
	{"car seats", 11 * tenth, 13 * tenth, cite.Practice("not under 0.8 mm")},
	{"light garments", 5 * tenth, 9 * tenth, cite.Practice("")},
}

// UpholsteryThickness gives the ranges of thickness in use, one for each
// statement; sources disagree.
func UpholsteryThickness() []ThicknessRange { return append([]ThicknessRange(nil), thicknessRanges...) }
