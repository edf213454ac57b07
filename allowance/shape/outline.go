package shape

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// ErrCrossing says an outline crosses or touches itself.
var ErrCrossing = errors.New("outline crosses itself")

// ErrTooComplex says an outline needs more work than the calculator allows.
var ErrTooComplex = errors.New("outline too complex")

// widestOutline is the largest coordinate of an outline either way.
const widestOutline = 50 * unit.Metre

// DefaultTolerance is the largest distance between a curve and the chords
// that stand for it on a cut or seam line, where none is given.
const DefaultTolerance = unit.Millimetre / 10

// Point is a place in the panel's own axes: X across the goods, Y along the
// grain. As text, and in JSON, it is "3 in, 4 in".
type Point struct {
	X unit.Length
	Y unit.Length
}

// String writes the point as (x, y).
func (p Point) String() string { return fmt.Sprintf("(%v, %v)", p.X, p.Y) }

// MarshalText writes the point as "3 in, 4 in": X, then Y.
func (p Point) MarshalText() ([]byte, error) { return []byte(p.X.String() + ", " + p.Y.String()), nil }

// UnmarshalText reads two lengths with a comma between them, X first. It wraps
// unit.ErrSyntax or the errors of unit.ParseLength.
func (p *Point) UnmarshalText(text []byte) error {
	x, y, ok := strings.Cut(string(text), ",")
	if !ok || strings.Contains(y, ",") {
		return check.Refuse("", string(text), unit.ErrSyntax, "two lengths such as \"3 in, 4 in\"")
	}
	var q Point
	var err error
	if q.X, err = unit.ParseLength(strings.TrimSpace(x)); err != nil {
		return err
	}
	if q.Y, err = unit.ParseLength(strings.TrimSpace(y)); err != nil {
		return err
	}
	*p = q
	return nil
}

func (p Point) grid() geom.Point   { return geom.Point{X: int64(p.X), Y: int64(p.Y)} }
func fromGrid(p geom.Point) Point  { return Point{unit.Length(p.X), unit.Length(p.Y)} }
func pointsOf(r geom.Ring) []Point { return mapped(r, fromGrid) }
func mapped[A, B any](s []A, f func(A) B) []B {
	out := make([]B, len(s))
	for i, v := range s {
		out[i] = f(v)
	}
	return out
}

// Outline is the closed border of a finished panel: named edges, one after
// the other anticlockwise, each a chain of straight lines, arcs of circles and
// ellipses, quadratic and cubic curves. Corner points lie on whole nanometres.
//
// An outline comes from one of the constructors; it does not cross itself and
// has an area. The zero value is no outline and is refused.
type Outline struct {
	sides []side
	whole []geom.Segment // the paths of all sides, one after the other
	area  float64        // inside the true curves, in square nanometres
	box   geom.Box       // around the true curves
}

// side is one named edge.
type side struct {
	name string
	path []geom.Segment
}

// CrossingError says where an outline crosses or touches itself. It wraps a
// *unit.InputError, and that ErrCrossing.
type CrossingError struct {
	First, Second string // names of the edges that meet; may be the same
	// At is the place in the axes in which the outline was given: those of the
	// points of a trace or polygon; of stations, x to the right of the centre
	// line and y along it; of a path, those of its data, y down, as lengths.
	At    Point
	input *unit.InputError
}

func crossingAt(first, second string, at Point) *CrossingError {
	return &CrossingError{First: first, Second: second, At: at, input: &unit.InputError{
		Field: "outline", Value: at.String(), Err: ErrCrossing,
		Want: fmt.Sprintf("edges that do not meet there (%s and %s do)", first, second),
	}}
}

// Error names the two edges and the place.
func (e *CrossingError) Error() string { return e.input.Error() }

// Unwrap gives the *unit.InputError.
func (e *CrossingError) Unwrap() error { return e.input }

// seal puts the paths of the sides into one array and measures them.
func seal(sides []side) Outline {
	n := 0
	for _, s := range sides {
		n += len(s.path)
	}
	o := Outline{sides: sides, whole: make([]geom.Segment, 0, n)}
	for i, s := range sides {
		from := len(o.whole)
		o.whole = append(o.whole, s.path...)
		sides[i].path = o.whole[from:len(o.whole):len(o.whole)]
	}
	o.area, o.box = o.path().Area(), o.path().Bounds()
	return o
}

