package made

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// waterfall makes one piece over the top, down the front and under the bottom,
// with boxing at the sides and a zip panel at the back. With width W, depth D and
// thickness T its length is
//
//	wrap = 2 D + T              square front
//	wrap = 2 D - T + π T / 2    round front
func (c Cushion) waterfall(k unit.Length) (Part, error) {
	w, err := c.finished("width", c.Width, k)
	if err != nil {
		return Part{}, err
	}
	d, err := c.finished("depth", c.Depth, k)
	if err != nil {
		return Part{}, err
	}
	t := c.Thickness
	if err := inRange("thickness", t, unit.Centimetre, 10*unit.Metre); err != nil {
		return Part{}, err
	}
	side, err := shape.Rectangle(d, t)
	wrap := 2*d + t
	if c.RoundFront && err == nil {
		if err := inRange("thickness", t, unit.Centimetre, 2*d-unit.Centimetre); err != nil {
			return Part{}, err
		}
		if side, err = shape.RoundedRectangle(d, t, shape.CornerRadii{BottomLeft: t / 2, TopLeft: t - t/2}); err != nil {
			return Part{}, unit.InField("thickness", err)
		}
		nose, err := t.Scale(math.Pi/2, unit.Nearest)
		if err != nil {
			return Part{}, unit.InField("thickness", err)
		}
		wrap = 2*d - t + nose
	}
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"width": "depth", "height": "thickness"})
	}
	if side, err = named(side, map[string]string{"right": "back", "left": "front"}); err != nil {
		return Part{}, err
	}
	main, err := shape.Rectangle(w, wrap)
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"height": "depth"})
	}
	sides := sewnPanel("side", c.Boxing, side)
	sides.Pair = true
	cover := allowance.Cover{Panels: []allowance.CoverPanel{sewnPanel("wrap", c.Top, main), sides}}
	backs, err := c.back(&cover, w, t)
	if err != nil {
		return Part{}, err
	}
	over := allowance.Seam{Sides: []allowance.Side{{edgeOf("wrap", "top")}, {edgeOf(backs[0], "top")}}, Allowance: c.Seam}
	under := allowance.Seam{Sides: []allowance.Side{{edgeOf("wrap", "bottom")}, {edgeOf(backs[len(backs)-1], "bottom")}}, Allowance: c.Seam}
	if !c.Zip {
		under.Opening = w
	}
	cover.Seams = append(cover.Seams, over, under)
	// The sitter's left lies at the right of the wrap as drawn; seen from behind
	// it is the left of the back.
	left, right := allowance.Side{}, allowance.Side{}
	for _, e := range aroundFrom(side, "top") {
		left = append(left, edgeOf("side left", e))
		right = append(allowance.Side{edgeOf("side right", e)}, right...)
	}
	ends := func(edge string, upFirst bool) allowance.Side {
		var s allowance.Side
		for _, b := range backs {
			s = append(s, edgeOf(b, edge))
		}
		if !upFirst {
			slices.Reverse(s)
		}
		return s
	}
	cover.Seams = append(cover.Seams, c.plated(left, append(ends("left", true), edgeOf("wrap", "right"))),
		c.plated(right, append(allowance.Side{edgeOf("wrap", "left")}, ends("right", false)...)))
	box, err := shape.Rectangle(w, d)
	if err != nil {
		return Part{}, check.Renamed(err, map[string]string{"height": "depth"})
	}
	core, err := coreOf(box, t, k)
	core.RoundFront = c.RoundFront
	return Part{Cover: cover, Core: core}, err
}

// back adds the back of a cushion that is open there from side to side, the halves
// of a zip panel or one piece, and gives its panels from the top.
func (c Cushion) back(cover *allowance.Cover, w, thickness unit.Length) ([]string, error) {
	names, heights := []string{"boxing back"}, []unit.Length{thickness}
	if c.Zip {
		names, heights = []string{"zip panel upper", "zip panel lower"}, []unit.Length{thickness - thickness/2, thickness / 2}
		for i, edge := range []string{"bottom", "top"} {
			cover.Seams = append(cover.Seams, allowance.Seam{Kind: allowance.ZipJoin, Tape: "zip", Allowance: c.ZipSeam, Sides: []allowance.Side{{edgeOf(names[i], edge)}}})
		}
	}
	for i, name := range names {
		o, err := shape.Rectangle(w, heights[i])
		if err != nil {
			return nil, check.Renamed(err, map[string]string{"height": "thickness"})
		}
		p := sewnPanel(name, c.Boxing, o)
		p.Free = true
		cover.Panels = append(cover.Panels, p)
	}
	return names, nil
}

// named renames some edges of an outline.
func named(o shape.Outline, names map[string]string) (shape.Outline, error) {
	edges := slices.Clone(o.Edges())
	for i, e := range edges {
		if n, ok := names[e]; ok {
			edges[i] = n
		}
	}
	return o.Renamed(edges...)
}

// aroundFrom lists the edges anticlockwise from one of them.
func aroundFrom(o shape.Outline, first string) []string {
	edges := o.Edges()
	i := slices.Index(edges, first)
	return append(slices.Clone(edges[i:]), edges[:i]...)
}
