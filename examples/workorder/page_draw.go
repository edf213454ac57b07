package main

import (
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
	"github.com/coverwright/coverwright/unit"
)

// The page is drawn in user units of 1/96 in, so that a drawing as wide as the
// print of an A4 or Letter page is pageWide, and type keeps its size on paper.
const (
	pageWide  = 680.0
	panelWide = 330.0
	thumbWide = 60.0
	thumbHigh = 36.0
)

// ink shortens the writing of attributes: ink("stroke", "#000", "fill", "none").
func ink(pairs ...string) []svg.Attr {
	out := make([]svg.Attr, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, svg.Attr{Name: pairs[i], Value: pairs[i+1]})
	}
	return out
}

// textWide estimates how wide a line of sans-serif type is. It is on the wide
// side, since nobody knows the reader's type face.
func textWide(s string, pt float64) float64 {
	var w float64
	for _, r := range s {
		switch {
		case r == ' ' || r == 'i' || r == 'l' || r == 'j' || r == 't' || r == 'f' || r == '/' || r == '.' || r == ',' || r == ':' || r == '-':
			w += 0.34
		case r == 'm' || r == 'w' || r == 'M' || r == 'W' || r > 0x2e80:
			w += 0.95
		case r >= 'A' && r <= 'Z':
			w += 0.72
		default:
			w += 0.58
		}
	}
	return w * pt
}

// write puts a line of text; anchor is start, middle or end.
func write(d *svg.Drawing, at svg.Point, pt float64, anchor, s string, more ...svg.Attr) {
	attrs := ink("font-family", "sans-serif", "font-size", svg.Number(pt), "fill", "#000")
	if anchor != "start" {
		attrs = append(attrs, svg.Attr{Name: "text-anchor", Value: anchor})
	}
	d.Text(at, s, append(attrs, more...)...)
}

// halo writes text that stays readable across lines.
func halo(d *svg.Drawing, at svg.Point, pt float64, anchor, s string, more ...svg.Attr) {
	write(d, at, pt, anchor, s, append(ink("stroke", "#fff", "stroke-width", "2.6", "stroke-linejoin", "round", "paint-order", "stroke"), more...)...)
}

func standing(at svg.Point) svg.Attr {
	return svg.Attr{Name: "transform", Value: "rotate(-90 " + svg.Number(at.X) + " " + svg.Number(at.Y) + ")"}
}

// view maps the axes of a panel or a skin, y up, to a drawing, y down.
type view struct {
	low, high shape.Point
	left, top float64
	scale     float64 // user units for each nanometre
}

func (v view) at(p shape.Point) svg.Point {
	return svg.Point{X: v.left + float64(float64(p.X-v.low.X)*v.scale), Y: v.top + float64(float64(v.high.Y-p.Y)*v.scale)}
}

func (v view) all(lines [][]shape.Point) [][]svg.Point {
	out := make([][]svg.Point, len(lines))
	for i, l := range lines {
		out[i] = v.line(l)
	}
	return out
}

func (v view) line(l []shape.Point) []svg.Point {
	out := make([]svg.Point, len(l))
	for i, q := range l {
		out[i] = v.at(q)
	}
	return out
}

// arrowTo draws an arrow with a head of the given size.
func arrowTo(d *svg.Drawing, from, to svg.Point, head float64, attrs ...svg.Attr) {
	d.Line(from, to, attrs...)
	long := math.Hypot(to.X-from.X, to.Y-from.Y)
	if long == 0 {
		return
	}
	ux, uy := (to.X-from.X)/long*head, (to.Y-from.Y)/long*head
	d.Polyline([]svg.Point{{X: to.X - ux - uy/2, Y: to.Y - uy + ux/2}, to, {X: to.X - ux + uy/2, Y: to.Y - uy - ux/2}}, append(ink("fill", "none"), attrs...)...)
}

