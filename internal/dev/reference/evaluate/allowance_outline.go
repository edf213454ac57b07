package evaluate

import (
	"fmt"
	"maps"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/internal/dev/reference"
)

var outlineEvaluators = map[string]reference.Evaluator{
	"outline_area":      outlineArea,
	"outline_perimeter": outlinePerimeter,
	"outline_edge":      outlineEdge,
	"outline_centroid":  outlineCentroid,
	"panel_cut_area":    panelCutArea,
	"panel_cut_size":    panelCutSize,
	"panel_seam_length": panelSeamLength,
}

// both puts two sets of evaluators together.
func both(a, b map[string]reference.Evaluator) map[string]reference.Evaluator {
	m := maps.Clone(a)
	maps.Copy(m, b)
	return m
}

// outline reads a shape and its sizes.
func outline(in *reference.Inputs) (allowance.Outline, error) {
	l := in.Length
	switch shape := in.Text("shape"); shape {
	case "rectangle":
		return allowance.RectangleOutline(l("w"), l("h"))
	case "trapezoid":
		b, t := l("bottom"), l("top")
		return allowance.TrapezoidOutline(b, t, l("h"), (b-t)/2)
	case "triangle":
		return allowance.TriangleOutline(l("base"), l("right"), l("left"))
	case "regular polygon":
		return allowance.RegularPolygonOutline(in.Int("n"), l("side"))
	case "circle":
		return allowance.CircleOutline(l("d"))
	case "ellipse":
		return allowance.EllipseOutline(l("w"), l("h"))
	case "stadium":
		return allowance.StadiumOutline(l("length"), l("width"))
	case "rounded rectangle":
		return allowance.RoundedRectangleOutline(l("w"), l("h"), allowance.SameRadii(l("r")))
	case "chord":
		return allowance.ChordOutline(l("chord"), l("rise"))
	case "crowned":
		return allowance.CrownedOutline(l("w"), l("h"), l("rise"))
	case "path":
		return allowance.PathOutline(in.Text("d"), l("user"))
	default:
		return allowance.Outline{}, fmt.Errorf("unknown shape %q", shape)
	}
}

func outlineArea(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := outline(in)
	return areaIn(o.Area(), u, err)
}

func outlinePerimeter(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := outline(in)
	return inUnit(u, err, o.Perimeter())
}

func outlineEdge(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := outline(in)
	if err != nil {
		return reference.Value{}, err
	}
	length, err := o.EdgeLength(in.Text("edge"))
	return inUnit(u, err, length)
}

func outlineCentroid(in *reference.Inputs, u string) (reference.Value, error) {
	o, err := outline(in)
	c := o.Centroid()
	return inUnit(u, err, c.X, c.Y)
}

// panelCut reads a shape, the same edge all round or edges of its own, the
// corners, and the fit.
func panelCut(in *reference.Inputs) (allowance.PanelCut, error) {
	o, err := outline(in)
	if err != nil {
		return allowance.PanelCut{}, err
	}
	p := allowance.Panel{Outline: o, Edges: map[string]allowance.Edge{}}
	for _, name := range o.Edges() {
		switch {
		case in.Has(name):
			p.Edges[name], err = edge(in, name)
		case in.Has("all"):
			p.Edges[name], err = edge(in, "all")
		}
		if err != nil {
			return allowance.PanelCut{}, err
		}
	}
	if in.Has("corners") {
		if err := p.Corner.UnmarshalText([]byte(in.Text("corners"))); err != nil {
			return allowance.PanelCut{}, err
		}
	}
	if in.Has("tolerance") {
		p.Tolerance = in.Length("tolerance")
	}
	if in.Has("take_out") {
		s := allowance.Stretch{TakeOut: in.Ratio("take_out")}
		p.Across, p.Along = s, s
	}
	return p.Cut()
}

func panelCutArea(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := panelCut(in)
	return areaIn(c.Area, u, err)
}

func panelCutSize(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := panelCut(in)
	return inUnit(u, err, c.Width, c.Height)
}

func panelSeamLength(in *reference.Inputs, u string) (reference.Value, error) {
	f, err := allowance.ParseFinish(in.Text("finish"))
	if err != nil {
		return reference.Value{}, err
	}
	c, err := panelCut(in)
	return inUnit(u, err, c.SeamLength(f))
}
