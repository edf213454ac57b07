package shape

import (
	"math"
	"strconv"
	"strings"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// EllipseArc is a part of an ellipse without loss: centre + u cos t + v sin t
// from one angle to another, u and v conjugate half-diameters. As text it is
// six numbers: u and v, each across and along in nanometres, and both angles in
// radians. The centre follows from where the piece begins.
type EllipseArc struct {
	u, v   geom.Vec
	t0, t1 float64
}

// segment gives the arc between two points of the grid.
func (a EllipseArc) segment(from, to geom.Point) geom.Segment {
	return geom.Segment{Kind: geom.EllipticArc, From: from, To: to, U: a.u, V: a.v, T0: a.t0, T1: a.t1}
}

// joins tells whether the arc leads from one point to the other, within the
// rounding of both.
func (a EllipseArc) joins(from, to geom.Point) bool {
	s := geom.EllipticArcTo(geom.Vec{}, a.u, a.v, a.t0, a.t1)
	return geom.Distance(s.To.Sub(s.From), to.Sub(from)) <= float64(10*unit.Micrometre)
}

// String writes the six numbers.
func (a EllipseArc) String() string {
	numbers := mapped([]float64{a.u.X, a.u.Y, a.v.X, a.v.Y, a.t0, a.t1}, func(x float64) string {
		return strconv.FormatFloat(x, 'g', -1, 64)
	})
	return strings.Join(numbers, " ")
}

// MarshalText writes the arc as String does.
func (a EllipseArc) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// UnmarshalText reads six numbers: half-diameters up to 100 000 km, angles up
// to four full turns. It wraps unit.ErrSyntax or unit.ErrRange.
func (a *EllipseArc) UnmarshalText(text []byte) error {
	fields := strings.Fields(string(text))
	if len(fields) != 6 {
		return check.Refuse("ellipse", string(text), unit.ErrSyntax, "six numbers: u and v in nanometres, two angles in radians")
	}
	var x [6]float64
	for i, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return check.Refuse("ellipse", f, unit.ErrSyntax, "a number")
		}
		most := 1e17
		if i >= 4 {
			most = 8 * math.Pi
		}
		if !(math.Abs(v) <= most) {
			return check.Refuse("ellipse", f, unit.ErrRange, "half-diameters up to 1e17 nanometres, angles up to 8 π")
		}
		x[i] = v
	}
	*a = EllipseArc{geom.Vec{X: x[0], Y: x[1]}, geom.Vec{X: x[2], Y: x[3]}, x[4], x[5]}
	return nil
}
