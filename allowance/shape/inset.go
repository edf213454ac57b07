package shape

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
	"github.com/coverwright/coverwright/unit"
)

// Why an outline cannot be moved inwards; each is wrapped by an *InsetError.
var (
	// ErrTight says an outward curve is tighter than the distance, so that
	// nothing is left of it.
	ErrTight = errors.New("tighter than its allowance")
	// ErrNothingLeft says the distances are wider than a strip or a neck.
	ErrNothingLeft = errors.New("nothing is left between two edges")
	// ErrNoInverse says the line that was found does not give the outline back
	// when it is moved outwards again.
	ErrNoInverse = errors.New("no outline has this one as its cut line")
)

// InsetError says why an outline cannot be moved inwards, and at which edges.
// It wraps a *unit.InputError, and that ErrTight, ErrNothingLeft or ErrNoInverse.
type InsetError struct {
	First  string // the edge
	Second string // the one across from it; empty where one edge is at fault
	input  *unit.InputError
}

// Error says what is wrong.
func (e *InsetError) Error() string { return e.input.Error() }

// Unwrap gives the *unit.InputError.
func (e *InsetError) Unwrap() error { return e.input }

func insetError(first, second string, kind error, want string) *InsetError {
	value := first
	if second != "" {
		value += " and " + second
	}
	return &InsetError{first, second, &unit.InputError{Field: "outline", Value: value, Err: kind, Want: want}}
}

// Inset moves every edge inwards by a distance of its own, square to the edge,
// from zero to 5 m: one for each of Edges. It undoes [Outline.Offsets] with
// mitred corners: neighbouring edges are carried on or cut off where they meet.
// Lines stay lines and arcs of circles arcs,
//
//	R = R₀ - d outward bulge, R₀ + d hollow
//
// and the parallel of any other curve is drawn by cubic curves within a twentieth of
// the tolerance or 0.1 mm, if that is less. A short piece square to two edges that run on side by side is
// the step where the distance changes, and is dropped. The tolerance is as for
// OffsetOptions.
//
// The result is moved outwards again, and the outline must lie along it within the
// tolerance, and none of it inside. Errors are *unit.InputError values for what is given, *InsetError
// where there is no such outline.
func (o Outline) Inset(tolerance unit.Length, distances []unit.Length) (Outline, error) {
	opt := OffsetOptions{MitreLimit: 100, Tolerance: tolerance}
	opt, err := opt.Checked()
	if err != nil {
		return Outline{}, err
	}
	fine := opt // for chords
	fine.Tolerance = min(opt.Tolerance, DefaultTolerance)
	s, err := o.strips(fine, distances)
	if err != nil {
		return Outline{}, err
	}
	if !slices.ContainsFunc(distances, func(d unit.Length) bool { return d != 0 }) {
		return o, nil
	}
	in := inset{strips: s, by: make([]float64, len(o.whole))}
	for k, i := range s.side {
		in.by[k] = float64(distances[i])
	}
	in.step = steps(o.whole, in.by)
	for k, step := range in.step {
		if step {
			in.by[k] = 0
		}
	}
	if err := in.tight(); err != nil {
		return Outline{}, err
	}
	ring, err := in.shrunk()
	if err != nil {
		return Outline{}, err
	}
	r, err := in.joined(ring, float64(fine.Tolerance)/20)
	if err != nil {
		return Outline{}, err
	}
	if err := in.verify(r, opt.Tolerance); err != nil {
		return Outline{}, err
	}
	return r, nil
}

// inset holds one inset while it is made.
type inset struct {
	strips
	by   []float64 // of each segment of the outline
	step []bool    // segments that are steps between two distances
}