// newOutline checks the sides and brings them into anticlockwise order.
func newOutline(sides []side) (Outline, error) {
	o := seal(sides)
	seen := map[string]bool{}
	for i, s := range sides {
		if s.name == "" {
			return Outline{}, check.Required(check.At("edges", i)+".name", "a name for the edge")
		}
		if seen[s.name] {
			return Outline{}, check.Refuse(check.At("edges", i)+".name", s.name, unit.ErrRange, "a name no other edge has")
		}
		seen[s.name] = true
	}
	p := o.path()
	if len(p.Segments) == 0 || !p.Closed() {
		return Outline{}, check.Refuse("outline", "", unit.ErrRange, "edges that end where the first begins")
	}
	for _, s := range p.Segments {
		for _, q := range [4]geom.Point{s.From, s.To, s.C1, s.C2} {
			if err := checkPlace(fromGrid(q)); err != nil {
				return Outline{}, err
			}
		}
	}
	if err := p.Check(); err != nil {
		return Outline{}, outlineError(err)
	}
	ring, of, err := p.Flatten(geom.FlattenOptions{Tolerance: o.checkTolerance()})
	if err != nil {
		return Outline{}, outlineError(err)
	}
	if err := o.checkSimple(ring, of); err != nil {
		return Outline{}, err
	}
	switch ring.Orientation() {
	case 0:
		return Outline{}, check.Refuse("outline", "", unit.ErrRange, "an outline with an area")
	case -1:
		return o.reversed(), nil
	}
	return o, nil
}

func checkPlace(p Point) error {
	for _, l := range [2]unit.Length{p.X, p.Y} {
		if l < -widestOutline || l > widestOutline {
			return check.Refuse("outline", p.String(), unit.ErrRange, "points within "+widestOutline.String()+" of the origin")
		}
	}
	return nil
}

// checkTolerance is a chord tolerance fine enough to find crossings of the
// outline: 0.1 mm, and finer for a small panel.
func (o Outline) checkTolerance() int64 {
	b := o.box
	return max(100, min(int64(DefaultTolerance), max(b.Width(), b.Height())/2000))
}

// checkSimple refuses an outline that meets itself. of names the segment of
// each edge of the ring.
func (o Outline) checkSimple(ring geom.Ring, of []int) error {
	c, bad, err := ring.FindSelfIntersection()
	if err != nil {
		return outlineError(err)
	}
	if !bad {
		return nil
	}
	return crossingAt(o.sideOf(of[c.EdgeA]), o.sideOf(of[c.EdgeB]), fromGrid(c.At))
}

// chords flattens the outline to a ring that does not meet itself. Where two
// curves leave a corner almost along each other, chords can cross that the
// curves between them do not: finer ones are tried, at last those the outline
// was accepted with.
func (o Outline) chords(opt geom.FlattenOptions) (geom.Ring, []int, error) {
	finest := geom.FlattenOptions{Tolerance: o.checkTolerance()}
	for try := 0; ; try++ {
		ring, of, err := o.path().Flatten(opt)
		if err != nil {
			return nil, nil, outlineError(err)
		}
		if len(ring) == len(o.whole) { // no curves
			return ring, of, nil
		}
		err = o.checkSimple(ring, of)
		if err == nil || opt == finest {
			return ring, of, err
		}
		if opt.Tolerance /= 4; try == 3 || opt.Tolerance < 100 {
			opt = finest
		}
	}
}

// sideOf names the edge that segment k of the path belongs to.
func (o Outline) sideOf(k int) string {
	for _, s := range o.sides {
		if k < len(s.path) {
			return s.name
		}
		k -= len(s.path)
	}
	return ""
}

// outlineError words an error of the geometry kernel.
func outlineError(err error) error {
	switch {
	case errors.Is(err, geom.ErrRange):
		return check.Refuse("outline", "", unit.ErrRange, "points within "+widestOutline.String()+" of the origin")
	case errors.Is(err, geom.ErrTooComplex):
		return check.Refuse("outline", "", ErrTooComplex, "fewer points or a coarser tolerance")
	case errors.Is(err, geom.ErrDegenerate):
		return check.Refuse("outline", "", unit.ErrRange, "an outline with an area")
	}
	return check.Refuse("outline", "", unit.ErrRange, err.Error())
}

func (o Outline) path() geom.Path { return geom.Path{Segments: o.whole} }

func (o Outline) reversed() Outline {
	n := len(o.sides)
	sides := make([]side, n)
	for i, s := range o.sides {
		sides[n-1-i] = side{s.name, geom.Path{Segments: s.path}.Reverse().Segments}
	}
	return seal(sides)
}

