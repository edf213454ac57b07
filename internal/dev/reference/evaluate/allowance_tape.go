package evaluate

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/dev/reference"
	"github.com/coverwright/coverwright/unit"
)

var tapeEvaluators = map[string]reference.Evaluator{
	"tape_sigma": length1(shape.TapeSigma, "tolerance"),
	"taped":      taped,
	"tapes_meet": func(in *reference.Inputs, u string) (reference.Value, error) {
		p, angle, err := shape.CrossTapes(in.Length("baseline"), in.Length("start"), in.Length("end"), in.Length("tolerance"))
		if err != nil {
			return reference.Value{}, err
		}
		switch of := in.Text("of"); of {
		case "point":
			return inUnit(u, nil, p.At.X, p.At.Y)
		case "sigma":
			return lengthIn(p.Sigma(), u)
		case "angle":
			return reference.Numbers(float64(angle / unit.Degree)), nil
		default:
			return reference.Value{}, unknown(of)
		}
	},
	"arc_by_tape":      arcByTape,
	"three_point_arc":  threePointArc,
	"trapezoidal_area": byOffsets(shape.TrapezoidalArea),
	"simpson_area":     byOffsets(shape.SimpsonArea),
	"quadrilateral_area": func(in *reference.Inputs, u string) (reference.Value, error) {
		l := in.Length
		a, err := shape.QuadrilateralArea(l("a"), l("b"), l("c"), l("d"), l("p"), l("q"))
		return areaIn(a, u, err)
	},
}

func unknown(of string) error { return fmt.Errorf("unknown size %q", of) }

