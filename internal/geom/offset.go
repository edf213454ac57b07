package geom

import (
	"cmp"
	"math"
	"slices"
)

// Join says how an offset turns a corner that opens a gap: a corner turned
// away from the side the offset goes to.
type Join int

// The corner treatments. d is the larger of the two distances at the corner.
const (
	// Mitre extends both offset edges until they meet. A point further than
	// MitreLimit * d from the corner, measured along the bisector of the edges,
	// is cut off square to the bisector at that distance.
	Mitre Join = iota
	// Square cuts the mitre at distance d from the corner in the same way.
	Square
	// Bevel joins the ends of the two offset edges by a straight line.
	Bevel
	// Round cuts the mitre by the circle of radius d about the corner.
	Round
)

// DefaultMitreLimit is the mitre limit used when none is given: the point of a
// corner may be 4 times as far out as the edges (corners down to about 29
// degrees keep their point). It is the initial value of the SVG property
// stroke-miterlimit.
const DefaultMitreLimit = 4

// DefaultTolerance is the chord tolerance used when none is given: 0.1 mm.
const DefaultTolerance int64 = 100_000

// OffsetOptions selects the corner treatment. The zero value is a mitre with
// the default limit.
type OffsetOptions struct {
	Join       Join
	MitreLimit float64 // at least 1; 0 means DefaultMitreLimit
	Tolerance  int64   // chord tolerance of Round in nm, at least 10; 0 means DefaultTolerance
	// Smooth marks points that are no corners but joints of a flattened curve:
	// they are always mitred. nil or one value per point.
	Smooth []bool
}

// Origin says what an edge of an offset ring comes from.
type Origin struct {
	// Edge is the input edge that lies parallel, or the edge leaving the
	// corner when Corner is set.
	Edge   int
	Corner bool
	// Inset is the distance back to where the edge came from: the distance of
	// the edge, or for a corner piece its distance from the corner point. It
	// is never negative.
	Inset int64
}

// OffsetRing is a ring of an offset with the origin of each edge; edge i
// starts at point i.
type OffsetRing struct {
	Ring   Ring
	Origin []Origin
}

// OffsetPolygon is one connected piece of an offset.
type OffsetPolygon struct {
	Outer OffsetRing
	Holes []OffsetRing
}

// Polygon drops the origins.
func (o OffsetPolygon) Polygon() Polygon {
	p := Polygon{Outer: o.Outer.Ring}
	for _, h := range o.Holes {
		p.Holes = append(p.Holes, h.Ring)
	}
	return p
}

// Offset moves every edge of a simple ring by its own distance and returns the
// area inside. All distances are >= 0 (outward) or all <= 0 (inward); edge i
// runs from point i to the next. The ring may run either way.
//
// Outward, the result is exactly the union of the ring, of one strip per edge
// (the rectangle between the edge and its moved copy) and of one piece per
// corner that opens a gap, shaped by the join. Inward, the strips and corner
// pieces on the inner side are taken away. So inner offsets split or vanish
// (an empty result) as they must, a corner that closes is trimmed where the
// edges meet, and a change of distance along a straight run is a step square
// to the edge. Constructed points are rounded to the grid.
//
// Where one distance is so much larger that its strip reaches past the
// neighbour's offset line, the neighbour ends at the strip's side, whatever
// the join: the same step.
//
// Moving, turning by a right angle and mirroring the input does the same to
// the result, exactly. Errors: ErrRange, ErrDegenerate, ErrParameter,
// ErrTooComplex.
func Offset(ring Ring, dist []int64, opt OffsetOptions) ([]OffsetPolygon, error) {
	return offset(ring, dist, opt, hairWidth)
}

