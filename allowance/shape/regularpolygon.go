package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// RegularPolygonArea gives (n s² / 4) cot(π/n) for n sides of length s. From 3
// to 1000 sides; s above zero.
func RegularPolygonArea(sides int, side unit.Length) (unit.Area, error) {
	if err := checkPolygon(sides, side); err != nil {
		return 0, err
	}
	n := float64(sides)
	return nano.Area(n / 4 * nano.Square(float64(side)) / math.Tan(math.Pi/n))
}

// RegularPolygonPerimeter gives n s.
func RegularPolygonPerimeter(sides int, side unit.Length) (unit.Length, error) {
	if err := checkPolygon(sides, side); err != nil {
		return 0, err
	}
	return side.Times(sides)
}

// RegularPolygonApothem gives the distance from the centre to a side:
// s / (2 tan(π/n)).
func RegularPolygonApothem(sides int, side unit.Length) (unit.Length, error) {
	if err := checkPolygon(sides, side); err != nil {
		return 0, err
	}
	return nano.Length(float64(side) / (2 * math.Tan(math.Pi/float64(sides))))
}

// RegularPolygonCircumradius gives the distance from the centre to a corner:
// s / (2 sin(π/n)).
func RegularPolygonCircumradius(sides int, side unit.Length) (unit.Length, error) {
	if err := checkPolygon(sides, side); err != nil {
		return 0, err
	}
	return nano.Length(float64(side) / (2 * math.Sin(math.Pi/float64(sides))))
}

func checkPolygon(sides int, side unit.Length) error {
	if err := check.Count("sides", sides, 3, 1000); err != nil {
		return err
	}
	return check.Positive("side", side)
}
