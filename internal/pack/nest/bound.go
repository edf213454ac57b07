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
