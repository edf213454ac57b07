package allowance

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// CutNotch is a notch as it is marked: a short line from the cut line square
// in to the seam line.
type CutNotch struct {
	Notch
	Seam Point `json:"seam"` // on the seam line
	Cut  Point `json:"cut"`  // on the cut line, straight out from Seam
}

// notches places notches along the true seam line.
func notches(ns []Notch, seam Outline, margins []Margin) ([]CutNotch, error) {
	var out []CutNotch
	for i, n := range ns {
		field := indexed("notches", i)
		k := slices.IndexFunc(seam.sides, func(s side) bool { return s.name == n.Edge })
		if k < 0 {
			return nil, check.OneOf(field+".edge", n.Edge, seam.Edges()...)
		}
		s := seam.sides[k]
		if err := check.Length(field+".at", n.At, 0, s.length()); err != nil {
			return nil, err
		}
		p, d := s.along(float64(n.At))
		total := float64(margins[k].Total())
		// Outwards is to the right of an anticlockwise way.
		c := p.Add(geom.Point{X: int64(math.Round(total * d.Y)), Y: int64(math.Round(-total * d.X))})
		out = append(out, CutNotch{n, fromGrid(p), fromGrid(c)})
	}
	return out, nil
}

// along gives the point at a length from the start of the edge, and the
// direction there as a unit vector.
func (s side) along(l float64) (geom.Point, geom.Vec) {
	for i, g := range s.path {
		length := g.Length()
		if l <= length || i == len(s.path)-1 {
			t := g.ParameterAt(l)
			return g.At(t), g.Tangent(t)
		}
		l -= length
	}
	return geom.Point{}, geom.Vec{} // an edge has at least one piece
}

// GrainArrow is the line drawn on a panel along the grain, from foot to head:
// up the roll, or along the backbone of a hide.
type GrainArrow struct {
	Foot Point `json:"foot"`
	Head Point `json:"head"`
}

// grainArrow lies on the upright through the centroid, in the middle six tenths
// of the longest part of it that is inside the seam line.
func grainArrow(ring geom.Ring) GrainArrow {
	x, _, ok := ring.Centroid()
	if !ok {
		return GrainArrow{}
	}
	x = math.Round(x) + 0.5 // between grid lines, so that no corner lies on it
	var ys []float64
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (float64(a.X) < x) != (float64(b.X) < x) {
			f := (x - float64(a.X)) / float64(b.X-a.X)
			ys = append(ys, float64(a.Y)+float64(f*float64(b.Y-a.Y)))
		}
	}
	slices.Sort(ys)
	var low, high float64
	for i := 1; i < len(ys); i += 2 {
		if ys[i]-ys[i-1] > high-low {
			low, high = ys[i-1], ys[i]
		}
	}
	place := func(f float64) Point {
		return Point{unit.Length(x - 0.5), unit.Length(math.Round(low + float64(f*(high-low))))}
	}
	return GrainArrow{place(0.2), place(0.8)}
}
