package made

import (
	"math"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// ConeFrustum is a band that is part of a cone: a lampshade, a round ottoman
// that tapers, the back of a tub chair. The zero value is refused.
type ConeFrustum struct {
	Large  unit.Length `json:"large"`  // radius of the wider edge
	Small  unit.Length `json:"small"`  // radius of the narrower edge; zero for a full cone
	Height unit.Length `json:"height"` // upright, between the two edges
	// Wrap is how far the band goes round, 0 to 360 degrees; zero means all
	// the way.
	Wrap unit.Angle `json:"wrap,omitempty"`
}

// Sector is a band laid flat: part of a ring. Of a cylinder it is a rectangle,
// Straight, and the radii, angle and rises are zero.
type Sector struct {
	Straight bool        `json:"straight"`
	Slant    unit.Length `json:"slant"` // width of the band
	Outer    unit.Length `json:"outer"` // radius of the wider edge on the flat
	Inner    unit.Length `json:"inner"` // radius of the narrower edge on the flat
	Angle    unit.Angle  `json:"angle"` // between the ends

	OuterArc   unit.Length `json:"outer_arc"` // lengths of the edges
	InnerArc   unit.Length `json:"inner_arc"`
	OuterChord unit.Length `json:"outer_chord"` // straight between the ends of each edge
	InnerChord unit.Length `json:"inner_chord"`
	OuterRise  unit.Length `json:"outer_rise"` // from the chord to the middle of each edge
	InnerRise  unit.Length `json:"inner_rise"`

	Area unit.Area `json:"area"`
	// BoxWidth and BoxHeight are the rectangle the sector needs when it is laid
	// out evenly about its middle.
	BoxWidth  unit.Length `json:"box_width"`
	BoxHeight unit.Length `json:"box_height"`
}

// Develop lays the band flat. For radii R and r, height h and wrap φ:
//
//	l = √(h² + (R - r)²)
//	outer = R l / (R - r),  inner = r l / (R - r)
//	angle = φ (R - r) / l
//	area  = φ (R + r) l / 2
//
// Large is above zero and not under Small; height is from zero, and above zero
// for a cylinder. A band so nearly straight that its radius on the flat is
// over 10 km is refused; give it equal radii.
//
// Drawing: allowance/doc/frustum.svg
func (c ConeFrustum) Develop() (Sector, error) {
	if err := c.check(); err != nil {
		return Sector{}, err
	}
	wrap := c.Wrap
	if wrap == 0 {
		wrap = unit.Turn
	}
	phi := wrap.Radians()
	R, r := float64(c.Large), float64(c.Small)
	l := geom.Hypot(float64(c.Height), R-r)
	var s Sector
	set := setter{}
	s.Slant = set.length(l)
	s.OuterArc, s.InnerArc = set.length(phi*R), set.length(phi*r)
	s.Area = set.area(phi / 2 * (R + r) * l)
	if c.Large == c.Small {
		s.Straight = true
		s.OuterChord, s.InnerChord = s.OuterArc, s.InnerArc
		s.BoxWidth, s.BoxHeight = s.OuterArc, s.Slant
		return s, set.err
	}
	outer := R * l / (R - r)
	inner := r * l / (R - r)
	if outer > float64(10*check.Longest) {
		return Sector{}, check.Refuse("small", c.Small.String(), unit.ErrRange, "a radius equal to the large one, or one that tapers more")
	}
	angle := phi * (R - r) / l
	half := angle / 2
	cos := math.Cos(half)
	s.Outer, s.Inner = set.length(outer), set.length(inner)
	s.Angle = unit.Angle(angle) * unit.Radian
	s.OuterChord, s.InnerChord = set.length(2*outer*math.Sin(half)), set.length(2*inner*math.Sin(half))
	rise := 2 * nano.Square(math.Sin(half/2)) // 1 - cos(half), without loss
	s.OuterRise, s.InnerRise = set.length(outer*rise), set.length(inner*rise)
	if half <= math.Pi/2 {
		s.BoxWidth = s.OuterChord
		s.BoxHeight = set.length(outer - float64(inner*cos))
	} else {
		s.BoxWidth = set.length(2 * outer)
		s.BoxHeight = s.OuterRise
	}
	return s, set.err
}

func (c ConeFrustum) check() error {
	if err := check.Positive("large", c.Large); err != nil {
		return err
	}
	if err := check.Length("small", c.Small, 0, c.Large); err != nil {
		return err
	}
	if err := check.NotNegative("height", c.Height); err != nil {
		return err
	}
	if c.Large == c.Small {
		if err := check.Positive("height", c.Height); err != nil {
			return err
		}
	}
	return check.Between("wrap", c.Wrap, 0, unit.Turn)
}

// setter keeps the first error while several results are rounded.
type setter struct{ err error }

func (s *setter) length(nm float64) unit.Length {
	l, err := nano.Length(nm)
	if s.err == nil {
		s.err = err
	}
	return l
}

func (s *setter) area(nm2 float64) unit.Area {
	a, err := nano.Area(nm2)
	if s.err == nil {
		s.err = err
	}
	return a
}

// TubBand is the band of a tub or bucket chair: a piece of a cone, cut with
// its own edge finishes. The zero value is refused.
type TubBand struct {
	Shape  ConeFrustum    `json:"shape"`
	Wide   allowance.Edge `json:"wide,omitzero"`   // along the wider edge
	Narrow allowance.Edge `json:"narrow,omitzero"` // along the narrower edge
	Ends   allowance.Edge `json:"ends,omitzero"`   // both ends
}

// TubCut is a band as it is cut: the cut line runs along circles of the same
// centre as the seam line.
type TubCut struct {
	Seam Sector `json:"seam"`
	// CutOuter and CutInner are the radii of the cut line on the flat, and
	// CutSlant the width of the band between them.
	CutOuter unit.Length `json:"cut_outer"`
	CutInner unit.Length `json:"cut_inner"`
	CutSlant unit.Length `json:"cut_slant"`
	// CutOuterArc is the cut line along the wider edge, between the end seam
	// lines; the ends are then added square to it.
	CutOuterArc unit.Length `json:"cut_outer_arc"`
	CutInnerArc unit.Length `json:"cut_inner_arc"`
	EndMargin   unit.Length `json:"end_margin"`
	// Area is inside the cut line, with the ends added as straight strips:
	// angle/2 (outer² - inner²) + 2 end × slant.
	Area unit.Area `json:"area"`
}

// Cut develops the band and adds the margins. The narrower edge must be wider
// on the flat than its margin, or there is no cut line there.
//
// Drawing: allowance/doc/tubband.svg
func (t TubBand) Cut() (TubCut, error) {
	wide, err := t.Wide.Resolve()
	if err != nil {
		return TubCut{}, unit.InField("wide", err)
	}
	slim, err := t.Narrow.Resolve()
	if err != nil {
		return TubCut{}, unit.InField("narrow", err)
	}
	ends, err := t.Ends.Resolve()
	if err != nil {
		return TubCut{}, unit.InField("ends", err)
	}
	var c TubCut
	if c.Seam, err = t.Shape.Develop(); err != nil {
		return TubCut{}, unit.InField("shape", err)
	}
	c.EndMargin = ends.Total()
	c.CutSlant = c.Seam.Slant + wide.Total() + slim.Total()
	strips, err := c.CutSlant.By(2 * c.EndMargin)
	if err != nil {
		return TubCut{}, err
	}
	if c.Seam.Straight {
		c.CutOuterArc, c.CutInnerArc = c.Seam.OuterArc, c.Seam.InnerArc
		if c.Area, err = c.CutSlant.By(c.CutOuterArc); err != nil {
			return TubCut{}, err
		}
		c.Area, err = c.Area.Plus(strips)
		return c, err
	}
	c.CutOuter = c.Seam.Outer + wide.Total()
	c.CutInner = c.Seam.Inner - slim.Total()
	if c.CutInner < 0 {
		return TubCut{}, check.Refuse("narrow", slim.Total().String(), unit.ErrRange, "a margin under the radius on the flat, "+c.Seam.Inner.String())
	}
	a := c.Seam.Angle.Radians()
	set := setter{}
	c.CutOuterArc, c.CutInnerArc = set.length(a*float64(c.CutOuter)), set.length(a*float64(c.CutInner))
	band := set.area(a / 2 * float64(c.CutOuter-c.CutInner) * float64(c.CutOuter+c.CutInner))
	if set.err != nil {
		return TubCut{}, set.err
	}
	c.Area, err = band.Plus(strips)
	return c, err
}
