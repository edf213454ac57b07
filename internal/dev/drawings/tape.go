package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// thousandths writes a worked-out error.
func thousandths(l unit.Length) string { return l.Decimal(unit.Inch, 3, unit.Up) }

// printed writes a tolerance as it is printed everywhere.
func printed(name string, t shape.TapedLength) string {
	return fmt.Sprintf("%s %s ± %s, at worst %s", name, inch(t.Size), thousandths(t.Likely()), thousandths(t.Worst))
}

// between places a text a little beside the middle of a line.
func (s *sheet) between(a, b svg.Point, text string) {
	s.boxed((a.X+b.X)/2, (a.Y+b.Y)/2, text)
}

// boxed writes a text on a white ground, its middle at a place.
func (s *sheet) boxed(x, y float64, text string) {
	w := 0.58*textSize*float64(len([]rune(text))) + 4
	s.Rect(place(x-w/2, y-9), w, 18, svg.Attr{Name: "fill", Value: paper})
	s.middle(x, y+4.5, text)
}

// fourSides shows a panel by its sides and diagonals.
func fourSides() (*sheet, error) {
	const in = unit.Inch
	q := &shape.QuadrilateralForm{Bottom: 24 * in, Right: 18*in + in/4, Top: 21*in + in/2, Left: 18 * in, Diagonal: 29*in + in/2, SecondDiagonal: 28*in + 5*in/8}
	t, err := shape.Form{Quadrilateral: q}.Taped()
	if err != nil {
		return nil, err
	}
	p, err := t.Outline.Flatten(0)
	if err != nil {
		return nil, err
	}
	s := newSheet(500, "Four sides and both diagonals")
	y := s.given("A straight-sided panel by tape. The second", "diagonal checks the other five.")
	s.legend(y+4, key{cutLine, "sides"}, key{seamLine, "diagonals"})
	v := view{x: 36, y: 370, scale: 14}
	c := v.points(p)
	s.Polygon(c, filled(cutLine, cloth)...)
	s.Line(c[0], c[2], seamLine...)
	s.Line(c[1], c[3], seamLine...)
	for i, l := range []unit.Length{q.Bottom, q.Right, q.Top, q.Left} {
		s.between(c[i], c[(i+1)%4], inch(l))
	}
	third := func(a, b svg.Point) svg.Point { return place(a.X+(b.X-a.X)/3.4, a.Y+(b.Y-a.Y)/3.4) }
	for _, d := range []struct {
		at svg.Point
		l  unit.Length
	}{{third(c[0], c[2]), q.Diagonal}, {third(c[1], c[3]), q.SecondDiagonal}} {
		s.boxed(d.at.X, d.at.Y, inch(d.l))
	}
	d := t.Tolerance.Diagonal
	s.lines(margin, 408,
		"each ± "+inch(t.Tolerance.Measure)+"; the diagonals disagree by "+thousandths(max(d.Misfit, -d.Misfit)),
		printed("width", t.Tolerance.Width), printed("height", t.Tolerance.Height),
		"area "+squareInches(t.Tolerance.Area.Size)+", ± "+t.Tolerance.Area.Likely().Decimal(unit.SquareInch, 2, unit.Up),
		"± at two sigma: 95 of 100 panels")
	return s, nil
}

// baseline shows corners by two tapes.
func baseline() (*sheet, error) {
	const in = unit.Inch
	f := shape.BaselineForm{Length: 24 * in, Points: []shape.BaselinePointForm{
		{FromStart: 24*in + in/8, FromEnd: 14*in + in/16},
		{FromStart: 20*in + 13*in/16, FromEnd: 20*in + 13*in/16},
		{FromStart: 13 * in, FromEnd: 22*in + in/2},
	}}
	t, err := shape.Form{Baseline: &f}.Taped()
	if err != nil {
		return nil, err
	}
	p, err := t.Outline.Flatten(0)
	if err != nil {
		return nil, err
	}
	s := newSheet(474, "Corners from a baseline")
	y := s.given("Each corner by two tapes, from both ends of", "a line of "+inch(f.Length)+". Keep the angle between them", "from 40 to 140 degrees.")
	s.legend(y+4, key{cutLine, "panel"}, key{thin, "tapes"})
	v := view{x: 42, y: 368, scale: 14}
	c := v.points(p)
	s.Polygon(c, filled(cutLine, cloth)...)
	for _, corner := range c[2:] {
		s.Line(c[0], corner, thin...)
		s.Line(c[1], corner, thin...)
		s.Circle(corner, 3, svg.Attr{Name: "fill", Value: "#000"})
	}
	s.under(c[0].X, c[1].X, 386, inch(f.Length))
	y = 422
	for i, b := range f.Points {
		at := c[2+i]
		s.middle(at.X, at.Y-8, fmt.Sprint(i+1))
		pt, angle, err := shape.CrossTapes(f.Length, b.FromStart, b.FromEnd, 0)
		if err != nil {
			return nil, err
		}
		s.left(margin, y, fmt.Sprintf("%d: %s and %s, %.0f deg, ± %s", i+1, inch(b.FromStart), inch(b.FromEnd), float64(angle/unit.Degree), thousandths(2*pt.Sigma())))
		y += 18
	}
	return s, nil
}

