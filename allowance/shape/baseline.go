package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// BaselineForm is a panel by its corners, each measured with a tape from both ends
// of a baseline: a straight edge of the panel, or a line laid beside or across it.
// With the baseline from the origin to the right, b long, and a corner at r1 from
// its start and r2 from its end,
//
//	x = (r1² + b² - r2²) / (2 b),  y = sqrt(r1² - x²)
//
// above the baseline, or below. One long baseline for all corners is better than
// triangles one upon the other, whose errors add up.
//
// Drawing: allowance/doc/baseline.svg
type BaselineForm struct {
	Length unit.Length `json:"length" required:"true" hint:"the length of the baseline"`
	// Apart says that the baseline is no edge of the panel. Otherwise the edges run
	// along it, then from its end from point to point and back to its start.
	Apart  bool                `json:"apart,omitempty"`
	Points []BaselinePointForm `json:"points" required:"true" hint:"the corners, in order"`
}

// BaselinePointForm is a corner by its distances from the ends of the baseline. The
// triangle must be at least a twentieth as high as its longest side is long.
type BaselinePointForm struct {
	FromStart unit.Length `json:"from_start" required:"true" hint:"the distance from the start of the baseline"`
	FromEnd   unit.Length `json:"from_end" required:"true" hint:"the distance from the end of the baseline"`
	Below     bool        `json:"below,omitempty"` // the baseline
}

// CrossTapes gives the point above a baseline at distances r1 from its start and
// r2 from its end, each within tolerance (zero for DefaultTapeTolerance), the
// angle g under which the two tapes meet, and the error of the point; the baseline
// counts as exact:
//
//	sqrt(σ_x² + σ_y²) = σ √2 / sin g
//
// Keep g between 40 and 140 degrees. Lengths are above zero, up to 50 m. Errors
// name baseline, from_start, from_end or tolerance.
func CrossTapes(baseline, fromStart, fromEnd, tolerance unit.Length) (TapedPoint, unit.Angle, error) {
	t, err := tapeTolerance(tolerance)
	if err == nil {
		err = firstError(checkSize("baseline", baseline), checkSize("from_start", fromStart), checkSize("from_end", fromEnd))
	}
	b, r1, r2 := float64(baseline), float64(fromStart), float64(fromEnd)
	if err == nil {
		err = checkTriangle([3]string{"baseline", "from_start", "from_end"}, [3]float64{b, r1, r2}, 0.05)
	}
	if err != nil {
		return TapedPoint{}, 0, err
	}
	p := apexOver(b, r1, r2)
	sigma := float64(t) / math.Sqrt(3)
	// dx = (r1 dr1 - r2 dr2) / b,  dy = (r1 dr1 - x dx) / y
	x1, x2 := r1/b, -r2/b
	y1, y2 := float64(r1*(1-p.X/b))/p.Y, float64(p.X*r2/b)/p.Y
	return TapedPoint{
		At:     Point{rounded(p.X), rounded(p.Y)},
		SigmaX: rounded(sigma * geom.Hypot(x1, x2)), SigmaY: rounded(sigma * geom.Hypot(y1, y2)),
	}, tapesMeet(b, r1, r2), nil
}

// tapesMeet gives the angle of a triangle between the sides r1 and r2.
func tapesMeet(b, r1, r2 float64) unit.Angle {
	cos := (nano.Square(r1) + float64((r2-b)*(r2+b))) / (2 * r1 * r2)
	return unit.Angle(geom.Atan2(math.Sqrt(max(0, (1-cos)*(1+cos))), cos)) * unit.Radian
}

func (f BaselineForm) outline(tolerance unit.Length) (Outline, error) {
	tp, err := f.taping(tolerance)
	if err != nil {
		return Outline{}, err
	}
	sides, err := tp.draw(tp.nominal(), 1)
	if err != nil {
		return Outline{}, err
	}
	return newOutline(sides)
}

func (f BaselineForm) taping(tolerance unit.Length) (*taping, error) {
	least := 1
	if f.Apart {
		least = 3
	}
	if err := firstError(checkSize("length", f.Length), check.Count("points", len(f.Points), least, mostPoints)); err != nil {
		return nil, err
	}
	tp := &taping{reach: 1}
	tp.measured("length", f.Length, tolerance, -1)
	for i, p := range f.Points {
		at := check.At("points", i)
		if err := firstError(checkSize(at+".from_start", p.FromStart), checkSize(at+".from_end", p.FromEnd)); err != nil {
			return nil, err
		}
		r1, r2 := float64(p.FromStart), float64(p.FromEnd)
		if err := f.triangle(i, float64(f.Length), r1, r2, 0.05); err != nil {
			return nil, err
		}
		tp.angles = append(tp.angles, tapesMeet(float64(f.Length), r1, r2))
		tp.measured(at+".from_start", p.FromStart, tolerance, i)
		tp.measured(at+".from_end", p.FromEnd, tolerance, i)
	}
	tp.draw = func(x []float64, grid float64) ([]side, error) {
		var ps []geom.Vec
		if !f.Apart {
			ps = append(ps, geom.Vec{}, geom.Vec{X: x[0]})
		}
		for i, p := range f.Points {
			if err := f.triangle(i, x[0], x[1+2*i], x[2+2*i], 0); err != nil {
				return nil, err
			}
			v := apexOver(x[0], x[1+2*i], x[2+2*i])
			if p.Below {
				v.Y = -v.Y
			}
			ps = append(ps, v)
		}
		return polygonSides(ps, nil, grid), nil
	}
	if f.Apart {
		tp.ring = len(f.Points)
	}
	return tp, nil
}

func (f BaselineForm) triangle(i int, b, r1, r2, least float64) error {
	at := check.At("points", i)
	return checkTriangle([3]string{"length", at + ".from_start", at + ".from_end"}, [3]float64{b, r1, r2}, least)
}
