// Package nano brings curved shapes, worked out in float64 nanometres, back to
// exact quantities.
//
// A float64 holds 15 digits, so a curve of up to a kilometre is right to the
// nanometre; it is rounded once, at the end. Products that are added to
// something are wrapped in float64(), so that no processor fuses the two steps
// and every machine gives the same bits.
package nano

import (
	"math"

	"github.com/coverwright/coverwright/unit"
)

// Length rounds nanometres to the nearest, as unit.LengthOf does.
func Length(nm float64) (unit.Length, error) { return unit.LengthOf(nm, unit.Nanometre) }

// Area takes square nanometres, as unit.AreaOf does.
func Area(nm2 float64) (unit.Area, error) { return unit.AreaOf(nm2/1e6, unit.SquareMicrometre) }

// Square is x times x.
func Square(x float64) float64 { return float64(x * x) }

// EllipsePerimeter gives the perimeter of semi-axes a >= b > 0 in their unit;
// shape.EllipsePerimeter states the formula.
func EllipsePerimeter(a, b float64) float64 {
	// in units of a, so that the sums stay near one
	x, y := 1.0, b/a
	sum := 0.5 * (1 - Square(y))
	power := 1.0
	for c := (x - y) / 2; c > 1e-9; c = (x - y) / 2 { // c shrinks as its square
		sum += float64(power * Square(c))
		x, y = (x+y)/2, math.Sqrt(x*y)
		power *= 2
	}
	x = (x + y) / 2 // what is left out is c², under 1e-18
	return 2 * math.Pi * a * (1 - sum) / x
}

// CeilDiv gives the smallest n with n×b >= a, for a >= 0 and b > 0.
func CeilDiv(a, b unit.Length) int64 {
	n := int64(a / b)
	if a%b != 0 {
		n++
	}
	return n
}
