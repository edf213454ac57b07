package findings

import (
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var (
	staplePitch = Figure[unit.Length]{"staples", "pitch, cover on a rail", unit.Inch, 3 * unit.Inch / 4, 3 * unit.Inch / 2, cite.Practice("")}
	stapleBite  = one("staples", "bite", unit.Inch/4, cite.Practice(""))

	stapleLengths = []Figure[unit.Length]{
		staplePitch, stapleBite,
		{"staples", "pitch, burlap or muslin", 3 * unit.Inch / 2, unit.Inch, 2 * unit.Inch, cite.Practice("")},
		{"staples", "pitch, dust cover", 3 * unit.Inch / 2, unit.Inch, 2 * unit.Inch, cite.Practice("")},
		{"staples", "pitch, card strip", unit.Inch, 3 * unit.Inch / 4, unit.Inch, cite.Practice("")},
		one("staples", "pitch, double welt or gimp by hidden staples", unit.Inch, cite.Practice("")),
		{"staples", "pitch, leather or vinyl", 3 * unit.Inch / 4, unit.Inch / 2, 3 * unit.Inch / 4, cite.Practice("")},
		one("staples", "bite, dust cover", 3*unit.Inch/16, cite.Practice("")),
		one("staples", "bite, double welt or gimp by hidden staples", 3*unit.Inch/16, cite.Practice("")),
		{"staples", "bite, hardwood", unit.Inch / 4, 3 * unit.Inch / 16, unit.Inch / 4, cite.Practice("")},
		{"staples", "bite, softwood", 0, unit.Inch / 4, 3 * unit.Inch / 8, cite.Practice("")},
		one("staples", "crown", 3*unit.Inch/8, cite.Practice("stainless outdoors, in boats and under wet foam")),
	}
	stapleCounts = []Figure[int]{
		one("staples", "gauge, cover", 22, cite.Practice("")), one("staples", "gauge, webbing", 20, cite.Practice("")),
		{"staples", "box", 0, 5_000, 10_000, cite.Practice("")},
	}
	stapleLegs = []unit.Length{unit.Inch / 4, 5 * unit.Inch / 16, 3 * unit.Inch / 8, unit.Inch / 2, 9 * unit.Inch / 16, 5 * unit.Inch / 8, 3 * unit.Inch / 4}
)

// Staples hold goods on a rail. The zero value is refused.
type Staples struct {
	Edges  []unit.Length `json:"edges"`           // each stapled edge, to 100 m
	Pitch  unit.Length   `json:"pitch,omitzero"`  // from staple to staple; zero takes 1 in, see [Lengths] for other joints
	Layers unit.Length   `json:"layers,omitzero"` // thickness of everything under the crown, to 50 mm
	Bite   unit.Length   `json:"bite,omitzero"`   // wanted depth in the wood, to 50 mm; zero takes 1/4 in
	Rail   unit.Length   `json:"rail"`            // thickness of the rail, to 500 mm
	// Legs are the leg lengths at hand; when empty, StapleLegs.
	Legs []unit.Length `json:"legs,omitempty"`
}

// StapleLegs are leg lengths commonly sold for upholstery (common practice).
func StapleLegs() []unit.Length { return slices.Clone(stapleLegs) }

// StaplePlan is the number of staples and their leg.
type StaplePlan struct {
	Count int         `json:"count"`
	Least unit.Length `json:"least"` // layers + bite
	Leg   unit.Length `json:"leg"`   // the shortest at hand that is not under Least
	// Through says that the leg would come within 1/16 in of the far face of
	// the rail, or through it: take a shorter bite or a thicker rail.
	Through bool       `json:"through,omitempty"`
	Basis   cite.Basis `json:"basis"`
}

// Plan counts staples, one at each end of an edge and the rest at the pitch
// or closer, and picks the leg:
//
//	count = sum of (ceil(edge / pitch) + 1),  leg >= layers + bite
//
// Errors name the field and wrap unit.ErrRequired, unit.ErrRange or
// unit.ErrForgottenUnit; legs that are all too short are an error of legs.
func (s Staples) Plan() (StaplePlan, error) {
	if err := each("edges", s.Edges, unit.Millimetre, longest); err != nil {
		return StaplePlan{}, err
	}
	var on founded
	s.Pitch, s.Bite = or(&on, s.Pitch, staplePitch), or(&on, s.Bite, stapleBite)
	if len(s.Legs) == 0 {
		s.Legs = stapleLegs
	}
	if err := all(within{"pitch", s.Pitch, unit.Millimetre, unit.Metre}, within{"layers", s.Layers, 0, 50 * unit.Millimetre},
		within{"bite", s.Bite, unit.Millimetre, 50 * unit.Millimetre}, within{"rail", s.Rail, unit.Millimetre, 500 * unit.Millimetre}); err != nil {
		return StaplePlan{}, err
	}
	if err := each("legs", s.Legs, unit.Millimetre, 100*unit.Millimetre); err != nil {
		return StaplePlan{}, err
	}
	p := StaplePlan{Least: s.Layers + s.Bite, Basis: on.by("a staple every inch, a quarter inch into the wood")}
	for _, e := range s.Edges {
		p.Count += steps(e, s.Pitch) + 1
	}
	for _, l := range s.Legs {
		if l >= p.Least && (p.Leg == 0 || l < p.Leg) {
			p.Leg = l
		}
	}
	if p.Leg == 0 {
		return StaplePlan{}, check.Refuse("legs", slices.Max(s.Legs).String(), unit.ErrRange, "a leg of at least "+p.Least.String())
	}
	p.Through = p.Leg-s.Layers > s.Rail-unit.Inch/16
	return p, nil
}