// steps finds the pieces that only lead from one distance to another: at a bend
// by t that is less than the distances a < b allow to be mitred, a < b cos t, one
// of length b - a / cos t square to the edge of b.
func steps(whole []geom.Segment, by []float64) []bool {
	out := make([]bool, len(by))
	n := len(whole)
	for k, s := range whole {
		i, j := (k+n-1)%n, (k+1)%n
		if s.Kind != geom.Line || i == j {
			continue
		}
		u, v, w := whole[i].Tangent(1), s.Tangent(0), whole[j].Tangent(0)
		a, b, far := by[i], by[j], w // far is the edge that is further out
		if a > b {
			a, b, far = b, a, u
		}
		cos := float64(u.X*w.X) + float64(u.Y*w.Y)
		square := math.Abs(float64(far.X*v.X) + float64(far.Y*v.Y))
		if cos <= 0 || square > 0.17 {
			continue
		}
		if rise := b - a/cos; rise > 0 && math.Abs(s.Length()-rise) <= rise/5 {
			out[k] = true
		}
	}
	return out
}

// tight refuses curves that have turned round once they are moved.
func (in *inset) tight() error {
	for k, s := range in.outline.whole {
		p := geom.Parallel{Segment: s, By: in.by[k]}
		for i := range 65 {
			if p.Slack(float64(i)/64) <= 1e-9 {
				return insetError(in.outline.sideOf(k), "", ErrTight,
					"outward curves with a radius above "+unit.Length(in.by[k]).String())
			}
		}
	}
	return nil
}

// shrunk moves the chords inwards.
func (in *inset) shrunk() (geom.OffsetRing, error) {
	dist := make([]int64, len(in.ring))
	for i, k := range in.of {
		dist[i] = -int64(in.by[k])
	}
	pieces, err := geom.Offset(in.ring, dist, in.opt)
	if err != nil {
		return geom.OffsetRing{}, outlineError(err)
	}
	crumb := func(r geom.OffsetRing) bool { // thinner than the tolerance: 2 A / P
		return 2*math.Abs(r.Ring.Area()) < float64(in.opt.Tolerance)*r.Ring.Perimeter()
	}
	pieces = slices.DeleteFunc(pieces, func(p geom.OffsetPolygon) bool { return crumb(p.Outer) })
	for i := range pieces {
		pieces[i].Holes = slices.DeleteFunc(pieces[i].Holes, crumb)
	}
	switch {
	case len(pieces) == 0:
		a, b := in.closest(in.all(), 1)
		return geom.OffsetRing{}, insetError(a, b, ErrNothingLeft, "allowances that leave some of the strip")
	case len(pieces) > 1 || len(pieces[0].Holes) > 0:
		a, b := in.neck(pieces)
		return geom.OffsetRing{}, insetError(a, b, ErrNothingLeft, "allowances that leave some of the neck")
	}
	return pieces[0].Outer, nil
}

func (in *inset) all() []int {
	out := make([]int, len(in.ring))
	for i := range out {
		out[i] = i
	}
	return out
}

// neck names the edges that face each other where the outline falls apart: the
// chords of different pieces that are closest for their distances.
func (in *inset) neck(pieces []geom.OffsetPolygon) (string, string) {
	used := map[int]bool{}
	for _, p := range pieces {
		for _, o := range p.Outer.Origin {
			used[o.Edge] = true
		}
	}
	var lost []int // chords of the neck have gone
	for i := range in.ring {
		if !used[i] {
			lost = append(lost, i)
		}
	}
	if len(lost) < 2 {
		lost = in.all()
	}
	return in.closest(lost, 1)
}

// closest names the edges of the two chords that lie closest together for their
// distances, more than apart chords from each other.
func (in *inset) closest(chords []int, apart int) (string, string) {
	n := len(in.ring)
	least, a, b := math.Inf(1), 0, 0
	for x, i := range chords {
		for _, j := range chords[x+1:] {
			if d := (j - i + n) % n; d <= apart || d >= n-apart {
				continue
			}
			p, q, r, s := in.ring[i], in.ring[(i+1)%n], in.ring[j], in.ring[(j+1)%n]
			u, v := q.Sub(p), s.Sub(r)
			if geom.Dot(u, v).Sign() >= 0 {
				continue // they do not face each other
			}
			m := geom.Parallel{Segment: geom.LineTo(r, s)}
			c := geom.Parallel{Segment: geom.LineTo(p, q)}
			mid := c.At(0.5)
			near := m.At(m.Nearest(mid, 0, 1))
			gap := geom.Hypot(near.X-mid.X, near.Y-mid.Y) - in.by[in.of[i]] - in.by[in.of[j]]
			if gap < least {
				least, a, b = gap, i, j
			}
		}
	}
	first, second := in.outline.sideOf(in.of[a]), in.outline.sideOf(in.of[b])
	if first == second {
		second = ""
	}
	return first, second
}

