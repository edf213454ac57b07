package layout

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/pack/nest"
	"github.com/coverwright/coverwright/internal/pack/verify"
	"github.com/coverwright/coverwright/unit"
)

// Outlines go to the engine as polygons on a grid of steps. Panels, holes,
// marks and zones are taken a little larger, skins a little smaller, so that
// the true curves keep every rule that the polygons keep. Straight outlines
// whose corners lie on the grid are taken as they are.

// nestStep is the grid of plans on skins: 125 nm, so that 64ths of an inch and
// whole micrometres lie on it.
const nestStep = 125

// exactCorners is the largest number of corners a straight outline may have to
// be taken as it is; beyond, chords of curves are likely and it is simplified.
const exactCorners = 24

// ringOf gives the corners of an outline for the engine, outwards (out +1) or
// inwards (out -1) by grow and at most tol more. With steady set the outline is
// never turned but by quarters, and corners on the grid stay where they are.
func ringOf(o shape.Outline, out int, grow, tol unit.Length, step int64, steady bool) (geom.Ring, error) {
	pts, err := o.Flatten(max(tol/4, 10*unit.Micrometre))
	if err != nil {
		return nil, err
	}
	ring := gridRing(pts)
	straight := isStraight(o, pts)
	if straight && grow == 0 && steady && len(ring) <= exactCorners && onGrid(ring, step) {
		return toSteps(ring, step), nil
	}
	d := int64(grow) + 8*step
	if !straight || len(ring) > exactCorners {
		d = int64(grow + tol/2)
	}
	moved, err := offsetRing(ring, int64(out)*d)
	if err != nil {
		return nil, err
	}
	if len(moved) > exactCorners {
		if s := simplified(moved, float64(tol)/5); keeps(ring, s, out) {
			moved = s
		}
	}
	if out > 0 && steady {
		moved = clipped(moved, outerBox(o, step))
	}
	r := toSteps(moved, step)
	if len(r) < 3 {
		return nil, check.Refuse("outline", o.String(), unit.ErrRange, "an outline that is not narrower than the tolerance")
	}
	return r, nil
}

// outerBox is the box around the true outline, outwards to the next steps.
func outerBox(o shape.Outline, step int64) geom.Box {
	low, high := o.Bounds()
	down := func(l unit.Length) int64 { return floorTo(int64(l), step) }
	up := func(l unit.Length) int64 { return -floorTo(-int64(l), step) }
	return geom.Box{Min: geom.Point{X: down(low.X), Y: down(low.Y)}, Max: geom.Point{X: up(high.X), Y: up(high.Y)}}
}

func floorTo(v, step int64) int64 {
	r := v % step
	if r < 0 {
		r += step
	}
	return v - r
}

// clipped cuts a ring at a box (Sutherland and Hodgman). The ring stands out
// over the sides a little only, so that what is left hangs together.
func clipped(r geom.Ring, b geom.Box) geom.Ring {
	cut := func(r geom.Ring, over func(geom.Point) int64, at func(a, c geom.Point) geom.Point) geom.Ring {
		var out geom.Ring
		for i, c := range r {
			a := r[(i+len(r)-1)%len(r)]
			if (over(a) > 0) != (over(c) > 0) {
				out = append(out, at(a, c))
			}
			if over(c) <= 0 {
				out = append(out, c)
			}
		}
		return out
	}
	across := func(a, c geom.Point, x int64) geom.Point {
		t := float64(x-a.X) / float64(c.X-a.X)
		return geom.Point{X: x, Y: a.Y + int64(math.Round(float64(t*float64(c.Y-a.Y))))}
	}
	along := func(a, c geom.Point, y int64) geom.Point {
		t := float64(y-a.Y) / float64(c.Y-a.Y)
		return geom.Point{X: a.X + int64(math.Round(float64(t*float64(c.X-a.X)))), Y: y}
	}
	r = cut(r, func(p geom.Point) int64 { return b.Min.X - p.X }, func(a, c geom.Point) geom.Point { return across(a, c, b.Min.X) })
	r = cut(r, func(p geom.Point) int64 { return p.X - b.Max.X }, func(a, c geom.Point) geom.Point { return across(a, c, b.Max.X) })
	r = cut(r, func(p geom.Point) int64 { return b.Min.Y - p.Y }, func(a, c geom.Point) geom.Point { return along(a, c, b.Min.Y) })
	return cut(r, func(p geom.Point) int64 { return p.Y - b.Max.Y }, func(a, c geom.Point) geom.Point { return along(a, c, b.Max.Y) })
}

// isStraight tells whether chords stand for no curve.
func isStraight(o shape.Outline, fine []shape.Point) bool {
	coarse, err := o.Flatten(unit.Metre)
	if err != nil || !slices.Equal(coarse, fine) {
		return false
	}
	finest, err := o.Flatten(10 * unit.Micrometre)
	return err == nil && slices.Equal(finest, fine)
}

func gridRing(pts []shape.Point) geom.Ring {
	r := make(geom.Ring, len(pts))
	for i, p := range pts {
		r[i] = geom.Point{X: int64(p.X), Y: int64(p.Y)}
	}
	return anticlockwise(r.Clean())
}

func anticlockwise(r geom.Ring) geom.Ring {
	if r.Orientation() < 0 {
		return r.Reverse()
	}
	return r
}

func onGrid(r geom.Ring, step int64) bool {
	return !slices.ContainsFunc(r, func(p geom.Point) bool { return p.X%step != 0 || p.Y%step != 0 })
}

