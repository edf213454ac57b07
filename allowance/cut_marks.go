package allowance

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// CutNotch is a notch as it is marked: a short line from the cut line square
// in to the seam line.
type CutNotch struct {
	Notch
	Seam shape.Point `json:"seam"` // on the seam line
	Cut  shape.Point `json:"cut"`  // on the cut line, straight out from Seam
}

// onBothHalves gives the notches with those of the mirror images of edges.
func onBothHalves(ns []Notch, seam shape.Outline) []Notch {
	out := slices.Clone(ns)
	names := seam.Edges()
	for _, n := range ns {
		twin := n.Edge + shape.MirrorImage
		if n.OneHalf || !slices.Contains(names, twin) || slices.ContainsFunc(ns, func(o Notch) bool { return o.Edge == twin }) {
			continue
		}
		if l, err := seam.EdgeLength(twin); err == nil {
			out = append(out, Notch{Edge: twin, At: l - n.At})
		}
	}
	return out
}

// notches places notches along the true seam line.
func notches(ns []Notch, seam shape.Outline, margins []Margin) ([]CutNotch, error) {
	var out []CutNotch
	names := seam.Edges()
	for i, n := range onBothHalves(ns, seam) {
		field := check.At("notches", i)
		k := slices.Index(names, n.Edge)
		if k < 0 {
			return nil, check.OneOf(field+".edge", n.Edge, names...)
		}
		on, off, err := seam.Mark(n.Edge, n.At, margins[k].Total())
		if err != nil {
			return nil, unit.InField(field, err)
		}
		out = append(out, CutNotch{n, on, off})
	}
	return out, nil
}

// GrainArrow is the line drawn on a panel along the grain, from foot to head:
// up the roll, or along the backbone of a hide.
type GrainArrow struct {
	Foot shape.Point `json:"foot"`
	Head shape.Point `json:"head"`
}

// grainArrow lies on the upright through the centroid, in the middle six tenths
// of the longest part of it that is inside the seam line.
func grainArrow(line shape.Contour) GrainArrow {
	ring := make(geom.Ring, len(line.Outer))
	for i, p := range line.Outer {
		ring[i] = geom.Point{X: int64(p.X), Y: int64(p.Y)}
	}
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
	place := func(f float64) shape.Point {
		return shape.Point{X: unit.Length(x - 0.5), Y: unit.Length(math.Round(low + float64(f*(high-low))))}
	}
	return GrainArrow{place(0.2), place(0.8)}
}