// lengths reads a list of lengths, all in the unit that in names.
func lengths(in *reference.Inputs, name string) ([]unit.Length, error) {
	var out []unit.Length
	for _, text := range in.List(name) {
		l, err := unit.ParseLength(text + " in")
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	return out, nil
}

func byOffsets(f func(unit.Length, ...unit.Length) (unit.Area, error)) reference.Evaluator {
	return func(in *reference.Inputs, u string) (reference.Value, error) {
		widths, err := lengths(in, "inches")
		if err != nil {
			return reference.Value{}, err
		}
		a, err := f(in.Length("step"), widths...)
		return areaIn(a, u, err)
	}
}

// form reads a measured shape.
func form(in *reference.Inputs) (shape.Form, error) {
	l := in.Length
	f := shape.Form{Tolerance: l("tolerance")}
	switch name := in.Text("shape"); name {
	case "quadrilateral":
		f.Quadrilateral = &shape.QuadrilateralForm{Bottom: l("a"), Right: l("b"), Top: l("c"), Left: l("d"), Diagonal: l("e")}
		if in.Has("f") {
			f.Quadrilateral.SecondDiagonal = l("f")
		}
	case "offsets":
		right, err := lengths(in, "inches")
		if err != nil {
			return f, err
		}
		along := l("along")
		f.Offsets = &shape.OffsetsForm{Step: l("step"), Right: right, AlongTolerance: &along}
	case "straight side":
		w, along := l("width"), l("along")
		f.Stations = &shape.StationsForm{AlongTolerance: &along}
		for i := range in.Int("steps") + 1 {
			at, err := l("step").Times(i)
			if err != nil {
				return f, err
			}
			f.Stations.At = append(f.Stations.At, shape.StationForm{Along: at, Width: &w})
		}
	case "chord":
		f.Chord = &shape.ChordForm{Chord: l("chord"), Rise: l("rise")}
	case "polygon":
		xs, err := lengths(in, "x")
		if err != nil {
			return f, err
		}
		ys, err := lengths(in, "y")
		if err != nil {
			return f, err
		}
		f.Polygon = &shape.PolygonForm{}
		for i := range xs {
			f.Polygon.Corners = append(f.Polygon.Corners, shape.Point{X: xs[i], Y: ys[i]})
		}
	default:
		return f, fmt.Errorf("unknown shape %q", name)
	}
	return f, nil
}

// taped gives one of the figures of a measured outline; "n" names the measure,
// corner or edge, from 1.
func taped(in *reference.Inputs, u string) (reference.Value, error) {
	f, err := form(in)
	if err != nil {
		return reference.Value{}, err
	}
	t, err := f.Taped()
	if err != nil {
		return reference.Value{}, err
	}
	var edge shape.TapedEdge
	var corner shape.TapedPoint
	var measure shape.TapedMeasure
	if in.Has("n") {
		n := in.Int("n") - 1
		if n < 0 || n >= len(t.Measures) {
			return reference.Value{}, fmt.Errorf("no measure %d", n+1)
		}
		measure = t.Measures[n]
		if n < len(t.Corners) {
			corner, edge = t.Corners[n], t.Tolerance.Edges[n]
		}
	}
	d := t.Tolerance.Diagonal
	if d == nil {
		d = &shape.TapedDiagonal{}
	}
	switch of := in.Text("of"); of {
	case "area":
		return areaIn(t.Tolerance.Area.Size, u, nil)
	case "area sigma":
		return areaIn(t.Tolerance.Area.Sigma, u, nil)
	case "area worst":
		return areaIn(t.Tolerance.Area.Worst, u, nil)
	case "area likely":
		return areaIn(t.Tolerance.Area.Likely(), u, nil)
	case "perimeter":
		return lengthIn(t.Tolerance.Perimeter.Size, u)
	case "perimeter sigma":
		return lengthIn(t.Tolerance.Perimeter.Sigma, u)
	case "edge":
		return lengthIn(edge.Length.Size, u)
	case "edge likely":
		return lengthIn(edge.Length.Likely(), u)
	case "edge bias":
		return lengthIn(edge.Length.Bias, u)
	case "corner":
		return inUnit(u, nil, corner.At.X, corner.At.Y)
	case "corner sigma":
		return inUnit(u, nil, corner.SigmaX, corner.SigmaY)
	case "measure used":
		return lengthIn(measure.Used, u)
	case "on area":
		return lengthIn(measure.OnArea, u)
	case "second diagonal":
		return lengthIn(d.Computed, u)
	case "second diagonal sigma":
		return lengthIn(d.Sigma, u)
	case "misfit":
		return lengthIn(d.Misfit, u)
	case "misfit sigma":
		return lengthIn(d.MisfitSigma, u)
	case "on second diagonal":
		out := make([]float64, len(d.On))
		for i, r := range d.On {
			out[i] = float64(r)
		}
		return reference.Numbers(out...), nil
	default:
		return reference.Value{}, unknown(of)
	}
}

func arcByTape(in *reference.Inputs, u string) (reference.Value, error) {
	a, err := shape.ArcByTape(in.Length("chord"), in.Length("rise"), in.Length("tolerance"))
	if err != nil {
		return reference.Value{}, err
	}
	switch of := in.Text("of"); of {
	case "radius":
		return lengthIn(a.Radius.Size, u)
	case "radius sigma":
		return lengthIn(a.Radius.Sigma, u)
	case "radius worst":
		return lengthIn(a.Radius.Worst, u)
	case "radius likely":
		return lengthIn(a.Radius.Likely(), u)
	case "on radius":
		return reference.Numbers(float64(a.OnRadius[0]), float64(a.OnRadius[1])), nil
	case "length sigma":
		return lengthIn(a.Length.Sigma, u)
	case "on length":
		return reference.Numbers(float64(a.OnLength[0]), float64(a.OnLength[1])), nil
	case "area sigma":
		return areaIn(a.Area.Sigma, u, nil)
	case "on area":
		return inUnit(u, nil, a.OnArea[0], a.OnArea[1])
	default:
		return reference.Value{}, unknown(of)
	}
}

func threePointArc(in *reference.Inputs, u string) (reference.Value, error) {
	l := in.Length
	a, err := shape.ThreePointArc(shape.Point{}, shape.Point{X: l("x"), Y: l("y")}, shape.Point{X: l("chord")})
	if err != nil {
		return reference.Value{}, err
	}
	switch of := in.Text("of"); of {
	case "centre":
		return inUnit(u, nil, a.Centre.X, a.Centre.Y)
	case "radius":
		return lengthIn(a.Radius, u)
	case "rise":
		return lengthIn(a.Rise, u)
	default:
		return reference.Value{}, unknown(of)
	}
}
