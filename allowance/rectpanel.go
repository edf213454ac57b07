package allowance

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// RectPanel is a rectangular panel as it will be seen when finished. The zero
// value of each edge is a plain seam; a zero width or height is refused.
type RectPanel struct {
	Name   string      `json:"name,omitempty"`
	Width  unit.Length `json:"width"`  // finished, across the goods; up to 1 km
	Height unit.Length `json:"height"` // finished, along the grain; up to 1 km

	Top    Edge `json:"top,omitzero"`
	Right  Edge `json:"right,omitzero"`
	Bottom Edge `json:"bottom,omitzero"`
	Left   Edge `json:"left,omitzero"`

	Across Stretch `json:"across,omitzero"` // fit of the width
	Along  Stretch `json:"along,omitzero"`  // fit of the height
}

// AllEdges gives p with the same edge all round.
func (p RectPanel) AllEdges(e Edge) RectPanel {
	p.Top, p.Right, p.Bottom, p.Left = e, e, e, e
	return p
}

// CutEdge is one edge of a cut panel.
type CutEdge struct {
	Margin
	// Length is the length of the seam line along this edge of the cut panel,
	// before anything is pulled or eased.
	Length unit.Length `json:"length"`
}

// RectCut is a rectangular panel as it is cut.
type RectCut struct {
	Name string `json:"name,omitempty"`

	Width  unit.Length `json:"width"` // of the cut line
	Height unit.Length `json:"height"`

	TrimWidth  unit.Length `json:"trim_width"` // of the trim line, inside the handling margin
	TrimHeight unit.Length `json:"trim_height"`

	SeamWidth  unit.Length `json:"seam_width"` // of the seam line
	SeamHeight unit.Length `json:"seam_height"`

	Across Fitted `json:"across"` // how the seam width came about
	Along  Fitted `json:"along"`

	Top    CutEdge `json:"top"`
	Right  CutEdge `json:"right"`
	Bottom CutEdge `json:"bottom"`
	Left   CutEdge `json:"left"`

	Area         unit.Area `json:"area"`          // inside the cut line
	SeamArea     unit.Area `json:"seam_area"`     // inside the seam line
	FinishedArea unit.Area `json:"finished_area"` // of the panel in place
}

// Edges gives the four edges: top, right, bottom, left.
func (c RectCut) Edges() [4]CutEdge { return [4]CutEdge{c.Top, c.Right, c.Bottom, c.Left} }

// SeamLength gives the total length of the edges that are sewn with f.
func (c RectCut) SeamLength(f Finish) unit.Length {
	var sum unit.Length
	for _, e := range c.Edges() {
		if e.Finish == f {
			sum += e.Length // four lengths of at most 2 km
		}
	}
	return sum
}

// SewnLength gives the total length of the edges that carry stitches.
func (c RectCut) SewnLength() unit.Length {
	var sum unit.Length
	for _, e := range c.Edges() {
		if e.Finish.Sewn() {
			sum += e.Length
		}
	}
	return sum
}

// Cut gives the panel as it is cut:
//
//	cut width  = seam width  + left + right margins
//	cut height = seam height + top + bottom margins
//
// where the seam width is the finished width after [Stretch.Apply] and a
// margin is allowance and handling together. Errors are *unit.InputError
// values that name the field, such as top.allowance.
func (p RectPanel) Cut() (RectCut, error) {
	c := RectCut{Name: p.Name}
	var err error
	if c.Across, err = p.Across.Apply(p.Width); err != nil {
		return RectCut{}, fitError("width", "across", err)
	}
	if c.Along, err = p.Along.Apply(p.Height); err != nil {
		return RectCut{}, fitError("height", "along", err)
	}
	c.SeamWidth, c.SeamHeight = c.Across.Seam, c.Along.Seam

	for _, e := range []struct {
		field  string
		edge   Edge
		length unit.Length
		out    *CutEdge
	}{
		{"top", p.Top, c.SeamWidth, &c.Top},
		{"right", p.Right, c.SeamHeight, &c.Right},
		{"bottom", p.Bottom, c.SeamWidth, &c.Bottom},
		{"left", p.Left, c.SeamHeight, &c.Left},
	} {
		m, err := e.edge.Resolve()
		if err != nil {
			return RectCut{}, unit.InField(e.field, err)
		}
		*e.out = CutEdge{Margin: m, Length: e.length}
	}

	// every term is at most 2 km, so plain sums cannot overflow
	c.TrimWidth = c.SeamWidth + c.Left.Allowance + c.Right.Allowance
	c.TrimHeight = c.SeamHeight + c.Top.Allowance + c.Bottom.Allowance
	c.Width = c.TrimWidth + c.Left.Handling + c.Right.Handling
	c.Height = c.TrimHeight + c.Top.Handling + c.Bottom.Handling

	if c.Area, err = c.Width.By(c.Height); err != nil {
		return RectCut{}, unit.InField("area", err)
	}
	if c.SeamArea, err = c.SeamWidth.By(c.SeamHeight); err != nil {
		return RectCut{}, unit.InField("seam_area", err)
	}
	if c.FinishedArea, err = p.Width.By(p.Height); err != nil {
		return RectCut{}, unit.InField("finished_area", err)
	}
	return c, nil
}

// FinishedFromCut gives the size between the seam lines of goods that are cut
// already, such as a cover cut to the size of its filling so that it sits
// tight: cut - first - second, which must stay above zero. Cut is up to 1 km,
// each allowance from 0 to 2 m.
func FinishedFromCut(cut, first, second unit.Length) (unit.Length, error) {
	if err := check.Positive("cut", cut); err != nil {
		return 0, err
	}
	if err := check.Length("first", first, 0, MostAllowance); err != nil {
		return 0, err
	}
	if err := check.Length("second", second, 0, MostAllowance); err != nil {
		return 0, err
	}
	l := cut - first - second
	if l < 10*unit.Micrometre {
		return 0, check.Length("cut", cut, first+second+10*unit.Micrometre, check.Longest)
	}
	return l, nil
}