// offset is Offset with the width of hairs to remove.
func offset(ring Ring, dist []int64, opt OffsetOptions, hairs float64) ([]OffsetPolygon, error) {
	o, err := newOffsetter(ring, dist, opt)
	if err != nil {
		return nil, err
	}
	if o.vanishes() {
		return nil, nil
	}
	f := o.canonicalFrame()
	o.enter(f)
	o.build()
	ar, err := o.arrange()
	if err != nil {
		return nil, err
	}
	rule := Positive
	if o.inward {
		rule = Negative
	}
	res, err := ar.resolve(rule)
	if err != nil {
		return nil, err
	}
	if res, err = despike(res, hairs, &o.work); err != nil {
		return nil, err
	}
	out := make([]OffsetPolygon, 0, len(res))
	for _, p := range res {
		if p.outer.pts.residue() {
			continue
		}
		q := OffsetPolygon{Outer: o.leave(f, p.outer)}
		for _, h := range p.holes {
			if !h.pts.residue() {
				q.Holes = append(q.Holes, o.leave(f, h))
			}
		}
		slices.SortFunc(q.Holes, func(a, b OffsetRing) int { return compareRings(a.Ring, b.Ring) })
		out = append(out, q)
	}
	slices.SortFunc(out, func(a, b OffsetPolygon) int { return compareRings(a.Outer.Ring, b.Outer.Ring) })
	return out, nil
}

// despike removes hairs and slits narrower than rounding can tell, which come
// from strip sides that should coincide and miss by a nanometre. If any were
// found the rings are resolved once more, since cutting one off may have
// touched another point.
func despike(ps []tracedPolygon, width float64, work *int) ([]tracedPolygon, error) {
	var rings []tracedRing
	found := false
	for _, p := range ps {
		rings = append(append(rings, p.outer), p.holes...)
	}
	for i, r := range rings {
		var cut bool
		rings[i], cut = r.despike(width)
		found = found || cut
	}
	if !found {
		return ps, nil
	}
	ar := arrangement{work: work}
	for _, r := range rings {
		ar.addRing(r.pts, r.src)
	}
	return ar.resolve(Positive)
}

// hairWidth is the width of hairs that despike removes, in nanometres.
const hairWidth = 6

func (t tracedRing) despike(width float64) (tracedRing, bool) {
	n := len(t.pts)
	hairy := false
	for i := range n {
		hairy = hairy || hair(t.pts[(i+n-1)%n], t.pts[i], t.pts[(i+1)%n], width)
	}
	if !hairy {
		return t, false
	}
	pts, src := slices.Clone(t.pts), slices.Clone(t.src)
	for again := true; again && len(pts) > 2; {
		again = false
		for i := 0; i < len(pts) && len(pts) > 2; i++ {
			h, j := (i+len(pts)-1)%len(pts), (i+1)%len(pts)
			if !hair(pts[h], pts[i], pts[j], width) {
				continue
			}
			if Distance(pts[h], pts[i]) < Distance(pts[i], pts[j]) {
				src[h] = src[i]
			}
			pts, src = slices.Delete(pts, i, i+1), slices.Delete(src, i, i+1)
			i = max(i-2, -1)
			again = true
		}
	}
	return tracedRing{pts, src}, true
}

// hair reports whether the way a, b, c turns back on itself within width.
func hair(a, b, c Point, width float64) bool {
	if Dot(b.Sub(a), c.Sub(b)).Sign() >= 0 {
		return false
	}
	return segmentDistance(c, a, b) <= width || segmentDistance(a, b, c) <= width
}

// Undo returns the outline an outward offset was made from, as far as the
// offset ring still tells: every edge is moved back by its inset. Cut corners
// are first extended to their point, so the result does not depend on the
// join. An offset that closed a gap of the outline cannot give it back. Errors
// are those of Offset.
//
// A short edge, rounded to the grid, points a little off, and over a long way
// back that leaves hairs wider than those of a plain offset: those up to hair,
// in nanometres, are cut off.
func (r OffsetRing) Undo(hair float64) ([]OffsetPolygon, error) {
	n := len(r.Ring)
	if n < 3 || len(r.Origin) != n {
		return nil, ErrDegenerate
	}
	var kept []int // edges that are no cut pieces
	for i, o := range r.Origin {
		if !o.Corner || o.Inset <= minPiece {
			kept = append(kept, i)
		}
	}
	if len(kept) == 0 {
		return nil, ErrDegenerate
	}
	ring, back := make(Ring, 0, n), make([]int64, 0, n)
	add := func(p Point, edge int) {
		ring, back = append(ring, p), append(back, -r.Origin[edge].Inset)
	}
	for k, j := range kept {
		i := kept[(k+len(kept)-1)%len(kept)]
		p := r.Ring[j]
		if next := (i + 1) % n; next != j {
			x, ok := lineMeet(r.Ring[i], r.Ring[next], p, r.Ring[(j+1)%n])
			if ok {
				p = x
			} else { // too sharp a point: keep the pieces
				for e := next; e != j; e = (e + 1) % n {
					add(r.Ring[e], e)
				}
			}
		}
		add(p, j)
	}
	return offset(ring, back, OffsetOptions{MitreLimit: 50}, hair)
}

