package shape

import (
	"math"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Station is a width measured across a centre line: the half-widths to the
// left and to the right at a distance along the line.
type Station struct {
	At    unit.Length `json:"at"`    // along the centre line, from its foot
	Left  unit.Length `json:"left"`  // from the line to the left edge, 0 or more
	Right unit.Length `json:"right"` // from the line to the right edge, 0 or more
}

// CentredStation gives a station with equal halves from a full width.
func CentredStation(along, width unit.Length) Station {
	return Station{along, width / 2, width - width/2}
}

// Stations gives a panel from widths measured at two or more stations
// along a centre line, foot first: edges bottom, right, top, left; bottom and
// top are missing where the width is zero. The centre line is the upright
// x = 0.
//
// With smooth set the sides are curves through the measured points; otherwise
// straight from point to point. A curve never runs outside the two widths it
// joins: between stations it is a cubic whose slopes at the stations are the
// weighted harmonic mean of the slopes on both sides, zero at a widest or
// narrowest point (the monotone scheme of Fritsch, Carlson and Butland, from
// memory).
//
// Drawing: allowance/doc/stations.svg
func Stations(stations []Station, smooth bool) (Outline, error) {
	n := len(stations)
	if err := check.Count("stations", n, 2, 10_000); err != nil {
		return Outline{}, err
	}
	for i, s := range stations {
		f := check.At("stations", i)
		if err := firstError(check.Length(f+".at", s.At, 0, widestShape),
			check.Length(f+".left", s.Left, 0, widestShape),
			check.Length(f+".right", s.Right, 0, widestShape)); err != nil {
			return Outline{}, err
		}
		if i > 0 && s.At-stations[i-1].At < 10*unit.Micrometre {
			return Outline{}, check.Refuse(f+".at", s.At.String(), unit.ErrRange, "stations in order, each further on than the one before")
		}
		if i > 0 && i < n-1 && s.Left == 0 && s.Right == 0 {
			return Outline{}, check.Refuse(f+".left", s.Left.String(), unit.ErrRange, "a width above zero between the ends")
		}
	}
	right := make([]geom.Point, n)
	left := make([]geom.Point, n)
	for i, s := range stations {
		right[i], left[i] = at(s.Right, s.At).grid(), at(-s.Left, s.At).grid()
	}
	return newOutline(stationSides(left, right, [2]bool{left[0] != right[0], left[n-1] != right[n-1]}, smooth))
}

// stationSides gives the edges through the points of both sides, foot first.
// The ends are those at the foot and at the head, where there are any.
func stationSides(left, right []geom.Point, ends [2]bool, smooth bool) []side {
	n := len(left)
	var sides []side
	if ends[0] {
		sides = append(sides, side{"bottom", []geom.Segment{geom.LineTo(left[0], right[0])}})
	}
	sides = append(sides, side{"right", throughStations(right, smooth)})
	if ends[1] {
		sides = append(sides, side{"top", []geom.Segment{geom.LineTo(right[n-1], left[n-1])}})
	}
	return append(sides, side{"left", geom.Path{Segments: throughStations(left, smooth)}.Reverse().Segments})
}

// throughStations joins points of rising y.
func throughStations(p []geom.Point, smooth bool) []geom.Segment {
	n := len(p)
	out := make([]geom.Segment, 0, n-1)
	if !smooth || n == 2 {
		for i := 1; i < n; i++ {
			out = append(out, geom.LineTo(p[i-1], p[i]))
		}
		return out
	}
	h := make([]float64, n-1)     // steps along the line
	slope := make([]float64, n-1) // dx/dy of the steps
	for i := range h {
		h[i] = float64(p[i+1].Y - p[i].Y)
		slope[i] = float64(p[i+1].X-p[i].X) / h[i]
	}
	m := make([]float64, n)
	m[0] = endSlope(h[0], h[1], slope[0], slope[1])
	m[n-1] = endSlope(h[n-2], h[n-3], slope[n-2], slope[n-3])
	for i := 1; i < n-1; i++ {
		a, b := slope[i-1], slope[i]
		if float64(a*b) <= 0 {
			continue
		}
		w1, w2 := 2*h[i]+h[i-1], h[i]+2*h[i-1]
		m[i] = (w1 + w2) / (w1/a + w2/b)
	}
	for i := range h {
		c := func(q geom.Point, f, m float64) geom.Point {
			return geom.Point{X: q.X + int64(math.Round(f*m*h[i]/3)), Y: q.Y + int64(math.Round(f*h[i]/3))}
		}
		if m[i] == slope[i] && m[i+1] == slope[i] {
			out = append(out, geom.LineTo(p[i], p[i+1]))
			continue
		}
		out = append(out, geom.CubicTo(p[i], c(p[i], 1, m[i]), c(p[i+1], -1, m[i+1]), p[i+1]))
	}
	return out
}

// endSlope gives the slope at an end from the parabola through three points,
// held back so that the curve does not overshoot.
func endSlope(h0, h1, d0, d1 float64) float64 {
	m := (float64((2*h0+h1)*d0) - float64(h0*d1)) / (h0 + h1)
	switch {
	case m*d0 <= 0:
		return 0
	case d0*d1 <= 0 && math.Abs(m) > 3*math.Abs(d0):
		return 3 * d0
	}
	return m
}

// checkAlong checks how far a place along the line may be off; zero is exact.
func checkAlong(t *unit.Length) error {
	if t == nil {
		return nil
	}
	return check.Length("along_tolerance", *t, 0, unit.Inch)
}

// taping gives the stations as measures: of each its place along the line, but for
// the foot, where the line is measured from, then its width or its parts. A width
// of zero is a point, and no measure.
func (s StationsForm) taping(tolerance unit.Length) (*taping, error) {
	if err := checkAlong(s.AlongTolerance); err != nil {
		return nil, err
	}
	along := tolerance
	if s.AlongTolerance != nil {
		along = *s.AlongTolerance
	}
	tp := &taping{reach: 1}
	if s.Smooth {
		tp.reach = 3 // a slope at a station is that of the parabola through three
	}
	measured := func(field string, l unit.Length, i int) {
		t := tolerance
		if l == 0 {
			t = 0
		}
		tp.measured(field, l, t, i)
	}
	for i, q := range s.At {
		f := check.At("at", i)
		t := along
		if i == 0 {
			t = 0
		} else if gap := q.Along - s.At[i-1].Along; gap <= 2*along {
			return nil, moreThanTolerance(f+".along", gap, 2*along)
		}
		tp.measured(f+".along", q.Along, t, i)
		if q.Width != nil {
			measured(f+".width", *q.Width, i)
			continue
		}
		measured(f+".left", *q.Left, i)
		measured(f+".right", *q.Right, i)
	}
	tp.draw = s.draw
	return tp, nil
}

// draw gives the edges for measures in the order of taping.
func (s StationsForm) draw(x []float64, grid float64) ([]side, error) {
	n := len(s.At)
	left, right := make([]geom.Point, n), make([]geom.Point, n)
	var ends [2]bool
	for i, q := range s.At {
		y := x[0]
		var l, r float64
		var wide bool
		if q.Width != nil {
			l, r, wide = x[1]/2, x[1]/2, *q.Width > 0
			x = x[2:]
		} else {
			l, r, wide = x[1], x[2], *q.Left+*q.Right > 0
			x = x[3:]
		}
		left[i], right[i] = onGrid(-l, y, grid), onGrid(r, y, grid)
		if i == 0 {
			ends[0] = wide
		}
		ends[1] = wide
	}
	return stationSides(left, right, ends, s.Smooth), nil
}

// moreThanTolerance words a measure that its tolerance can undo.
func moreThanTolerance(field string, l, tolerance unit.Length) error {
	return check.Refuse(field, l.String(), unit.ErrRange, "more than "+tolerance.String()+", which the measures may be off")
}
