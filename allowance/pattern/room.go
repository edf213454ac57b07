package pattern

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Room finds a place to write inside the cut line and inside a box, off the lines,
// marks, letters and the grain arrow, and how far from it the nearest of these is: zero
// when the box shows nothing of the piece. It looks at the points of a grid. The
// letters to keep off are those of [Pattern.Lettering], or of [Tiling.Lettering].
func (p Pattern) Room(in Box, letters ...Lettering) (at shape.Point, room unit.Length) {
	const steps = 12
	low, high := in.Low, in.High
	lines := p.closed()
	// The middle comes first, and wins where it is as good.
	var most float64
	for k := range steps * steps {
		i, j := (k/steps+steps/2)%steps, (k%steps+steps/2)%steps
		if i == 0 || j == 0 {
			continue
		}
		q := shape.Point{X: low.X + (high.X-low.X)*unit.Length(i)/steps, Y: low.Y + (high.Y-low.Y)*unit.Length(j)/steps}
		if k == 0 {
			at = q
		}
		near := float64(min(q.X-low.X, high.X-q.X, q.Y-low.Y, high.Y-q.Y))
		for _, l := range lines {
			if near <= most*1.02 {
				break // no better, whatever else is near
			}
			for e, a := range l {
				near = min(near, distance(q, a, l[(e+1)%len(l)]))
			}
		}
		if p.Grain.Foot != p.Grain.Head {
			near = min(near, distance(q, p.Grain.Foot, p.Grain.Head))
		}
		for _, l := range letters {
			a, b := l.ends()
			near = min(near, distance(q, a, b)-float64(l.Size)/2)
		}
		for _, m := range p.Marks {
			near = min(near, distance(q, m, m))
		}
		if near > most*1.02 && inside(q, rings(p.Cut)) {
			at, most = q, near
		}
	}
	return at, unit.Length(most)
}

// inside tells whether a point lies inside closed lines, holes left out.
func inside(q shape.Point, lines [][]shape.Point) bool {
	in := false
	for _, l := range lines {
		for i, a := range l {
			b := l[(i+1)%len(l)]
			if (a.Y > q.Y) != (b.Y > q.Y) && float64(q.X-a.X) < float64(b.X-a.X)*(float64(q.Y-a.Y)/float64(b.Y-a.Y)) {
				in = !in
			}
		}
	}
	return in
}

// distance gives how far a point is from a line between two others, in nm.
func distance(q, a, b shape.Point) float64 {
	ax, ay := float64(q.X-a.X), float64(q.Y-a.Y)
	bx, by := float64(b.X-a.X), float64(b.Y-a.Y)
	t := 0.0
	if long := float64(bx*bx) + float64(by*by); long > 0 {
		t = min(max((float64(ax*bx)+float64(ay*by))/long, 0), 1)
	}
	return geom.Hypot(ax-float64(t*bx), ay-float64(t*by))
}
