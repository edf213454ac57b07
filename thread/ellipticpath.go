package thread

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

var ellipticBasis = memory("half an ellipse for each thread; that stitches take elliptic shapes is published, see Influences")

func (s Seam) ellipticRate() (rate, error) {
	if s.Stitch != Lockstitch301 {
		return rate{}, check.Refuse("stitch", s.Stitch.String(), unit.ErrUnknown, "the lockstitch 301 with the elliptic path")
	}
	p := s.path()
	a := p.length / 2
	needle := halfEllipse(a, float64(p.balance*p.thickness)+p.diameter/2)
	under := halfEllipse(a, float64((1-p.balance)*p.thickness)+p.diameter/2)
	return rate{whole(needle), whole(under), uint64(s.StitchLength), cite.Estimate, ellipticBasis}, nil
}

// halfEllipse gives half the perimeter of an ellipse with semi-axes a and b by
// the second formula of Ramanujan, good to 0.04 % however flat:
//
//	P = π (a + b) (1 + 3h / (10 + √(4 - 3h))),  h = ((a - b) / (a + b))²
//
// and never less than its axis 2a, which the formula misses by that much when
// the ellipse is flat.
func halfEllipse(a, b float64) float64 {
	q := (a - b) / (a + b)
	h := float64(3 * float64(q*q))
	return max(2*a, math.Pi/2*(a+b)*(1+h/(10+math.Sqrt(4-h))))
}
