package nest

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// least is a number of hides no layout can stay under, and why: by area,
// by the area fit for the demanding pieces, or by pieces so large that a
// hide takes only so many of them.
func (r *hideRun) least() (int, string) {
	best, why := 1, "one hide at least"
	raise := func(n int, s string) {
		if n > best {
			best, why = n, s
		}
	}
	count := func(need float64, have []float64) int {
		slices.Sort(have)
		slices.Reverse(have)
		sum := 0.0
		for n, a := range have {
			sum += a
			if sum >= need {
				return n + 1
			}
		}
		return len(have) + 1 // more than there are
	}
	var need float64
	var net []float64
	for _, i := range r.items {
		need += float64(r.bodies[i].area2)
	}
	for _, g := range r.grounds {
		net = append(net, float64(g.net2))
	}
	raise(count(need, net), "area of the pieces against net area of the largest hides")
	// A class and every stricter one must fit into what its zones leave.
	for c := range r.grounds[0].kinds {
		var need float64
		for _, i := range r.items {
			if r.stricter(r.bodies[i].class, c) {
				need += float64(r.bodies[i].area2)
			}
		}
		var have []float64
		for _, g := range r.grounds {
			have = append(have, g.openArea2(c))
		}
		raise(count(need, have), "area fit for demanding pieces")
	}
	// Pieces whose inscribed circles need so much room that any two of
	// them cannot share a hide narrower than both.
	var radii []float64
	for _, i := range r.items {
		radii = append(radii, r.bodies[i].inner-r.bodies[i].f.cell)
	}
	slices.Sort(radii)
	slices.Reverse(radii)
	for k := range radii {
		rad := radii[k]
		if rad <= 0 {
			break
		}
		// Every one of the k+1 largest holds a circle of radius rad.
		var caps []float64
		for _, g := range r.grounds {
			caps = append(caps, g.circles(rad))
		}
		raise(count(float64(k+1), caps), fmt.Sprintf("%d large pieces, few of which fit on one hide", k+1))
	}
	return best, why
}

// stricter: class a refuses every zone that class b refuses, on any hide.
func (r *hideRun) stricter(a, b int) bool {
	takes := r.grounds[0].kinds
	return takes[a].within(takes[b])
}

// openArea2 is twice an upper bound of the area a class may use: the net
// area less the largest of its forbidden zones that lies wholly inside
// (zones may overlap each other and the holes, so only disjoint ones are
// added up).
func (g *ground) openArea2(class int) float64 {
	open := float64(g.net2)
	var taken []geom.Ring
	zones := slices.Clone(g.zones)
	slices.SortStableFunc(zones, func(a, b Zone) int { return cmp.Compare(twiceArea(b.Ring), twiceArea(a.Ring)) })
	for _, z := range zones {
		if g.kinds[class].Has(z.Kind) || meets(z.Ring, g.outer) || g.outer.Locate(z.Ring[0]) != geom.Inside {
			continue
		}
		clash := false
		for _, o := range append(slices.Clone(g.holes), taken...) {
			if touches(z.Ring, o, 0) {
				clash = true
				break
			}
		}
		if !clash {
			open -= float64(twiceArea(z.Ring))
			taken = append(taken, z.Ring)
		}
	}
	return open
}

// circles is an upper bound for the number of disjoint circles of one
// radius inside the box of the ground. Their centres lie in the box shrunk
// by the radius and keep a distance d of one diameter; a convex region of
// area A and perimeter P holds at most 2A/(sqrt(3) d^2) + P/(2d) + 1 such
// points (N. Oler, An inequality in the geometry of numbers, Acta
// Mathematica 105, 1961; cited from memory).
func (g *ground) circles(rad float64) float64 {
	a, b := float64(g.box.Max.X-g.box.Min.X)-2*rad, float64(g.box.Max.Y-g.box.Min.Y)-2*rad
	if a < 0 || b < 0 {
		return 0
	}
	d := 2 * rad
	return math.Floor(2*a*b/(math.Sqrt(3)*d*d) + (a+b)/d + 1 + 1e-9)
}

