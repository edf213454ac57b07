package svg

import (
	"math"

	"github.com/coverwright/coverwright/internal/geom"
)

// Attrs shortens the writing of attributes: Attrs("stroke", "#000", "fill",
// "none").
func Attrs(pairs ...string) []Attr {
	out := make([]Attr, 0, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		out = append(out, Attr{Name: pairs[i], Value: pairs[i+1]})
	}
	return out
}

// TextWidth estimates how wide a line of sans-serif type is. It is on the wide
// side, since nobody knows the reader's type face.
func TextWidth(s string, size float64) float64 {
	var w float64
	for _, r := range s {
		switch {
		case r == ' ' || r == '\u00a0' || r == 'i' || r == 'l' || r == 'j' || r == 't' || r == 'f' || r == '/' || r == '.' || r == ',' || r == ':' || r == '-':
			w += 0.34
		case r == 'm' || r == 'w' || r == 'M' || r == 'W' || r > 0x2e80:
			w += 0.95
		case r >= 'A' && r <= 'Z':
			w += 0.72
		default:
			w += 0.58
		}
	}
	return w * size
}

// Write puts a line of black sans-serif text; anchor is start, middle or end.
func (d *Drawing) Write(at Point, size float64, anchor, s string, more ...Attr) {
	attrs := Attrs("font-family", "sans-serif", "font-size", Number(size), "fill", "#000")
	if anchor != "start" {
		attrs = append(attrs, Attr{Name: "text-anchor", Value: anchor})
	}
	d.Text(at, s, append(attrs, more...)...)
}

// Halo writes text that stays readable across lines.
func (d *Drawing) Halo(at Point, size float64, anchor, s string, more ...Attr) {
	d.Write(at, size, anchor, s, append(Attrs("stroke", "#fff", "stroke-width", "2.6", "stroke-linejoin", "round", "paint-order", "stroke"), more...)...)
}

// Upward turns text about its place so that it runs up the page.
func Upward(at Point) Attr {
	return Attr{Name: "transform", Value: "rotate(-90 " + Number(at.X) + " " + Number(at.Y) + ")"}
}

// Arrow draws an arrow with a head of the given size.
func (d *Drawing) Arrow(from, to Point, head float64, attrs ...Attr) {
	d.Line(from, to, attrs...)
	long := geom.Hypot(to.X-from.X, to.Y-from.Y)
	if long == 0 {
		return
	}
	ux, uy := float64((to.X-from.X)/long*head), float64((to.Y-from.Y)/long*head)
	d.Polyline([]Point{{X: to.X - ux - uy/2, Y: to.Y - uy + ux/2}, to, {X: to.X - ux + uy/2, Y: to.Y - uy - ux/2}}, append(Attrs("fill", "none"), attrs...)...)
}

// Dimension draws a dimension line between two points on one level, with the
// figure on it, and lines that lead from the thing measured.
func (d *Drawing) Dimension(a, b Point, figure string, leads ...Point) {
	thin := Attrs("stroke", "#000", "stroke-width", "0.6")
	for i, l := range leads {
		to := a
		if i > 0 {
			to = b
		}
		d.Line(l, to, Attrs("stroke", "#777", "stroke-width", "0.5")...)
	}
	dx, dy := b.X-a.X, b.Y-a.Y
	long := geom.Hypot(dx, dy)
	if long == 0 {
		return
	}
	// The line leaves room for the figure; a short one carries it beside.
	const size = 11.0
	gap := TextWidth(figure, size) + 6
	if gap < long-6 {
		f := (long - gap) / 2 / long
		ex, ey := float64(f*dx), float64(f*dy)
		d.Line(a, Point{X: a.X + ex, Y: a.Y + ey}, thin...)
		d.Line(Point{X: b.X - ex, Y: b.Y - ey}, b, thin...)
	} else {
		d.Line(a, b, thin...)
	}
	// A short stroke across each end, as draughtsmen of furniture do.
	nx, ny := float64((dx-dy)/long*3.5), float64((dy+dx)/long*3.5)
	for _, e := range []Point{a, b} {
		d.Line(Point{X: e.X - nx, Y: e.Y - ny}, Point{X: e.X + nx, Y: e.Y + ny}, Attrs("stroke", "#000", "stroke-width", "1")...)
	}
	mid := Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	beside := 0.0
	if gap >= long-6 {
		beside = 10
	}
	if len(leads) > 0 && (leads[0].Y > a.Y+1 || math.Abs(dx) < math.Abs(dy) && leads[0].X > a.X+1) {
		beside = -beside // away from the thing measured
	}
	if math.Abs(dx) > math.Abs(dy) {
		d.Write(Point{X: mid.X, Y: mid.Y + 4 + beside}, size, "middle", figure)
		return
	}
	mid.X += 4 + beside
	d.Write(mid, size, "middle", figure, Upward(mid))
}
