package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// DropInSeat is a seat that is lifted out of its chair: one panel pulled over foam
// and frame and stapled below. The zero value is refused.
type DropInSeat struct {
	Front unit.Length `json:"front"` // width at the front
	Back  unit.Length `json:"back"`  // width at the back; zero is as the front
	Depth unit.Length `json:"depth"`
	// Foam is its thickness at the edge, zero where it is worn or cut down to the
	// frame; Frame that of the board, or of the rails of a webbed frame.
	Foam  unit.Length `json:"foam,omitzero"`
	Frame unit.Length `json:"frame"`
	// Webbed seats are open below and have a dust cover.
	Webbed bool  `json:"webbed,omitempty"`
	Top    Goods `json:"top"`
	Under  Goods `json:"under,omitzero"` // of the dust cover; a board needs none
	// Hold is what is stapled below, 1 in by default.
	Hold allowance.Override `json:"hold,omitzero"`
}

// Make gives the cover of the seat. Every edge has
//
//	pull = foam at the edge + frame + 1 in
//
// as common practice has it: 2 in of foam on a frame of 3/4 in ask for 3 3/4 in.
// Errors name the fields of this type.
func (s DropInSeat) Make() (Part, error) {
	back := s.Back
	if back == 0 {
		back = s.Front
	}
	for _, x := range []struct {
		field string
		l     unit.Length
		least unit.Length
		most  unit.Length
	}{{"front", s.Front, unit.Centimetre, 10 * unit.Metre}, {"back", back, unit.Centimetre, 10 * unit.Metre}, {"depth", s.Depth, unit.Centimetre, 10 * unit.Metre},
		{"foam", s.Foam, 0, unit.Foot}, {"frame", s.Frame, unit.Millimetre, unit.Foot / 2}} {
		if err := inRange(x.field, x.l, x.least, x.most); err != nil {
			return Part{}, err
		}
	}
	if s.Webbed && s.Under == (Goods{}) {
		return Part{}, check.Required("under", "the goods of the dust cover of a webbed seat")
	}
	hold, err := ranged(s.Hold, "hold", usualHold, 0, 500*unit.Millimetre)
	if err != nil {
		return Part{}, err
	}
	o, err := shape.Trapezoid(s.Front, back, s.Depth, (s.Front-back)/2)
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"bottom": "front", "top": "back", "height": "depth", "shift": "back"})
	}
	if o, err = o.Renamed("front", "right", "back", "left"); err != nil {
		return Part{}, err
	}
	cover := allowance.Cover{Panels: []allowance.CoverPanel{sewnPanel("seat", s.Top, o)}}
	var hidden []string
	if s.Under != (Goods{}) {
		hidden = []string{dustCover}
	}
	for _, e := range o.Edges() {
		cover.Fastenings = append(cover.Fastenings, allowance.Fastening{Side: allowance.Side{edgeOf("seat", e)}, Kind: allowance.PulledOver,
			To: "underside", Over: allowance.Exactly(s.Foam + s.Frame), Hold: allowance.Exactly(hold), HiddenBy: hidden})
	}
	if s.Under != (Goods{}) {
		cover = underneath(cover, s.Under, o)
	}
	core, err := coreOf(o, s.Foam, 0)
	return Part{Cover: cover, Core: core}, err
}
