package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// panelDrawing draws a panel with its lines, notches and dimension figures: the
// cut size below and on the left, the size between seam lines above and on the
// right.
func (s *sheet) panelDrawing(p pattern) string {
	const side, room, most, least = 36.0, 38.0, 135.0, 46.0
	low, high := p.bounds()
	wide, long := high.X-low.X, high.Y-low.Y
	scale := min((panelWide-2*side)/float64(max(wide, 1)), most/float64(max(long, 1)))
	height := max(float64(long)*scale, least) + 2*room - 14
	d := svg.New(panelWide, height, fmt.Sprintf("Panel %d, %s: cut %s", p.number, p.name(), s.across(p.cut.Cut)))
	v := view{low: low, high: high, left: (panelWide - float64(wide)*scale) / 2, top: (height - float64(long)*scale) / 2, scale: scale}

	d.Area(v.all(contourLines(p.cutLine)), append(ink("class", cutKind.name, "fill", "#fff"), stroke(cutKind, 3)[2:]...)...)
	if len(p.trimLine.Outer) > 0 {
		d.Area(v.all(contourLines(p.trimLine)), stroke(trimKind, 3)...)
	}
	if len(p.finishedLine.Outer) > 0 {
		d.Area(v.all(contourLines(p.finishedLine)), ink("class", "finished", "fill", "none", "stroke", "#777", "stroke-width", "0.8", "stroke-dasharray", "1 2")...)
	}
	if len(p.seamLine.Outer) > 0 {
		d.Area(v.all(contourLines(p.seamLine)), stroke(seamKind, 3)...)
	}
	for _, n := range p.notches {
		d.Line(v.at(n.Cut), v.at(n.Seam), ink("stroke", "#000", "stroke-width", "1.6")...)
	}
	for _, b := range p.buttons {
		c := v.at(b)
		d.Line(svg.Point{X: c.X - 3, Y: c.Y}, svg.Point{X: c.X + 3, Y: c.Y}, ink("stroke", "#000", "stroke-width", "1")...)
		d.Line(svg.Point{X: c.X, Y: c.Y - 3}, svg.Point{X: c.X, Y: c.Y + 3}, ink("stroke", "#000", "stroke-width", "1")...)
	}
	left, right := v.at(low).X, v.at(high).X
	top, bottom := v.at(high).Y, v.at(low).Y
	dimension(d, svg.Point{X: left, Y: bottom + 20}, svg.Point{X: right, Y: bottom + 20}, s.len(wide), svg.Point{X: left, Y: bottom}, svg.Point{X: right, Y: bottom})
	dimension(d, svg.Point{X: left - 18, Y: bottom}, svg.Point{X: left - 18, Y: top}, s.len(long), svg.Point{X: left, Y: bottom}, svg.Point{X: left, Y: top})
	if len(p.seamLine.Outer) > 0 {
		sl, sh := boundsOf(p.seamLine.Outer)
		a, b := v.at(sl), v.at(sh)
		dimension(d, svg.Point{X: a.X, Y: top - 14}, svg.Point{X: b.X, Y: top - 14}, s.len(sh.X-sl.X), svg.Point{X: a.X, Y: b.Y}, svg.Point{X: b.X, Y: b.Y})
		dimension(d, svg.Point{X: right + 18, Y: a.Y}, svg.Point{X: right + 18, Y: b.Y}, s.len(sh.Y-sl.Y), svg.Point{X: b.X, Y: a.Y}, svg.Point{X: b.X, Y: b.Y})
	}
	arrowTo(d, v.at(p.grain.Foot), v.at(p.grain.Head), 6, ink("stroke", "#000", "stroke-width", "1")...)
	foot, head := v.at(p.grain.Foot), v.at(p.grain.Head)
	if float64(long)*scale > 60 {
		at := svg.Point{X: (foot.X+head.X)/2 + 4, Y: (foot.Y+head.Y)/2 + 14}
		halo(d, at, 9, "start", "grain")
	}
	if groups := p.edgeGroups(); len(groups) > 1 {
		names := map[int]string{}
		for i, g := range groups {
			for _, e := range g.edges {
				names[e] = letter(i)
			}
		}
		middle := shape.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
		for i, m := range p.edgeMiddles() {
			at := inwards(v, m, middle, p, 11)
			d.Circle(at, 7.5, ink("fill", "#fff", "stroke", "#000", "stroke-width", "0.8")...)
			write(d, svg.Point{X: at.X, Y: at.Y + 3.6}, 10.5, "middle", names[i])
		}
	}
	return d.String()
}

// inwards moves a point of the seam line into the panel by some user units.
func inwards(v view, m, middle shape.Point, p pattern, by float64) svg.Point {
	// Square to the nearest segment of the seam line, on the left of it.
	line := p.seamLine.Outer
	best, at := -1.0, 0
	for i, a := range line {
		if far := distance(m, a, line[(i+1)%len(line)]); best < 0 || far < best {
			best, at = far, i
		}
	}
	a, b := line[at], line[(at+1)%len(line)]
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	long := max(hypot(dx, dy), 1)
	by /= v.scale
	q := shape.Point{X: m.X - unit.Length(dy/long*by), Y: m.Y + unit.Length(dx/long*by)}
	if !inside(q, [][]shape.Point{line}) {
		q = middle
	}
	return v.at(q)
}

// edgeGroup is a set of edges that are finished alike.
type edgeGroup struct {
	edges []int
	names []string
	edge  allowance.PanelEdge // the first
	long  unit.Length         // of all, along the seam line
}

// edgeGroups puts edges together that have the same finish and margins.
func (p pattern) edgeGroups() []edgeGroup {
	var out []edgeGroup
next:
	for i, e := range p.edges {
		for k := range out {
			g := &out[k]
			if g.edge.Finish == e.Finish && g.edge.Allowance == e.Allowance && g.edge.Handling == e.Handling {
				g.edges, g.names, g.long = append(g.edges, i), append(g.names, e.Name), g.long+e.Length
				continue next
			}
		}
		out = append(out, edgeGroup{[]int{i}, []string{e.Name}, e, e.Length})
	}
	return out
}

// letter names the i-th group of edges: a to z, then aa and so on.
func letter(i int) string {
	out := ""
	for n := i + 1; n > 0; n = (n - 1) / 26 {
		out = string(rune('a'+(n-1)%26)) + out
	}
	return out
}

// margins says what is added at an edge.
func (s *sheet) margins(e allowance.PanelEdge) string {
	switch {
	case e.Allowance == 0 && e.Handling == 0:
		return "nothing added"
	case e.Handling == 0:
		return s.nb(e.Allowance)
	}
	return s.nb(e.Allowance) + " + " + s.nb(e.Handling) + " to trim off"
}