// run is what is left of one segment of the outline.
type run struct {
	segment  int
	from, to geom.Point // ends as the chords have them
	lo, hi   float64
	start    geom.Point // as it is drawn
}

// runs gives the segments that are left, in their order round the ring.
func (in *inset) runs(ring geom.OffsetRing) []run {
	var out []run
	n := len(ring.Ring)
	for i, o := range ring.Origin {
		p, q := ring.Ring[i], ring.Ring[(i+1)%n]
		k := in.of[o.Edge]
		if o.Inset == 0 {
			k = in.unmoved(p, q)
		} else if o.Corner || float64(o.Inset) != in.by[k] {
			continue
		}
		if k < 0 || in.step[k] {
			continue
		}
		if m := len(out); m > 0 && out[m-1].segment == k {
			out[m-1].to = q
			continue
		}
		out = append(out, run{segment: k, from: p, to: q, hi: 1})
	}
	if m := len(out); m > 1 && out[0].segment == out[m-1].segment {
		out[0].from = out[m-1].from
		out = out[:m-1]
	}
	return inOrder(out)
}

// unmoved gives the segment, of those that are not moved, that an edge of the
// ring lies on, or -1: corner pieces and sides of strips lie on it too.
func (in *inset) unmoved(p, q geom.Point) int {
	for i, k := range in.of {
		if in.by[k] != 0 || in.step[k] {
			continue
		}
		c := geom.Parallel{Segment: geom.LineTo(in.ring[i], in.ring[(i+1)%len(in.ring)])}
		on := func(p geom.Point) bool {
			x := c.At(c.Nearest(p.Vec(), 0, 1))
			return geom.Hypot(x.X-float64(p.X), x.Y-float64(p.Y)) < 10
		}
		if on(p) && on(q) && c.Nearest(q.Vec(), 0, 1) > c.Nearest(p.Vec(), 0, 1) {
			return k
		}
	}
	return -1
}

// inOrder leaves out what rounding left of a segment in the wrong place: it takes
// the longest first, and those that keep the order of the segments with them.
func inOrder(runs []run) []run {
	byLength := make([]int, len(runs))
	for i := range runs {
		byLength[i] = i
	}
	slices.SortStableFunc(byLength, func(i, j int) int {
		return cmp.Compare(geom.Distance(runs[j].from, runs[j].to), geom.Distance(runs[i].from, runs[i].to))
	})
	var kept []int // places of runs, in the order of their segments
	for _, i := range byLength {
		at, twice := slices.BinarySearchFunc(kept, runs[i].segment, func(k, s int) int { return cmp.Compare(runs[k].segment, s) })
		if n := len(kept); n > 1 {
			before, after := kept[(at+n-1)%n], kept[at%n]
			// Going round from before, i comes ahead of after.
			if all := len(runs); (i-before+all)%all > (after-before+all)%all {
				twice = true
			}
		}
		if !twice {
			kept = slices.Insert(kept, at, i)
		}
	}
	out := make([]run, len(kept))
	for k, i := range kept {
		out[k] = runs[i]
	}
	return out
}

