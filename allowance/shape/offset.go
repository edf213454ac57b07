package shape

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/check"
	"github.com/coverwright/coverwright/internal/enum"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Contour is a line on the cloth: the corners of a closed polygon,
// anticlockwise. Holes is filled only where allowances of a panel that bends
// back on itself run together and close a gap; each hole runs clockwise.
type Contour struct {
	Outer []Point   `json:"outer"`
	Holes [][]Point `json:"holes,omitempty"`
}

// OffsetOptions say how an outline is moved outwards. The zero value is
// useful.
type OffsetOptions struct {
	Corner Corner `json:"corner,omitzero"`
	// MitreLimit is from 1 to 100; zero means DefaultMitreLimit.
	MitreLimit unit.Ratio `json:"mitre_limit,omitzero"`
	// Tolerance is the largest distance of the lines from the true curves:
	// from 10 micrometres to 10 mm; zero means DefaultTolerance.
	Tolerance unit.Length `json:"tolerance,omitzero"`
}

// Checked gives the options with their defaults in the place of zeros. Errors
// name corner, mitre_limit or tolerance.
func (o OffsetOptions) Checked() (OffsetOptions, error) {
	if err := enum.Check(o.Corner, "corner", cornerNames[:]); err != nil {
		return o, err
	}
	if o.MitreLimit == 0 {
		o.MitreLimit = DefaultMitreLimit
	}
	if err := check.Ratio("mitre_limit", o.MitreLimit, 1, 100); err != nil {
		return o, err
	}
	if o.Tolerance == 0 {
		o.Tolerance = DefaultTolerance
	}
	return o, check.Length("tolerance", o.Tolerance, 10*unit.Micrometre, 10*unit.Millimetre)
}

// Offset is an outline whose edges were moved outwards. The zero value is no
// line.
type Offset struct {
	Line Contour `json:"line"`
	// Width and Height are those of the true line: from the extremes of lines,
	// arcs, circles and ellipses, not from the chords that stand for them.
	Width  unit.Length `json:"width"`
	Height unit.Length `json:"height"`
	// Area is that inside the true curves of the outline, and of the strip
	// around it between chords.
	Area unit.Area `json:"area"`
}

// Offsets moves every edge outwards by a distance of its own, square to the
// edge, once for each list of distances; a list has one for each of
// Outline.Edges, from zero to 5 m. All lines are drawn from the same chords of
// the outline, which are the first result.
//
// A line is the border of everything within the distance of an edge and of the
// corners, finished as Corner says. So an inward corner ends where the two lines
// meet; on a curve bent inwards tighter than the distance the strip closes up;
// and where distances of neighbouring edges differ along a straight run there is
// a step square to the edge. Outlines move, turn by right angles and mirror
// together with their lines, exactly.
//
// Errors are *unit.InputError values that name the field.
func (o Outline) Offsets(opt OffsetOptions, distances ...[]unit.Length) (Contour, []Offset, error) {
	s, err := o.strips(opt, distances...)
	if err != nil {
		return Contour{}, nil, err
	}
	out := make([]Offset, len(distances))
	for i, list := range distances {
		if out[i], _, err = s.moved(list); err != nil {
			return Contour{}, nil, err
		}
	}
	return Contour{Outer: pointsOf(s.ring)}, out, nil
}

// Recovered finds the line of the outline again from its offset alone: each edge
// of the offset moved back by its distance. Distances are as for Offsets. Where
// they ran together and closed a gap the line cannot be found, and the error
// wraps unit.ErrRange.
func (o Outline) Recovered(opt OffsetOptions, distances []unit.Length) (Contour, error) {
	s, err := o.strips(opt, distances)
	if err != nil {
		return Contour{}, err
	}
	moved, ring, err := s.moved(distances)
	if err != nil {
		return Contour{}, err
	}
	lost := func() error {
		return check.Refuse("outline", "", unit.ErrRange, "margins that leave every gap of the outline open")
	}
	if len(moved.Line.Holes) > 0 {
		return Contour{}, lost()
	}
	back, err := ring.Undo(recoveryHair)
	if err != nil {
		return Contour{}, outlineError(err)
	}
	var best geom.Ring
	for _, p := range back {
		if best == nil || p.Outer.Ring.Area() > best.Area() {
			best = p.Outer.Ring
		}
	}
	if best == nil {
		return Contour{}, lost()
	}
	return Contour{Outer: pointsOf(best)}, nil
}

// recoveryHair is the width of hairs, in nanometres, that a recovered line may
// leave: far above rounding, far below any tolerance.
const recoveryHair = 5000

// mostOffset bounds how far an edge is moved.
const mostOffset = 5 * unit.Metre

// strips holds what the offsets of one outline have in common.
type strips struct {
	outline Outline
	ring    geom.Ring
	of      []int // segment of the outline for each chord
	side    []int // edge of the outline for each segment
	opt     geom.OffsetOptions
}

