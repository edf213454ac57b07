package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
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
	"symmetry_axis": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := outline(in)
		if err != nil {
			return reference.Value{}, err
		}
		low, high, err := o.SymmetryAxis()
		return inUnit(u, err, low.X, high.X)
	},
	"halved": func(in *reference.Inputs, u string) (reference.Value, error) {
		o, err := outline(in)
		if err != nil {
			return reference.Value{}, err
		}
		h, err := o.Halved(shape.Point{X: in.Length("axis")}, shape.Point{X: in.Length("axis"), Y: in.Length("h")}, shape.BothHalves)
		return inUnit(u, err, h.Width, h.Most)
	},
	"centred_station": func(in *reference.Inputs, u string) (reference.Value, error) {
		s := shape.CentredStation(0, in.Length("width"))
		return inUnit(u, nil, s.Left, s.Right)
	},
}

// outline reads a shape and its sizes.
func outline(in *reference.Inputs) (shape.Outline, error) {
	l := in.Length
	switch name := in.Text("shape"); name {
	case "rectangle":
		return shape.Rectangle(l("w"), l("h"))
	case "trapezoid":
		b, t := l("bottom"), l("top")
		return shape.Trapezoid(b, t, l("h"), (b-t)/2)
	case "triangle":
		return shape.Triangle(l("base"), l("right"), l("left"))
	case "regular polygon":
		return shape.RegularPolygon(in.Int("n"), l("side"))
	case "circle":
		return shape.Circle(l("d"))
	case "ellipse":
		return shape.Ellipse(l("w"), l("h"))
	case "stadium":
		return shape.Stadium(l("length"), l("width"))
	case "rounded rectangle":
		return shape.RoundedRectangle(l("w"), l("h"), shape.SameRadii(l("r")))
	case "chord":
		return shape.Chord(l("chord"), l("rise"))
	case "crowned":
		return shape.Crowned(l("w"), l("h"), l("rise"))
	case "path":
		return shape.Path(in.Text("d"), l("user"))
	default:
		return shape.Outline{}, fmt.Errorf("unknown shape %q", name)
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
			p.Edges[name], _, err = edge(in, name)
		case in.Has("all"):
			p.Edges[name], _, err = edge(in, "all")
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
	return on(margins(c)...)(areaIn(c.Area, u, err))
}

func panelCutSize(in *reference.Inputs, u string) (reference.Value, error) {
	c, err := panelCut(in)
	return on(margins(c)...)(inUnit(u, err, c.Width, c.Height))
}

func panelSeamLength(in *reference.Inputs, u string) (reference.Value, error) {
	f, err := allowance.ParseFinish(in.Text("finish"))
	if err != nil {
		return reference.Value{}, err
	}
	c, err := panelCut(in)
	return inUnit(u, err, c.SeamLength(f))
}
