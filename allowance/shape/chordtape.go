package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/internal/nano"
	"github.com/coverwright/coverwright/unit"
)

// TapedArc is an arc over a chord with its rise, both measured, and what their
// error makes of it. Of a flat arc the radius says nothing: over a chord of 24 in a
// sixteenth in a rise of 1/4 in moves it by six feet, and the length of the arc by
// next to nothing. State the arc and the area.
type TapedArc struct {
	Arc    ChordArc    `json:"arc"`
	Radius TapedLength `json:"radius"`
	Length TapedLength `json:"length"`
	Area   TapedArea   `json:"area"` // of the segment
	// What one more of the chord adds, and of the rise.
	OnRadius [2]unit.Ratio  `json:"on_radius"`
	OnLength [2]unit.Ratio  `json:"on_length"`
	OnArea   [2]unit.Length `json:"on_area"` // area per length
}

// ArcByTape gives the arc of ArcFromChord with the error that measures within
// tolerance make of it; see Tolerance. Zero stands for DefaultTapeTolerance. The
// rise must be more than the tolerance.
func ArcByTape(chord, rise, tolerance unit.Length) (TapedArc, error) {
	arc, err := ArcFromChord(chord, rise)
	if err != nil {
		return TapedArc{}, err
	}
	t, err := tapeTolerance(tolerance)
	if err != nil {
		return TapedArc{}, err
	}
	if chord <= 2*t {
		return TapedArc{}, moreThanTolerance("chord", chord, 2*t)
	}
	if rise <= t {
		return TapedArc{}, moreThanTolerance("rise", rise, t)
	}
	rs := []reading{{at: float64(chord), tol: float64(t), near: -1}, {at: float64(rise), tol: float64(t), near: -1}}
	s, err := propagate(rs, 0, 0, 0, func(x []float64) ([]float64, error) {
		c, h := x[0], x[1]
		r, theta := nano.Square(c)/(8*h)+h/2, 4*math.Atan2(2*h, c)
		return []float64{r, r * theta, nano.Square(r) / 2 * thetaMinusSin(theta)}, nil
	})
	if err != nil {
		return TapedArc{}, err
	}
	out := TapedArc{Arc: arc}
	for i, l := range []*TapedLength{&out.Radius, &out.Length} {
		*l = TapedLength{Size: rounded(s[i].size), Sigma: rounded(s[i].sigma), Worst: rounded(s[i].worst), Bias: rounded(s[i].bias)}
	}
	out.Area = TapedArea{Size: arc.SegmentArea, Sigma: areaFromGrid(s[2].sigma), Worst: areaFromGrid(s[2].worst)}
	for i := range 2 {
		out.OnRadius[i], out.OnLength[i], out.OnArea[i] = unit.Ratio(s[0].by[i]), unit.Ratio(s[1].by[i]), rounded(s[2].by[i])
	}
	return out, nil
}

// taping of a chord: with its rise, or with a point that the arc runs through.
func (f ChordForm) taping(tolerance unit.Length) (*taping, error) {
	if f.Chord <= 2*tolerance {
		return nil, moreThanTolerance("chord", f.Chord, 2*tolerance)
	}
	if f.Through != nil && f.Through.Y <= tolerance {
		return nil, moreThanTolerance("through", f.Through.Y, tolerance)
	}
	tp := &taping{}
	tp.measured("chord", f.Chord, tolerance, -1)
	if f.Through == nil {
		tp.measured("rise", f.Rise, tolerance, -1)
	} else {
		tp.measured("through.x", f.Through.X, tolerance, -1)
		tp.measured("through.y", f.Through.Y, tolerance, -1)
	}
	tp.draw = func(x []float64, grid float64) ([]side, error) {
		bulge := 2 * x[1] / x[0]
		if f.Through != nil {
			bulge = bulgeThrough(geom.Vec{X: x[0]}, geom.Vec{}, geom.Vec{X: x[1], Y: x[2]})
		}
		start, end := geom.Point{}, onGrid(x[0], 0, grid)
		return []side{{"chord", []geom.Segment{geom.LineTo(start, end)}}, {"arc", []geom.Segment{geom.ArcTo(end, start, bulge)}}}, nil
	}
	return tp, nil
}

func (f CrownedForm) taping(tolerance unit.Length) (*taping, error) {
	if f.Width <= 2*tolerance {
		return nil, moreThanTolerance("width", f.Width, 2*tolerance)
	}
	tp := &taping{}
	tp.measured("width", f.Width, tolerance, -1)
	tp.measured("height", f.Height, tolerance, -1)
	tp.measured("rise", f.Rise, tolerance, -1)
	tp.draw = func(x []float64, grid float64) ([]side, error) {
		w, h := x[0], x[1]
		p := [4]geom.Point{{}, onGrid(w, 0, grid), onGrid(w, h, grid), onGrid(0, h, grid)}
		return []side{
			{"bottom", []geom.Segment{geom.LineTo(p[0], p[1])}}, {"right", []geom.Segment{geom.LineTo(p[1], p[2])}},
			{"top", []geom.Segment{geom.ArcTo(p[2], p[3], 2*x[2]/w)}}, {"left", []geom.Segment{geom.LineTo(p[3], p[0])}},
		}, nil
	}
	return tp, nil
}

// taping of a polygon: every coordinate is a measure, from two straight edges at a
// right angle.
func (f PolygonForm) taping(tolerance unit.Length) *taping {
	n := len(f.Corners)
	tp := &taping{reach: 1, ring: n}
	for i, p := range f.Corners {
		at := unit.Path("corners").At(i)
		tp.measured(string(at.Dot("x")), p.X, tolerance, i)
		tp.measured(string(at.Dot("y")), p.Y, tolerance, i)
	}
	tp.draw = func(x []float64, grid float64) ([]side, error) {
		ps := make([]geom.Vec, n)
		for i := range ps {
			ps[i] = geom.Vec{X: x[2*i], Y: x[2*i+1]}
		}
		return polygonSides(ps, nil, grid), nil
	}
	return tp
}
