package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Bolster is a round pillow with flat ends. The zero value is refused.
type Bolster struct {
	Length   unit.Length `json:"length"`   // of the filling
	Diameter unit.Length `json:"diameter"` // of the filling
	// Smaller is how much less than the filling the cover is made, in length
	// and diameter, to sit tight; 1/2 in is common practice. From 0.
	Smaller unit.Length        `json:"smaller,omitzero"`
	Seam    allowance.Override `json:"seam,omitzero"`    // by default that of a plain seam
	Welted  bool               `json:"welted,omitempty"` // round both ends
}

// BolsterCut is a bolster cover as it is cut.
type BolsterCut struct {
	Girth      unit.Length   `json:"girth"`       // of the stitch line, π d
	BodyLength unit.Length   `json:"body_length"` // cut
	BodyGirth  unit.Length   `json:"body_girth"`  // cut
	End        unit.Length   `json:"end"`         // cut diameter, cut two
	BodyArea   unit.Area     `json:"body_area"`
	EndArea    unit.Area     `json:"end_area"` // of one
	Welt       []unit.Length `json:"welt"`
}

// Cut gives the body and the ends:
//
//	body = (length + 2 s) by (π d + 2 s)
//	end  = circle of d + 2 s
//
// This is common practice, and the stitch lines of body and end agree. Some
// take π (d + 2 s) for the body, which is 2 s (π - 1) too long for the end.
func (b Bolster) Cut() (BolsterCut, error) {
	if err := check.Positives([]string{"length", "diameter"}, b.Length, b.Diameter); err != nil {
		return BolsterCut{}, err
	}
	s, err := seamOr(b.Seam, allowance.PlainSeam)
	if err != nil {
		return BolsterCut{}, err
	}
	if err := check.Length("smaller", b.Smaller, 0, min(b.Length, b.Diameter)-unit.Millimetre); err != nil {
		return BolsterCut{}, err
	}
	l, d := b.Length-b.Smaller, b.Diameter-b.Smaller
	c := BolsterCut{BodyLength: l + 2*s, End: d + 2*s}
	if c.Girth, err = shape.CircleCircumference(d); err != nil {
		return BolsterCut{}, err
	}
	c.BodyGirth = c.Girth + 2*s
	if c.BodyArea, err = c.BodyLength.By(c.BodyGirth); err != nil {
		return BolsterCut{}, err
	}
	if c.EndArea, err = shape.CircleArea(c.End); err != nil {
		return BolsterCut{}, err
	}
	if b.Welted {
		c.Welt = []unit.Length{c.Girth, c.Girth}
	}
	return c, nil
}
