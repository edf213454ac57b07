package nest

import "github.com/coverwright/coverwright/internal/geom"

// The names this package had for plain shapes before geom owned them all.
type (
	Point = geom.Point
	Ring  = geom.Ring
	Flaw  = geom.Box
)
