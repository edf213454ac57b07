package nest

import (
	"math"

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
	t := &pairTable{x0: -b.w - gap - 1, y0: -b.h - gap - 1}
	w, h := a.w+b.w+2*gap+2, a.h+b.h+2*gap+2
	for max(w, h)>>t.shift >= int64(cells) {
		t.shift++
	}
	t.nx, t.ny = int32(w>>t.shift)+1, int32(h>>t.shift)+1
	nx, ny := int(t.nx), int(t.ny)
	nw := nx + 1
	cell := int64(1) << t.shift
	inside := make([]bool, nw*(ny+1))
	solid := make([]bool, nx*ny)
	type touch struct{ cell, part int32 }
	var touches []touch
	var parts [][]halfPlane
	var corners []geom.Point
	vals := make([][]int64, 0, 16)
	for _, p := range a.parts {
		for _, q := range b.parts {
			s := convexSum(p, q)
			corners = appendGridPoints(corners, s, max(int64(1)<<t.shift/2, 1))
			pl := planesOf(s, gap)
			bx := s.Bounds()
			cx0, cx1 := (bx.Min.X-gap-t.x0)>>t.shift, (bx.Max.X+gap-t.x0)>>t.shift
			cy0, cy1 := (bx.Min.Y-gap-t.y0)>>t.shift, (bx.Max.Y+gap-t.y0)>>t.shift
			cx0, cy0 = max(cx0-1, 0), max(cy0-1, 0)
			cx1, cy1 = min(cx1, int64(nx-1)), min(cy1, int64(ny-1))
			cw := int(cx1-cx0) + 2
			part := int32(len(parts))
			parts = append(parts, pl)
			// For each row of cells keep, per half-plane, its value at the
			// lower row of corners; the extremes over a cell are at corners.
			vals = vals[:0]
			for range pl {
				vals = append(vals, make([]int64, cw))
			}
			fill := func(row []int64, k int, y int64) {
				v := pl[k].value(t.x0+cx0<<t.shift, y)
				step := -pl[k].ey << t.shift
				for i := range row {
					row[i] = v
					v += step
				}
			}
			for k := range pl {
				fill(vals[k], k, t.y0+cy0<<t.shift)
			}
			up := make([]int64, cw)
			all := make([]bool, cw-1)
			out := make([]bool, cw-1)
			nodeIn := make([]bool, cw)
			for iy := cy0; iy <= cy1+1; iy++ {
				for i := range all {
					all[i], out[i] = true, false
				}
				for i := range nodeIn {
					nodeIn[i] = true
				}
				y := t.y0 + (iy+1)<<t.shift
				for k := range pl {
					row := vals[k]
					for i, v := range row {
						if v <= 0 {
							nodeIn[i] = false
						}
					}
					fill(up, k, y)
					for i := range all {
						lo := min(row[i], row[i+1], up[i], up[i+1])
						if lo <= 0 {
							all[i] = false
							if max(row[i], row[i+1], up[i], up[i+1]) <= 0 {
								out[i] = true
							}
						}
					}
					copy(row, up)
				}
				if iy <= int64(ny) {
					for i, in := range nodeIn {
						if in {
							inside[int(iy)*nw+int(cx0)+i] = true
						}
					}
				}
				if iy > cy1 {
					break
				}
				for i := range all {
					at := int(iy)*nx + int(cx0) + i
					if int(cx0)+i >= nx {
						continue
					}
					if all[i] {
						solid[at] = true
					} else if !out[i] {
						touches = append(touches, touch{int32(at), part})
					}
				}
			}
		}
	}
	// Border cells: gather the parts that cut them.
	t.cells = make([]uint16, nx*ny)
	count := make([]int32, nx*ny)
	for _, c := range touches {
		count[c.cell]++
	}
	start := make([]int32, nx*ny+1)
	for i := range count {
		start[i+1] = start[i] + count[i]
	}
	byCell := make([]int32, len(touches))
	fillAt := append([]int32(nil), start[:nx*ny]...)
	for _, c := range touches {
		byCell[fillAt[c.cell]] = c.part
		fillAt[c.cell]++
	}
	covered := func(x, y int64, list []int32) bool {
		for _, pi := range list {
			in := true
			for k := range parts[pi] {
				if parts[pi][k].value(x, y) <= 0 {
					in = false
					break
				}
			}
			if in {
				return true
			}
		}
		return false
	}
	// Corners of the sum that no part covers are places of exact fit: they
	// pull like any free place although no node lies in them.
	exact := make([]bool, nx*ny)
	source := make([]bool, nw*(ny+1))
	if gap == 0 {
		for _, v := range corners {
			ix, iy := (v.X-t.x0)>>t.shift, (v.Y-t.y0)>>t.shift
			at := int(iy)*nx + int(ix)
			if at < 0 || at >= len(solid) || solid[at] || exact[at] {
				continue
			}
			if covered(v.X, v.Y, byCell[start[at]:start[at+1]]) {
				continue
			}
			exact[at] = true
			rx, ry := (v.X-t.x0+cell/2)>>t.shift, (v.Y-t.y0+cell/2)>>t.shift
			source[int(ry)*nw+int(rx)] = true
			// The corner may lie on the border between cells.
			if (v.X-t.x0)&(cell-1) == 0 && ix > 0 {
				exact[at-1] = true
			}
			if (v.Y-t.y0)&(cell-1) == 0 && iy > 0 {
				exact[at-nx] = true
			}
		}
	}
	for i, in := range inside {
		if !in {
			source[i] = true
		}
	}
	t.nodes = distances(source, inside, nw, ny+1)
	planeAt := make(map[[2]int32]uint16)
	for at := range t.cells {
		if solid[at] {
			t.cells[at] = 1
			continue
		}
		if count[at] == 0 {
			continue
		}
		ix, iy := at%nx, at/nx
		n := iy*nw + ix
		if !exact[at] && min(t.nodes[n], t.nodes[n+1], t.nodes[n+nw], t.nodes[n+nw+1]) > 320 {
			t.cells[at] = 1
			continue
		}
		if (len(t.lists) > 60000 || len(t.planes) > 60000) && cells > 4 {
			return nil
		}
		t.cells[at] = uint16(len(t.lists)) + 2
		head := len(t.lists)
		t.lists = append(t.lists, 0)
		x, y := t.x0+int64(ix)<<t.shift, t.y0+int64(iy)<<t.shift
		for _, pi := range byCell[start[at]:start[at+1]] {
			t.lists[head]++
			nAt := len(t.lists)
			t.lists = append(t.lists, 0)
			for k := range parts[pi] {
				h := &parts[pi][k]
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
				t.lists[nAt]++
			}
		}
	}
	return t
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