// dimension draws a dimension line between two points on one level, with the
// figure on it, and lines that lead from the thing measured.
func dimension(d *svg.Drawing, a, b svg.Point, figure string, leads ...svg.Point) {
	thin := ink("stroke", "#000", "stroke-width", "0.6")
	for i, l := range leads {
		to := a
		if i > 0 {
			to = b
		}
		d.Line(l, to, ink("stroke", "#777", "stroke-width", "0.5")...)
	}
	dx, dy := b.X-a.X, b.Y-a.Y
	long := math.Hypot(dx, dy)
	if long == 0 {
		return
	}
	// The line leaves room for the figure; a short one carries it beside.
	const pt = 11.0
	gap := textWide(figure, pt) + 6
	if gap < long-6 {
		f := (long - gap) / 2 / long
		d.Line(a, svg.Point{X: a.X + f*dx, Y: a.Y + f*dy}, thin...)
		d.Line(svg.Point{X: b.X - f*dx, Y: b.Y - f*dy}, b, thin...)
	} else {
		d.Line(a, b, thin...)
	}
	// A short stroke across each end, as draughtsmen of furniture do.
	nx, ny := (dx-dy)/long*3.5, (dy+dx)/long*3.5
	for _, e := range []svg.Point{a, b} {
		d.Line(svg.Point{X: e.X - nx, Y: e.Y - ny}, svg.Point{X: e.X + nx, Y: e.Y + ny}, ink("stroke", "#000", "stroke-width", "1")...)
	}
	mid := svg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	beside := 0.0
	if gap >= long-6 {
		beside = 10
	}
	if len(leads) > 0 && (leads[0].Y > a.Y+1 || math.Abs(dx) < math.Abs(dy) && leads[0].X > a.X+1) {
		beside = -beside // away from the thing measured
	}
	if math.Abs(dx) > math.Abs(dy) {
		write(d, svg.Point{X: mid.X, Y: mid.Y + 4 + beside}, pt, "middle", figure)
		return
	}
	mid.X += 4 + beside
	write(d, mid, pt, "middle", figure, standing(mid))
}

// thumb is the small outline in the cut list; all of one piece of furniture
// are drawn to one scale.
func thumb(p pattern, scale float64) string {
	low, high := p.bounds()
	w, h := float64(high.X-low.X)*scale, float64(high.Y-low.Y)*scale
	d := svg.New(thumbWide, h+4, "Outline of "+p.cut.Part)
	v := view{low: low, high: high, left: (thumbWide - w) / 2, top: 2, scale: scale}
	pen := "1.2"
	if min(w, h) < 8 {
		pen = "0.8"
	}
	d.Area(v.all(contourLines(p.cutLine)), ink("fill", "#f4f4f4", "stroke", "#000", "stroke-width", pen)...)
	if len(p.seamLine.Outer) > 0 {
		d.Area(v.all(contourLines(p.seamLine)), ink("fill", "none", "stroke", "#000", "stroke-width", "0.6", "stroke-dasharray", "2 1.5")...)
	}
	if h > 14 && w > 14 {
		arrowTo(d, v.at(p.grain.Foot), v.at(p.grain.Head), 3.5, ink("stroke", "#000", "stroke-width", "0.7")...)
	}
	return d.String()
}

// thumbScale gives the scale at which the largest of some pieces fits.
func thumbScale(patterns []pattern) float64 {
	scale := math.Inf(1)
	for _, p := range patterns {
		low, high := p.bounds()
		scale = min(scale, (thumbWide-4)/float64(max(high.X-low.X, 1)), (thumbHigh-4)/float64(max(high.Y-low.Y, 1)))
	}
	if math.IsInf(scale, 1) {
		return 0
	}
	return scale
}

// edgeMiddles finds where along the seam line each edge lies: the seam line
// begins with the first edge and the edges follow each other anticlockwise.
func (p pattern) edgeMiddles() []shape.Point {
	line := p.seamLine.Outer
	if len(line) == 0 {
		return nil
	}
	var total, edges float64
	for i, a := range line {
		b := line[(i+1)%len(line)]
		total += math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	}
	for _, e := range p.edges {
		edges += float64(e.Length)
	}
	out := make([]shape.Point, 0, len(p.edges))
	var before float64
	for _, e := range p.edges {
		out = append(out, along(line, (before+float64(e.Length)/2)/max(edges, 1)*total))
		before += float64(e.Length)
	}
	return out
}

// along gives the point of a closed line at a distance from its start.
func along(line []shape.Point, far float64) shape.Point {
	for i, a := range line {
		b := line[(i+1)%len(line)]
		long := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		if far <= long && long > 0 {
			t := far / long
			return shape.Point{X: a.X + unit.Length(t*float64(b.X-a.X)), Y: a.Y + unit.Length(t*float64(b.Y-a.Y))}
		}
		far -= long
	}
	return line[0]
}

func hypot(x, y float64) float64 { return math.Hypot(x, y) }
