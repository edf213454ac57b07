package allowance

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// Curved shapes are worked out in float64 nanometres and rounded once. A
// float64 holds 15 digits, so a curve of up to a kilometre is right to the
// nanometre. Products that are added to something are wrapped in float64(), so
// that no processor fuses the two steps and every machine gives the same bits.

func lengthOf(nm float64) (unit.Length, error) { return unit.LengthOf(nm, unit.Nanometre) }

// areaOf takes square nanometres.
func areaOf(nm2 float64) (unit.Area, error) { return unit.AreaOf(nm2/1e6, unit.SquareMicrometre) }

func sq(x float64) float64 { return float64(x * x) }

// positives checks pairs of field name and length, all above zero.
func positives(fields []string, ls ...unit.Length) error { return check.Positives(fields, ls...) }

// hypot is the long side of a right triangle, without overflow concerns at
// these sizes.
func hypot(a, b float64) float64 { return math.Sqrt(float64(a*a) + float64(b*b)) }