// mapSegments gives the outline with every segment replaced. A map that turns
// the outline over is followed by a reversal, so it stays anticlockwise.
func (o Outline) mapSegments(f func(geom.Segment) geom.Segment, flips bool) Outline {
	n := len(o.sides)
	sides := make([]side, n)
	for i, s := range o.sides {
		p := mapped(s.path, f)
		if flips {
			sides[n-1-i] = side{s.name, geom.Path{Segments: p}.Reverse().Segments}
		} else {
			sides[i] = side{s.name, p}
		}
	}
	return seal(sides)
}

// IsZero tells whether o is the zero value, no outline.
func (o Outline) IsZero() bool { return len(o.sides) == 0 }

// Edges gives the names of the edges, anticlockwise.
func (o Outline) Edges() []string {
	return mapped(o.sides, func(s side) string { return s.name })
}

func (o Outline) find(name string) (side, error) {
	for _, s := range o.sides {
		if s.name == name {
			return s, nil
		}
	}
	return side{}, check.OneOf("edge", name, o.Edges()...)
}

// EdgeLength gives the length of one edge along its curves. Curves are
// measured to 1e-9 of their length before the result is rounded to the
// nearest nanometre. An unknown name wraps unit.ErrUnknown.
func (o Outline) EdgeLength(name string) (unit.Length, error) {
	s, err := o.find(name)
	if err != nil {
		return 0, err
	}
	return s.length(), nil
}

// EdgeSpan gives the distance between the ends of one edge, to the nearest
// nanometre: its length where it is straight, nothing where it is closed. An
// unknown name wraps unit.ErrUnknown.
func (o Outline) EdgeSpan(name string) (unit.Length, error) {
	s, err := o.find(name)
	if err != nil {
		return 0, err
	}
	return unit.Length(math.Round(geom.Distance(s.path[0].From, s.path[len(s.path)-1].To))), nil
}

func (s side) length() unit.Length {
	return unit.Length(math.Round(geom.Path{Segments: s.path}.Length()))
}

// Perimeter gives the length all round, rounded to the nearest nanometre.
func (o Outline) Perimeter() unit.Length { return unit.Length(math.Round(o.path().Length())) }

// Area gives the area inside the true curves (Green's theorem), rounded to the
// nearest square micrometre.
func (o Outline) Area() unit.Area { return areaFromGrid(o.area) }

// areaFromGrid brings square nanometres to square micrometres.
func areaFromGrid(nm2 float64) unit.Area { return unit.Area(math.Round(nm2 / 1e6)) }

// Bounds gives the lower left and the upper right corner of the smallest
// upright rectangle around the true curves.
func (o Outline) Bounds() (low, high Point) {
	b := o.box
	return fromGrid(b.Min), fromGrid(b.Max)
}

// Size gives width (across the goods) and height (along the grain) of the
// smallest upright rectangle around the outline.
func (o Outline) Size() (width, height unit.Length) {
	b := o.box
	return unit.Length(b.Width()), unit.Length(b.Height())
}

// Centroid gives the centre of the area; the zero point for no outline.
func (o Outline) Centroid() Point {
	x, y, ok := o.path().Centroid()
	if !ok {
		return Point{}
	}
	return Point{unit.Length(math.Round(x)), unit.Length(math.Round(y))}
}

// Convex tells whether the outline nowhere bends inwards by more than a tenth
// of a millimetre (less on a small panel): the convex hull of its chords is
// no further away.
func (o Outline) Convex() bool {
	tol := o.checkTolerance()
	ring, _, err := o.path().Flatten(geom.FlattenOptions{Tolerance: tol})
	if err != nil || len(ring) < 3 {
		return false
	}
	hull := geom.Hull(ring)
	d, err := geom.MaxDeviation(ring, hull, max(1, float64(tol)/10))
	return err == nil && d <= float64(tol)
}

// Flatten gives the corners of chords along the outline, anticlockwise, none
// further from the true curve than the tolerance: from 10 micrometres up, zero
// for DefaultTolerance.
func (o Outline) Flatten(tolerance unit.Length) ([]Point, error) {
	if o.IsZero() {
		return nil, check.Required("outline", "one of the outlines of this package")
	}
	if err := check.Length("tolerance", tolerance, 0, unit.Metre); err != nil {
		return nil, err
	}
	if tolerance == 0 {
		tolerance = DefaultTolerance
	}
	ring, _, err := o.chords(geom.FlattenOptions{Tolerance: int64(tolerance)})
	if err != nil {
		return nil, err
	}
	return pointsOf(ring), nil
}

