// Package marks finds the printed marks on a photograph and says which is which.
package marks

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/examples/trace/internal/picture"
)

// Ring is a mark as it is seen: the middle of its ink, the ellipse of its outside
// by the spread of what it fills, and whether it has no dot. Pixels run from the
// upper left corner of the picture, Y down.
type Ring struct {
	X, Y       float64
	xx, xy, yy float64
	Odd        bool
}

// Radius is the shorter half axis of the ring, in pixels.
func (r Ring) Radius() float64 {
	mid, half := (r.xx+r.yy)/2, math.Hypot((r.xx-r.yy)/2, r.xy)
	return 2 * math.Sqrt(max(mid-half, 0))
}

// mean is the radius of a circle of the ring's area, in pixels.
func (r Ring) mean() float64 {
	return 2 * math.Sqrt(math.Sqrt(max(float64(r.xx*r.yy)-float64(r.xy*r.xy), 0)))
}

// Find gives the rings of a picture, from the top down. It looks at the picture
// at half size, and at those it takes for rings at full size. Where the marks are
// seen large, a wider look finds them.
func Find(p picture.Plane) []Ring {
	half := p.Shrink(2)
	var out []Ring
	for _, part := range []int{50, 16} {
		runs := darkRuns(half, max(half.W, half.H)/part)
		for _, b := range blobs(runs, 8, int32(max(half.W, half.H)/8)) {
			if !b.filledRight() {
				continue
			}
			r := Ring{X: 2 * b.x, Y: 2 * b.y, xx: 4 * b.xx, xy: 4 * b.xy, yy: 4 * b.yy}
			if r.test(p) && !slices.ContainsFunc(out, func(q Ring) bool { return math.Hypot(q.X-r.X, q.Y-r.Y) < r.Radius() }) {
				r.centre(p)
				out = append(out, r)
			}
		}
	}
	slices.SortFunc(out, func(a, b Ring) int {
		switch {
		case a.Y < b.Y || a.Y == b.Y && a.X < b.X:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	return out
}

// axes gives the root of the spread: what maps a circle of radius 1/2 on a ring of
// that radius.
func (r Ring) axes() (a, b, d float64) {
	// The root of a symmetric 2 x 2 matrix C is (C + sqrt(det C) I) / sqrt(trace C
	// + 2 sqrt(det C)).
	s := math.Sqrt(max(float64(r.xx*r.yy)-float64(r.xy*r.xy), 0))
	t := math.Sqrt(r.xx + r.yy + 2*s)
	return (r.xx + s) / t, r.xy / t, (r.yy + s) / t
}

// steps round a ring.
const steps = 32

// circle is the places at part of the radius.
func (r Ring) circle(part float64, do func(x, y float64)) {
	a, b, d := r.axes()
	for i := range steps {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / steps)
		u, v := 2*part*cos, 2*part*sin
		do(r.X+float64(a*u)+float64(b*v), r.Y+float64(b*u)+float64(d*v))
	}
}

// test tells whether the thing is a ring: dark where the ring is, white inside and
// about it, and the dot there or, of the odd one, not.
func (r *Ring) test(p picture.Plane) bool {
	long := 2 * math.Sqrt(r.xx+r.yy) * 1.4
	if !p.Inside(r.X, r.Y, long+2) || r.Radius() < 6 {
		return false
	}
	levels := func(parts ...float64) []float64 {
		var all []float64
		for _, part := range parts {
			r.circle(part, func(x, y float64) { all = append(all, p.At(x, y)) })
		}
		return all
	}
	white, black := median(levels(1.2, 1.3)), median(levels(0.83))
	if white-black < 0.3*white {
		return false
	}
	mid := (white + black) / 2
	share := func(all []float64) float64 {
		n := 0
		for _, v := range all {
			if v < mid {
				n++
			}
		}
		return float64(n) / float64(len(all))
	}
	if share(levels(0.76, 0.83, 0.88)) < 0.85 || share(levels(0.44, 0.5, 0.55)) > 0.15 || share(levels(1.2, 1.28)) > 0.1 {
		return false
	}
	switch dot := share(levels(0.02, 0.1, 0.18)); {
	case dot > 0.8:
		r.Odd = false
	case dot < 0.2:
		r.Odd = true
	default:
		return false
	}
	return true
}

// centre sets the place to the middle of the ink: each pixel weighs as much as it
// lacks to the white about the mark, and nothing under 12 % of the full contrast.
// The white is a plane fitted to the rim. Two rounds, as the second one looks where
// the ring is.
func (r *Ring) centre(p picture.Plane) {
	for range 2 {
		// A fit by least squares of white = c0 + c1 u + c2 v about the ring, u and v
		// from its middle; on an even ring the sums fall apart.
		var n, s0, s1, s2, uu, uv, vv, black float64
		for _, part := range []float64{1.18, 1.25, 1.32} {
			r.circle(part, func(x, y float64) {
				g, u, v := p.At(x, y), x-r.X, y-r.Y
				n++
				s0 += g
				s1 += float64(g * u)
				s2 += float64(g * v)
				uu += float64(u * u)
				uv += float64(u * v)
				vv += float64(v * v)
			})
		}
		r.circle(0.83, func(x, y float64) { black += p.At(x, y) / steps })
		det := float64(uu*vv) - float64(uv*uv)
		c0, c1, c2 := s0/n, (float64(s1*vv)-float64(s2*uv))/det, (float64(s2*uu)-float64(s1*uv))/det
		full := 1 - black/c0

		a, b, d := r.axes()
		det = float64(a*d) - float64(b*b)
		reach := 2 * 1.25
		wide, tall := reach*math.Sqrt(r.xx), reach*math.Sqrt(r.yy)
		var ink, mx, my float64
		for y := int(r.Y - tall); y <= int(r.Y+tall); y++ {
			for x := int(r.X - wide); x <= int(r.X+wide); x++ {
				u, v := float64(x)+0.5-r.X, float64(y)+0.5-r.Y
				// Back on the circle of radius 1/2.
				e, f := (float64(d*u)-float64(b*v))/det, (float64(a*v)-float64(b*u))/det
				if float64(e*e)+float64(f*f) > reach*reach {
					continue
				}
				w := 1 - float64(p.Pix[y*p.W+x])/(c0+float64(c1*u)+float64(c2*v))
				if w < 0.12*full {
					continue
				}
				ink += w
				mx += float64(w * u)
				my += float64(w * v)
			}
		}
		if ink == 0 {
			return
		}
		r.X, r.Y = r.X+mx/ink, r.Y+my/ink
	}
}

func median(all []float64) float64 {
	s := slices.Clone(all)
	slices.Sort(s)
	return s[len(s)/2]
}
