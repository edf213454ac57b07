package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Trace draws an outline piece by piece, as a pattern is traced off a chair.
// Edge names the edge that the following pieces belong to. The first wrong
// input is kept and returned by Close.
//
//	o, err := shape.TraceFrom(p0).Edge("front").Line(p1).Edge("side").Arc(p2, rise)...Close()
type Trace struct {
	sides []side
	at    geom.Point
	start geom.Point
	err   error
}

// TraceFrom starts at a point.
func TraceFrom(start Point) *Trace {
	t := &Trace{at: start.grid(), start: start.grid()}
	t.place(start)
	return t
}

func (t *Trace) fail(err error) {
	if t.err == nil {
		t.err = err
	}
}

func (t *Trace) place(ps ...Point) bool {
	for _, p := range ps {
		if err := checkPlace(p); err != nil {
			t.fail(err)
			return false
		}
	}
	return true
}

// Edge begins a new edge.
func (t *Trace) Edge(name string) *Trace {
	t.sides = append(t.sides, side{name: name})
	return t
}

func (t *Trace) add(s geom.Segment) *Trace {
	if s.From == s.To && s.Kind == geom.Line {
		return t
	}
	if len(t.sides) == 0 {
		t.fail(check.Required("edges[0].name", "a call of Edge before the first piece"))
		return t
	}
	last := &t.sides[len(t.sides)-1]
	last.path = append(last.path, s)
	t.at = s.To
	return t
}

// Line goes straight to a point. A line to where the trace stands is nothing.
func (t *Trace) Line(to Point) *Trace {
	if !t.place(to) {
		return t
	}
	return t.add(geom.LineTo(t.at, to.grid()))
}

// Arc goes to a point along an arc of a circle that rises by rise over the
// chord: above zero to the right of the way (outwards when the trace runs
// anticlockwise), below zero to the left. With chord c and rise h
//
//	R = c² / (8 h) + h / 2
//
// so that a rise of half the chord is half a circle. The rise is at most 50 m
// either way and at most 1000 times the chord.
func (t *Trace) Arc(to Point, rise unit.Length) *Trace {
	if !t.place(to) {
		return t
	}
	size := rise
	if size < 0 {
		size = -size
	}
	c := geom.Distance(t.at, to.grid())
	most := min(float64(widestOutline), 1000*c)
	if err := check.Length("rise", size, 0, unit.Length(most)); err != nil {
		t.fail(err)
		return t
	}
	if rise == 0 {
		return t.Line(to)
	}
	return t.add(geom.ArcTo(t.at, to.grid(), 2*float64(rise)/c))
}

// Quadratic goes to a point along a curve with one control point.
func (t *Trace) Quadratic(control, to Point) *Trace {
	if !t.place(control, to) {
		return t
	}
	return t.add(geom.QuadraticTo(t.at, control.grid(), to.grid()))
}

// Cubic goes to a point along a curve with two control points.
func (t *Trace) Cubic(control1, control2, to Point) *Trace {
	if !t.place(control1, control2, to) {
		return t
	}
	return t.add(geom.CubicTo(t.at, control1.grid(), control2.grid(), to.grid()))
}

// finish gives the sides that have pieces.
func (t *Trace) finish() ([]side, error) {
	if t.err != nil {
		return nil, t.err
	}
	var sides []side
	for _, s := range t.sides {
		if len(s.path) > 0 {
			sides = append(sides, s)
		}
	}
	return sides, nil
}

// Close goes straight back to the start, as part of the last edge, and gives
// the outline. A trace may run either way round; one that crosses itself is
// refused with a *CrossingError. Errors are *unit.InputError values.
func (t *Trace) Close() (Outline, error) {
	if t.at != t.start {
		t.add(geom.LineTo(t.at, t.start))
	}
	sides, err := t.finish()
	if err != nil {
		return Outline{}, err
	}
	return newOutline(sides)
}

// MirrorImage ends the name of the second one of an edge of a half outline, after
// that of the first; see Half.
const MirrorImage = " mirrored"

// Half gives a whole outline of which only one half was traced: from a
// point on the centre line to another point on it. The centre line is the
// upright through the start of the trace, and the other half is the mirror
// image. An edge that crosses the centre line at a right angle goes on as one
// edge; every other edge is there twice, the second time with " mirrored"
// after its name.
func Half(half *Trace) (Outline, error) {
	if half == nil {
		return Outline{}, check.Required("half", "a trace from the centre line and back to it")
	}
	sides, err := half.finish()
	if err != nil {
		return Outline{}, err
	}
	if len(sides) == 0 {
		return Outline{}, check.Required("half", "a trace from the centre line and back to it")
	}
	if half.at.X != half.start.X {
		return Outline{}, check.Refuse("half", fromGrid(half.at).String(), unit.ErrRange, "a trace that ends on the centre line x = "+unit.Length(half.start.X).String())
	}
	axis := half.start.X
	image := func(p []geom.Segment) []geom.Segment {
		m := geom.Path{Segments: p}.Translate(geom.Point{X: -axis}).Transform(geom.MirrorX).Translate(geom.Point{X: axis})
		return m.Reverse().Segments
	}
	level := func(v geom.Vec) bool { return v.X != 0 && math.Abs(v.Y) <= 1e-6*math.Abs(v.X) }
	n := len(sides)
	first, last := sides[0], sides[n-1]
	joinFirst := level(first.path[0].Tangent(0))
	joinLast := level(last.path[len(last.path)-1].Tangent(1))
	if n == 1 && joinFirst && joinLast {
		// One smooth edge all round.
		return newOutline([]side{{first.name, append(append([]geom.Segment(nil), first.path...), image(first.path)...)}})
	}
	var all []side
	for i, s := range sides {
		p := append([]geom.Segment(nil), s.path...)
		if i == 0 && joinFirst {
			p = append(image(s.path), p...)
		}
		if i == n-1 && joinLast {
			p = append(p, image(s.path)...)
		}
		all = append(all, side{s.name, p})
	}
	for i := n - 1; i >= 0; i-- {
		if i == 0 && joinFirst || i == n-1 && joinLast {
			continue
		}
		all = append(all, side{sides[i].name + MirrorImage, image(sides[i].path)})
	}
	return newOutline(all)
}
