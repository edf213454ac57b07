package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Strained gives the outline stretched by one factor in a direction and by
// another square to it, about the lower left corner of its bounding box:
//
//	M = by e eᵀ + square n nᵀ
//
// with the unit vector e at the angle from across the goods, anticlockwise, and n
// square to it. Factors are from 0.1 to 10.
func (o Outline) Strained(direction unit.Angle, by, square unit.Ratio) (Outline, error) {
	m, err := o.strain(direction, by, square)
	if err != nil {
		return Outline{}, err
	}
	r := o.mapSegments(func(s geom.Segment) geom.Segment { return m.About(o.box.Min, s) }, false)
	low, high := r.Bounds()
	for _, p := range [2]Point{low, high} {
		if err := checkPlace(p); err != nil {
			return Outline{}, err
		}
	}
	return r, nil
}

func (o Outline) strain(direction unit.Angle, by, square unit.Ratio) (geom.Linear, error) {
	if o.IsZero() {
		return geom.Linear{}, check.Required("outline", "one of the outlines of this package")
	}
	if err := firstError(check.Between("direction", direction, -360*unit.Degree, 360*unit.Degree),
		check.Ratio("by", by, 0.1, 10), check.Ratio("square", square, 0.1, 10)); err != nil {
		return geom.Linear{}, err
	}
	return geom.Strain(unitVector(direction), float64(by), float64(square)), nil
}

// unitVector gives the direction at an angle from across the goods.
func unitVector(a unit.Angle) geom.Vec {
	sin, cos := geom.SinCos(a.Radians())
	return geom.Vec{X: cos, Y: sin}
}

// Extent gives how long the outline is in a direction: the distance of the two
// lines square to it that it lies between, to two tenths of a millimetre.
func (o Outline) Extent(direction unit.Angle) (unit.Length, error) {
	if _, err := o.strain(direction, 1, 1); err != nil {
		return 0, err
	}
	e := unitVector(direction)
	ring, _, err := o.chords(geom.FlattenOptions{})
	if err != nil {
		return 0, err
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		d := float64(float64(p.X)*e.X) + float64(float64(p.Y)*e.Y)
		lo, hi = min(lo, d), max(hi, d)
	}
	return unit.Length(math.Round(hi - lo)), nil
}

// Nearest gives the place on an edge that is nearest to a point: how far along
// the edge from its start, anticlockwise, and how far off the point is. An
// unknown edge wraps unit.ErrUnknown.
func (o Outline) Nearest(edge string, p Point) (at, off unit.Length, err error) {
	s, err := o.find(edge)
	if err != nil {
		return 0, 0, err
	}
	if err := checkPlace(p); err != nil {
		return 0, 0, err
	}
	q := p.grid().Vec()
	least, done := math.Inf(1), 0.0
	for _, g := range s.path {
		c := geom.Parallel{Segment: g}
		t := c.Nearest(q, 0, 1)
		x := c.At(t)
		if d := geom.Hypot(x.X-q.X, x.Y-q.Y); d < least {
			least = d
			at = unit.Length(math.Round(done + g.LengthTo(t)))
		}
		done += g.Length()
	}
	return min(at, s.length()), unit.Length(math.Round(least)), nil
}

// StrainedPoint gives where Strained brings a point.
func (o Outline) StrainedPoint(direction unit.Angle, by, square unit.Ratio, p Point) (Point, error) {
	m, err := o.strain(direction, by, square)
	if err != nil {
		return Point{}, err
	}
	if err := checkPlace(p); err != nil {
		return Point{}, err
	}
	return fromGrid(m.About(o.box.Min, geom.Segment{From: p.grid()}).From), nil
}
