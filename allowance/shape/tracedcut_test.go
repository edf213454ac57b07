package shape_test

import (
	"strconv"

	"github.com/coverwright/coverwright/allowance/shape"
	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// tracedCut gives the cut line of an outline as somebody would trace it: by its
// chords, each of them part of the edge that it came from, and the pieces at
// corners edges of their own.
func tracedCut(o shape.Outline, opt shape.OffsetOptions, distances []unit.Length) (shape.Outline, error) {
	opt, err := opt.Checked()
	if err != nil {
		return shape.Outline{}, err
	}
	ring, of, err := chordsOf(o)
	if err != nil {
		return shape.Outline{}, err
	}
	dist, smooth := make([]int64, len(ring)), make([]bool, len(ring))
	for i, k := range of {
		dist[i] = int64(distances[k])
		smooth[i] = runsOn(ring[(i+len(ring)-1)%len(ring)], ring[i], ring[(i+1)%len(ring)])
	}
	pieces, err := geom.Offset(ring, dist, geom.OffsetOptions{
		Join:       [...]geom.Join{shape.MitredCorner: geom.Mitre, shape.SquareCorner: geom.Square, shape.ClippedCorner: geom.Bevel, shape.RoundCorner: geom.Round}[opt.Corner],
		MitreLimit: float64(opt.MitreLimit), Tolerance: int64(opt.Tolerance), Smooth: smooth,
	})
	if err != nil {
		return shape.Outline{}, err
	}
	var cut geom.OffsetRing // the largest; rounding may shed crumbs
	for _, p := range pieces {
		if len(cut.Ring) == 0 || p.Outer.Ring.Area() > cut.Ring.Area() {
			cut = p.Outer
		}
	}
	names := make([]string, len(cut.Ring))
	corners := 0
	for i, from := range cut.Origin {
		switch {
		case from.Corner:
			names[i] = "corner " + strconv.Itoa(corners)
			corners++
		case from.Inset == 0 && dist[from.Edge] != 0:
			names[i] = "step " + strconv.Itoa(i)
		default:
			names[i] = o.Edges()[of[from.Edge]]
		}
	}
	return traceOf(cut.Ring, names)
}

// chordsOf gives the chords of an outline, and of which of its edges each is part.
func chordsOf(o shape.Outline) (ring geom.Ring, of []int, err error) {
	points, err := o.Flatten(20 * unit.Micrometre)
	if err != nil {
		return nil, nil, err
	}
	starts := map[shape.Point]int{}
	for k, e := range o.Edges() {
		on, _, err := o.Mark(e, 0, 0)
		if err != nil {
			return nil, nil, err
		}
		starts[on] = k
	}
	edge := len(starts) - 1
	for _, p := range points {
		if k, ok := starts[p]; ok {
			edge = k
		}
		ring, of = append(ring, geom.Point{X: int64(p.X), Y: int64(p.Y)}), append(of, edge)
	}
	return ring, of, nil
}

// runsOn tells whether chords bend by no more than those of a curve: by less than
// six degrees.
func runsOn(a, b, c geom.Point) bool {
	u, v := geom.Vec{X: float64(b.X - a.X), Y: float64(b.Y - a.Y)}, geom.Vec{X: float64(c.X - b.X), Y: float64(c.Y - b.Y)}
	along, across := float64(u.X*v.X)+float64(u.Y*v.Y), float64(u.X*v.Y)-float64(u.Y*v.X)
	return along > 0 && max(across, -across) < along/10
}

// traceOf traces a ring; chords of one name one after another are one edge.
func traceOf(ring geom.Ring, names []string) (shape.Outline, error) {
	n, start := len(ring), 0
	for start < n-1 && names[start] == names[(start+n-1)%n] {
		start++
	}
	point := func(i int) shape.Point {
		p := ring[i%n]
		return shape.Point{X: unit.Length(p.X), Y: unit.Length(p.Y)}
	}
	t, last := shape.TraceFrom(point(start)), ""
	for i := start; i < start+n; i++ {
		if names[i%n] != last {
			last = names[i%n]
			t.Edge(last)
		}
		t.Line(point(i + 1))
	}
	return t.Close()
}
