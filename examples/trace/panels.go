package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// apart is the least distance between two panels.
const apart = 5 * unit.Millimetre

// Shares of a panel's length that its error from the picture alone may be: above
// the first it is said, above the second it is no answer any more.
const (
	farOff = 0.0015
	tooFar = 0.01
)

// inOrder names the panels from left to right, and from the top down where they lie
// above each other.
func (r *reading) inOrder() {
	middle := func(p panel) (x, y unit.Length) {
		low, high := p.lies.Bounds()
		return (low.X + high.X) / 2, (low.Y + high.Y) / 2
	}
	slices.SortStableFunc(r.panels, func(a, b panel) int {
		ax, ay := middle(a)
		bx, by := middle(b)
		aw, _ := a.lies.Size()
		bw, _ := b.lies.Size()
		if min(ax, bx)+min(aw, bw)/2 > max(ax, bx) { // above each other
			return cmp.Compare(by, ay)
		}
		return cmp.Compare(ax, bx)
	})
	for i := range r.panels {
		r.panels[i].name = fmt.Sprintf("panel %d", i+1)
	}
}

// length of a panel, along its longer side.
func (p panel) length() unit.Length {
	w, h := p.outline.Size()
	return max(w, h)
}

// check refuses panels that lie too near to each other and those told too badly.
func (r *reading) check() error {
	rings := make([][]shape.Point, len(r.panels))
	for i, p := range r.panels {
		var err error
		if rings[i], err = p.lies.Flatten(unit.Millimetre); err != nil {
			return err
		}
		for k := range i {
			if d := between(rings[i], rings[k]); d < apart {
				return refusePhoto("%s and %s lie %.0f mm apart: leave at least a finger's breadth between panels", r.panels[k].name, p.name, d.Millimetres())
			}
		}
		if !p.off.Known {
			return refusePhoto("too few marks are seen to say how far off a panel may be: two whole pages")
		}
		switch off := float64(p.off.Picture) / float64(p.length()); {
		case off > tooFar:
			return refusePhoto("%s may be off by %.0f mm: the marks tell it too badly; lay pages on opposite sides of it, near it", p.name, p.off.Picture.Millimetres())
		case off > farOff:
			r.note("%s is told badly by the marks: lay pages on opposite sides of it, near it, and come as near as all of it is seen", p.name)
		}
		if p.seen.Holes > 0.001 {
			r.note("%s has holes or spots that look like the ground; they were taken for panel", p.name)
		}
	}
	return nil
}

// Slants of the lowest straight side that are taken for a panel laid not quite
// straight: from a quarter of a degree to five.
const (
	leastSlant = unit.Degree / 4
	mostSlant  = 5 * unit.Degree
)

// slant looks at the lowest straight side of an outline that runs from left to
// right and is at least a quarter of its width, and tells by how much the panel must
// be turned to bring it level; not ok when it is level, or no such side is there.
func slant(o shape.Outline) (turn unit.Angle, side string, ok bool) {
	wide, _ := o.Size()
	lowest := math.Inf(1)
	from := o.Shape().Trace.From
	for _, e := range o.Shape().Trace.Edges {
		a, b := from, e.Pieces[len(e.Pieces)-1].To
		from = b
		dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
		straight := len(e.Pieces) == 1 && e.Pieces[0].By == nil
		angle := unit.Angle(math.Atan2(dy, dx)) * unit.Radian
		if y := float64(a.Y + b.Y); straight && dx >= float64(wide)/4 && angle < mostSlant && angle > -mostSlant && y < lowest {
			lowest, turn, side = y, -angle, e.Name
		}
	}
	return turn, side, turn > leastSlant || turn < -leastSlant
}

// turned turns an outline of lines and curves anticlockwise.
func turned(o shape.Outline, by unit.Angle) (shape.Outline, error) {
	sin, cos := math.Sincos(by.Radians())
	turn := func(p shape.Point) shape.Point {
		x, y := float64(p.X), float64(p.Y)
		return shape.Point{X: unit.Length(math.Round(cos*x - sin*y)), Y: unit.Length(math.Round(sin*x + cos*y))}
	}
	f := o.Shape()
	f.Trace.From = turn(f.Trace.From)
	for _, e := range f.Trace.Edges {
		for i, p := range e.Pieces {
			e.Pieces[i].To = turn(p.To)
			for k, c := range p.By {
				e.Pieces[i].By[k] = turn(c)
			}
		}
	}
	return f.Outline()
}

// upright makes the outlines to be cut by: turned level when that is asked for, their
// lower left corners at the origin.
func (r *reading) upright(level bool) error {
	for i := range r.panels {
		p := &r.panels[i]
		p.outline = p.lies
		turn, side, slants := slant(p.lies)
		var err error
		switch {
		case slants && level:
			r.note("%s was turned by %.1f deg so that its %s lies level", p.name, turn.Degrees(), side)
			if p.outline, err = turned(p.lies, turn); err != nil {
				return fmt.Errorf("%s: %w", p.name, err)
			}
		case slants:
			r.note("the %s of %s slants by %.1f deg against the first page; -level turns it level", side, p.name, -turn.Degrees())
		}
		low, _ := p.outline.Bounds()
		if p.outline, err = p.outline.Moved(shape.Point{X: -low.X, Y: -low.Y}); err != nil {
			return fmt.Errorf("%s: %w", p.name, err)
		}
	}
	return nil
}

// between gives the least distance between the corners of two rings and the sides
// of the other.
func between(a, b []shape.Point) unit.Length {
	best := math.Inf(1)
	for range 2 {
		for _, p := range a {
			for i, q := range b {
				best = min(best, toSide(p, q, b[(i+1)%len(b)]))
			}
		}
		a, b = b, a
	}
	return unit.Length(math.Round(best))
}

// toSide is how far a point lies from a straight side, in nanometres.
func toSide(p, a, b shape.Point) float64 {
	ux, uy := float64(b.X-a.X), float64(b.Y-a.Y)
	px, py := float64(p.X-a.X), float64(p.Y-a.Y)
	f := 0.0
	if long := ux*ux + uy*uy; long > 0 {
		f = min(max((px*ux+py*uy)/long, 0), 1)
	}
	return math.Hypot(px-f*ux, py-f*uy)
}