// lineMeet returns where the line from a to b, carried on beyond b, meets the
// line from p to q carried back beyond p. ok is false when that is further
// away than 1000 times the gap, or out of range.
func lineMeet(a, b, p, q Point) (Point, bool) {
	u, v, w := b.Sub(a), q.Sub(p), p.Sub(b)
	den := Cross(u, v).Float64()
	if den <= 0 {
		return Point{}, false
	}
	t := Cross(w, v).Float64() / den
	x := Vec{float64(t * float64(u.X)), float64(t * float64(u.Y))}
	if t < 0 || !(x.length() <= 1000*w.vec().length()) {
		return Point{}, false
	}
	r := b.Add(x.round())
	return r, r.InRange()
}

// residue reports whether the ring is thinner than rounding can tell: a strip
// of width w has the area w P / 2.
func (r Ring) residue() bool { return math.Abs(r.Area()) < hairWidth*r.Perimeter()/2 }

// OffsetBy moves every edge by the same distance.
func OffsetBy(ring Ring, d int64, opt OffsetOptions) ([]OffsetPolygon, error) {
	dist := make([]int64, len(ring))
	for i := range dist {
		dist[i] = d
	}
	return Offset(ring, dist, opt)
}

// offsetter holds one offset while it is built.
type offsetter struct {
	join   Join
	limit  float64
	tol    float64
	inward bool

	pts    Ring    // cleaned of zero edges; anticlockwise
	dist   []int64 // >= 0
	src    []int   // input edge of each edge
	smooth []bool  // nil: none

	raw  Ring      // the raw offset curve
	from []rawEdge // what the edge from each raw point is
	ends []edgeVec // per edge
	work int       // box tests left
	mark []int     // index in raw of the first point of each vertex
	deep []bool    // vertices where the curve goes in to the point
}

type rawEdge struct {
	vertex int // point of pts the piece belongs to
	corner bool
	side   bool // side of a strip: no inset
}

// edgeVec is the unit direction and the length of an edge.
type edgeVec struct{ x, y, len float64 }

func newOffsetter(ring Ring, dist []int64, opt OffsetOptions) (*offsetter, error) {
	o := &offsetter{join: opt.Join, limit: opt.MitreLimit, tol: float64(opt.Tolerance), work: treeWork}
	if o.limit == 0 {
		o.limit = DefaultMitreLimit
	}
	if opt.Tolerance == 0 {
		o.tol = float64(DefaultTolerance)
	}
	switch {
	case o.join < Mitre || o.join > Round:
		return nil, &ParameterError{"join", float64(o.join), "a known join"}
	case !(o.limit >= 1 && o.limit <= 1e6):
		return nil, &ParameterError{"mitre limit", o.limit, "from 1 to 1e6"}
	case !(o.tol >= 10):
		return nil, &ParameterError{"tolerance", o.tol, "at least 10 nm"}
	case len(dist) != len(ring):
		return nil, &ParameterError{"number of distances", float64(len(dist)), "one per edge"}
	case opt.Smooth != nil && len(opt.Smooth) != len(ring):
		return nil, &ParameterError{"number of smooth marks", float64(len(opt.Smooth)), "one per point"}
	}
	var lo, hi int64
	for _, d := range dist {
		lo, hi = min(lo, d), max(hi, d)
	}
	if lo < 0 && hi > 0 {
		return nil, &ParameterError{"distance", float64(lo), "of one sign with all others"}
	}
	if hi > MaxCoord || lo < -MaxCoord {
		return nil, ErrRange
	}
	o.inward = lo < 0
	turn := ring.Orientation()
	if len(ring) < 3 || turn == 0 {
		return nil, ErrDegenerate
	}
	o.pts = make(Ring, 0, len(ring))
	o.dist = make([]int64, 0, len(ring))
	o.src = make([]int, 0, len(ring))
	for k := range ring {
		i, e := k, k
		if turn < 0 { // walk backwards: the edge leaving point i is edge i-1
			i = (len(ring) - k) % len(ring)
			e = (i + len(ring) - 1) % len(ring)
		}
		next := ring[(i+1)%len(ring)]
		if turn < 0 {
			next = ring[e]
		}
		if !ring[i].InRange() {
			return nil, ErrRange
		}
		if next == ring[i] {
			continue // a zero edge has no direction; its distance has no meaning
		}
		o.pts = append(o.pts, ring[i])
		o.dist = append(o.dist, absInt(dist[e]))
		o.src = append(o.src, e)
		if opt.Smooth != nil {
			o.smooth = append(o.smooth, opt.Smooth[i])
		}
	}
	reach := float64(float64(max(hi, -lo)) * max(o.limit, 2))
	b := ring.Bounds()
	for _, v := range [4]int64{b.Min.X, b.Min.Y, b.Max.X, b.Max.Y} {
		if math.Abs(float64(v))+reach > float64(MaxCoord) {
			return nil, ErrRange
		}
	}
	return o, nil
}

