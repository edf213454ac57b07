package made

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// plain tells whether the plate is a rectangle.
func (c Cushion) plain() bool {
	return c.Outline.IsZero() && c.LeftEar == 0 && c.RightEar == 0
}

// rectangular gives the plate of width and depth, its corners drawn in or its sides
// bowed.
func (c Cushion) rectangular(w, d unit.Length) (shape.Outline, error) {
	switch {
	case c.Taper != 0:
		return c.tapered(w, d)
	case c.Rise != 0:
		return c.bowed(w, d)
	}
	o, err := shape.Rectangle(w, d)
	if err != nil {
		return o, check.Renamed(err, map[string]string{"height": "depth"})
	}
	return o.Renamed("front", "right", "back", "left")
}

// tapered draws the corners in: each side is straight between its quarter points
// and runs from there to the corner.
func (c Cushion) tapered(w, d unit.Length) (shape.Outline, error) {
	in := c.Taper
	if err := inRange("taper", in, unit.Millimetre, min(w, d)/8); err != nil {
		return shape.Outline{}, err
	}
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	return shape.TraceFrom(at(in, in)).
		Edge("front").Line(at(w/4, 0)).Line(at(w-w/4, 0)).Line(at(w-in, in)).
		Edge("right").Line(at(w, d/4)).Line(at(w, d-d/4)).Line(at(w-in, d-in)).
		Edge("back").Line(at(w-w/4, d)).Line(at(w/4, d)).Line(at(in, d-in)).
		Edge("left").Line(at(0, d-d/4)).Line(at(0, d/4)).Line(at(in, in)).Close()
}

// leastBow is how much longer than its chord an arc must be, as common practice has
// it.
const leastBow = 0.01

// bow gives how far the sides at the ends of a chord are bowed out.
func (c Cushion) bow(chord unit.Length) (unit.Length, error) {
	a, err := shape.ArcFromChord(chord, c.Rise)
	if err != nil {
		return 0, check.Renamed(err, map[string]string{"chord": "width"})
	}
	if more := a.Length - chord; float64(more) > leastBow*float64(chord) {
		return more / 2, nil
	}
	return 0, nil
}

// bowed gives a plate over a filling that rises in the middle.
func (c Cushion) bowed(w, d unit.Length) (shape.Outline, error) {
	if err := inRange("rise", c.Rise, unit.Millimetre, min(w, d)/4); err != nil {
		return shape.Outline{}, err
	}
	ends, err := c.bow(w)
	if err != nil {
		return shape.Outline{}, err
	}
	fronts, err := c.bow(d)
	if err != nil {
		return shape.Outline{}, err
	}
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	t := shape.TraceFrom(at(0, 0))
	side := func(name string, to shape.Point, bow unit.Length) {
		if t.Edge(name); bow == 0 {
			t.Line(to)
		} else {
			t.Arc(to, bow)
		}
	}
	side("front", at(w, 0), fronts)
	side("right", at(w, d), ends)
	side("back", at(0, d), fronts)
	side("left", at(0, 0), ends)
	o, err := t.Close()
	if err != nil {
		return o, unit.InField("rise", check.Inner(err, "rise"))
	}
	return o, nil
}

// flatCore gives the core of a plate whose corners are drawn in or whose sides are
// bowed: that of the plate without.
func (c Cushion) flatCore(k unit.Length) (Core, error) {
	c.Taper, c.Rise = 0, 0
	p, err := c.plate(k)
	if err != nil {
		return Core{}, err
	}
	return coreOf(p.outline, c.Thickness, k)
}
