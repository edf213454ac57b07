package geom

import (
	"errors"
	"fmt"
)

// Sentinels of the package; test with errors.Is.
var (
	// ErrRange: a coordinate, or one a construction would make, is over MaxCoord.
	ErrRange = errors.New("coordinate out of range")
	// ErrDegenerate: fewer than three distinct points, or no area.
	ErrDegenerate = errors.New("outline has no area")
	// ErrTooComplex: the work limit was reached.
	ErrTooComplex = errors.New("outline too complex")
	// ErrParameter: a tolerance, limit or distance is not usable.
	ErrParameter = errors.New("bad parameter")
	// ErrSelfIntersection: an outline crosses or touches itself.
	ErrSelfIntersection = errors.New("outline crosses itself")
)

// ParameterError says which parameter was refused and why.
type ParameterError struct {
	Name   string
	Value  float64
	Accept string // the accepted range in words
}

func (e *ParameterError) Error() string {
	return fmt.Sprintf("%s is %g, must be %s", e.Name, e.Value, e.Accept)
}

// Unwrap returns ErrParameter.
func (e *ParameterError) Unwrap() error { return ErrParameter }

// Crossing is a place where two edges of a ring meet that should not.
type Crossing struct {
	EdgeA, EdgeB int   // indices of the edges, EdgeA < EdgeB; edge i starts at point i
	At           Point // the common point, rounded to the grid
}