// joined draws the true curves of what the chords say is left.
func (in *inset) joined(ring geom.OffsetRing, tol float64) (Outline, error) {
	runs := in.runs(ring)
	if len(runs) == 0 {
		return Outline{}, insetError(in.outline.sides[0].name, "", ErrNothingLeft, "allowances that leave some of it")
	}
	left := make([]bool, len(in.outline.sides))
	for _, r := range runs {
		left[in.side[r.segment]] = true
	}
	at := 0
	for i, s := range in.outline.sides {
		if !left[i] && !slices.Contains(in.step[at:at+len(s.path)], true) {
			return Outline{}, insetError(s.name, "", ErrNothingLeft, "an allowance that leaves some of the edge")
		}
		at += len(s.path)
	}
	if len(runs) == 1 { // one smooth curve all round
		p := in.parallel(runs[0])
		start := p.At(0).Point()
		return newOutline([]side{{in.outline.sideOf(runs[0].segment), p.Part(0, 1, start, start, tol)}})
	}
	for i := range runs {
		in.meet(&runs[i], &runs[(i+1)%len(runs)], 20*tol)
	}
	r, err := newOutline(drawn(runs, in.outline.sideOf, in.parallel, tol))
	if err != nil {
		var ce *CrossingError
		if errors.As(err, &ce) {
			return Outline{}, insetError(ce.First, ce.Second, ErrNoInverse, "an outline that does not cross itself once its allowances are off")
		}
	}
	return r, err
}

// drawn gives the edges of what is left of segments, from where a side begins.
func drawn(runs []run, name func(segment int) string, of func(run) geom.Parallel, tol float64) []side {
	n := len(runs)
	begin := 0
	for begin < n-1 && name(runs[begin].segment) == name(runs[(begin+n-1)%n].segment) {
		begin++
	}
	if name(runs[begin].segment) == name(runs[(begin+n-1)%n].segment) {
		begin = 0 // one side all round
	}
	var sides []side
	for i := range n {
		r, next := runs[(begin+i)%n], runs[(begin+i+1)%n]
		p := of(r)
		if r.start == next.start && p.Segment.Kind == geom.Line {
			continue
		}
		path := p.Part(r.lo, r.hi, r.start, next.start, tol)
		if m := len(sides); m > 0 && sides[m-1].name == name(r.segment) {
			sides[m-1].path = append(sides[m-1].path, path...)
			continue
		}
		sides = append(sides, side{name(r.segment), path})
	}
	return sides
}

func (in *inset) parallel(r run) geom.Parallel {
	return geom.Parallel{Segment: in.outline.whole[r.segment], By: in.by[r.segment]}
}

// meet carries two neighbours on, or cuts them off, to where they meet: at their
// ends, where these lie within near of each other, and else near where the chords
// meet, or where they are when the lines meet nowhere near.
func (in *inset) meet(a, b *run, near float64) {
	p, q := in.parallel(*a), in.parallel(*b)
	x, y := p.At(1), q.At(0)
	if geom.Hypot(x.X-y.X, x.Y-y.Y) <= near {
		a.hi, b.lo, b.start = 1, 0, geom.Vec{X: (x.X + y.X) / 2, Y: (x.Y + y.Y) / 2}.Point()
		return
	}
	from, to := p.Nearest(a.to.Vec(), -0.25, 1.25), q.Nearest(b.from.Vec(), -0.25, 1.25)
	s, t, ok := p.Meet(q, from, to)
	at := p.At(s).Point()
	if ok && s > a.lo && t < 1 && min(geom.Distance(at, a.to), geom.Distance(at, b.from)) <= float64(3*geom.Distance(a.to, b.from))+near {
		a.hi, b.lo, b.start = s, t, at
		return
	}
	a.hi, b.lo = from, to
	b.start = geom.Vec{X: float64(a.to.X+b.from.X) / 2, Y: float64(a.to.Y+b.from.Y) / 2}.Point()
}

