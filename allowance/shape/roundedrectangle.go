package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// RoundedRectangleArea gives l w - (4 - π) r² for a rectangle with all four
// corners rounded to the radius r, from zero to half the shorter side.
func RoundedRectangleArea(length, width, radius unit.Length) (unit.Area, error) {
	if err := checkRounded(length, width, radius); err != nil {
		return 0, err
	}
	r := float64(radius)
	return nano.Area(float64(float64(length)*float64(width)) - float64((4-math.Pi)*r*r))
}

// RoundedRectanglePerimeter gives 2 (l + w) - (8 - 2 π) r.
func RoundedRectanglePerimeter(length, width, radius unit.Length) (unit.Length, error) {
	if err := checkRounded(length, width, radius); err != nil {
		return 0, err
	}
	return nano.Length(float64(2*(float64(length)+float64(width))) - float64((8-2*math.Pi)*float64(radius)))
}

func checkRounded(length, width, radius unit.Length) error {
	if err := check.Positives([]string{"length", "width"}, length, width); err != nil {
		return err
	}
	return check.Length("radius", radius, 0, min(length, width)/2)
}
