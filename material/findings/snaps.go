package findings

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	snapPitch = Figure[unit.Length]{"snaps", "pitch", 5 * unit.Inch, 4 * unit.Inch, 6 * unit.Inch, cite.Practice("")}
	snapParts = one("snaps", "parts a set", 4, cite.In("TM-10-1670-299-20P", "cap and socket, stud and post"))
	drains    = one("drain eyelets", "a cushion", 2, cite.Practice("boats; or a bottom of mesh"))

	snapLengths = []Figure[unit.Length]{snapPitch}
	snapCounts  = []Figure[int]{snapParts, drains}
)

// Snaps are press fasteners along edges. The zero value is refused.
type Snaps struct {
	Edges []unit.Length `json:"edges"`          // to 100 m each
	Pitch unit.Length   `json:"pitch,omitzero"` // widest, from snap to snap; zero takes 5 in
}

// SnapOrder is the snaps to buy.
type SnapOrder struct {
	Sets  int        `json:"sets"`
	Parts int        `json:"parts"` // four a set
	Basis cite.Basis `json:"basis"`
}

// Order counts snaps, one at each end of an edge:
//
//	sets = sum of (ceil(edge / pitch) + 1)
//
// Errors name the field and wrap unit.ErrRequired, unit.ErrRange or
// unit.ErrForgottenUnit.
func (s Snaps) Order() (SnapOrder, error) {
	var on founded
	s.Pitch = or(&on, s.Pitch, snapPitch)
	if err := each("edges", s.Edges, unit.Millimetre, longest); err != nil {
		return SnapOrder{}, err
	}
	if err := check.Length("pitch", s.Pitch, unit.Centimetre, unit.Metre); err != nil {
		return SnapOrder{}, err
	}
	o := SnapOrder{Basis: on.by("a snap every 5 in", snapParts.Basis)}
	for _, e := range s.Edges {
		o.Sets += steps(e, s.Pitch) + 1
	}
	o.Parts = snapParts.Usual * o.Sets
	return o, nil
}

// DrainEyelets gives the eyelets that let water out of boat cushions: two a
// cushion (common practice). From none to a million cushions; others wrap
// unit.ErrRange.
func DrainEyelets(cushions int) (int, error) {
	if err := check.Count("cushions", cushions, 0, mostPieces); err != nil {
		return 0, err
	}
	return drains.Usual * cushions, nil
}
