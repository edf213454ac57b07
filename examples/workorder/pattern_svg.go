package main

import (
	"strings"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
)

// svgMargin is the white round a pattern, in mm.
const svgMargin = 5.0

// patternSVG draws one piece in true millimetres, for a plotter: the seam, trim
// and cut lines, notches, the grain, and what is written on the pattern.
func (s *sheet) patternSVG(p pattern) string {
	low, high := p.bounds()
	w, h := (high.X - low.X).Millimetres(), (high.Y - low.Y).Millimetres()
	d := svg.NewMillimetres(w+2*svgMargin, h+2*svgMargin, p.name())
	at := func(q shape.Point) svg.Point {
		return svg.Point{X: svgMargin + (q.X - low.X).Millimetres(), Y: svgMargin + (high.Y - q.Y).Millimetres()}
	}
	all := func(lines [][]shape.Point) [][]svg.Point {
		out := make([][]svg.Point, len(lines))
		for i, l := range lines {
			for _, q := range l {
				out[i] = append(out[i], at(q))
			}
		}
		return out
	}
	for _, k := range []struct {
		kind    lineKind
		contour shape.Contour
	}{{seamKind, p.seamLine}, {trimKind, p.trimLine}, {cutKind, p.cutLine}} {
		if len(k.contour.Outer) > 0 {
			d.Area(all(contourLines(k.contour)), stroke(k.kind, 1)...)
		}
	}
	for _, l := range p.lines() {
		if !l.closed {
			d.Polyline(all([][]shape.Point{l.points})[0], stroke(l.kind, 1)...)
		}
	}
	place, room := p.clear(low, high)
	c := at(place)
	texts := s.patternTexts(p)
	pt := min(8, 1.3*room.Millimetres()/float64(len(texts)))
	for _, t := range texts {
		pt = min(pt, 3.2*room.Millimetres()/float64(len([]rune(t))))
	}
	if pt >= 1 {
		for i, t := range texts {
			d.Text(svg.Point{X: c.X, Y: c.Y + pt*(1.3*(float64(i)-float64(len(texts)-1)/2)+0.35)}, t, svg.Attr{Name: "font-family", Value: "sans-serif"},
				svg.Attr{Name: "font-size", Value: svg.Number(pt)}, svg.Attr{Name: "text-anchor", Value: "middle"})
		}
	}
	return d.String()
}

// stroke gives the attributes of a line; its millimetres are scaled to the user
// units of the drawing.
func stroke(k lineKind, scale float64) []svg.Attr {
	out := []svg.Attr{{Name: "class", Value: k.name}, {Name: "fill", Value: "none"}, {Name: "stroke", Value: "#000"},
		{Name: "stroke-width", Value: svg.Number(k.width * scale)}}
	if len(k.dash) > 0 {
		var dash []string
		for _, x := range k.dash {
			dash = append(dash, svg.Number(x*scale))
		}
		out = append(out, svg.Attr{Name: "stroke-dasharray", Value: strings.Join(dash, " ")})
	}
	return out
}
