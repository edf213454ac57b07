package material

import (
	"fmt"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Staples hold goods on a rail. The zero value is refused.
type Staples struct {
	Edges  []unit.Length `json:"edges"`           // each stapled edge
	Pitch  unit.Length   `json:"pitch,omitzero"`  // from staple to staple; zero takes 1 in
	Layers unit.Length   `json:"layers,omitzero"` // thickness of everything under the crown
	Bite   unit.Length   `json:"bite,omitzero"`   // wanted depth in the wood; zero takes 1/4 in
	Rail   unit.Length   `json:"rail"`            // thickness of the rail
	// Legs are the leg lengths at hand; when empty, StapleLegs.
	Legs []unit.Length `json:"legs,omitempty"`
}

// StapleLegs are leg lengths commonly sold for upholstery (common practice).
func StapleLegs() []unit.Length {
	return []unit.Length{unit.Inch / 4, 5 * unit.Inch / 16, 3 * unit.Inch / 8, unit.Inch / 2, 9 * unit.Inch / 16, 5 * unit.Inch / 8, 3 * unit.Inch / 4}
}

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
	if len(s.Edges) == 0 {
		return StaplePlan{}, check.Required("edges", "at least one edge")
	}
	if err := check.Count("edges", len(s.Edges), 1, mostRuns); err != nil {
		return StaplePlan{}, err
	}
	if s.Pitch == 0 {
		s.Pitch = unit.Inch
	}
	if s.Bite == 0 {
		s.Bite = unit.Inch / 4
	}
	if len(s.Legs) == 0 {
		s.Legs = StapleLegs()
	}
	for _, f := range []struct {
		name   string
		l      unit.Length
		lo, hi unit.Length
	}{
		{"pitch", s.Pitch, unit.Millimetre, unit.Metre}, {"layers", s.Layers, 0, 50 * unit.Millimetre},
		{"bite", s.Bite, unit.Millimetre, 50 * unit.Millimetre}, {"rail", s.Rail, unit.Millimetre, 500 * unit.Millimetre},
	} {
		if err := check.Length(f.name, f.l, f.lo, f.hi); err != nil {
			return StaplePlan{}, err
		}
	}
	p := StaplePlan{Least: s.Layers + s.Bite, Basis: cite.Practice("a staple every inch, a quarter inch into the wood")}
	for i, e := range s.Edges {
		if err := check.Length(fmt.Sprintf("edges[%d]", i), e, unit.Millimetre, 100*unit.Metre); err != nil {
			return StaplePlan{}, err
		}
		p.Count += int((e+s.Pitch-1)/s.Pitch) + 1
	}
	longest := unit.Length(0)
	for i, l := range s.Legs {
		if err := check.Length(fmt.Sprintf("legs[%d]", i), l, unit.Millimetre, 100*unit.Millimetre); err != nil {
			return StaplePlan{}, err
		}
		longest = max(longest, l)
		if l >= p.Least && (p.Leg == 0 || l < p.Leg) {
			p.Leg = l
		}
	}
	if p.Leg == 0 {
		return StaplePlan{}, check.Refuse("legs", longest.String(), unit.ErrRange, "a leg of at least "+p.Least.String())
	}
	p.Through = p.Leg-s.Layers > s.Rail-unit.Inch/16
	return p, nil
}
