package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/pattern"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// panel draws the closed lines of a cut panel; where the trim line is the cut
// line it is not seen.
func (s *sheet) panel(v view, c allowance.PanelCut) {
	styles := map[pattern.Kind][]svg.Attr{
		pattern.CutLine: filled(cutLine, cloth), pattern.TrimLine: filled(trimLine, "none"), pattern.SeamLine: filled(seamLine, paper),
	}
	for _, l := range pattern.Of(c).Lines() {
		if l.Closed {
			s.Polygon(v.points(l.Points), styles[l.Kind]...)
		}
	}
}

// inches gives a point from whole inches.
func inches(x, y unit.Length) shape.Point {
	return shape.Point{X: x * unit.Inch, Y: y * unit.Inch}
}

// corners shows cut, trim and seam line and the four ways round a corner.
func corners() (*sheet, error) {
	outline, err := shape.Polygon(inches(0, 0), inches(12, 0), inches(9, 5), inches(5, 5), inches(5, 10), inches(0, 10))
	if err != nil {
		return nil, err
	}
	outline, err = outline.Renamed("front", "right", "step", "arm", "back", "left")
	if err != nil {
		return nil, err
	}
	panel := allowance.Panel{
		Outline: outline,
		Edges: map[string]allowance.Edge{
			"front": {Finish: allowance.PullOver, Handling: unit.Inch / 2},
			"left":  {Finish: allowance.DoubleHem, Allowance: allowance.Exactly(3 * unit.Inch / 2)},
		},
	}
	cut := func(c shape.Corner) (allowance.PanelCut, error) {
		p := panel
		p.Corner = c
		return p.Cut()
	}
	first, err := cut(shape.MitredCorner)
	if err != nil {
		return nil, err
	}
	s := newSheet(850, "Cut line, trim line and seam line")
	s.legend(50, key{cutLine, "cut"}, key{trimLine, "trim"}, key{seamLine, "seam (sewn or folded)"})
	v := view{x: 60, y: 285, scale: 21}
	s.panel(v, first)
	// the margin of each edge, from the cut
	margins := map[string]allowance.Margin{}
	for _, e := range first.Edges {
		margins[e.Name] = e.Margin
	}
	label := func(name string, x, y unit.Length) {
		p := v.at(x, y)
		s.left(p.X, p.Y, name+" "+inch(margins[name].Total()))
	}
	label("back", unit.Inch/4, 9*unit.Inch)
	label("left", unit.Inch/4, 4*unit.Inch)
	label("arm", 23*unit.Inch/4, 8*unit.Inch)
	label("step", 23*unit.Inch/4, 23*unit.Inch/4)
	label("right", 45*unit.Inch/4, 3*unit.Inch)
	front := margins["front"]
	p := v.at(11*unit.Inch/2, 0)
	s.middle(p.X, p.Y-10, "front "+inch(front.Allowance)+" + "+inch(front.Handling)+" to hold")
	y := s.lines(margin, 344,
		"Seam line 12 x 10 in over all, inward corner at",
		"5 in, 5 in, right edge sloping from 12 in to 9 in.",
		"Front: pull-over with handling. Left: double hem.",
		"The others are plain seams. Four ways round an",
		"outward corner; an inward one is always sharp:")
	for i, c := range []shape.Corner{shape.MitredCorner, shape.SquareCorner, shape.ClippedCorner, shape.RoundCorner} {
		pc, err := cut(c)
		if err != nil {
			return nil, err
		}
		w := view{x: 36 + float64(200*(i%2)), y: y + 142 + float64(200*(i/2)), scale: 12}
		s.panel(w, pc)
		s.bold(w.x-18, w.y+38, c.String())
		s.left(w.x+50, w.y+38, squareInches(pc.Area))
	}
	s.left(margin, 836, "Areas inside the cut line.")
	return s, nil
}

