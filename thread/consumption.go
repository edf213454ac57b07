package thread

import (
	"math/bits"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// Seam is a row of stitching to be sewn.
type Seam struct {
	Name string `json:"name,omitempty"`
	// Length of the seam line, 10 µm to 1 km.
	Length unit.Length `json:"length"`
	// Thickness of all layers together as the stitch holds them, 10 µm to
	// 50 mm.
	Thickness unit.Length `json:"thickness"`
	// Stitch is the stitch type.
	Stitch Stitch `json:"stitch"`
	// StitchLength is from 0.4 mm to 1 in.
	StitchLength unit.Length `json:"stitch_length"`
	// Rows is the number of parallel rows; zero means one.
	Rows int `json:"rows,omitempty"`
}

// Usage is the thread a seam takes.
type Usage struct {
	Needle unit.Length `json:"needle"` // needle thread
	Under  unit.Length `json:"under"`  // bobbin or looper thread
	Total  unit.Length `json:"total"`
	Kind   cite.Kind   `json:"kind"`
	Basis  cite.Basis  `json:"basis"`
}

const thickest = 50 * unit.Millimetre

// Consume gives the thread of a seam by the geometry of its stitch. With L the
// stitch length and T the thickness, a stitch takes
//
//	type   needle thread   under thread
//	101    3 L + 2 T       none
//	301    L + T           L + T          tension balanced
//	401    L + 2 T         3 L
//
// The path has square corners, so the figure lies on the high side; tails,
// back-tacks and waste are not in it. Errors are *unit.InputError values that
// name the field and wrap unit.ErrRange, unit.ErrForgottenUnit or
// unit.ErrUnknown.
func Consume(s Seam) (Usage, error) {
	if err := s.check(); err != nil {
		return Usage{}, err
	}
	l, t := uint64(s.StitchLength), uint64(s.Thickness)
	var needle, under uint64
	switch s.Stitch {
	case Chainstitch101:
		needle = 3*l + 2*t
	case Lockstitch301:
		needle, under = l+t, l+t
	case Chainstitch401:
		needle, under = l+2*t, 3*l
	default:
		return Usage{}, check.Refuse("stitch", s.Stitch.String(), unit.ErrUnknown, "a stitch with a geometric model: 101, 301 or 401")
	}
	run := uint64(s.Length) * uint64(max(s.Rows, 1))
	u := Usage{
		Needle: perStitch(run, needle, l),
		Under:  perStitch(run, under, l),
		Kind:   cite.Estimate,
		Basis:  practice("square path of the thread through the layers"),
	}
	u.Total = u.Needle + u.Under
	return u, nil
}

// perStitch gives run × thread / stitch, rounded up. The inputs are checked so
// that the result fits: 100 rows of 1 km at 250 times its length.
func perStitch(run, thread, stitch uint64) unit.Length {
	hi, lo := bits.Mul64(run, thread)
	lo, carry := bits.Add64(lo, stitch-1, 0)
	q, _ := bits.Div64(hi+carry, lo, stitch)
	return unit.Length(q)
}

func (s Seam) check() error {
	if err := check.Positive("length", s.Length); err != nil {
		return err
	}
	if err := check.Length("thickness", s.Thickness, 10*unit.Micrometre, thickest); err != nil {
		return err
	}
	if err := check.Length("stitch_length", s.StitchLength, shortestStitch, longestStitch); err != nil {
		return err
	}
	return check.Count("rows", s.Rows, 0, 100)
}