// Moved gives the outline moved by d, which must keep it within 50 m of the
// origin, and the points that draw its curves.
func (o Outline) Moved(d Point) (Outline, error) {
	if err := checkPlace(d); err != nil {
		return Outline{}, err
	}
	r := o.mapSegments(func(s geom.Segment) geom.Segment { return s.Translate(d.grid()) }, false)
	low, high := r.Bounds()
	points := []Point{low, high}
	for _, s := range r.whole {
		points = append(points, fromGrid(s.C1), fromGrid(s.C2))
	}
	for _, p := range points {
		if err := checkPlace(p); err != nil {
			return Outline{}, err
		}
	}
	return r, nil
}

// Turned gives the outline turned anticlockwise about the origin by quarter
// turns, exactly. Any whole number will do.
func (o Outline) Turned(quarters int) Outline {
	t := [4]geom.Transform{geom.Identity, geom.Rotate90, geom.Rotate180, geom.Rotate270}[((quarters%4)+4)%4]
	return o.mapSegments(func(s geom.Segment) geom.Segment { return s.Transform(t) }, false)
}

// Mirrored gives the outline turned over left for right (x changes sign),
// exactly, for the other hand of a pair. Edges keep their names.
func (o Outline) Mirrored() Outline {
	return o.mapSegments(func(s geom.Segment) geom.Segment { return s.Transform(geom.MirrorX) }, true)
}

// Renamed gives the outline with new names for its edges, in the order of
// Edges. There must be one for each, all different.
func (o Outline) Renamed(names ...string) (Outline, error) {
	if len(names) != len(o.sides) {
		return Outline{}, check.Count("names", len(names), len(o.sides), len(o.sides))
	}
	r := o
	r.sides = make([]side, len(o.sides))
	seen := map[string]bool{}
	for i, s := range o.sides {
		if seen[names[i]] {
			return Outline{}, check.Refuse(check.At("names", i), names[i], unit.ErrRange, "a name no other edge has")
		}
		seen[names[i]] = true
		if names[i] == "" {
			return Outline{}, check.Required(check.At("names", i), "a name for the edge")
		}
		r.sides[i] = side{names[i], s.path}
	}
	return r, nil
}

// Scaled gives the outline with its bounding box brought to a new width and
// height, both above zero up to 100 m, the lower left corner in place.
func (o Outline) Scaled(width, height unit.Length) (Outline, error) {
	if o.IsZero() {
		return o, check.Required("outline", "one of the outlines of this package")
	}
	for i, l := range [2]unit.Length{width, height} {
		if err := check.Length([2]string{"width", "height"}[i], l, 10*unit.Micrometre, 2*widestOutline); err != nil {
			return Outline{}, err
		}
	}
	b := o.box
	if int64(width) == b.Width() && int64(height) == b.Height() {
		return o, nil
	}
	fx, fy := float64(width)/float64(b.Width()), float64(height)/float64(b.Height())
	return o.mapSegments(func(s geom.Segment) geom.Segment { return geom.Scaling(fx, fy).About(b.Min, s) }, false), nil
}

// Mark gives the point of the true line at a length from the start of an edge,
// anticlockwise, and the point square out from it at a distance. Errors name
// edge or at; at is from zero to the length of the edge.
func (o Outline) Mark(edge string, at, out unit.Length) (on, off Point, err error) {
	s, err := o.find(edge)
	if err != nil {
		return on, off, err
	}
	if err := check.Length("at", at, 0, s.length()); err != nil {
		return on, off, err
	}
	p, d := s.along(float64(at))
	far := float64(out)
	// Outwards is to the right of an anticlockwise way.
	q := p.Add(geom.Point{X: int64(math.Round(float64(far * d.Y))), Y: int64(math.Round(-float64(far * d.X)))})
	return fromGrid(p), fromGrid(q), nil
}

// along gives the point at a length from the start of the edge, and the
// direction there as a unit vector.
func (s side) along(l float64) (geom.Point, geom.Vec) {
	for i, g := range s.path {
		length := g.Length()
		if l <= length || i == len(s.path)-1 {
			t := g.ParameterAt(l)
			return g.At(t), g.Tangent(t)
		}
		l -= length
	}
	return geom.Point{}, geom.Vec{} // an edge has at least one piece
}

// String names the outline's size and edges.
func (o Outline) String() string {
	if o.IsZero() {
		return "no outline"
	}
	w, h := o.Size()
	return fmt.Sprintf("outline %v x %v: %s", w, h, strings.Join(o.Edges(), ", "))
}
