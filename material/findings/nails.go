package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	nailStrip   = one("nails", "heads a true nail of a nail strip", 5, cite.Practice(""))
	nailLengths = []Figure[unit.Length]{
		{"nails", "head", 7 * unit.Inch / 16, 3 * unit.Inch / 8, 3 * unit.Inch / 4, cite.In("UPHOLSTERY-FOR-SCHOOLS", "chapter II: 7/16 in for its own work; sold from 3/8 to 3/4 in")},
	}
	nailCounts = []Figure[int]{nailStrip, {"nails", "box", 0, 100, 1000, cite.Practice("")}}
)

// Nails are decorative nails along the edges of a piece. The zero value is
// refused.
type Nails struct {
	Sides []unit.Length `json:"sides"` // from corner to corner, to 100 m
	Head  unit.Length   `json:"head"`  // diameter of the head
	// Pitch is the widest distance from nail to nail; zero sets them head to
	// head.
	Pitch unit.Length `json:"pitch,omitzero"`
	// Closed says that the sides run all round, so that the last corner is
	// the first.
	Closed bool `json:"closed,omitempty"`
	// Strip says that the heads are on a strip, with a true nail for every fifth.
	Strip bool `json:"strip,omitempty"`
}

// NailRow is one side with its true spacing.
type NailRow struct {
	Spaces  int         `json:"spaces"`           // from first to last nail of the side
	Spacing unit.Length `json:"spacing,omitzero"` // true distance, the last fraction of a nanometre left out; zero with one nail
}

// NailPlan is the number of nails with the spacing of each side.
type NailPlan struct {
	Rows  []NailRow  `json:"rows"`
	Heads int        `json:"heads"`
	Nails int        `json:"nails"` // to drive: one a head, or one for every fifth of a strip
	Basis cite.Basis `json:"basis"`
}

// Plan sets a nail on every corner and spaces the others evenly. For a side S,
// pitch p and head h:
//
//	spaced:        spaces = ceil(S / p), at most S / h
//	head to head:  spaces = floor(S / h)
//	spacing = S / spaces
//	heads = sum of spaces, and one more where the sides are not closed
//
// Head to head, an open run starts and ends with a whole head, so that half a
// head is taken off there first: one open side L has floor(L / h). The heads of a
// side never overlap. A closed run of less than three nails is refused. Errors
// name the field and wrap unit.ErrRequired, unit.ErrRange or
// unit.ErrForgottenUnit.
func (n Nails) Plan() (NailPlan, error) {
	if err := check.Length("head", n.Head, unit.Millimetre, 100*unit.Millimetre); err != nil {
		return NailPlan{}, err
	}
	if err := each("sides", n.Sides, n.Head, longest); err != nil {
		return NailPlan{}, err
	}
	if n.Pitch != 0 {
		if err := check.Length("pitch", n.Pitch, n.Head, unit.Metre); err != nil {
			return NailPlan{}, err
		}
	}
	p := NailPlan{Basis: cite.Basis{Status: cite.Derived}}
	for i, s := range n.Sides {
		if n.Pitch == 0 && !n.Closed && i == 0 {
			s -= n.Head / 2
		}
		if n.Pitch == 0 && !n.Closed && i == len(n.Sides)-1 {
			s -= n.Head - n.Head/2
		}
		row := NailRow{Spaces: int(s / n.Head)}
		if n.Pitch != 0 {
			row.Spaces = min(row.Spaces, steps(s, n.Pitch))
		}
		if row.Spaces > 0 {
			row.Spacing = s / unit.Length(row.Spaces)
		}
		p.Rows = append(p.Rows, row)
		p.Heads += row.Spaces
	}
	if !n.Closed {
		p.Heads++
	}
	if n.Closed && p.Heads < 3 {
		return NailPlan{}, check.Refuse("sides", n.Sides[0].String(), unit.ErrRange, "room for three nails all round")
	}
	p.Nails = p.Heads
	if n.Strip {
		p.Nails = (p.Heads + nailStrip.Usual - 1) / nailStrip.Usual
		p.Basis = nailStrip.Basis
	}
	return p, nil
}
