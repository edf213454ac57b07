package made

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// wedge makes a cushion that is thicker at one end. With depth D, thickness T at
// the front and B at the back the top is as deep as it slopes:
//
//	slope = √(D² + (T - B)²)
//
// and the sides of the boxing are trapezoids between the two. The zip is the whole
// back.
func (c Cushion) wedge(p plate, k unit.Length) (Part, error) {
	w, d := p.outline.Size()
	front, back := c.Thickness, c.BackThickness
	for _, x := range []struct {
		field string
		l     unit.Length
	}{{"thickness", front}, {"back_thickness", back}} {
		if err := inRange(x.field, x.l, unit.Centimetre, 10*unit.Metre); err != nil {
			return Part{}, err
		}
	}
	slope, err := nano.Length(geom.Hypot(float64(d), float64(front-back)))
	if err != nil {
		return Part{}, unit.InField("depth", err)
	}
	s, err := ranged(c.Seam, "seam", unit.Inch/2, 0, 500*unit.Millimetre)
	if err != nil {
		return Part{}, err
	}
	most := reach(c.Boxing.Across, s)
	if !c.Boxing.Directed {
		most = max(most, reach(c.Boxing.Along, s))
	}
	if longest := max(w, slope); longest > most {
		return Part{}, check.Refuse("boxing", c.Boxing.Across.String(), unit.ErrRange,
			"strips of at least "+onTape(longest+2*s, unit.Up, c.Width, c.Boxing.Across).String()+": a wedge is joined at its corners alone")
	}
	top, err := c.eared(w, slope, 0)
	if err != nil {
		return Part{}, err
	}
	upper, err := plateOf(top, "back")
	if err != nil {
		return Part{}, err
	}
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	side, err := shape.TraceFrom(at(0, 0)).Edge("bottom").Line(at(d, 0)).Edge("back").Line(at(d, back)).Edge("top").Line(at(0, front)).Edge("front").Close()
	if err != nil {
		return Part{}, unit.InField("back_thickness", err)
	}
	strip, err := shape.Rectangle(w, front)
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"height": "thickness"})
	}
	sides := sewnPanel("boxing side", c.Boxing, side)
	sides.Pair, sides.Free = true, true
	face := sewnPanel("boxing front", c.Boxing, strip)
	face.Free = true
	cover := allowance.Cover{Panels: []allowance.CoverPanel{sewnPanel("top plate", c.Top, top), sewnPanel("bottom plate", c.Bottom, p.outline), face, sides}}
	panels, err := c.back(&cover, w, back)
	if err != nil {
		return Part{}, err
	}
	first, last := panels[0], panels[len(panels)-1]
	run := func(parts ...allowance.EdgePart) allowance.Side { return parts }
	ends := func(edge string) allowance.Side { // the back's left edge runs down, its right one up
		if first == last {
			return run(edgeOf(first, edge))
		}
		if edge == "left" {
			return run(edgeOf(first, edge), edgeOf(last, edge))
		}
		return run(edgeOf(last, edge), edgeOf(first, edge))
	}
	join := func(a, b allowance.Side) {
		cover.Seams = append(cover.Seams, allowance.Seam{Sides: []allowance.Side{a, b}, Allowance: c.Seam})
	}
	join(run(edgeOf("boxing side right", "front")), run(edgeOf("boxing front", "left")))
	join(run(edgeOf("boxing front", "right")), run(edgeOf("boxing side left", "front")))
	join(run(edgeOf("boxing side left", "back")), ends("left"))
	join(run(edgeOf("boxing side right", "back")), ends("right"))
	above := c.plated(upper.side("top plate", w/2), run(edgeOf(first, "top"), edgeOf("boxing side left", "top"), edgeOf("boxing front", "top"), edgeOf("boxing side right", "top")))
	below := c.plated(p.side("bottom plate", -w/2), run(edgeOf("boxing side right", "bottom"), edgeOf("boxing front", "bottom"), edgeOf("boxing side left", "bottom"), edgeOf(last, "bottom")))
	if !c.Zip {
		below.Opening = w
	}
	cover.Seams = append(cover.Seams, above, below)
	if c.Pattern != allowance.NoPattern {
		cover.Meets = []allowance.Meet{c.runsOver(run(edgeOf("top plate", "front")), edgeOf("boxing front", "top"))}
	}
	core, err := coreOf(p.outline, front, k)
	core.BackThickness = back
	return Part{Cover: cover, Core: core}, err
}
