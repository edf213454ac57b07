package layout

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/material"
	"github.com/coverwright/coverwright/unit"
)

// SVG draws the plan to scale: the roll runs to the right, its left edge at the
// bottom, with repeat lines, flaws, and every panel with its name, an arrow to
// its top, its match point and a mark where it is mirrored. Small panels have a
// number that a list under the picture explains. Lengths are written in inches,
// or in millimetres. A plan that Verify refuses is an error.
func (p RollPlan) SVG(in unit.System) (string, error) {
	if err := in.Check(); err != nil {
		return "", err
	}
	if err := p.Verify(); err != nil {
		return "", err
	}
	const wide, tall, head, foot = 1040.0, 420.0, 54.0, 40.0
	long := max(p.Order, p.Need)
	scale := min(wide/float64(long), tall/float64(p.Roll.Usable()))
	w, h := max(float64(long)*scale, 540), float64(p.Roll.Usable())*scale
	s := &sheet{scale: scale, inch: in == unit.Inches}
	s.at = func(q shape.Point) svg.Point {
		return svg.Point{X: sheetMargin + float64(float64(q.Y)*scale), Y: head + h - float64(float64(p.Roll.Usable()-q.X)*scale)}
	}
	s.d = svg.New(1, 1, "")
	s.roll(p, long)
	total := head + h + foot + s.list(0, 0, w)
	s.keys = nil
	name := p.Roll.Name
	if name == "" {
		name = "roll"
	}
	s.d = svg.New(w+2*sheetMargin, total, "Cutting plan on "+name)
	s.d.Rect(svg.Point{}, w+2*sheetMargin, total, attr("fill", "#fff")...)
	s.text(svg.Point{X: sheetMargin, Y: 16}, 14, 0, fmt.Sprintf("%s: needs %s, buy %s", name, s.length(p.Need), s.length(p.Order)), attr("font-weight", "bold")...)
	s.text(svg.Point{X: sheetMargin, Y: 31}, 10, 0, fmt.Sprintf("usable width %s; the roll runs to the right; arrows point to the top of a panel", s.length(p.Roll.Usable())))
	note := ""
	if p.Boxes > p.Need {
		note = "boxes around the panels would need " + s.length(p.Boxes)
	}
	if p.Roll.Patterned() {
		if note != "" {
			note += "; "
		}
		note += "broken lines: repeat; crosses: match points"
	}
	s.text(svg.Point{X: sheetMargin, Y: 45}, 10, 0, note)
	s.roll(p, long)
	s.scaleBar(sheetMargin, head+h+16)
	s.list(sheetMargin, head+h+36, w)
	return s.d.String(), nil
}

func (s *sheet) length(l unit.Length) string {
	if s.inch {
		return l.Mixed(unit.Inch, unit.Eighths, unit.Up)
	}
	return l.Decimal(unit.Millimetre, 0, unit.Up)
}

// roll draws the goods and everything on them.
func (s *sheet) roll(p RollPlan, long unit.Length) {
	usable := p.Roll.Usable()
	box := func(x, y, w, l unit.Length) []svg.Point {
		return s.line([]shape.Point{{X: x, Y: y}, {X: x + w, Y: y}, {X: x + w, Y: y + l}, {X: x, Y: y + l}})
	}
	s.d.Polygon(box(0, 0, usable, long), attr("fill", "#fbf8f2", "stroke", inkColour, "stroke-width", "1.6")...)
	if long > p.Need {
		s.d.Line(s.at(shape.Point{Y: p.Need}), s.at(shape.Point{X: usable, Y: p.Need}), attr("stroke", inkColour, "stroke-width", "0.8", "stroke-dasharray", "2 3")...)
	}
	rule := attr("stroke", "#a4603a", "stroke-width", "0.8", "stroke-dasharray", "8 4")
	if r := p.Roll.Repeat; r > 0 && p.Roll.Drop == (material.Drop{}) {
		for y := r; y < long && y/r < 1000; y += r {
			s.d.Line(s.at(shape.Point{Y: y}), s.at(shape.Point{X: usable, Y: y}), rule...)
		}
	}
	if r := p.Roll.Across; r > 0 {
		for x := r; x < usable && x/r < 1000; x += r {
			s.d.Line(s.at(shape.Point{X: x}), s.at(shape.Point{X: x, Y: long}), rule...)
		}
	}
	for i, q := range p.Placements {
		panel := p.Panels[q.Panel]
		name := panel.Name
		if name == "" {
			name = fmt.Sprintf("panel %d", q.Panel+1)
		}
		if panel.Count > 1 {
			name += fmt.Sprintf(" %d", q.Copy+1)
		}
		w, h := panel.Outline.Size()
		// The top of a panel that is not turned points along the roll, to the right.
		var match []svg.Point
		if panel.matched(p.Roll) {
			match = append(match, s.matchPoint(panel.Match, q))
		}
		s.piece(s.line(p.Placements[i].Outline), name, s.size(w, h), q.Mirrored, -float64(q.Degrees), match...)
		for _, m := range match {
			s.cross(m)
		}
	}
	for _, f := range p.Roll.Flaws {
		if f, ok := drawn(f, p.Roll, long); ok {
			s.mark(box(f.X, f.Y, f.Width, f.Length), material.ThroughMark)
		}
	}
}

// matchPoint gives the place of the match point of a panel.
func (s *sheet) matchPoint(m shape.Point, q RollPlacement) svg.Point {
	x, y := m.X, m.Y
	if q.Mirrored {
		x = -x
	}
	for range ((q.Degrees/90)%4 + 4) % 4 {
		x, y = -y, x
	}
	return s.at(shape.Point{X: q.X + x, Y: q.Y + y})
}

// cross draws a small cross in a circle where a motif must lie.
func (s *sheet) cross(c svg.Point) {
	ink := attr("fill", "none", "stroke", "#a4603a", "stroke-width", "1")
	s.d.Circle(c, 3, ink...)
	s.d.Line(svg.Point{X: c.X - 5, Y: c.Y}, svg.Point{X: c.X + 5, Y: c.Y}, ink...)
	s.d.Line(svg.Point{X: c.X, Y: c.Y - 5}, svg.Point{X: c.X, Y: c.Y + 5}, ink...)
}
