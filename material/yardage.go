package material

import (
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Yardage is what a piece of furniture usually takes, as one source puts it.
type Yardage struct {
	Piece string      `json:"piece"`
	From  unit.Length `json:"from"`
	To    unit.Length `json:"to"`             // as From where one figure is given
	Width unit.Length `json:"width,omitzero"` // of the goods; zero where the source does not say
	Note  string      `json:"note,omitempty"`
	Basis cite.Basis  `json:"basis"`
}

// FurnitureYardage gives figures in use or remembered, one row for each
// statement; none was found in a standard or a government or university text.
// They disagree, being of different years, cuts and widths: use them to check a
// layout for plausibility, not to buy by.
func FurnitureYardage() []Yardage {
	row := func(piece string, from, to unit.Length, width int, note string, basis cite.Basis) Yardage {
		return Yardage{piece, from, to, unit.Length(width) * unit.Inch, note, basis}
	}
	const yd = unit.Yard
	practice := func(piece string, from, to unit.Length, width int, note string) Yardage {
		return row(piece, from, to, width, note, cite.Practice(""))
	}
	return []Yardage{
		practice("dining drop-in seat", yd/2, yd, 54, "half a yard for a seat up to 18 in deep"),
		practice("two dining seats, cut 27 x 27 in", 3*yd/4, 3*yd/4, 54, ""),
		practice("armchair or club chair", 6*yd, 6*yd, 0, "about; 1 yd more for piped cushions, 2 yd for every seam piped, 4 yd for a skirt"),
		practice("club chair", 6*yd, 6*yd, 54, "about"),
		practice("ottoman", 3*yd, 3*yd, 54, "about"),
		practice("armchair, loose seat and back cushion, no skirt", 274*unit.Inch, 274*unit.Inch, 54, "from a list of cut pieces"),
		practice("small armchair", 13*yd/3, 9*yd/2, 54, "drawn layout; bought as 4 1/2 yd"),
		practice("sofa 6 ft, two cushions", 12*yd, 12*yd, 0, "each further cushion 1 1/2 yd"),
		practice("sofa 7 ft, two cushions", 14*yd, 14*yd, 0, "each further cushion 1 1/2 yd"),
		practice("loose cushion of a sofa", 3*yd/2, 3*yd/2, 0, "what a cushion more adds"),
		practice("loose cover, wing chair", 7*yd, 9*yd, 0, "1 1/2 yd more for covered cord"),
		practice("loose cover, club chair", 6*yd, 15*yd/2, 0, ""),
		practice("loose cover, occasional chair", 4*yd, 6*yd, 0, ""),
		practice("loose cover with tailored skirt, sofa", 79*yd/4, 79*yd/4, 45, "45 to 54 in goods"),
		practice("loose cover with tailored skirt, chair", 9*yd, 9*yd, 45, "45 to 54 in goods"),
		practice("loose cover with tailored skirt, footstool", 3*yd/2, 3*yd/2, 45, "45 to 54 in goods"),
		practice("loose cover, armchair", 6*yd, 7*yd, 31, "goods of 31 to 50 in, as a newspaper printed it in 1938"),
		practice("lounge chair, tight seat and back", 8*yd, 8*yd, 54, "144 sq ft of leather"),
		practice("loveseat, tight seat and back", 12*yd, 12*yd, 54, "216 sq ft of leather"),
		practice("sofa, tight seat and back", 15*yd, 15*yd, 54, "270 sq ft of leather"),
		practice("tufted loveseat, 72 in", 13*yd, 13*yd, 54, "234 sq ft of leather"),
		row("wing chair", 6*yd, 8*yd, 54, "", cite.Memory("")),
		row("loveseat", 9*yd, 12*yd, 54, "", cite.Memory("")),
		row("three-cushion sofa, 84 in", 12*yd, 16*yd, 54, "", cite.Memory("")),
	}
}