// vanishes reports that an inner offset leaves nothing, when that is plain from
// the area A: a point that stays is the centre of a disc inside the outline, of
// the smallest distance as radius, so the disc is no larger than A. Bevelled
// corners do not take away whole discs, so they are not judged.
func (o *offsetter) vanishes() bool {
	if !o.inward || o.join == Bevel {
		return false
	}
	least := slices.Min(o.dist)
	r := float64(least) - 10
	if o.join == Round {
		r -= o.tol
	}
	return r > 0 && math.Pi*r*r > o.pts.Area()
}

// frame is the symmetry and shift in which an offset is computed. Rounding is
// not symmetric (a half goes up), so every input is first brought into a frame
// that depends on its shape alone; moved, turned and mirrored inputs then go
// through the very same arithmetic.
type frame struct {
	t      Transform
	origin Point // first point, before t
	start  int   // its index
}

// canonicalFrame picks the symmetry whose image of the outline, walked
// anticlockwise from its smallest point, is the smallest sequence.
func (o *offsetter) canonicalFrame() frame {
	best := o.frameOf(Identity)
	for t := Rotate90; t <= AntiDiagonal; t++ {
		if f := o.frameOf(t); o.compareFrames(f, best) < 0 {
			best = f
		}
	}
	return best
}

func (o *offsetter) frameOf(t Transform) frame {
	k, low := 0, t.Apply(o.pts[0])
	for i, p := range o.pts[1:] {
		if q := t.Apply(p); q.Less(low) {
			k, low = i+1, q
		}
	}
	return frame{t, o.pts[k], k}
}

// at returns the k-th point of the outline seen in frame f, the index of that
// point and of the edge that leaves it.
func (o *offsetter) at(f frame, k int) (p Point, point, edge int) {
	n := len(o.pts)
	if f.t.Flips() {
		point = (f.start - k + n) % n
		edge = (point + n - 1) % n
	} else {
		point = (f.start + k) % n
		edge = point
	}
	return f.t.Apply(o.pts[point].Sub(f.origin)), point, edge
}

func (o *offsetter) compareFrames(f, g frame) int {
	for k := range o.pts {
		p, i, e := o.at(f, k)
		q, j, h := o.at(g, k)
		if c := comparePoints(p, q); c != 0 {
			return c
		}
		if c := cmp.Compare(o.dist[e], o.dist[h]); c != 0 {
			return c
		}
		if o.smooth != nil && o.smooth[i] != o.smooth[j] {
			if o.smooth[i] {
				return 1
			}
			return -1
		}
	}
	return 0
}

// enter brings the outline into the frame. For an inward offset the outline is
// then run clockwise, so that the strips always lie to the right.
func (o *offsetter) enter(f frame) {
	n := len(o.pts)
	pts, dist, src := make(Ring, n), make([]int64, n), make([]int, n)
	var smooth []bool
	if o.smooth != nil {
		smooth = make([]bool, n)
	}
	for k := range n {
		p, i, e := o.at(f, k)
		at, leaving := k, k
		if o.inward {
			at = (n - k) % n
			leaving = (at + n - 1) % n
		}
		pts[at], dist[leaving], src[leaving] = p, o.dist[e], o.src[e]
		if smooth != nil {
			smooth[at] = o.smooth[i]
		}
	}
	o.pts, o.dist, o.src, o.smooth = pts, dist, src, smooth
}

