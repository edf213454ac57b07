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
// interpolation in a distance map.
type pairTable struct {
	x0, y0 int64 // displacement at the corner of cell 0
	shift  uint
	nx, ny int32
	cells  []uint16 // 0 free, 1 solid, otherwise 2 + offset into lists
	nodes  []uint16 // depth at the cell corners, in cell/256
	lists  []uint16 // per border cell: parts, then for each part its count and half-planes
	planes []halfPlane
}

// halfPlane: depth of displacement (x, y) is (ex*y - ey*x + k) * inv.
// The bracket is exact; it is positive strictly inside.
type halfPlane struct {
	ex, ey, k int64
	inv       float64
}

func (h *halfPlane) value(x, y int64) int64 { return h.ex*y - h.ey*x + h.k }

// depth returns 0 if the interiors are disjoint at displacement (x, y) of
// the second shape from the first, and a length above 0 otherwise.
func (t *pairTable) depth(x, y int64) float64 {
	ux, uy := x-t.x0, y-t.y0
	ix, iy := ux>>t.shift, uy>>t.shift
	if uint64(ix) >= uint64(t.nx) || uint64(iy) >= uint64(t.ny) {
		return 0
	}
	c := t.cells[int(iy)*int(t.nx)+int(ix)]
	if c == 0 {
		return 0
	}
	if c == 1 {
		return t.inside(ux, uy, ix, iy)
	}
	return t.border(c, x, y)
}

// border answers for a cell cut by the border of the region of overlap.
func (t *pairTable) border(c uint16, x, y int64) float64 {
	l := t.lists[c-2:]
	n := int(l[0])
	l = l[1:]
	best := 0.0
	for ; n > 0; n-- {
		m := int(l[0])
		d := math.MaxFloat64
		for _, hi := range l[1 : 1+m] {
			h := &t.planes[hi]
			v := h.ex*y - h.ey*x + h.k
			if v <= 0 {
				d = 0
				break
			}
			if f := float64(v) * h.inv; f < d {
				d = f
			}
		}
		if d > best {
			best = d
		}
		l = l[1+m:]
	}
	return best
}

