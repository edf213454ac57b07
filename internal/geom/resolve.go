package geom

import (
	"cmp"
	"slices"
)

// Rule says which winding numbers count as inside.
type Rule int

// The fill rules.
const (
	NonZero  Rule = iota // any number but 0
	Positive             // over 0
	Negative             // under 0
	EvenOdd              // odd numbers
)

func (r Rule) inside(w int32) bool {
	switch r {
	case Positive:
		return w > 0
	case Negative:
		return w < 0
	case EvenOdd:
		return w&1 != 0
	}
	return w != 0
}

// Polygon is an area with one outer ring, anticlockwise, and holes, clockwise.
// Rings are simple; they may touch each other at points, never along edges.
type Polygon struct {
	Outer Ring
	Holes []Ring
}

// TwiceArea returns twice the area, exactly.
func (p Polygon) TwiceArea() Int128 {
	s := p.Outer.TwiceArea()
	for _, h := range p.Holes {
		s = s.Add(h.TwiceArea())
	}
	return s
}

// Resolve returns the area in which the winding number of the rings is inside
// by the rule, as polygons with simple rings. Rings may overlap, cross and
// touch themselves and each other in any way. Crossing points are rounded to
// the grid by snap rounding, so no edge moves by more than a nanometre and the
// result has no crossing at all. Every ring starts at its smallest point;
// polygons and holes are in the order of these points.
//
// The errors are ErrRange and ErrTooComplex.
func Resolve(rings []Ring, rule Rule) ([]Polygon, error) {
	var in arrangement
	for _, r := range rings {
		if err := r.Check(); err != nil {
			return nil, err
		}
		in.addRing(r, nil)
	}
	out, err := in.resolve(rule)
	if err != nil {
		return nil, err
	}
	polys := make([]Polygon, len(out))
	for i, o := range out {
		polys[i] = o.polygon()
	}
	return polys, nil
}

// Union returns the union of areas given as rings of either orientation, each
// simple or not: every ring is filled by the non-zero rule and orientation
// does not matter.
func Union(rings []Ring) ([]Polygon, error) {
	turned := make([]Ring, len(rings))
	for i, r := range rings {
		if r.Orientation() < 0 {
			r = r.Reverse()
		}
		turned[i] = r
	}
	return Resolve(turned, NonZero)
}

// tracedRing is a result ring with the input edge each of its edges lies on.
type tracedRing struct {
	pts Ring
	src []int32 // src[i] is the input edge under the edge from pts[i]
}

type tracedPolygon struct {
	outer tracedRing
	holes []tracedRing
}

func (t tracedPolygon) polygon() Polygon {
	p := Polygon{Outer: t.outer.pts}
	for _, h := range t.holes {
		p.Holes = append(p.Holes, h.pts)
	}
	return p
}

// arrangement collects directed edges; resolve finds the faces they cut the
// plane into.
type arrangement struct {
	edges []edge
	ids   []int32 // caller's id of each edge
	rings int     // rings with at least one edge
	work  *int    // box tests left; shared by the steps of one call
}

// addRing adds the edges of r. ids, if given, names each edge; otherwise edges
// are numbered in the order they are added, zero-length edges included.
func (ar *arrangement) addRing(r Ring, ids []int32) {
	ar.rings++
	base := len(ar.edges)
	if cap(ar.edges)-base < len(r) {
		ar.edges = slices.Grow(ar.edges, len(r))
		ar.ids = slices.Grow(ar.ids, len(r))
	}
	for i, p := range r {
		q := r[0]
		if i+1 < len(r) {
			q = r[i+1]
		}
		if p == q {
			continue
		}
		id := int32(base + i)
		if ids != nil {
			id = ids[i]
		}
		ar.edges = append(ar.edges, edge{p, q})
		ar.ids = append(ar.ids, id)
	}
	if len(ar.edges) == base {
		ar.rings--
	}
}

// maxNodes bounds the number of crossing points of one call.
const maxNodes = 1 << 19

// node is a point an edge has to be led through.
type node struct {
	edge int32
	at   Point
}

// resolve runs the three steps: nodes, sweep, rings.
func (ar *arrangement) resolve(rule Rule) ([]tracedPolygon, error) {
	if len(ar.edges) < 3 {
		return nil, nil
	}
	nodes, touch, err := ar.findNodes()
	if err != nil {
		return nil, err
	}
	if len(nodes) == 0 && !touch && ar.rings == 1 {
		if out, ok := ar.simpleResult(rule); ok {
			return out, nil
		}
	}
	g := ar.split(nodes)
	g.sweep(rule)
	return g.assemble(), nil
}

