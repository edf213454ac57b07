package shape

import (
	"math"
	"strconv"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// The constructors of common shapes. Each stands with the lower left corner of
// its bounding box at the origin unless it says otherwise, and names its edges.

// widestShape is the largest size of a shape: from the origin to the limit.
const widestShape = widestOutline

func checkSize(field string, l unit.Length) error {
	if l <= 0 {
		return check.Refuse(field, l.String(), unit.ErrRange, "a length above zero, up to "+widestShape.String())
	}
	return check.Length(field, l, 0, widestShape)
}

// firstError gives the first error that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

func at(x, y unit.Length) Point { return Point{x, y} }

// Rectangle gives a rectangle: edges bottom, right, top, left. Width is
// across the goods, height along the grain; each up to 50 m.
func Rectangle(width, height unit.Length) (Outline, error) {
	if err := firstError(checkSize("width", width), checkSize("height", height)); err != nil {
		return Outline{}, err
	}
	return TraceFrom(Point{}).
		Edge("bottom").Line(at(width, 0)).
		Edge("right").Line(at(width, height)).
		Edge("top").Line(at(0, height)).
		Edge("left").Close()
}

// Trapezoid gives a trapezoid with two level edges: bottom, right, top,
// left. The top begins shift to the right of the left end of the bottom; for a
// symmetric one shift = (bottom - top) / 2. Shift may be negative.
//
//	area = (bottom + top) / 2 × height
func Trapezoid(bottom, top, height, shift unit.Length) (Outline, error) {
	if err := firstError(checkSize("bottom", bottom), checkSize("top", top), checkSize("height", height)); err != nil {
		return Outline{}, err
	}
	if shift < -widestShape || shift > widestShape {
		return Outline{}, check.Refuse("shift", shift.String(), unit.ErrRange, "within "+widestShape.String()+" either way")
	}
	x := max(0, -shift) // so that the left end of the box is at zero
	return TraceFrom(at(x, 0)).
		Edge("bottom").Line(at(x+bottom, 0)).
		Edge("right").Line(at(x+shift+top, height)).
		Edge("top").Line(at(x+shift, height)).
		Edge("left").Close()
}

// Triangle gives a triangle by its three sides: base along the bottom,
// then right and left. Each side must be shorter than the other two together.
// The apex is rounded to the nearest nanometre:
//
//	x = (base² + left² - right²) / (2 base),  y = sqrt(left² - x²)
func Triangle(base, right, left unit.Length) (Outline, error) {
	if err := firstError(checkSize("base", base), checkSize("right", right), checkSize("left", left)); err != nil {
		return Outline{}, err
	}
	if base >= right+left || right >= left+base || left >= base+right {
		return Outline{}, check.Refuse("base", base.String(), unit.ErrRange, "sides each shorter than the other two together")
	}
	b, r, l := float64(base), float64(right), float64(left)
	x := (float64(b*b) + float64((l-r)*(l+r))) / (2 * b)
	y := math.Sqrt((l - x) * (l + x))
	apex := Point{unit.Length(math.Round(x)), unit.Length(math.Round(y))}
	return TraceFrom(Point{}).
		Edge("base").Line(at(base, 0)).
		Edge("right").Line(apex).
		Edge("left").Close()
}

// RegularPolygon gives a regular polygon of n sides, 3 to 360, the
// first along the bottom: edges "side 1", "side 2" and so on. Corners are
// rounded to the nearest nanometre.
//
//	area = n side² / (4 tan(π/n)),  corner radius = side / (2 sin(π/n))
func RegularPolygon(n int, sideLength unit.Length) (Outline, error) {
	if err := firstError(check.Count("n", n, 3, 360), checkSize("side_length", sideLength)); err != nil {
		return Outline{}, err
	}
	s := float64(sideLength)
	half, _ := geom.SinCos(math.Pi / float64(n))
	radius := s / (2 * half)
	if 2*radius > float64(widestShape) {
		return Outline{}, check.Refuse("side_length", sideLength.String(), unit.ErrRange, "a polygon at most "+widestShape.String()+" across")
	}
	corner := func(k int) Point {
		// The first corner is the left end of the bottom side.
		sin, cos := geom.SinCos(math.Pi * float64(4*k-n-2) / float64(2*n))
		return Point{unit.Length(math.Round(radius * cos)), unit.Length(math.Round(radius * sin))}
	}
	t := TraceFrom(corner(0))
	for k := 1; k <= n; k++ {
		t.Edge(sideName(k))
		if k < n {
			t.Line(corner(k))
		}
	}
	o, err := t.Close()
	if err != nil {
		return Outline{}, err
	}
	return o.toOrigin()
}

func sideName(k int) string { return "side " + strconv.Itoa(k) }

// toOrigin moves the lower left corner of the bounding box to the origin.
func (o Outline) toOrigin() (Outline, error) {
	low, _ := o.Bounds()
	return o.Moved(Point{-low.X, -low.Y})
}

// quarter is the bulge of a quarter of a circle, tan(π/8).
const quarterBulge = math.Sqrt2 - 1

// Circle gives a circle: one edge, rim, from the bottom anticlockwise.
// A diameter of an odd number of nanometres counts as one less.
func Circle(diameter unit.Length) (Outline, error) {
	if err := checkSize("diameter", diameter); err != nil {
		return Outline{}, err
	}
	r := diameter / 2
	ps := [4]geom.Point{at(r, 0).grid(), at(2*r, r).grid(), at(r, 2*r).grid(), at(0, r).grid()}
	var path []geom.Segment
	for i, p := range ps {
		path = append(path, geom.ArcTo(p, ps[(i+1)%4], quarterBulge))
	}
	return newOutline([]side{{"rim", path}})
}

// Ellipse gives an ellipse by its two full axes: one edge, rim. The
// perimeter is the elliptic integral, to 1e-9.
func Ellipse(width, height unit.Length) (Outline, error) {
	if err := firstError(checkSize("width", width), checkSize("height", height)); err != nil {
		return Outline{}, err
	}
	if width == height {
		return Circle(width)
	}
	a, b := float64(width/2), float64(height/2)
	var path []geom.Segment
	for k := range 4 {
		t := float64(float64(k-1) * math.Pi / 2)
		path = append(path, geom.EllipticArcTo(geom.Vec{X: a, Y: b}, geom.Vec{X: a}, geom.Vec{Y: b}, t, t+math.Pi/2))
	}
	return newOutline([]side{{"rim", path}})
}

// Stadium gives two half circles joined by straights, overall length
// (across the goods) and width: edges bottom, right, top, left. Length must be
// more than width.
//
//	area = π r² + 2 r a,  perimeter = 2 (π r + a),  r = width / 2, a = length - width
func Stadium(length, width unit.Length) (Outline, error) {
	if err := firstError(checkSize("length", length), checkSize("width", width)); err != nil {
		return Outline{}, err
	}
	if length-width < 10*unit.Micrometre {
		return Outline{}, check.Length("length", length, width+10*unit.Micrometre, widestShape)
	}
	r := width / 2
	h := 2 * r
	return TraceFrom(at(r, 0)).
		Edge("bottom").Line(at(length-r, 0)).
		Edge("right").Arc(at(length-r, h), r).
		Edge("top").Line(at(r, h)).
		Edge("left").Arc(at(r, 0), r).Close()
}

// CornerRadii are the four radii of a rounded rectangle; zero leaves a corner
// sharp.
type CornerRadii struct {
	BottomLeft  unit.Length `json:"bottom_left,omitzero"`  // 0 when not given
	BottomRight unit.Length `json:"bottom_right,omitzero"` // 0 when not given
	TopRight    unit.Length `json:"top_right,omitzero"`    // 0 when not given
	TopLeft     unit.Length `json:"top_left,omitzero"`     // 0 when not given
}

// SameRadii gives four equal radii.
func SameRadii(r unit.Length) CornerRadii { return CornerRadii{r, r, r, r} }

// RoundedRectangle gives a rectangle with rounded corners. Edges: bottom,
// right, top, left, and between them the corners that are round, such as
// "bottom right corner". Two radii on one side must fit its length together; a
// side they use up has no edge of its own.
//
//	area = w h - (4 - π) r²,  perimeter = 2 (w + h) - (8 - 2 π) r  for equal radii
func RoundedRectangle(width, height unit.Length, radii CornerRadii) (Outline, error) {
	if err := firstError(checkSize("width", width), checkSize("height", height)); err != nil {
		return Outline{}, err
	}
	bl, br, tr, tl := radii.BottomLeft, radii.BottomRight, radii.TopRight, radii.TopLeft
	most := min(width, height)
	for _, r := range []struct {
		field string
		r     unit.Length
	}{{"radii.bottom_left", bl}, {"radii.bottom_right", br}, {"radii.top_right", tr}, {"radii.top_left", tl}} {
		if err := check.Length(r.field, r.r, 0, most); err != nil {
			return Outline{}, err
		}
	}
	for _, s := range []struct {
		field string
		sum   unit.Length
		most  unit.Length
	}{{"radii.bottom_right", bl + br, width}, {"radii.top_left", tl + tr, width}, {"radii.top_right", br + tr, height}, {"radii.bottom_left", bl + tl, height}} {
		if s.sum > s.most {
			return Outline{}, check.Refuse(s.field, s.sum.String(), unit.ErrRange, "two radii that together fit the side of "+s.most.String())
		}
	}
	t := TraceFrom(at(bl, 0))
	corner := func(name string, r unit.Length, to Point) {
		if r > 0 {
			t.Edge(name)
			t.add(geom.ArcTo(t.at, to.grid(), quarterBulge))
		}
	}
	t.Edge("bottom").Line(at(width-br, 0))
	corner("bottom right corner", br, at(width, br))
	t.Edge("right").Line(at(width, height-tr))
	corner("top right corner", tr, at(width-tr, height))
	t.Edge("top").Line(at(tl, height))
	corner("top left corner", tl, at(0, height-tl))
	t.Edge("left").Line(at(0, bl))
	corner("bottom left corner", bl, at(bl, 0))
	return t.Close()
}

// Polygon gives a polygon through its corners, either way round, not
// moved: edges "side 1" from the first corner to the second, and so on, as they
// were given. Repeated corners are left out.
func Polygon(corners ...Point) (Outline, error) {
	if err := check.Count("corners", len(corners), 3, 100_000); err != nil {
		return Outline{}, err
	}
	t := TraceFrom(corners[0])
	for k := range corners {
		t.Edge(sideName(k + 1))
		if k+1 < len(corners) {
			t.Line(corners[k+1])
		}
	}
	return t.Close()
}

// Chord gives the area between a level chord and an arc that rises over
// it: edges chord and arc. The rise may be more than half the chord.
//
//	R = c² / (8 h) + h / 2,  θ = 4 atan(2 h / c)
//	arc = R θ,  area = R² (θ - sin θ) / 2
func Chord(chord, rise unit.Length) (Outline, error) {
	if err := firstError(checkSize("chord", chord), checkSize("rise", rise)); err != nil {
		return Outline{}, err
	}
	o, err := TraceFrom(Point{}).
		Edge("chord").Line(at(chord, 0)).
		Edge("arc").Arc(Point{}, rise).Close()
	if err != nil {
		return Outline{}, err
	}
	return o.toOrigin()
}

// Crowned gives a rectangle whose top rises in an arc, as the inside
// back of a chair: edges bottom, right, top, left. Height is measured at the
// sides; the middle stands rise higher. The rise is at most half the width.
func Crowned(width, height, rise unit.Length) (Outline, error) {
	if err := firstError(checkSize("width", width), checkSize("height", height), check.Length("rise", rise, 0, width/2)); err != nil {
		return Outline{}, err
	}
	return TraceFrom(Point{}).
		Edge("bottom").Line(at(width, 0)).
		Edge("right").Line(at(width, height)).
		Edge("top").Arc(at(0, height), rise).
		Edge("left").Close()
}
