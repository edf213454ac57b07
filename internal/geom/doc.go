// Package geom is the exact planar geometry kernel of coverwright.
//
// Coordinates are int64 nanometres, at most MaxCoord in size. Predicates
// (orientation, crossing, containment, twice the area) are exact: they use
// 128-bit integers where 64 bits do not reach. Constructions (offset corners,
// crossing points, points of curves) are computed once in float64, or exactly,
// and rounded to the grid.
//
// Orientation: x to the right, y up. A ring is a closed polygon whose last
// point is joined to its first. An outer ring runs anticlockwise and has a
// positive area; a hole runs clockwise.
//
// Results are the same bytes on every machine: products that feed a sum are
// rounded first (no fused multiply-add), and the few transcendental functions
// the package needs are its own.
package geom
