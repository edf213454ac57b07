package allowance

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// PanelEdge is one edge of a cut panel.
type PanelEdge struct {
	Name string `json:"name"`
	CutEdge
}

// PanelCut is a panel of any shape as it is cut. The three lines share the axes
// of the outline; where the fit takes something out, the lower left corner of
// the finished panel's bounding box stays in place.
//
//	seam line → trim line → cut line
type PanelCut struct {
	Name string `json:"name,omitempty"`

	SeamLine shape.Contour `json:"seam_line"` // where it is sewn or folded
	TrimLine shape.Contour `json:"trim_line"` // after the allowances
	CutLine  shape.Contour `json:"cut_line"`  // after the handling margin as well

	Across Fitted `json:"across"` // how the seam width came about
	Along  Fitted `json:"along"`

	Edges []PanelEdge `json:"edges"` // anticlockwise, lengths along the seam line

	Width      unit.Length `json:"width"`       // of the cut line, across the goods
	Height     unit.Length `json:"height"`      // of the cut line, along the grain
	TrimWidth  unit.Length `json:"trim_width"`  // of the trim line
	TrimHeight unit.Length `json:"trim_height"` // of the trim line

	Area         unit.Area `json:"area"`          // inside the cut line
	TrimArea     unit.Area `json:"trim_area"`     // inside the trim line
	SeamArea     unit.Area `json:"seam_area"`     // inside the seam line
	FinishedArea unit.Area `json:"finished_area"` // of the panel in place

	Notches []CutNotch `json:"notches,omitempty"`
	Grain   GrainArrow `json:"grain"`

	// Tolerance is the largest distance of the lines from the true curves.
	Tolerance unit.Length `json:"tolerance"`
}

// SeamLength gives the total length of the edges that are finished with f.
func (c PanelCut) SeamLength(f Finish) unit.Length {
	return c.sum(func(g Finish) bool { return g == f })
}

// SewnLength gives the total length of the edges that carry stitches.
func (c PanelCut) SewnLength() unit.Length { return c.sum(Finish.Sewn) }

func (c PanelCut) sum(want func(Finish) bool) unit.Length {
	var sum unit.Length
	for _, e := range c.Edges {
		if want(e.Finish) {
			sum += e.Length // an outline is far shorter than the range
		}
	}
	return sum
}

// Cut gives the panel as it is cut. The outline is stretched to the seam line
// by Across and Along; every edge is then moved outwards by its own margin:
// the allowance for the trim line, allowance and handling for the cut line.
//
// The cut line is drawn by [shape.Outline.Offsets], which says how lines go
// round corners and curves. Width and height of the lines are those of the true
// curves; areas are those of the true curves, the strip outside the seam line
// taken between chords within Tolerance.
//
// Errors are *unit.InputError values that name the field.
//
// Drawing: allowance/doc/curvedpanel.svg
func (p Panel) Cut() (PanelCut, error) {
	margins, opt, err := p.options()
	if err != nil {
		return PanelCut{}, err
	}
	c := PanelCut{Name: p.Name, Tolerance: opt.Tolerance}
	var seam shape.Outline
	if c.Across, c.Along, seam, err = p.fitted(); err != nil {
		return PanelCut{}, err
	}
	c.FinishedArea, c.SeamArea = p.Outline.Area(), seam.Area()
	trims, cuts := make([]unit.Length, len(margins)), totals(margins)
	for i, name := range seam.Edges() {
		l, err := seam.EdgeLength(name)
		if err != nil {
			return PanelCut{}, err
		}
		c.Edges = append(c.Edges, PanelEdge{name, CutEdge{margins[i], l}})
		trims[i] = margins[i].Allowance
	}
	line, moved, err := seam.Offsets(opt, trims, cuts)
	if err != nil {
		return PanelCut{}, err
	}
	trim, cut := moved[0], moved[1]
	c.SeamLine, c.TrimLine, c.CutLine = line, trim.Line, cut.Line
	c.TrimArea, c.Area = trim.Area, cut.Area
	c.TrimWidth, c.TrimHeight, c.Width, c.Height = trim.Width, trim.Height, cut.Width, cut.Height
	if c.Notches, err = notches(p.Notches, seam, margins); err != nil {
		return PanelCut{}, err
	}
	c.Grain = grainArrow(line)
	return c, nil
}

// fitted brings the outline to the seam line.
func (p Panel) fitted() (across, along Fitted, seam shape.Outline, err error) {
	width, height := p.Outline.Size()
	if across, err = p.Across.Apply(width); err != nil {
		return across, along, seam, fitError("outline", "across", err)
	}
	if along, err = p.Along.Apply(height); err != nil {
		return across, along, seam, fitError("outline", "along", err)
	}
	seam, err = p.Outline.Scaled(across.Seam, along.Seam)
	return across, along, seam, err
}

func totals(margins []Margin) []unit.Length {
	out := make([]unit.Length, len(margins))
	for i, m := range margins {
		out[i] = m.Total()
	}
	return out
}