// leave brings a result ring back.
func (o *offsetter) leave(f frame, t tracedRing) OffsetRing {
	n := len(t.pts)
	r := tracedRing{make(Ring, n), make([]int32, n)}
	inv := f.t.Inverse()
	for i, p := range t.pts {
		at, e := i, i
		if f.t.Flips() {
			at = (n - i) % n
			e = (at + n - 1) % n
		}
		r.pts[at] = inv.Apply(p).Add(f.origin)
		r.src[e] = t.src[i]
	}
	r = r.normal()
	out := OffsetRing{r.pts, make([]Origin, n)}
	for i, id := range r.src {
		w := o.from[id]
		og := Origin{Edge: o.src[w.vertex], Corner: w.corner, Inset: o.dist[w.vertex]}
		if w.side {
			og.Inset = 0
		} else if w.corner {
			v := o.pts[w.vertex]
			a := o.raw[id].Sub(v)
			b := o.raw[(int(id)+1)%len(o.raw)].Sub(v)
			og.Inset = int64(math.Round(Cross(a, b).Abs().Float64() / Distance(a, b)))
		}
		out.Origin[i] = og
	}
	return out
}

// build walks round the outline and writes the raw offset curve: a closed
// curve whose winding number is the sum over the outline, the strips and the
// corner pieces, each counted once, so that the sign of the winding number
// tells the union.
func (o *offsetter) build() {
	n := len(o.pts)
	o.ends = make([]edgeVec, n)
	for i, p := range o.pts {
		q := o.pts[(i+1)%n]
		x, y := float64(q.X-p.X), float64(q.Y-p.Y)
		l := Hypot(x, y)
		o.ends[i] = edgeVec{x / l, y / l, l}
	}
	o.raw = make(Ring, 0, n+n/4+16)
	o.from = make([]rawEdge, 0, n+n/4+16)
	o.mark = make([]int, n)
	o.deep = make([]bool, n)
	for i := range o.pts {
		o.mark[i] = len(o.raw)
		o.corner(i)
	}
}

// put adds a raw point: vertex i plus the vector (x, y), rounded.
func (o *offsetter) put(i int, x, y float64, corner bool) {
	v := o.pts[i]
	o.raw = append(o.raw, Point{v.X + int64(math.Round(x)), v.Y + int64(math.Round(y))})
	o.from = append(o.from, rawEdge{vertex: i, corner: corner})
}

// vertex is a point of the outline with its two edges. With unit normals n1, n2
// to the right of the edges, c = n1.n2 and s = sin of the turn, the offset lines
// meet at
//
//	X = V + (d1 + d2) / (2 (1 + c)) (n1 + n2) + (d2 - d1) / (2 (1 - c)) (n2 - n1)
//
// t1 = (d2 - d1 c) / s past the end of the first edge and
// t2 = (d1 - d2 c) / s before the start of the second.
type vertex struct {
	i      int
	d1, d2 float64
	e1, e2 edgeVec
	n1, n2 Vec
	c, s   float64
	k1, k2 float64 // t1 s and t2 s
	m      Vec     // n1 + n2
	m2     float64 // its square, 2 (1 + c)
	turn   int     // 1 left, -1 right
}

func (o *offsetter) vertex(i int) vertex {
	n := len(o.pts)
	h := (i + n - 1) % n
	v := vertex{i: i, d1: float64(o.dist[h]), d2: float64(o.dist[i]), e1: o.ends[h], e2: o.ends[i]}
	v.n1, v.n2 = Vec{v.e1.y, -v.e1.x}, Vec{v.e2.y, -v.e2.x}
	v.c = float64(v.n1.X*v.n2.X) + float64(v.n1.Y*v.n2.Y)
	v.s = math.Abs(float64(v.n1.X*v.n2.Y) - float64(v.n1.Y*v.n2.X))
	v.k1, v.k2 = v.d2-float64(v.d1*v.c), v.d1-float64(v.d2*v.c)
	v.m = Vec{v.n1.X + v.n2.X, v.n1.Y + v.n2.Y}
	v.m2 = float64(v.m.X*v.m.X) + float64(v.m.Y*v.m.Y)
	p := o.pts[i]
	v.turn = crossSign(p.Sub(o.pts[h]), o.pts[(i+1)%n].Sub(p))
	return v
}

