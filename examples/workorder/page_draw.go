package main

import (
	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/svg"
)

// The page is drawn in user units of 1/96 in, so that a drawing as wide as the
// print of an A4 or Letter page is pageWide, and type keeps its size on paper.
const (
	pageWide  = 680.0
	panelWide = 330.0
)

// view maps the axes of a skin, y up, to a drawing, y down.
type view struct {
	low, high shape.Point
	left, top float64
	scale     float64 // user units for each nanometre
}

func (v view) at(p shape.Point) svg.Point {
	return svg.Point{X: v.left + float64(float64(p.X-v.low.X)*v.scale), Y: v.top + float64(float64(v.high.Y-p.Y)*v.scale)}
}

func (v view) line(l []shape.Point) []svg.Point {
	out := make([]svg.Point, len(l))
	for i, q := range l {
		out[i] = v.at(q)
	}
	return out
}

func boundsOf(points []shape.Point) (low, high shape.Point) {
	for i, q := range points {
		if i == 0 {
			low, high = q, q
		}
		low.X, low.Y = min(low.X, q.X), min(low.Y, q.Y)
		high.X, high.Y = max(high.X, q.X), max(high.Y, q.Y)
	}
	return low, high
}