// verify looks whether the outline lies along the result at its distances, and
// whether none of the result, moved outwards, lies inside it but where another
// edge covers it: edges are carried on at corners, and cut off in hollows.
func (in *inset) verify(r Outline, tolerance unit.Length) error {
	far, edge := 0.0, ""
	tell := func(d float64, name string) {
		if d > far {
			far, edge = d, name
		}
	}
	by := map[string]float64{} // steps have none
	for k, d := range in.by {
		if !in.step[k] {
			by[in.outline.sideOf(k)] = d
		}
	}
	edges := map[string][]geom.Segment{}
	for _, s := range r.sides {
		edges[s.name] = s.path
	}
	for i, p := range in.ring {
		name := in.outline.sideOf(in.of[i])
		if in.step[in.of[i]] {
			continue
		}
		tell(offParallel(p.Vec(), edges[name], by[name], float64(tolerance)), name)
	}
	for _, s := range r.sides {
		for _, g := range s.path {
			p := geom.Parallel{Segment: g, By: -by[s.name]}
			parts := 8
			if g.Kind == geom.Line {
				parts = 2
			}
			for i := range parts + 1 {
				q := p.At(float64(i) / float64(parts))
				if d := in.inside(q, float64(tolerance)); d > float64(tolerance) && !r.covers(q, by) {
					tell(d, s.name)
				}
			}
		}
	}
	if far > float64(tolerance) {
		return insetError(edge, "", ErrNoInverse,
			fmt.Sprintf("an outline that its finished line gives back within %v: %v off", tolerance, unit.Length(math.Ceil(far))))
	}
	return nil
}

// offParallel gives how far a point lies from an edge moved outwards, the edge
// carried on beyond its ends; less than enough is near enough.
func offParallel(q geom.Vec, path []geom.Segment, by, enough float64) float64 {
	least := math.Inf(1)
	for i, g := range path {
		if least < enough {
			return least
		}
		if i > 0 && i < len(path)-1 && nearest(q, g, by) > least {
			continue
		}
		lo, hi := 0.0, 1.0
		more := 0.25
		if g.Kind == geom.Line {
			more = 1e3
		}
		if i == 0 {
			lo -= more
		}
		if i == len(path)-1 {
			hi += more
		}
		p := geom.Parallel{Segment: g, By: -by}
		x := p.At(p.Nearest(q, lo, hi))
		least = min(least, geom.Hypot(x.X-q.X, x.Y-q.Y))
		// Between two pieces of an edge that bends outwards they meet in a mitre.
		if i > 0 {
			before := geom.Parallel{Segment: path[i-1], By: -by}
			if s, t, ok := before.Meet(p, 1, 0); ok && s >= 1 && t <= 0 {
				for _, m := range [2]geom.Vec{before.At(before.Nearest(q, 1, s)), p.At(p.Nearest(q, t, 0))} {
					least = min(least, geom.Hypot(m.X-q.X, m.Y-q.Y))
				}
			}
		}
	}
	return least
}

// covers tells whether a point lies within the distance of any edge.
func (o Outline) covers(q geom.Vec, by map[string]float64) bool {
	for _, s := range o.sides {
		for _, g := range s.path {
			p := geom.Parallel{Segment: g}
			x := p.At(p.Nearest(q, 0, 1))
			if geom.Hypot(x.X-q.X, x.Y-q.Y) < by[s.name]-float64(10*unit.Micrometre) {
				return true
			}
		}
	}
	return false
}

// inside gives how deep inside the outline a point lies, zero outside; less than
// enough is near enough.
func (in *inset) inside(p geom.Vec, enough float64) float64 {
	if in.ring.Locate(p.Point()) != geom.Inside {
		return 0
	}
	least := math.Inf(1)
	for i, a := range in.ring {
		g := geom.LineTo(a, in.ring[(i+1)%len(in.ring)])
		if least < enough {
			return least
		}
		if nearest(p, g, 0) > least {
			continue
		}
		c := geom.Parallel{Segment: g}
		x := c.At(c.Nearest(p, 0, 1))
		least = min(least, geom.Hypot(x.X-p.X, x.Y-p.Y))
	}
	return least
}

// nearest gives a distance that a point has at least from a segment moved by a
// distance and mitred, where the mitre is not sharp.
func nearest(q geom.Vec, g geom.Segment, by float64) float64 {
	from := geom.Hypot(float64(g.From.X)-q.X, float64(g.From.Y)-q.Y)
	return from - 2*by - span(g)
}

// span bounds how far a segment goes from its start.
func span(g geom.Segment) float64 {
	if g.Kind == geom.Line {
		return geom.Distance(g.From, g.To)
	}
	return g.Length()
}
