package layout

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// HidePlace is a piece on a hide as it is measured out with a tape: put its two points
// on their places, face up, and check that its top points as it should.
type HidePlace struct {
	Piece    int         `json:"piece"` // index into the pieces of the job
	Copy     int         `json:"copy"`  // from 0
	Name     string      `json:"name,omitempty"`
	Mirrored bool        `json:"mirrored,omitempty"`
	Width    unit.Length `json:"width"`  // as cut, across the piece as drawn
	Length   unit.Length `json:"length"` // along it
	// Points are two points of its outline: the ends of its longest straight side, or,
	// where that is short, the two that lie farthest apart.
	Points [2]HidePoint `json:"points"`
	// Top is where the top of the piece points: anticlockwise from towards the neck,
	// 0 to 360 degrees.
	Top unit.Angle `json:"top"`
}

// HidePoint is a point of a piece on a hide.
type HidePoint struct {
	Of shape.Point `json:"of"` // on the piece as drawn, not mirrored
	HideSpot
}

// HidePlaces lists the pieces on a hide of the plan, by its index, in the order of
// cutting: from the tail, then from the left. With the angle t of Top, a point (x, y)
// of the piece as drawn lies on the hide at
//
//	(X + s x cos t - y sin t, Y + s x sin t + y cos t)
//
// where s is -1 for a mirrored piece, else 1, and X and Y are those of its [Place]. It
// wraps unit.ErrRange for an index that no hide has, unit.ErrRequired for a piece
// without an outline, or the errors of the hide.
func (p Plan) HidePlaces(hide int) ([]HidePlace, error) {
	datum, err := p.HideDatum(hide)
	if err != nil {
		return nil, err
	}
	on := slices.Clone(p.On(hide))
	slices.SortStableFunc(on, func(a, b Place) int {
		la, _ := a.Bounds()
		lb, _ := b.Bounds()
		return cmp.Or(cmp.Compare(la.Y, lb.Y), cmp.Compare(la.X, lb.X))
	})
	ends := map[int][2]shape.Point{} // read by key only
	out := make([]HidePlace, 0, len(on))
	for _, q := range on {
		at := check.At("pieces", q.Piece)
		if q.Piece < 0 || q.Piece >= len(p.Job.Pieces) || p.Job.Pieces[q.Piece].Outline.IsZero() {
			return nil, check.Required(at+".outline", "an outline")
		}
		of := p.Job.Pieces[q.Piece]
		two, known := ends[q.Piece]
		if !known {
			if two, err = twoPoints(of.Outline); err != nil {
				return nil, unit.InField(at, err)
			}
			ends[q.Piece] = two
		}
		r := HidePlace{Piece: q.Piece, Copy: q.Copy, Name: of.Name, Mirrored: q.Mirrored, Top: wholeTurn(q.Turned)}
		r.Width, r.Length = of.Outline.Size()
		for i, z := range two {
			r.Points[i] = HidePoint{Of: z, HideSpot: datum.Spot(q.laid(z))}
		}
		out = append(out, r)
	}
	return out, nil
}

// wholeTurn brings an angle to 0 up to 360 degrees.
func wholeTurn(a unit.Angle) unit.Angle {
	d := math.Mod(float64(a), 360)
	if d < 0 {
		d += 360
	}
	if d >= 360 {
		d = 0
	}
	return unit.Angle(d)
}

// laid brings a point of the piece as drawn to where it lies.
func (p Place) laid(z shape.Point) shape.Point {
	sin, cos := geom.SinCos(wholeTurn(p.Turned).Radians())
	x, y := float64(z.X), float64(z.Y)
	if p.Mirrored {
		x = -x
	}
	return shape.Point{
		X: p.X + unit.Length(math.Round(float64(x*cos)-float64(y*sin))),
		Y: p.Y + unit.Length(math.Round(float64(x*sin)+float64(y*cos))),
	}
}

// twoPoints gives two points that a piece is measured out by: the ends of its longest
// straight side, the lower of equal ones, where it is at least half as long as the
// piece; else the two points farthest apart.
func twoPoints(o shape.Outline) ([2]shape.Point, error) {
	pts, err := o.Flatten(hidePointTolerance)
	if err != nil {
		return [2]shape.Point{}, err
	}
	apart := func(a, b shape.Point) float64 {
		return geom.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
	}
	var side, far [2]shape.Point
	longest, widest := -1.0, -1.0
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		if l := apart(a, b); l > longest || l == longest && a.Y+b.Y < side[0].Y+side[1].Y {
			longest, side = l, [2]shape.Point{a, b}
		}
		for _, b := range pts[i+1:] {
			if l := apart(a, b); l > widest {
				widest, far = l, [2]shape.Point{a, b}
			}
		}
	}
	two := far
	if longest*2 >= widest {
		two = side
	}
	if a, b := two[0], two[1]; b.X < a.X || b.X == a.X && b.Y < a.Y {
		two[0], two[1] = b, a
	}
	return two, nil
}

// hidePointTolerance is how far the points of a curve that a piece is measured out by
// may be off it.
const hidePointTolerance = unit.Millimetre / 100
