package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// ZigzagCaution goes on every order that has zigzag springs on it.
const ZigzagCaution = "Zigzag springs pull the rails inwards: see to joints and braces first. The spring maker's chart of lengths wins."

var (
	zigzagSeatSide  = Figure[unit.Length]{"zigzag springs", "first centre from the side, seat", 5 * unit.Inch / 2, 2 * unit.Inch, 3 * unit.Inch, cite.Practice("")}
	zigzagSeatPitch = Figure[unit.Length]{"zigzag springs", "pitch, seat", 5 * unit.Inch, 4 * unit.Inch, 5 * unit.Inch, cite.Practice("")}
	zigzagBackSide  = one("zigzag springs", "first centre from the side, back", 3*unit.Inch, cite.Practice(""))
	zigzagBackPitch = Figure[unit.Length]{"zigzag springs", "pitch, back", 7 * unit.Inch, 6 * unit.Inch, 8 * unit.Inch, cite.Practice("")}
	zigzagSeatRise  = Figure[unit.Length]{"zigzag springs", "rise, seat", 3 * unit.Inch / 2, 5 * unit.Inch / 4, 2 * unit.Inch, cite.Memory("")}
	zigzagBackRise  = Figure[unit.Length]{"zigzag springs", "rise, back", 2 * unit.Inch, 5 * unit.Inch / 4, 2 * unit.Inch, cite.Memory("")}
	zigzagTieEnds   = one("zigzag springs", "tie wire beyond the width, a row", 8*unit.Inch, cite.Practice(""))
	zigzagDeep      = one("zigzag springs", "depth to which a seat has two rows of ties", 24*unit.Inch, cite.Practice(""))
	zigzagClips     = one("zigzag springs", "clips a spring", 2, cite.Practice(""))
	zigzagNails     = Figure[int]{"zigzag springs", "nails or staples a clip", 3, 2, 4, cite.Practice("")}
	zigzagRows      = Figure[int]{"zigzag springs", "rows of ties, seat", 2, 2, 3, cite.Practice("3 in seats deeper than 24 in")}
	zigzagBackRows  = one("zigzag springs", "rows of ties, back", 1, cite.Practice(""))

	zigzagLengths = []Figure[unit.Length]{
		zigzagSeatSide, zigzagSeatPitch, zigzagBackSide, zigzagBackPitch, zigzagSeatRise, zigzagBackRise, zigzagTieEnds, zigzagDeep,
		{"zigzag springs", "coil", 0, 100 * unit.Foot, 150 * unit.Foot, cite.Practice("")},
	}
	zigzagCounts = []Figure[int]{
		zigzagClips, zigzagNails, zigzagRows, zigzagBackRows,
		{"zigzag springs", "gauge of wire, seat", 0, 8, 9, cite.Practice("a lower number is stiffer")},
		{"zigzag springs", "gauge of wire, back", 0, 10, 12, cite.Practice("a lower number is stiffer")},
		{"zigzag springs", "gauge of wire sold", 0, 8, 13, cite.Practice("")},
		one("zigzag springs", "clips a pack", 100, cite.Practice("")),
	}
)

// Zigzag is a seat or back of zigzag springs, from front to back or from bottom
// to top. The zero value is refused.
type Zigzag struct {
	Width unit.Length `json:"width"`          // clear, between the sides; to 10 m
	Depth unit.Length `json:"depth"`          // clear, that each spring crosses; to 10 m
	Back  bool        `json:"back,omitempty"` // of a back, with the figures of a back
	Side  unit.Length `json:"side,omitzero"`  // of the first centre from the side; zero takes 2 1/2 in, of a back 3 in
	Pitch unit.Length `json:"pitch,omitzero"` // widest, from centre to centre; zero takes 5 in, of a back 7 in
	Rise  unit.Length `json:"rise,omitzero"`  // of the arc, to a quarter of the depth; zero takes 1 1/2 in, of a back 2 in
	Nails int         `json:"nails,omitzero"` // or staples in each clip, to 10; zero takes 3
}

// ZigzagPlan is the springs and what holds them.
type ZigzagPlan struct {
	Springs int         `json:"springs"`
	Spacing unit.Length `json:"spacing,omitzero"` // true, from centre to centre; zero with one spring
	Arc     unit.Length `json:"arc"`              // length of each spring
	Total   unit.Length `json:"total"`
	Clips   int         `json:"clips"`
	Nails   int         `json:"nails"`
	TieRows int         `json:"tie_rows"`
	TieWire unit.Length `json:"tie_wire"` // or twine
	Caution string      `json:"caution"`  // always ZigzagCaution
	Basis   cite.Basis  `json:"basis"`
}

// Plan spaces the springs over width W and depth D. With the first centre a
// from the side, widest pitch p and rise h:
//
//	n = ceil((W - 2 a) / p) + 1, at least 1
//	arc = D + 8 h² / (3 D), rounded up
//	clips = 2 n
//	tie wire = rows × (W + 8 in)
//
// A seat has two rows of ties, three where it is deeper than 24 in; a back has
// one. The arc is that of a flat parabola. Errors name the field and wrap
// unit.ErrRange or unit.ErrForgottenUnit.
func (z Zigzag) Plan() (ZigzagPlan, error) {
	var on founded
	side, pitch, rise, rows := zigzagSeatSide, zigzagSeatPitch, zigzagSeatRise, zigzagRows.From
	switch {
	case z.Back:
		side, pitch, rise, rows = zigzagBackSide, zigzagBackPitch, zigzagBackRise, zigzagBackRows.Usual
	case z.Depth > zigzagDeep.Usual:
		rows = zigzagRows.To
	}
	z.Side, z.Pitch, z.Rise, z.Nails = or(&on, z.Side, side), or(&on, z.Pitch, pitch), or(&on, z.Rise, rise), or(&on, z.Nails, zigzagNails)
	if err := all(within{"width", z.Width, unit.Centimetre, widest}, within{"depth", z.Depth, unit.Centimetre, widest},
		within{"side", z.Side, unit.Millimetre, unit.Metre}, within{"pitch", z.Pitch, unit.Centimetre, unit.Metre},
		within{"rise", z.Rise, unit.Millimetre, z.Depth / 4}); err != nil {
		return ZigzagPlan{}, err
	}
	if err := check.Count("nails", z.Nails, 1, 10); err != nil {
		return ZigzagPlan{}, err
	}
	p := ZigzagPlan{Springs: 1, TieRows: rows, Caution: ZigzagCaution}
	if between := z.Width - 2*z.Side; between > 0 {
		p.Springs += steps(between, z.Pitch)
		p.Spacing = between / unit.Length(p.Springs-1)
	}
	more, err := wholeShare(int64(z.Rise), 8*int64(z.Rise), 3*int64(z.Depth))
	if err != nil {
		return ZigzagPlan{}, err
	}
	p.Arc = z.Depth + unit.Length(more)
	p.Total = unit.Length(p.Springs) * p.Arc // at most 1001 springs of 12 m
	p.Clips = zigzagClips.Usual * p.Springs
	p.Nails = z.Nails * p.Clips
	p.TieWire = unit.Length(rows) * (z.Width + zigzagTieEnds.Usual)
	p.Basis = on.by("clips and ties by custom, the arc by its rise", zigzagClips.Basis)
	return p, nil
}
