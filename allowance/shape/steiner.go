package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// SteinerArea gives the area of a convex outline of area A and perimeter P,
// offset outward by s all round with round corners (Minkowski-Steiner):
//
//	A + P s + π s²
//
// Area and perimeter are above zero, s from zero to 1 km. It does not hold for
// outlines with hollows.
func SteinerArea(area unit.Area, perimeter, s unit.Length) (unit.Area, error) {
	return offsetArea(area, perimeter, s, math.Pi)
}

// SteinerPerimeter gives the perimeter of the same offset: P + 2 π s.
func SteinerPerimeter(perimeter, s unit.Length) (unit.Length, error) {
	return offsetPerimeter(perimeter, s, math.Pi)
}

// MitredOffsetArea gives the area of a convex polygon offset outward by s with
// mitred corners:
//
//	A + P s + λ s²
//
// where λ is the sum of the tangents of half the exterior angles; see
// [MitreSum].
func MitredOffsetArea(area unit.Area, perimeter, s unit.Length, mitre unit.Ratio) (unit.Area, error) {
	if err := check.Ratio("mitre", mitre, math.Pi, mostMitre); err != nil {
		return 0, err
	}
	return offsetArea(area, perimeter, s, float64(mitre))
}

// MitredOffsetPerimeter gives the perimeter of the same offset: P + 2 λ s.
func MitredOffsetPerimeter(perimeter, s unit.Length, mitre unit.Ratio) (unit.Length, error) {
	if err := check.Ratio("mitre", mitre, math.Pi, mostMitre); err != nil {
		return 0, err
	}
	return offsetPerimeter(perimeter, s, float64(mitre))
}

// mostMitre keeps needle corners out: a mitre longer than a thousand offsets.
const mostMitre unit.Ratio = 1000

// MitreSum gives λ, the sum of tan(e/2) over the exterior angles e of a convex
// polygon: 4 for a rectangle, n tan(π/n) for a regular polygon, and π in the
// limit of a circle. Each angle is above 0 and under 180 degrees and together
// they make a full turn, to a thousandth of a degree.
func MitreSum(exterior ...unit.Angle) (unit.Ratio, error) {
	if err := check.Count("exterior", len(exterior), 3, 1_000_000); err != nil {
		return 0, err
	}
	var sum, turn float64
	for i, e := range exterior {
		if err := check.Above(check.At("exterior", i), e, 179.9*unit.Degree); err != nil {
			return 0, err
		}
		turn += e.Degrees()
		sum += math.Tan(e.Radians() / 2)
	}
	if err := check.Between("exterior", unit.Angle(turn), unit.Turn-unit.Degree/1000, unit.Turn+unit.Degree/1000); err != nil {
		return 0, err
	}
	return unit.Ratio(sum), nil
}

func offsetArea(area unit.Area, perimeter, s unit.Length, corner float64) (unit.Area, error) {
	if err := check.Above("area", area, 1e6*unit.SquareMetre); err != nil {
		return 0, err
	}
	if err := checkOffset(perimeter, s); err != nil {
		return 0, err
	}
	band, err := perimeter.By(s)
	if err != nil {
		return 0, err
	}
	corners, err := nano.Area(corner * nano.Square(float64(s)))
	if err != nil {
		return 0, err
	}
	return unit.SumAreas(area, band, corners)
}

func offsetPerimeter(perimeter, s unit.Length, corner float64) (unit.Length, error) {
	if err := checkOffset(perimeter, s); err != nil {
		return 0, err
	}
	more, err := nano.Length(2 * corner * float64(s))
	if err != nil {
		return 0, err
	}
	return perimeter.Plus(more)
}

func checkOffset(perimeter, s unit.Length) error {
	if err := check.Positive("perimeter", perimeter); err != nil {
		return err
	}
	return check.NotNegative("s", s)
}
