package shape

import (
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// TrapezoidArea gives (a + b) h / 2 for the parallel sides a and b, h apart:
// the seat of a chair that is wider in front than behind. One of the sides may
// be zero.
func TrapezoidArea(a, b, h unit.Length) (unit.Area, error) {
	if err := checkTrapezoid(a, b, h); err != nil {
		return 0, err
	}
	switch sum := a + b; {
	case sum%2 == 0:
		return (sum / 2).By(h)
	case h%2 == 0:
		return sum.By(h / 2)
	default:
		twice, err := sum.By(h)
		if err != nil {
			return 0, err
		}
		return twice.MulDiv(1, 2, unit.Nearest)
	}
}

// TrapezoidSide gives the length of each slanted side of a trapezoid that is
// the same on both sides:
//
//	√(h² + ((a - b)/2)²)
func TrapezoidSide(a, b, h unit.Length) (unit.Length, error) {
	if err := checkTrapezoid(a, b, h); err != nil {
		return 0, err
	}
	return nano.Length(geom.Hypot(float64(h), float64(a-b)/2))
}

// TrapezoidPerimeter gives a + b + 2 sides for a trapezoid that is the same on
// both sides.
func TrapezoidPerimeter(a, b, h unit.Length) (unit.Length, error) {
	if err := checkTrapezoid(a, b, h); err != nil {
		return 0, err
	}
	return nano.Length(float64(a) + float64(b) + float64(2*geom.Hypot(float64(h), float64(a-b)/2)))
}

func checkTrapezoid(a, b, h unit.Length) error {
	if err := check.NotNegative("a", a); err != nil {
		return err
	}
	if err := check.NotNegative("b", b); err != nil {
		return err
	}
	if a == 0 && b == 0 {
		return check.Positive("a", a)
	}
	return check.Positive("h", h)
}