// toSteps rounds corners to the grid, each once.
func toSteps(r geom.Ring, step int64) geom.Ring {
	s := make(geom.Ring, len(r))
	for i, p := range r {
		s[i] = geom.Point{X: nearest(p.X, step), Y: nearest(p.Y, step)}
	}
	return anticlockwise(s.Clean())
}

func nearest(v, step int64) int64 {
	h := step / 2
	if v < 0 {
		return -((-v + h) / step)
	}
	return (v + h) / step
}

// offsetRing moves a ring outwards or inwards; of several parts it keeps the
// largest, and fills what closed up.
func offsetRing(r geom.Ring, d int64) (geom.Ring, error) {
	if d == 0 {
		return r, nil
	}
	parts, err := geom.OffsetBy(r, d, geom.OffsetOptions{})
	if err != nil {
		return nil, plainGeom(err)
	}
	var best geom.Ring
	for _, p := range parts {
		if best == nil || p.Outer.Ring.TwiceArea().Cmp(best.TwiceArea()) > 0 {
			best = p.Outer.Ring
		}
	}
	if best == nil {
		return nil, check.Refuse("outline", "", unit.ErrRange, "an outline that leaves something inside its border")
	}
	return best.Clean(), nil
}

// plainGeom words an error of the geometry kernel.
func plainGeom(err error) error {
	switch {
	case errors.Is(err, geom.ErrTooComplex):
		return check.Refuse("outline", "", shape.ErrTooComplex, "a simpler outline")
	case errors.Is(err, geom.ErrSelfIntersection):
		return check.Refuse("outline", "", shape.ErrCrossing, "an outline that does not cross itself")
	}
	return check.Refuse("outline", "", unit.ErrRange, "an outline with an area, within 50 m")
}

// simplified leaves out corners that stand less than tol off the line between
// those kept (Ramer, Douglas and Peucker), both halves of the ring apart.
func simplified(r geom.Ring, tol float64) geom.Ring {
	far := 0
	for i, p := range r {
		if geom.Distance(p, r[0]) > geom.Distance(r[far], r[0]) {
			far = i
		}
	}
	if far == 0 {
		return r
	}
	open := append(slices.Clone(r), r[0])
	keep := make([]bool, len(open))
	keep[0], keep[far], keep[len(open)-1] = true, true, true
	type part struct{ a, b int }
	for todo := []part{{0, far}, {far, len(open) - 1}}; len(todo) > 0; {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		worst, at := tol, -1
		for i := p.a + 1; i < p.b; i++ {
			if d := fromChord(open[i], open[p.a], open[p.b]); d > worst {
				worst, at = d, i
			}
		}
		if at >= 0 {
			keep[at] = true
			todo = append(todo, part{p.a, at}, part{at, p.b})
		}
	}
	var out geom.Ring
	for i := range r {
		if keep[i] {
			out = append(out, r[i])
		}
	}
	return out
}

// fromChord is the distance of p from the straight piece a b.
func fromChord(p, a, b geom.Point) float64 {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	ex, ey := float64(p.X-a.X), float64(p.Y-a.Y)
	l := float64(dx*dx) + float64(dy*dy)
	if l == 0 {
		return geom.Distance(p, a)
	}
	t := (float64(ex*dx) + float64(ey*dy)) / l
	if t <= 0 {
		return geom.Distance(p, a)
	}
	if t >= 1 {
		return geom.Distance(p, b)
	}
	return math.Abs(float64(ex*dy)-float64(ey*dx)) / math.Sqrt(l)
}

// keeps tells whether the simplified ring is still sound: simple, and outside
// (out +1) or inside the ring it came from.
func keeps(was, is geom.Ring, out int) bool {
	if len(is) < 3 {
		return false
	}
	if _, crossing, err := is.FindSelfIntersection(); err != nil || crossing {
		return false
	}
	a, b := refSteps(was), refSteps(is)
	if out < 0 {
		a, b = b, a
	}
	return verify.Inside(a, b)
}

// refSteps gives a ring to the referee in steps fine enough for the question.
func refSteps(r geom.Ring) geom.Ring {
	out := make(geom.Ring, len(r))
	for i, p := range r {
		out[i] = geom.Point{X: nearest(p.X, nestStep), Y: nearest(p.Y, nestStep)}
	}
	return out
}

// pointsOf gives a ring of steps as a line on the leather.
func pointsOf(r geom.Ring, step int64) []shape.Point {
	out := make([]shape.Point, len(r))
	for i, p := range r {
		out[i] = shape.Point{X: unit.Length(p.X * step), Y: unit.Length(p.Y * step)}
	}
	return out
}

// nestError names the field of an engine error in the words of this package.
func nestError(err error) error {
	var in *nest.InputError
	if !errors.As(err, &in) {
		return err
	}
	switch {
	case errors.Is(err, nest.ErrNoRoom):
		return check.Refuse(in.Field, in.Value, ErrTooWide, in.Why)
	case errors.Is(err, nest.ErrEmpty):
		return check.Refuse(in.Field, in.Value, unit.ErrRequired, in.Why)
	case errors.Is(err, nest.ErrRing):
		return check.Refuse(in.Field, in.Value, shape.ErrCrossing, fmt.Sprintf("a plain outline: %s", in.Why))
	}
	return check.Refuse(in.Field, in.Value, unit.ErrRange, in.Why)
}
