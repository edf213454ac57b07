package nest

import (
	"cmp"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// field is a map of signed distances on square cells: above 0 inside the
// region, below 0 outside, 0 on its border. Between nodes it is bilinear,
// which is exact along straight borders.
type field struct {
	x0, y0, cell, inv float64
	w, h              int // nodes
	v                 []float32
}

// newField maps the region whose border edges are given. inside says for
// each node whether it lies in the region (row by row).
func newField(b geom.Box, margin float64, nodes int, edges [][2]geom.Point, inside func(f *field) []bool) *field {
	spanX, spanY := float64(b.Max.X-b.Min.X)+2*margin, float64(b.Max.Y-b.Min.Y)+2*margin
	f := &field{x0: float64(b.Min.X) - margin, y0: float64(b.Min.Y) - margin}
	f.cell = max(spanX, spanY) / float64(nodes-1)
	f.inv = 1 / f.cell
	f.w, f.h = int(math.Ceil(spanX/f.cell))+1, int(math.Ceil(spanY/f.cell))+1
	dist := nearest(f, edges)
	in := inside(f)
	f.v = make([]float32, len(dist))
	for i, d := range dist {
		d = math.Sqrt(d)
		if !in[i] {
			d = -d
		}
		f.v[i] = float32(d)
	}
	return f
}

// nearestEdges finds, for the nodes of a field, the squared distance to the
// nearest edge.
type nearestEdges struct {
	*field
	edges   []straight
	near    []int32 // by node, -1 unknown
	dist    []float64
	sweep   uint8
	changed []uint8 // by node: the last sweep that changed it
}

// nearest sets the nodes about every edge and lets the others take over the
// edge of a neighbour, in two rounds of two sweeps.
func nearest(f *field, edges [][2]geom.Point) []float64 {
	nodes := f.w * f.h
	n := &nearestEdges{field: f, edges: make([]straight, len(edges)), near: make([]int32, nodes), dist: make([]float64, nodes), changed: make([]uint8, nodes)}
	for i := range n.near {
		n.near[i], n.dist[i] = -1, math.MaxFloat64
	}
	for e := range edges {
		n.edges[e] = straightOf(edges[e])
		n.seed(int32(e))
	}
	for range 2 {
		n.sweep++
		n.sweepUp()
		n.sweep++
		n.sweepDown()
	}
	return n.dist
}

// try offers node i, at (x, y), an edge.
func (n *nearestEdges) try(i, x, y int, e int32) {
	if e < 0 || n.near[i] == e {
		return
	}
	d := n.edges[e].dist2(n.x0+float64(float64(x)*n.cell), n.y0+float64(float64(y)*n.cell))
	if d < n.dist[i] {
		n.dist[i], n.near[i], n.changed[i] = d, e, n.sweep
	}
}

// ask offers node i, at (x, y), the edges of the neighbours j, in their order.
// What a neighbour had when the node was last asked, two sweeps ago, it has
// refused or bettered.
func (n *nearestEdges) ask(i, x, y int, js ...int) {
	asked := int32(-1)
	for _, j := range js {
		if n.sweep > 2 && n.changed[j] < n.sweep-1 {
			continue
		}
		if e := n.near[j]; e != asked {
			n.try(i, x, y, e)
			asked = e
		}
	}
}

// seed offers an edge to the nodes about it.
func (n *nearestEdges) seed(e int32) {
	l := n.edges[e]
	steps := int(max(math.Abs(l.dx), math.Abs(l.dy))*n.inv) + 1
	for k := 0; k <= steps; k++ {
		t := float64(k) / float64(steps)
		px, py := l.x+float64(t*l.dx), l.y+float64(t*l.dy)
		ix, iy := int((px-n.x0)*n.inv), int((py-n.y0)*n.inv)
		for y := max(iy-1, 0); y <= min(iy+2, n.h-1); y++ {
			for x := max(ix-1, 0); x <= min(ix+2, n.w-1); x++ {
				n.try(y*n.w+x, x, y, e)
			}
		}
	}
}

func (n *nearestEdges) sweepUp() {
	for y := range n.h {
		for x := range n.w {
			i := y*n.w + x
			left, right := x > 0, x < n.w-1
			switch {
			case y == 0 && left:
				n.ask(i, x, y, i-1)
			case y == 0:
			case left && right:
				n.ask(i, x, y, i-1, i-n.w, i-n.w-1, i-n.w+1)
			case left:
				n.ask(i, x, y, i-1, i-n.w, i-n.w-1)
			default:
				n.ask(i, x, y, i-n.w, i-n.w+1)
			}
		}
	}
}

func (n *nearestEdges) sweepDown() {
	for y := n.h - 1; y >= 0; y-- {
		for x := n.w - 1; x >= 0; x-- {
			i := y*n.w + x
			left, right := x > 0, x < n.w-1
			switch {
			case y == n.h-1 && right:
				n.ask(i, x, y, i+1)
			case y == n.h-1:
			case left && right:
				n.ask(i, x, y, i+1, i+n.w, i+n.w-1, i+n.w+1)
			case right:
				n.ask(i, x, y, i+1, i+n.w, i+n.w+1)
			default:
				n.ask(i, x, y, i+n.w, i+n.w-1)
			}
		}
	}
}

// straight is an edge made ready for measuring: where it starts, how it runs and
// the square of its length.
type straight struct{ x, y, dx, dy, l2 float64 }

func straightOf(e [2]geom.Point) straight {
	x, y := float64(e[0].X), float64(e[0].Y)
	dx, dy := float64(e[1].X)-x, float64(e[1].Y)-y
	return straight{x, y, dx, dy, float64(dx*dx) + float64(dy*dy)}
}

// dist2 is the squared distance of a place from the edge.
func (l *straight) dist2(x, y float64) float64 {
	px, py := x-l.x, y-l.y
	t := 0.0
	if l.l2 > 0 {
		t = min(max((float64(px*l.dx)+float64(py*l.dy))/l.l2, 0), 1)
	}
	qx, qy := px-float64(t*l.dx), py-float64(t*l.dy)
	return float64(qx*qx) + float64(qy*qy)
}

// filled marks the nodes inside the rings (even-odd), row by row.
func (f *field) filled(rings ...geom.Ring) []bool {
	in := make([]bool, f.w*f.h)
	for y := range f.h {
		py := f.y0 + float64(float64(y)*f.cell)
		for _, r := range rings {
			var xs []float64
			for i, a := range r {
				b := r[(i+1)%len(r)]
				ay, by := float64(a.Y), float64(b.Y)
				if (ay <= py) == (by <= py) {
					continue
				}
				ax, bx := float64(a.X), float64(b.X)
				xs = append(xs, ax+float64((bx-ax)*((py-ay)/(by-ay))))
			}
			slices.Sort(xs)
			for k := 0; k+1 < len(xs); k += 2 {
				a := max(int(math.Ceil((xs[k]-f.x0)*f.inv)), 0)
				b := min(int(math.Floor((xs[k+1]-f.x0)*f.inv)), f.w-1)
				for x := a; x <= b; x++ {
					in[y*f.w+x] = true
				}
			}
		}
	}
	return in
}

// at returns the signed distance. Outside the map it is the distance to
// the place of the region that is nearest to the edge of the map.
func (f *field) at(x, y float64) float64 { return f.look(x, y, false) }

// look is the signed distance; with safe it is, outside the map, never
// farther than the truth: the map is convex and holds the region.
func (f *field) look(x, y float64, safe bool) float64 {
	gx, gy := float64((x-f.x0)*f.inv), float64((y-f.y0)*f.inv)
	var ox, oy float64
	if gx < 0 {
		ox, gx = gx, 0
	} else if m := float64(f.w - 1); gx > m {
		ox, gx = gx-m, m
	}
	if gy < 0 {
		oy, gy = gy, 0
	} else if m := float64(f.h - 1); gy > m {
		oy, gy = gy-m, m
	}
	ix, iy := min(int(gx), f.w-2), min(int(gy), f.h-2)
	fx, fy := gx-float64(ix), gy-float64(iy)
	k := iy*f.w + ix
	p, q := f.v[k:k+2:k+2], f.v[k+f.w:k+f.w+2:k+f.w+2]
	a, b := float64(p[0]), float64(p[1])
	c, d := float64(q[0]), float64(q[1])
	lo := a + float64(fx*(b-a))
	hi := c + float64(fx*(d-c))
	v := lo + float64(fy*(hi-lo))
	if ox == 0 && oy == 0 {
		return v
	}
	ox, oy = float64(ox*f.cell), float64(oy*f.cell)
	if safe {
		return -math.Sqrt(float64(v*v) + float64(ox*ox) + float64(oy*oy))
	}
	// The slope points to the nearest place, at distance -v from the edge.
	sx := (b - a) + float64(fy*((d-c)-(b-a)))
	sy := (c - a) + float64(fx*((d-b)-(c-a)))
	if l := geom.Hypot(sx, sy); l > 0 {
		ox += float64(v * (sx / l))
		oy += float64(v * (sy / l))
	}
	return -geom.Hypot(ox, oy)
}

func ringEdges(rings ...geom.Ring) [][2]geom.Point {
	var e [][2]geom.Point
	for _, r := range rings {
		for i := range r {
			e = append(e, [2]geom.Point{r[i], r[(i+1)%len(r)]})
		}
	}
	return e
}

// disc is a sample of a shape: a circle inscribed in it, or with radius 0
// a point of its border.
type disc struct{ x, y, r float64 }

// samples covers the region of a field by inscribed circles, each centred
// outside those before, and by points of the border.
func samples(f *field, r geom.Ring, circles, points int, tol float64) []disc {
	least := float32(f.cell * 0.75)
	var deep []int32
	for i, v := range f.v {
		if v > least {
			deep = append(deep, int32(i))
		}
	}
	slices.SortFunc(deep, func(a, b int32) int {
		if c := cmp.Compare(f.v[b], f.v[a]); c != 0 {
			return c
		}
		return cmp.Compare(a, b)
	})
	var out []disc
	for _, i := range deep {
		if len(out) == circles {
			break
		}
		x, y := f.x0+float64(float64(int(i)%f.w)*f.cell), f.y0+float64(float64(int(i)/f.w)*f.cell)
		free := true
		for _, c := range out {
			dx, dy := x-c.x, y-c.y
			if float64(dx*dx)+float64(dy*dy) < float64(c.r*c.r) {
				free = false
				break
			}
		}
		if free {
			out = append(out, disc{x, y, float64(f.v[i])})
		}
	}
	return append(out, borderPoints(r, points, tol)...)
}

// borderPoints are the corners of a ring that stand out from a coarser
// outline by more than tol, and points evenly spread between them.
func borderPoints(r geom.Ring, points int, tol float64) []disc {
	step := r.Perimeter() / float64(points)
	keep := coarse(r, tol)
	var out []disc
	for k, i := range keep {
		a, b := r[i], r[keep[(k+1)%len(keep)]]
		out = append(out, disc{float64(a.X), float64(a.Y), 0})
		l := geom.Distance(a, b)
		n := int(l/step + 0.5)
		for q := 1; q < n; q++ {
			t := float64(q) / float64(n)
			out = append(out, disc{float64(a.X) + float64(t*float64(b.X-a.X)), float64(a.Y) + float64(t*float64(b.Y-a.Y)), 0})
		}
	}
	return out
}

// coarse lists the corners of an outline that no corner left out is
// farther from than tol (Douglas and Peucker).
func coarse(r geom.Ring, tol float64) []int {
	far := 0 // from corner 0: the two ends of the first cut
	for i, p := range r {
		if geom.Distance(p, r[0]) > geom.Distance(r[far], r[0]) {
			far = i
		}
	}
	out := []int{}
	var cut func(a, b int)
	cut = func(a, b int) {
		at, worst := -1, float64(tol*tol)
		e := straightOf([2]geom.Point{r[a], r[b%len(r)]})
		for i := a + 1; i < b; i++ {
			if d := e.dist2(float64(r[i].X), float64(r[i].Y)); d > worst {
				at, worst = i, d
			}
		}
		if at < 0 {
			out = append(out, a)
			return
		}
		cut(a, at)
		cut(at, b)
	}
	cut(0, far)
	cut(far, len(r))
	return out
}
