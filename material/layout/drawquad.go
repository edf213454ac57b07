package layout

import (
	"math"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/svg"
)

// quad is a box on the page, turned: a place that a text, an arrow or a line takes.
type quad struct {
	mid        svg.Point
	along      svg.Point // the unit vector its width runs along
	wide, high float64   // half of each
}

// own gives a point in the axes of the box.
func (q quad) own(p svg.Point) svg.Point {
	dx, dy := p.X-q.mid.X, p.Y-q.mid.Y
	return svg.Point{X: float64(dx*q.along.X) + float64(dy*q.along.Y), Y: float64(dy*q.along.X) - float64(dx*q.along.Y)}
}

// page gives a point of the axes of the box on the page.
func (q quad) page(x, y float64) svg.Point {
	return svg.Point{X: q.mid.X + float64(x*q.along.X) - float64(y*q.along.Y), Y: q.mid.Y + float64(x*q.along.Y) + float64(y*q.along.X)}
}

func (q quad) corners() [4]svg.Point {
	return [4]svg.Point{q.page(-q.wide, -q.high), q.page(q.wide, -q.high), q.page(q.wide, q.high), q.page(-q.wide, q.high)}
}

// grown is the box with a rim.
func (q quad) grown(by float64) quad {
	q.wide += by
	q.high += by
	return q
}

// meets tells whether two boxes have more than a border in common: no side of either
// parts them.
func (q quad) meets(o quad) bool {
	if far := q.wide + q.high + o.wide + o.high; math.Abs(q.mid.X-o.mid.X) > far || math.Abs(q.mid.Y-o.mid.Y) > far {
		return false
	}
	for _, pair := range [2][2]quad{{q, o}, {o, q}} {
		a := pair[0]
		low, high := svg.Point{X: math.Inf(1), Y: math.Inf(1)}, svg.Point{X: math.Inf(-1), Y: math.Inf(-1)}
		for _, c := range pair[1].corners() {
			c = a.own(c)
			low = svg.Point{X: min(low.X, c.X), Y: min(low.Y, c.Y)}
			high = svg.Point{X: max(high.X, c.X), Y: max(high.Y, c.Y)}
		}
		if low.X >= a.wide || high.X <= -a.wide || low.Y >= a.high || high.Y <= -a.high {
			return false
		}
	}
	return true
}

// across gives the part of a line inside the box, as shares of its length.
func (q quad) across(a, b svg.Point) (from, to float64, meets bool) {
	a, b = q.own(a), q.own(b)
	from, to = 0, 1
	for _, e := range [4][2]float64{{a.X - b.X, a.X + q.wide}, {b.X - a.X, q.wide - a.X}, {a.Y - b.Y, a.Y + q.high}, {b.Y - a.Y, q.high - a.Y}} {
		switch d, room := e[0], e[1]; {
		case d == 0 && room <= 0:
			return 0, 0, false
		case d < 0:
			from = max(from, room/d)
		case d > 0:
			to = min(to, room/d)
		}
	}
	return from, to, from < to
}

// insideOf tells whether the box lies inside a polygon.
func (q quad) insideOf(polygon []svg.Point) bool {
	return !q.cutBy(polygon) && within(polygon, q.mid)
}

// cutBy tells whether the border of a polygon runs through the box.
func (q quad) cutBy(polygon []svg.Point) bool {
	far := q.wide + q.high
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if min(a.X, b.X) > q.mid.X+far || max(a.X, b.X) < q.mid.X-far || min(a.Y, b.Y) > q.mid.Y+far || max(a.Y, b.Y) < q.mid.Y-far {
			continue
		}
		if _, _, meets := q.across(a, b); meets {
			return true
		}
	}
	return false
}

// within tells whether a point lies inside a polygon.
func within(polygon []svg.Point, p svg.Point) bool {
	in := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X-a.X < float64((b.X-a.X)*((p.Y-a.Y)/(b.Y-a.Y))) {
			in = !in
		}
	}
	return in
}

// thread is the box round a line.
func thread(a, b svg.Point) quad {
	long := geom.Hypot(b.X-a.X, b.Y-a.Y)
	along := svg.Point{X: 1}
	if long > 0 {
		along = svg.Point{X: (b.X - a.X) / long, Y: (b.Y - a.Y) / long}
	}
	return quad{svg.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}, along, long / 2, 0.8}
}

// broken gives what is left of a line outside some boxes.
func broken(a, b svg.Point, boxes []quad) [][2]svg.Point {
	parts := [][2]float64{{0, 1}}
	for _, q := range boxes {
		from, to, meets := q.across(a, b)
		if !meets {
			continue
		}
		var left [][2]float64
		for _, p := range parts {
			if p[0] < min(p[1], from) {
				left = append(left, [2]float64{p[0], min(p[1], from)})
			}
			if max(p[0], to) < p[1] {
				left = append(left, [2]float64{max(p[0], to), p[1]})
			}
		}
		parts = left
	}
	at := func(t float64) svg.Point {
		return svg.Point{X: a.X + float64(t*(b.X-a.X)), Y: a.Y + float64(t*(b.Y-a.Y))}
	}
	out := make([][2]svg.Point, len(parts))
	for i, p := range parts {
		out[i] = [2]svg.Point{at(p[0]), at(p[1])}
	}
	return out
}

// brokenRing gives what is left of the border of a polygon outside some boxes, as lines
// that run on round its corners.
func brokenRing(polygon []svg.Point, boxes []quad) [][]svg.Point {
	var out [][]svg.Point
	for i, a := range polygon {
		for _, part := range broken(a, polygon[(i+1)%len(polygon)], boxes) {
			if n := len(out); n > 0 && out[n-1][len(out[n-1])-1] == part[0] {
				out[n-1] = append(out[n-1], part[1])
				continue
			}
			out = append(out, []svg.Point{part[0], part[1]})
		}
	}
	return out
}
