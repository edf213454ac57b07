package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
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
	a, err := allowance.RegularPolygonArea(in.Int("n"), in.Length("side"))
	return areaIn(a, u, err)
}

func polygonLength(f func(int, unit.Length) (unit.Length, error)) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		l, err := f(in.Int("n"), in.Length("side"))
		return inUnit(u, err, l)
	}
}

func arc(pick func(allowance.ChordArc) unit.Length) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		a, err := allowance.ArcFromChord(in.Length("chord"), in.Length("rise"))
		return inUnit(u, err, pick(a))
	}
}

func arcAngle(in *reference.Inputs, _ string) (reference.Value, error) {
	a, err := allowance.ArcFromChord(in.Length("chord"), in.Length("rise"))
	return reference.Numbers(a.Angle.Degrees()), err
}

func segmentArea(in *reference.Inputs, u string) (reference.Value, error) {
	a, err := allowance.ArcFromChord(in.Length("chord"), in.Length("rise"))
	return areaIn(a.SegmentArea, u, err)
}

// shape reads a convex shape: its area, perimeter and, for polygons, the sum
// of its mitres.
func shape(in *reference.Inputs) (area unit.Area, perimeter unit.Length, mitre unit.Ratio, err error) {
	switch name := in.Text("shape"); name {
	case "rectangle":
		w, h := in.Length("w"), in.Length("h")
		if area, err = allowance.RoundedRectangleArea(w, h, 0); err != nil {
			return
		}
		if perimeter, err = allowance.RoundedRectanglePerimeter(w, h, 0); err != nil {
			return
		}
		mitre, err = allowance.MitreSum(90*unit.Degree, 90*unit.Degree, 90*unit.Degree, 90*unit.Degree)
	case "polygon":
		n, s := in.Int("n"), in.Length("side")
		if area, err = allowance.RegularPolygonArea(n, s); err != nil {
			return
		}
		if perimeter, err = allowance.RegularPolygonPerimeter(n, s); err != nil {
			return
		}
		angles := make([]unit.Angle, n)
		for i := range angles {
			angles[i] = unit.Turn / unit.Angle(n)
		}
		mitre, err = allowance.MitreSum(angles...)
	case "circle":
		d := in.Length("d")
		if area, err = allowance.CircleArea(d); err != nil {
			return
		}
		perimeter, err = allowance.CircleCircumference(d)
	case "ellipse":
		a, b := in.Length("a"), in.Length("b")
		if area, err = allowance.EllipseArea(a, b); err != nil {
			return
		}
		perimeter, err = allowance.EllipsePerimeter(a, b)
	default:
		err = fmt.Errorf("shape %q", name)
	}
	return
}

func offsetArea(in *reference.Inputs, u string) (reference.Value, error) {
	a, p, mitre, err := shape(in)
	if err != nil {
		return reference.Value{}, err
	}
	if in.Text("corners") == "mitred" {
		a, err = allowance.MitredOffsetArea(a, p, in.Length("s"), mitre)
	} else {
		a, err = allowance.SteinerArea(a, p, in.Length("s"))
	}
	return areaIn(a, u, err)
}

func offsetPerimeter(in *reference.Inputs, u string) (reference.Value, error) {
	_, p, mitre, err := shape(in)
	if err != nil {
		return reference.Value{}, err
	}
	if in.Text("corners") == "mitred" {
		p, err = allowance.MitredOffsetPerimeter(p, in.Length("s"), mitre)
	} else {
		p, err = allowance.SteinerPerimeter(p, in.Length("s"))
	}
	return inUnit(u, err, p)
}

func develop(in *reference.Inputs) (allowance.Sector, error) {
	f := allowance.ConeFrustum{Large: in.Length("R"), Small: in.Length("r"), Height: in.Length("h")}
	if in.Has("wrap") {
		f.Wrap = in.Angle("wrap")
	}
	return f.Develop()
}

func sector(pick func(allowance.Sector) []unit.Length) reference.Evaluator {
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

func dome(in *reference.Inputs) (allowance.Dome, error) {
	form, err := parsed[allowance.GoreForm](in, "form")
	d, halfErr := in.Length("d").MulDiv(1, 2, unit.Nearest)
	if err == nil {
		err = halfErr
	}
	out := allowance.Dome{Radius: d, Gores: in.Int("n"), Form: form}
	if in.Has("rim") {
		out.Rim = in.Angle("rim")
	}
	return out, err
}

func goreOf(in *reference.Inputs) (allowance.Gore, error) {
	d, err := dome(in)
	if err != nil {
		return allowance.Gore{}, err
	}
	return d.Gore()
}

func gore(pick func(allowance.Gore) unit.Length) reference.Evaluator {
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