func (t *pairTable) inside(ux, uy, ix, iy int64) float64 {
	cell := int64(1) << t.shift
	fx, fy := ux-ix<<t.shift, uy-iy<<t.shift
	w := int64(t.nx) + 1
	at := iy*w + ix
	a, b := int64(t.nodes[at]), int64(t.nodes[at+1])
	c, d := int64(t.nodes[at+w]), int64(t.nodes[at+w+1])
	// Integers all the way: at most 2^16 * 2^24 * 2^24 fits.
	lo := a*(cell-fx) + b*fx
	hi := c*(cell-fx) + d*fx
	lo, hi = lo>>t.shift, hi>>t.shift
	v := lo*(cell-fy) + hi*fy
	return float64(v) * (1.0 / 256)
}

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
	add := func(e, v geom.Point) {
		l2 := float64(float64(e.X)*float64(e.X)) + float64(float64(e.Y)*float64(e.Y))
		l := math.Sqrt(l2)
		h := halfPlane{e.X, e.Y, e.Y*v.X - e.X*v.Y, 1 / l}
		if gap > 0 {
			h.k += int64(math.Ceil(l*float64(gap))) + 1
		}
		out = append(out, h)
	}
	n := len(r)
	for i := range r {
		a, b, c := r[i], r[(i+1)%n], r[(i+2)%n]
		add(b.Sub(a), a)
		if gap > 0 {
			bevel(b.Sub(a), c.Sub(b), 3, func(e geom.Point) { add(e, b) })
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
	for {
		if t := tryPairTable(a, b, gap, cells); t != nil {
			return t
		}
		cells = max(cells*2/3, 4)
	}
}

// tryPairTable returns nil if the lists outgrow their index.
func tryPairTable(a, b *shape, gap int64, cells int) *pairTable {
	t := newTableBuilder(a, b, gap, cells)
	for _, p := range a.parts {
		for _, q := range b.parts {
			t.cover(p, q)
		}
	}
	t.gather()
	source := t.exactFits()
	for i, in := range t.covered {
		if !in {
			source[i] = true
		}
	}
	t.nodes = distances(source, t.covered, t.wide, int(t.ny)+1)
	if !t.list(cells > 4) {
		return nil
	}
	return t.pairTable
}

// tableBuilder is a pair table in the making. A part is the sum of one convex
// part of each shape; together they cover the displacements that overlap.
type tableBuilder struct {
	*pairTable
	gap, cell int64
	wide      int // nodes in a row
	parts     [][]halfPlane
	corners   []geom.Point // where the shapes may fit exactly
	covered   []bool       // by node
	solid     []bool       // by cell: some part holds all of it
	exact     []bool       // by cell: an exact fit lies in it
	cuts      []crossed
	start     []int32 // by cell: where its parts begin in byCell
	byCell    []int32
}

// crossed says that the border of a part passes a cell.
type crossed struct{ cell, part int32 }

// newTableBuilder lays the grid over the displacements at which the boxes of
// the shapes overlap.
func newTableBuilder(a, b *shape, gap int64, cells int) *tableBuilder {
	t := &pairTable{x0: -b.w - gap - 1, y0: -b.h - gap - 1}
	w, h := a.w+b.w+2*gap+2, a.h+b.h+2*gap+2
	for max(w, h)>>t.shift >= int64(cells) {
		t.shift++
	}
	t.nx, t.ny = int32(w>>t.shift)+1, int32(h>>t.shift)+1
	n := int(t.nx) * int(t.ny)
	t.cells = make([]uint16, n)
	wide := int(t.nx) + 1
	return &tableBuilder{pairTable: t, gap: gap, cell: 1 << t.shift, wide: wide,
		covered: make([]bool, wide*(int(t.ny)+1)), solid: make([]bool, n), exact: make([]bool, n)}
}

// cover adds the sum of two convex parts: it marks the nodes and cells inside
// and notes the cells its border passes.
func (t *tableBuilder) cover(p, q geom.Ring) {
	s := convexSum(p, q)
	t.corners = appendGridPoints(t.corners, s, max(t.cell/2, 1))
	part := int32(len(t.parts))
	t.parts = append(t.parts, planesOf(s, t.gap))
	bx := s.Bounds()
	cx0, cx1 := max((bx.Min.X-t.gap-t.x0)>>t.shift-1, 0), min((bx.Max.X+t.gap-t.x0)>>t.shift, int64(t.nx)-1)
	cy0, cy1 := max((bx.Min.Y-t.gap-t.y0)>>t.shift-1, 0), min((bx.Max.Y+t.gap-t.y0)>>t.shift, int64(t.ny)-1)
	nodes := cx1 - cx0 + 2
	for iy := cy0; iy <= cy1+1; iy++ {
		row := cellRow{in: span{0, nodes}, all: span{0, nodes - 1}, near: span{0, nodes - 1}}
		for k := range t.parts[part] {
			row.cut(&t.parts[part][k], t.x0+cx0<<t.shift, t.y0+iy<<t.shift, t.shift)
		}
		if iy <= int64(t.ny) {
			at := iy*int64(t.wide) + cx0
			for i := row.in.from; i < row.in.to; i++ {
				t.covered[at+i] = true
			}
		}
		if iy > cy1 {
			break
		}
		at := iy*int64(t.nx) + cx0
		for i := row.near.from; i < row.near.to; i++ {
			if i >= row.all.from && i < row.all.to {
				t.solid[at+i] = true
			} else {
				t.cuts = append(t.cuts, crossed{int32(at + i), part})
			}
		}
	}
}

// span is a run of nodes or cells in a row, up to but not with the last.
type span struct{ from, to int64 }

// cellRow tells how a convex part lies on a row of cells.
type cellRow struct {
	in   span // the nodes below the cells that lie in the part
	all  span // the cells that lie in it
	near span // the cells that some half-plane alone does not put outside
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
	t.start = make([]int32, len(t.cells)+1)
	for _, c := range t.cuts {
		t.start[c.cell+1]++
	}
	for i := range t.cells {
		t.start[i+1] += t.start[i]
	}
	t.byCell = make([]int32, len(t.cuts))
	at := slices.Clone(t.start)
	for _, c := range t.cuts {
		t.byCell[at[c.cell]] = c.part
		at[c.cell]++
	}
}

// cutBy lists the parts whose border passes a cell.
func (t *tableBuilder) cutBy(cell int) []int32 { return t.byCell[t.start[cell]:t.start[cell+1]] }

// exactFits marks the cells with a corner of a sum that no part covers: a
// place of exact fit. It pulls like any free place although no node lies in
// it, so the node next to it is a source of the distance map.
func (t *tableBuilder) exactFits() (source []bool) {
	source = make([]bool, len(t.covered))
	if t.gap > 0 {
		return source
	}
	nx := int(t.nx)
	for _, v := range t.corners {
		x, y := v.X-t.x0, v.Y-t.y0
		ix, iy := x>>t.shift, y>>t.shift
		at := int(iy)*nx + int(ix)
		if at < 0 || at >= len(t.solid) || t.solid[at] || t.exact[at] || t.covers(v, t.cutBy(at)) {
			continue
		}
		t.exact[at] = true
		source[int((y+t.cell/2)>>t.shift)*t.wide+int((x+t.cell/2)>>t.shift)] = true
		// The corner may lie on the border between cells.
		if x&(t.cell-1) == 0 && ix > 0 {
			t.exact[at-1] = true
		}
		if y&(t.cell-1) == 0 && iy > 0 {
			t.exact[at-nx] = true
		}
	}
	return source
}

// covers reports whether one of the parts holds v in its inside.
func (t *tableBuilder) covers(v geom.Point, parts []int32) bool {
	return slices.ContainsFunc(parts, func(pi int32) bool {
		for k := range t.parts[pi] {
			if t.parts[pi][k].value(v.X, v.Y) <= 0 {
				return false
			}
		}
		return true
	})
}

// list writes the cells of the table and what they refer to. When that
// outgrows the index it gives up, if there can be fewer cells, or answers the
// other cells by the distance map alone.
func (t *tableBuilder) list(fewer bool) bool {
	planeAt := make(map[[2]int32]uint16)
	full := false
	for at := range t.cells {
		if t.solid[at] {
			t.cells[at] = 1
			continue
		}
		parts := t.cutBy(at)
		if len(parts) == 0 {
			continue
		}
		ix, iy := at%int(t.nx), at/int(t.nx)
		n := iy*t.wide + ix
		if !t.exact[at] && min(t.nodes[n], t.nodes[n+1], t.nodes[n+t.wide], t.nodes[n+t.wide+1]) > 320 {
			t.cells[at] = 1
			continue
		}
		if (full || len(t.lists) > 60000 || len(t.planes) > 60000) && fewer {
			return false
		}
		if full {
			t.close(at, n)
			continue
		}
		head := len(t.lists)
		t.cells[at] = uint16(head) + 2
		t.lists = append(t.lists, uint16(len(parts)))
		x, y := t.x0+int64(ix)<<t.shift, t.y0+int64(iy)<<t.shift
		for _, pi := range parts {
			t.listPart(pi, x, y, planeAt)
		}
		if len(t.lists) > math.MaxUint16-2 || len(t.planes) > math.MaxUint16 {
			full, t.lists = true, t.lists[:head]
			t.close(at, n)
		}
	}
	return !full || !fewer
}

// close calls all of a cell overlap; its first node is n.
func (t *tableBuilder) close(cell, n int) {
	t.cells[cell] = 1
	for _, k := range [4]int{n, n + 1, n + t.wide, n + t.wide + 1} {
		t.nodes[k] = max(t.nodes[k], 1)
	}
}

// listPart lists the half-planes of a part that cut the cell at (x, y).
func (t *tableBuilder) listPart(pi int32, x, y int64, planeAt map[[2]int32]uint16) {
	head := len(t.lists)
	t.lists = append(t.lists, 0)
	for k := range t.parts[pi] {
		h := &t.parts[pi][k]
		v := h.value(x, y)
		sx, sy := -h.ey<<t.shift, h.ex<<t.shift
		if min(v, v+sx, v+sy, v+sx+sy) > 0 {
			continue
		}
		key := [2]int32{pi, int32(k)}
		id, seen := planeAt[key]
		if !seen {
			id = uint16(len(t.planes))
			t.planes = append(t.planes, *h)
			planeAt[key] = id
		}
		t.lists = append(t.lists, id)
		t.lists[head]++
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

// distances returns, for every node that is inside, the distance to the
// nearest source, less half a cell, in cell/256 (two sweeps over nearest
// sources, whole numbers only).
func distances(source, inside []bool, w, h int) []uint16 {
	const far = 1 << 14
	type off struct{ x, y int32 }
	d := make([]off, w*h)
	for i := range d {
		if !source[i] {
			d[i] = off{far, far}
		}
	}
	try := func(i, j int, dx, dy int32) {
		o := d[j]
		if o.x == far {
			return
		}
		o.x, o.y = o.x+dx, o.y+dy
		c := d[i]
		if o.x*o.x+o.y*o.y < c.x*c.x+c.y*c.y {
			d[i] = o
		}
	}
	for y := range h {
		for x := range w {
			i := y*w + x
			if y > 0 {
				try(i, i-w, 0, 1)
				if x > 0 {
					try(i, i-w-1, 1, 1)
				}
				if x < w-1 {
					try(i, i-w+1, -1, 1)
				}
			}
			if x > 0 {
				try(i, i-1, 1, 0)
			}
		}
		for x := w - 2; x >= 0; x-- {
			try(y*w+x, y*w+x+1, -1, 0)
		}
	}
	for y := h - 1; y >= 0; y-- {
		for x := w - 1; x >= 0; x-- {
			i := y*w + x
			if y < h-1 {
				try(i, i+w, 0, -1)
				if x > 0 {
					try(i, i+w-1, 1, -1)
				}
				if x < w-1 {
					try(i, i+w+1, -1, -1)
				}
			}
			if x < w-1 {
				try(i, i+1, -1, 0)
			}
		}
		for x := 1; x < w; x++ {
			try(y*w+x, y*w+x-1, 1, 0)
		}
	}
	out := make([]uint16, w*h)
	for i, o := range d {
		if !inside[i] {
			continue
		}
		v := math.Sqrt(float64(o.x*o.x+o.y*o.y)) - 0.5
		out[i] = uint16(min(v*256, 65535))
		if out[i] == 0 {
			out[i] = 1
		}
	}
	return out
}