// meet is where the offset lines meet, from the point.
func (v *vertex) meet() (x, y float64) {
	a := (v.d1 + v.d2) / v.m2
	x, y = float64(a*v.m.X), float64(a*v.m.Y)
	if v.d1 != v.d2 {
		ux, uy := v.n2.X-v.n1.X, v.n2.Y-v.n1.Y
		b := (v.d2 - v.d1) / (float64(ux*ux) + float64(uy*uy)) // 2 (1 - c)
		x, y = x+float64(b*ux), y+float64(b*uy)
	}
	return x, y
}

// putMeet writes the point where the offset lines meet.
func (o *offsetter) putMeet(v *vertex) {
	x, y := v.meet()
	o.put(v.i, x, y, false)
}

// putEnds writes the end of the first strip and the start of the second, with
// distances f1 and f2 and a cut between them.
func (o *offsetter) putEnds(v *vertex, f1, f2 float64) {
	o.put(v.i, float64(f1*v.n1.X), float64(f1*v.n1.Y), true)
	o.put(v.i, float64(f2*v.n2.X), float64(f2*v.n2.Y), false)
}

// corner writes the raw points at point i.
func (o *offsetter) corner(i int) {
	v := o.vertex(i)
	switch {
	case v.d1 == 0 && v.d2 == 0:
		o.put(i, 0, 0, false)
	case v.turn < 0:
		o.innerCorner(&v)
	// A step where one strip reaches past the other's line.
	case v.k2 < 0:
		if f := v.d1 / v.c; v.d2-f >= minPiece {
			o.put(i, float64(f*v.n2.X), float64(f*v.n2.Y), true)
		}
		o.put(i, float64(v.d2*v.n2.X), float64(v.d2*v.n2.Y), false)
	case v.k1 < 0:
		f := v.d2 / v.c
		if v.d1-f < minPiece {
			f = v.d1
		} else {
			o.put(i, float64(v.d1*v.n1.X), float64(v.d1*v.n1.Y), true)
		}
		o.put(i, float64(f*v.n1.X), float64(f*v.n1.Y), false)
	default:
		o.outerCorner(&v)
	}
}

// innerCorner writes a corner where the strips overlap. If both are long enough
// they can be trimmed where the lines meet; else the curve goes in to the point
// and out again. Half the edge would still be right; less keeps edges from
// shrinking to nothing on a curve whose radius is the distance.
func (o *offsetter) innerCorner(v *vertex) {
	ok := v.c >= 0 && v.k1 <= float64(0.4*v.s*v.e1.len) && v.k2 <= float64(0.4*v.s*v.e2.len) && v.k1 >= 0 && v.k2 >= 0
	if v.d1 != v.d2 {
		ok = ok && float64(v.d1*v.s) <= v.e2.len/2 && float64(v.d2*v.s) <= v.e1.len/2
	}
	if ok {
		o.putMeet(v)
		return
	}
	o.deep[v.i] = true
	o.put(v.i, float64(v.d1*v.n1.X), float64(v.d1*v.n1.Y), true)
	o.put(v.i, 0, 0, true)
	o.put(v.i, float64(v.d2*v.n2.X), float64(v.d2*v.n2.Y), false)
}

// outerCorner writes a corner where the strips leave a gap, by the join.
func (o *offsetter) outerCorner(v *vertex) {
	join, limit := o.join, o.limit
	if o.smooth != nil && o.smooth[v.i] {
		join, limit = Mitre, DefaultMitreLimit
	}
	if join == Bevel || join == Round {
		// A cut too short to have a direction is not made.
		gap := Hypot(float64(v.d2*v.n2.X)-float64(v.d1*v.n1.X), float64(v.d2*v.n2.Y)-float64(v.d1*v.n1.Y))
		if gap < minPiece && v.c > 0 {
			o.putMeet(v)
			return
		}
	}
	switch join {
	case Bevel:
		o.putEnds(v, v.d1, v.d2)
	case Round:
		o.arc(v.i, v.d1, v.d2, v.e1, v.e2)
	case Square:
		o.mitre(v, 1)
	default:
		o.mitre(v, limit)
	}
}

