// Package contour finds panels against their ground on a photograph, and their
// edges to a part of a pixel.
package contour

import (
	"slices"

	"github.com/coverwright/coverwright/examples/trace/internal/picture"
)

// Point is a place on the picture, in pixels from its upper left corner, Y down.
type Point struct{ X, Y float64 }

// ground is the light of the ground: a quadratic over the picture,
//
//	c0 + c1 x + c2 y + c3 x^2 + c4 x y + c5 y^2,  x and y from -1 to 1
type ground [6]float64

func basis(x, y, w, h int) ground {
	u, v := (2*float64(x)+1)/float64(w)-1, (2*float64(y)+1)/float64(h)-1
	return ground{1, u, v, u * u, u * v, v * v}
}

func (g ground) at(b ground) float64 {
	var s float64
	for i := range g {
		s += float64(g[i] * b[i])
	}
	return s
}

// groundOf fits the light of the ground. It begins with the pixels that sure are
// ground, and takes in, four times, all that are as light within a quarter. blank
// pixels are left out. Not ok when nothing of it is seen.
func groundOf(p picture.Plane, sure, blank []bool) (g ground, ok bool) {
	var all []uint16
	for i, s := range sure {
		if s && !blank[i] {
			all = append(all, p.Pix[i])
		}
	}
	if len(all) < 100 {
		return g, false
	}
	slices.Sort(all)
	g[0] = float64(all[len(all)/2])
	low, high := 0.5, 1.7
	for round := range 6 {
		var m [6][7]float64
		n := 0
		for y := range p.H {
			for x := y % 2; x < p.W; x += 2 {
				i := y*p.W + x
				if blank[i] || round < 2 && !sure[i] {
					continue
				}
				b := basis(x, y, p.W, p.H)
				v := float64(p.Pix[i])
				if is := g.at(b); v < low*is || v > high*is {
					continue
				}
				n++
				for r := range b {
					for c := r; c < len(b); c++ {
						m[r][c] += float64(b[r] * b[c])
					}
					m[r][6] += float64(b[r] * v)
				}
			}
		}
		for r := range 6 {
			for c := r + 1; c < 6; c++ {
				m[c][r] = m[r][c]
			}
		}
		if n < 50 {
			return g, false
		}
		if g, ok = solved(m); !ok {
			return g, false
		}
		low, high = 0.75, 1.18
	}
	return g, true
}

// solved solves six equations by elimination.
func solved(m [6][7]float64) (x ground, ok bool) {
	for c := range 6 {
		best := c
		for r := c; r < 6; r++ {
			if abs(m[r][c]) > abs(m[best][c]) {
				best = r
			}
		}
		m[c], m[best] = m[best], m[c]
		if abs(m[c][c]) < 1e-9 {
			return x, false
		}
		for r := c + 1; r < 6; r++ {
			f := m[r][c] / m[c][c]
			for k := c; k < 7; k++ {
				m[r][k] -= float64(f * m[c][k])
			}
		}
	}
	for r := 5; r >= 0; r-- {
		s := m[r][6]
		for k := r + 1; k < 6; k++ {
			s -= float64(m[r][k] * x[k])
		}
		x[r] = s / m[r][r]
	}
	return x, true
}

func abs(v float64) float64 { return max(v, -v) }
