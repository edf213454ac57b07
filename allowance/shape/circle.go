package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// CircleArea gives π d² / 4 for a diameter above zero, up to 1 km.
func CircleArea(d unit.Length) (unit.Area, error) {
	if err := check.Positive("diameter", d); err != nil {
		return 0, err
	}
	return nano.Area(math.Pi / 4 * nano.Square(float64(d)))
}

// CircleCircumference gives π d for a diameter above zero, up to 1 km.
func CircleCircumference(d unit.Length) (unit.Length, error) {
	if err := check.Positive("diameter", d); err != nil {
		return 0, err
	}
	return nano.Length(math.Pi * float64(d))
}

// SphericalCapArea gives the curved surface 2 π ρ h of a cap of rise h cut
// from a sphere of radius ρ. Both are above zero, the rise at most 2 ρ.
func SphericalCapArea(radius, rise unit.Length) (unit.Area, error) {
	if err := check.Positive("radius", radius); err != nil {
		return 0, err
	}
	if err := check.Length("rise", rise, 10*unit.Micrometre, 2*radius); err != nil {
		return 0, err
	}
	return nano.Area(2 * math.Pi * float64(radius) * float64(rise))
}
