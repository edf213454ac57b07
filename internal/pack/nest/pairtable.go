package nest

import (
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// pairTable answers, for two shapes of fixed orientation, how deep they
// overlap as a function of the displacement between them. Cells cut by
// the border of the region of overlap are answered exactly from the
// half-planes that bound it there; cells well inside are answered by
// interpolation in a distance map. Whatever an answer takes stands in the cell
// or in one run of half-planes, as the search waits for memory more than for
// arithmetic.
type pairTable struct {
	x0, y0 int64 // displacement at the corner of cell 0
	shift  uint
	nx, ny int32
	cells  []tableCell
	edges  []tableEdge
	work   int64 // steps it took to build
}

// tableCell is 0 where the shapes are apart. Where the lowest 16 bits are 0
// the others say where its half-planes begin; else the cell lies well inside, and
// from the lowest bits on stand the depths at its corners, in cell/256: lower
// left, lower right, upper left, upper right.
type tableCell uint64

// tableEdge is a half-plane: the depth at (x, y) from the corner of the table is
// (ex*y - ey*x + k) * inv. The bracket is exact; it is positive strictly inside.
type tableEdge struct {
	ex, ey int32
	k      int64
	inv    float32
	last   uint32 // 1: of its part, 2: of its cell
}

// depth returns 0 if the interiors are disjoint at displacement (x, y) of
// the second shape from the first, and a length above 0 otherwise.
func (t *pairTable) depth(x, y int64) float64 { return t.depthAt(x-t.x0, y-t.y0) }

// depthAt is the depth at a place from the corner of the table.
func (t *pairTable) depthAt(ux, uy int64) float64 {
	ix, iy := ux>>t.shift, uy>>t.shift
	if uint64(ix) >= uint64(t.nx) || uint64(iy) >= uint64(t.ny) {
		return 0
	}
	c := t.cells[int(iy)*int(t.nx)+int(ix)]
	switch {
	case c == 0:
		return 0
	case c&0xffff != 0:
		return c.inside(ux, uy, t.shift)
	}
	d, _ := t.border(c, ux, uy)
	return d
}

// border answers for a cell cut by the border of the region of overlap, at (x, y)
// from the corner of the table, and counts the half-planes it looked at.
func (t *pairTable) border(c tableCell, x, y int64) (best float64, looked int64) {
	from := int(c >> 16)
	for at := from; ; {
		d := math.MaxFloat64
		h := &t.edges[at]
		for {
			at++
			v := int64(h.ex)*y - int64(h.ey)*x + h.k
			if v <= 0 {
				d = 0
				for h.last == 0 {
					h = &t.edges[at]
					at++
				}
				break
			}
			if f := float64(v) * float64(h.inv); f < d {
				d = f
			}
			if h.last != 0 {
				break
			}
			h = &t.edges[at]
		}
		if d > best {
			best = d
		}
		if h.last == 2 {
			return best, int64(at - from)
		}
	}
}

// inside answers for a cell well inside, at (ux, uy) from the corner of the table.
func (c tableCell) inside(ux, uy int64, shift uint) float64 {
	cell := int64(1) << shift
	fx, fy := ux&(cell-1), uy&(cell-1)
	a, b := int64(c&0xffff), int64(c>>16&0xffff)
	e, f := int64(c>>32&0xffff), int64(c>>48)
	// Integers all the way: at most 2^16 * 2^24 * 2^24 fits.
	lo := a*(cell-fx) + b*fx
	hi := e*(cell-fx) + f*fx
	lo, hi = lo>>shift, hi>>shift
	v := lo*(cell-fy) + hi*fy
	return float64(v) * (1.0 / 256)
}

// halfPlane is one in the making. The edge where it bounds a part lies in a box.
type halfPlane struct {
	ex, ey, k int64
	inv       float64
	box       geom.Box
}

func (h *halfPlane) value(x, y int64) int64 { return h.ex*y - h.ey*x + h.k }

// convexSum is the Minkowski sum of p and the point reflection of q, both
// convex and anti-clockwise: the displacements of q at which it overlaps p.
func convexSum(p, q geom.Ring) geom.Ring {
	neg := make(geom.Ring, len(q))
	for i, v := range q {
		neg[i] = geom.Pt(-v.X, -v.Y)
	}
	low := func(r geom.Ring) int {
		k := 0
		for i, v := range r {
			if v.Y < r[k].Y || (v.Y == r[k].Y && v.X < r[k].X) {
				k = i
			}
		}
		return k
	}
	i0, j0 := low(p), low(neg)
	n, m := len(p), len(neg)
	out := make(geom.Ring, 0, n+m)
	for i, j := 0, 0; i < n || j < m; {
		a, b := p[(i0+i)%n], neg[(j0+j)%m]
		out = append(out, geom.Pt(a.X+b.X, a.Y+b.Y))
		if i == n {
			j++
			continue
		}
		if j == m {
			i++
			continue
		}
		e := p[(i0+i+1)%n].Sub(a)
		f := neg[(j0+j+1)%m].Sub(b)
		switch c := cross(e, f); {
		case c > 0:
			i++
		case c < 0:
			j++
		default:
			i++
			j++
		}
	}
	return out
}

// planesOf returns the half-planes of a convex anti-clockwise ring moved
// outwards by gap; corners are cut by extra half-planes so that the result
// hugs the rounded outline from outside.
func planesOf(r geom.Ring, gap int64) []halfPlane {
	var out []halfPlane
	add := func(e, v, w geom.Point) {
		l2 := float64(float64(e.X)*float64(e.X)) + float64(float64(e.Y)*float64(e.Y))
		l := math.Sqrt(l2)
		h := halfPlane{ex: e.X, ey: e.Y, k: e.Y*v.X - e.X*v.Y, inv: 1 / l, box: geom.Box{Min: geom.Pt(min(v.X, w.X), min(v.Y, w.Y)), Max: geom.Pt(max(v.X, w.X), max(v.Y, w.Y))}}
		if gap > 0 {
			h.k += int64(math.Ceil(l*float64(gap))) + 1
			out := geom.Pt(2*gap+2, 2*gap+2) // corners stick out
			h.box.Min, h.box.Max = h.box.Min.Sub(out), h.box.Max.Add(out)
		}
		out = append(out, h)
	}
	n := len(r)
	for i := range r {
		a, b, c := r[i], r[(i+1)%n], r[(i+2)%n]
		add(b.Sub(a), a, b)
		if gap > 0 {
			bevel(b.Sub(a), c.Sub(b), 3, func(e geom.Point) { add(e, b, b) })
		}
	}
	return out
}

// bevel calls f with directions between e and g, halving the turn.
func bevel(e, g geom.Point, depth int, f func(geom.Point)) {
	if depth == 0 {
		return
	}
	le := math.Sqrt(float64(float64(e.X)*float64(e.X)) + float64(float64(e.Y)*float64(e.Y)))
	lg := math.Sqrt(float64(float64(g.X)*float64(g.X)) + float64(float64(g.Y)*float64(g.Y)))
	ex, ey := float64(e.X)/le, float64(e.Y)/le
	gx, gy := float64(g.X)/lg, float64(g.Y)/lg
	if float64(ex*gx)+float64(ey*gy) > 0.97 {
		return
	}
	const big = 1 << 20
	m := geom.Pt(int64(math.Round((ex+gx)*big)), int64(math.Round((ey+gy)*big)))
	if m.X == 0 && m.Y == 0 {
		m = geom.Pt(-e.Y, e.X)
	}
	bevel(e, m, depth-1, f)
	f(m)
	bevel(m, g, depth-1, f)
}

// newPairTable builds the table of shape b moving about shape a, both
// given as convex parts in coordinates whose box starts at (0, 0).
func newPairTable(a, b *shape, gap int64, cells int) *pairTable {
	return new(tableBuilder).table(a, b, gap, cells)
}

// table builds a table; what the builder needed for the last one it uses again.
func (t *tableBuilder) table(a, b *shape, gap int64, cells int) *pairTable {
	if len(a.parts) == 1 && len(b.parts) == 1 {
		if planes := planesOf(convexSum(a.parts[0], b.parts[0]), gap); len(planes) <= fewPlanes {
			return t.onePart(a, b, gap, planes)
		}
	}
	t.begin(a, b, gap, cells)
	for _, p := range a.parts {
		for _, q := range b.parts {
			t.cover(p, q)
		}
	}
	t.gather()
	t.exactFits()
	for i, in := range t.covered {
		t.source[i] = t.source[i] || !in
	}
	t.distances()
	t.work += int64(len(t.nodes)) * 4
	t.list()
	return t.pairTable
}

// fewPlanes is the number of half-planes up to which they are quicker than a map.
const fewPlanes = 4

// onePart is the table of two shapes without a hollow whose sum has few edges:
// one cell that lists them all.
func (t *tableBuilder) onePart(a, b *shape, gap int64, planes []halfPlane) *pairTable {
	t.begin(a, b, gap, 1)
	t.cells = []tableCell{1 << 16}
	t.edges = make([]tableEdge, 1, len(planes)+1)
	for i := range planes {
		t.edges = append(t.edges, t.edge(&planes[i]))
	}
	t.edges[len(planes)].last = 2
	t.work = 20
	return t.pairTable
}

func (t *pairTable) edge(h *halfPlane) tableEdge {
	return tableEdge{ex: int32(h.ex), ey: int32(h.ey), k: h.value(t.x0, t.y0), inv: float32(h.inv)}
}

// tableBuilder is a pair table in the making. A part is the sum of one convex
// part of each shape; together they cover the displacements that overlap.
type tableBuilder struct {
	*pairTable
	gap, cell int64
	wide      int // nodes in a row
	many      bool
	corners   []geom.Point // where the shapes may fit exactly
	covered   []bool       // by node
	source    []bool       // by node: some place next to it is free
	offsets   []offset     // by node: of the nearest source
	nodes     []uint16     // depth, in cell/256
	solid     []bool       // by cell: some part holds all of it
	exact     []bool       // by cell: an exact fit lies in it
	rows      []cellRow    // of the part at hand
	cuts      []crossed
	cutEdges  []tableEdge
	start     []int32 // by cell: where its cuts begin in byCell
	next      []int32
	byCell    []int32
}

// crossed says that the border of a part passes a cell: its half-planes there are
// those of cutEdges from a place on.
type crossed struct{ cell, from, n int32 }

// begin lays the grid over the displacements at which the boxes of the shapes
// overlap.
func (t *tableBuilder) begin(a, b *shape, gap int64, cells int) {
	p := &pairTable{x0: -b.w - gap - 1, y0: -b.h - gap - 1}
	w, h := a.w+b.w+2*gap+2, a.h+b.h+2*gap+2
	for max(w, h)>>p.shift >= int64(cells) {
		p.shift++
	}
	p.nx, p.ny = int32(w>>p.shift)+1, int32(h>>p.shift)+1
	t.pairTable, t.gap, t.cell, t.wide, t.many = p, gap, 1<<p.shift, int(p.nx)+1, len(a.parts)*len(b.parts) > 1
	n, nodes := int(p.nx)*int(p.ny), t.wide*(int(p.ny)+1)
	p.cells = make([]tableCell, n)
	t.covered, t.source, t.nodes, t.offsets = cleared(t.covered, nodes), cleared(t.source, nodes), cleared(t.nodes, nodes), cleared(t.offsets, nodes)
	t.solid, t.exact, t.start = cleared(t.solid, n), cleared(t.exact, n), cleared(t.start, n+1)
	for len(t.rows) < int(p.ny) {
		t.rows = append(t.rows, cellRow{})
	}
	t.corners, t.cuts, t.cutEdges = t.corners[:0], t.cuts[:0], t.cutEdges[:0]
}

// cleared is a list of n zeros, in the place of an old one if that is long enough.
func cleared[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	s = s[:n]
	clear(s)
	return s
}

// cover adds the sum of two convex parts: it marks the nodes and cells inside
// and notes the cells its border passes. A half-plane counts in the rows of cells
// only that its edge passes: what a convex part leaves of a row is bounded by
// those alone.
func (t *tableBuilder) cover(p, q geom.Ring) {
	s := convexSum(p, q)
	if t.many {
		t.corners = appendGridPoints(t.corners, s, max(t.cell/2, 1))
	}
	planes := planesOf(s, t.gap)
	bx := s.Bounds()
	low, high := planes[0].box.Min.Y, planes[0].box.Max.Y
	for i := range planes {
		low, high = min(low, planes[i].box.Min.Y), max(high, planes[i].box.Max.Y)
	}
	row := func(y int64) int64 { return min(max((y-t.y0)>>t.shift, 0), int64(t.ny)-1) }
	first, last := row(low), row(high)
	cx0, cx1 := max((bx.Min.X-2*t.gap-2-t.x0)>>t.shift, 0), min((bx.Max.X+2*t.gap+2-t.x0)>>t.shift, int64(t.nx)-1)
	nodes := cx1 - cx0 + 2
	rows := t.rows[:last-first+1]
	for k := range rows {
		rows[k] = cellRow{in: span{0, nodes}, all: span{0, nodes - 1}, near: span{0, nodes - 1}, planes: rows[k].planes[:0]}
	}
	x := t.x0 + cx0<<t.shift
	for i := range planes {
		h := &planes[i]
		for k, end := row(h.box.Min.Y-1), row(h.box.Max.Y+1); k <= end; k++ {
			if k >= first && k <= last {
				rows[k-first].cut(h, x, t.y0+k<<t.shift, t.shift)
				rows[k-first].planes = append(rows[k-first].planes, int32(i))
			}
		}
		t.work += h.box.Height()>>t.shift + 1
	}
	for k := range rows {
		t.work += 2
		t.coverRow(&rows[k], planes, first+int64(k), cx0)
	}
}

// coverRow notes how a part lies on one row of cells, and on the nodes below it.
func (t *tableBuilder) coverRow(r *cellRow, planes []halfPlane, iy, cx0 int64) {
	at := iy*int64(t.wide) + cx0
	for i := r.in.from; i < r.in.to; i++ {
		t.covered[at+i] = true
	}
	at = iy*int64(t.nx) + cx0
	y := t.y0 + iy<<t.shift
	for i := r.near.from; i < r.near.to; i++ {
		if i >= r.all.from && i < r.all.to {
			t.solid[at+i] = true
			continue
		}
		if t.solid[at+i] {
			continue
		}
		from := len(t.cutEdges)
		x := t.x0 + (cx0+i)<<t.shift
		for _, k := range r.planes {
			h := &planes[k]
			if t.work++; h.box.Max.X < x-1 || h.box.Min.X > x+t.cell+1 {
				continue // its edge is elsewhere: those that pass the cell say all
			}
			v := h.value(x, y)
			sx, sy := -h.ey<<t.shift, h.ex<<t.shift
			if min(v, v+sx, v+sy, v+sx+sy) <= 0 {
				t.cutEdges = append(t.cutEdges, t.edge(h))
			}
		}
		n := len(t.cutEdges) - from
		if n == 0 {
			continue // the part ends before the cell
		}
		t.cutEdges[from+n-1].last = 1
		t.cuts = append(t.cuts, crossed{int32(at + i), int32(from), int32(n)})
	}
}

// span is a run of nodes or cells in a row, up to but not with the last.
type span struct{ from, to int64 }

// cellRow tells how a convex part lies on a row of cells.
type cellRow struct {
	in     span    // the nodes below the cells that lie in the part
	all    span    // the cells that lie in it
	near   span    // the cells that some half-plane alone does not put outside
	planes []int32 // the half-planes whose edges pass the row
}

// cut takes away what lies outside a half-plane. Its value changes by the same
// step from node to node, and over a cell its extremes are at the corners.
func (r *cellRow) cut(h *halfPlane, x, y int64, shift uint) {
	v, across, up := h.value(x, y), -h.ey<<shift, h.ex<<shift
	r.in.above(v, across)
	r.all.above(v+min(across, 0)+min(up, 0), across)
	r.near.above(v+max(across, 0)+max(up, 0), across)
}

// above keeps the places i of the run where v + i step is above 0.
func (s *span) above(v, step int64) {
	switch {
	case step > 0:
		if v <= 0 {
			s.from = max(s.from, -v/step+1)
		}
	case v <= 0:
		s.to = s.from
	case step < 0:
		s.to = min(s.to, (v-1)/-step+1)
	}
}

// gather sorts the cuts by cell.
func (t *tableBuilder) gather() {
	for _, c := range t.cuts {
		t.start[c.cell+1]++
	}
	for i := range t.cells {
		t.start[i+1] += t.start[i]
	}
	t.byCell = cleared(t.byCell, len(t.cuts))
	t.next = append(t.next[:0], t.start[:len(t.cells)]...)
	for i, c := range t.cuts {
		t.byCell[t.next[c.cell]] = int32(i)
		t.next[c.cell]++
	}
}

// cutBy lists the cuts of a cell.
func (t *tableBuilder) cutBy(cell int) []int32 { return t.byCell[t.start[cell]:t.start[cell+1]] }

// exactFits marks the cells with a corner of a sum that no part covers: a
// place of exact fit. It pulls like any free place although no node lies in
// it, so the node next to it is a source of the distance map.
func (t *tableBuilder) exactFits() {
	if t.gap > 0 {
		return
	}
	nx := int(t.nx)
	for _, v := range t.corners {
		x, y := v.X-t.x0, v.Y-t.y0
		ix, iy := x>>t.shift, y>>t.shift
		at := int(iy)*nx + int(ix)
		if at < 0 || at >= len(t.solid) || t.solid[at] || t.exact[at] || t.covers(x, y, t.cutBy(at)) {
			continue
		}
		t.exact[at] = true
		t.source[int((y+t.cell/2)>>t.shift)*t.wide+int((x+t.cell/2)>>t.shift)] = true
		// The corner may lie on the border between cells.
		if x&(t.cell-1) == 0 && ix > 0 {
			t.exact[at-1] = true
		}
		if y&(t.cell-1) == 0 && iy > 0 {
			t.exact[at-nx] = true
		}
	}
}

// covers reports whether one of the parts that cut a cell holds its point (x, y)
// in its inside.
func (t *tableBuilder) covers(x, y int64, cuts []int32) bool {
	return slices.ContainsFunc(cuts, func(ci int32) bool {
		c := &t.cuts[ci]
		t.work++
		for _, h := range t.cutEdges[c.from : c.from+c.n] {
			if int64(h.ex)*y-int64(h.ey)*x+h.k <= 0 {
				return false
			}
		}
		return true
	})
}

// list writes the cells of the table and the half-planes they refer to.
func (t *tableBuilder) list() {
	nodes, size := t.nodes, 1
	inside := func(at, n int) bool {
		return t.solid[at] || t.start[at] < t.start[at+1] && !t.exact[at] && min(nodes[n], nodes[n+1], nodes[n+t.wide], nodes[n+t.wide+1]) > 320
	}
	for at := range t.cells {
		if n := at/int(t.nx)*t.wide + at%int(t.nx); !inside(at, n) {
			for _, ci := range t.cutBy(at) {
				size += int(t.cuts[ci].n)
			}
		}
	}
	t.edges = make([]tableEdge, 1, size)
	for at := range t.cells {
		n := at/int(t.nx)*t.wide + at%int(t.nx)
		a, b, c, d := nodes[n], nodes[n+1], nodes[n+t.wide], nodes[n+t.wide+1]
		cuts := t.cutBy(at)
		switch {
		case inside(at, n):
			a, b, c, d = max(a, 1), max(b, 1), max(c, 1), max(d, 1)
			t.cells[at] = tableCell(a) | tableCell(b)<<16 | tableCell(c)<<32 | tableCell(d)<<48
		case len(cuts) > 0:
			t.cells[at] = tableCell(len(t.edges)) << 16
			for _, ci := range cuts {
				c := &t.cuts[ci]
				t.edges = append(t.edges, t.cutEdges[c.from:c.from+c.n]...)
			}
			t.edges[len(t.edges)-1].last = 2
		}
	}
}

// appendGridPoints appends the corners of a ring and the whole points on
// its edges, about step apart: where two shapes slide along each other in
// an exact fit, such points are free although everything beside them is
// not.
func appendGridPoints(to []geom.Point, r geom.Ring, step int64) []geom.Point {
	for i, a := range r {
		to = append(to, a)
		e := r[(i+1)%len(r)].Sub(a)
		g := gcd(abs64(e.X), abs64(e.Y))
		if g < 2 {
			continue
		}
		u := geom.Pt(e.X/g, e.Y/g)
		every := max(step/max(abs64(u.X), abs64(u.Y)), 1)
		if g/every > 400 {
			every = g / 400
		}
		for k := every; k < g; k += every {
			to = append(to, geom.Pt(a.X+k*u.X, a.Y+k*u.Y))
		}
	}
	return to
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// offset leads from a node to the nearest source; far is the x of none.
type offset struct{ x, y int32 }

const far = 1 << 14

// distances sets, for every node that is covered, the distance to the
// nearest source, less half a cell, in cell/256 (two sweeps over nearest
// sources, whole numbers only).
func (t *tableBuilder) distances() {
	d, w, h := t.offsets, t.wide, int(t.ny)+1
	for i, s := range t.source {
		if !s {
			d[i] = offset{far, far}
		}
	}
	for y := range h {
		for x := range w {
			i := y*w + x
			if t.source[i] {
				continue
			}
			if y > 0 {
				d[i].try(d[i-w], 0, 1)
				if x > 0 {
					d[i].try(d[i-w-1], 1, 1)
				}
				if x < w-1 {
					d[i].try(d[i-w+1], -1, 1)
				}
			}
			if x > 0 {
				d[i].try(d[i-1], 1, 0)
			}
		}
		for i := y*w + w - 2; i >= y*w; i-- {
			d[i].try(d[i+1], -1, 0)
		}
	}
	for y := h - 1; y >= 0; y-- {
		for x := w - 1; x >= 0; x-- {
			i := y*w + x
			if t.source[i] {
				continue
			}
			if y < h-1 {
				d[i].try(d[i+w], 0, -1)
				if x > 0 {
					d[i].try(d[i+w-1], 1, -1)
				}
				if x < w-1 {
					d[i].try(d[i+w+1], -1, -1)
				}
			}
			if x < w-1 {
				d[i].try(d[i+1], -1, 0)
			}
		}
		for i := y*w + 1; i < y*w+w; i++ {
			d[i].try(d[i-1], 1, 0)
		}
	}
	for i, o := range d {
		if t.covered[i] {
			v := math.Sqrt(float64(o.x*o.x+o.y*o.y)) - 0.5
			t.nodes[i] = uint16(max(min(v*256, 65535), 1))
		}
	}
}

// try takes over the source of a neighbour that lies (x, y) from the node.
func (o *offset) try(n offset, x, y int32) {
	if n.x == far {
		return
	}
	n.x, n.y = n.x+x, n.y+y
	if n.x*n.x+n.y*n.y < o.x*o.x+o.y*o.y {
		*o = n
	}
}
