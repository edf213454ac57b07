package main

import (
	"fmt"

	"github.com/coverwright/coverwright/allowance/shape"
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

// clear finds a place to write inside the cut line and inside a box, off the
// lines and the grain arrow, and how far from it the nearest of these is. It looks at the points of a grid.
func (p pattern) clear(low, high shape.Point) (best shape.Point, room unit.Length) {
	const steps = 12
	// The middle comes first, and wins where it is as good.
	var most float64
	for k := range steps * steps {
		i, j := (k/steps+steps/2)%steps, (k%steps+steps/2)%steps
		if i == 0 || j == 0 {
			continue
		}
		q := shape.Point{X: low.X + (high.X-low.X)*unit.Length(i)/steps, Y: low.Y + (high.Y-low.Y)*unit.Length(j)/steps}
		if k == 0 {
			best = q
		}
		near := float64(min(q.X-low.X, high.X-q.X, q.Y-low.Y, high.Y-q.Y))
		for _, c := range []shape.Contour{p.cutLine, p.trimLine, p.seamLine} {
			for _, l := range contourLines(c) {
				for e, a := range l {
					near = min(near, distance(q, a, l[(e+1)%len(l)]))
				}
			}
		}
		if p.grain.Foot != p.grain.Head {
			near = min(near, distance(q, p.grain.Foot, p.grain.Head))
		}
		if near > most*1.02 && inside(q, contourLines(p.cutLine)) {
			best, most = q, near
		}
	}
	return best, unit.Length(most)
}