// simpleResult handles the usual case of one ring that does not meet itself.
func (ar *arrangement) simpleResult(rule Rule) ([]tracedPolygon, bool) {
	n := len(ar.edges)
	r := make(Ring, n)
	for i, e := range ar.edges {
		r[i] = e.a
		if e.b != ar.edges[(i+1)%n].a {
			return nil, false
		}
	}
	o := r.Orientation()
	if o == 0 {
		return nil, false
	}
	if !rule.inside(int32(o)) {
		return nil, true
	}
	t := tracedRing{r, slices.Clone(ar.ids)}
	if o < 0 {
		t.pts = r.Reverse()
		for i := range t.src {
			t.src[i] = ar.ids[n-1-i]
		}
	}
	return []tracedPolygon{{outer: t.clean().normal()}}, true
}

// findNodes finds every grid point an edge must be led through, other than its
// own ends: the points of other edges whose pixel it passes and the rounded
// crossings (snap rounding). touch reports that edges which do not follow each
// other share an end. No nodes and no touch means that no two edges meet but
// neighbours in their common end.
func (ar *arrangement) findNodes() (nodes []node, touch bool, err error) {
	var crossings []Point
	es := ar.edges
	n := len(es)
	if ar.work == nil {
		work := treeWork
		ar.work = &work
	}
	t := newBoxTree(es, ar.work)
	add := func(i int, p Point) {
		if e := es[i]; p != e.a && p != e.b {
			nodes = append(nodes, node{int32(i), p})
		}
	}
	ok := t.pairs(func(i, j int) bool {
		e, f := &es[i], &es[j]
		for _, p := range [2]Point{f.a, f.b} {
			if passesPixel(e.a, e.b, p) {
				add(i, p)
			}
		}
		for _, p := range [2]Point{e.a, e.b} {
			if passesPixel(f.a, f.b, p) {
				add(j, p)
			}
		}
		if p, ok := properCrossing(e.a, e.b, f.a, f.b); ok {
			crossings = append(crossings, p)
		}
		// Ends shared by edges that do not follow each other, and pairs of
		// edges with both ends in common, need the sweep.
		if j != i+1 && !(i == 0 && j == n-1) {
			touch = touch || e.a == f.a || e.a == f.b || e.b == f.a || e.b == f.b
		} else {
			touch = touch || e.a == f.b && e.b == f.a
		}
		*ar.work--
		return len(nodes)+len(crossings) < maxNodes
	})
	if !ok {
		return nil, false, ErrTooComplex
	}
	slices.SortFunc(crossings, comparePoints)
	crossings = slices.Compact(crossings)
	for _, p := range crossings {
		ok := t.at(p, func(i int) {
			if passesPixel(es[i].a, es[i].b, p) {
				add(i, p)
			}
		})
		if !ok || len(nodes) > maxNodes {
			return nil, false, ErrTooComplex
		}
	}
	return nodes, touch, nil
}

// subEdge is an edge of the arrangement between two neighbouring vertices,
// kept from the smaller to the larger end.
type subEdge struct {
	lo, hi int32 // vertex numbers
	delta  int32 // winding number above minus below
	up     int32 // id of an input edge running lo to hi, or -1
	down   int32 // id of an input edge running hi to lo, or -1
	above  int32 // winding number just above
	dir    int8  // 1: boundary with the inside above; -1: below; 0: none
	ring   int32 // walk that used the edge
}

// graph is a planar arrangement: no edge passes through a vertex or crosses
// another edge.
type graph struct {
	pts   []Point   // vertices in order
	edges []subEdge // grouped by lo, each group from the lowest to the highest direction
	out   []int32   // edges of vertex v: edges[out[v]:out[v+1]]
	into  []int32   // number of edges that end at v
	under []int32   // for a vertex where boundaries begin: boundary edge below, or -1
}

// split leads every edge through its nodes and builds the graph.
func (ar *arrangement) split(nodes []node) *graph {
	es := ar.edges
	nodes = ar.along(nodes)
	pts := make([]Point, 0, len(es)+len(nodes))
	for _, e := range es {
		pts = append(pts, e.a)
	}
	for _, nd := range nodes {
		pts = append(pts, nd.at)
	}
	slices.SortFunc(pts, comparePoints)
	pts = slices.Compact(pts)
	subs := merged(pts, ar.subEdges(pts, nodes))

	g := &graph{pts: pts, edges: subs}
	g.out = make([]int32, len(pts)+1)
	g.into = make([]int32, len(pts))
	for _, s := range g.edges {
		g.out[s.lo+1]++
		g.into[s.hi]++
	}
	for v := range pts {
		g.out[v+1] += g.out[v]
	}
	return g
}