// offsets shows a side by offsets from a straight edge.
func offsets() (*sheet, error) {
	const in = unit.Inch
	f := shape.OffsetsForm{Step: 4 * in, Smooth: true, Right: []unit.Length{10 * in, 10*in + 3*in/4, 11*in + in/8, 10*in + 7*in/8, 10*in + in/4}}
	t, err := shape.Form{Offsets: &f}.Taped()
	if err != nil {
		return nil, err
	}
	p, err := t.Outline.Flatten(0)
	if err != nil {
		return nil, err
	}
	s := newSheet(516, "Offsets from a straight edge")
	y := s.given("Offsets in inches, every "+inch(f.Step)+" along the straight", "edge on the left. The other side runs smooth", "through their ends.")
	s.legend(y+4, key{cutLine, "panel"}, key{thin, "offsets"})
	v := view{x: 90, y: 418, scale: 18}
	s.Polygon(v.points(p), filled(cutLine, cloth)...)
	for i, w := range f.Right {
		along := f.Step * unit.Length(i)
		a, b := v.at(0, along), v.at(w, along)
		s.Line(a, b, thin...)
		s.Circle(b, 3, svg.Attr{Name: "fill", Value: "#000"})
		s.left(b.X+8, b.Y+5, inch(w))
		s.right(a.X-8, a.Y+5, inch(along))
	}
	s.lines(margin, 450, printed("right", t.Tolerance.Edges[1].Length), "area "+squareInches(t.Tolerance.Area.Size)+", ± "+t.Tolerance.Area.Likely().Decimal(unit.SquareInch, 2, unit.Up),
		"Tape the seam itself: more offsets do not", "make its length better.")
	return s, nil
}

// threePoints shows an arc by its rise and by a third point.
func threePoints() (*sheet, error) {
	const in = unit.Inch
	chord, through := 24*in, shape.Point{X: 9 * in, Y: 2*in + 7*in/8}
	o, err := shape.Form{Chord: &shape.ChordForm{Chord: chord, Through: &through}}.Outline()
	if err != nil {
		return nil, err
	}
	arc, err := shape.ThreePointArc(shape.Point{}, through, shape.Point{X: chord})
	if err != nil {
		return nil, err
	}
	byRise, err := shape.ArcByTape(chord, 3*in, 0)
	if err != nil {
		return nil, err
	}
	p, err := o.Flatten(0)
	if err != nil {
		return nil, err
	}
	s := newSheet(340, "An arc by chord and rise")
	y := s.given("A chord of "+inch(chord)+" and a point of the arc,", inch(through.X)+" along it and "+inch(through.Y)+" over it, or the rise", "in its middle.")
	v := view{x: 42, y: y + 90, scale: 14}
	s.Polygon(v.points(p), filled(cutLine, cloth)...)
	foot, top := v.at(through.X, 0), v.point(through)
	s.Line(foot, top, thin...)
	s.Circle(top, 3, svg.Attr{Name: "fill", Value: "#000"})
	s.right(foot.X-6, (foot.Y+top.Y)/2+5, inch(through.Y))
	middle, crown := v.at(chord/2, 0), v.at(chord/2, arc.Rise)
	s.Line(middle, crown, thin...)
	s.left(middle.X+6, (middle.Y+crown.Y)/2+5, "rise "+inch(arc.Rise))
	start, end := v.at(0, 0), v.at(chord, 0)
	s.under(start.X, foot.X, start.Y+14, inch(through.X))
	s.under(start.X, end.X, start.Y+38, inch(chord))
	s.lines(margin, start.Y+84, "By a chord of 24 and a rise of 3, each ± "+inch(shape.DefaultTapeTolerance)+":",
		printed("arc", byRise.Length), "area "+squareInches(byRise.Area.Size)+", ± "+byRise.Area.Likely().Decimal(unit.SquareInch, 2, unit.Up),
		printed("radius", byRise.Radius))
	return s, nil
}
