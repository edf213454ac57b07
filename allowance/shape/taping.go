package shape

import (
	"errors"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

const (
	// mostPoints is the largest number of points of one measured outline: with three
	// measures each they stay below mostMeasures.
	mostPoints = 66
	// mostMeasures is the largest number of measures whose tolerances are worked out.
	mostMeasures = 200
	// fineGrid is how many steps a nanometre has where outlines a little apart are
	// compared: derivatives must not drown in the rounding of corners.
	fineGrid = 1 << 14
)

// tapeTolerance checks a tolerance; zero is the default.
func tapeTolerance(t unit.Length) (unit.Length, error) {
	if t == 0 {
		return DefaultTapeTolerance, nil
	}
	return t, check.Length("tolerance", t, 10*unit.Micrometre, unit.Inch)
}

// taping is an outline as a function of its measures.
type taping struct {
	measures []TapedMeasure
	near     []int // see reading
	reach    int
	ring     int                                      // points that lie near each other all round; 0 for an open chain
	used     []float64                                // the measures after they were brought together, when that changed them
	draw     func([]float64, float64) ([]side, error) // from measures in nanometres, on a grid of so many steps to one

	diagonal *TapedDiagonal
	angles   []unit.Angle
}

// measured notes a measure that may be off by a tolerance, near others; see
// propagate.
func (tp *taping) measured(field string, l, tolerance unit.Length, near int) {
	tp.measures = append(tp.measures, TapedMeasure{Field: unit.Path(field), Measured: l, Used: l, Tolerance: tolerance})
	tp.near = append(tp.near, near)
}

func (tp *taping) nominal() []float64 {
	x := make([]float64, len(tp.measures))
	for i, m := range tp.measures {
		x[i] = float64(m.Measured)
	}
	return x
}

// taping gives the outline as a function of its measures; nil for one that was
// drawn, not measured.
func (s Form) taping() (*taping, error) {
	drawn := s.Tolerance == 0
	t, err := tapeTolerance(s.Tolerance)
	if err != nil {
		return nil, err
	}
	var tp *taping
	var field unit.Path
	switch {
	case s.Quadrilateral != nil:
		field = "quadrilateral"
		tp, err = s.Quadrilateral.taping(t)
	case s.Baseline != nil:
		field = "baseline"
		tp, err = s.Baseline.taping(t)
	case s.Offsets != nil:
		field = "offsets"
		tp, err = s.Offsets.taping(t)
	case s.Stations != nil && !(drawn && len(s.Stations.At) > mostPoints):
		field = "stations"
		tp, err = s.Stations.taping(t)
	case drawn:
		return nil, nil
	case s.Polygon != nil:
		field = "polygon"
		tp = s.Polygon.taping(t)
	case s.Chord != nil:
		field = "chord"
		tp, err = s.Chord.taping(t)
	case s.Crowned != nil:
		field = "crowned"
		tp, err = s.Crowned.taping(t)
	default:
		return nil, check.Refuse("tolerance", t.String(), unit.ErrRange,
			"a shape that is measured: one of quadrilateral, baseline, stations, offsets, chord, crowned, polygon, photo")
	}
	if err != nil {
		return nil, unit.InField(field, err)
	}
	if len(tp.measures) > mostMeasures {
		return nil, unit.InField(field, check.Count("", len(tp.measures), 2, mostMeasures))
	}
	for i := range tp.measures {
		tp.measures[i].Field = field.Dot(tp.measures[i].Field)
	}
	return tp, nil
}

// Taped gives the outline with what the tolerance of its measures makes of it: of
// the shapes that are taken with a tape, and of others that say a tolerance. An
// outline that was drawn has no Tolerance. Errors are those of Outline; one of
// tolerance when the measures may be off so far that they make no outline.
func (s Form) Taped() (Taped, error) {
	o, err := s.Outline()
	if err != nil {
		return Taped{}, err
	}
	if s.Photo != nil {
		plain, err := s.plain() // in the axes of the marks
		if err != nil {
			return Taped{}, err
		}
		t, err := tapeTolerance(s.Tolerance)
		if err != nil {
			return Taped{}, err
		}
		e, err := s.Photo.accuracy(plain, t)
		if err != nil {
			return Taped{}, unit.InField("photo", err)
		}
		out := Taped{Outline: o, Tolerance: Tolerance{Photo: &e}}
		if q := s.Photo.Taped; q != nil {
			tp, err := q.taping(t)
			if err != nil {
				return Taped{}, unit.InField("photo.taped", err)
			}
			out.Tolerance.Diagonal = tp.diagonal
		}
		return out, nil
	}
	tp, err := s.taping()
	if err != nil || tp == nil {
		return Taped{Outline: o}, err
	}
	lengths := map[geom.Segment]float64{}
	sizes := func(x []float64) ([]float64, error) {
		sides, err := tp.draw(x, fineGrid)
		if err != nil {
			return nil, err
		}
		p := seal(sides)
		if p.area < 0 {
			p = p.reversed()
		}
		if p, err = s.turned(p); err != nil {
			return nil, err
		}
		return p.sizes(fineGrid, lengths), nil
	}
	rs := make([]reading, len(tp.measures))
	for i, m := range tp.measures {
		rs[i] = reading{at: float64(m.Measured), tol: float64(m.Tolerance), near: tp.near[i]}
	}
	spreads, err := propagate(rs, tp.reach, tp.ring, 2, sizes)
	if err != nil {
		var in *unit.InputError
		if errors.As(err, &in) {
			return Taped{}, check.Refuse("tolerance", tp.measures[0].Tolerance.String(), unit.ErrRange,
				"measures that make an outline wherever within it they lie; "+string(in.Field)+" need not")
		}
		return Taped{}, err
	}
	return tp.report(o, spreads), nil
}

// sizes gives what the tolerances are of, in nanometres: width, height, area,
// perimeter, every edge, and the coordinates of the corners. The outline is on a
// grid of so many steps to a nanometre. Lengths are worked out once for a segment.
func (o Outline) sizes(grid float64, lengths map[geom.Segment]float64) []float64 {
	out := []float64{float64(o.box.Width()) / grid, float64(o.box.Height()) / grid, o.area / (grid * grid), 0}
	for _, s := range o.sides {
		sum := 0.0
		for _, g := range s.path {
			l, ok := lengths[g]
			if !ok {
				l = g.Length() / grid
				lengths[g] = l
			}
			sum += l
		}
		out = append(out, sum)
		out[3] += sum
	}
	for _, g := range o.whole {
		out = append(out, float64(g.From.X)/grid, float64(g.From.Y)/grid)
	}
	return out
}

// report writes the spreads of Outline.sizes.
func (tp *taping) report(o Outline, spreads []spread) Taped {
	n := len(o.sides)
	corners := spreads[4+n:]
	boxes(spreads[:2], corners)
	length := func(s spread, size unit.Length) TapedLength {
		return TapedLength{Size: size, Sigma: rounded(s.sigma), Worst: rounded(s.worst), Bias: rounded(s.bias)}
	}
	w, h := o.Size()
	out := Taped{Outline: o, Measures: tp.measures, Tolerance: Tolerance{
		Measure: 0, Width: length(spreads[0], w), Height: length(spreads[1], h),
		Area:      TapedArea{Size: o.Area(), Sigma: areaFromGrid(spreads[2].sigma), Worst: areaFromGrid(spreads[2].worst)},
		Perimeter: length(spreads[3], o.Perimeter()), Diagonal: tp.diagonal, Angles: tp.angles,
	}}
	for i, s := range o.sides {
		out.Tolerance.Edges = append(out.Tolerance.Edges, TapedEdge{s.name, length(spreads[4+i], s.length())})
	}
	for i, g := range o.whole {
		out.Corners = append(out.Corners, TapedPoint{fromGrid(g.From), rounded(corners[2*i].sigma), rounded(corners[2*i+1].sigma)})
	}
	for i := range out.Measures {
		m := &out.Measures[i]
		out.Tolerance.Measure = max(out.Tolerance.Measure, m.Tolerance)
		if tp.used != nil {
			m.Used = rounded(tp.used[i])
		}
		m.OnWidth, m.OnHeight, m.OnArea = unit.Ratio(spreads[0].by[i]), unit.Ratio(spreads[1].by[i]), rounded(spreads[2].by[i])
		for k := range o.sides {
			m.OnEdges = append(m.OnEdges, unit.Ratio(spreads[4+k].by[i]))
		}
	}
	// What is zero and exact was not measured: a foot, a point, a straight edge.
	out.Measures = slices.DeleteFunc(out.Measures, func(m TapedMeasure) bool { return m.Measured == 0 && m.Tolerance == 0 })
	return out
}

// boxes works out the worst of width and height where the corners of the box of
// tolerances are too many to look at: from those of the corners of the outline,
// each of which depends on few measures. The sigma of an extent with several
// outmost points counts them all, and is held to that of one as far off as the
// worst.
func boxes(extents, corners []spread) {
	for axis := range extents {
		e := &extents[axis]
		if e.worst == 0 {
			most, least := [2]float64{math.Inf(-1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(1)}
			for i := axis; i < len(corners); i += 2 {
				c := corners[i]
				most[0], most[1] = max(most[0], c.size-c.worst), max(most[1], c.size+c.worst)
				least[0], least[1] = min(least[0], c.size-c.worst), min(least[1], c.size+c.worst)
			}
			e.worst = max(most[1]-least[0]-e.size, e.size-(most[0]-least[1]))
		}
		e.sigma = min(e.sigma, e.worst/math.Sqrt(3))
	}
}

// polygonSides joins points by straight edges: with names, or as those of Polygon.
func polygonSides(ps []geom.Vec, names []string, grid float64) []side {
	sides := make([]side, len(ps))
	for i, p := range ps {
		q := ps[(i+1)%len(ps)]
		name := sideName(i + 1)
		if names != nil {
			name = names[i]
		}
		sides[i] = side{name, []geom.Segment{geom.LineTo(onGrid(p.X, p.Y, grid), onGrid(q.X, q.Y, grid))}}
	}
	return sides
}

func onGrid(x, y, grid float64) geom.Point {
	return geom.Point{X: int64(math.Round(x * grid)), Y: int64(math.Round(y * grid))}
}

// moveField gives an error with its field at another place.
func moveField(err error, place func(unit.Path) unit.Path) error {
	var in *unit.InputError
	if !errors.As(err, &in) {
		return err
	}
	out := *in
	out.Field = place(in.Field)
	return &out
}