// along sorts nodes by edge and along each edge.
func (ar *arrangement) along(nodes []node) []node {
	es := ar.edges
	slices.SortFunc(nodes, func(a, b node) int {
		if a.edge != b.edge {
			return int(a.edge - b.edge)
		}
		d := es[a.edge].b.Sub(es[a.edge].a)
		// A segment passes pixels in the order of x and of y at once.
		ka := int64(cmp.Compare(d.X, 0))*a.at.X + int64(cmp.Compare(d.Y, 0))*a.at.Y
		kb := int64(cmp.Compare(d.X, 0))*b.at.X + int64(cmp.Compare(d.Y, 0))*b.at.Y
		switch {
		case ka < kb:
			return -1
		case ka > kb:
			return 1
		}
		return comparePoints(a.at, b.at)
	})
	return slices.Compact(nodes)
}

// subEdges cuts the edges at their nodes; pts are the vertices in order.
func (ar *arrangement) subEdges(pts []Point, nodes []node) []subEdge {
	es := ar.edges
	index := func(p Point) int32 {
		i, _ := slices.BinarySearchFunc(pts, p, comparePoints)
		return int32(i)
	}
	subs := make([]subEdge, 0, len(es)+len(nodes))
	add := func(a, b, id int32) {
		switch {
		case a < b:
			subs = append(subs, subEdge{lo: a, hi: b, delta: 1, up: id, down: -1, ring: -1})
		case a > b:
			subs = append(subs, subEdge{lo: b, hi: a, delta: -1, up: -1, down: id, ring: -1})
		}
	}
	k := 0
	var last int32 // vertex the previous edge ended at
	for i, e := range es {
		var a int32
		if i > 0 && es[i-1].b == e.a {
			a = last
		} else {
			a = index(e.a)
		}
		for k < len(nodes) && nodes[k].edge == int32(i) {
			b := index(nodes[k].at)
			add(a, b, ar.ids[i])
			a = b
			k++
		}
		b := index(e.b)
		add(a, b, ar.ids[i])
		last = b
	}
	return subs
}

// merged puts the edges in the order of the graph, merges equal ones and drops
// those that cancel.
func merged(pts []Point, subs []subEdge) []subEdge {
	slices.SortFunc(subs, func(x, y subEdge) int {
		if x.lo != y.lo {
			return int(x.lo - y.lo)
		}
		if x.hi == y.hi {
			// Order of equal edges: smallest id first, so that merging is
			// deterministic.
			return int(max(x.up, x.down) - max(y.up, y.down))
		}
		// All ends lie to the right of lo, or straight above.
		o := pts[x.lo]
		if s := crossSign(pts[x.hi].Sub(o), pts[y.hi].Sub(o)); s != 0 {
			return -s
		}
		return int(x.hi - y.hi)
	})
	m := 0
	for i := 0; i < len(subs); {
		s := subs[i]
		for i++; i < len(subs) && subs[i].lo == s.lo && subs[i].hi == s.hi; i++ {
			s.delta += subs[i].delta
			if s.up < 0 {
				s.up = subs[i].up
			}
			if s.down < 0 {
				s.down = subs[i].down
			}
		}
		if s.delta != 0 {
			subs[m] = s
			m++
		}
	}
	return subs[:m]
}