// freeRectangle is the largest rectangle on a grid of cells that holds no
// piece and nothing blocked for the strictest use.
func freeRectangle(g *ground, rings []geom.Ring, cells int) (Offcut, bool) {
	w, h := g.box.Max.X-g.box.Min.X, g.box.Max.Y-g.box.Min.Y
	cell := max(max(w, h)/int64(cells), 1)
	nx, ny := int(w/cell), int(h/cell)
	if nx == 0 || ny == 0 {
		return Offcut{}, false
	}
	free := make([]bool, nx*ny)
	for y := range ny {
		for x := range nx {
			free[y*nx+x] = g.outer.Locate(geom.Pt(g.box.Min.X+int64(x)*cell+cell/2, g.box.Min.Y+int64(y)*cell+cell/2)) == geom.Inside
		}
	}
	strike := func(r geom.Ring, fill bool) {
		b := r.Bounds()
		x0, x1 := int((b.Min.X-g.box.Min.X)/cell)-1, int((b.Max.X-g.box.Min.X)/cell)+1
		y0, y1 := int((b.Min.Y-g.box.Min.Y)/cell)-1, int((b.Max.Y-g.box.Min.Y)/cell)+1
		for y := max(y0, 0); y <= min(y1, ny-1); y++ {
			for x := max(x0, 0); x <= min(x1, nx-1); x++ {
				if !free[y*nx+x] {
					continue
				}
				c := geom.Pt(g.box.Min.X+int64(x)*cell, g.box.Min.Y+int64(y)*cell)
				sq := geom.Box{Min: c, Max: geom.Pt(c.X+cell, c.Y+cell)}.Ring()
				if meets(sq, r) || (fill && r.Locate(geom.Pt(c.X+cell/2, c.Y+cell/2)) == geom.Inside) {
					free[y*nx+x] = false
				}
			}
		}
	}
	strike(g.outer, false)
	for _, r := range g.holes {
		strike(r, true)
	}
	for _, z := range g.zones {
		strike(z.Ring, true)
	}
	for _, r := range rings {
		strike(r, true)
	}
	high := make([]int, nx+1)
	var best Offcut
	bestArea := 0
	for y := range ny {
		for x := range nx {
			if free[y*nx+x] {
				high[x]++
			} else {
				high[x] = 0
			}
		}
		var stack []int
		for x := 0; x <= nx; x++ {
			for len(stack) > 0 && high[stack[len(stack)-1]] >= high[x] {
				top := stack[len(stack)-1]
				stack = stack[:len(stack)-1]
				left := 0
				if len(stack) > 0 {
					left = stack[len(stack)-1] + 1
				}
				if a := high[top] * (x - left); a > bestArea {
					bestArea = a
					best.Min = geom.Pt(g.box.Min.X+int64(left)*cell, g.box.Min.Y+int64(y-high[top]+1)*cell)
					best.Max = geom.Pt(g.box.Min.X+int64(x)*cell, g.box.Min.Y+int64(y+1)*cell)
				}
			}
			stack = append(stack, x)
		}
	}
	if bestArea == 0 {
		return best, false
	}
	g.widen(&best, rings, cell)
	return best, true
}

// widen moves the sides of a free rectangle outwards, by up to a cell each,
// as far as whole-number tests allow.
func (g *ground) widen(o *Offcut, rings []geom.Ring, cell int64) {
	vacant := func(c Offcut) bool {
		r := geom.Box{Min: c.Min, Max: c.Max}.Ring()
		if !g.takes(r, -1) {
			return false
		}
		for _, p := range rings {
			if touches(r, p, 0) {
				return false
			}
		}
		return true
	}
	if !vacant(*o) {
		return
	}
	for step := max(cell/2, 1); ; step /= 2 {
		for side := range 4 {
			c := *o
			switch side {
			case 0:
				c.Min.X -= step
			case 1:
				c.Max.X += step
			case 2:
				c.Min.Y -= step
			default:
				c.Max.Y += step
			}
			if vacant(c) {
				*o = c
			}
		}
		if step == 1 {
			return
		}
	}
}
