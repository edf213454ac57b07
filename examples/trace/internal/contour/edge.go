package contour

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/examples/trace/internal/picture"
)

// Numbers of the search for the edge, in pixels.
const (
	reach = 10.0 // either way of the first border
	pitch = 2.0  // from point to point
	still = 2.5  // the most a point lies off the line of its neighbours
)

// Least contrast, in coded levels, widest edge, and how much the step from ground to
// panel may vary along it.
const (
	uneven      = 0.15
	leastLevels = 25
	widestEdge  = 6
)

// edges moves a border of whole pixels to where the light is half way between
// that inside and that outside, along the normals, twice: the second time from the
// points of the first. level is the light of the whole panel over that of the ground.
func edges(p picture.Plane, ring []Point, n, level float64) (Panel, error) {
	at := even(smooth(ring, 2), pitch)
	var out Panel
	var inner, outer, widths []float64
	soft, other, seen := 0, 0, 0
	for round := range 2 {
		far := reach
		if round == 0 {
			far = max(reach, 2.5*n)
		}
		var moved []Point
		inner, outer, widths = inner[:0], outer[:0], widths[:0]
		soft, other, seen = 0, 0, 0
		normals := normalsOf(at)
		for i, q := range at {
			e := profile(p, q, normals[i], far)
			if !e.ok {
				continue
			}
			seen++
			if e.soft {
				soft++
			}
			if abs((e.inside/e.outside-1)/(level-1)-1) > uneven {
				other++
			}
			inner, outer, widths = append(inner, e.inside), append(outer, e.outside), append(widths, e.width)
			moved = append(moved, Point{q.X + float64(e.at*normals[i].X), q.Y + float64(e.at*normals[i].Y)})
		}
		if len(moved) < len(at)/2 || len(moved) < 40 {
			return out, refuse("the edge of a panel is not clear: more light, a plain ground, and nothing beside the panel")
		}
		at = steady(moved)
		if round == 0 {
			at = even(smooth(even(at, pitch), 1.5), pitch)
		}
	}
	slices.Sort(inner)
	slices.Sort(outer)
	slices.Sort(widths)
	in, ground := levels(inner[len(inner)/2]), levels(outer[len(outer)/2])
	out.Border, out.Levels, out.Width = at, abs(in-ground), widths[len(widths)/2]
	out.Sigma = scatter(at)
	burnt := 0
	for _, v := range inner {
		if levels(v) > 253.5 {
			burnt++
		}
	}
	switch {
	case out.Levels < leastLevels:
		return out, refuse("a panel stands out by %.0f of 255 levels only: lay it on a plain ground that is much lighter or darker", out.Levels)
	case out.Width > widestEdge:
		return out, refuse("the edge of a panel is %.1f pixels wide: the photo is out of focus or was moved; hold still, more light", out.Width)
	case float64(burnt) > 0.02*float64(len(inner)), levels(outer[len(outer)/2]) > 253.5:
		return out, refuse("the panel or the ground is as light as the camera can tell (glare): move the lamp, or take the photo darker")
	case float64(soft) > 0.15*float64(seen):
		return out, refuse("a shadow or another thing lies along the edge of a panel: light from above or from two sides, and a finger's breadth between panels")
	case float64(other) > 0.1*float64(seen):
		return out, refuse("along its edge a panel is not as light as elsewhere: a shadow beside it (light from above or from two sides), or goods with a pattern (mark the points by hand)")
	}
	return out, nil
}

// levels gives the coded level, of 255, of light.
func levels(v float64) float64 {
	v /= picture.White
	if v <= 0.0031308 {
		return 255 * 12.92 * v
	}
	return 255 * (float64(1.055*math.Pow(v, 1/2.4)) - 0.055)
}

// crossing is an edge along a line.
type crossing struct {
	at              float64 // from where the line was laid, outwards
	inside, outside float64
	width           float64 // from a tenth to nine tenths
	soft            bool    // the light goes on changing beside the edge
	ok              bool
}

const perPixel = 2