// mitre writes a corner drawn out to its point, or cut where that is further
// than the limit allows: by the line p.b = far, b the bisector, which is f1 past
// d1 n1 along the first line and f2 before d2 n2 along the second.
func (o *offsetter) mitre(v *vertex, limit float64) {
	far := float64(limit * max(v.d1, v.d2))
	sharp := v.m2 > 1e-24
	var x, y float64
	bx, by := v.m.X, v.m.Y
	if sharp {
		x, y = v.meet()
		if float64(x*v.m.X)+float64(y*v.m.Y) <= far*math.Sqrt(v.m2)*(1+1e-12) {
			o.put(v.i, x, y, false)
			return
		}
	} else {
		bx, by = v.e1.x-v.e2.x, v.e1.y-v.e2.y // the point doubles back
	}
	bl := Hypot(bx, by)
	bx, by = bx/bl, by/bl
	n1, n2, e1, e2 := v.n1, v.n2, v.e1, v.e2
	f1 := cutLength(far-float64(v.d1*(float64(n1.X*bx)+float64(n1.Y*by))), float64(e1.x*bx)+float64(e1.y*by), far)
	f2 := cutLength(far-float64(v.d2*(float64(n2.X*bx)+float64(n2.Y*by))), -float64(e2.x*bx)-float64(e2.y*by), far)
	px, py := float64(v.d1*n1.X)+float64(f1*e1.x), float64(v.d1*n1.Y)+float64(f1*e1.y)
	qx, qy := float64(v.d2*n2.X)-float64(f2*e2.x), float64(v.d2*n2.Y)-float64(f2*e2.y)
	if sharp && Hypot(px-qx, py-qy) < minPiece && Hypot(x-px, y-py) < minPiece {
		o.put(v.i, x, y, false)
		return
	}
	o.put(v.i, px, py, true)
	o.put(v.i, qx, qy, false)
}

// minPiece is the shortest corner piece or step that is made, in nanometres:
// a shorter one, once rounded, would have no direction to speak of.
const minPiece = 5000

// cutLength divides num by den, both at least zero but for rounding. As far out
// as the cut lies, den is at least about 1/limit of it, so the quotient is
// bounded; most catches the rest.
func cutLength(num, den, most float64) float64 {
	if num <= 0 {
		return 0
	}
	if den <= 0 || num > den*most*1e3 {
		return most
	}
	return num / den
}

// arc writes a round corner: the arc of the larger radius about the corner,
// from offset line to offset line, as chords found by halving often enough.
// The chords end on the arc, so they lie inside it by at most the tolerance.
func (o *offsetter) arc(i int, d1, d2 float64, e1, e2 edgeVec) {
	// Unit directions from the corner to both ends of the arc. The line of
	// the smaller distance meets the arc ahead of its strip's end.
	r := max(d1, d2)
	ax, ay, bx, by := e1.y, -e1.x, e2.y, -e2.x
	if d1 < r {
		f, g := d1/r, math.Sqrt((1-d1/r)*(1+d1/r))
		ax, ay = float64(f*ax)+float64(g*e1.x), float64(f*ay)+float64(g*e1.y)
	}
	if d2 < r {
		f, g := d2/r, math.Sqrt((1-d2/r)*(1+d2/r))
		bx, by = float64(f*bx)-float64(g*e2.x), float64(f*by)-float64(g*e2.y)
	}
	c := float64(ax*bx) + float64(ay*by)
	depth := 0
	half := math.Sqrt(max(0, (1+c)/2)) // cos of half a step
	for ; r*(1-half) > o.tol-1 && depth < 16; depth++ {
		half = math.Sqrt((1 + half) / 2)
	}
	var split func(ax, ay, bx, by float64, depth int)
	split = func(ax, ay, bx, by float64, depth int) {
		if depth == 0 {
			return
		}
		mx, my := ax+bx, ay+by
		if l := Hypot(mx, my); l > 1e-9 {
			mx, my = mx/l, my/l
		} else {
			mx, my = e1.x, e1.y // half a turn
		}
		split(ax, ay, mx, my, depth-1)
		o.put(i, float64(r*mx), float64(r*my), true)
		split(mx, my, bx, by, depth-1)
	}
	o.put(i, float64(r*ax), float64(r*ay), true)
	split(ax, ay, bx, by, depth)
	o.put(i, float64(r*bx), float64(r*by), false)
}
