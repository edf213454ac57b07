package allowance

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// FrameMeasure is a pair of lengths that tells how far an old panel has stretched
// or shrunk: from mark to mark along a line of the panel as it lies, and of the
// same line on the frame, or on a mate that did not stretch. The factor
//
//	k = frame / panel
//
// is from 0.85 to 1.15: beyond that it is the wrong pair. The panel's length is at
// least a third of its extent in the direction, or the error of the tape rules.
type FrameMeasure struct {
	// Direction of the line, anticlockwise from across the goods; across when not given.
	Direction unit.Angle  `json:"direction,omitzero"`
	Panel     unit.Length `json:"panel" required:"true" hint:"the length on the panel, such as \"21 in\""`
	Frame     unit.Length `json:"frame" required:"true" hint:"the same length on the frame"`
}

// FrameFit is the factor that a panel was brought back by in a direction.
type FrameFit struct {
	Direction unit.Angle `json:"direction"`
	Factor    unit.Ratio `json:"factor"`
	// Sigma is the standard deviation of the factor, from that of the tape:
	// sigma sqrt 2 / panel.
	Sigma unit.Ratio `json:"sigma"`
}

const (
	leastFactor, mostFactor = 0.85, 1.15
	leastShare              = 3               // a measure is at least one part in so many of the extent
	squareWithin            = 1 * unit.Degree // of two measures
)

// strained is the map from the panel as it lay to the panel as it was.
type strained struct {
	direction unit.Angle
	by, other unit.Ratio
	about     shape.Outline
}

// fit takes the stretch out of the outline. The strain is symmetric, with the
// factors of the measures as its own in their directions, and 1 square to a
// single one; allowances are off by then, as they did not stretch with the panel.
func (r Ripped) fit(out *Recovered) (strained, error) {
	s := strained{by: 1, other: 1, about: out.Outline}
	if len(r.Frame) > 2 {
		return s, check.Count("frame", len(r.Frame), 0, 2)
	}
	for i, m := range r.Frame {
		f, err := m.fit(out.Outline, r.sigma())
		if err != nil {
			return s, unit.InField(check.At("frame", i), err)
		}
		out.Frame = append(out.Frame, f)
	}
	switch len(out.Frame) {
	case 0:
		return s, nil
	case 2:
		off := cosine(r.Frame[0].Direction - r.Frame[1].Direction)
		if math.Abs(off) > -cosine(90*unit.Degree+squareWithin) {
			return s, check.Refuse("frame[1].direction", r.Frame[1].Direction.String(), unit.ErrRange,
				"a direction square to "+r.Frame[0].Direction.String()+", within "+squareWithin.String())
		}
		s.other = out.Frame[1].Factor
	}
	s.direction, s.by = out.Frame[0].Direction, out.Frame[0].Factor
	o, err := out.Outline.Strained(s.direction, s.by, s.other)
	if err != nil {
		return s, unit.InField("frame", err)
	}
	out.Outline = o
	return s, nil
}

func (m FrameMeasure) fit(o shape.Outline, sigma float64) (FrameFit, error) {
	extent, err := o.Extent(m.Direction)
	if err != nil {
		return FrameFit{}, err
	}
	if err := check.Positive("frame", m.Frame); err != nil {
		return FrameFit{}, err
	}
	if err := check.Length("panel", m.Panel, extent/leastShare, 2*extent); err != nil {
		return FrameFit{}, err
	}
	k := unit.Ratio(float64(m.Frame) / float64(m.Panel))
	if k < leastFactor || k > mostFactor {
		return FrameFit{}, check.Refuse("frame", m.Frame.String(), unit.ErrRange, "from 85 % to 115 % of the length on the panel, "+m.Panel.String())
	}
	return FrameFit{m.Direction, k, unit.Ratio(sigma * math.Sqrt2 / float64(m.Panel))}, nil
}

func cosine(a unit.Angle) float64 {
	_, cos := geom.SinCos(a.Radians())
	return cos
}