// curvedPanel shows an inside back with notches and grain arrow.
func curvedPanel() (*sheet, error) {
	half := shape.TraceFrom(inches(0, 0)).
		Edge("bottom").Line(inches(10, 0)).
		Edge("side").Cubic(inches(9, 8), inches(12, 14), inches(12, 21)).
		Edge("top").Cubic(inches(12, 26), inches(7, 28), inches(0, 28))
	outline, err := shape.Half(half)
	if err != nil {
		return nil, err
	}
	top, err := outline.EdgeLength("top")
	if err != nil {
		return nil, err
	}
	limits, _ := allowance.FirmWoven.Limits()
	match, err := allowance.MatchSeam(top, top, limits)
	if err != nil {
		return nil, err
	}
	marks, err := match.Marks(10 * unit.Inch)
	if err != nil {
		return nil, err
	}
	panel := allowance.Panel{
		Outline:  outline,
		AllEdges: allowance.Edge{Finish: allowance.PlainSeam},
		Edges: map[string]allowance.Edge{
			"bottom": {Finish: allowance.PullOver, Handling: unit.Inch},
			"top":    {Finish: allowance.WeltedSeam},
		},
		Corner: shape.ClippedCorner,
	}
	for _, m := range marks {
		panel.Notches = append(panel.Notches, allowance.Notch{Edge: "top", At: m.First})
	}
	c, err := panel.Cut()
	if err != nil {
		return nil, err
	}
	s := newSheet(620, "Curved panel, notches and grain")
	y := s.given("Right half of an inside back, traced in inches from",
		"(0, 0) to (10, 0), side curve by (9, 8), (12, 14) to",
		"(12, 21), top by (12, 26), (7, 28) to (0, 28), then",
		"mirrored. Corners clipped. Notches on the top, 10 in",
		"apart at most, measured from its right end.")
	s.legend(y+4, key{cutLine, "cut"}, key{trimLine, "trim"}, key{seamLine, "seam"}, key{thick, "notch"})
	v := view{x: 210, y: 506, scale: 12}
	s.panel(v, c)
	for _, n := range c.Notches {
		s.Line(v.point(n.Seam), v.point(n.Cut), thick...)
		// written inside, under the seam line
		p, q := v.point(n.Seam), v.point(n.Cut)
		s.middle(p.X+(p.X-q.X)*4.6, p.Y+(p.Y-q.Y)*3.4+4, inch(n.At))
	}
	s.arrow(v.point(c.Grain.Foot), v.point(c.Grain.Head))
	g := v.at(0, 13*unit.Inch)
	s.left(g.X+8, g.Y, "grain")
	y = 556
	for _, e := range c.Edges {
		if e.Name == "side mirrored" {
			continue
		}
		text := fmt.Sprintf("%s: %s, %s, allowance %s", e.Name, inch(e.Length), e.Finish, inch(e.Allowance))
		if e.Handling > 0 {
			text += " + " + inch(e.Handling)
		}
		y = s.lines(margin, y, text)
	}
	s.left(margin, y, "cut size "+inch(c.Width)+" x "+inch(c.Height)+", "+squareInches(c.Area))
	return s, nil
}

// stations shows a wing measured across its centre line.
func stations() (*sheet, error) {
	measured := []shape.Station{
		{At: 0, Left: 3 * unit.Inch, Right: 3 * unit.Inch},
		{At: 8 * unit.Inch, Left: 4 * unit.Inch, Right: 5 * unit.Inch},
		{At: 14 * unit.Inch, Left: 3 * unit.Inch, Right: 5 * unit.Inch},
		{At: 20 * unit.Inch, Left: unit.Inch, Right: 3 * unit.Inch},
	}
	smooth, err := shape.Stations(measured, true)
	if err != nil {
		return nil, err
	}
	straight, err := shape.Stations(measured, false)
	if err != nil {
		return nil, err
	}
	curve, err := smooth.Flatten(0)
	if err != nil {
		return nil, err
	}
	corner, err := straight.Flatten(0)
	if err != nil {
		return nil, err
	}
	s := newSheet(588, "Widths at stations along a centre line")
	y := s.given("Half-widths to the left and the right, in inches,",
		"measured at the heights written on the right. Below:",
		"lengths of the left and the right side, and area.")
	s.legend(y+4, key{cutLine, "smooth sides"}, key{seamLine, "straight sides"})
	v := view{x: 200, y: 510, scale: 18}
	s.Polygon(v.points(curve), filled(cutLine, cloth)...)
	s.Polygon(v.points(corner), filled(seamLine, "none")...)
	foot, head := v.at(0, -unit.Inch/2), v.at(0, 41*unit.Inch/2)
	s.Line(foot, head, thin...)
	for _, t := range measured {
		l, r := v.at(-t.Left, t.At), v.at(t.Right, t.At)
		s.Line(l, r, thin...)
		for _, p := range [2]svg.Point{l, r} {
			s.Circle(p, 3, svg.Attr{Name: "fill", Value: "#000"})
		}
		s.right(l.X-8, l.Y+5, inch(t.Left))
		s.left(r.X+8, r.Y+5, inch(t.Right))
		s.right(pageWidth-margin, r.Y+5, "at "+inch(t.At))
	}
	s.middle(head.X, head.Y-6, "centre line")
	row := func(y float64, name string, o shape.Outline) error {
		l, err := o.EdgeLength("left")
		if err != nil {
			return err
		}
		r, err := o.EdgeLength("right")
		if err != nil {
			return err
		}
		s.left(margin, y, name+": "+inch(l)+" and "+inch(r)+", "+squareInches(o.Area()))
		return nil
	}
	if err := row(554, "smooth", smooth); err != nil {
		return nil, err
	}
	return s, row(573, "straight", straight)
}