// sweep passes a vertical line over the vertices from left to right, keeps
// the edges it cuts in order from bottom to top, and so finds the winding
// number on both sides of every edge.
func (g *graph) sweep(rule Rule) {
	var line []int32 // edges cut by the sweep line, from bottom to top
	g.under = make([]int32, len(g.pts))
	for v, p := range g.pts {
		nIn, outs := int(g.into[v]), g.edges[g.out[v]:g.out[v+1]]
		if nIn == 0 && len(outs) == 0 {
			continue
		}
		// The first edge that p is not above: edges that end here are next.
		lo, hi := 0, len(line)
		for lo < hi {
			mid := int(uint(lo+hi) >> 1)
			e := &g.edges[line[mid]]
			if e.hi != int32(v) && Orient(g.pts[e.lo], g.pts[e.hi], p) > 0 {
				lo = mid + 1
			} else {
				hi = mid
			}
		}
		w := int32(0)
		if lo > 0 {
			w = g.edges[line[lo-1]].above
		}
		for i := range outs {
			e := &outs[i]
			below := w
			w += e.delta
			e.above = w
			if in := rule.inside(w); in != rule.inside(below) {
				e.dir = -1
				if in {
					e.dir = 1
				}
			}
		}
		// Needed only where a boundary begins: the boundary next below.
		g.under[v] = -1
		if hasBoundary(outs) && !g.boundaryEnds(line[lo:lo+nIn]) {
			for k := lo - 1; k >= 0; k-- {
				if g.edges[line[k]].dir != 0 {
					g.under[v] = line[k]
					break
				}
			}
		}
		first := g.out[v]
		if nIn == len(outs) {
			for i := range outs {
				line[lo+i] = first + int32(i)
			}
			continue
		}
		line = replace(line, lo, nIn, first, len(outs))
	}
}

func hasBoundary(es []subEdge) bool {
	for i := range es {
		if es[i].dir != 0 {
			return true
		}
	}
	return false
}

func (g *graph) boundaryEnds(ids []int32) bool {
	for _, k := range ids {
		if g.edges[k].dir != 0 {
			return true
		}
	}
	return false
}

// replace puts the run first, first+1, ... of length n in place of
// line[at:at+del].
func replace(line []int32, at, del int, first int32, n int) []int32 {
	switch {
	case n > del:
		for range n - del {
			line = append(line, 0)
		}
		copy(line[at+n:], line[at+del:len(line)-(n-del)])
	case n < del:
		line = append(line[:at+n], line[at+del:]...)
	}
	for i := range n {
		line[at+i] = first + int32(i)
	}
	return line
}

// assemble joins the boundary edges into rings. Walking with the inside to the
// left and always turning left as far as possible goes once round one border
// of one face; a walk that visits a vertex twice is cut there into simple
// rings.
func (g *graph) assemble() []tracedPolygon {
	a := assembly{graph: g, seen: slices.Repeat([]int32{-1}, len(g.pts))}
	a.start, a.leave = g.boundary()
	for s := range g.edges {
		if g.edges[s].dir != 0 && g.edges[s].ring < 0 {
			a.walk(int32(s))
		}
	}
	for _, o := range a.orphans {
		if k := a.owner(o.walk); k >= 0 {
			a.polys[k].holes = append(a.polys[k].holes, o.ring)
		}
	}
	for i := range a.polys {
		slices.SortFunc(a.polys[i].holes, func(a, b tracedRing) int { return compareRings(a.pts, b.pts) })
	}
	slices.SortFunc(a.polys, func(a, b tracedPolygon) int { return compareRings(a.outer.pts, b.outer.pts) })
	return a.polys
}

// boundary lists the boundary edges leaving each vertex in walking direction:
// those of v are leave[start[v]:start[v+1]].
func (g *graph) boundary() (start, leave []int32) {
	start = make([]int32, len(g.pts)+1)
	count := 0
	for i := range g.edges {
		if g.edges[i].dir != 0 {
			start[g.from(int32(i))+1]++
			count++
		}
	}
	for v := range g.pts {
		start[v+1] += start[v]
	}
	leave = make([]int32, count)
	fill := slices.Clone(start[:len(g.pts)])
	for i := range g.edges {
		if g.edges[i].dir != 0 {
			v := g.from(int32(i))
			leave[fill[v]] = int32(i)
			fill[v]++
		}
	}
	return start, leave
}

// assembly is a graph whose rings are being joined.
type assembly struct {
	*graph
	start, leave []int32 // see boundary
	seen         []int32 // by vertex: where it stands in path, or -1
	path         []int32 // edges of the walk not yet cut off
	polys        []tracedPolygon
	orphans      []orphan
	polyOf       []int32 // polygon of each walk, -1 while unknown
	lowOf        []int32 // lowest vertex of each walk
}

// orphan is a hole whose polygon is not known yet.
type orphan struct {
	ring tracedRing
	walk int32
}

// walk goes once round a border, from edge e.
func (a *assembly) walk(e int32) {
	walk := int32(len(a.polyOf))
	a.polyOf = append(a.polyOf, -1)
	low := a.from(e)
	a.path = a.path[:0]
	for {
		v := a.from(e)
		low = min(low, v)
		if k := a.seen[v]; k >= 0 {
			a.cut(a.path[k:], walk)
			a.forget(a.path[k:])
			a.path = a.path[:k]
		}
		if a.edges[e].ring >= 0 {
			break
		}
		a.seen[v] = int32(len(a.path))
		a.path = append(a.path, e)
		a.edges[e].ring = walk
		e = a.next(e, a.start, a.leave)
	}
	a.forget(a.path)
	a.lowOf = append(a.lowOf, low)
}