// profile looks along a normal, on three lines beside each other whose mean it
// takes.
func profile(p picture.Plane, q, normal Point, far float64) crossing {
	n := int(perPixel * far)
	if !p.Inside(q.X, q.Y, far+3) {
		return crossing{}
	}
	v := make([]float64, 2*n+1)
	for i := range v {
		d := float64(i-n) / perPixel
		for k := -1.0; k <= 1; k++ {
			v[i] += p.At(q.X+float64(d*normal.X)-float64(k*normal.Y), q.Y+float64(d*normal.Y)+float64(k*normal.X)) / 3
		}
	}
	const end = 4 * perPixel // samples for the level of either side
	c := crossing{inside: median(v[:end]), outside: median(v[len(v)-end:])}
	step := c.outside - c.inside
	if abs(step) < 0.2*max(c.inside, c.outside) {
		return crossing{}
	}
	part := func(i int) float64 { return (v[i] - c.inside) / step }
	// The crossing nearest to where the line was laid.
	best := -1
	for i := 0; i+1 < len(v); i++ {
		if part(i) < 0.5 && part(i+1) >= 0.5 && (best < 0 || abs(float64(i-n)) < abs(float64(best-n))) {
			best = i
		}
	}
	if best < 0 {
		return crossing{}
	}
	place := func(i int, level float64) float64 {
		return (float64(i-n) + (level-part(i))/(part(i+1)-part(i))) / perPixel
	}
	c.at = place(best, 0.5)
	low, high := best, best
	for low > 0 && part(low) > 0.1 {
		low--
	}
	for high+2 < len(v) && part(high+1) < 0.9 {
		high++
	}
	c.width = place(high, 0.9) - place(low, 0.1)
	// Just outside the edge the light must be that of the ground, and just inside that
	// of the panel.
	beside := int(perPixel * (4 + c.width/4))
	if k := best + beside; k+1 < len(v)-end {
		c.soft = abs(part(k)-1) > 0.12 && abs(part(k+1)-1) > 0.12
	}
	if k := best - beside; k-1 >= end {
		c.soft = c.soft || abs(part(k)) > 0.12 && abs(part(k-1)) > 0.12
	}
	c.ok = true
	return c
}

func median(v []float64) float64 {
	s := slices.Clone(v)
	slices.Sort(s)
	return (s[(len(s)-1)/2] + s[len(s)/2]) / 2
}

// smooth spreads the points of a ring along it by a Gauss curve, in points.
func smooth(ring []Point, sigma float64) []Point {
	n := int(math.Ceil(3 * sigma))
	weights := make([]float64, n+1)
	sum := 0.0
	for i := range weights {
		weights[i] = math.Exp(-float64(i*i) / (2 * sigma * sigma))
		sum += weights[i]
		if i > 0 {
			sum += weights[i]
		}
	}
	out := make([]Point, len(ring))
	for i := range ring {
		for k := -n; k <= n; k++ {
			q, w := around(ring, i+k), weights[max(k, -k)]/sum
			out[i].X += float64(w * q.X)
			out[i].Y += float64(w * q.Y)
		}
	}
	return out
}

func around(ring []Point, i int) Point {
	n := len(ring)
	return ring[((i%n)+n)%n]
}

// even puts points at equal distances along a ring.
func even(ring []Point, step float64) []Point {
	var out []Point
	rest := 0.0
	for i, a := range ring {
		b := around(ring, i+1)
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		for ; rest < long; rest += step {
			f := rest / long
			out = append(out, Point{a.X + float64(f*(b.X-a.X)), a.Y + float64(f*(b.Y-a.Y))})
		}
		rest -= long
	}
	return out
}

// normalsOf gives the directions out of a ring that runs with its inside on the
// right as the picture is seen, Y down.
func normalsOf(ring []Point) []Point {
	out := make([]Point, len(ring))
	for i := range ring {
		a, b := around(ring, i-3), around(ring, i+3)
		long := math.Hypot(b.X-a.X, b.Y-a.Y)
		if long == 0 {
			out[i] = Point{0, -1}
			continue
		}
		out[i] = Point{(b.Y - a.Y) / long, -(b.X - a.X) / long}
	}
	return out
}

// off is how far a point lies off the line of some of its neighbours.
func off(ring []Point, i, from, to int) float64 {
	var n, mx, my, xx, xy, yy float64
	for k := from; k <= to; k++ {
		if k != 0 {
			q := around(ring, i+k)
			n++
			mx += q.X
			my += q.Y
		}
	}
	mx, my = mx/n, my/n
	for k := from; k <= to; k++ {
		if k != 0 {
			q := around(ring, i+k)
			u, v := q.X-mx, q.Y-my
			xx += float64(u * u)
			xy += float64(u * v)
			yy += float64(v * v)
		}
	}
	sin, cos := math.Sincos(math.Atan2(2*xy, xx-yy) / 2)
	return abs(float64((ring[i].Y-my)*cos) - float64((ring[i].X-mx)*sin))
}

// steady drops points that lie far off the lines of their neighbours: of those on
// both sides, and, as at a corner, of those on either.
func steady(ring []Point) []Point {
	var out []Point
	for i := range ring {
		if min(off(ring, i, -4, 4), off(ring, i, -5, -1), off(ring, i, 1, 5)) <= still {
			out = append(out, ring[i])
		}
	}
	return out
}

// scatter is one standard deviation of the points about the lines of their
// neighbours, from the middle of the sizes.
func scatter(ring []Point) float64 {
	all := make([]float64, len(ring))
	for i := range ring {
		all[i] = off(ring, i, -4, 4)
	}
	return 1.4826 * median(all) / math.Sqrt(1+1.0/8)
}
