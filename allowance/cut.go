package allowance

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Contour is a line on the cloth: the corners of a closed polygon,
// anticlockwise. Holes is filled only where allowances of a panel that bends
// back on itself run together and close a gap; each hole runs clockwise.
type Contour struct {
	Outer []Point   `json:"outer"`
	Holes [][]Point `json:"holes,omitempty"`
}

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

	SeamLine Contour `json:"seam_line"` // where it is sewn or folded
	TrimLine Contour `json:"trim_line"` // after the allowances
	CutLine  Contour `json:"cut_line"`  // after the handling margin as well

	Across Fitted `json:"across"` // how the seam width came about
	Along  Fitted `json:"along"`

	Edges []PanelEdge `json:"edges"` // anticlockwise, lengths along the seam line

	Width  unit.Length `json:"width"`  // of the cut line, across the goods
	Height unit.Length `json:"height"` // of the cut line, along the grain

	Area         unit.Area `json:"area"`          // inside the cut line
	TrimArea     unit.Area `json:"trim_area"`     // inside the trim line
	SeamArea     unit.Area `json:"seam_area"`     // inside the seam line
	FinishedArea unit.Area `json:"finished_area"` // of the panel in place

	Notches []CutNotch `json:"notches,omitempty"`
	Grain   GrainArrow `json:"grain"`

	// Tolerance is the largest distance of the lines from the true curves.
	Tolerance unit.Length `json:"tolerance"`

	seam geom.Ring
	cut  geom.OffsetRing
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
// The cut line is the border of everything within the margin of an edge
// (measured square to the edge) and of the corners, finished as Corner says. So
// an inward corner ends where the two lines meet; on a curve bent inwards
// tighter than the margin the strip closes up; and where margins of
// neighbouring edges differ along a straight run there is a step square to the
// edge.
//
// Areas are those of the true curves, the strip outside the seam line taken
// between chords within Tolerance. Shapes move, turn by right angles and
// mirror together with their cut, exactly.
//
// Errors are *unit.InputError values that name the field.
//
// Drawing: allowance/doc/curvedpanel.svg
func (p Panel) Cut() (PanelCut, error) {
	opt, err := p.options()
	if err != nil {
		return PanelCut{}, err
	}
	c := PanelCut{Name: p.Name, Tolerance: unit.Length(opt.tolerance)}
	width, height := p.Outline.Size()
	if c.Across, err = p.Across.Apply(width); err != nil {
		return PanelCut{}, fitError("outline", "across", err)
	}
	if c.Along, err = p.Along.Apply(height); err != nil {
		return PanelCut{}, fitError("outline", "along", err)
	}
	seam := p.Outline.scaled(c.Across.Seam, c.Along.Seam)
	path := seam.path()
	nm2 := seam.area
	c.FinishedArea, c.SeamArea = p.Outline.Area(), areaFromGrid(nm2)
	c.Edges = make([]PanelEdge, 0, len(seam.sides))
	for i, s := range seam.sides {
		c.Edges = append(c.Edges, PanelEdge{s.name, CutEdge{opt.margins[i], s.length()}})
	}

	ring, of, err := seam.chords(geom.FlattenOptions{Tolerance: opt.tolerance, Reach: widest(opt.margins)})
	if err != nil {
		return PanelCut{}, err
	}
	c.seam = ring
	c.SeamLine = Contour{Outer: pointsOf(ring)}
	strips := newStrips(p, opt, seam, path, ring, of)
	trim, err := strips.offset(Margin.allowanceOnly)
	if err != nil {
		return PanelCut{}, err
	}
	cut := trim
	if strips.handled {
		if cut, err = strips.offset(Margin.Total); err != nil {
			return PanelCut{}, err
		}
	}
	c.cut = cut.Outer
	c.TrimLine, c.CutLine = contourOf(trim), contourOf(cut)
	base := ring.Area()
	c.TrimArea = areaFromGrid(nm2 + insideOf(trim) - base)
	c.Area = areaFromGrid(nm2 + insideOf(cut) - base)
	b := cut.Outer.Ring.Bounds()
	c.Width, c.Height = unit.Length(b.Width()), unit.Length(b.Height())
	if c.Notches, err = notches(p.Notches, seam, opt.margins); err != nil {
		return PanelCut{}, err
	}
	c.Grain = grainArrow(ring)
	return c, nil
}

func (m Margin) allowanceOnly() unit.Length { return m.Allowance }

func widest(ms []Margin) int64 {
	var w unit.Length
	for _, m := range ms {
		w = max(w, m.Total())
	}
	return int64(w)
}

func contourOf(o geom.OffsetPolygon) Contour {
	c := Contour{Outer: pointsOf(o.Outer.Ring)}
	for _, h := range o.Holes {
		c.Holes = append(c.Holes, pointsOf(h.Ring))
	}
	return c
}

func insideOf(o geom.OffsetPolygon) float64 { return o.Polygon().TwiceArea().Float64() / 2 }

// strips holds what the offsets of one panel have in common.
type strips struct {
	ring    geom.Ring
	side    []int // edge of the outline for each chord
	margins []Margin
	handled bool // some edge has a handling margin
	opt     geom.OffsetOptions
}

func newStrips(p Panel, opt options, seam Outline, path geom.Path, ring geom.Ring, of []int) strips {
	s := strips{
		ring:    ring,
		margins: opt.margins,
		opt: geom.OffsetOptions{
			Join:       [...]geom.Join{MitredCorner: geom.Mitre, SquareCorner: geom.Square, ClippedCorner: geom.Bevel, RoundCorner: geom.Round}[p.Corner],
			MitreLimit: opt.limit,
			Tolerance:  opt.tolerance,
		},
	}
	for _, m := range opt.margins {
		s.handled = s.handled || m.Handling > 0
	}
	sideOf := make([]int, 0, len(path.Segments))
	for i, d := range seam.sides {
		for range d.path {
			sideOf = append(sideOf, i)
		}
	}
	n := len(ring)
	s.side = make([]int, n)
	s.opt.Smooth = make([]bool, n)
	for i, k := range of {
		s.side[i] = sideOf[k]
		// A point inside a curve is no corner, nor is one where curves run
		// into each other without a bend.
		before := of[(i+n-1)%n]
		s.opt.Smooth[i] = before == k && n > 1 && ring[i] != path.Segments[k].From || runsOn(path.Segments[before], path.Segments[k])
	}
	return s
}

// runsOn tells whether b goes on in the direction in which a ends, within a
// thousandth of a radian.
func runsOn(a, b geom.Segment) bool {
	if a.Kind == geom.Line && b.Kind == geom.Line {
		return false
	}
	u, v := a.Tangent(1), b.Tangent(0)
	return u.X*v.X+u.Y*v.Y > 0 && math.Abs(u.X*v.Y-u.Y*v.X) < 1e-3
}

func (s strips) offset(margin func(Margin) unit.Length) (geom.OffsetPolygon, error) {
	dist := make([]int64, len(s.ring))
	for i, k := range s.side {
		dist[i] = int64(margin(s.margins[k]))
	}
	out, err := geom.Offset(s.ring, dist, s.opt)
	if err != nil {
		return geom.OffsetPolygon{}, outlineError(err)
	}
	// An outward offset of one ring is one piece; rounding may shed crumbs.
	if len(out) == 0 {
		return geom.OffsetPolygon{}, check.Refuse("outline", "", unit.ErrRange, "an outline with an area")
	}
	best := 0
	for i := range out {
		if insideOf(out[i]) > insideOf(out[best]) {
			best = i
		}
	}
	return out[best], nil
}
