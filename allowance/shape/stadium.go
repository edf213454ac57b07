package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// StadiumArea gives π r² + 2 r a for a straight part a between two half
// circles of radius r. The radius is above zero, the straight part from zero.
func StadiumArea(radius, straight unit.Length) (unit.Area, error) {
	if err := checkStadium(radius, straight); err != nil {
		return 0, err
	}
	r, a := float64(radius), float64(straight)
	return nano.Area(float64(math.Pi*r*r) + float64(2*r*a))
}

// StadiumPerimeter gives 2 (π r + a).
func StadiumPerimeter(radius, straight unit.Length) (unit.Length, error) {
	if err := checkStadium(radius, straight); err != nil {
		return 0, err
	}
	return nano.Length(2 * (float64(math.Pi*float64(radius)) + float64(straight)))
}

func checkStadium(radius, straight unit.Length) error {
	if err := check.Positive("radius", radius); err != nil {
		return err
	}
	return check.NotNegative("straight", straight)
}
