package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/made"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

// Evaluators of plane shapes, offsets and developed surfaces.

func length1(f func(unit.Length) (unit.Length, error), a string) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := f(in.Length(a))
		return inUnit(u, err, l)
	}
}

func length2(f func(a, b unit.Length) (unit.Length, error), a, b string) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := f(in.Length(a), in.Length(b))
		return inUnit(u, err, l)
	}
}

func length3(f func(a, b, c unit.Length) (unit.Length, error), a, b, c string) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := f(in.Length(a), in.Length(b), in.Length(c))
		return inUnit(u, err, l)
	}
}

func area1(f func(unit.Length) (unit.Area, error), a string) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		x, err := f(in.Length(a))
		return areaIn(x, u, err)
	}
}

func area2(f func(a, b unit.Length) (unit.Area, error), a, b string) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		x, err := f(in.Length(a), in.Length(b))
		return areaIn(x, u, err)
	}
}

func area3(f func(a, b, c unit.Length) (unit.Area, error), a, b, c string) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		x, err := f(in.Length(a), in.Length(b), in.Length(c))
		return areaIn(x, u, err)
	}
}

func polygonArea(in *reference.Inputs, u string) (reference.Value, error) {
	a, err := shape.RegularPolygonArea(in.Int("n"), in.Length("side"))
	return areaIn(a, u, err)
}

func polygonLength(f func(int, unit.Length) (unit.Length, error)) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := f(in.Int("n"), in.Length("side"))
		return inUnit(u, err, l)
	}
}

func arc(pick func(shape.ChordArc) unit.Length) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		a, err := shape.ArcFromChord(in.Length("chord"), in.Length("rise"))
		return inUnit(u, err, pick(a))
	}
}

func arcAngle(in *reference.Inputs, _ string) (reference.Value, error) {
	a, err := shape.ArcFromChord(in.Length("chord"), in.Length("rise"))
	return reference.Numbers(a.Angle.Degrees()), err
}

func segmentArea(in *reference.Inputs, u string) (reference.Value, error) {
	a, err := shape.ArcFromChord(in.Length("chord"), in.Length("rise"))
	return areaIn(a.SegmentArea, u, err)
}

// shape reads a convex shape: its area, perimeter and, for polygons, the sum
// of its mitres.
func planeFigure(in *reference.Inputs) (area unit.Area, perimeter unit.Length, mitre unit.Ratio, err error) {
	switch name := in.Text("shape"); name {
	case "rectangle":
		w, h := in.Length("w"), in.Length("h")
		if area, err = shape.RoundedRectangleArea(w, h, 0); err != nil {
			return
		}
		if perimeter, err = shape.RoundedRectanglePerimeter(w, h, 0); err != nil {
			return
		}
		mitre, err = shape.MitreSum(90*unit.Degree, 90*unit.Degree, 90*unit.Degree, 90*unit.Degree)
	case "polygon":
		n, s := in.Int("n"), in.Length("side")
		if area, err = shape.RegularPolygonArea(n, s); err != nil {
			return
		}
		if perimeter, err = shape.RegularPolygonPerimeter(n, s); err != nil {
			return
		}
		angles := make([]unit.Angle, n)
		for i := range angles {
			angles[i] = unit.Turn / unit.Angle(n)
		}
		mitre, err = shape.MitreSum(angles...)
	case "circle":
		d := in.Length("d")
		if area, err = shape.CircleArea(d); err != nil {
			return
		}
		perimeter, err = shape.CircleCircumference(d)
	case "ellipse":
		a, b := in.Length("a"), in.Length("b")
		if area, err = shape.EllipseArea(a, b); err != nil {
			return
		}
		perimeter, err = shape.EllipsePerimeter(a, b)
	default:
		err = fmt.Errorf("shape %q", name)
	}
	return
}

func offsetArea(in *reference.Inputs, u string) (reference.Value, error) {
	a, p, mitre, err := planeFigure(in)
	if err != nil {
		return reference.Value{}, err
	}
	if in.Text("corners") == "mitred" {
		a, err = shape.MitredOffsetArea(a, p, in.Length("s"), mitre)
	} else {
		a, err = shape.SteinerArea(a, p, in.Length("s"))
	}
	return areaIn(a, u, err)
}

func offsetPerimeter(in *reference.Inputs, u string) (reference.Value, error) {
	_, p, mitre, err := planeFigure(in)
	if err != nil {
		return reference.Value{}, err
	}
	if in.Text("corners") == "mitred" {
		p, err = shape.MitredOffsetPerimeter(p, in.Length("s"), mitre)
	} else {
		p, err = shape.SteinerPerimeter(p, in.Length("s"))
	}
	return inUnit(u, err, p)
}

func develop(in *reference.Inputs) (made.Sector, error) {
	f := made.ConeFrustum{Large: in.Length("R"), Small: in.Length("r"), Height: in.Length("h")}
	if in.Has("wrap") {
		f.Wrap = in.Angle("wrap")
	}
	return f.Develop()
}

func sector(pick func(made.Sector) []unit.Length) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		s, err := develop(in)
		return inUnit(u, err, pick(s)...)
	}
}

func sectorArea(in *reference.Inputs, u string) (reference.Value, error) {
	s, err := develop(in)
	return areaIn(s.Area, u, err)
}

func sectorAngle(in *reference.Inputs, _ string) (reference.Value, error) {
	s, err := develop(in)
	return reference.Numbers(s.Angle.Degrees()), err
}

func dome(in *reference.Inputs) (made.Dome, error) {
	form, err := parsed[made.GoreForm](in, "form")
	d, halfErr := in.Length("d").MulDiv(1, 2, unit.Nearest)
	if err == nil {
		err = halfErr
	}
	out := made.Dome{Radius: d, Gores: in.Int("n"), Form: form}
	if in.Has("rim") {
		out.Rim = in.Angle("rim")
	}
	return out, err
}

func goreOf(in *reference.Inputs) (made.Gore, error) {
	d, err := dome(in)
	if err != nil {
		return made.Gore{}, err
	}
	return d.Gore()
}

func gore(pick func(made.Gore) unit.Length) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		g, err := goreOf(in)
		return inUnit(u, err, pick(g))
	}
}

func goreHalf(in *reference.Inputs, u string) (reference.Value, error) {
	d, err := dome(in)
	if err != nil {
		return reference.Value{}, err
	}
	l, err := d.HalfWidth(in.Angle("latitude"))
	return inUnit(u, err, l)
}

func goreArea(in *reference.Inputs, u string) (reference.Value, error) {
	g, err := goreOf(in)
	return areaIn(g.Area, u, err)
}

func domeArea(in *reference.Inputs, u string) (reference.Value, error) {
	g, err := goreOf(in)
	return areaIn(g.TotalArea, u, err)
}
