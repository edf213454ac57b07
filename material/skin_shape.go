package material

import (
	"fmt"
	"math"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
)

// knot is a place on the border of a usual shape, as a share of its length:
// x from the backbone, y from the butt. A sharp knot is a corner.
type knot struct {
	x, y  float64
	sharp bool
}

// halfHide is the right half of a whole hide, from the neck to the tail, drawn
// for this package so that the whole is about 8 wide to 8.5 long and fills 0.70
// of that box: the one pair of length and width found that agrees with its own
// area (common practice).
var halfHide = []knot{
	{0.108, 0.985, false}, {0.128, 0.905, false}, {0.185, 0.866, false}, {0.310, 0.902, false}, {0.430, 0.912, false},
	{0.464, 0.858, false}, {0.405, 0.782, false}, {0.345, 0.690, false}, {0.333, 0.560, false}, {0.338, 0.430, false},
	{0.335, 0.320, false}, {0.378, 0.222, false}, {0.470, 0.140, false}, {0.455, 0.076, false}, {0.360, 0.062, false},
	{0.250, 0.066, false}, {0.160, 0.043, false}, {0.086, 0.022, false}, {0.036, 0.000, false},
}

// halfCalf, halfGoat and halfSheep likewise: rounder the smaller the animal.
var halfCalf = []knot{
	{0.105, 0.980, false}, {0.140, 0.890, false}, {0.220, 0.845, false}, {0.330, 0.865, false}, {0.420, 0.860, false},
	{0.435, 0.800, false}, {0.390, 0.730, false}, {0.365, 0.620, false}, {0.375, 0.500, false}, {0.370, 0.380, false},
	{0.365, 0.280, false}, {0.410, 0.200, false}, {0.450, 0.130, false}, {0.420, 0.070, false}, {0.320, 0.070, false},
	{0.200, 0.050, false}, {0.090, 0.020, false}, {0.035, 0.000, false},
}

var halfGoat = []knot{
	{0.090, 0.985, false}, {0.115, 0.900, false}, {0.180, 0.840, false}, {0.290, 0.850, false}, {0.345, 0.810, false},
	{0.320, 0.720, false}, {0.300, 0.600, false}, {0.310, 0.470, false}, {0.310, 0.340, false}, {0.325, 0.240, false},
	{0.375, 0.160, false}, {0.360, 0.085, false}, {0.260, 0.070, false}, {0.150, 0.045, false}, {0.040, 0.000, false},
}

var halfSheep = []knot{
	{0.110, 0.985, false}, {0.150, 0.905, false}, {0.240, 0.870, false}, {0.340, 0.860, false}, {0.385, 0.790, false},
	{0.375, 0.680, false}, {0.385, 0.540, false}, {0.390, 0.400, false}, {0.385, 0.280, false}, {0.405, 0.190, false},
	{0.395, 0.105, false}, {0.300, 0.070, false}, {0.170, 0.045, false}, {0.050, 0.000, false},
}

// mirroredWhole closes a right half to a whole skin.
func mirroredWhole(half []knot) []knot {
	out := append([]knot(nil), half...)
	for i := len(half) - 1; i >= 0; i-- {
		out = append(out, knot{-half[i].x, half[i].y, half[i].sharp})
	}
	return out
}

// naturalKnots gives the border of a usual shape, clockwise from the neck.
func naturalKnots(k SkinKind) []knot {
	switch k {
	case WholeHide:
		return mirroredWhole(halfHide)
	case Calf:
		return mirroredWhole(halfCalf)
	case Goat:
		return mirroredWhole(halfGoat)
	case Sheep:
		return mirroredWhole(halfSheep)
	case Side:
		out := []knot{{0, 0.997, true}}
		out = append(out, halfHide...)
		return append(out, knot{0, 0.002, true})
	case Shoulder: // cut square across behind the forelegs
		half := append([]knot(nil), halfHide[:7]...)
		return mirroredWhole(append(half, knot{0.350, 0.700, true}))
	case Bend: // from tail to shoulder, without the belly
		return []knot{{0, 0.700, true}, {0.240, 0.700, true}, {0.245, 0.400, false}, {0.240, 0.065, true}, {0.160, 0.043, false}, {0.086, 0.022, false}, {0, 0.002, true}}
	case Belly: // what the bend leaves, from fore to hind shank
		out := []knot{{0.240, 0.880, true}}
		out = append(out, halfHide[3:15]...)
		return append(out, knot{0.240, 0.065, true})
	}
	return nil
}

// NaturalShape gives the usual border of a kind of skin, scaled to an area from
// 0.5 sq ft to 120 sq ft: a smooth curve through drawn points (for side,
// shoulder, bend and belly with straight cuts), lower left corner at the
// origin, the neck end up. Skins differ; measure where it matters.
//
// With S the area of the drawing and A the area asked for, lengths are scaled
// by √(A/S), so that the area is A to a millionth.
func NaturalShape(k SkinKind, area unit.Area) (shape.Outline, error) {
	knots := naturalKnots(k)
	if knots == nil {
		return shape.Outline{}, check.Refuse("kind", k.String(), unit.ErrUnknown, "a kind with a usual shape; see SkinKinds")
	}
	if err := check.Between("area", area, leastSkin, mostSkin); err != nil {
		return shape.Outline{}, err
	}
	one, err := smoothBorder(knots, float64(unit.Metre))
	if err != nil {
		return shape.Outline{}, fmt.Errorf("usual shape of %v: %w", k, err)
	}
	o, err := smoothBorder(knots, float64(unit.Metre)*math.Sqrt(float64(area)/float64(one.Area())))
	if err != nil {
		return shape.Outline{}, fmt.Errorf("usual shape of %v: %w", k, err)
	}
	low, _ := o.Bounds()
	return o.Moved(shape.Point{X: -low.X, Y: -low.Y})
}

// smoothBorder draws a closed curve through the knots: cubic curves whose
// direction at a smooth knot is that from its neighbour before to the one after
// (Catmull-Rom), straight to sharp knots on both sides of a cut.
func smoothBorder(knots []knot, scale float64) (shape.Outline, error) {
	n := len(knots)
	at := func(x, y float64) shape.Point {
		return shape.Point{X: unit.Length(math.Round(float64(x * scale))), Y: unit.Length(math.Round(float64(y * scale)))}
	}
	tangent := func(i int) (x, y float64) {
		k := knots[i]
		a, b := knots[(i+n-1)%n], knots[(i+1)%n]
		if k.sharp {
			return 0, 0
		}
		return (b.x - a.x) / 6, (b.y - a.y) / 6
	}
	t := shape.TraceFrom(at(knots[0].x, knots[0].y)).Edge("border")
	for i := range n {
		j := (i + 1) % n
		a, b := knots[i], knots[j]
		if a.sharp && b.sharp {
			t.Line(at(b.x, b.y))
			continue
		}
		ax, ay := tangent(i)
		bx, by := tangent(j)
		t.Cubic(at(a.x+ax, a.y+ay), at(b.x-bx, b.y-by), at(b.x, b.y))
	}
	return t.Close()
}
