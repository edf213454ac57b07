package main

import (
	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// ripped shows an old panel as it was traced, and the finished one behind it.
func ripped() (*sheet, error) {
	in := unit.Inch
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x, Y: y} }
	traced, err := shape.TraceFrom(at(0, 0)).
		Edge("bottom").Line(at(24*in, 0)).
		Edge("right").Line(at(45*in/2, 39*in/2)).
		Edge("cut corner").Line(at(22*in, 20*in)).
		Edge("top").Line(at(49*in/4, 20*in)).Line(at(12*in, 79*in/4)).Line(at(47*in/4, 20*in)).Line(at(3*in/2, 20*in)).
		Edge("left").Close()
	if err != nil {
		return nil, err
	}
	old, err := allowance.Ripped{
		OldEdge: allowance.OldEdge{Allowance: in / 2},
		Edges: map[string]allowance.OldEdge{
			"bottom": {Line: allowance.OldStaples, Allowance: 2 * in}, "left": {Line: allowance.OldFold}, "cut corner": {Line: allowance.OldCorner},
		},
	}.Finished(traced)
	if err != nil {
		return nil, err
	}
	s := newSheet(470, "A ripped panel")
	s.legend(50, key{cutLine, "as traced"}, key{seamLine, "finished"})
	v := view{x: 60, y: 330, scale: 13}
	if err := s.outlines(v, old); err != nil {
		return nil, err
	}
	p := v.at(12*in, -in)
	s.middle(p.X, p.Y+4, "row of staples, 2 in over the rail")
	p = v.at(22*in, 10*in)
	s.right(p.X-4, p.Y, "raw edge, 1/2 in")
	p = v.at(2*in, 10*in)
	s.left(p.X+6, p.Y, "fold")
	p = v.at(12*in, 18*in)
	s.middle(p.X, p.Y+4, "a nick: an old match mark")
	s.lines(margin, 380,
		"Every edge goes in by its own distance: a seam by its",
		"allowance, staples by what went over the rail, a fold",
		"not at all. Edges beside a cut corner are carried on.",
		"Finished "+inch(old.Width)+" x "+inch(old.Height)+".")
	return s, nil
}

// averaged shows the two halves of a panel, and their mean.
func averaged() (*sheet, error) {
	in := unit.Inch
	at := func(x, y unit.Length) shape.Point { return shape.Point{X: x * in / 10, Y: y * in / 10} }
	traced, err := shape.Polygon(at(0, 0), at(98, 1), at(92, 80), at(62, 120), at(0, 130), at(-60, 123), at(-94, 81), at(-101, 0))
	if err != nil {
		return nil, err
	}
	old, err := allowance.Ripped{
		OldEdge: allowance.OldEdge{Line: allowance.OldStitches}, Halves: &allowance.OldHalves{Axis: []shape.Point{at(0, 0), at(0, 130)}},
	}.Finished(traced)
	if err != nil {
		return nil, err
	}
	s := newSheet(420, "Two halves made one")
	s.legend(50, key{cutLine, "as traced"}, key{seamLine, "the mean of both halves"})
	v := view{x: 230, y: 330, scale: 18}
	if err := s.outlines(v, old); err != nil {
		return nil, err
	}
	a, b := v.point(old.Halves.Low), v.point(old.Halves.High)
	s.Line(a, b, trimLine...)
	s.lines(margin, 370,
		"Corner by corner, within an edge by its length.",
		"Each half moves by up to "+inch(old.Halves.Most)+", "+old.Halves.Share.PercentText(1, unit.Nearest)+" of the width.")
	return s, nil
}

// outlines draws what was traced, and the finished outline on it.
func (s *sheet) outlines(v view, old allowance.Recovered) error {
	for _, x := range []struct {
		o    shape.Outline
		fill bool
	}{{old.Traced, true}, {old.Outline, false}} {
		ps, err := x.o.Flatten(unit.Millimetre / 2)
		if err != nil {
			return err
		}
		if x.fill {
			s.Polygon(v.points(ps), filled(cutLine, cloth)...)
		} else {
			s.Polygon(v.points(ps), filled(seamLine, "none")...)
		}
	}
	return nil
}