// seamMatch shows notches that spread the ease.
func seamMatch() (*sheet, error) {
	front, back := 21*unit.Inch, 20*unit.Inch
	class := allowance.LooseWoven
	limits, basis := class.Limits()
	m, err := allowance.MatchSeam(front, back, limits)
	if err != nil {
		return nil, err
	}
	even, err := m.Marks(5 * unit.Inch)
	if err != nil {
		return nil, err
	}
	crown, err := m.MarksBetween(2*unit.Inch, 7*unit.Inch, 13*unit.Inch)
	if err != nil {
		return nil, err
	}
	bow, err := allowance.BowOf(front, back)
	if err != nil {
		return nil, err
	}
	s := newSheet(546, "Seam matching of unequal edges")
	y := s.given("A front of "+inch(front)+" sewn to a back of "+inch(back)+". Marks that",
		"meet are joined by a line; distances from the left.")
	rows := func(y float64, title string, marks []allowance.MatchMark) {
		s.bold(margin, y, title)
		v := view{x: margin, scale: 18.6}
		top, bottom := y+34, y+104
		s.Rect(place(v.x, top-8), v.length(m.First), 26, filled(thin, cloth)...)
		s.Rect(place(v.x, bottom), v.length(m.Second), 26, filled(thin, cloth)...)
		s.left(v.x+4, top+10, "front")
		s.left(v.x+4, bottom+18, "back")
		for _, k := range marks {
			a, b := place(v.x+v.length(k.First), top+18), place(v.x+v.length(k.Second), bottom)
			s.Line(a, b, thin...)
			s.Line(place(a.X, a.Y), place(a.X, a.Y-8), thick...)
			s.Line(b, place(b.X, b.Y+8), thick...)
			s.middle(a.X, top-13, mark(k.First))
			s.middle(b.X, bottom+42, mark(k.Second))
		}
		s.Line(place(v.x+v.length(m.First), top+18), place(v.x+v.length(m.Second), bottom), thin...)
		s.Line(place(v.x, top+18), place(v.x, bottom), thin...)
	}
	rows(y+18, "Spread evenly, marks 5 in apart at most", even)
	rows(y+200, "All ease between 7 and 13 in of the back", crown)
	s.lines(margin, y+376,
		"Difference "+inch(m.Difference)+", ease "+m.Ease.PercentText(1, unit.Nearest)+": "+m.Verdict.String(),
		"("+class.String()+", to "+limits.Ease.PercentText(0, unit.Nearest)+"; "+basis.Status.String()+", sew a sample).",
		"On a back that stays flat, a front this much longer",
		"stands out "+inch(bow.Rise)+" in the middle.",
		"Numbers beside the marks are inches.")
	return s, nil
}

// mark writes a distance along an edge as a bare number of inches.
func mark(l unit.Length) string { return svg.Number(l.Inches()) }
