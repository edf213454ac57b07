package thread

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/unit"
	"github.com/coverwright/coverwright/unit/cite"
)

// path is the measures of a stitch in nanometres.
type path struct {
	length, width, thickness, diameter float64
	balance                            float64
}

func (s Seam) path() path {
	p := path{
		length:    float64(s.StitchLength),
		width:     float64(s.Width),
		thickness: float64(s.Thickness) * (1 - float64(s.Compression)),
		balance:   float64(s.Balance),
	}
	if s.Balance == 0 {
		p.balance = 0.5
	}
	if s.Thread != 0 {
		d, _ := sizeTable[0][s.Thread-1].Diameter.Value()
		p.diameter = float64(d)
	}
	return p
}

// across is the way through the layers and over the thread on the far side.
func (p path) across() float64 { return p.thickness + p.diameter }

// lock gives needle and bobbin thread of a lockstitch whose run on the surface
// is l.
func (p path) lock(l float64) (needle, under float64) {
	needle = l + float64(2*p.balance*p.thickness) + p.diameter
	under = l + float64(2*(1-p.balance)*p.thickness) + p.diameter
	return needle, under
}

func (s Seam) squareRate() (rate, error) {
	if s.wide() && s.Width == 0 {
		return rate{}, check.Required("width", "the width of a zig-zag or overedge stitch")
	}
	p := s.path()
	l, w, t := p.length, p.width, p.across()
	basis := squareBasis
	var needle, under float64
	switch s.Stitch {
	case Chainstitch101:
		needle = float64(3*l) + 2*t
	case Saddle209:
		needle, basis = l+t, ownSquare
	case Lockstitch301:
		needle, under = p.lock(l)
	case Zigzag304:
		needle, under = p.lock(math.Sqrt(float64(l*l) + float64(w*w)))
		basis = ownSquare
	case Chainstitch401:
		needle, under = l+2*t, 3*l
	case Overedge504:
		needle, under = l+float64(2*t), float64(2*l)+float64(4*w)+float64(2*t)
		basis = practice("textbook total 3 + 4WS + 4TS, another copy has 5 + 4S(W + T); the split between the threads is from memory")
	case Safety516:
		needle, under = float64(2*l)+float64(4*t), float64(5*l)+float64(4*w)+float64(2*t)
		basis = ownSquare
	default:
		return rate{}, check.Refuse("stitch", s.Stitch.String(), unit.ErrUnknown, "a stitch with a square path: 101, 209, 301, 304, 401, 504 or 516")
	}
	return rate{whole(needle), whole(under), uint64(s.StitchLength), cite.Estimate, basis}, nil
}

var (
	squareBasis = practice("square path of the thread through the layers, as textbooks have it")
	ownSquare   = memory("square path of the thread through the layers, drawn after the stitch's diagram")
)

// wide tells whether the stitch has a width.
func (s Seam) wide() bool {
	return s.Stitch == Zigzag304 || s.Stitch == Overedge504 || s.Stitch == Safety516
}

// whole rounds to a nanometre: far below what any model is good for.
func whole(x float64) uint64 { return uint64(math.Round(x)) }
