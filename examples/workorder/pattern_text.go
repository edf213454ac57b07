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
	// The middle comes first, and wins where it is as good.
	var most float64
	for k := range steps * steps {
		i, j := (k/steps+steps/2)%steps, (k%steps+steps/2)%steps
		if i == 0 || j == 0 {
			continue
		}
		q := allowance.Point{X: low.X + (high.X-low.X)*unit.Length(i)/steps, Y: low.Y + (high.Y-low.Y)*unit.Length(j)/steps}
		if k == 0 {
			best = q
		}
		near := float64(min(q.X-low.X, high.X-q.X, q.Y-low.Y, high.Y-q.Y))
		for _, l := range contourLines(p.cutLine) {
			for e, a := range l {
				near = min(near, distance(q, a, l[(e+1)%len(l)]))
			}
		}
		if near > most*1.02 && inside(q, contourLines(p.cutLine)) {
			best, most = q, near
		}
	}
	return best, unit.Length(most)
}