func (a *assembly) forget(path []int32) {
	for _, e := range path {
		a.seen[a.from(e)] = -1
	}
}

// owner is the polygon a walk belongs to. A walk round a hole lies in the
// polygon whose border is next below its lowest vertex; that may be the border
// of another hole, found before.
func (a *assembly) owner(walk int32) int32 {
	for a.polyOf[walk] < 0 {
		u := a.under[a.lowOf[walk]]
		if u < 0 {
			return -1
		}
		walk = a.edges[u].ring
	}
	return a.polyOf[walk]
}

// from returns the vertex at which boundary edge e begins, the inside to its
// left.
func (g *graph) from(e int32) int32 {
	if g.edges[e].dir > 0 {
		return g.edges[e].lo
	}
	return g.edges[e].hi
}

func (g *graph) to(e int32) int32 {
	if g.edges[e].dir > 0 {
		return g.edges[e].hi
	}
	return g.edges[e].lo
}

// next returns the boundary edge that continues e with the sharpest left turn.
func (g *graph) next(e int32, start, leave []int32) int32 {
	v := g.to(e)
	cand := leave[start[v]:start[v+1]]
	if len(cand) == 1 {
		return cand[0]
	}
	back := g.pts[g.from(e)].Sub(g.pts[v])
	best := cand[0]
	for _, c := range cand[1:] {
		// First when turning clockwise from the way back.
		if clockwiseBefore(back, g.pts[g.to(c)].Sub(g.pts[v]), g.pts[g.to(best)].Sub(g.pts[v])) {
			best = c
		}
	}
	return best
}

// clockwiseBefore reports whether, turning clockwise from direction o, a is
// met before b. Direction o itself comes last.
func clockwiseBefore(o, a, b Point) bool {
	half := func(p Point) int {
		switch s := crossSign(o, p); {
		case s < 0:
			return 0
		case s > 0:
			return 2
		}
		if Dot(o, p).Sign() > 0 {
			return 3
		}
		return 1
	}
	ha, hb := half(a), half(b)
	if ha != hb {
		return ha < hb
	}
	return crossSign(a, b) < 0
}

// cut turns a closed part of a walk into a ring.
func (a *assembly) cut(path []int32, walk int32) {
	t := tracedRing{make(Ring, len(path)), make([]int32, len(path))}
	for i, e := range path {
		t.pts[i] = a.pts[a.from(e)]
		t.src[i] = a.edges[e].up
		if a.edges[e].dir < 0 {
			t.src[i] = a.edges[e].down
		}
		if t.src[i] < 0 {
			t.src[i] = max(a.edges[e].up, a.edges[e].down)
		}
	}
	o := t.pts.Orientation()
	t = t.clean().normal()
	switch {
	case o > 0:
		a.polyOf[walk] = int32(len(a.polys))
		a.polys = append(a.polys, tracedPolygon{outer: t})
	case o < 0:
		a.orphans = append(a.orphans, orphan{t, walk})
	}
}

// clean removes points in the middle of a straight run on one input edge.
func (t tracedRing) clean() tracedRing {
	n := len(t.pts)
	keep := 0
	pts, src := make(Ring, 0, n), make([]int32, 0, n)
	for i := range n {
		prev := (i + n - 1) % n
		if t.src[i] == t.src[prev] && Orient(t.pts[prev], t.pts[i], t.pts[(i+1)%n]) == 0 {
			continue
		}
		pts, src = append(pts, t.pts[i]), append(src, t.src[i])
		keep++
	}
	if keep < 3 {
		return t
	}
	return tracedRing{pts, src}
}

// normal starts the ring at its smallest point.
func (t tracedRing) normal() tracedRing {
	k := t.pts.lowest()
	if k == 0 {
		return t
	}
	return tracedRing{
		append(slices.Clone(t.pts[k:]), t.pts[:k]...),
		append(slices.Clone(t.src[k:]), t.src[:k]...),
	}
}

func compareRings(a, b Ring) int {
	for i := range min(len(a), len(b)) {
		if c := comparePoints(a[i], b[i]); c != 0 {
			return c
		}
	}
	return len(a) - len(b)
}
