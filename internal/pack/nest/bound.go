package nest

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/coverwright/coverwright/internal/geom"
)

// need is an amount of something that pieces take together, and what every hide has
// of it at most.
type need struct {
	sum  float64
	have []float64
	why  string
}

// needs lists what the pieces take: area, the area fit for demanding pieces, and
// room for circles, where they are so large that a hide takes only so many of them.
func (r *hideRun) needs() []need {
	of := func(sum float64, why string, have func(*ground) float64) need {
		n := need{sum: sum, why: why}
		for _, g := range r.grounds {
			n.have = append(n.have, have(g))
		}
		return n
	}
	area := func(class int) (sum float64) {
		for _, i := range r.items {
			if class < 0 || r.stricter(r.bodies[i].class, class) {
				sum += float64(r.bodies[i].area2)
			}
		}
		return sum
	}
	out := []need{of(area(-1), "area of the pieces against net area of the largest hides", func(g *ground) float64 { return float64(g.net2) })}
	// A class and every stricter one must fit into what its zones leave.
	for c := range r.grounds[0].kinds {
		out = append(out, of(area(c), "area fit for demanding pieces", func(g *ground) float64 { return g.openArea2(c) }))
	}
	var radii []float64
	for _, i := range r.items {
		radii = append(radii, r.bodies[i].inner-r.bodies[i].f.cell)
	}
	slices.Sort(radii)
	slices.Reverse(radii)
	for k, rad := range radii {
		if rad <= 0 {
			break
		}
		if k+1 < len(radii) && radii[k+1] == rad { // the last of equals says more
			continue
		}
		// Every one of the k+1 largest holds a circle of radius rad.
		out = append(out, of(float64(k+1), fmt.Sprintf("%d large pieces, few of which fit on one hide", k+1), func(g *ground) float64 { return g.circles(rad) }))
	}
	return out
}

// least is a number of hides no layout can stay under, and why.
func (r *hideRun) least() (int, string) {
	best, why := 1, "one hide at least"
	for _, n := range r.wants {
		have := slices.Clone(n.have)
		slices.Sort(have)
		sum, count := 0.0, 0
		for sum < n.sum && count < len(have) {
			count++
			sum += have[len(have)-count]
		}
		if sum < n.sum {
			count++ // more than there are
		}
		if count > best {
			best, why = count, n.why
		}
	}
	return best, why
}

// mayHold tells whether no bound forbids that some hides alone hold all pieces.
func (r *hideRun) mayHold(hides []int) bool {
	return !slices.ContainsFunc(r.wants, func(n need) bool {
		sum := 0.0
		for _, g := range hides {
			sum += n.have[g]
		}
		return sum < n.sum
	})
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
