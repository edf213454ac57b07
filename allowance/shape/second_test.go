package shape_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/unit"
)

// With readings c and h spread evenly within t, a size f has the variance
//
//	t² (f_c² + f_h²)/3 + bias² + (d_c² + d_h²)/45 + m²/9,  bias = (d_c + d_h)/6
//
// with d = f(+t) + f(-t) - 2 f of one reading, and m a quarter of the mixed
// difference of both: E(x⁴) - E(x²)² of an even spread is 4 t⁴/45. A coarse tape
// makes its later terms count.
func TestSecondOrderOfATape(t *testing.T) {
	const c, h, tape = 24 * in, 3 * in, unit.Inch
	of := map[string]func(c, h float64) float64{
		"radius": func(c, h float64) float64 { return c*c/(8*h) + h/2 },
		"length": func(c, h float64) float64 { return 4 * math.Atan2(2*h, c) * (c*c/(8*h) + h/2) },
	}
	got, err := shape.ArcByTape(c, h, tape)
	require.NoError(t, err)
	for name, r := range map[string]struct {
		got shape.TapedLength
		by  [2]unit.Ratio
	}{"radius": {got.Radius, got.OnRadius}, "length": {got.Length, got.OnLength}} {
		f := func(i, j int) float64 {
			return of[name](float64(c)+float64(i)*float64(tape), float64(h)+float64(j)*float64(tape))
		}
		dc, dh := f(1, 0)+f(-1, 0)-2*f(0, 0), f(0, 1)+f(0, -1)-2*f(0, 0)
		mixed := (f(1, 1) - f(1, -1) - f(-1, 1) + f(-1, -1)) / 4
		bias := (dc + dh) / 6
		first := math.Hypot(float64(r.by[0]), float64(r.by[1])) * float64(tape) / math.Sqrt(3)
		sigma := math.Sqrt(first*first + bias*bias + (dc*dc+dh*dh)/45 + mixed*mixed/9)
		assert.Less(t, first, 0.999*sigma, "the later terms count")
		assert.InEpsilon(t, sigma, float64(r.got.Sigma), 1e-5, name)
		assert.InEpsilon(t, bias, float64(r.got.Bias), 1e-5, name)
	}
}

// A circle about (5, 7) of 5 in, of which no two points lie on an axis.
func TestCentreOfAnArc(t *testing.T) {
	for _, p := range [][3]shape.Point{{pt(8*in, 11*in), pt(5*in, 12*in), pt(2*in, 11*in)}, {pt(10*in, 7*in), pt(9*in, 10*in), pt(8*in, 11*in)}} {
		arc, err := shape.ThreePointArc(p[0], p[1], p[2])
		require.NoError(t, err)
		assert.Equal(t, pt(5*in, 7*in), arc.Centre)
		assert.Equal(t, 5*in, arc.Radius)
	}
}

// Sides of 20, 10.04 and 10.04 in stand √(10.04² - 10²) = 0.895 in high, and a
// twentieth of the longest is 1 in.
func TestTriangleTooThin(t *testing.T) {
	const side = 1004 * in / 100
	_, err := shape.Form{Quadrilateral: &shape.QuadrilateralForm{Bottom: 20 * in, Right: side, Diagonal: side, Top: side, Left: side}}.Taped()
	require.ErrorContains(t, err, "at least 1.000 in high: it is 0.895 in high")
	// (1004.99)² = 1000² + 100²: 1 in and a hair.
	const enough = 1004990 * unit.Inch / 100000
	_, err = shape.Form{Quadrilateral: &shape.QuadrilateralForm{Bottom: 20 * in, Right: enough, Diagonal: enough, Top: 15 * in, Left: 15 * in}, Tolerance: unit.Millimetre / 10}.Taped()
	require.NoError(t, err)
}

// Of a panel with a hollow corner at (12, 4) the first diagonal, from (0, 0) to
// (20, 15), runs outside: the second, to (20, 0), is that of the corner folded over it.
func TestDiagonalOutsideTheShape(t *testing.T) {
	q := tapedCorners([4]shape.Point{pt(0, 0), pt(20*in, 0), pt(20*in, 15*in), pt(12*in, 4*in)}, true)
	_, err := shape.Form{Quadrilateral: q, Tolerance: in / 32}.Taped()
	require.ErrorIs(t, err, shape.ErrMisfit)
	require.ErrorContains(t, err, "a first diagonal that lies inside the shape")
	q.SecondDiagonal += in // nor is it that
	_, err = shape.Form{Quadrilateral: q, Tolerance: in / 32}.Taped()
	require.ErrorIs(t, err, shape.ErrMisfit)
	assert.NotContains(t, err.Error(), "a first diagonal that lies inside the shape")
}

// What an inch more of a rise adds to the area of a crowned panel is what the
// area of the panel drawn with it has more.
func TestCrownAddsWhatItDraws(t *testing.T) {
	area := func(rise unit.Length) float64 {
		o, err := shape.Form{Crowned: &shape.CrownedForm{Width: 20 * in, Height: 10 * in, Rise: rise}}.Outline()
		require.NoError(t, err)
		return float64(o.Area())
	}
	taken, err := shape.Form{Crowned: &shape.CrownedForm{Width: 20 * in, Height: 10 * in, Rise: 3 * in}, Tolerance: in / 16}.Taped()
	require.NoError(t, err)
	m := taken.Measures[2]
	require.Equal(t, unit.Path("crowned.rise"), m.Field)
	const step = unit.Inch / 100
	more, err := unit.Area(area(3*in+step)-area(3*in-step)).Over(2*step, unit.Nearest)
	require.NoError(t, err)
	assert.InEpsilon(t, float64(more), float64(m.OnArea), 1e-4)
}
