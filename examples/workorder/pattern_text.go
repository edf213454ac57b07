package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance"
	"github.com/coverwright/coverwright/unit"
)

// patternTexts is what is written on a pattern.
func (s *sheet) patternTexts(p pattern) []string {
	c := p.cut
	return []string{
		fmt.Sprintf("%d  %s", p.number, c.Part),
		c.Piece,
		p.count(),
		s.size(c.Cut) + ", " + c.Grain,
	}
}

// clear finds a place to write inside the cut line and inside a box, and how
// far from it the nearest line is. It looks at the points of a grid.
func (p pattern) clear(low, high allowance.Point) (best allowance.Point, room unit.Length) {
	const steps = 12
	best = allowance.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
	var most float64
	for i := 1; i < steps; i++ {
		for j := 1; j < steps; j++ {
			q := allowance.Point{X: low.X + (high.X-low.X)*unit.Length(i)/steps, Y: low.Y + (high.Y-low.Y)*unit.Length(j)/steps}
			// The middle wins where it is as good.
			near := float64(min(q.X-low.X, high.X-q.X, q.Y-low.Y, high.Y-q.Y))
			in := false
			for _, l := range contourLines(p.cutLine) {
				for k, a := range l {
					b := l[(k+1)%len(l)]
					near = min(near, distance(q, a, b))
					if (a.Y > q.Y) != (b.Y > q.Y) && float64(q.X-a.X) < float64(b.X-a.X)*(float64(q.Y-a.Y)/float64(b.Y-a.Y)) {
						in = !in
					}
				}
			}
			if in && near > most*1.02 {
				best, most = q, near
			}
		}
	}
	return best, unit.Length(most)
}