// strips checks what Offsets is given and draws the chords.
func (o Outline) strips(opt OffsetOptions, distances ...[]unit.Length) (strips, error) {
	if o.IsZero() {
		return strips{}, check.Required("outline", "one of the outlines of this package")
	}
	opt, err := opt.Checked()
	if err != nil {
		return strips{}, err
	}
	var reach unit.Length
	for i, list := range distances {
		field := check.At("distances", i)
		if err := check.Count(field, len(list), len(o.sides), len(o.sides)); err != nil {
			return strips{}, err
		}
		for k, d := range list {
			if err := check.Length(check.At(field, k), d, 0, mostOffset); err != nil {
				return strips{}, err
			}
			reach = max(reach, d)
		}
	}
	ring, of, err := o.chords(geom.FlattenOptions{Tolerance: int64(opt.Tolerance), Reach: int64(reach)})
	if err != nil {
		return strips{}, err
	}
	s := strips{outline: o, ring: ring, of: of, opt: geom.OffsetOptions{
		Join:       [...]geom.Join{MitredCorner: geom.Mitre, SquareCorner: geom.Square, ClippedCorner: geom.Bevel, RoundCorner: geom.Round}[opt.Corner],
		MitreLimit: float64(opt.MitreLimit),
		Tolerance:  int64(opt.Tolerance),
		Smooth:     make([]bool, len(ring)),
	}}
	for i, d := range o.sides {
		for range d.path {
			s.side = append(s.side, i)
		}
	}
	n := len(ring)
	for i, k := range of {
		// A point inside a curve is no corner, nor is one where curves run
		// into each other without a bend.
		before := of[(i+n-1)%n]
		s.opt.Smooth[i] = before == k && n > 1 && ring[i] != o.whole[k].From || runsOn(o.whole[before], o.whole[k])
	}
	return s, nil
}

// runsOn tells whether b goes on in the direction in which a ends, within a
// thousandth of a radian.
func runsOn(a, b geom.Segment) bool {
	if a.Kind == geom.Line && b.Kind == geom.Line {
		return false
	}
	u, v := a.Tangent(1), b.Tangent(0)
	return float64(u.X*v.X)+float64(u.Y*v.Y) > 0 && math.Abs(float64(u.X*v.Y)-float64(u.Y*v.X)) < 1e-3
}

// moved draws one line, and gives the ring it is drawn from.
func (s strips) moved(distances []unit.Length) (Offset, geom.OffsetRing, error) {
	dist := make([]int64, len(s.ring))
	for i, k := range s.of {
		dist[i] = int64(distances[s.side[k]])
	}
	pieces, err := geom.Offset(s.ring, dist, s.opt)
	if err != nil {
		return Offset{}, geom.OffsetRing{}, outlineError(err)
	}
	// An outward offset of one ring is one piece; rounding may shed crumbs.
	if len(pieces) == 0 {
		return Offset{}, geom.OffsetRing{}, check.Refuse("outline", "", unit.ErrRange, "an outline with an area")
	}
	best := pieces[0]
	for _, p := range pieces[1:] {
		if insideOf(p) > insideOf(best) {
			best = p
		}
	}
	var out Offset
	by := make([]int64, len(s.side))
	for i, k := range s.side {
		by[i] = int64(distances[k])
	}
	box, joints := s.outline.path().OffsetBounds(by, best.Outer, s.of, s.opt.Smooth)
	out.Width, out.Height = unit.Length(box.Width()), unit.Length(box.Height())
	line := geom.Polygon{Outer: slices.Clone(best.Outer.Ring)}
	for _, i := range joints { // mitred joints of chords stand out a little
		p := &line.Outer[i]
		p.X, p.Y = min(max(p.X, box.Min.X), box.Max.X), min(max(p.Y, box.Min.Y), box.Max.Y)
	}
	out.Line.Outer = pointsOf(line.Outer)
	for _, h := range best.Holes {
		line.Holes = append(line.Holes, h.Ring)
		out.Line.Holes = append(out.Line.Holes, pointsOf(h.Ring))
	}
	out.Area = areaFromGrid(s.outline.area + line.TwiceArea().Float64()/2 - s.ring.Area())
	return out, best.Outer, nil
}

func insideOf(o geom.OffsetPolygon) float64 { return o.Polygon().TwiceArea().Float64() / 2 }

// Deviation gives the largest distance between the outer lines of two contours,
// either way, to within a micrometre, rounded up.
func (c Contour) Deviation(d Contour) (unit.Length, error) {
	far, err := geom.Hausdorff(ringOf(c.Outer), ringOf(d.Outer), 1000)
	if err != nil {
		return 0, outlineError(err)
	}
	return unit.Length(math.Ceil(far)), nil
}

func ringOf(ps []Point) geom.Ring { return mapped(ps, Point.grid) }
